"""Limits that the builder changes move the edge of a caution: a case just over and one just under."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

CIRCUITS = "circuits:\n"
AILERON_LEAD = "    through: [<side>-root]\n    lead: servo-22\n"
RUDDER_LEAD = "    to: rudder\n    lead: servo-22\n"
RUDDER_VOLTS = "working: 0.5 A, stall: 2.4 A}\n    volts: {least: 4.8 V"
RECEIVER_VOLTS = "{least: 3.6 V"
SHELL = "    shell: block-6\n"
ANTENNA_B = "B: {place: radio-tray, lies: crosswise, lead: 150 mm}"
TAIL_POST = "  tail-post:         {"
TAIL_RUN = "  - {between: [radio-tray, tail-post]"


def limited(limits: str, *more: tuple[str, str]) -> dict[str, str | Replacements | None]:
    return {"harness.yaml": [*more, (CIRCUITS, f"limits: {{{limits}}}\n{CIRCUITS}")]}


def marked(text: str, at: str) -> tuple[str, str]:
    return text, text.replace(at, f"▶{at}")


def hot_coax(limits: str, mark: str = "") -> Changes:
    """Return a run of 85 °C in which lies a coax too thin for any sleeve."""
    coax = (ANTENNA_B, "B: {place: spine, lies: crosswise, lead: 300 mm, diameter: 0.3 mm}")
    return {
        **limited(limits, coax),
        "aircraft.yaml": [
            (TAIL_POST, "  spine: {assembly: fuselage}\n" + TAIL_POST),
            (TAIL_RUN, f"  - {{between: [radio-tray, spine], length: 200 mm, heat: {mark}85 °C}}\n" + TAIL_RUN),
        ],
    }


# The example by hand, with the pack at 6.4 V (resistances: design's method; FAA AC 43.13-1B table 11-9 and nominal):
# supply 0.04085 Ω, an aileron 0.25870 Ω, the rudder 0.26079 Ω.
# An aileron working: 0.6 × 0.25870 = 0.1552 V, 2.425 % of 6.4 V; the rudder 0.5 × 0.26079 = 0.1304 V, 2.037 %.
# Stalled at 2.4 A: the rudder 0.6259 V, 9.780 %, an aileron 0.6209 V, 9.701 %.
# Left at the rudder stalled: 6.4 − 3.75 × 0.04085 − 0.6259 = 5.621 V, 0.821 V over its 4.8 V; at an aileron 5.630 V.
# At the receiver with the two stalled that add most (rudder, left aileron: 0.15 + 2.4 + 2.4 + 0.6 = 5.55 A)
# 6.4 − 5.55 × 0.04085 = 6.173 V, with all three (7.35 A) 6.100 V.
NEEDY_RECEIVER = (RECEIVER_VOLTS, "{least: ▶5.85 V")  # and the margin of 0.3 V
CASES = {
    "drop_working": Case(
        "drop",
        limited("drop_working: 2.42 %", marked(AILERON_LEAD, "servo-22")),
        limited("drop_working: 2.43 %"),
    ),
    "drop_stalled": Case(
        "drop", limited("drop_stalled: 9.77 %", marked(RUDDER_LEAD, "servo-22")), limited("drop_stalled: 9.79 %")
    ),
    "margin": Case("volts", limited("margin: 0.825 V", marked(RUDDER_VOLTS, "4.8 V")), limited("margin: 0.82 V")),
    "together": Case(
        "volts", limited("together: 3", NEEDY_RECEIVER), limited("together: 2", (RECEIVER_VOLTS, "{least: 5.85 V"))
    ),
    # An aileron takes three of six.
    "spare_contacts": Case(
        "spare-contacts",
        limited("spare_contacts: 4", marked(SHELL, "block-6")),
        limited("spare_contacts: 3"),
    ),
    "hot": Case("unsleeved", hot_coax("hot: 84 °C", "▶"), hot_coax("hot: 86 °C")),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_just_over_the_limit_is_found(case: Case, aircraft_folder: AircraftFolder, places_of: PlacesOf) -> None:
    findings = check(aircraft_folder(case.wrong)).findings
    assert places_of(findings) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_just_under_the_limit_is_not(case: Case, aircraft_folder: AircraftFolder) -> None:
    checked = check(aircraft_folder(case.right))
    assert checked.harness is not None
    assert checked.findings == []


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        (hot_coax("hot: 84 °C"), "1 °C over the 84 °C that go without (`limits: hot`)"),
        (hot_coax("together: 4"), "5 °C over the 80 °C that go without (common practice)"),
    ],
    ids=["the builder's", "the usual one"],
)
def test_heat_without_a_sleeve_is_said_with_its_limit(
    changes: Changes, words: str, aircraft_folder: AircraftFolder
) -> None:
    assert words in check(aircraft_folder(changes)).findings[0].sentence


PORTS = "{plug: servo-3, names: 1..4, contacts: pins}"
DRAWS = "working: 0.5 A, stall: 2.4 A}"
RUDDER_OWN = "    place: tail-post\n    lead: 300 mm\n"


def rated(limits: str = "margin: 0.3 V") -> Changes:
    return limited(limits, (PORTS, PORTS.replace("}", ", rating: 4 A}")))


def draws(current: str, own: str) -> Changes:
    """Return a rudder that draws another current, over an own lead of another wire."""
    more = f"{RUDDER_OWN}    lead_wire: {own}\n"
    return limited("margin: 0.1 V", (DRAWS, current), (RUDDER_OWN, more))


# 26 AWG of a servo's lead bears 2 A by its own figure, fluoropolymer of 24 AWG 4 A (table 11-9, 150 °C).
SOURCES: dict[str, tuple[str, Changes, str]] = {
    "a wire's own": (
        "wire-current",
        draws("working: 2.4 A, stall: 2.4 A}", "lead-26"),
        "2 A (its own `current:`), 0.4 A",
    ),
    "the table's": (
        "wire-current",
        draws("working: 4.2 A, stall: 4.2 A}", "fluoro-24"),
        "4 A (FAA AC 43.13-1B table 11-9), 0.2 A",
    ),
    "a contact's for long": (
        "contact-current",
        draws("working: 3.4 A, stall: 3.4 A}", "fluoro-24"),
        "3 A (`rating:`), 0.4",
    ),
    "a contact's for a while": (
        "contact-current",
        draws("working: 1 A, stall: 5.5 A}", "fluoro-24"),
        "5 A (`brief:`), 0.5",
    ),
    "the peak": ("supply-current", rated(), "at peak (4 stall together; common practice: surfaces move in pairs)"),
    "the builder's peak": ("supply-current", rated("together: 3"), "at peak (3 stall together; `limits: together`)"),
    "an outlet's": ("supply-current", rated(), "4 A (`rating:`)"),
}


@pytest.mark.parametrize(("name", "changes", "words"), SOURCES.values(), ids=SOURCES)
def test_a_finding_says_where_its_limit_comes_from(
    name: str, changes: Changes, words: str, aircraft_folder: AircraftFolder
) -> None:
    found = [finding.sentence for finding in check(aircraft_folder(changes)).findings if finding.name == name]
    assert any(words in sentence for sentence in found), found
