"""The ring-out sheet as it is printed, read back and measured by a renderer that is not ours."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from measured import PrintedPage, printed_pages
from printed_steps import ring
from reference.character_heights import SERIES_MM
from resolved import EXAMPLES, harness_of
from rung_sheet import Rung, rung_in

from docgen.harness.assembly.through_openings import plan_threading, waits_of
from docgen.harness.continuity.readings import LeadReadings, Reading, lead_readings, path_readings, tail_readings
from docgen.harness.model.harness import Harness
from docgen.paperwork.bench import ring_out_content, ring_out_pages
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.ink import Line, Shape, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from collections.abc import Iterator

    from conftest import AircraftFolder, Replacements

    from docgen.harness.continuity.netlist import Point

LONG = "a-long-name-that-somebody-gave-it"
CLIP_MM = 6.0  # printers clip within 6 mm of a sheet's edge: common practice, no source
TOUCH_MM = 0.12  # rectangles of characters are their advance and the face's own bounds, to this
FOOT_MM = 1.5


def long_names(target: Path) -> Path:
    """Write a copy of the smallest example with names that fit no column."""
    target.mkdir()
    for path in (EXAMPLES / "wren").glob("*.yaml"):
        text = re.sub(r"\brudder\b", f"rudder-{LONG}", path.read_text("utf-8"))
        (target / path.name).write_text(re.sub(r"<side>-root\b", f"<side>-root-{LONG}", text), "utf-8")
    return target


def printed(harness: Harness, folder: Path, paper: str = "a4", *, brief: bool = False) -> Path:
    title_block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "01234567")
    items = replace(ring_out_content.content(harness), brief=brief)
    composed = ring_out_pages.compose(items, read_page(f"list-{paper}"))(title_block)
    file = folder / "sheet.pdf"
    file.write_bytes(draw_pdf(composed.pages, "sheet", "", None))
    return file


@pytest.fixture(scope="module", params=["wren", "fulmar", "fulmar letter", "long names"])
def sheet(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> list[PrintedPage]:
    folder = EXAMPLES / ("fulmar" if "fulmar" in request.param else "wren")
    if request.param == "long names":
        folder = long_names(tmp_path_factory.mktemp("names") / "wren")
    paper = "letter" if "letter" in request.param else "a4"
    return printed_pages(printed(harness_of(folder), tmp_path_factory.mktemp("sheet"), paper))


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> list[Rung]:
    return rung_in(printed(harness_of(EXAMPLES / "wren"), tmp_path_factory.mktemp("wren")))


@pytest.fixture(scope="module")
def fulmar(tmp_path_factory: pytest.TempPathFactory) -> list[Rung]:
    return rung_in(printed(harness_of(EXAMPLES / "fulmar"), tmp_path_factory.mktemp("fulmar")))


def said(page: PrintedPage) -> str:
    ordered = sorted(page.texts, key=lambda text: (text.base_mm, text.box.left))
    return " ".join(text.text for text in ordered)


@pytest.mark.parametrize(("name", "paper", "most"), [("wren", "a4", 1), ("fulmar", "a4", 4), ("fulmar", "letter", 4)])
def test_it_takes_few_sheets(name: str, paper: str, most: int, tmp_path: Path) -> None:
    assert len(printed_pages(printed(harness_of(EXAMPLES / name), tmp_path, paper))) <= most


def test_packs_out_and_everything_unplugged_stands_first(sheet: list[PrintedPage]) -> None:
    body = said(sheet[0]).split("rings")[0]
    assert "All packs out of the aircraft, all electronics unplugged." in body
    assert "Never a meter's tip in a socket, which it spreads: probe with a loose mating pin on a lead." in body


def test_the_caution_stands_on_the_first_sheet(sheet: list[PrintedPage]) -> None:
    caution = "Nothing with electronics plugged in. Bench supply set to 1 A and 2 V before it is connected."
    assert [caution in said(page) for page in sheet] == [True] + [False] * (len(sheet) - 1)


def test_nothing_overlaps_and_nothing_is_clipped(sheet: list[PrintedPage]) -> None:
    for page in sheet:
        assert [
            (one.text, other.text)
            for one, other in combinations(page.texts, 2)
            if one.box.overlaps(other.box, TOUCH_MM)
        ] == []
        boxes = [text.box for text in page.texts]
        assert min(min(box.left, box.top) for box in boxes) >= CLIP_MM
        assert max(box.right for box in boxes) <= page.width_mm - CLIP_MM
        assert max(box.bottom for box in boxes) <= page.height_mm - CLIP_MM


def test_type_has_the_heights_of_the_series_and_nothing_is_shortened(sheet: list[PrintedPage]) -> None:
    for page in sheet:
        assert {round(text.capital_mm, 2) for text in page.texts} <= {*SERIES_MM, FOOT_MM}
        assert not [text.text for text in page.texts if "…" in text.text]


def test_no_sheet_but_the_last_is_over_half_empty(sheet: list[PrintedPage]) -> None:
    for page in sheet[:-1]:
        assert max(text.box.bottom for text in page.texts if text.capital_mm > FOOT_MM + 0.1) > 10 + 255 / 2


# The sheet of the smallest example, by hand: at 1 A a pair's wire of 20 AWG (AC 43.13-1B table 11-9: 9.88 ohm/1000 ft)
# drops 10.5 mV over 325 mm, one of 22 AWG (16.20 ohm/1000 ft) 15.9, 55.5 and 71.0 mV over 300, 1045 and 1335 mm; 5 mV
# more is too much between plugs of 10 A, else 10 mV (common practice, no source). The whole path of an aileron: 1345 mm
# of 22 AWG and one contact of 5 mohm, 71.5 + 5 = 76.5 mV; the servo's plug bears 3 A.
BY_HAND = {
    ("fuselage", "supply A", "pack – receiver BATT"): (2, 11, 16),
    ("fuselage", "left-aileron A", "receiver 1 – left-root"): (3, 16, 26),
    ("fuselage", "right-aileron A", "receiver 2 – right-root"): (3, 16, 26),
    ("fuselage", "rudder A", "receiver 4 – rudder"): (3, 71, 81),
    ("left-panel", "left-aileron B", "left-root – left-aileron"): (3, 56, 66),
    ("right-panel", "right-aileron B", "right-root – right-aileron"): (3, 56, 66),
    ("Whole paths, all disconnects mated", "left-aileron", "from receiver 1"): (3, 76, 86),
    ("Whole paths, all disconnects mated", "right-aileron", "from receiver 2"): (3, 76, 86),
}


def test_every_wire_of_every_lead_and_path_is_rung_out_with_what_it_drops(wren: list[Rung]) -> None:
    expected = [
        Rung(*where, (str(contact), str(contact)), expected_mv, bad_over_mv)
        for where, (count, expected_mv, bad_over_mv) in BY_HAND.items()
        for contact in range(1, count + 1)
    ]
    assert wren == expected


def said_of(harness: Harness, point: Point) -> str:
    """Name a plug by its port, a half of a joint by which it is where both are in one assembly."""
    joint = harness.disconnects.get(point.name)
    if joint is None:
        return f"{point.name} {point.part}".strip()
    assemblies = {harness.places[half.place].assembly for half in joint.halves}
    which = f", {point.part} half" if " " not in point.part else f", {point.part}"
    return point.name + which * (len(assemblies) == 1)


def rung_by(harness: Harness) -> Iterator[Rung]:
    """Walk the rows that there must be, by what the harness has of each lead, tail and path."""
    waits = {key[1:] for key in waits_of(plan_threading(harness))}
    every = [(each.leads[-1].assembly, " ".join(chain_of(each)), each.readings) for each in lead_readings(harness)]
    every += [
        ("Whole paths, all disconnects mated", chain_of(each)[0], each.readings) for each in path_readings(harness)
    ]
    for head, lead, readings in every:
        for reading in readings:
            start, goal = said_of(harness, reading.start), said_of(harness, reading.goal)
            where = f"from {start}" if goal == lead else f"{start} – {goal}"
            where += " · in place" * bool(waits & {reading.start.place, reading.goal.place})
            yield rung(head, lead, where, reading)
    tails = [each for each in tail_readings(harness) if each.readings]
    for each in tails:
        half = each.readings[0].start.place
        names = [one.common.name for one in tails if one.readings[0].start.place == half]
        where = f"{said_of(harness, each.readings[0].start)}: {', '.join(names)}"
        yield from (rung(each.assembly, "tails, together", where, reading) for reading in each.readings)


def chain_of(rung_out: LeadReadings) -> tuple[str, str]:
    return rung_out.leads[0].circuit, "+".join(lead.segment for lead in rung_out.leads)


def rung(head: str, lead: str, where: str, reading: Reading) -> Rung:
    expected, too_much = (None if mv is None else int(mv + 0.5) for mv in (reading.expected_mv, reading.too_much_mv))
    return Rung(head, lead, where, (reading.start.contact, reading.goal.contact), expected, too_much)


# Both holes are too narrow for the plugs, so that these are filled in place; the rudder's lead divides, to its tab.
TAB = "  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}\n"
DIVIDED: Replacements = [
    ("    to: rudder\n", "    to: [rudder, tab]\n    split: {place: radio-tray, loop: 20 mm}\n"),
    ("equipment:\n", f"equipment:\n{TAB}"),
]
HOLES: Replacements = [
    (run, f"{run}, hole: 8 mm")
    for run in ("[radio-tray, tail-post],   length: 1140 mm", "[radio-tray, <side>-root], length: 235 mm")
]


@pytest.mark.parametrize("name", ["wren", "fulmar", "wisp", "changed", "lone"])
def test_the_sheet_rings_out_what_the_harness_does_each_at_its_place(
    name: str, request: pytest.FixtureRequest, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    folder = EXAMPLES / name
    if name == "changed":
        folder = aircraft_folder({"aircraft.yaml": HOLES, "harness.yaml": DIVIDED})
    elif name == "lone":
        folder = aircraft_folder.written(ring({"one": ("tray", "far", "near")}))
    harness = harness_of(folder)
    rungs = request.getfixturevalue(name) if name in ("wren", "fulmar") else rung_in(printed(harness, tmp_path))
    assert rungs
    assert Counter(one._replace(too=("", "")) for one in rungs) == Counter(rung_by(harness))
    heads = list(dict.fromkeys(one.head for one in rungs))
    paths = "Whole paths, all disconnects mated"
    assert heads == [head for head in (*harness.assemblies, paths) if head in heads]


def test_each_wire_has_two_ticks_and_a_box_for_the_reading(sheet: list[PrintedPage]) -> None:
    rungs = sum(
        bool(re.fullmatch(r"\d+[ ()\d]* – \d+[ ()\d]*", text.text))
        for page in sheet
        for text in page.texts
        if text.bold
    )
    sizes = [(box.right - box.left, box.bottom - box.top) for page in sheet for box in page.outlines]
    line_mm = 2 * 0.25
    assert sum(abs(width - 14 - line_mm) < 0.1 for width, _ in sizes) == rungs
    ticks = sum(abs(width - 4 - line_mm) < 0.1 and abs(height - 4 - line_mm) < 0.1 for width, height in sizes)
    assert ticks >= 2 * rungs


def test_mirror_leads_are_named_in_pairs(tmp_path: Path) -> None:
    words = " ".join(said(page) for page in printed_pages(printed(harness_of(EXAMPLES / "wren"), tmp_path)))
    assert "Mirror leads: readings within 5 mV of each other" in words
    assert "left-aileron A – right-aileron A; left-aileron B – right-aileron B" in words


def test_what_rings_together_on_purpose_is_named(fulmar: list[Rung]) -> None:
    tails = [(rung.head, rung.where, rung.contacts) for rung in fulmar if rung.lead == "tails, together"]
    both = [("1", "2"), ("3", "4")]
    where = {"left-wing-b": ("fuselage", "left-panel"), "right-wing-b": ("fuselage", "right-panel")}
    assert sorted(tails) == sorted(
        (assembly, f"{joint}: wing-positive, wing-negative", pair)
        for joint, assemblies in where.items()
        for assembly in assemblies
        for pair in both
    )


def test_a_wire_from_a_common_is_rung_out_from_the_commons_first_contact(fulmar: list[Rung]) -> None:
    # As the builder wrote: positive on 1+2, negative on 3+4, the signal on the first contact that is free, 5.
    here = [rung for rung in fulmar if rung.head == "left-panel"]
    assert [rung.contacts for rung in here if rung.lead == "left-outer-aileron B"] == [
        ("3", "1"),
        ("1", "2"),
        ("5", "3"),
    ]
    # Pinned by the builder, away from the aileron's.
    assert [rung.contacts for rung in here if rung.lead == "airspeed B"] == [("13", "1"), ("14", "2"), ("15", "3")]


def test_at_a_common_the_other_contacts_that_ring_rightly_are_named_beside_the_one_that_is_read(
    fulmar: list[Rung], tmp_path: Path
) -> None:
    """Touching every other contact, one finds the tails' too: positive is on 1 and 2, negative on 3 and 4."""
    named = {(rung.head, rung.lead, rung.contacts): rung.too for rung in fulmar if rung.too != ("", "")}
    aileron = {contacts: too for (head, lead, contacts), too in named.items() if lead == "left-outer-aileron B"}
    assert aileron == {("3", "1"): ("4", ""), ("1", "2"): ("2", "")}
    supply = {contacts: too for (_, lead, contacts), too in named.items() if lead == "left-wing-supply A"}
    assert supply == {("1", "3"): ("", "4"), ("2", "1"): ("", "2")}
    # A signal's negative joins the common as well; tails of two contacts have no third.
    assert named["fuselage", "left-outer-aileron A", ("1", "3")] == ("", "4")
    assert not any(lead == "tails, together" for _, lead, _ in named)
    explained = "In brackets: contacts of the same common, which ring too."
    for name in ("fulmar", "wren"):
        pages = printed_pages(printed(harness_of(EXAMPLES / name), tmp_path))
        assert (explained in said(pages[0])) == (name == "fulmar")


def test_a_path_that_commons_feed_is_rung_out_from_each_plug_that_it_comes_from(fulmar: list[Rung]) -> None:
    flap = [(rung.where, rung.contacts) for rung in fulmar if rung.lead == "left-flap"]
    assert flap == [
        ("from power-unit 5", ("1", "1")),
        ("from power-unit 5", ("3", "3")),
        ("from power-unit WING-L", ("1", "1")),
        ("from power-unit WING-L", ("2", "2")),
    ]


def test_no_pack_may_ring_to_another(tmp_path: Path) -> None:
    page = printed_pages(printed(harness_of(EXAMPLES / "fulmar"), tmp_path))[-1]
    packs = ("left-pack", "right-pack", "service-pack", "left-fan-pack", "right-fan-pack")
    # Contact 2 of their plugs is the positive.
    assert {f"{one} 2 – {other} 2" for one, other in combinations(packs, 2)} <= {text.text for text in page.texts}


def test_what_plugs_straight_in_is_not_rung_out(fulmar: list[Rung]) -> None:
    circuits = {rung.lead.split()[0] for rung in fulmar}
    assert "left-flap" in circuits
    assert not {"gyro", "light-signal", "left-fan"} & circuits


def test_a_brief_sheet_asks_for_no_millivolts(tmp_path: Path) -> None:
    file = printed(harness_of(EXAMPLES / "wren"), tmp_path, brief=True)
    rungs = rung_in(file)
    assert [rung._replace(expected_mv=None, bad_over_mv=None) for rung in rungs] == rungs
    assert [rung.contacts for rung in rungs].count(("3", "3")) == 7
    assert "mV" not in said(printed_pages(file)[0]).replace("5 mV of each other", "")
    widths = [box.right - box.left for page in printed_pages(file) for box in page.outlines]
    # No box for a reading, which is 14 mm wide; two of 4 mm to tick for every wire.
    assert not [width for width in widths if 13 < width < 16]
    assert sum(3.9 < width < 4.6 for width in widths) >= 2 * len(rungs)


@pytest.mark.parametrize(("shell", "over_mv"), [("block-6", 5), ("dsub-9", 10)])
def test_a_light_contact_anywhere_on_a_path_lets_it_drop_more(
    shell: str, over_mv: int, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    # Plugs of 10 A at both ends; between them a block of 10 A or a D shell of 5 A.
    camera = "  camera: {kind: other, place: left-aileron, lead: 200 mm, lead_wire: pvc-22, plug: power-2}\n"
    circuit = "  camera: {label: CAM, from: receiver AUX, to: camera, through: [left-root], lead: power-20}\n"
    port = "      - {plug: power-2, names: [BATT], contacts: pins}\n"
    changes = [
        ("equipment:\n", f"equipment:\n{camera}"),
        ("circuits:\n", f"circuits:\n{circuit}"),
        (port, f"{port}      - {{plug: power-2, names: [AUX], contacts: sockets}}\n"),
        ("shell: block-6", f"shell: {shell}"),
    ]
    rungs = rung_in(printed(harness_of(aircraft_folder({"harness.yaml": changes})), tmp_path))
    assert {(rung.bad_over_mv or 0) - (rung.expected_mv or 0) for rung in rungs if rung.lead == "camera"} == {over_mv}


def test_readings_are_rounded_to_the_nearest_millivolt(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    # Of 22 AWG 0.05315 mV/mm: 1345 mm are 71.49 mV, 1350 mm 71.75 mV.
    for length_mm, shown in ((1345, 71), (1350, 72)):
        pinned = ("  rudder:\n    label: RUD\n", f"  rudder:\n    lengths: {{A: {length_mm} mm}}\n    label: RUD\n")
        rungs = rung_in(printed(harness_of(aircraft_folder({"harness.yaml": [pinned]})), tmp_path))
        assert {rung.expected_mv for rung in rungs if rung.lead == "rudder A"} == {shown}


@pytest.mark.parametrize("name", ["rudder A", "rudder B", "rudder C"])
def test_whichever_part_of_a_divided_lead_is_another_the_whole_of_it_is_rung_out(
    name: str, aircraft_folder: AircraftFolder
) -> None:
    """From the receiver over the splice to the rudder, and to its tab."""
    items = ring_out_content.content(harness_of(aircraft_folder({"harness.yaml": DIVIDED})))
    rung = [[lead.name for lead in each.leads] for each in ring_out_content.only(items, [name]).leads]
    ways = [["rudder A", "rudder B"], ["rudder A", "rudder C"]]
    assert rung == [way for way in ways if name in way]


def test_of_commons_their_tails_are_rung_out_behind_both_halves_and_nothing_else() -> None:
    items = ring_out_content.content(harness_of(EXAMPLES / "fulmar"))
    names = ["left-wing-b wing-negative", "rudder A"]
    rung = ring_out_content.only(items, names)
    assert {(one.assembly, one.common.name) for one in rung.tails} == {
        ("fuselage", "wing-negative"),
        ("left-panel", "wing-negative"),
    }
    assert {reading.start.name for one in rung.tails for reading in one.readings} == {"left-wing-b"}
    assert [[lead.name for lead in one.leads] for one in rung.leads] == [["rudder A"]]
    assert (rung.mirrors, rung.paths) == ((), ())


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_a_hair_line_stands_over_each_lead_and_not_between_the_rows_of_one(name: str) -> None:
    items = ring_out_content.content(harness_of(EXAMPLES / name))
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "01234567")
    pages = ring_out_pages.compose(items, read_page("list-a4"))(block).pages
    ruled = rows = 0
    for page in pages:
        lines = {ink.y1_mm for ink in page.ink if isinstance(ink, Line) and ink.x2_mm - ink.x1_mm == 190}
        cells = [ink for ink in page.ink if isinstance(ink, Text) and ink.cell is not None and ink.cell.width_mm < 180]
        tops = {ink.cell.y_mm for ink in cells if ink.cell and re.fullmatch(r"\S+ – \S+", ink.text) and ink.bold}
        names = {ink.cell.y_mm for ink in cells if ink.cell and ink.bold and ink.align == "left"}
        # A lead has three wires in a row; what it has more goes on below without its name.
        assert lines & tops == names & tops
        ruled, rows = ruled + len(lines & tops), rows + len(tops)
    assert (ruled < rows) == (name == "fulmar")


def test_packs_that_must_not_ring_are_ticked_four_beside_each_other_each_pair_once() -> None:
    items = ring_out_content.content(harness_of(EXAMPLES / "fulmar"))
    block = TitleBlock("Fulmar", "FM-12", "A", "2026-01-01", None, "01234567")
    page = ring_out_pages.compose(items, read_page("list-a4"))(block).pages[-1]
    texts = [ink for ink in page.ink if isinstance(ink, Text)]
    (title,) = (text for text in texts if text.text.startswith("Must not ring, all disconnects mated"))
    packs = [text for text in texts if text.y_mm > title.y_mm and re.fullmatch(r"\S+ 2 – \S+ 2", text.text)]
    # Five packs make ten pairs: two rows of four, one of two.
    assert [len([one for one in packs if one.y_mm == y]) for y in sorted({one.y_mm for one in packs})] == [4, 4, 2]
    assert len({text.text for text in packs}) == 10
    ticks = [ink.points_mm for ink in page.ink if isinstance(ink, Shape) and min(ink.points_mm)[1] > title.y_mm]
    squares = [points for points in ticks if max(points)[0] - min(points)[0] == pytest.approx(4)]
    assert len(squares) == 10
    for text in packs:
        assert [1 for points in squares if points[0][1] < text.y_mm < max(points)[1] and max(points)[0] < text.x_mm]
