"""The cut list: what to cut, in the order of the resistor code, read back from the printed page."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest
from measured import Box
from printed_cut_list import CutList
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.harness.assembly.spools import SpoolPlan
from docgen.paperwork.cut_list.content import content
from docgen.paperwork.cut_list.pages import compose
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.ink import Text
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes


@cache
def printed(name: str) -> CutList:
    return CutList(files_of_example(name)["cut-list.pdf"])


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


def test_the_tails_behind_a_common_are_cut_for_each_contact() -> None:
    # Two contacts of each common, behind both halves: 40 mm + 8 mm + 4 mm + 2 × 10 mm = 72, rounded up to 75 mm.
    groups = content(harness_of(EXAMPLES / "fulmar")).groups
    tails = [piece for group in groups for piece in group.pieces if piece.mark is None and "left-" in piece.goal]
    assert sorted(piece.goal for piece in tails) == [f"left-wing-b {n}" for n in (1, 1, 2, 2, 3, 3, 4, 4)]
    assert {piece.length_mm for piece in tails} == {75}


def test_sleeves_and_label_tubes_are_listed_after_the_wires() -> None:
    # Rudder run of 1140 mm, receiver end without a loop: its label lies 25 to 85 mm behind the plug, so 1055 mm are
    # covered, the label at the other end lying in the 80 mm loop: 1140 - 72 = 1068; 3.45 mm in braid-4 shortens
    # by 2 % + (3.4475 - 3) / 5 x 28 % = 4.506 %: 1068 / 0.95494 = 1118.4, rounded up to 1120 mm.
    items = content(harness_of(EXAMPLES / "wren"))
    rudder = next(sleeve for sleeve in items.sleeves if "tail-post" in sleeve.ends)
    assert (rudder.kind.name, rudder.cut_length_mm) == ("braid-4", 1120)
    # Six cut leads with two ends each.
    assert sum(items.label_tubes.values()) == 12


# The page, by hand. Cut lengths as above; on the shelf 6 m of black, 6 m of red, 2.5 m and 1.9 m of white 22 AWG.


@pytest.fixture(scope="module")
def wren() -> CutList:
    return printed("wren")


def test_it_warns_of_blades_once(wren: CutList) -> None:
    said = "Blades cut and wire ends fly: cut away from the hand, and keep ends away from the eyes."
    assert wren.said.count(said) == 1
    assert printed("fulmar").said.count(said) == 1


def test_a_row_says_length_mark_function_and_the_spool(wren: CutList) -> None:
    heads = ("cut, mm", "mark", "function", "spool")
    assert [tuple(row[head] for head in heads) for row in wren.group("RD red · 22 AWG · pvc-22")] == [
        ("1335", "C5A22", "RUD", "2"),
        ("1045", "C1B22", "AIL L", "2"),
        ("1045", "C3B22", "AIL R", "2"),
        ("300", "C1A22", "AIL L", "2"),
        ("300", "C3A22", "AIL R", "2"),
    ]


def test_a_strip_of_the_wires_colour_stands_at_the_edge_of_its_rows_and_goes_on_from_row_to_row(wren: CutList) -> None:
    page = wren.pages[0]
    # Black prints under a tenth of white (255), white as the paper; red's share of light is 0.2126 at most (BT.709).
    bounds = {"BK": (0, 25), "RD": (25, 128), "WH": (250, 255)}
    for colour, (darkest, lightest) in bounds.items():
        rows = [row for row in wren.rows if row.group.startswith(f"{colour} ") and " 22 AWG " in row.group]
        top, bottom = rows[0].middle - 2, rows[-1].middle + 2
        inside = page.cut(Box(11, top, 12, bottom))
        assert inside.min() >= darkest
        assert inside.max() <= lightest
        # An edge on either side, so that white has one too.
        assert page.upright_line_mm(10, top, bottom) == pytest.approx(10, abs=0.1)
        assert page.upright_line_mm(13, top, bottom) == pytest.approx(13, abs=0.1)


def test_the_heading_of_a_group_says_its_pieces_its_length_and_its_spools(wren: CutList) -> None:
    # 2 x 300 + 2 x 1045 + 1335 = 4025 mm in each colour of 22 AWG, 325 mm in two of 20 AWG, which is sold at 5 m.
    assert [says for title, says in wren.headings.items() if " AWG " in title] == [
        "1 piece · 0.325 m · buy 5 m",
        "5 pieces · 4.025 m · spool 1",
        "1 piece · 0.325 m · buy 5 m",
        "5 pieces · 4.025 m · spool 2",
        "5 pieces · 4.025 m · 2 spools",
    ]


def test_spools_have_bars_where_a_group_takes_several_with_what_is_left_on_each(wren: CutList) -> None:
    # Of white 1335, 2 x 1045 and 2 x 300 mm come off 2500 and 1900 mm: neither spool alone holds 4025 mm.
    bars = [(name, float(m), int(rest)) for name, m, rest in BAR.findall(" ".join(wren.told))]
    assert [(name, metres) for name, metres, _ in bars] == [("spool 3", 2.5), ("spool 4", 1.9)]
    for name, metres, rest in bars:
        rows = [row for row in wren.group("WH white · 22 AWG") if name == f"spool {row['spool']}"]
        assert sum(int(row["cut, mm"]) for row in rows) + rest == 1000 * metres
    assert wren.told.count("Fewer spools can't do.") == 1


BAR = re.compile(r"((?:buy|spool) \d+(?:, sealed)?) · ([\d.]+) m · rest (\d+)")


def test_a_sealed_spool_is_said_to_be_sealed() -> None:
    # As written in stores: the 5 m of black 16 AWG are sealed, the 10 m of black 20 AWG are not.
    headings = printed("fulmar").headings
    assert headings["BK black · 16 AWG · pvc-16"].endswith(" · spool 1, sealed")
    assert headings["BK black · 20 AWG · pvc-20"].endswith(" · spool 3")


def test_what_plugs_straight_in_is_listed_with_nothing_to_cut() -> None:
    told = printed("fulmar").told
    at = told.index("Nothing to cut: leads that came along")
    assert sorted(told[at + 4 : at + 7]) == ["GYRO", "gyro", "receiver-a 6"]


def test_sleeves_say_part_length_and_both_places_longest_first(wren: CutList) -> None:
    # As beside the tables of `docgen check`: 1068 mm, 745 mm and 117.5 mm over 0.955, rounded up to 5 mm.
    rows = wren.group("Sleeve braid-4 · braided sleeve")
    assert [(row["cut, mm"], row["from – to"]) for row in rows] == [
        ("1120", "radio-tray – tail-post"),
        ("785", "left-panel-root – left-aileron"),
        ("785", "right-panel-root – right-aileron"),
        ("125", "radio-tray – left-root"),
        ("125", "radio-tray – right-root"),
    ]
    # Three wires of 1.6 mm: 3.45 mm.
    assert all(float(row["over, mm"]) == pytest.approx(3.4475, abs=0.0501) for row in rows)
    assert wren.headings["Sleeve braid-4 · braided sleeve"] == "5 pieces · 2.940 m"


def test_where_no_sleeve_is_measured_none_is_summed_up() -> None:
    assert printed("wisp").headings["Sleeve braid-4 · braided sleeve"] == "1 piece · 1 not measured"


def test_tubes_are_counted_in_pieces_of_one_length(wren: CutList) -> None:
    # Six cut leads with two ends each; the tube of a label is 47 mm. Two wires of 1.8 mm with paper are 4.1 mm thick,
    # with a tenth to spare 4.51 mm: 4.8 mm passes that, and grips three of 1.6 mm too. Two collars at each of five
    # sleeves.
    rows = [(row["pieces"], row["each, mm"], row["what"]) for row in wren.group("Tubes")]
    assert rows == [("12", "47", "clear-4.8, labels"), ("10", "20", "shrink-5, collars at sleeves")]


def test_contacts_housings_and_retainers_are_a_matrix_of_families(wren: CutList) -> None:
    # As a hand counts them in `test_bill_of_materials.py`.
    assert {row.pop("family"): row for row in wren.group("Contacts, housings, retainers")} == {
        "block-6": matrix(8, 8, 2, 2),
        "power-2": matrix(4, 4, 1, 1),
        "servo-3": matrix(11, 11, 3, 3) | {"retainers": "3"},
    }


def matrix(*counts: int) -> dict[str, str]:
    heads = ("pin contacts", "socket contacts", "housings for pins", "housings for sockets")
    return {head: str(count) for head, count in zip(heads, counts, strict=True)}


def test_wire_to_buy_stands_beside_what_the_shelf_has_of_it(wren: CutList) -> None:
    # Of 20 AWG nothing is on the shelf; it is sold at 5, 10 and 25 m.
    heads = ("buy", "each, m", "wire", "on the shelf, m")
    rows = [tuple(row[head] for head in heads) for row in wren.group("Wire") if "buy" in row]
    assert rows == [("1", "5", "pvc-20 BK black", "0"), ("1", "5", "pvc-20 RD red", "0")]
    # Fulmar's 13.585 m of black 24 AWG are more than the 12 m there.
    there = {row["wire"]: row["on the shelf, m"] for row in printed("fulmar").group("Wire") if "buy" in row}
    assert there["pvc-24 BK black"] == "12"


def test_sleeve_and_tube_are_bought_by_the_metre_each_once(wren: CutList) -> None:
    # 1120 + 2 x 785 + 2 x 125 mm; 12 x 47 mm; 10 x 20 mm.
    bought = {row["what"]: float(row["m"]) for row in wren.group("Sleeve and tube")}
    assert bought == {"braid-4, sleeve": 2.94, "clear-4.8": 0.564, "shrink-5": 0.2}
    # Four of Fulmar's splices are in one tube: 4 x 25 mm.
    rows = [row for row in printed("fulmar").group("Sleeve and tube") if row["what"] == "shrink-4"]
    assert [row["m"] for row in rows] == ["0.100"]


def test_a_piece_longer_than_any_spool_is_told_in_the_heading_of_its_group() -> None:
    items = content(harness_of(EXAMPLES / "wren"))
    plan = SpoolPlan(cuts=(), least=0, proved=True, too_long=(0,), bought_mm=0)
    items = replace(items, groups=(replace(items.groups[0], plan=plan),))
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
    said = [ink.text for ink in compose(items, read_page("list-a4"))(block).pages[0].ink if isinstance(ink, Text)]
    assert "1 piece · 0.325 m · 1 longer than any spool" in said


def test_without_stores_all_wire_is_bought_samples_too(aircraft_folder: AircraftFolder) -> None:
    files = make_paperwork(harness_of(aircraft_folder({"stores.yaml": None})), Choice(stems=("cut-list",))).files
    rows = [row for row in CutList(files["cut-list.pdf"]).group("Wire") if "buy" in row]
    # 4.025 m of each of three colours and twice 0.325 m; two and four samples of 150 mm.
    assert {(row["wire"], row["each, m"]) for row in rows} == {
        *((f"pvc-22 {colour}", "4.025") for colour in ("BK black", "RD red", "WH white")),
        *((f"pvc-20 {colour}", "0.325") for colour in ("BK black", "RD red")),
        ("pvc-20 for pull samples", "0.300"),
        ("pvc-22 for pull samples", "0.600"),
    }
    assert all("on the shelf, m" not in row for row in rows)


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
    groups = {(g.colour, g.part): g for g in content(harness_of(EXAMPLES / "fulmar")).groups}
    pieces = [piece for piece in groups["RD", "pvc-16"].pieces if piece.function == "WING L"]
    assert {piece.goal for piece in pieces} == {"left-wing-b common 1+2"}
