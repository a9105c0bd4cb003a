"""Figures of circuits and stages that no other room shows, by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from remedied import Definition, built, definition, servo
from resolved import EXAMPLES, harness_of, record_of
from two_joints import SIGNAL_TO_THE_TIP, behind_two_joints

if TYPE_CHECKING:
    from conftest import AircraftFolder

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


def test_a_full_pack_is_too_much_for_what_its_plug_goes_into_and_bears_less() -> None:
    """By hand from harness.yaml: 12.6 V on the plug of the packs of 8.4 V; the power unit bears 9 V, its outlets are no
    way in, and the service switch bears 17 V."""
    harness = harness_of(EXAMPLES / "fulmar")
    assert harness.results.too_high == {"service-pack": ("power-unit PACK-L", "power-unit PACK-R")}
    assert "power-unit PACK-L, power-unit PACK-R" in " ".join(record_of(harness).whole.split())


def test_a_pack_of_as_many_volts_as_is_borne_is_not_too_much(aircraft_folder: AircraftFolder) -> None:
    spare = (
        "  pack-2: {kind: battery, place: battery-bay, lead: 120 mm, plug: power-2,\n"
        "    battery: {cells: 2, capacity: 900 mAh, full: VOLTS, empty: 6.4 V}}\n"
        "  lamp: {kind: light, place: battery-bay, ports: {plug: power-2, names: [P], contacts: pins}}\n"
    )
    circuit = "circuits:\n  lamp: {from: pack-2, to: lamp P}\n"
    for volts, ports in (("9 V", {}), ("9.1 V", {"pack-2": ("receiver BATT",)})):
        changes = [("equipment:\n", "equipment:\n" + spare.replace("VOLTS", volts)), ("circuits:\n", circuit)]
        assert harness_of(aircraft_folder({"harness.yaml": changes})).results.too_high == ports
    full = [("full: 8.4 V", "full: 9.1 V")]  # where it belongs, that is `overvolts`
    assert harness_of(aircraft_folder({"harness.yaml": full})).results.too_high == {}
