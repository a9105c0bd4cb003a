"""The smallest example's electricity and sleeves by hand, step by step, from the figures of the tables."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest
from click.testing import CliRunner
from reference.circle_packing import SMALLEST_CIRCLE
from reference.conversions import FOOT_MM
from reference.wire_tables import NOMINAL_TINNED_OHM_PER_1000_FT, TABLE_11_9_OHM_PER_1000_FT

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen

# Wires: FAA AC 43.13-1B table 11-9, the servos' own leads the trade's nominal for 19/38. 1000 ft = 304.8 m.
OHM_PER_M_20 = TABLE_11_9_OHM_PER_1000_FT[20] / FOOT_MM
OHM_PER_M_22 = TABLE_11_9_OHM_PER_1000_FT[22] / FOOT_MM
OHM_PER_M_26 = NOMINAL_TINNED_OHM_PER_1000_FT[26, "19/38"] / FOOT_MM
# Contacts: common practice, no source.
SERVO_OHM, BLOCK_OHM, POWER_OHM = 0.010, 0.005, 0.003

# Of an aileron 0.1430 ohm are the harness's wires, 0.0657 those of the own lead, 0.0500 three contacts a pole.
# Cut lengths by hand stand in test_wren.py: 300 + 1045 mm, 1335 mm, 325 mm; own leads 250, 300 and 120 mm.
AILERON_OHM = 2 * 1.345 * OHM_PER_M_22 + 2 * 0.250 * OHM_PER_M_26 + 2 * (SERVO_OHM + BLOCK_OHM + SERVO_OHM)
RUDDER_OHM = 2 * 1.335 * OHM_PER_M_22 + 2 * 0.300 * OHM_PER_M_26 + 2 * (SERVO_OHM + SERVO_OHM)
SUPPLY_OHM = 2 * (0.325 + 0.120) * OHM_PER_M_20 + 4 * POWER_OHM

EMPTY_V = 6.4
AILERON_A, RUDDER_A, RECEIVER_A, STALL_A = 0.6, 0.5, 0.15, 2.4
WORKING_A = 2 * AILERON_A + RUDDER_A + RECEIVER_A
# Three servos can stall, fewer than the four that are taken together.
PEAK_A = 3 * STALL_A + RECEIVER_A

# Three twisted wires of 1.6 mm in the circle around them, in a sleeve for 3 to 8 mm that shortens by 2 to 30 %.
BUNDLE_MM = SMALLEST_CIRCLE[3] * 1.6
SHORTENING = 0.02 + (BUNDLE_MM - 3) / (8 - 3) * (0.30 - 0.02)


@pytest.fixture(scope="module")
def wren() -> Any:
    result = CliRunner().invoke(docgen, ["check", str(shipped_folder("examples") / "wren"), "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def circuit(wren: Any, name: str) -> Any:
    return next(one for one in wren["circuits"] if one["name"] == name)


def run_between(wren: Any, *places: str) -> Any:
    return next(one for one in wren["runs"] if set(one["between"]) == set(places))


# The hand calculation is that of the design


@pytest.mark.parametrize(
    ("by_hand", "in_the_design", "tolerance"),
    [
        (AILERON_OHM, 0.2587, 5e-5),
        (AILERON_OHM * AILERON_A, 0.155, 5e-4),
        (AILERON_OHM * AILERON_A / EMPTY_V, 0.024, 5e-4),
        (AILERON_OHM * STALL_A, 0.621, 5e-4),
        (AILERON_OHM * STALL_A / EMPTY_V, 0.097, 5e-4),
        (SUPPLY_OHM, 0.0408, 5e-5),
        (SUPPLY_OHM * 3.65, 0.149, 5e-4),
    ],
)
def test_each_step_by_hand_is_that_of_the_design(by_hand: float, in_the_design: float, tolerance: float) -> None:
    assert by_hand == pytest.approx(in_the_design, abs=tolerance)


# Circuits


def test_all_circuits_and_no_others_are_told(wren: Any) -> None:
    lengths_mm = {one["name"]: one["length_mm"] for one in wren["circuits"]}
    assert lengths_mm == {"supply": 325, "left-aileron": 1345, "right-aileron": 1345, "rudder": 1335}


@pytest.mark.parametrize(
    ("name", "ohm", "working_a"),
    [
        ("left-aileron", AILERON_OHM, AILERON_A),
        ("right-aileron", AILERON_OHM, AILERON_A),
        ("rudder", RUDDER_OHM, RUDDER_A),
    ],
)
def test_a_servo_s_circuit_drops_what_the_hand_calculation_says(
    wren: Any, name: str, ohm: float, working_a: float
) -> None:
    said = circuit(wren, name)
    assert (said["working_a"], said["stall_a"]) == pytest.approx((working_a, STALL_A))
    assert said["own_drop_v"] == pytest.approx(ohm * working_a, abs=1e-5)
    assert said["own_drop_share"] == pytest.approx(ohm * working_a / EMPTY_V, abs=1e-5)
    assert said["stalled_drop_v"] == pytest.approx(ohm * STALL_A, abs=1e-5)
    assert said["stalled_drop_share"] == pytest.approx(ohm * STALL_A / EMPTY_V, abs=1e-5)


def test_the_supply_s_circuit_carries_all(wren: Any) -> None:
    said = circuit(wren, "supply")
    assert said["working_a"] == pytest.approx(1.85)
    assert said["own_drop_v"] == pytest.approx(SUPPLY_OHM * WORKING_A, abs=1e-5)


@pytest.mark.parametrize(
    ("name", "ohm", "others_a", "rounded_v"),
    # The others: rudder, an aileron and the receiver; for the rudder two ailerons and the receiver.
    [("left-aileron", AILERON_OHM, 1.25, 5.63), ("rudder", RUDDER_OHM, 1.35, 5.62)],
)
def test_what_is_left_at_a_stalled_servo_is_that_of_the_design(
    wren: Any, name: str, ohm: float, others_a: float, rounded_v: float
) -> None:
    left_v = EMPTY_V - SUPPLY_OHM * (STALL_A + others_a) - ohm * STALL_A
    assert round(left_v, 2) == rounded_v
    said = circuit(wren, name)
    assert said["volts_left_v"] == pytest.approx(left_v, abs=1e-5)
    assert said["case"] == "stall"


def test_the_receiver_is_judged_at_peak(wren: Any) -> None:
    said = circuit(wren, "supply")
    assert said["volts_left_v"] == pytest.approx(EMPTY_V - SUPPLY_OHM * PEAK_A, abs=1e-5)
    assert said["case"] == "peak"


def test_an_aileron_circuit_uses_these_shares_of_its_limits(wren: Any) -> None:
    shares = circuit(wren, "left-aileron")["shares"]
    # The own lead of 26 AWG may carry 2 A, servo contacts 3 A and briefly 5 A (common practice, no source); the drop
    # 1/28 working (the continuous row of AC 43.13-1B table 11-6, from memory) and 10 % stalled (common practice).
    assert shares["wire"] == pytest.approx(0.6 / 2, abs=1e-5)
    assert shares["contact"] == pytest.approx(0.6 / 3, abs=1e-5)
    assert shares["brief"] == pytest.approx(2.4 / 5, abs=1e-5)
    assert shares["drop_working"] == pytest.approx(AILERON_OHM * AILERON_A / EMPTY_V * 28, abs=1e-4)
    assert shares["drop_stalled"] == pytest.approx(AILERON_OHM * STALL_A / EMPTY_V / 0.10, abs=1e-4)


# Supply


def test_there_is_one_supply_of_one_pack(wren: Any) -> None:
    assert [supply["packs"] for supply in wren["supplies"]] == [["pack"]]


def test_the_pack_gives_these_currents(wren: Any) -> None:
    [supply] = wren["supplies"]
    # 2 × 0.6 + 0.5 + 0.15 A; 3 × 2.4 + 0.15 A.
    assert supply["working_a"] == pytest.approx(1.85)
    assert supply["peak_a"] == pytest.approx(7.35)


def test_each_stage_has_the_volts_of_the_hand_calculation(wren: Any) -> None:
    [supply] = wren["supplies"]
    stages = {stage["name"]: (stage["working_v"], stage["peak_v"]) for stage in supply["stages"]}
    receiver_v = [EMPTY_V - SUPPLY_OHM * amperes for amperes in (WORKING_A, PEAK_A)]
    ailerons_v = [receiver_v[0] - AILERON_OHM * AILERON_A, receiver_v[1] - AILERON_OHM * STALL_A]
    expected = {
        "pack": [EMPTY_V, EMPTY_V],
        "receiver": receiver_v,
        "left-aileron": ailerons_v,
        "right-aileron": ailerons_v,
        "rudder": [receiver_v[0] - RUDDER_OHM * RUDDER_A, receiver_v[1] - RUDDER_OHM * STALL_A],
    }
    assert stages.keys() == expected.keys()
    assert supply["stages"][0]["name"] == "pack"
    for name, volts in expected.items():
        assert stages[name] == pytest.approx(volts, abs=1e-5), name


def test_a_charge_lasts_for_the_flights_of_the_design(wren: Any) -> None:
    [supply] = wren["supplies"]
    # 1.85 A for 9 min; 2600 mAh with 30 % left.
    flight_mah = 1850 * 9 / 60
    assert flight_mah == 277.5
    assert supply["flight_mah"] == pytest.approx(flight_mah)
    assert round(2600 * 0.7 / flight_mah, 1) == 6.6
    assert supply["flights_together"] == pytest.approx(2600 * 0.7 / flight_mah, abs=0.05)


# Runs


def test_the_sleeve_by_hand_is_that_of_the_design() -> None:
    assert round(BUNDLE_MM, 2) == 3.45
    assert round(SHORTENING, 3) == 0.045


@pytest.mark.parametrize(
    ("places", "length_mm"),
    [
        (("radio-tray", "left-root"), 235),
        (("radio-tray", "tail-post"), 1140),
        (("right-panel-root", "right-aileron"), 745),
    ],
)
def test_a_sharp_run_is_sleeved_as_the_design_says(wren: Any, places: tuple[str, str], length_mm: float) -> None:
    said = run_between(wren, *places)
    assert said["length_mm"] == length_mm
    assert said["diameter_mm"] == pytest.approx(BUNDLE_MM, abs=0.005)
    assert said["sleeve"] == "braid-4"
    # 3 × the outside diameter where it lies supported (a public text citing an aircraft book).
    assert said["bend_radius_mm"] == pytest.approx(3 * BUNDLE_MM, abs=0.05)


@pytest.mark.parametrize(
    ("places", "length_mm"), [(("radio-tray", "tail-post"), 1140), (("left-panel-root", "left-aileron"), 745)]
)
def test_a_sleeve_is_cut_longer_by_what_it_shortens(wren: Any, places: tuple[str, str], length_mm: float) -> None:
    cut_mm = run_between(wren, *places)["sleeve_cut_mm"]
    # At most the whole run, at least what two labels 25 mm behind the plugs leave; a label here is at most 80 mm long.
    assert cut_mm % 5 == 0
    assert cut_mm <= math.ceil(length_mm / (1 - SHORTENING) / 5) * 5
    assert cut_mm >= (length_mm - 2 * (25 + 80)) / (1 - SHORTENING)


def test_a_run_without_hazard_is_not_sleeved(wren: Any) -> None:
    assert run_between(wren, "battery-bay", "radio-tray")["sleeve"] is None
