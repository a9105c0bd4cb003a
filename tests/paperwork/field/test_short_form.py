"""The short form of the record, which a code holds for a phone without a network, by hand from the builder's files."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from typing import TYPE_CHECKING

from resolved import EXAMPLES, harness_of

from docgen.paperwork.field.short_form import headed, short_form

if TYPE_CHECKING:
    from conftest import AircraftFolder, Replacements

CHANNELS = ["1 AIL L receiver 1", "2 AIL R receiver 2", "4 RUD receiver 4"]
SUPPLY = "RX BATT pack > receiver BATT"
# Negative, positive and signal of an aileron's lead, of 22 AWG.
CONTACTS = [
    f"{side}-root {contact} {colour}22 AIL {side[0].upper()}"
    for side in ("left", "right")
    for contact, colour in ((1, "BK"), (2, "RD"), (3, "WH"))
]


def test_it_has_channels_then_what_has_none_then_contacts_a_line_each() -> None:
    assert list(short_form(harness_of(EXAMPLES / "wren"))) == [*CHANNELS, SUPPLY, *CONTACTS]


def test_channels_stand_by_their_number_with_what_is_done_without_the_radio(aircraft_folder: AircraftFolder) -> None:
    changes: Replacements = [
        ("{left: 1, right: 2}\n    throw", "{left: 7, right: 2}\n    throw"),
        ("    channel: 4\n", "    channel: 4\n    failsafe: centre\n"),
    ]
    said = short_form(harness_of(aircraft_folder({"harness.yaml": changes})))
    assert said[:4] == ("2 AIL R receiver 2", "4 RUD receiver 4 centre", "7 AIL L receiver 1", SUPPLY)


def test_what_is_dead_and_left_in_is_not_in_it() -> None:
    harness = harness_of(EXAMPLES / "wren")
    circuits = {name: circuit for name, circuit in harness.circuits.items() if name != "rudder"}
    dead = {name: harness.circuits[name] for name in ("rudder", "supply")}
    left_in = replace(harness, circuits={k: v for k, v in circuits.items() if k != "supply"}, left_in=dead)
    assert list(short_form(left_in)) == [*CHANNELS[:2], *CONTACTS]


def test_above_it_stand_marks_issue_and_the_hash_of_the_lines() -> None:
    # The first eight characters of the SHA-256 of the lines, as the standard library has it.
    digest = hashlib.sha256(b"one\ntwo").hexdigest()[:8]
    assert headed("WR-7", "issue B", ["one", "two"]) == (f"WR-7 issue B {digest}", "one", "two")
    assert headed("WR-7", "", ["one", "two"])[0] == f"WR-7 {digest}"
