from __future__ import annotations

from collections.abc import Callable

import pytest
from conftest import AircraftFolder, Case, Place

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

# The rudder's lead by hand: (1140 × 1.03 + 80 loop + 2 × (2.5 strip + 2 × 10)) × twist = 1299.2 × twist;
# three wires of 1.6 mm lie on a circle of 2/√3 × 1.6 = 1.848 mm, at a lay of 25 mm the twist is
# √(1 + (π × 1.848 / 25)²) = 1.0266: 1333.8 mm.
LOOP = "    to: rudder\n    lead: servo-22\n"
# Battery bay to radio tray: 240 mm aft, 10 mm up: √(240² + 10²) = 240.2 mm.
PACK_RUN = "[battery-bay, radio-tray], length: 260 mm}"

CASES = {
    "equipment that no circuit reaches": Case(
        "unused",
        {"harness.yaml": [("equipment:\n", "equipment:\n  ▶spare: {kind: servo, place: radio-tray}\n")]},
        {},
        "spare",
    ),
    "a disconnect that no circuit reaches": Case(
        "unused",
        {
            "harness.yaml": [
                (
                    "disconnects:\n",
                    "disconnects:\n  ▶tail:\n    shell: block-6\n    fixed: {place: tail-post, contacts: pins}\n"
                    "    loose: {place: tail-post, reach: 50 mm}\n",
                )
            ]
        },
        {},
        "tail",
    ),
    "a run known by its ends": Case(
        "unmeasured",
        {"aircraft.yaml": [("- {between: " + PACK_RUN, "- ▶{between: [battery-bay, radio-tray]}")]},
        {},
        "240 mm",
    ),
    "a run under the straight line": Case(
        "straight",
        {"aircraft.yaml": [(PACK_RUN, PACK_RUN.replace("260", "▶240"))]},
        {"aircraft.yaml": [(PACK_RUN, PACK_RUN.replace("260", "241"))]},
        "240 mm",
    ),
    "a pinned length under what the route needs": Case(
        "short",
        {"harness.yaml": [(LOOP, LOOP + "    lengths: {A: ▶1333 mm}\n")]},
        {"harness.yaml": [(LOOP, LOOP + "    lengths: {A: 1334 mm}\n")]},
        "1334 mm",
    ),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_what_is_worth_knowing_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, places_of: PlacesOf
) -> None:
    assert places_of(check(aircraft_folder(case.wrong)).findings) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_it_keeps_no_harness_from_being_built(case: Case, aircraft_folder: AircraftFolder) -> None:
    assert check(aircraft_folder(case.wrong)).harness is not None


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_it_says_what_about(case: Case, aircraft_folder: AircraftFolder) -> None:
    (finding,) = check(aircraft_folder(case.wrong)).findings
    assert case.told in finding.sentence


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_nearly_equal_definition_has_none(case: Case, aircraft_folder: AircraftFolder) -> None:
    assert check(aircraft_folder(case.right)).findings == []


def test_a_pinned_length_is_taken(aircraft_folder: AircraftFolder) -> None:
    harness = check(aircraft_folder({"harness.yaml": [(LOOP, LOOP + "    lengths: {A: 1400 mm}\n")]})).harness
    assert harness is not None
    assert harness.circuits["rudder"].cut_leads[0].cut_length_mm == 1400


def test_the_example_has_nothing_worth_knowing(aircraft_folder: AircraftFolder) -> None:
    assert check(aircraft_folder()).findings == []
