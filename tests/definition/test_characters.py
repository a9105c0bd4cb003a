"""Every text of a definition is held to one rule: what can't be printed is an error where it was typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from docgen.basics.findings import Finding, Position, format_finding
from docgen.cli import docgen
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder

# By the general category of the Unicode character database: Cc, Cc, Zl, Cc, Cf, Cf; and a letter of no Latin script.
CHARACTERS = {
    "escape": r"\e",
    "backspace": r"\b",
    "line separator": r"\u2028",
    "next line": r"\u0085",
    "right-to-left override": r"\u202e",
    "zero-width space": r"\u200b",
    "ideograph": "漢",
}
SERVO = "  rudder:\n    kind: servo\n"
PLACES = {
    "a circuit's note": ("harness.yaml", "    label: RUD\n", "    label: RUD\n    note: {}\n"),
    "a reason": ("harness.yaml", SERVO, SERVO + "    accept: {{volts: {}}}\n"),
    "a contact": ("aircraft.yaml", "  marks: WR-7\n", "  marks: WR-7\n  contact: {}\n"),
    "a run's note": ("aircraft.yaml", "length: 1140 mm, edges: sharp", "length: 1140 mm, edges: sharp, note: {}"),
    "a spool's note": ("stores.yaml", "length: 2.5 m", "length: 2.5 m, note: {}"),
    "a part's lock": (
        "parts.yaml",
        "",
        "plugs: {{p: {{contacts: {{1: one}}, equipment: pins, size: [8 mm, 3 mm], "
        "contact: {{rating: 3 A, resistance: 10 mohm}}, lock: {}}}}}\n",
    ),
}


def characters_in(folder: AircraftFolder, file: str, old: str, new: str) -> list[Finding]:
    written = folder({file: [(old, new)] if old else new})
    return [finding for finding in check(written).findings if finding.name == "character"]


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("character", CHARACTERS)
def test_what_can_not_be_printed_is_an_error_in_every_text(
    place: str, character: str, aircraft_folder: AircraftFolder
) -> None:
    file, old, new = PLACES[place]
    found = characters_in(aircraft_folder, file, old, new.format(f'▶"to{CHARACTERS[character]}fro"'))
    assert {("character", finding.position.line, finding.position.column) for finding in found} == {
        ("character", line, column) for _, line, column in aircraft_folder.marks
    }


@pytest.mark.parametrize("place", PLACES)
def test_any_letter_that_the_face_has_is_taken_in_every_text(place: str, aircraft_folder: AircraftFolder) -> None:
    file, old, new = PLACES[place]
    assert characters_in(aircraft_folder, file, old, new.format('"größer ≤ 5 Ω\u00a0×\u202f2"')) == []


def test_a_key_is_a_text_too(aircraft_folder: AircraftFolder) -> None:
    found = characters_in(aircraft_folder, "harness.yaml", "      A: {place", '      ▶"A\\u202e": {place')
    assert {(f.position.line, f.position.column) for f in found} == {
        (line, col) for _, line, col in aircraft_folder.marks
    }


@pytest.mark.parametrize("character", ["\x1b", "\b", "\u2028", "\x85", "\u202e", "\n", "\U000e0001"])
def test_a_terminal_is_shown_the_code_point_of_what_is_not_printable(character: str) -> None:
    finding = Finding(Position(f"a{character}b", 1, 1), "straight", f"c{character}d", f"e{character}f")
    written = format_finding(finding.accept(f"g{character}h"))
    assert written.count("\n") == 2  # position and sentence; what to do; why it is accepted
    assert all(part.isprintable() for part in written.split("\n"))
    assert written.count(f"{ord(character):04x}") == 4


def test_the_terminal_is_sent_no_control_characters(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [("    label: RUD\n", '    label: RUD\n    note: "\\e[2J\\u202e"\n')]})
    told = CliRunner().invoke(docgen, ["check", str(folder)])
    assert told.exit_code == 1
    assert all(line.isprintable() for line in told.output.split("\n"))
