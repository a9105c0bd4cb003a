"""Every length that can be written has its row, and every place its name in the sketch, held against the harness."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.model.harness import Harness
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.measuring import content as measuring
from docgen.paperwork.measuring.pages import compose
from docgen.paperwork.typesetting.ink import Box, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
# The area is 190 mm wide; sketch and list have half of it each, less half of the 6 mm between them.
LEFT_MM, SKETCH_END_MM, LIST_MM, RIGHT_MM = 10.0, 102.0, 108.0, 200.0
KEYS = "straight line; length|length|a run|across|reach|lead"


class Listed(NamedTuple):
    """A row of the list: its assembly, number, what is measured, what stands small below it, and what is known."""

    assembly: str
    number: int
    what: str
    under: str
    now: str


class Drawn(NamedTuple):
    """A place of the sketch: its assembly, depth, name, number and length, and the text of its name."""

    assembly: str
    depth: int
    place: str
    number: int | None
    now: str
    name: Text


class Sheet:
    """All pages: rows of the list, places of the sketch, and what is drawn beside them."""

    def __init__(self, harness: Harness) -> None:
        self.listed: list[Listed] = []
        self.drawn: list[Drawn] = []
        self.ruled: set[tuple[str, int]] = set()
        self.fields: list[tuple[str, int]] = []
        self.texts: list[str] = []
        self.sketched: dict[str, list[Ink]] = {}
        self.tops: dict[str, list[float]] = {}
        assembly = ""
        for page in compose(measuring.content(harness), read_page("list-a4"))(BLOCK).pages:
            self.texts += [ink.text for ink in page.ink if isinstance(ink, Text)]
            for name, ink in _bands(page.ink, assembly):
                assembly = name
                if assembly:
                    self._read(assembly, ink)

    def _read(self, assembly: str, ink: list[Ink]) -> None:
        texts = [one for one in ink if isinstance(one, Text)]
        rows: dict[Box, list[Text]] = {}
        for text in texts:
            if text.cell is not None and text.cell.x_mm >= LIST_MM:
                rows.setdefault(Box(LIST_MM, text.cell.y_mm, 0, text.cell.height_mm), []).append(text)
        for row, said in rows.items():
            if said[0].text.isdecimal():  # below the headings
                self._read_row(assembly, ink, row, said)
        numbers = [one for one in texts if one.align == "centre"]
        lefts = sorted({round(text.x_mm, 2) for text in numbers})
        names = [one for one in texts if one.cell is None and one.x_mm < SKETCH_END_MM and one.align == "left"]
        for name in (one for one in names if one.height_mm > 2):
            middle = name.y_mm - name.height_mm / 2
            number = [one for one in numbers if abs(one.y_mm - one.height_mm / 2 - middle) < 0.01]
            depth = lefts.index(round(number[0].x_mm, 2)) + 1 if number else 0
            now = "".join(one.text for one in texts if _is_length(one, middle))
            self.drawn.append(Drawn(assembly, depth, name.text, int(number[0].text) if number else None, now, name))
        sketched = self.sketched.setdefault(assembly, [])
        sketched += [one for one in ink if isinstance(one, Line) and one.x2_mm < SKETCH_END_MM]
        sketched += [one for one in ink if isinstance(one, Shape) and max(one.points_mm)[0] < SKETCH_END_MM]

    def _read_row(self, assembly: str, ink: list[Ink], row: Box, texts: list[Text]) -> None:
        said = " ".join(text.text for text in texts[1:] if text.align == "left")
        now = "".join(text.text for text in texts[1:] if text.align == "right")
        number, told = int(texts[0].text), re.fullmatch(rf"(.+?) (({KEYS})(?: · .+)?)", said)
        assert told is not None, said
        self.listed.append(Listed(assembly, number, told[1], told[2], now))
        self.tops.setdefault(assembly, []).append(row.y_mm)
        self.fields += [(assembly, number) for shape in ink if isinstance(shape, Shape) and _is_field(shape, row)]
        lines = (one for one in ink if isinstance(one, Line) and (one.x1_mm, one.x2_mm) == (LIST_MM, RIGHT_MM))
        self.ruled |= {(assembly, number) for line in lines if abs(line.y1_mm - row.y_mm) < 0.01}


def _bands(ink: list[Ink], assembly: str) -> Iterator[tuple[str, list[Ink]]]:
    """Walk what stands below each band; one on a page's head goes on from the page before."""
    some: list[Ink] = []
    for one in ink:
        if isinstance(one, Text) and one.cell is not None and one.cell.width_mm == RIGHT_MM - LEFT_MM:
            yield assembly, some
            assembly, some = one.text.removesuffix(", continued"), []
        some.append(one)
    yield assembly, some


def _is_field(shape: Shape, row: Box) -> bool:
    lefts, tops = ([point[axis] for point in shape.points_mm] for axis in (0, 1))
    inside = row.y_mm < min(tops) and max(tops) < row.bottom_mm
    return inside and min(lefts) > LIST_MM + 40 and max(lefts) - min(lefts) == pytest.approx(18)


def _is_length(text: Text, middle: float) -> bool:
    at_end = text.align == "right" and text.x_mm == pytest.approx(SKETCH_END_MM)
    return at_end and abs(text.y_mm - text.height_mm / 2 - middle) < 0.01


@cache
def sheet_of(example: str) -> Sheet:
    return Sheet(harness_of(EXAMPLES / example))


def figure(length_mm: float | None) -> str:
    """Return a length as it is printed: a tenth where it is no whole number."""
    return "" if length_mm is None else f"{round(length_mm, 1):g}"


def assembly_of(harness: Harness, place: str) -> str:
    return str(harness.places[place].assembly)


def wanted(harness: Harness) -> Iterator[tuple[str, str, str, str]]:
    """Walk what there is to measure: assembly, what, what stands below it, and what is known, by the harness."""
    leads = list(harness.leads())
    ways = [(run, bundle) for run, bundle in zip(harness.runs, harness.bundles, strict=True)]
    for run, bundle in ways:
        straight = "straight line; " if run.length_mm is not None and not run.measured else ""
        passes = [*["sharp"] * run.sharp, *["closed"] * run.closed, *["hot"] * (run.heat_c is not None)]
        said = [f"{straight}length", ", ".join(passes), counted(len(bundle.leads))]
        under = " · ".join(part for part in said if part)
        yield assembly_of(harness, run.between[0]), " – ".join(run.between), under, figure(run.length_mm)
    crossed = Counter(lead.route.places[0] for lead in leads if len(lead.route.places) == 1)
    for place, count in crossed.items():
        across = figure(harness.places[place].across_mm)
        yield assembly_of(harness, place), f"across {place}", f"across · {counted(count)}", across
    for name, joint in harness.disconnects.items():
        for half in joint.halves:
            if not half.fixed and not half.came_on:
                told = f"tail of {name}, {half.name} half"
                yield assembly_of(harness, half.place), told, "reach", figure(half.reach_mm)
    unknown = {end.name for lead in leads for end in lead.ends if end.own is not None and end.own.length_mm is None}
    for name in unknown:
        yield assembly_of(harness, harness.equipment[name].place), f"own lead of {name}", "lead", ""


def counted(count: int) -> str:
    return f"{count} lead{'s' if count > 1 else ''}" if count else ""


@pytest.mark.parametrize("example", ["wren", "fulmar", "wisp"])
def test_each_length_has_one_row_with_where_it_is_written_what_it_passes_and_what_is_known(example: str) -> None:
    listed = sheet_of(example).listed
    assert Counter((row.assembly, row.what, row.under, row.now) for row in listed) == Counter(
        wanted(harness_of(EXAMPLES / example))
    )
    in_order = list(dict.fromkeys(row.assembly for row in listed))
    assert in_order == [name for name in harness_of(EXAMPLES / example).assemblies if name in in_order]


@pytest.mark.parametrize("example", ["wren", "fulmar", "wisp"])
def test_rows_are_numbered_what_is_not_measured_first_with_a_box_each_and_lines_between(example: str) -> None:
    sheet = sheet_of(example)
    ruled = set()
    for assembly in dict.fromkeys(row.assembly for row in sheet.listed):
        rows = [row for row in sheet.listed if row.assembly == assembly]
        assert [row.number for row in rows] == list(range(1, len(rows) + 1))
        known = [bool(row.now) and not row.under.startswith("straight line") for row in rows]
        assert known == sorted(known)
        # A line over each that is not measured, and over the first below them that is.
        ruled |= {(assembly, row.number) for row, is_known in zip(rows, known, strict=True) if not is_known}
        ruled |= {(assembly, known.index(True) + 1)} if True in known and False in known else set()
    assert sheet.ruled == ruled
    assert sheet.fields == [(row.assembly, row.number) for row in sheet.listed]


def test_it_says_how_to_measure_above_and_warns_of_what_hurts() -> None:
    said = " ".join(sheet_of("wren").texts)
    assert "Lay a string along the way that the wires go, from where one plug, half or unit sits" in said
    assert "Sketch: what hangs on what, not to scale; numbers are those of the rows." in said
    assert said.count("Packs out of the aircraft before a hand goes in. Edges of formers cut hands too.") == 1


def assert_is_a_tree(sheet: Sheet) -> None:
    """Hold that each place that a way leads to is there once, below the place from which its number leads to it."""
    ways = {(row.assembly, row.number): row for row in sheet.listed if " – " in row.what}
    for assembly in {row.assembly for row in sheet.drawn}:
        drawn = [row for row in sheet.drawn if row.assembly == assembly]
        joined = {place for at, row in ways.items() if at[0] == assembly for place in row.what.split(" – ")}
        assert sorted(row.place for row in drawn) == sorted(joined)
        above: list[Drawn] = []
        below: dict[str, list[int]] = {}
        for row in drawn:
            del above[row.depth :]
            assert len(above) == row.depth
            if row.number is not None:
                way = ways[assembly, row.number]
                assert {*way.what.split(" – ")} == {above[-1].place, row.place}
                assert row.now == (f"{way.now} mm" if way.now else "")
                below.setdefault(above[-1].place, []).append(row.number)
            assert (row.number is None) == (row.depth == 0)
            above.append(row)
        assert all(numbers == sorted(numbers) for numbers in below.values())


@pytest.mark.parametrize("example", ["wren", "fulmar", "wisp"])
def test_each_place_of_the_sketch_hangs_where_its_number_leads_to(example: str) -> None:
    sheet = sheet_of(example)
    assert_is_a_tree(sheet)
    for row in sheet.drawn:
        # Names begin behind their numbers, which are 5 mm further right with each step down.
        assert row.name.x_mm == pytest.approx(LEFT_MM + (8.4 + 5 * row.depth if row.number else 4.3), abs=0.01)


def test_two_ways_between_two_places_are_two_rows_and_lead_there_once(aircraft_folder: AircraftFolder) -> None:
    bay = "  - {between: [battery-bay, radio-tray], length: 260 mm}\n"
    tail = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
    changes: Changes = {"aircraft.yaml": [(tail, f"{tail}{bay.replace('260', '280')}")]}
    sheet = Sheet(harness_of(aircraft_folder(changes)))
    assert [row.now for row in sheet.listed if row.what == "battery-bay – radio-tray"] == ["260", "280"]
    assert_is_a_tree(sheet)


DEPTH = 12
NAME = "former-{}-behind-the-second-spar-of-the-fin-right-above-the-rudder"


@pytest.fixture(scope="module")
def deep(tmp_path_factory: pytest.TempPathFactory) -> Sheet:
    """Return the sheet of an aircraft whose places hang on each other one below the other, with long names."""
    text = (EXAMPLES / "wren" / "aircraft.yaml").read_text("utf-8")
    names = [NAME.format(number) for number in range(DEPTH)]
    places = "".join(f"  {name}: {{assembly: fin}}\n" for name in names)
    runs = "".join(f"  - {{between: [{one}, {other}], length: 1234.5 mm}}\n" for one, other in pairwise(names))
    text = text.replace("\nruns:\n", f"\n{places}runs:\n").replace("\nflight", f"\n{runs}\nflight")
    folder = tmp_path_factory.mktemp("deep")
    for path in (EXAMPLES / "wren").glob("*.yaml"):
        (folder / path.name).write_text(text if path.name == "aircraft.yaml" else path.read_text("utf-8"), "utf-8")
    return Sheet(harness_of(folder))


def test_however_deep_a_place_hangs_its_name_and_length_stay_in_the_sketch(deep: Sheet) -> None:
    rows = [row for row in deep.drawn if row.assembly == "fin"]
    assert len(rows) == DEPTH
    assert [row.number for row in rows] == [None, *range(1, DEPTH)]
    # Nine steps of 5 mm are the most.
    lefts = [row.name.x_mm for row in rows[1:]]
    assert lefts == pytest.approx([LEFT_MM + 8.4 + 5 * min(depth, 9) for depth in range(1, DEPTH)], abs=0.01)
    for number, row in enumerate(rows):
        room_mm = SKETCH_END_MM - (width_mm(row.now, 1.8) if row.now else 0.0) - 2 - row.name.x_mm
        shown, whole = row.place.removesuffix("…"), NAME.format(number)
        assert whole.startswith(shown)
        # One letter more has no room before the length.
        assert width_mm(row.place, row.name.height_mm) <= room_mm
        assert shown == whole or width_mm(f"{whole[: len(shown) + 1]}…", row.name.height_mm) > room_mm
    assert {row.now for row in rows} == {"", "1234.5 mm"}


def middle_of(row: Drawn) -> float:
    return row.name.y_mm - row.name.height_mm / 2


def stem_of(row: Drawn) -> float:
    """Return where across the line stands that goes down from a place: at the left of its number, 5 mm a step."""
    return LEFT_MM + 2.3 + 5 * min(row.depth, 9)


def rounded(*values_mm: float) -> tuple[float, ...]:
    return tuple(round(value, 2) for value in values_mm)


def spans(lines: list[Line]) -> list[tuple[float, float]]:
    """Return from where to where upright lines go down, those that meet as one."""
    found: list[tuple[float, float]] = []
    for top, bottom in sorted((line.y1_mm, line.y2_mm) for line in lines):
        if found and top <= found[-1][1] + 1e-6:
            found[-1] = (found[-1][0], max(bottom, found[-1][1]))
        else:
            found.append((top, bottom))
    return found


@pytest.mark.parametrize("example", ["wren", "fulmar", "wisp"])
def test_a_line_goes_from_each_place_down_to_the_last_that_hangs_on_it_and_a_level_one_to_each(example: str) -> None:
    sheet = sheet_of(example)
    for assembly in dict.fromkeys(row.assembly for row in sheet.drawn):
        rows = [row for row in sheet.drawn if row.assembly == assembly]
        lines = [line for line in sheet.sketched[assembly] if isinstance(line, Line)]
        levels = [line for line in lines if line.y1_mm == line.y2_mm]
        uprights = [line for line in lines if line.x1_mm == line.x2_mm]
        wanted_levels, wanted_uprights = [], []
        for index, row in enumerate(rows):
            ends = [i for i in range(index + 1, len(rows)) if rows[i].depth <= row.depth]
            below = [each for each in rows[index + 1 : min(ends, default=len(rows))] if each.depth == row.depth + 1]
            wanted_levels += [rounded(middle_of(each), stem_of(row)) for each in below]
            if below:
                # From the lower edge of its number, or from below its name.
                start = middle_of(row) + (2.3 if row.number else 2.5)
                wanted_uprights.append(rounded(stem_of(row), start, middle_of(below[-1])))
        assert len(levels) + len(uprights) == len(lines)
        assert sorted(rounded(line.y1_mm, line.x1_mm) for line in levels) == sorted(wanted_levels)
        found = [
            rounded(x, *span)
            for x in {line.x1_mm for line in uprights}
            for span in spans([line for line in uprights if line.x1_mm == x])
        ]
        assert sorted(found) == sorted(wanted_uprights)
        for line in levels:
            (row,) = (row for row in rows if abs(middle_of(row) - line.y1_mm) < 0.01)
            assert line.x1_mm < stem_of(row) <= line.x2_mm < row.name.x_mm


@pytest.mark.parametrize("example", ["wren", "wisp"])
def test_places_of_the_sketch_stand_in_the_middle_of_the_rows_beside_them(example: str) -> None:
    sheet = sheet_of(example)
    for assembly, tops in sheet.tops.items():
        middles = [middle_of(row) for row in sheet.drawn if row.assembly == assembly]
        # Rows to write in are 7 mm high.
        beside = list(zip(middles, tops, strict=False))
        assert [middle for middle, _ in beside] == pytest.approx([top + 3.5 for _, top in beside])
        assert beside


@pytest.mark.parametrize("example", ["wren", "fulmar", "wisp"])
def test_each_number_of_the_sketch_stands_in_a_white_box_on_its_line(example: str) -> None:
    sheet = sheet_of(example)
    boxes = [shape for some in sheet.sketched.values() for shape in some if isinstance(shape, Shape)]
    found = sorted((min(shape.points_mm), max(shape.points_mm), shape.fill) for shape in boxes)
    numbered = [row for row in sheet.drawn if row.number]
    corners = [((stem_of(row), middle_of(row) - 2.3), (stem_of(row) + 4.6, middle_of(row) + 2.3)) for row in numbered]
    for (low, high, fill), (first, last) in zip(found, sorted(corners), strict=True):
        assert (*low, *high) == pytest.approx((*first, *last), abs=0.01)
        assert fill is not None
        assert fill.lower() == "#ffffff"


def test_a_way_without_runs_says_how_many_leads_want_it_and_an_unmeasured_run_is_no_such_way(
    aircraft_folder: AircraftFolder,
) -> None:
    tab = "  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}\n"
    changes: Changes = {
        "aircraft.yaml": [
            ("  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n", ""),
            ("[battery-bay, radio-tray], length: 260 mm", "[battery-bay, radio-tray]"),
            ("at: {aft: 180 mm}, ", ""),
        ],
        "harness.yaml": [
            ("equipment:\n", f"equipment:\n{tab}"),
            ("circuits:\n", "circuits:\n  tab: {label: TAB, from: receiver 3, to: tab, lead: servo-22}\n"),
        ],
    }
    sheet = Sheet(harness_of(aircraft_folder(changes)))
    unknown = [row for row in sheet.listed if row.assembly == "fuselage" and not row.now]
    assert [(row.what, row.under) for row in unknown] == [
        ("battery-bay – radio-tray", "length · 1 lead"),
        ("radio-tray – tail-post", "a run · 2 leads"),
    ]
    assert_is_a_tree(sheet)
