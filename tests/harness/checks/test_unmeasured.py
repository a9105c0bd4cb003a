"""What is told as not measured, where it is written, and nearly equal definitions in which nothing is."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from conftest import AircraftFolder, Case, Place
from wren_changed import RUDDER, aircraft, harness

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

TAIL_RUN = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
SERVO = "  rudder:\n    kind: servo\n    place: tail-post\n    lead: 300 mm\n"
LOOSE = "    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}\n"

CASES = {
    "a run of which the straight line is known": Case(
        "unmeasured", aircraft(TAIL_RUN, TAIL_RUN.replace("- {", "- ▶{").replace("   length: 1140 mm,", "")), {}
    ),
    "a run of which nothing is known": Case(
        "unmeasured",
        {
            "aircraft.yaml": [
                (TAIL_RUN, TAIL_RUN.replace("- {", "- ▶{").replace("   length: 1140 mm,", "")),
                ("at: {aft: 1540 mm, up: 40 mm}, ", ""),
            ]
        },
        aircraft("at: {aft: 1540 mm, up: 40 mm}, ", ""),
    ),
    "a way that no run makes yet": Case(
        "unmeasured",
        {"aircraft.yaml": [(TAIL_RUN, "")], "harness.yaml": [("  rudder:\n    label", "  ▶rudder:\n    label")]},
        {},
    ),
    "the reach of a half that hangs free": Case(
        "unmeasured", harness(LOOSE, LOOSE.replace("{", "▶{").replace(", reach: 120 mm", "")), {}
    ),
    "the lead that equipment came with": Case(
        "unmeasured", harness(SERVO, SERVO.replace("  rudder", "  ▶rudder").replace("    lead: 300 mm\n", "")), {}
    ),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_it_is_told_where_it_is_written(case: Case, aircraft_folder: AircraftFolder, places_of: PlacesOf) -> None:
    folder = aircraft_folder(case.wrong)
    marked = aircraft_folder.marked("unmeasured")
    assert {place for place in places_of(check(folder).findings) if place[0] == "unmeasured"} == marked


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_what_is_measured_is_not_told_of(case: Case, aircraft_folder: AircraftFolder) -> None:
    assert [finding.sentence for finding in check(aircraft_folder(case.right)).findings] == []


def test_all_circuits_that_wait_for_one_way_are_named_once(aircraft_folder: AircraftFolder) -> None:
    second = "  trim: {kind: servo, place: tail-post, lead: 300 mm, plug: servo-3}\n"
    trim = "  trim: {from: receiver 3, to: trim, lead: servo-22}\n"
    changes = {
        "aircraft.yaml": [(TAIL_RUN, "")],
        "harness.yaml": [("  pack:\n    kind", second + "  pack:\n    kind"), (RUDDER, RUDDER + trim)],
    }
    rudder = "    loop: 80 mm\n    channel: 4\n    throw: 40 mm each way\n"
    changes["harness.yaml"][1] = (RUDDER + rudder, RUDDER + rudder + trim)
    [finding] = [one for one in check(aircraft_folder(changes)).findings if one.name == "unmeasured"]
    assert "`rudder`, `trim`" in finding.sentence
