"""In which order the hangar card has things switched: motors on last and off first."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from printed_tables import PrintedDocument, document_of
from resolved import harness_of

from docgen.basics.shipped import shipped_folder

if TYPE_CHECKING:
    from conftest import AircraftFolder


@pytest.fixture(scope="module")
def fulmar() -> PrintedDocument:
    return document_of(harness_of(shipped_folder("examples") / "fulmar"), "hangar-card")


def test_what_is_switched_on_is_read_downward_with_motors_last(fulmar: PrintedDocument) -> None:
    assert [(row[0], row[-1].rstrip("…")[:30]) for row in fulmar.lines("Switch on")][:8] == [
        ("left-pack", "plug it in with the key in; it"),
        ("right-pack", "plug it in with the key in; it"),
        ("power-unit", "pull the key out of the left s"),
        ("service-pack", "plug it in with the service sw"),
        ("service-switch", "hold its button for two second"),
        ("gear-unit", "comes on with the service swit"),
        ("left-fan-pack", "last of all, aircraft held and"),
        ("right-fan-pack", "last of all, aircraft held and"),
    ]


def test_what_is_switched_off_is_read_downward_with_motors_first(fulmar: PrintedDocument) -> None:
    assert [tuple(row) for row in fulmar.lines("Switch off")][:7] == [
        ("right-fan-pack", "first of all after landing"),
        ("left-fan-pack", "first of all after landing"),
        ("service-switch", "hold its button for two seconds; lamp out"),
        ("service-pack", "unplug it after the service switch"),
        ("power-unit", "push the key into the left sill; both lamps go out after two seconds"),
        ("right-pack", "unplug it after the key is in"),
        ("left-pack", "unplug it after the key is in"),
    ]


# A motor's supply, written before the radio's. The controller takes no supply from the receiver (`fed_by`).
MOTOR = """equipment:
  motor-pack:
    kind: battery
    place: battery-bay
    lead: 120 mm
    lead_wire: pvc-16
    plug: power-2-heavy
    battery: {cells: 3, capacity: 2200 mAh, full: 12.6 V, empty: 9.9 V}
    on: motor pack in
    off: motor pack out
  motor-switch:
    kind: power switch
    place: battery-bay
    ports:
      - {plug: power-2-heavy, names: [IN], contacts: pins}
      - {plug: power-2-heavy, names: [OUT], contacts: sockets}
      - {plug: servo-3, names: [KEY], contacts: pins}
    on: arm
    off: disarm
  arming-key: {kind: key, place: battery-bay, plug: servo-3, lead: 60 mm, on: key in, off: key away}
  control:
    kind: speed controller
    place: battery-bay
    ports:
      - {plug: power-2-heavy, names: [PACK], contacts: pins}
      - {plug: servo-3, names: [RX], contacts: pins}
    fed_by: [PACK]
"""
CIRCUITS = """circuits:
  motor-supply: {label: MOT, from: motor-pack, to: motor-switch IN, lead: power-16}
  motor-feed: {label: FEED, from: motor-switch OUT, to: control PACK, lead: power-16}
  arming: {label: ARM, from: motor-switch KEY, to: arming-key, lead: signal-24}
  throttle: {label: THR, from: receiver 3, to: control RX, lead: servo-22, channel: 3, failsafe: off}
"""
PACK_ON = "    on: plug the pack in through the nose hatch; the receiver's light comes on\n"
PACK_OFF = f"{PACK_ON}    off: unplug the pack\n"


def card_of(aircraft_folder: AircraftFolder, motor: str, circuits: str, *others: tuple[str, str]) -> PrintedDocument:
    """Print the hangar card of the smallest example with a motor written first."""
    changes = [("equipment:\n", motor), ("circuits:\n", circuits), (PACK_ON, PACK_OFF), *others]
    return document_of(harness_of(aircraft_folder({"harness.yaml": changes})), "hangar-card")


@pytest.mark.parametrize("kind", ["speed controller", "engine unit", "motor"])
def test_supplies_of_motors_come_on_last_and_go_off_first_wherever_they_are_written(
    kind: str, aircraft_folder: AircraftFolder
) -> None:
    card = card_of(aircraft_folder, MOTOR.replace("speed controller", kind), CIRCUITS)
    assert [row[0] for row in card.lines("Switch on")][:4] == ["pack", "motor-pack", "motor-switch", "arming-key"]
    assert card.lines("Switch off")[:4] == [
        ["arming-key", "key away"],
        ["motor-switch", "disarm"],
        ["motor-pack", "motor pack out"],
        ["pack", "unplug the pack"],
    ]


def test_what_feeds_no_motor_keeps_the_order_in_which_it_is_written(aircraft_folder: AircraftFolder) -> None:
    card = card_of(aircraft_folder, MOTOR.replace("speed controller", "light controller"), CIRCUITS)
    assert [row[0] for row in card.lines("Switch on")][:4] == ["motor-pack", "motor-switch", "arming-key", "pack"]


def test_a_pack_that_feeds_the_receiver_too_comes_on_before_its_motor_switch(aircraft_folder: AircraftFolder) -> None:
    unit = """    fed_by: [PACK]
  unit:
    kind: power unit
    place: battery-bay
    ports:
      - {plug: power-2-heavy, names: [IN], contacts: pins}
      - {plug: power-2-heavy, names: [MOTOR], contacts: sockets}
      - {plug: power-2, names: [RADIO], contacts: sockets}
    on: unit on
    off: unit off
"""
    through = "from: motor-pack, to: unit IN, lead: power-16}\n  motor: {label: MM, from: unit MOTOR, to: motor-switch"
    card = card_of(
        aircraft_folder,
        MOTOR.replace("    fed_by: [PACK]\n", unit),
        CIRCUITS.replace("from: motor-pack, to: motor-switch", through),
        ("    from: pack\n", "    from: unit RADIO\n"),
    )
    assert [row[0] for row in card.lines("Switch on")][:5] == [
        "motor-pack",
        "unit",
        "pack",
        "motor-switch",
        "arming-key",
    ]
    assert [row[0] for row in card.lines("Switch off")][:5] == [
        "arming-key",
        "motor-switch",
        "pack",
        "unit",
        "motor-pack",
    ]


def test_a_positive_that_the_controller_does_not_take_makes_no_supply_a_motors(aircraft_folder: AircraftFolder) -> None:
    tester = """equipment:
  tester-pack:
    kind: battery
    place: battery-bay
    lead: 120 mm
    lead_wire: pvc-20
    plug: power-2
    battery: {cells: 2, capacity: 900 mAh, full: 8.4 V, empty: 6.4 V}
  tester:
    kind: power switch
    place: battery-bay
    ports:
      - {plug: power-2, names: [IN], contacts: pins}
      - {plug: servo-3, names: [OUT], contacts: pins}
    on: tester on
"""
    circuits = CIRCUITS.replace("from: receiver 3", "from: tester OUT") + (
        "  tester: {label: TEST, from: tester-pack, to: tester IN, lead: power-20}\n"
    )
    card = card_of(aircraft_folder, MOTOR.replace("equipment:\n", tester), circuits)
    assert [row[0] for row in card.lines("Switch on")][:3] == ["tester", "pack", "motor-pack"]
