"""A card's hash follows what the card says, and nothing else."""

from __future__ import annotations

from dataclasses import asdict
from functools import cache
from typing import TYPE_CHECKING

import pytest
from printed_cards import cards_of
from resolved import EXAMPLES, harness_of

from docgen.paperwork.cards.contact_table import CardRow
from docgen.paperwork.cards.equipment import PortRow
from docgen.paperwork.hashes import digest

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder, Changes, Replacements

LEFT = {("left-root", "fixed"), ("left-root", "loose")}
RIGHT = {("right-root", "fixed"), ("right-root", "loose")}
FIXED = {("left-root", "fixed"), ("right-root", "fixed")}
RECEIVER = {("receiver", "receiver")}
EVERY = LEFT | RIGHT | RECEIVER


def hashes(folder: Path) -> dict[tuple[str, str], str]:
    """Return the hash on each card, by its title and the first word below it."""
    found = {}
    for card in cards_of(harness_of(folder)):
        hash8 = card.hash8
        found[card.title, card.texts[1].split()[0] if "half" in card.texts[1] else card.title] = hash8
    return found


@cache
def wren() -> dict[tuple[str, str], str]:
    return hashes(EXAMPLES / "wren")


def test_every_card_has_a_hash_of_its_own() -> None:
    found = wren()
    assert found.keys() == EVERY
    assert len(set(found.values())) == 5


OWN_LEAD = "mine: {wires: {negative: pvc-22 BN, positive: pvc-22 RD, signal: pvc-22 WH}, lay: 25 mm}"
AILERON = "    through: [<side>-root]\n    lead: servo-22\n"


def lead(name: str) -> Replacements:
    return [(AILERON, AILERON.replace("servo-22", name))]


@pytest.mark.parametrize(
    ("changes", "other"),
    [
        # Gauge, and with it the marks; a colour alone.
        ({"harness.yaml": lead("servo-20")}, LEFT | RIGHT),
        ({"harness.yaml": lead("mine"), "parts.yaml": f"leads: {{{OWN_LEAD}}}\n"}, LEFT | RIGHT),
        # Function, where it goes behind the fixed half.
        ({"harness.yaml": [("label: {left: AIL L,", "label: {left: AILERON L,")]}, LEFT | RECEIVER),
        ({"harness.yaml": [("from: {left: receiver 1,", "from: {left: receiver 3,")]}, LEFT & FIXED | RECEIVER),
        # Which contacts.
        ({"harness.yaml": [(AILERON, AILERON + "    contacts: {<side>-root: [4, 5, 6]}\n")]}, LEFT | RIGHT),
        # How it is turned and what it mates with, which the other half's card does not say; how it is keyed, noted.
        ({"harness.yaml": [("contacts: sockets, key: up}", "contacts: sockets, key: down}")]}, FIXED),
        ({"harness.yaml": [("reach: 120 mm", "reach: 130 mm")]}, FIXED),
        ({"harness.yaml": [("shell: block-6\n", "shell: block-6\n    keyed: {left: K, right: M}\n")]}, LEFT | RIGHT),
        ({"harness.yaml": [("shell: block-6\n", "shell: block-6\n    note: Tape over it.\n")]}, LEFT | RIGHT),
        ({"harness.yaml": [("shell: block-6\n", "shell: block-8\n")]}, LEFT | RIGHT),
        # How a hand gets there, of one place.
        ({"aircraft.yaml": [("access: canopy", "access: hatch")]}, RECEIVER),
        # Channel, fail-safe, and what is said of the receiver.
        ({"harness.yaml": [("    channel: 4\n", "    channel: 5\n")]}, RECEIVER),
        ({"harness.yaml": [("    channel: 4\n", "    channel: 4\n    failsafe: centre\n")]}, RECEIVER),
        ({"harness.yaml": [("kind: receiver\n", "kind: receiver\n    fed_by: [BATT]\n")]}, RECEIVER),
        ({"harness.yaml": [("kind: receiver\n", "kind: receiver\n    note: Bind it.\n")]}, RECEIVER),
        ({"harness.yaml": [("kind: receiver\n", "kind: receiver\n    on: with the pack\n")]}, RECEIVER),
        ({"harness.yaml": [("kind: receiver\n", "kind: receiver\n    off: with the pack\n")]}, RECEIVER),
    ],
)
@pytest.mark.long
def test_a_card_that_says_another_thing_has_another_hash(
    changes: Changes, other: set[tuple[str, str]], aircraft_folder: AircraftFolder
) -> None:
    before, after = wren(), hashes(aircraft_folder(changes))
    assert {key for key in before if before[key] != after[key]} == other


@pytest.mark.parametrize(
    "changes",
    [
        {"harness.yaml": [("{idle: 20 mA, working: 0.6 A,", "{idle: 20 mA, working: 0.9 A,")]},
        # Revision and date are no content, nor where something stands in its file, nor what other documents say.
        {"aircraft.yaml": [("  revision: A\n", "  revision: B\n")]},
        {"aircraft.yaml": [("  date: 2026-04-18 ", "  date: 2026-04-19 ")]},
        {"harness.yaml": [("equipment:\n", "# A line more.\nequipment:\n")]},
        {"harness.yaml": [("throw: 40 mm each way", "throw: 41 mm each way")]},
        {
            "aircraft.yaml": [
                (
                    "between: [radio-tray, <side>-root], length: 235 mm",
                    "between: [radio-tray, <side>-root], length: 236 mm",
                )
            ]
        },
    ],
)
def test_what_no_card_says_changes_no_hash(changes: Changes, aircraft_folder: AircraftFolder) -> None:
    assert hashes(aircraft_folder(changes)) == wren()


@pytest.mark.parametrize(
    "row",
    [
        CardRow("1", "BK", "22 AWG", "AIL L", "receiver 1", "C1A22", "power"),
        PortRow("1", "AIL L", "left-aileron", "1", "hold"),
    ],
)
def test_each_field_of_a_row_counts_by_itself(row: CardRow | PortRow) -> None:
    # On an aircraft a gauge, a colour and the mark change together; here one at a time.
    said = asdict(row)
    changed = [{**said, name: "other"} for name in said]
    assert len({digest(type(row)(**one)) for one in (said, *changed)}) == len(changed) + 1
