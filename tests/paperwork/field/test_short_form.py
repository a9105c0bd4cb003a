"""The short form of the record, which a code holds for a phone without a network, by hand from the builder's files."""

from __future__ import annotations

import hashlib
import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pypdfium2
import pytest
import zxingcpp
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.paperwork.field.short_form import ShortForm, short_form

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
    assert list(short_form(harness_of(EXAMPLES / "wren")).lines) == [*CHANNELS, SUPPLY, *CONTACTS]


def test_channels_stand_by_their_number_with_what_is_done_without_the_radio(aircraft_folder: AircraftFolder) -> None:
    changes: Replacements = [
        ("{left: 1, right: 2}\n    throw", "{left: 7, right: 2}\n    throw"),
        ("    channel: 4\n", "    channel: 4\n    failsafe: centre\n"),
    ]
    said = short_form(harness_of(aircraft_folder({"harness.yaml": changes})))
    assert said.lines[:4] == ("2 AIL R receiver 2", "4 RUD receiver 4 centre", "7 AIL L receiver 1", SUPPLY)


def test_what_is_dead_and_left_in_is_not_in_it() -> None:
    harness = harness_of(EXAMPLES / "wren")
    circuits = {name: circuit for name, circuit in harness.circuits.items() if name != "rudder"}
    dead = {name: harness.circuits[name] for name in ("rudder", "supply")}
    left_in = replace(harness, circuits={k: v for k, v in circuits.items() if k != "supply"}, left_in=dead)
    assert list(short_form(left_in).lines) == [*CHANNELS[:2], *CONTACTS]


def test_above_it_stand_marks_issue_and_the_hash_of_the_lines() -> None:
    # The first eight characters of the SHA-256 of the lines, as the standard library has it.
    digest = hashlib.sha256(b"one\ntwo").hexdigest()[:8]
    short = ShortForm(("one",), ("two",), ())
    assert short.headed("WR-7", "issue B") == (f"WR-7 issue B {digest}", "one", "two")
    assert short.headed("WR-7", "")[0] == f"WR-7 {digest}"


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (1, "first channels"),
        (2, "channels"),
        (3, "channels, first ports"),
        (5, "channels, ports, first contacts"),
        (6, "channels, ports, contacts"),
    ],
)
def test_it_is_said_of_what_its_first_lines_are(count: int, said: str) -> None:
    assert ShortForm(("1", "2"), ("3", "4"), ("5", "6")).named(count) == said


def test_what_it_has_nothing_of_is_not_named() -> None:
    assert ShortForm((), ("1",), ("2", "3")).named(2) == "ports, first contacts"
    assert ShortForm(("1",), ("2",), ()).named(2) == "channels, ports"


@pytest.mark.parametrize("name", ["wisp", "fulmar"])
def test_the_hash_in_the_code_of_a_printed_card_stands_in_the_record_beside_the_number_of_lines(name: str) -> None:
    files = files_of_example(name)
    (page, *_) = pypdfium2.PdfDocument(files["hangar-card.pdf"])
    (code,) = zxingcpp.read_barcodes(page.render(scale=6).to_pil())
    first, *held, rest = code.text.split("\n")
    left = re.fullmatch(r"… (\d+) more lines in the record", rest)
    assert left is not None
    count = len(held) + int(left[1])
    assert f"\ncode on the hangar card: {count} lines, {first.split()[-1]}\n" in files["record.txt"].decode()
    # By hand: both hold a few of their channels.
    assert all(line.split()[0].isdecimal() for line in held)
    assert "first channels" in page.get_textpage().get_text_bounded()


def test_a_record_whose_address_is_in_the_code_names_no_lines_of_it() -> None:
    assert "code on the hangar card" not in files_of_example("wren")["record.txt"].decode()
