"""A bound that a finding names is rounded to the side on which it holds: at least upward, at most downward."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

PORTS = "names: 1..4, contacts: pins}"
PACK = "full: 8.4 V, empty: 6.4 V}"
RUDDER_DRAWS = "working: 0.5 A, stall: 2.4 A}"
RUDDER_LEAD = "    to: rudder\n    lead: servo-22\n"
TAIL_RUN = "[radio-tray, tail-post],   length: 1140 mm, edges: sharp}"
PACK_RUN = "[battery-bay, radio-tray], length: 260 mm}"
LEG = (
    "  gear-unit:\n    kind: gear controller\n    place: radio-tray\n    ports:\n"
    "      - {plug: power-2, names: [POWER], contacts: pins}\n      - {plug: motor-2, names: [LEG], contacts: pins}\n"
    "  nose-leg:\n    kind: gear leg\n    place: tail-post\n    lead: 160 mm\n    lead_wire: pvc-22\n"
    "    plug: motor-2\n    current: {idle: 0 A, working: 0.777 A, stall: 4.001 A, runs: 20 s}\n"
    "    gear: {up: 9 s, stop: STOP}\n"
)
LEG_CIRCUITS = (
    "  gear-supply: {from: receiver GEAR, to: gear-unit POWER, lead: power-20}\n"
    "  leg: {from: gear-unit LEG, to: nose-leg, lead: motor-22}\n"
)


def harness(*replacements: tuple[str, str]) -> Changes:
    return {"harness.yaml": list(replacements)}


def leg(stop: str) -> Changes:
    return harness(
        ("equipment:\n", "equipment:\n" + LEG.replace("STOP", stop)),
        ("circuits:\n", "circuits:\n" + LEG_CIRCUITS),
        ("names: [BATT]", "names: [BATT, GEAR]"),
    )


def behind_the_tail(mm: float) -> Changes:
    """Return an antenna, and the plug of the rudder's own lead of 300 mm, at a spine so far from the tail."""
    tail = "  tail-post:         {assembly: fuselage,     at: {aft: 1540 mm, up: 40 mm}, access: tail hatch}\n"
    antenna = "B: {place: PLACE, lies: crosswise, lead: LEAD}"
    return {
        "aircraft.yaml": [
            (tail, f"{tail}  spine: {{assembly: fuselage, access: hatch}}\n"),
            (TAIL_RUN, TAIL_RUN + f"\n  - {{between: [tail-post, spine], length: {mm} mm}}"),
        ],
        "harness.yaml": [
            (
                antenna.replace("PLACE", "radio-tray").replace("LEAD", "150 mm"),
                antenna.replace("PLACE", "spine").replace("LEAD", "1440 mm"),
            ),
            (
                "    place: tail-post\n    lead: 300 mm\n",
                "    place: tail-post\n    lead: 300 mm\n    plug_at: spine\n",
            ),
        ],
    }


STALLS = (RUDDER_DRAWS, RUDDER_DRAWS.replace("2.4 A", "2.44 A"))
SECOND = (
    "circuits:\n",
    "circuits:\n  supply-2: {from: pack-2, to: receiver BATT-2, lead: power-20}\n",
)
PACK_2 = (
    "equipment:\n",
    "equipment:\n  pack-2:\n    kind: battery\n    place: battery-bay\n    lead: 120 mm\n    lead_wire: pvc-20\n"
    "    plug: power-2\n    battery: {cells: 2, capacity: 200 mAh, full: 8.4 V, empty: 6.4 V}\n",
)

# The finding, the aircraft, and what it is to say.
BOUNDS: dict[str, tuple[str, Changes, str]] = {
    # Servos stalled: 2 × 2.4 A + 2.44 A = 7.24 A; with the receiver's 0.15 A 7.39 A.
    "an outlet": ("supply-current", harness(STALLS, (PORTS, PORTS.replace("}", ", rating: 7 A}"))), "give 7.3 A"),
    "a pack": (
        "supply-current",
        harness((RUDDER_DRAWS, RUDDER_DRAWS.replace("2.4 A", "2.47 A")), (PACK, PACK.replace("}", ", rating: 7 A}"))),
        "give 7.5 A",
    ),
    # 277.5 mAh a flight (the design's own example), with 0.52 A for 0.5 A 9 min × 0.02 A = 3 mAh more.
    "one pack": (
        "one-pack",
        harness(PACK_2, SECOND, ("[BATT]", "[BATT, BATT-2]"), (RUDDER_DRAWS, RUDDER_DRAWS.replace("0.5 A", "0.52 A"))),
        "281 mAh at least",
    ),
    # 277.5 / 0.7 = 396.4 mAh.
    "a charge": ("endurance", harness(("2600 mAh", "396 mAh")), "397 mAh in all"),
    # 396 × 0.7 / 277.5 = 0.9989 flights.
    "flights": ("endurance", harness(("2600 mAh", "396 mAh")), "does 0.99 flights"),
    # Three wires of 1.3 mm: 1.3 × (1 + 2 / √3) = 2.801 mm, × 10 = 28.01 mm.
    "a hinge": (
        "bend",
        {
            **harness((RUDDER_LEAD, RUDDER_LEAD.replace("servo-22", "servo-26"))),
            "aircraft.yaml": [(TAIL_RUN, TAIL_RUN.replace("}", ", hinge: 28 mm}"))],
        },
        "28.1 mm or more",
    ),
    # 1.3 × 0.777 A = 1.0101 A, 0.8 × 4.001 A = 3.2008 A.
    "a stop that working trips": ("gear-limit", leg("1 A"), "between 1.011 A and 3.2 A"),
    # From (420, 0, 10) to (1540, 0, 40): √(1120² + 30²) = 1120.402 mm.
    "a straight line": ("straight", {"aircraft.yaml": [("length: 1140 mm", "length: 1120.2 mm")]}, "1120.5 mm"),
    # Of lengths in mm: 300.4 mm to the spine, 1140 + 300.4 = 1440.4 mm from the receiver.
    "an own lead": ("reach", behind_the_tail(300.4), "a lead of 301 mm at least"),
    "a coax": ("antennas", behind_the_tail(300.4), "a lead of 1441 mm at least"),
}


@pytest.mark.parametrize(("name", "changes", "words"), BOUNDS.values(), ids=BOUNDS)
def test_a_bound_is_rounded_to_where_it_holds(
    name: str, changes: Changes, words: str, aircraft_folder: AircraftFolder
) -> None:
    found = [finding for finding in check(aircraft_folder(changes)).findings if finding.name == name]
    assert found
    assert [words in f"{finding.sentence} {finding.do}" for finding in found] == [True]


# The lead to the tail is three wires of 1.6 mm: 1.6 × (1 + 2 / √3) = 3.4475 mm.
def test_a_sleeve_is_wanted_that_fits_from_below_to_above(aircraft_folder: AircraftFolder) -> None:
    hot = {"aircraft.yaml": [(TAIL_RUN, TAIL_RUN.replace("edges: sharp", "heat: 500 °C"))]}
    found = [finding for finding in check(aircraft_folder(hot)).findings if finding.name == "unsleeved"]
    assert "fits 3.4 mm to 3.5 mm" in found[0].do


def test_a_lead_as_long_as_its_way_reaches(aircraft_folder: AircraftFolder) -> None:
    names = {finding.name for finding in check(aircraft_folder(behind_the_tail(300))).findings}
    assert names.isdisjoint({"reach", "antennas"})


# A label is 32 mm of paper and 5 mm of tube at either end, which shrinks a tenth: 42 / 0.9 = 46.7, cut 47 mm.
@pytest.mark.parametrize(
    ("cut", "loops"), [("20 mm", ["30 mm"]), ("37 mm", ["10 mm"]), ("46 mm", ["10 mm"]), ("47 mm", [])]
)
def test_a_loop_is_named_that_makes_room_for_a_label(
    cut: str, loops: list[str], aircraft_folder: AircraftFolder
) -> None:
    changes = harness((RUDDER_LEAD, f"{RUDDER_LEAD}    lengths: {{A: {cut}}}\n"))
    do = [finding.do for finding in check(aircraft_folder(changes)).findings if finding.name == "short"]
    assert [each for each in do if "`loop: " in each] == [
        f"Leave more lying free at its end, `loop: {loop}`." for loop in loops
    ]
