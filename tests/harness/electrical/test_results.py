"""Figures of circuits and stages that no other room shows, by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import Definition, built, definition, servo
from two_joints import SIGNAL_TO_THE_TIP, behind_two_joints

WrittenFolder = Callable[[Mapping[str, str]], Path]

LEADS = {
    "thick-poles": {"wires": {"negative": "pvc-22 BK", "positive": "pvc-22 RD", "signal": "pvc-24 WH"}},
    "signal-alone": {"wires": {"signal": "pvc-24 WH"}},
    "unlike-poles": {"wires": {"negative": "pvc-22 BK", "positive": "pvc-24 RD", "signal": "pvc-26 WH"}},
}


@pytest.mark.parametrize(
    ("lead", "gauge"), [("thick-poles", "22 AWG"), ("signal-alone", "24 AWG"), ("unlike-poles", "22 AWG / 24 AWG")]
)
def test_a_circuit_is_as_thick_as_its_poles_and_without_any_as_its_wires(
    lead: str, gauge: str, written_folder: WrittenFolder
) -> None:
    said = definition(
        {"ail": {**servo("2 A"), "place": "root"}}, {"ail": {"from": "unit 1", "to": "ail", "lead": lead}}
    )
    said["parts"] = {**said["parts"], "leads": {**said["parts"]["leads"], **LEADS}}
    assert built(written_folder, said).results.circuits["ail"].gauge == gauge


def behind_a_switching_outlet() -> Definition:
    """Return a lamp of 3 A on 6 V that a regulator makes at 90 % of the 12 V from a unit's port of 2 A."""
    lamp = {"kind": "light", "place": "root", "lead": "100 mm", "lead_wire": "pvc-16", "plug": "power-2"}
    lamp["current"] = {"working": "3 A"}  # type: ignore[assignment]
    output = {"volts": "6 V", "headroom": "0.3 V", "efficiency": "90 %"}
    ports = [
        {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
        {"plug": "power-2", "names": ["OUT"], "contacts": "pins", "output": output},
    ]
    circuits = {
        "feed": {"from": "unit W", "to": "regulator IN", "lead": "power-16"},
        "lamp": {"from": "regulator OUT", "to": "lamp", "lead": "power-16"},
    }
    said = definition({"lamp": lamp}, circuits, battery={"cells": "4", "full": "16.8 V", "empty": "12 V"})
    said["harness"]["equipment"]["regulator"] = {"kind": "regulator", "place": "tray", "ports": ports}
    said["harness"]["equipment"]["unit"]["ports"][1]["rating"] = "2 A"
    return said


def test_ports_before_a_switching_outlet_give_what_it_takes_and_not_its_loads_current(
    written_folder: WrittenFolder,
) -> None:
    # 6 V × 3 A / 0.9 are 20 W, of 12 V 1.67 A: 0.83 of 2 A; leads of 16 AWG in one bay drop less than a hundredth.
    harness = built(written_folder, behind_a_switching_outlet())
    stages = {stage.name: stage for stage in harness.results.supplies[0].stages}
    assert stages["unit"].rating_share == pytest.approx(20 / 12 / 2, rel=0.01)


def test_current_goes_back_over_the_pair_that_it_came_by_though_another_joint_lies_between(
    written_folder: WrittenFolder,
) -> None:
    # Two like pairs bring supply to the first joint, one goes on to the second, where the servo takes it.
    circuits: dict[str, Definition] = {
        "one": {"from": "unit W", "to": "wing p n", "lead": "power-18"},
        "other": {"from": "unit W2", "to": "wing p n", "lead": "power-18"},
        "onward": {"from": "wing p n", "to": "tip p n", "lead": "power-18"},
        "ail": {"from": "unit 1", "to": "ail", "through": ["wing", "tip"], "lead": SIGNAL_TO_THE_TIP},
    }
    figures = built(written_folder, behind_two_joints({"ail": servo("2 A")}, circuits)).results.circuits
    assert figures["one"].own_drop_v == pytest.approx(figures["other"].own_drop_v)
    assert figures["one"].own_drop_v != 0


def test_at_rest_an_outlet_keeps_back_its_headroom_until_it_has_its_volts(written_folder: WrittenFolder) -> None:
    """By hand: 6.45 V empty, 8.4 V full, on a bench (6.45 + 8.4) / 2 = 7.425 V to a tenth; less 0.5 V, at most 7 V."""
    said = definition(
        {"ail": {**servo("2 A"), "place": "root"}},
        {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"}},
        output={"volts": "7 V", "headroom": "0.5 V"},
        battery={"empty": "6.45 V"},
    )
    rest = built(written_folder, said).results.rest
    assert tuple(rest["supply"]) == pytest.approx((6.45, 7.4, 8.4))
    assert tuple(rest["ail"]) == pytest.approx((5.95, 6.9, 7))
