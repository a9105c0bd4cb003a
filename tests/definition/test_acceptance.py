from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Place

from docgen.basics.findings import Finding, Level
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

RUDDER_LOOP = "    lead: servo-22\n    loop: 80 mm\n    channel: 4\n"
# All cautions and notes that builders are told of.
ACCEPTABLE = [
    "reach",
    "access",
    "short",
    "straight",
    "unmeasured",
    "accept",
    "unused",
    "volts",
    "drop",
    "overvolts",
    "joined-supplies",
    "wire-current",
    "contact-current",
    "supply-current",
    "single-contact",
    "one-pack",
    "endurance",
    "heat",
    "unsleeved",
    "bend",
    "crimp-fit",
    "swap",
    "live-pins",
    "spare-contacts",
    "failsafe",
    "gear-limit",
    "antennas",
    "tube",
    "type",
    "stock",
    "spool",
]


def found(folder: Path, name: str) -> list[Finding]:
    return [finding for finding in check(folder).findings if finding.name == name]


def test_a_caution_of_a_circuit_can_be_accepted(aircraft_folder: AircraftFolder) -> None:
    new = "    lengths: {A: 1300 mm}\n    accept: {short: measured along the longeron}\n"
    folder = aircraft_folder({"harness.yaml": [(RUDDER_LOOP, RUDDER_LOOP + new)]})
    assert [finding.accepted for finding in found(folder, "short")] == ["measured along the longeron"]


def test_a_note_of_a_run_can_be_accepted(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(
        {
            "aircraft.yaml": [
                (", length: 260 mm}", ", accept: {unmeasured: a straight tube}}"),
            ]
        }
    )
    assert [finding.accepted for finding in found(folder, "unmeasured")] == ["a straight tube"]


def test_a_note_of_equipment_can_be_accepted(aircraft_folder: AircraftFolder) -> None:
    spare = "  spare: {kind: servo, place: radio-tray, accept: {unused: fitted next season}}\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", "equipment:\n" + spare)]})
    assert [finding.accepted for finding in found(folder, "unused")] == ["fitted next season"]


def test_the_reason_of_one_entry_is_not_that_of_another(aircraft_folder: AircraftFolder) -> None:
    spare = (
        "  spare: {kind: servo, place: radio-tray, accept: {unused: fitted next season}}\n"
        "  other: {kind: servo, place: radio-tray}\n"
    )
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", "equipment:\n" + spare)]})
    assert [finding.accepted for finding in found(folder, "unused")] == ["fitted next season", ""]


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("harness.yaml", RUDDER_LOOP, RUDDER_LOOP + "    accept: {▶short: measured}\n"),
        ("harness.yaml", "  pack:\n", "  pack:\n    accept: {▶unused: kept}\n"),
        ("harness.yaml", "    shell: block-6\n", "    shell: block-6\n    accept: {▶unused: kept}\n"),
        ("aircraft.yaml", ", length: 260 mm}", ", length: 260 mm, accept: {▶unmeasured: kept}}"),
        ("aircraft.yaml", "access: canopy}", "access: canopy, accept: {▶straight: kept}}"),
        ("aircraft.yaml", "  name: Wren\n", "  name: Wren\n  accept: {▶unused: kept}\n"),
        ("aircraft.yaml", "reserve: 30 %}", "reserve: 30 %, accept: {▶unused: kept}}"),
        (
            "harness.yaml",
            "lies: lengthwise, lead: 150 mm}",
            "lies: lengthwise, lead: 150 mm, accept: {▶unused: kept}}",
        ),
    ],
    ids=["circuit", "equipment", "disconnect", "run", "place", "aircraft", "flight", "antenna"],
)
def test_an_acceptance_of_nothing_is_a_note_at_its_key(
    file: str, old: str, new: str, aircraft_folder: AircraftFolder, places_of: PlacesOf
) -> None:
    findings = check(aircraft_folder({file: [(old, new)]})).findings
    assert places_of(findings) == aircraft_folder.marked("accept")


def test_an_acceptance_of_a_label_waits_for_the_paperwork(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [(RUDDER_LOOP, RUDDER_LOOP + "    accept: {tube: none smaller}\n")]})
    assert check(folder).findings == []


def test_every_caution_and_note_can_be_named_in_an_acceptance(aircraft_folder: AircraftFolder) -> None:
    accept = "    accept: {" + ", ".join(f"{name}: a reason" for name in ACCEPTABLE) + "}\n"
    findings = check(aircraft_folder({"harness.yaml": [(RUDDER_LOOP, RUDDER_LOOP + accept)]})).findings
    assert [finding.sentence for finding in findings if finding.level is Level.ERROR] == []


def test_an_acceptance_without_a_reason_is_an_error(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [(RUDDER_LOOP, RUDDER_LOOP + '    accept: {short: ""}\n')]})
    assert check(folder).harness is None
