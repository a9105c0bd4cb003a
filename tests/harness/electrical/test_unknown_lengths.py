"""What is worked out where one length is not known, and what is left out, by hand on the smallest example."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import Changes
from resolved import harness_of

from docgen.harness.model.harness import Harness
from docgen.harness.model.results import CircuitFigures, Stage
from docgen.pipeline import check

AircraftFolder = Callable[[Changes], Path]

SUPPLY_RUN = ("[battery-bay, radio-tray], length: 260 mm}", "[battery-bay, radio-tray]}")
BAY = ("at: {aft: 180 mm}, ", "")
TAIL_RUN = ("[radio-tray, tail-post],   length: 1140 mm,", "[radio-tray, tail-post],")
POST = ("at: {aft: 1540 mm, up: 40 mm}, ", "")
RESISTANCE = ("full: 8.4 V, empty: 6.4 V}", "full: 8.4 V, empty: 6.4 V, resistance: 20 mohm}")
SWITCHING = (
    "    current: {working: 150 mA}\n",
    "    current: {working: 150 mA}\n    output: {volts: 5 V, efficiency: 90 %}\n",
)


def figures(harness: Harness, name: str) -> CircuitFigures:
    return harness.results.circuits[name]


def stages(harness: Harness) -> dict[str, Stage]:
    return {stage.name: stage for stage in harness.results.supplies[0].stages}


def test_behind_a_lead_of_unknown_length_currents_are_known_and_volts_are_not(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"aircraft.yaml": [SUPPLY_RUN, BAY]}))
    supply = harness.results.supplies[0]
    # 150 mA, two ailerons of 0.6 A and the rudder of 0.5 A; stalled together three of 2.4 A.
    assert (supply.working_a, supply.peak_a) == pytest.approx((1.85, 7.35))
    # A flight's charge is worked out from currents alone: 1.85 A for 9 min.
    assert supply.endurance is not None
    assert supply.endurance.together == pytest.approx(2600 * 0.7 / (1850 * 9 / 60))
    for name in ("supply", "left-aileron", "rudder"):
        found = figures(harness, name)
        assert (found.own_drop_v, found.volts_left_v, found.shares.drop_stalled) == (None, None, None)
    assert figures(harness, "supply").length_mm is None
    assert figures(harness, "rudder").length_mm == 1335
    assert figures(harness, "rudder").working_a == pytest.approx(0.5)
    # 0.5 A; its own lead of 26 AWG may carry 2 A.
    assert figures(harness, "rudder").shares.wire == pytest.approx(0.5 / 2)
    at = stages(harness)
    assert at["pack"].working_v == pytest.approx(6.4)
    assert {name: stage.working_v for name, stage in at.items() if name != "pack"} == dict.fromkeys(
        ["receiver", "left-aileron", "right-aileron", "rudder"]
    )


def test_a_pack_of_known_current_has_known_volts_and_one_of_unknown_current_none(
    aircraft_folder: AircraftFolder,
) -> None:
    changes = {"aircraft.yaml": [SUPPLY_RUN, BAY]}
    # What is drawn is known: 1.85 A over 20 mohm.
    known = harness_of(aircraft_folder({**changes, "harness.yaml": [RESISTANCE]}))
    assert stages(known)["pack"].working_v == pytest.approx(6.4 - 1.85 * 0.02)
    unknown = harness_of(aircraft_folder({**changes, "harness.yaml": [RESISTANCE, SWITCHING]}))
    assert stages(unknown)["pack"].working_v is None


def test_a_load_beside_one_on_an_unknown_length_is_worked_out(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"aircraft.yaml": [TAIL_RUN, POST]}))
    # By hand in test_wren_electricity.py: 5.63 V are left at an aileron, whatever the rudder's lead drops.
    assert figures(harness, "left-aileron").volts_left_v == pytest.approx(5.63, abs=0.005)
    assert figures(harness, "rudder").volts_left_v is None
    assert stages(harness)["receiver"].working_v is not None


def test_a_switching_outlet_of_unknown_volts_draws_an_unknown_current(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"aircraft.yaml": [SUPPLY_RUN, BAY], "harness.yaml": [SWITCHING]}))
    supply = harness.results.supplies[0]
    assert (supply.working_a, supply.peak_a, supply.endurance) == (None, None, None)
    assert figures(harness, "supply").working_a is None
    assert figures(harness, "supply").shares.wire is None
    assert figures(harness, "left-aileron").working_a == pytest.approx(0.6)


def test_a_switching_outlet_of_known_volts_draws_what_it_gives_over_its_efficiency(
    aircraft_folder: AircraftFolder,
) -> None:
    harness = harness_of(aircraft_folder({"aircraft.yaml": [TAIL_RUN, POST], "harness.yaml": [SWITCHING]}))
    working_a = harness.results.supplies[0].working_a
    assert working_a is not None
    # 1.7 A at 5 V over 90 % of about 6.3 V, and 150 mA: 1.65 A.
    assert working_a == pytest.approx(0.15 + 5 * 1.7 / (0.9 * 6.33), rel=0.01)


def test_a_pinned_length_is_known_whatever_its_way(aircraft_folder: AircraftFolder) -> None:
    pinned = ("  supply:\n    label: RX BATT\n", "  supply:\n    lengths: {A: 325 mm}\n    label: RX BATT\n")
    harness = harness_of(aircraft_folder({"aircraft.yaml": [SUPPLY_RUN, BAY], "harness.yaml": [pinned]}))
    assert figures(harness, "supply").length_mm == 325
    assert figures(harness, "rudder").volts_left_v == pytest.approx(5.62, abs=0.005)


def test_an_own_lead_of_unknown_length_leaves_out_the_drop_over_it(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": [("    lead: 300 mm\n", "")]}))
    assert figures(harness, "rudder").length_mm == 1335
    assert (figures(harness, "rudder").own_drop_v, figures(harness, "rudder").volts_left_v) == (None, None)
    assert figures(harness, "left-aileron").volts_left_v == pytest.approx(5.63, abs=0.005)


def test_the_reach_of_a_half_that_is_not_said_is_not_nothing(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": [("contacts: pins, reach: 120 mm", "contacts: pins")]}))
    lengths = {lead.name: lead.length_mm for lead in harness.leads()}
    assert (lengths["left-aileron A"], lengths["left-aileron B"]) == (300, None)


def test_an_unknown_current_is_held_against_no_wire_and_no_contact(aircraft_folder: AircraftFolder) -> None:
    # Were it known: at least 0.15 A and 1.7 A of 5 V over 90 % of 8.4 V through 28 AWG for 1 A.
    parts = (
        "wires:\n  thin: {gauge: 28 AWG, diameter: 1 mm, resistance: 64 ohm/1000ft, limit: 80 °C, current: 1 A}\n"
        "leads:\n  thin-2: {wires: {negative: thin BK, positive: thin RD}}\n"
    )
    thin = ("    to: receiver BATT\n    lead: power-20\n", "    to: receiver BATT\n    lead: thin-2\n")
    changes: Changes = {"parts.yaml": parts, "harness.yaml": [thin, SWITCHING]}
    known, unknown = (
        check(aircraft_folder({**changes, "aircraft.yaml": aircraft})).findings for aircraft in ([], [SUPPLY_RUN, BAY])
    )
    assert [any(f.name == "wire-current" for f in found) for found in (known, unknown)] == [True, False]
