"""The cut list: what to cut, in the order of the resistor code, read back from the printed page."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from docgen.harness.model import Harness
from docgen.paperwork import cut_list
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.pipeline import check

EXAMPLES = Path(__file__).parents[2] / "examples"


def harness_of(name: str) -> Harness:
    harness = check(EXAMPLES / name).harness
    assert harness is not None
    return harness


def text_of(name: str) -> str:
    content = make_paperwork(harness_of(name), Choice(stems=("cut-list",))).files["cut-list.pdf"]
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)


def test_wren_needs_what_the_hand_calculation_says() -> None:
    # 22 AWG: 2 × 300 + 2 × 1045 + 1335 = 4025 mm in five pieces of each colour; 20 AWG 325 mm of two.
    groups = {(g.colour, g.gauge): g for g in cut_list.content(harness_of("wren")).groups}
    for colour in ("BK", "RD", "WH"):
        assert [piece.length_mm for piece in groups[colour, "22 AWG"].pieces] == [1335, 1045, 1045, 300, 300]
        assert groups[colour, "22 AWG"].total_mm == 2 * 300 + 2 * 1045 + 1335
    assert [groups[colour, "20 AWG"].total_mm for colour in ("BK", "RD")] == [325, 325]
    assert len(groups) == 5


def test_groups_come_by_colour_of_the_resistor_code_then_thick_first() -> None:
    # 0 black, 2 red, 9 white: IEC 60062.
    groups = [(g.colour, g.gauge) for g in cut_list.content(harness_of("wren")).groups]
    assert groups == [("BK", "20 AWG"), ("BK", "22 AWG"), ("RD", "20 AWG"), ("RD", "22 AWG"), ("WH", "22 AWG")]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_totals_on_the_page_are_the_sums_of_the_rows_on_the_page(name: str) -> None:
    text = text_of(name)
    totals = [int(total) for total in re.findall(r"Together \d+ pieces? · (\d+) mm", text)]
    metres = [float(total) for total in re.findall(r"mm · (\d+\.\d{3}) m\b", text)]
    lengths = [int(length) for length in re.findall(r"(?m)^(\d+)$", text)]
    assert totals
    assert sum(totals) == sum(lengths)
    assert metres == [total / 1000 for total in totals]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_every_wire_that_is_cut_has_one_row(name: str) -> None:
    harness, text = harness_of(name), text_of(name)
    for lead in harness.leads():
        for wire in lead.wires:
            if not lead.straight and not lead.bought:
                assert len(re.findall(rf"(?m)^{wire.mark}$", text)) == 1


def test_what_plugs_straight_in_is_listed_with_nothing_to_cut() -> None:
    assert "GYRO: receiver-a 6 – gyro" in text_of("fulmar")
