"""The cut list as comma-separated values, as another program reads them (RFC 4180)."""

from __future__ import annotations

import csv
import io
import re
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork

if TYPE_CHECKING:
    from conftest import AircraftFolder

COLUMNS = ["colour", "gauge", "length_mm", "mark", "function", "from", "to", "spool"]


def values(harness: Harness, *order: str) -> list[dict[str, str]]:
    choice = Choice(stems=("cut-list",), csv=True, order=order)
    text = make_paperwork(harness, choice).files["cut-list.csv"].decode("utf-8")
    # RFC 4180: lines end in CRLF, every record has as many fields as the header.
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert {len(row) for row in rows} == {len(COLUMNS)}
    assert rows[0] == COLUMNS
    return [dict(zip(COLUMNS, row, strict=True)) for row in rows[1:]]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_every_mark_begins_with_a_letter_and_no_cell_as_a_formula(name: str) -> None:
    rows = values(harness_of(EXAMPLES / name))
    assert all(re.match(r"[A-Za-z]", row["mark"]) for row in rows)
    assert all(not cell.startswith(("=", "+", "-", "@")) for row in rows for cell in row.values())


def test_wren_is_cut_as_the_hand_calculation_says_from_the_spools_on_its_shelf() -> None:
    rows = values(harness_of(EXAMPLES / "wren"))
    white = [(row["length_mm"], row["mark"], row["spool"]) for row in rows if row["colour"] == "WH"]
    assert [length for length, _, _ in white] == ["1335", "1045", "1045", "300", "300"]
    # Spools by their number in stores.yaml: 2.5 m is the third, 1.9 m the fourth.
    held = {spool: sum(int(length) for length, _, on in white if on == spool) for _, _, spool in white}
    assert set(held) == {"3", "4"}
    assert (held["3"] <= 2500, held["4"] <= 1900) == (True, True)
    assert [row["spool"] for row in rows if row["gauge"] == "20 AWG"] == ["buy 1", "buy 1"]
    assert {(row["from"], row["to"]) for row in rows if row["mark"] == "C2A22"} == {("receiver 1", "left-root 3")}


def test_without_stores_no_spool_is_named(aircraft_folder: AircraftFolder) -> None:
    assert {row["spool"] for row in values(harness_of(aircraft_folder({"stores.yaml": None})))} == {""}


def test_the_order_of_colours_is_the_builders_own_where_one_is_given() -> None:
    harness = harness_of(EXAMPLES / "wren")
    found = {order: list(dict.fromkeys(row["colour"] for row in values(harness, *order))) for order in ((), ("WH",))}
    assert found == {(): ["BK", "RD", "WH"], ("WH",): ["WH", "BK", "RD"]}


@pytest.mark.parametrize("label", ["=1+1", "+5 V", "-5 V", "@home", 'a "quoted", word'])
def test_a_label_reaches_the_spreadsheet_as_text(label: str, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [("label: RX BATT", f"label: '{label}'")]})
    found = {row["function"] for row in values(harness_of(folder)) if row["gauge"] == "20 AWG"}
    assert len(found) == 1
    assert found.pop().lstrip("'") == label
    assert all(not row["function"].startswith(("=", "+", "-", "@")) for row in values(harness_of(folder)))
