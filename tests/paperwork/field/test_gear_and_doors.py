"""The gear's part of first power-up: doors that move with legs, and nothing said of what is not there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from printed_tables import document_of
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field import power_content

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder, Changes

    from docgen.paperwork.field.power_parts import Step

LOADS = """  leg:
    {kind: gear leg, place: tail-post, lead: 100 mm, plug: servo-3, gear: {up: 5 s, down: 5 s, limit: 7 s, stop: 2 A}}
  door: {kind: servo, place: tail-post, lead: 100 mm, plug: servo-3}
  flap: {kind: servo, place: tail-post, lead: 100 mm, plug: servo-3}
"""
UNIT = """  unit:
    kind: servo controller
    place: radio-tray
    ports: {plug: servo-3, names: [GEAR, FLAP, A, B, C], contacts: pins}
    fed_by: [GEAR]
"""
FURTHER = """  further:
    kind: gear controller
    place: radio-tray
    ports: {plug: servo-3, names: [IN, OUT], contacts: pins}
"""
DIRECT = "  leg: {label: LEG, from: unit A, to: leg, lead: servo-22}\n"
OVER = """  further: {from: unit A, to: further IN, lead: servo-22}
  leg: {label: LEG, from: further OUT, to: leg, lead: servo-22}
"""
OTHERS = """  gear: {label: GEAR, from: receiver 3, to: unit GEAR, lead: servo-22}
  door: {label: DOOR, from: unit B, to: door, lead: servo-22}
  flap: {label: FLAP, from: unit C, to: flap, lead: servo-22}
"""
APART = "    drives: {GEAR: [A, B], FLAP: [C]}\n"


def with_gear(drives: str, leg: str) -> Changes:
    equipment = UNIT + drives + FURTHER * ("further" in leg) + LOADS
    changes = [("equipment:\n", f"equipment:\n{equipment}"), ("circuits:\n", f"circuits:\n{OTHERS}{leg}")]
    return {"harness.yaml": changes}


def gear_steps(folder: Path) -> list[Step]:
    (part,) = (part for part in power_content.content(harness_of(folder)).parts if part.title == "Gear, timed")
    return list(part.steps)


@pytest.mark.parametrize("leg", [DIRECT, OVER])
def test_the_arm_of_a_door_is_at_open_before_its_leg_moves_and_stays_so_while_that_stands_half_way(
    aircraft_folder: AircraftFolder, leg: str
) -> None:
    steps = gear_steps(aircraft_folder(with_gear(APART, leg)))
    assert [step.name for step in steps] == ["doors", "half way", "leg", "limit", "jam"]
    assert steps[0].does == "arms of DOOR: each at open before its leg moves"
    assert steps[1].does.endswith("no arm shuts")
    assert "gear switch" in steps[1].does


def test_doors_move_with_their_legs_once_linkages_are_on_hands_clear(aircraft_folder: AircraftFolder) -> None:
    parts = power_content.content(harness_of(aircraft_folder(with_gear(APART, DIRECT)))).parts
    (part,) = (part for part in parts if part.title == "Linkages")
    assert [(step.name, step.does) for step in part.steps][1:] == [("doors", "gear up, then down: no leg meets a door")]
    assert part.caution == "Hands clear of legs and doors."
    parts = power_content.content(harness_of(EXAMPLES / "fulmar")).parts
    (part,) = (part for part in parts if part.title == "Linkages")
    assert ([step.name for step in part.steps], part.caution) == (["linkages on", "gyro"], "")


def test_what_another_input_moves_is_no_door(aircraft_folder: AircraftFolder) -> None:
    """Where nothing is said of inputs, all of them work all outlets."""
    doors, half_way, *_ = gear_steps(aircraft_folder(with_gear("", DIRECT)))
    assert (doors.does.partition(":")[0], half_way.name) == ("arms of DOOR, FLAP", "half way")
    alone = "    drives: {GEAR: [A], FLAP: [B, C]}\n"
    assert [step.name for step in gear_steps(aircraft_folder(with_gear(alone, DIRECT)))] == ["leg", "limit", "jam"]
    assert "half way" not in [step.name for step in gear_steps(EXAMPLES / "fulmar")]


def test_of_wheels_and_doors_nothing_is_said_where_none_are_known(aircraft_folder: AircraftFolder) -> None:
    leg = with_gear("    drives: {GEAR: [A], FLAP: [B, C]}\n", DIRECT)
    said = document_of(harness_of(aircraft_folder(leg)), "first-power").said
    assert "wheel" not in said
    assert "On stands, legs free to move." in said
    assert "packs as low as they will be" in said


def test_what_hangs_on_a_receiver_that_a_controller_feeds_is_no_door(aircraft_folder: AircraftFolder) -> None:
    hub = "  hub: {kind: other, place: radio-tray, ports: {plug: power-2, names: [IN, OUT], contacts: pins}}\n"
    changes = with_gear(APART, DIRECT)["harness.yaml"]
    assert isinstance(changes, list)
    (equipment, circuits), supply = changes, ("    to: receiver BATT\n", "    to: hub IN\n")
    folder = aircraft_folder(
        {
            "harness.yaml": [
                (equipment[0], equipment[1] + hub),
                (circuits[0], circuits[1] + "  fed: {from: hub OUT, to: receiver BATT, lead: power-20}\n"),
                supply,
            ]
        }
    )
    doors, *_ = gear_steps(folder)
    assert doors.does.partition(":")[0] == "arms of DOOR"
