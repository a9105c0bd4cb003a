"""The cut list: what to cut, in the order of the resistor code, read back from the printed page."""

from __future__ import annotations

import io
import re
from functools import cache

import pytest
from pypdf import PdfReader
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.paperwork import cut_list


@cache
def text_of(name: str) -> str:
    content = files_of_example(name)["cut-list.pdf"]
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)


def test_wren_needs_what_the_hand_calculation_says() -> None:
    # 22 AWG: 2 × 300 + 2 × 1045 + 1335 = 4025 mm in five pieces of each colour; 20 AWG 325 mm of two.
    groups = {(g.colour, g.gauge): g for g in cut_list.content(harness_of(EXAMPLES / "wren")).groups}
    for colour in ("BK", "RD", "WH"):
        assert [piece.length_mm for piece in groups[colour, "22 AWG"].pieces] == [1335, 1045, 1045, 300, 300]
        assert groups[colour, "22 AWG"].total_mm == 2 * 300 + 2 * 1045 + 1335
    assert [groups[colour, "20 AWG"].total_mm for colour in ("BK", "RD")] == [325, 325]
    assert len(groups) == 5


def test_groups_come_by_colour_of_the_resistor_code_then_thick_first() -> None:
    # 0 black, 2 red, 9 white: IEC 60062.
    groups = [(g.colour, g.gauge) for g in cut_list.content(harness_of(EXAMPLES / "wren")).groups]
    assert groups == [("BK", "20 AWG"), ("BK", "22 AWG"), ("RD", "20 AWG"), ("RD", "22 AWG"), ("WH", "22 AWG")]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_totals_on_the_page_are_the_sums_of_the_rows_on_the_page(name: str) -> None:
    text = text_of(name).split("\nGuards\n")[0]
    totals = [int(total) for total in re.findall(r"Together \d+ pieces? · (\d+) mm", text)]
    metres = [float(total) for total in re.findall(r"mm · (\d+\.\d{3}) m\b", text)]
    lengths = [int(length) for length in re.findall(r"(?m)^(\d+)\n(?=[A-Z]\d|tail)", text)]
    assert totals
    assert sum(totals) == sum(lengths)
    assert metres == [total / 1000 for total in totals]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_every_wire_that_is_cut_has_one_row(name: str) -> None:
    harness, text = harness_of(EXAMPLES / name), text_of(name)
    for lead in harness.leads():
        for wire in lead.wires:
            if not lead.straight and not lead.bought:
                assert len(re.findall(rf"(?m)^{wire.mark}$", text)) == 1


def test_the_tails_behind_a_common_are_cut_for_each_contact() -> None:
    # Two contacts of each common, behind both halves: 40 mm + 8 mm + 4 mm + 2 × 10 mm = 72, rounded up to 75 mm.
    groups = cut_list.content(harness_of(EXAMPLES / "fulmar")).groups
    tails = [piece for group in groups for piece in group.pieces if piece.key[0] == "left-wing-b"]
    assert sorted(piece.goal.text for piece in tails) == [f"left-wing-b {n}" for n in (1, 1, 2, 2, 3, 3, 4, 4)]
    assert {piece.length_mm for piece in tails} == {75}


def test_guards_and_label_tubes_are_listed_after_the_wires() -> None:
    # Rudder run of 1140 mm, receiver end without a loop: its label lies 25 to 85 mm behind the plug, so 1055 mm are
    # covered after the 80 mm loop frees but 5 mm at the other end: 1140 - 85 - 5 = 1050; 3.45 mm in braid-4 shortens
    # by 2 % + (3.4475 - 3) / 5 x 28 % = 4.506 %: 1050 / 0.95494 = 1099.5, rounded up to 1100 mm.
    content = cut_list.content(harness_of(EXAMPLES / "wren"))
    rudder = next(piece for piece in content.guards if piece.goal.text == "tail-post")
    assert (rudder.guard, rudder.length_mm) == ("braid-4", 1100)
    # Six cut leads with two ends each.
    assert sum(tube.pieces for tube in content.tubes) == 12


def test_what_plugs_straight_in_is_listed_with_nothing_to_cut() -> None:
    assert "GYRO: receiver-a 6 – gyro" in text_of("fulmar")
