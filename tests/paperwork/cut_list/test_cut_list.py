"""The cut list: what to cut, in the order of the resistor code, read back from the printed page."""

from __future__ import annotations

import io
import re
from functools import cache
from typing import TYPE_CHECKING

import pytest
from printed_tables import PrintedDocument
from pypdf import PdfReader
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.paperwork.cut_list.content import content

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes


@cache
def text_of(name: str) -> str:
    pdf = files_of_example(name)["cut-list.pdf"]
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


def test_wren_needs_what_the_hand_calculation_says() -> None:
    # 22 AWG: 2 × 300 + 2 × 1045 + 1335 = 4025 mm in five pieces of each colour; 20 AWG 325 mm of two.
    groups = {(g.colour, g.gauge.text): g for g in content(harness_of(EXAMPLES / "wren")).groups}
    for colour in ("BK", "RD", "WH"):
        assert [piece.length_mm for piece in groups[colour, "22 AWG"].pieces] == [1335, 1045, 1045, 300, 300]
        assert groups[colour, "22 AWG"].total_mm == 2 * 300 + 2 * 1045 + 1335
    assert [groups[colour, "20 AWG"].total_mm for colour in ("BK", "RD")] == [325, 325]
    assert len(groups) == 5


def test_groups_come_by_colour_of_the_resistor_code_then_thick_first() -> None:
    # 0 black, 2 red, 9 white: IEC 60062.
    groups = [(g.colour, g.gauge.text) for g in content(harness_of(EXAMPLES / "wren")).groups]
    assert groups == [("BK", "20 AWG"), ("BK", "22 AWG"), ("RD", "20 AWG"), ("RD", "22 AWG"), ("WH", "22 AWG")]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_totals_on_the_page_are_the_sums_of_the_rows_on_the_page(name: str) -> None:
    text = text_of(name).split("\nSleeves\n")[0]
    totals = [int(total) for total in re.findall(r"Together \d+ pieces? · (\d+) mm", text)]
    metres = [float(total) for total in re.findall(r"mm · (\d+\.\d{3}) m\b", text)]
    lengths = [int(length) for length in re.findall(r"(?m)^(\d+)\n(?=[A-Z]\d|tail)", text)]
    assert totals
    assert sum(totals) == sum(lengths)
    assert metres == [total / 1000 for total in totals]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_every_wire_that_is_cut_has_one_row(name: str) -> None:
    harness, text = harness_of(EXAMPLES / name), text_of(name)
    for lead in harness.cut_leads():
        for wire in lead.wires:
            if not lead.part.bought:
                assert len(re.findall(rf"(?m)^{wire.mark}$", text)) == 1


def test_the_tails_behind_a_common_are_cut_for_each_contact() -> None:
    # Two contacts of each common, behind both halves: 40 mm + 8 mm + 4 mm + 2 × 10 mm = 72, rounded up to 75 mm.
    groups = content(harness_of(EXAMPLES / "fulmar")).groups
    tails = [piece for group in groups for piece in group.pieces if piece.mark is None and "left-" in piece.goal]
    assert sorted(piece.goal for piece in tails) == [f"left-wing-b {n}" for n in (1, 1, 2, 2, 3, 3, 4, 4)]
    assert {piece.length_mm for piece in tails} == {75}


def test_sleeves_and_label_tubes_are_listed_after_the_wires() -> None:
    # Rudder run of 1140 mm, receiver end without a loop: its label lies 25 to 85 mm behind the plug, so 1055 mm are
    # covered after the 80 mm loop frees but 5 mm at the other end: 1140 - 85 - 5 = 1050; 3.45 mm in braid-4 shortens
    # by 2 % + (3.4475 - 3) / 5 x 28 % = 4.506 %: 1050 / 0.95494 = 1099.5, rounded up to 1100 mm.
    items = content(harness_of(EXAMPLES / "wren"))
    rudder = next(sleeve for sleeve in items.sleeves if "tail-post" in sleeve.ends)
    assert (rudder.kind.name, rudder.cut_length_mm) == ("braid-4", 1100)
    # Six cut leads with two ends each.
    assert sum(tube.pieces for tube in items.tubes) == 12


def test_what_plugs_straight_in_is_listed_with_nothing_to_cut() -> None:
    assert "GYRO: receiver-a 6 – gyro" in text_of("fulmar")


# The page, by hand. Cut lengths as above; on the shelf 6 m of black, 6 m of red, 2.5 m and 1.9 m of white 22 AWG.


@pytest.fixture(scope="module")
def wren() -> PrintedDocument:
    return PrintedDocument(files_of_example("wren")["cut-list.pdf"])


def test_every_page_warns_of_blades(wren: PrintedDocument) -> None:
    said = "Blades cut and wire ends fly: cut away from the hand, and keep ends away from the eyes."
    assert all(said in page for page in wren.said_on_pages)


def test_a_row_says_length_mark_function_both_ends_and_the_spool(wren: PrintedDocument) -> None:
    heads = ("cut, mm", "mark", "function", "from", "to", "spool")
    rows = [tuple(row[head] for head in heads) for row in wren.table("RD red · 22 AWG · pvc-22")]
    assert rows == [
        ("1335", "C5A22", "RUD", "receiver 4", "rudder", "2"),
        ("1045", "C1B22", "AIL L", "left-root 2", "left-aileron", "2"),
        ("1045", "C3B22", "AIL R", "right-root 2", "right-aileron", "2"),
        ("300", "C1A22", "AIL L", "receiver 1", "left-root 2", "2"),
        ("300", "C3A22", "AIL R", "receiver 2", "right-root 2", "2"),
    ]


def test_a_group_says_its_pieces_and_length_together(wren: PrintedDocument) -> None:
    # 2 x 300 + 2 x 1045 + 1335 = 4025 mm in each colour of 22 AWG, 325 mm in two of 20 AWG.
    assert re.findall(r"Together (.*?) m\b(?! ·)", wren.said) == [
        "1 piece · 325 mm · 0.325",
        "5 pieces · 4025 mm · 4.025",
        "1 piece · 325 mm · 0.325",
        "5 pieces · 4025 mm · 4.025",
        "5 pieces · 4025 mm · 4.025",
    ]


def test_each_spool_says_how_long_it_is_and_what_is_left_on_it(wren: PrintedDocument) -> None:
    # 5000 - 325 = 4675; 6000 - 4025 = 1975; of white 2500 and 1900 hold 4025, 375 mm are left on both together.
    spools = re.findall(r"((?:buy|spool) \d+(?:, sealed)?) · ([\d.]+) m · rest (\d+) ([\d ]+)", wren.said)
    assert [(name, metres, rest) for name, metres, rest, _ in spools][:4] == [
        ("buy 1", "5", "4675"),
        ("spool 1", "6", "1975"),
        ("buy 1", "5", "4675"),
        ("spool 2", "6", "1975"),
    ]
    assert [(name, metres) for name, metres, _, _ in spools][4:] == [("spool 3", "2.5"), ("spool 4", "1.9")]
    # Of white 1335, 2 x 1045 and 2 x 300 mm: what is left is what the pieces on the bar leave.
    on = {
        name: [row["cut, mm"] for row in wren.table("WH white · 22 AWG · pvc-22") if row["spool"] == name[-1]]
        for name in ("spool 3", "spool 4")
    }
    for name, metres, rest, pieces in spools[4:]:
        bar = pieces.split()[: len(on[name])]
        assert sorted(bar) == sorted(on[name])
        assert sum(map(int, bar)) + int(rest) == 1000 * float(metres)


def test_a_group_says_what_to_buy_and_that_fewer_spools_cannot_do(wren: PrintedDocument) -> None:
    # Spools of 20 AWG are sold at 5, 10 and 25 m; of white neither spool alone holds 4025 mm.
    verdicts = re.findall(r"\d spools?; [^.]*?(?:\.|in all\.)", wren.said)
    buy = "1 spool; fewer can't do · buy 1 of 5 m, 5 m in all."
    assert verdicts == [
        buy,
        "1 spool; fewer can't do.",
        buy,
        "1 spool; fewer can't do.",
        "2 spools; fewer can't do.",
    ]


def test_a_sealed_spool_is_said_to_be_sealed() -> None:
    # As written in stores: the 5 m of black 16 AWG are sealed, the 10 m of black 20 AWG are not.
    said = PrintedDocument(files_of_example("fulmar")["cut-list.pdf"]).said
    assert "spool 1, sealed · 5 m · rest " in said
    assert "spool 3 · 10 m · rest " in said


def test_sleeves_say_part_length_and_both_places_longest_first(wren: PrintedDocument) -> None:
    # As beside the tables of `docgen check`: 1050 mm, 740 mm and 117.5 mm over 0.955, rounded up to 5 mm.
    heads = ("cut, mm", "sleeve", "kind", "from", "to")
    assert [tuple(row[head] for head in heads) for row in wren.table("Sleeves")] == [
        ("1100", "braid-4", "braided sleeve", "radio-tray", "tail-post"),
        ("775", "braid-4", "braided sleeve", "left-panel-root", "left-aileron"),
        ("775", "braid-4", "braided sleeve", "right-panel-root", "right-aileron"),
        ("125", "braid-4", "braided sleeve", "radio-tray", "left-root"),
        ("125", "braid-4", "braided sleeve", "radio-tray", "right-root"),
    ]
    # Three wires of 1.6 mm: 3.45 mm.
    for row in wren.table("Sleeves"):
        assert float(row["over"].removesuffix(" mm of wires")) == pytest.approx(3.4475, abs=0.0501)


def test_label_tube_is_counted_in_pieces_and_in_metres(wren: PrintedDocument) -> None:
    # Six cut leads with two ends each; on the usual sheets a label is 60 mm: 12 x 60 mm = 0.72 m. Three wires of 1.6 mm
    # are 3.45 mm thick with a tenth to spare 3.79 mm: 4.8 mm is the least of the series that passes.
    (row,) = wren.table("Tubes for the labels")
    heads = ("pieces", "tube", "inside, mm", "each, mm", "together, m")
    assert tuple(row[head] for head in heads) == ("12", "shrink-4.8", "4.8", "60", "0.72")


def test_everything_else_is_listed_with_its_count(wren: PrintedDocument) -> None:
    # Housings and the rest as a hand counts them in `test_bill_of_materials.py`.
    listed = [(row["count"], row["what"]) for row in wren.table("Everything else to get out")]
    assert listed == [
        ("2", "pvc-20, 150 mm"),
        ("4", "pvc-22, 150 mm"),
        ("8", "block-6 pins"),
        ("8", "block-6 sockets"),
        ("4", "power-2 pins"),
        ("4", "power-2 sockets"),
        ("11", "servo-3 pins"),
        ("11", "servo-3 sockets"),
        ("2", "block-6 for pins"),
        ("2", "block-6 for sockets"),
        ("1", "power-2 for pins"),
        ("1", "power-2 for sockets"),
        ("3", "servo-3 for pins"),
        ("3", "servo-3 for sockets"),
        ("3", "servo-3"),
        ("10", "shrink-6.4"),
        ("26", "as thick as the bundle"),
    ]


def test_of_a_lead_bought_ready_made_the_thickest_wire_gives_the_gauge(aircraft_folder: AircraftFolder) -> None:
    parts = (
        "leads:\n"
        "  mixed: {wires: {negative: pvc-22 BK, positive: pvc-22 RD, signal: pvc-26 WH}, bought: flat}\n"
        "  other: {wires: {signal: pvc-26 WH, negative: pvc-22 BK, positive: pvc-22 RD}, bought: flat}\n"
    )
    rudder = "    to: rudder\n    lead: servo-22\n"
    for name in ("mixed", "other"):
        changes: Changes = {
            "parts.yaml": parts,
            "harness.yaml": [(rudder, rudder.replace("servo-22", name))],
        }
        harness = harness_of(aircraft_folder(changes))
        (group,) = (group for group in content(harness).groups if group.part == name)
        assert group.gauge.text == "22 AWG"


def test_a_grown_aircraft_says_how_the_wings_supply_reaches_its_commons() -> None:
    # As the builder wrote: the heavy pair ends at contacts 1+2 (positive) and 3+4 (negative).
    rows = PrintedDocument(files_of_example("fulmar")["cut-list.pdf"]).table("RD red · 16 AWG · pvc-16")
    assert {row["to"] for row in rows if row["function"] == "WING L"} == {"left-wing-b common 1+2"}
