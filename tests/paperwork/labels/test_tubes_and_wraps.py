"""Labels on the tube and film that fits: own leads, the heat of the route, print that film covers."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from printed_labels import FULMAR, OWN, WREN, Run, each, functions, own, printed_on

if TYPE_CHECKING:
    from conftest import AircraftFolder
    from measured import PrintedPage


@pytest.mark.parametrize("function", [f"ĵ{'n' * 24}ď", f"j{'n' * 24}ř"])
def test_ink_that_reaches_out_of_its_letter_stays_in_the_zone(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, function: str
) -> None:
    folder = each(
        aircraft_folder({"harness.yaml": [("label: RX BATT", f"label: {function}")]}), "lead, least_type: 1 mm"
    )
    found = printed_on(labels(folder, "--only", "supply", "--stock", "carrier-a4"), "carrier-a4")
    assert len(found) == 2
    for label in found:
        # At the left of what is clear the arrowhead and its space of 2.4 mm too.
        assert label.zones[0].left + 2.4 - 0.03 <= label.function.box.left
        assert label.function.box.right <= label.zones[0].right + 0.03


@pytest.mark.parametrize(("circuit", "around"), [("rudder", 9.83), ("supply", 9.25)])
@pytest.mark.parametrize("printed", [8, 12, 16, 18])
def test_only_clear_film_comes_to_lie_over_the_type_of_a_wrap(
    labels: Callable[..., list[PrintedPage]], circuit: str, around: float, printed: int
) -> None:
    # Round the wires by hand: π × 1.955 × 1.6 mm and π × 1.637 × 1.8 mm, once to a turn. What is printed is wrapped on
    # first, so all of it but the last turn has print over it; of that turn type takes half, seen from one side.
    wrap = OWN.replace("label sheet", "label wraps").replace("printer: thermal transfer", "printer: sheet")
    wrap = wrap.replace("tube: {expanded: 4.8 mm, recovered: 2.4 mm}\n", "limit: 210 °C\n")
    wrap = wrap.replace("{length: 55 mm, width: 7.6 mm}", f"{{length: 55 mm, printed: {printed} mm, cover: 20 mm}}")
    wrap = wrap.replace("down: 8", "down: 3").replace("12 mm]}", "40 mm]}")
    [page] = labels(WREN, "--stock", own(wrap), "--only", circuit)
    begins = 28 + max(printed - around, 0)
    texts = [text for text in page.texts if 28 < text.base_mm < 68]
    assert len(texts) >= 4
    for text in texts:
        assert begins + 0.4 - 0.05 <= text.box.top
        assert text.box.bottom <= min(begins + around / 2, 28 + printed) - 0.4 + 0.05


AFT = "- {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}"
HOT_CLEAR = "tubes: {hot-clear: {expanded: 6 mm, recovered: 1.5 mm, wall: 0.5 mm, clear: yes, limit: 200 °C}}\n"
TUBE_LIMIT = OWN.replace("recovered: 2.4 mm}", "recovered: 2.4 mm, limit: 125 °C}")
TAPE = "kind: label tape\nprinter: tape\nwidth: 9 mm\nshrinks: 3:1\nlength: [30 mm, 80 mm]\n"
TAPE += "clear: {ends: 2 mm, edges: 0.8 mm}\n"


@pytest.mark.parametrize(
    ("heat", "stock", "parts", "told"),
    [
        # The clear tubes of the parts list stand 135 °C.
        (135, "strips-a4", None, None),
        (136, "strips-a4", None, "`clear-4.5` stands 135 °C, and no clear tube that fits stands more."),
        (136, "strips-a4", HOT_CLEAR, None),
        (125, TUBE_LIMIT, None, None),
        (126, TUBE_LIMIT, None, "the stock's tube stands 125 °C."),
        (126, f"{TAPE}limit: 125 °C\n", None, "the stock's tube stands 125 °C."),
        (126, TAPE, None, None),
    ],
)
def test_the_heat_of_its_way_counts_for_every_tube(
    run: Run, aircraft_folder: AircraftFolder, heat: int, stock: str, parts: str | None, told: str | None
) -> None:
    changes: dict[str, Any] = {"aircraft.yaml": [(AFT, f"{AFT[:-1]}, heat: {heat} °C}}")]}
    folder = aircraft_folder(changes | ({"parts.yaml": parts} if parts else {}))
    ran = run("print", folder, "wire-labels", "--only", "rudder", "--stock", stock if "\n" not in stock else own(stock))
    assert ran.exit_code == 0
    found = re.findall(r"caution heat: (the label .*)", ran.stderr)
    assert len(found) == (2 if told else 0), ran.stderr
    assert all(f"lies in {heat} °C; {told}" in sentence for sentence in found)
    assert Path("out/wren/wire-labels.pdf").is_file()


@pytest.mark.parametrize(("stock", "count"), [("flags-a4", 1), ("wraps-letter", 1)])
def test_own_leads_are_printed_to_be_wrapped(labels: Callable[..., list[PrintedPage]], stock: str, count: int) -> None:
    found = functions(labels(FULMAR, "--only", "gyro", "--stock", stock), stock)
    assert [name for name in found if name] == ["GYRO"] * count


@pytest.mark.parametrize("stock", ["carrier-a4", "tape-9"])
def test_own_leads_whose_plugs_no_tube_passes_are_left_out_and_named_on_tube(run: Run, stock: str) -> None:
    ran = run("print", FULMAR, "wire-labels", "--only", "gyro", "--stock", stock)
    assert ran.exit_code == 0
    assert "GYRO at receiver-a 6" in ran.stderr
    assert not Path("out/fulmar/wire-labels.pdf").exists()


# Three wires of 0.9 mm grip 1.76 mm; a servo plug is as thick as 6.94 mm round, with a tenth to spare 7.63 mm.
STEEP = """tubes:
  steep-clear: {expanded: 7.7 mm, recovered: 2.0 mm, wall: 1 mm, clear: yes}
"""


def test_own_leads_get_a_tube_over_the_plug_where_one_passes_it(
    labels: Callable[..., list[PrintedPage]], tmp_path: Path
) -> None:
    folder = Path(shutil.copytree(FULMAR, tmp_path / "own"))
    (folder / "parts.yaml").write_text(STEEP, "utf-8")
    [label] = printed_on(labels(folder, "--only", "gyro"), "strips-a4")
    assert label.beside == "steep-clear · 47 mm"
