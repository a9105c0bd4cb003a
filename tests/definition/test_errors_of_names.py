"""Names of what is not there, and sides that are out of place: found where they were typed, with what was meant."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Case, Changes, Place
from wren_changed import aircraft, harness, parts, rudder, sides, stores

from docgen.basics.findings import Finding

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]

BEACON = "  beacon: {kind: light, place: tail-post}\n"
JOINT = "{shell: block-6, fixed: {place: left-root, contacts: pins}, loose: {place: left-panel-root, reach: 9 mm}}\n"


def second_joint(name: str) -> Changes:
    """Add equipment called beacon, and a disconnect."""
    return {
        "harness.yaml": [
            ("  pack:\n    kind", BEACON + "  pack:\n    kind"),
            ("disconnects:\n", f"disconnects:\n  {name}: {JOINT}"),
        ]
    }


NAME = {
    "ill-formed": Case(
        "name",
        harness("  rudder:\n    label", "  ▶Rudder:\n    label"),
        harness("  rudder:\n    label", "  rudder-2:\n    label"),
        "rudder",
    ),
    "ill-formed place": Case(
        "name",
        aircraft("  tail-post: ", "  ▶tail_end: {assembly: fuselage}\n  tail-post: "),
        aircraft("  tail-post: ", "  tail-end: {assembly: fuselage}\n  tail-post: "),
        "tail-end",
    ),
    "ill-formed assembly": Case(
        "name",
        aircraft("{assembly: fuselage,     at: {aft: 180", "{assembly: ▶Fuse lage, at: {aft: 180"),
        {},
        "fuse-lage",
    ),
    "place of equipment": Case(
        "name",
        harness("place: radio-tray\n", "place: ▶radio-try\n"),
        harness("place: radio-tray\n", "place: battery-bay\n"),
        "radio-tray",
    ),
    "place of a run": Case(
        "name", aircraft("[battery-bay, radio-tray]", "[▶batery-bay, radio-tray]"), {}, "battery-bay"
    ),
    "place of a half": Case("name", harness("place: <side>-root, ", "place: ▶<side>-rot, "), {}, "left-root"),
    "place of an antenna": Case(
        "name",
        harness("B: {place: radio-tray", "B: {place: ▶radiotray"),
        harness("B: {place: radio-tray", "B: {place: tail-post"),
        "radio-tray",
    ),
    "lead": Case("name", rudder("servo-22", "▶servo-2"), rudder("servo-22", "servo-24"), "servo-2"),
    "lead of a segment": Case(
        "name",
        sides("lead: servo-22", "lead: {A: servo-22, B: ▶srvo-22}"),
        sides("lead: servo-22", "lead: {A: servo-22, B: servo-24}"),
        "servo-22",
    ),
    "plug": Case("name", harness("{plug: power-2,", "{plug: ▶powr-2,"), {}, "power-2"),
    "shell": Case(
        "name",
        harness("shell: block-6", "shell: ▶blok-6"),
        harness("shell: block-6", "shell: block-8"),
        "block-6",
    ),
    "wire": Case(
        "name",
        harness("lead_wire: pvc-20", "lead_wire: ▶pvc20"),
        harness("lead_wire: pvc-20", "lead_wire: pvc-22"),
        "pvc-20",
    ),
    "wire of a spool": Case("name", stores("wire: pvc-22, colour: RD", "wire: ▶pv-22, colour: RD"), {}, "pvc-22"),
    "wire of a lead": Case(
        "name",
        parts("leads: {l: {wires: {negative: ▶pvv-22 BK}}}\n"),
        parts("leads: {l: {wires: {negative: pvc-22 BK}}}\n"),
        "pvc-22",
    ),
    "equipment": Case("name", rudder("to: rudder", "to: ▶ruder"), {}, "rudder"),
    "disconnect": Case("name", sides("[<side>-root]", "[▶<side>-rot]"), {}, "left-root"),
    "port": Case("name", rudder("receiver 4", "▶receiver 9"), rudder("receiver 4", "receiver 3"), "4"),
    "port of what has one lead": Case("name", rudder("to: rudder", "to: ▶rudder 1"), {}, "rudder"),
    "place to come by": Case(
        "name",
        rudder("    to:", "    by: [▶radio-tra]\n    to:"),
        rudder("    to:", "    by: [radio-tray]\n    to:"),
        "radio-tray",
    ),
    "disconnect of pinned contacts": Case(
        "name",
        sides("    lead", "    contacts: {▶<side>-rot: [1, 2, 3]}\n    lead"),
        sides("    lead", "    contacts: {<side>-root: [1, 2, 3]}\n    lead"),
        "left-root",
    ),
    "segment of a length": Case(
        "name",
        rudder("    to:", "    lengths: {▶B: 1400 mm}\n    to:"),
        rudder("    to:", "    lengths: {A: 1400 mm}\n    to:"),
        "A",
    ),
    "segment of a lead": Case(
        "name", sides("lead: servo-22", "lead: {A: servo-22, B: servo-22, ▶C: servo-22}"), {}, "A, B"
    ),
    "sleeve of a run": Case(
        "name",
        aircraft("length: 260 mm", "length: 260 mm, sleeve: ▶brad-4"),
        aircraft("length: 260 mm", "length: 260 mm, sleeve: braid-4"),
        "braid-4",
    ),
    "port that is driven": Case(
        "name",
        harness(
            "    volts: {least: 3.6 V, most: 9 V}\n", "    volts: {least: 3.6 V, most: 9 V}\n    drives: {1: [2, ▶5]}\n"
        ),
        harness(
            "    volts: {least: 3.6 V, most: 9 V}\n", "    volts: {least: 3.6 V, most: 9 V}\n    drives: {1: [2, 3]}\n"
        ),
        "BATT",
    ),
    "port that drives": Case(
        "name",
        harness(
            "    volts: {least: 3.6 V, most: 9 V}\n", "    volts: {least: 3.6 V, most: 9 V}\n    drives: {▶5: [2]}\n"
        ),
        {},
        "BATT",
    ),
    "port that feeds": Case(
        "name",
        harness("    current: {working: 150 mA}", "    fed_by: [▶BAT]\n    current: {working: 150 mA}"),
        harness("    current: {working: 150 mA}", "    fed_by: [BATT]\n    current: {working: 150 mA}"),
        "BATT",
    ),
    "port that feeds after a range": Case(
        "name",
        harness("    current: {working: 150 mA}", "    fed_by: [1..3, ▶BAT, BATT]\n    current: {working: 150 mA}"),
        harness("    current: {working: 150 mA}", "    fed_by: [1..3, BATT]\n    current: {working: 150 mA}"),
        "BATT",
    ),
    "role of a lead's colour": Case(
        "name",
        harness("lead_wire: pvc-20\n", "lead_wire: pvc-20\n    lead_colours: {▶signal: OG}\n"),
        harness("lead_wire: pvc-20\n", "lead_wire: pvc-20\n    lead_colours: {negative: BN}\n"),
        "negative",
    ),
    "finding to accept": Case(
        "name",
        rudder("    to:", "    accept: {▶shortt: measured}\n    to:"),
        rudder("    to:", "    accept: {short: measured}\n    to:"),
        "short",
    ),
    "error to accept": Case("name", rudder("    to:", "    accept: {▶route: by hand}\n    to:"), {}),
    "disconnect named like equipment": Case("name", second_joint("▶beacon"), second_joint("tail")),
}
SIDE = {
    "value": Case(
        "side",
        rudder("    to:", "    note: ▶the <side> one\n    to:"),
        rudder("    to:", "    note: the left one\n    to:"),
    ),
    "key": Case(
        "side",
        aircraft("{aft: 1540 mm, up", "{aft: 1540 mm, ▶<side>: 1 mm, up"),
        aircraft("{aft: 1540 mm, up", "{aft: 1540 mm, left: 1 mm, up"),
    ),
    "of the aircraft": Case(
        "side", aircraft("name: Wren", "name: ▶Wren <side>"), aircraft("name: Wren", "name: Wren left")
    ),
}
ALL = {f"{case.name}: {about}": case for table in (NAME, SIDE) for about, case in table.items()}
TOLD = {about: case for about, case in ALL.items() if case.told}


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_an_error_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(aircraft_folder(case.wrong))
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_nearly_equal_definition_has_no_such_error(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    assert case.name not in {finding.name for finding in errors_in(aircraft_folder(case.right))}


@pytest.mark.parametrize("case", TOLD.values(), ids=TOLD)
def test_an_error_offers_what_would_do(case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    finding = errors_in(aircraft_folder(case.wrong))[0]
    assert case.told in f"{finding.sentence} {finding.do}"
