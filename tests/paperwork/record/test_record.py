"""The record: plain text of 72 columns, parts that change only with what they say, hashes that hold."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from printed_cards import cards_of, halves_of
from pypdf import PdfReader
from resolved import EXAMPLES, harness_of, record_of

from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.documents import Choice, make_paperwork

if TYPE_CHECKING:
    from conftest import AircraftFolder

COLUMNS = 72


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_no_line_is_wider_than_72_columns(name: str) -> None:
    files = record_of(harness_of(EXAMPLES / name)).files()
    assert max(len(line) for text in files.values() for line in text.split("\n")) <= COLUMNS


def test_there_is_a_part_for_each_disconnect_equipment_with_ports_and_assembly() -> None:
    assert set(record_of(harness_of(EXAMPLES / "wren")).parts) == {
        "record/disconnect-left-root.txt",
        "record/disconnect-right-root.txt",
        "record/equipment-receiver.txt",
        "record/assembly-fuselage.txt",
        "record/assembly-left-panel.txt",
        "record/assembly-right-panel.txt",
    }


def test_each_sheet_carries_a_hash_of_its_own_which_no_other_aircraft_has(aircraft_folder: AircraftFolder) -> None:
    def hashes(folder: Path) -> dict[str, str]:
        files = make_paperwork(harness_of(folder), Choice(stems=stems)).files
        return {stem: feet_of(files[f"{stem}.pdf"])[0].split(" · ")[-1][:8] for stem in stems}

    stems = ("cut-list", "order-of-work", "ring-out-sheet")
    longer = {"harness.yaml": [("    label: RUD\n", "    label: RUD\n    lengths: {A: 1400 mm}\n")]}
    before, after = hashes(EXAMPLES / "wren"), hashes(aircraft_folder(longer))
    assert len({*before.values(), *after.values()}) == 2 * len(stems)
    noted = {"harness.yaml": [("    label: RUD\n", "    label: RUD\n    note: Only the record says this.\n")]}
    assert hashes(aircraft_folder(noted)) == before


def feet_of(pdf: bytes) -> list[str]:
    """Return the line of each page that tells aircraft, state and hash."""
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
    return [line for page in pages for line in page.split("\n") if re.search(r"page \d+ of \d+ · ", line)]


def test_what_was_never_issued_says_that_it_is_a_draft() -> None:
    files = record_of(harness_of(EXAMPLES / "wren")).files()
    assert "\nissue: draft\ndate: 2026-04-18\n" in files.pop("record.txt")
    assert all(text.split("\n")[1] == "since: draft" for text in files.values())


def test_the_record_names_the_hash_that_each_card_carries() -> None:
    harness = harness_of(EXAMPLES / "wren")
    kept = record_of(harness)
    # Both halves of either joint, the fixed one first, then the receiver.
    cards = cards_of(harness)
    printed = [card.hash8 for card in (*halves_of(harness, cards), *(c for c in cards if c.title == "receiver"))]
    named = {path: re.findall(r"card ([0-9a-f]{8})", text) for path, text in kept.files().items()}
    assert named["record/disconnect-left-root.txt"] == printed[:2]
    assert named["record/disconnect-right-root.txt"] == printed[2:4]
    assert named["record/equipment-receiver.txt"] == printed[4:]
    assert named["record/assembly-fuselage.txt"] == printed[4:]
    # Equipment stands before joints in the whole.
    assert named["record.txt"] == printed[4:] + printed[:4]


def test_a_change_in_one_wing_changes_nothing_of_the_other(aircraft_folder: AircraftFolder) -> None:
    before = record_of(harness_of(aircraft_folder({})))
    changes = [("label: {left: AIL L, right: AIL R}", "label: {left: AIL L, right: AIL RIGHT}")]
    after = record_of(harness_of(aircraft_folder({"harness.yaml": changes})))
    changed = {path for path in before.parts if before.parts[path] != after.parts[path]}
    assert changed == {
        "record/disconnect-right-root.txt",
        "record/equipment-receiver.txt",
        "record/assembly-fuselage.txt",
        "record/assembly-right-panel.txt",
    }


def test_the_date_changes_no_part_and_no_card(aircraft_folder: AircraftFolder) -> None:
    before = harness_of(aircraft_folder({}))
    after = harness_of(aircraft_folder({"aircraft.yaml": [("2026-04-18", "2027-05-19")]}))
    assert record_of(before).parts == record_of(after).parts
    hashes = [[card.content_hash for card in pinout_cards.content(harness).halves] for harness in (before, after)]
    assert hashes[0] == hashes[1]


def test_a_new_revision_changes_no_hash_of_cards(aircraft_folder: AircraftFolder) -> None:
    after = harness_of(aircraft_folder({"aircraft.yaml": [("revision: A", "revision: B")]}))
    before = harness_of(EXAMPLES / "wren")
    assert [c.content_hash for c in pinout_cards.content(after).halves] == [
        c.content_hash for c in pinout_cards.content(before).halves
    ]


def test_every_mark_and_length_stands_in_the_record() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    whole = record_of(harness).whole
    for lead in harness.leads():
        assert all(f"{wire.mark}: " in whole for wire in lead.wires)
    for lead in harness.cut_leads():
        assert f"{lead.name}: " in whole
        assert f"cut {lead.cut_length_mm:g} mm" in whole


def test_a_run_is_named_by_its_places(aircraft_folder: AircraftFolder) -> None:
    unmeasured = [("[radio-tray, tail-post],   length: 1140 mm,", "[radio-tray, tail-post],")]
    text = record_of(harness_of(aircraft_folder({"aircraft.yaml": unmeasured}))).whole
    assert "unmeasured (note), run radio-tray to tail-post:" in text
    assert "runs 3" not in text


def test_each_output_is_recorded_with_its_ports(aircraft_folder: AircraftFolder) -> None:
    """By hand: the pack's 6.4 V, less 1.85 A over a supply of 0.0408 Ω, are 6.32 V, less 0.4 V of headroom 5.92 V."""
    ports = "      - {plug: servo-3, names: 1..4, contacts: pins}\n"
    outputs = (
        "      - {plug: servo-3, names: [1, 2], contacts: pins, output: {volts: 5 V, rating: 4 A}}\n"
        "      - {plug: servo-3, names: [3, 4], contacts: pins, output: {volts: 6 V, headroom: 0.4 V}}\n"
    )
    whole = record_of(harness_of(aircraft_folder({"harness.yaml": [(ports, outputs)]}))).whole
    text = " ".join(whole.split())
    assert "output 1, 2: 5 V, headroom 0 V, rating 4 A" in text
    assert "output 3, 4: 6 V, headroom 0.4 V" in text
    assert "gives 5.00 V at 1, 2 and 5.92 V at 3, 4" in text


def test_an_output_of_the_whole_is_recorded_with_its_outlets(aircraft_folder: AircraftFolder) -> None:
    current = "    current: {working: 150 mA}\n"
    changes = [(current, current + "    output: {volts: 5 V}\n")]
    text = " ".join(record_of(harness_of(aircraft_folder({"harness.yaml": changes}))).whole.split())
    assert "output 1, 2, 3, 4: 5 V, headroom 0 V" in text
    assert "gives 5.00 V" in text
