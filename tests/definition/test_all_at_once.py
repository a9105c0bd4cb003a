from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Place

from docgen.basics.findings import Finding, in_order
from docgen.pipeline import check

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]

TAIL_RUN = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
SUPPLY = "    to: receiver BATT\n    lead: power-20\n"
NO_ROUTE = (
    "  rudder:\n    label: RUD\n    from",
    "  lonely: {from: receiver 3, to: lonely, lead: servo-22}\n  rudder:\n    label: RUD\n    from",
)
LONELY = "  lonely: {kind: servo, place: fin, lead: 250 mm, plug: servo-3}\n"
FIN = [
    ("  tail-post: ", "  fin: {assembly: fuselage}\n  fin-top: {assembly: fuselage}\n  tail-post: "),
    (TAIL_RUN, TAIL_RUN + "  - {between: [fin, fin-top], length: 90 mm}\n"),
]


def lonely(*more: tuple[str, str]) -> list[tuple[str, str]]:
    """Add a servo that no run leads to."""
    return [("  pack:\n    kind", LONELY + "  pack:\n    kind"), NO_ROUTE, *more]


def test_all_that_is_wrong_in_all_files_is_found_in_one_go(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    folder = aircraft_folder(
        {
            "aircraft.yaml": [
                *FIN,
                ("2026-04-18", "2026-04-31"),
                ("reserve: 30 %", "reserve: 30"),
                ("name: Wren", "nme: Wren"),
            ],
            "harness.yaml": lonely(
                ("cells: 2,", "cells: two,"),
                ("reach: 120 mm", "reach: 120"),
                ("    channel: 4", "    chanel: 4"),
            ),
            "stores.yaml": [("length: 2.5 m", "length: 2.5"), ("offcut: 150 mm", "offcut: none")],
            "parts.yaml": "wires: {w: {gauge: 22}}\nplugs: {p: {}}\n",
        }
    )
    by_file = {(Path(finding.position.file).name, finding.name) for finding in errors_in(folder)}
    assert by_file == {
        ("aircraft.yaml", "value"),
        ("aircraft.yaml", "unit"),
        ("aircraft.yaml", "key"),
        ("aircraft.yaml", "missing"),
        ("harness.yaml", "value"),
        ("harness.yaml", "unit"),
        ("harness.yaml", "key"),
        ("harness.yaml", "route"),
        ("stores.yaml", "unit"),
        ("stores.yaml", "value"),
        ("parts.yaml", "unit"),
        ("parts.yaml", "missing"),
    }


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("aircraft.yaml", "2026-04-18", "2026-04-31"),
        ("aircraft.yaml", "reserve: 30 %", "reserve: 30"),
        (
            "aircraft.yaml",
            "{assembly: fuselage,     at: {aft: 1540 mm",
            "{assembly: fuselage, at: {aft: 1540",
        ),
        ("harness.yaml", "{idle: 20 mA, working: 0.6 A", "{idle: 20, working: 0.6 A"),
        ("harness.yaml", "reach: 120 mm", "reach: 120"),
        ("harness.yaml", "channel: 4", "channel: four"),
        ("stores.yaml", "length: 2.5 m", "length: 2.5"),
    ],
    ids=["aircraft", "flight", "place", "servo", "disconnect", "circuit", "spool"],
)
def test_a_missing_way_is_found_beside_an_error_elsewhere(
    file: str, old: str, new: str, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    changes = {"aircraft.yaml": [*FIN], "harness.yaml": lonely(), "stores.yaml": list[tuple[str, str]]()}
    changes[file].append((old, new))
    assert "route" in {finding.name for finding in errors_in(aircraft_folder(changes))}


@pytest.mark.parametrize(
    ("old", "new", "name"),
    [
        (SUPPLY, SUPPLY.replace("power-20", "servo-22"), "role"),
        (SUPPLY, "    to: receiver 3\n", "mate"),
        ("    through: [<side>-root]\n", "", "through"),
        ("    channel: 4", "    contacts: {left-root: [1, 2, 3]}", "contacts"),
    ],
)
def test_an_error_of_a_circuit_is_found_beside_a_broken_run(
    old: str, new: str, name: str, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    folder = aircraft_folder({"aircraft.yaml": [("length: 260 mm", "length: 260")], "harness.yaml": [(old, new)]})
    assert {finding.name for finding in errors_in(folder)} == {"unit", name}


def test_an_unreadable_file_does_not_hide_what_is_wrong_in_the_others(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    folder = aircraft_folder(
        {
            "aircraft.yaml": "places: [",
            "harness.yaml": [("channel: 4", "channel: four")],
            "stores.yaml": [("2.5 m", "2.5")],
        }
    )
    assert {finding.name for finding in errors_in(folder)} == {"syntax", "value", "unit"}


def test_an_unreadable_file_makes_no_name_unknown(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    assert len(errors_in(aircraft_folder({"aircraft.yaml": "places: ["}))) == 1


def test_an_unreadable_parts_list_makes_no_part_unknown(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    folder = aircraft_folder({"harness.yaml": [("shell: block-6", "shell: mine")], "parts.yaml": "shells: ["})
    assert {finding.name for finding in errors_in(folder)} == {"syntax"}


def test_an_entry_with_an_error_is_not_unknown(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    folder = aircraft_folder({"aircraft.yaml": [("at: {aft: 420 mm, up: 10 mm}", "at: {aft: 420}")]})
    assert {finding.name for finding in errors_in(folder)} == {"unit"}


def test_a_circuit_of_broken_equipment_is_not_said_to_be_unfed(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    folder = aircraft_folder({"harness.yaml": [("cells: 2", "cells: two")]})
    assert {finding.name for finding in errors_in(folder)} == {"value"}


def test_several_things_wrong_in_one_entry_are_all_found(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    folder = aircraft_folder(
        {"harness.yaml": [("{cells: 2, capacity: 2600 mAh, full: 8.4 V", "{cells: two, capacity: 2600, full: 8.4 A")]}
    )
    assert [finding.name for finding in errors_in(folder)] == ["value", "unit", "unit"]


def test_findings_come_sorted_and_once(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(
        {
            "aircraft.yaml": [("reserve: 30 %", "reserve: 30"), ("length: 745 mm", "length: 745")],
            "harness.yaml": [("reach: 120 mm", "reach: 120"), ("{working: 150 mA}", "{working: 150}")],
        }
    )
    findings = check(folder).findings
    assert findings == in_order(findings)


def test_an_error_leaves_no_harness(aircraft_folder: AircraftFolder) -> None:
    assert check(aircraft_folder({"aircraft.yaml": FIN, "harness.yaml": lonely()})).harness is None


def test_beside_errors_nothing_is_judged(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(
        {"aircraft.yaml": [("length: 260 mm", "length: 200 mm"), ("reserve: 30 %", "reserve: 30")]}
    )
    assert [finding.name for finding in check(folder).findings] == ["unit"]


def test_what_can_not_be_read_in_one_entry_hides_no_error_that_another_makes(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    folder = aircraft_folder(
        {
            "harness.yaml": [
                ("    label: RUD\n", "    label: ▶''\n"),
                (
                    "    from: {left: receiver 1, right: receiver 2}\n",
                    "    from: {left: receiver 1, right: ▶receiver 9}\n",
                ),
            ]
        }
    )
    assert {place[1:] for place in places_of(errors_in(folder))} == aircraft_folder.marks


def test_of_equipment_one_of_whose_plugs_is_broken_no_role_is_said_to_be_missing(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    """The broken one may have it."""
    ports = "      - {plug: servo-3, names: 1..4, contacts: pins}\n"
    colours = "    lead_colours: {data: GN}\n    current: {working: 150 mA}"
    changes = [(ports, f"{ports}      - {{plug: p, names: [X]}}\n"), ("    current: {working: 150 mA}", colours)]
    broken = errors_in(aircraft_folder({"harness.yaml": changes, "parts.yaml": "plugs: {p: {}}\n"}))
    assert {Path(error.position.file).name for error in broken} == {"parts.yaml"}
    [error] = errors_in(aircraft_folder({"harness.yaml": changes[1:]}))
    assert error.sentence == "the plug of `receiver` has no `data`."
    assert error.do == "It has: negative, positive, signal."


@pytest.mark.parametrize(
    ("end", "sentence"),
    [
        ("left-root", "which common of `left-root` is not said."),
        ("left-root plus", "`left-root` has no common `plus`."),
    ],
)
def test_of_a_joint_without_commons_it_is_said_that_it_has_none(
    end: str, sentence: str, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    errors = errors_in(aircraft_folder({"harness.yaml": [("    to: rudder\n", f"    to: {end}\n")]}))
    assert (sentence, "Its commons: none.") in [(error.sentence, error.do) for error in errors]
