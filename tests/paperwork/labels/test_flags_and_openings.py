"""Where a label is a flag, why, and where it may be none; and that the cut list has tubes for the others alone."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from pypdf import PdfReader
from resolved import EXAMPLES, harness_of

from docgen.paperwork.cut_list import content as cut_list
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.reading import KINDS
from docgen.paperwork.stocks.stock import compose
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder

    from docgen.harness.model.harness import Harness

BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
RUN = "- {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}"


# A strip once round three wires of 26 AWG has room for one line of 28 mm on either half: for RUD and some 20 letters.
SERVO = "rudder-servo-in-the-fin"
LONG = [
    ("\n  rudder:\n    kind", f"\n  {SERVO}:\n    kind"),
    ("    to: rudder\n", f"    to: {SERVO}\n"),
]


@pytest.fixture(scope="module")
def long_names(tmp_path_factory: pytest.TempPathFactory) -> Harness:
    """Return Wren with a name of the rudder's servo that is too long for a strip round its wires."""
    folder = Path(shutil.copytree(EXAMPLES / "wren", tmp_path_factory.mktemp("long") / "wren"))
    with_long_name(folder)
    return harness_of(folder)


def with_long_name(folder: Path) -> Path:
    file = folder / "harness.yaml"
    text = file.read_text("utf-8")
    begin = text.index("\n  rudder:\n    label")
    rudder = text[begin:].replace("lead: servo-22", "lead: servo-26", 1)
    text = text[:begin] + rudder
    for old, new in LONG:
        assert text.count(old) == 1
        text = text.replace(old, new)
    file.write_text(text, "utf-8")
    return folder


def notes(harness: Harness, stock: str) -> list[str]:
    return compose(wire_labels.content(harness), read_shipped(stock, KINDS))(BLOCK).notes


def test_labels_whose_names_are_too_long_for_a_strip_are_flags_and_the_builder_is_told_so(long_names: Harness) -> None:
    [note] = notes(long_names, "strips-a4")
    why, _, named = note.partition(": ")
    assert "no room for where these go, so they are flags" in why
    assert "shorter names" in why
    assert "another stock" in why
    assert named == f"RUD at {SERVO} (flag)."
    assert "no tube" not in note


def test_the_cut_list_has_a_tube_for_each_label_that_takes_one_on_the_sheet(long_names: Harness) -> None:
    pdf = make_paperwork(long_names, Choice(stems=("wire-labels",))).files["wire-labels.pdf"]
    said = "\n".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)
    named = Counter(re.findall(r"(clear[-\d.]*) · 47 mm", said))
    flags = said.count("flag: halves back to back")
    assert (sum(named.values()), flags) == (11, 1)
    assert cut_list.content(long_names).label_tubes == named


# What passes an opening has a tenth to spare. A servo plug of 8 × 3 mm has a circle of 8.5 mm, 9.4 mm with that; the
# three wires of 1.6 mm, 3.45 mm round, still pass 4 mm, but none with a contact of 2.7 mm over its insulation.
@pytest.mark.parametrize(("hole", "through"), [("20 mm", [("rudder", "to")]), ("4 mm", []), (None, [])])
def test_the_end_that_goes_through_an_opening_with_its_contacts_on_is_known(
    aircraft_folder: AircraftFolder, hole: str | None, through: list[tuple[str, str]]
) -> None:
    changes = {"aircraft.yaml": [(RUN, f"{RUN[:-1]}, hole: {hole}}}")]} if hole is not None else {}
    labels = wire_labels.content(harness_of(aircraft_folder(changes))).labels
    assert [(of.key.circuit, of.key.end) for of in labels if of.goes_through] == through


def test_what_goes_through_an_opening_is_no_flag_and_says_less(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"aircraft.yaml": [(RUN, f"{RUN[:-1]}, hole: 20 mm}}")]})
    made = compose(wire_labels.content(harness_of(with_long_name(folder))), read_shipped("strips-a4", KINDS))(BLOCK)
    assert made.notes == []
    [finding] = made.findings
    assert f"has room for its function only, not for `{SERVO}`" in finding.sentence


def test_what_no_strip_can_show_is_a_flag_though_it_goes_through_an_opening_and_that_is_told(
    aircraft_folder: AircraftFolder,
) -> None:
    folder = aircraft_folder({"aircraft.yaml": [(RUN, f"{RUN[:-1]}, hole: 20 mm}}")]})
    harness = (with_long_name(folder) / "harness.yaml").read_text("utf-8")
    # No line of 28 mm holds it, and there is one alone; on a flag its words stand below each other.
    (folder / "harness.yaml").write_text(
        harness.replace("label: RUD\n", "label: RUDDER BEHIND ALL THE REST\n"), "utf-8"
    )
    first, last = notes(harness_of(folder), "strips-a4")
    assert first.endswith(f" at {SERVO} (flag).")
    assert last.startswith("flags catch, and these go through an opening")
    assert last.endswith(f": RUDDER BEHIND ALL THE REST at {SERVO}.")


def test_on_a_sheet_of_flags_the_builder_is_told_which_go_through_an_opening(aircraft_folder: AircraftFolder) -> None:
    holed = harness_of(aircraft_folder({"aircraft.yaml": [(RUN, f"{RUN[:-1]}, hole: 20 mm}}")]}))
    [note] = notes(holed, "flags-a4")
    assert note == "flags catch, and these go through an opening; print them on another stock: RUD at rudder."
    assert notes(harness_of(EXAMPLES / "wren"), "flags-a4") == []
