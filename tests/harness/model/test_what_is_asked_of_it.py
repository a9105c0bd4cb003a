"""What equipment and joints tell of themselves."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from remedied import built, definition, servo, through_wing
from resolved import EXAMPLES, harness_of

if TYPE_CHECKING:
    from conftest import AircraftFolder

WrittenFolder = Callable[[Mapping[str, str]], Path]

# What passes supply or commands on to others; all else is moved, lit or read by them.
SWITCH_OTHERS = {
    "receiver",
    "power switch",
    "power unit",
    "regulator",
    "speed controller",
    "engine unit",
    "gear controller",
    "light controller",
}
OTHERS = {"servo", "light", "sensor", "gyro", "pump", "valve", "brake", "smoke", "motor", "key", "other"}


@pytest.mark.parametrize("kind", sorted(SWITCH_OTHERS | OTHERS))
def test_what_switches_others_has_a_card_though_it_has_but_its_own_lead(
    kind: str, written_folder: WrittenFolder
) -> None:
    load = {**servo("1 A"), "place": "root", "kind": kind}
    harness = built(
        written_folder, definition({"it": load}, {"it": {"from": "unit 1", "to": "it", "lead": "servo-22"}})
    )
    assert harness.equipment["it"].has_card == (kind in SWITCH_OTHERS)
    assert harness.equipment["unit"].has_card


@pytest.mark.parametrize("kind", sorted(SWITCH_OTHERS | OTHERS))
def test_what_nothing_is_plugged_into_has_no_card(kind: str, written_folder: WrittenFolder) -> None:
    bare = {"it": {"kind": kind, "place": "root"}, "ail": servo("1 A")}
    said = definition(bare, {"ail": through_wing("unit 1", "ail", "servo-22")})
    assert not built(written_folder, said).equipment["it"].has_card


@pytest.mark.parametrize(("tray", "run", "post"), [(60, 70, 90), (60, 95, 90), (96, 70, 90)])
def test_a_route_is_as_hot_as_the_hottest_place_or_run_on_it(
    tray: int, run: int, post: int, aircraft_folder: AircraftFolder
) -> None:
    hot = [
        ("radio-tray:        {", f"radio-tray:        {{heat: {tray} °C, "),
        ("tail-post:         {", f"tail-post:         {{heat: {post} °C, "),
        ("[radio-tray, tail-post],   length", f"[radio-tray, tail-post], heat: {run} °C, length"),
    ]
    harness = harness_of(aircraft_folder({"aircraft.yaml": hot}))
    (lead,) = harness.circuits["rudder"].leads
    assert harness.hottest_c(lead.route) == max(tray, run, post)


@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_either_half_of_a_joint_mates_with_the_other(example: str) -> None:
    for joint in harness_of(EXAMPLES / example).disconnects.values():
        one, other = joint.halves
        assert (joint.other(one), joint.other(other)) == (other, one)
