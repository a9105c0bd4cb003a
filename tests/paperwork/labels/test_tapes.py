"""Labels on tape: the flat tube as measured, corrected for a printer, and what is refused."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from measured import Box, PrintedPage, printed_pages
from printed_labels import BENCH, WREN, Run, each

if TYPE_CHECKING:
    from conftest import AircraftFolder


def test_the_measured_flat_width_is_what_is_printed_on(labels: Callable[..., list[PrintedPage]]) -> None:
    # A tube of 8 mm in a tape of 9 mm lies in its middle: 0.5 mm free on either side, and 0.8 mm clear.
    for page in labels(WREN, "--stock", "tape-9", "--flat", "8mm"):
        assert page.height_mm == pytest.approx(9, abs=0.01)
        zone = Box(2, 0.5 + 0.8, page.width_mm - 2, 9 - 0.5 - 0.8)
        assert page.ink_outside(Box(0, 0, page.width_mm, 9), [zone.grown(0.05)]) == []


def test_a_narrower_tube_has_to_fit_the_wires_too(run: Run) -> None:
    # 5.5 mm flat is 2 × 5.5 / π = 3.50 mm round; three wires of 1.6 mm need 1.1 × 3.448 = 3.79 mm.
    ran = run("print", WREN, "wire-labels", "--only", "rudder", "--stock", "tape-6", "--flat", "5.5mm")
    assert "tube of 3.5 mm, 1.2 mm shrunk, is too narrow to pass 3.4 mm; it would have to be of 3.8 mm." in ran.stderr
    assert "Print it on a wider stock." in ran.stderr
    assert "nothing to show" in ran.stderr


def test_a_wider_tube_has_to_grip_the_wires_too(run: Run) -> None:
    # 18 mm flat is 2 × 18 / π = 11.46 mm round, a third of it 3.8 mm; three wires of 1.6 mm want 0.9 × 3.128 = 2.8 mm.
    ran = run("print", WREN, "wire-labels", "--only", "rudder", "--stock", "tape-18")
    assert "tube of 11.5 mm, 3.8 mm shrunk, is too wide to grip 3.1 mm; it would have to shrink to 2.8" in ran.stderr
    assert "narrower stock" in ran.stderr


def test_a_stock_that_a_plug_does_not_pass_may_go_on_before_crimping(run: Run, aircraft_folder: AircraftFolder) -> None:
    # The girth of the servo plug, 21.8 mm, is as long as that of 6.94 mm round; the tape's tube is 5.7 mm.
    folder = each(aircraft_folder(), "lead, fit: after")
    ran = run("print", folder, "wire-labels", "--only", "rudder", "--stock", "tape-9")
    assert "too narrow to pass 6.9 mm; it would have to be of 7.6 mm." in ran.stderr
    assert "fit it before crimping (`labels: {fit: before}`)" in ran.stderr


@pytest.mark.parametrize("flat", ["8", "wide", "-3mm"])
def test_a_flat_width_that_is_none_is_wrong_use(run: Run, flat: str) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", "tape-9", "--flat", flat)
    assert ran.exit_code == 2
    assert "--flat" in ran.stderr


def test_a_flat_width_over_the_tape_s_is_refused_or_found(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", "tape-9", "--flat", "12mm")
    assert ran.exit_code == 2 or "12 mm" in ran.stderr


@pytest.mark.parametrize(
    ("scale", "shift"), [((1.0, 1.0), (1.0, 1.0)), ((1.015, 0.985), (-1.0, -1.0)), ((0.98, 1.03), (2.0, -0.5))]
)
@pytest.mark.parametrize("flat", [9.0, 8.0])
def test_on_tape_nothing_is_cut_that_is_corrected_for_a_printer(
    run: Run, scale: tuple[float, float], shift: tuple[float, float], flat: float
) -> None:
    across, down = (f"{100 * side:g} %" for side in scale)
    Path("printer.yaml").write_text(
        f"kind: printer\nscale: [{across}, {down}]\nshift: [{shift[0]} mm, {shift[1]} mm]\n"
    )
    # In small type, so that what is left of a narrow tape has room for it.
    folder = each(copied(WREN), "lead, least_type: 0.7 mm")
    words = ["wire-labels", "--stock", "tape-9", "--flat", f"{flat}mm", "--printer", "printer.yaml", "--to", "paper"]
    ran = run("print", folder, *words)
    assert ran.exit_code == 0
    pages = printed_pages(Path("paper/wire-labels.pdf"))
    assert len(pages) == 12
    for page in pages:
        zone = Box(2, (9 - flat) / 2 + 0.8, page.width_mm - 2, (9 + flat) / 2 - 0.8)
        assert page.ink_outside(Box(0, 0, page.width_mm, 9), [zone.grown(0.05)]) == []
        assert {text.text for text in page.texts if text.bold} & set(BENCH)
        # The printer puts a point at scale × point + shift: there it is in the zone as well.
        for text in page.texts:
            left, right = (scale[0] * side + shift[0] for side in (text.box.left, text.box.right))
            top, bottom = (scale[1] * side + shift[1] for side in (text.box.top, text.box.bottom))
            assert zone.holds(Box(left, top, right, bottom), slack_mm=0.05)


def test_a_shift_that_leaves_a_tape_no_room_is_found(run: Run) -> None:
    Path("printer.yaml").write_text("kind: printer\nscale: [100 %, 100 %]\nshift: [0 mm, 4 mm]\n")
    ran = run("print", WREN, "wire-labels", "--stock", "tape-6", "--printer", "printer.yaml", "--to", "paper")
    assert ran.exit_code == 0
    # Of twelve labels; what is found on the left and on the right is said once.
    assert len(re.findall("caution (?:type|tube): the label", ran.stderr)) == 8
    assert ran.stderr.count("also: right-aileron") == 4
    assert "4.8 mm at its edges" in ran.stderr
    assert not Path("paper/wire-labels.pdf").exists()


def copied(folder: Path) -> Path:
    return Path(shutil.copytree(folder, "copied"))


def test_a_flat_width_without_a_tape_is_refused(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--flat", "8.6mm")
    assert ran.exit_code == 2
    assert "--stock" in ran.stderr
