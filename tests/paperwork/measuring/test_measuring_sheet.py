"""The measuring sheet: what is not known first, a box for each, a sketch; printed where something is not measured."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from conftest import Changes
from measured import printed_pages
from page_facts import sheets_of
from resolved import EXAMPLES, harness_of

from docgen.cli import docgen
from docgen.paperwork.measuring import content as measuring

AircraftFolder = Callable[[Changes], Path]

POST = ("at: {aft: 1540 mm, up: 40 mm}, ", "")
TAIL_RUN = ("[radio-tray, tail-post],   length: 1140 mm,", "[radio-tray, tail-post],")
NO_TAIL_RUN = ("  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n", "")


def rows(folder: Path, assembly: str) -> list[tuple[str, str, float | None, bool]]:
    [found] = [one for one in measuring.content(harness_of(folder)).assemblies if one.name == assembly]
    return [(each.what, each.key, each.now_mm, each.measured) for each in found.measures]


def test_what_is_not_measured_comes_first(aircraft_folder: AircraftFolder) -> None:
    assert rows(aircraft_folder({"aircraft.yaml": [TAIL_RUN, POST]}), "fuselage") == [
        ("radio-tray – tail-post", "length", None, False),
        ("battery-bay – radio-tray", "length", 260, True),
        ("radio-tray – left-root", "length", 235, True),
        ("radio-tray – right-root", "length", 235, True),
    ]


def test_a_straight_line_stands_there_as_not_measured(aircraft_folder: AircraftFolder) -> None:
    # From (420, 0, 10) to (1540, 0, 40): √(1120² + 30²) = 1120.4 mm.
    first = rows(aircraft_folder({"aircraft.yaml": [TAIL_RUN]}), "fuselage")[0]
    assert (first[0], first[3]) == ("radio-tray – tail-post", False)
    assert round(first[2] or 0, 1) == 1120.4


def test_a_way_that_no_run_makes_yet_is_a_run_to_write(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"aircraft.yaml": [NO_TAIL_RUN]})
    way = ("radio-tray – tail-post", "a run", None, False)
    assert rows(folder, "fuselage")[0] == way
    assert way not in rows(folder, "left-panel")


def test_tails_of_halves_and_own_leads_are_measured_where_they_are(aircraft_folder: AircraftFolder) -> None:
    changes: Changes = {"harness.yaml": [(", reach: 120 mm", ""), ("    lead: 250 mm  ", "    ")]}
    found = rows(aircraft_folder(changes), "left-panel")
    assert found == [
        ("tail of left-root, loose half", "reach", None, False),
        ("own lead of left-aileron", "lead", None, False),
        ("left-panel-root – left-aileron", "length", 745, True),
    ]


def test_the_sketch_hangs_each_place_on_the_run_that_leads_to_it(aircraft_folder: AircraftFolder) -> None:
    content = measuring.content(harness_of(aircraft_folder({"aircraft.yaml": [TAIL_RUN, POST]})))
    sketch = [(one.place, one.depth, one.number, one.now_mm) for one in content.assemblies[0].sketch]
    assert sketch == [
        ("radio-tray", 0, None, None),
        ("tail-post", 1, 1, None),
        ("battery-bay", 1, 2, 260),
        ("left-root", 1, 3, 235),
        ("right-root", 1, 4, 235),
    ]


def printed(folder: Path, to: Path, *words: str) -> set[str]:
    result = CliRunner().invoke(docgen, ["print", str(folder), *words, "--to", str(to)])
    assert result.exit_code == 0, result.output
    return {path.name for path in to.rglob("*.pdf")}


def test_it_is_printed_where_something_is_not_measured_or_when_asked_for(
    aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    sheet = "measuring-sheet.pdf"
    assert sheet not in printed(EXAMPLES / "wren", tmp_path / "whole")
    assert sheet in printed(EXAMPLES / "wren", tmp_path / "asked", "measuring-sheet")
    # A run that is not measured is accepted there, and its panels are measured here.
    assert sheet not in printed(EXAMPLES / "fulmar", tmp_path / "accepted")
    folder = aircraft_folder({"aircraft.yaml": [TAIL_RUN, POST]})
    assert sheet in printed(folder, tmp_path / "fuselage", "--assembly", "fuselage")
    assert sheet not in printed(folder, tmp_path / "panel", "--assembly", "left-panel")
    assert sheet in printed(aircraft_folder({"aircraft.yaml": [TAIL_RUN, POST]}), tmp_path / "open")


def test_its_page_shows_each_row_and_each_place_of_the_sketch(tmp_path: Path) -> None:
    printed(EXAMPLES / "wren", tmp_path, "measuring-sheet")
    pages = sheets_of((tmp_path / "measuring-sheet.pdf").read_bytes())
    said = {text.text for page in pages for text in page.texts}
    for text in ("radio-tray – tail-post", "tail-post", "1140", "1140 mm", "left-panel-root – left-aileron", "745"):
        assert text in said


def test_numbers_of_the_sketch_stand_in_the_middle_of_their_boxes(tmp_path: Path) -> None:
    printed(EXAMPLES / "wren", tmp_path, "measuring-sheet")
    numbered = 0
    for page in printed_pages(tmp_path / "measuring-sheet.pdf"):
        for box in page.outlines:
            if box.right - box.left > 6:
                continue
            texts = [text.box for text in page.texts if box.holds(text.box)]
            for text in texts:
                assert (text.top + text.bottom) / 2 == pytest.approx((box.top + box.bottom) / 2, abs=0.3)
                assert (text.left + text.right) / 2 == pytest.approx((box.left + box.right) / 2, abs=0.3)
            numbered += len(texts)
    assert numbered == 6  # a run each: four in the fuselage, one in each panel
