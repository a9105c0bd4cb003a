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
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.measuring import content as measuring
from docgen.paperwork.measuring.pages import compose
from docgen.paperwork.typesetting.ink import Ink, Line, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

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


@pytest.mark.parametrize(("across", "known"), [("", None), (", across: 90 mm", 90)])
def test_a_place_that_leads_cross_is_measured_across(
    across: str, known: float | None, aircraft_folder: AircraftFolder
) -> None:
    tray = ("up: 10 mm}, access: canopy", f"up: 10 mm}}, access: canopy{across}")
    changes: Changes = {"aircraft.yaml": [tray], "harness.yaml": [("place: battery-bay", "place: radio-tray")]}
    content = measuring.content(harness_of(aircraft_folder(changes)))
    (found,) = (each for each in content.assemblies[0].measures if each.key == "across")
    # Pack and receiver sit there, with one lead between them.
    assert (found.what, found.leads, found.now_mm, found.measured) == ("across radio-tray", 1, known, bool(across))


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


@pytest.mark.long
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


def test_what_is_not_measured_and_accepted_asks_for_no_sheet_whatever_else_is_found(
    aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    accepted = (TAIL_RUN[1], f"{TAIL_RUN[1]} accept: {{unmeasured: the coax has length to spare}},")
    changes: Changes = {"aircraft.yaml": [TAIL_RUN, accepted], "harness.yaml": [("full: 8.4 V", "full: 9.2 V")]}
    folder = aircraft_folder(changes)
    assert {one.name: bool(one.accepted) for one in harness_of(folder).findings} == {
        "overvolts": False,
        "unmeasured": True,
    }
    assert "measuring-sheet.pdf" not in printed(folder, tmp_path / "paper")


def test_what_is_not_measured_is_asked_for_though_some_of_it_is_accepted(
    aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    accepted = (TAIL_RUN[1], f"{TAIL_RUN[1]} accept: {{unmeasured: the coax has length to spare}},")
    bay = ("[battery-bay, radio-tray], length: 260 mm", "[battery-bay, radio-tray]")
    folder = aircraft_folder({"aircraft.yaml": [TAIL_RUN, accepted, bay]})
    assert "measuring-sheet.pdf" in printed(folder, tmp_path / "paper")


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


RUN = "  - {between: [battery-bay, radio-tray], length: 260 mm}\n"
FIN: list[tuple[str, str]] = [
    ("\nruns:\n", "\n  fin-foot: {assembly: fuselage}\n  fin-tip: {assembly: fuselage}\nruns:\n"),
    (
        RUN,
        f"{RUN}  - {{between: [left-root, fin-foot], length: 130 mm, closed: yes, heat: 60 °C}}\n"
        "  - {between: [fin-foot, fin-tip], length: 70 mm}\n",
    ),
]
RIGHT_MM = 105.0  # where the list begins: the sketch ends at 10 + 92 mm


def grown(aircraft_folder: AircraftFolder) -> Path:
    """Write an aircraft whose fin hangs on its left root, and whose tail run is not measured."""
    return aircraft_folder({"aircraft.yaml": [TAIL_RUN, *FIN]})


def first_page(folder: Path) -> list[Ink]:
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
    return compose(measuring.content(harness_of(folder)), read_page("list-a4"))(block).pages[0].ink


def test_each_row_says_what_it_is_where_it_is_written_and_what_it_carries(aircraft_folder: AircraftFolder) -> None:
    # The straight line of 1120.4 mm as above; the tray's and the tail's edges are sharp, nothing lies along the fin.
    said: dict[float, list[str]] = {}
    for ink in first_page(grown(aircraft_folder)):
        if isinstance(ink, Text) and ink.cell is not None and ink.cell.x_mm > RIGHT_MM:
            said.setdefault(ink.cell.y_mm, []).append(ink.text)
    in_fuselage = list(said.values())[1:7]  # below the headings
    assert in_fuselage == [
        ["1", "radio-tray – tail-post", "straight line; length · sharp · 1 lead", "1120.4"],
        ["2", "battery-bay – radio-tray", "length · 1 lead", "260"],
        ["3", "left-root – fin-foot", "length · closed, hot", "130"],
        ["4", "fin-foot – fin-tip", "length", "70"],
        ["5", "radio-tray – left-root", "length · sharp · 1 lead", "235"],
        ["6", "radio-tray – right-root", "length · sharp · 1 lead", "235"],
    ]


def test_lines_of_the_sketch_lead_from_each_place_to_those_that_hang_on_it(aircraft_folder: AircraftFolder) -> None:
    """By hand: tray – post, bay, left root (– foot – tip), right root."""
    ink = [one for one in first_page(grown(aircraft_folder)) if isinstance(one, Line | Text)]
    names = ["radio-tray", "tail-post", "battery-bay", "left-root", "fin-foot", "fin-tip", "right-root"]
    at = [one for name in names for one in ink if isinstance(one, Text) and one.text == name][: len(names)]
    middles = [text.y_mm - text.height_mm / 2 for text in at]
    assert middles == sorted(middles)
    lines = [one for one in ink if isinstance(one, Line) and one.x2_mm < RIGHT_MM]
    lines = [one for one in lines if middles[0] < one.y1_mm < middles[-1] + 5]
    uprights: dict[float, list[tuple[float, float]]] = {}
    for line in sorted((one for one in lines if one.x1_mm == one.x2_mm), key=lambda one: one.y1_mm):
        parts = uprights.setdefault(line.x1_mm, [])
        goes_on = bool(parts) and parts[-1][1] == pytest.approx(line.y1_mm)
        parts[-1:] = [(parts[-1][0], line.y2_mm)] if goes_on else [*parts[-1:], (line.y1_mm, line.y2_mm)]

    def row(y_mm: float) -> str:
        return next((name for name, at_mm in zip(names, middles, strict=True) if abs(at_mm - y_mm) < 3), "none")

    found = [[(row(top), row(bottom)) for top, bottom in parts] for _, parts in sorted(uprights.items())]
    assert found == [[("radio-tray", "right-root")], [("left-root", "fin-foot")], [("fin-foot", "fin-tip")]]
    lefts = sorted(uprights)
    level = {row(one.y1_mm): (one.x1_mm, one.x2_mm) for one in lines if one.y1_mm == one.y2_mm}
    depths = {"tail-post": 0, "battery-bay": 0, "left-root": 0, "fin-foot": 1, "fin-tip": 2, "right-root": 0}
    assert {name: left for name, (left, _) in level.items()} == {name: lefts[depth] for name, depth in depths.items()}
    for name, (left, right) in level.items():
        (text,) = (one for one in at if one.text == name)
        assert left < right < text.x_mm
