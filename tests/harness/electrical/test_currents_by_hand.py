"""Currents, volts, shares and endurance by hand, where the neighbouring figure is another."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest
from remedied import (
    Definition,
    built,
    definition,
    findings_in,
    heavy,
    keys,
    parts,
    servo,
    shared,
    through_wing,
    two_packs,
)

from docgen.harness.electrical.loadings import carries
from docgen.harness.model.results import Endurance, Stage

WrittenFolder = Callable[[Mapping[str, str]], Path]
BEST = {"A": "lone-24", "B": "servo-22"}


def limited(said: Definition, **limits: str) -> Definition:
    said["harness"]["limits"] = limits
    return said


def stage(write: WrittenFolder, said: Definition, name: str) -> Stage:
    return next(one for one in built(write, said).results.supplies[0].stages if one.name == name)


# Gear legs and what stalls together.


def legs_and_servo(controllers: int) -> Definition:
    """Return two legs of 1 A, 4 A stalled, on one controller or each on its own, and a servo of 0.5 A, 5 A."""
    said = definition({"ail": {**servo("5 A", "0.5 A"), "place": "root"}}, {})
    equipment, circuits = said["harness"]["equipment"], said["harness"]["circuits"]
    equipment["unit"]["ports"][1]["names"] = ["W", "W2"]
    circuits["ail"] = {"from": "unit 1", "to": "ail", "lead": "servo-22"}
    ports = [
        {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
        {"plug": "motor-2", "names": ["1", "2"], "contacts": "pins"},
    ]
    for number, outlet in ((1, "W"), (2, "W2")):
        gear = f"gear-{min(number, controllers)}"
        equipment[gear] = {"kind": "gear controller", "place": "tray", "ports": ports}
        circuits[gear] = {"from": f"unit {'W' if controllers == 1 else outlet}", "to": f"{gear} IN", "lead": "power-16"}
        current = {"idle": "0 A", "working": "1 A", "stall": "4 A", "runs": "20 s"}
        own = {"place": "root", "lead": "200 mm", "lead_wire": "pvc-22", "plug": "motor-2"}
        equipment[f"leg-{number}"] = {"kind": "gear leg", **own, "current": current, "gear": {"limit": "9 s"}}
        circuits[f"leg-{number}"] = {"from": f"{gear} {number}", "to": f"leg-{number}", "lead": "motor-22"}
    return said


# Working 2 × 1 + 0.5 = 2.5 A. The servo has 4.5 A to add, a leg 3 A, both legs of one controller 6 A.
@pytest.mark.parametrize(
    ("controllers", "together", "peak_a"), [(1, "1", 8.5), (2, "1", 7), (1, "2", 13), (2, "2", 10), (1, "0", 2.5)]
)
def test_legs_of_one_controller_are_one_load_of_those_that_stall_together(
    controllers: int, together: str, peak_a: float, written_folder: WrittenFolder
) -> None:
    said = limited(legs_and_servo(controllers), together=together)
    [supply] = built(written_folder, said).results.supplies
    assert (supply.working_a, supply.peak_a) == pytest.approx((2.5, peak_a))


def leg_of(leg: Mapping[str, str], controller: Mapping[str, str]) -> Definition:
    said = legs_and_servo(1)
    equipment, circuits = said["harness"]["equipment"], said["harness"]["circuits"]
    del equipment["leg-2"], circuits["leg-2"]
    equipment["leg-1"]["gear"], equipment["gear-1"]["gear"] = leg, controller
    return said


# A motor plug's contacts are rated 5 A (built-in list: common practice, no source).
MOTOR_PLUG_A = 5


@pytest.mark.parametrize(
    ("leg", "controller", "lasting_a"),
    [
        ({"limit": "9 s", "stop": "2 A"}, {"limit": "15 s", "stop": "3 A"}, 1),
        ({"limit": "15 s", "stop": "2 A"}, {"limit": "9 s", "stop": "3 A"}, 2),
        ({"limit": "15 s"}, {"limit": "9 s", "stop": "3 A"}, 3),
        ({"limit": "15 s"}, {"limit": "9 s"}, 4),
    ],
)
def test_what_a_leg_says_itself_comes_before_its_controllers(
    leg: dict[str, str], controller: dict[str, str], lasting_a: float, written_folder: WrittenFolder
) -> None:
    said = leg_of(leg, controller)
    share = built(written_folder, said).results.circuits["leg-1"].shares.contact
    assert share == pytest.approx(lasting_a / MOTOR_PLUG_A)


def test_a_load_that_is_not_among_those_that_stall_together_is_brief_by_itself(written_folder: WrittenFolder) -> None:
    # The servo plug's contacts bear 5 A briefly: alone 3 A and 2 A.
    loads = {"ail": {**servo("3 A"), "place": "root"}, "flap": {**servo("2 A"), "place": "root"}}
    circuits = {name: {"from": f"unit {i}", "to": name, "lead": "servo-22"} for i, name in enumerate(loads, 1)}
    figures = built(written_folder, limited(definition(loads, circuits), together="1")).results.circuits
    assert [figures[name].shares.brief for name in loads] == pytest.approx([3 / 5, 2 / 5])


def test_what_only_a_stall_is_said_of_is_computed_as_nothing_working(written_folder: WrittenFolder) -> None:
    load = {**servo("2 A"), "place": "root", "current": {"stall": "2 A"}}
    said = definition({"ail": load}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"}})
    harness = built(written_folder, said)
    figures, [supply] = harness.results.circuits["ail"], harness.results.supplies
    assert (figures.working_a, figures.stall_a, supply.working_a, supply.peak_a) == pytest.approx((0, 2, 0, 2))


# A lead that divides.


def y(*loads: str) -> Definition:
    """Return two servos on one lead, of which the first is farther and stalls harder."""
    far = servo("3 A", "0.3 A", least="4 V")
    near = {**servo("1 A", "0.2 A", least="4 V"), "place": "panel"}
    circuit = through_wing("unit 1", "", "servo-22") | {"to": list(loads), "split": {"place": "panel"}}
    return definition({"far": far, "near": near}, {"both": circuit})


@pytest.mark.parametrize("loads", [("far", "near"), ("near", "far")])
def test_a_lead_that_divides_shows_the_worse_of_its_loads(loads: Sequence[str], written_folder: WrittenFolder) -> None:
    figures = built(written_folder, y(*loads)).results.circuits["both"]
    # Both work over the stem; with the far one stalled 0.2 + 3 A.
    assert (figures.working_a, figures.stall_a) == pytest.approx((0.5, 3.2))
    # By hand, 22 AWG 53.15 mΩ/m and nominal 26 AWG 131.46 mΩ/m (FAA AC 43.13-1B table 11-9; trade). The stem is cut in
    # two pieces, each servo lead twisted by 1.02660: root 300 × 1.03 + 22.5 + 24 = 355.5 → 365.0 → 365 mm; panel 0 +
    # 100 + 24 + 8 = 132 → 135.5 → 140 mm; to the far one 700 × 1.03 + 8 + 22.5 = 751.5 → 771.5 → 775 mm.
    stem_ohm = 2 * (0.505 * 16.20 / 304.8 + 0.010 + 0.005)
    far_ohm = 2 * (0.775 * 16.20 / 304.8 + 0.200 * 40.07 / 304.8 + 0.010)
    # The pack's: own lead of 100 mm, 400 × 0 + 46 → 50 mm, 16 AWG, two contacts of 3 mΩ.
    supply_ohm = 2 * (0.150 * 4.81 / 304.8 + 2 * 0.003)
    assert figures.stalled_drop_v == pytest.approx(3.2 * stem_ohm + 3 * far_ohm, abs=0.002)
    assert figures.volts_left_v == pytest.approx(6.4 - 3.2 * (supply_ohm + stem_ohm) - 3 * far_ohm, abs=0.002)
    assert figures.case == "stall"


# Two packs behind one unit.


def unlike_packs(**second: str) -> Definition:
    said = two_packs(servo("2 A", wire="lead-22"), "power-16", "4 V")
    equipment = said["harness"]["equipment"]
    equipment["second"]["battery"] = {**equipment["second"]["battery"], **second}
    return said


def test_a_drop_is_a_share_of_the_lower_packs_volts(written_folder: WrittenFolder) -> None:
    figures = built(written_folder, unlike_packs(empty="9.6 V", full="12.6 V")).results.circuits["ail"]
    assert figures.own_drop_v is not None
    assert figures.own_drop_share == pytest.approx(figures.own_drop_v / 6.4)


def test_the_better_pack_decides_the_volts_left(written_folder: WrittenFolder) -> None:
    # 9.6 V less all that 2 A can drop here is over 8 V, 6.4 V is not.
    figures = built(written_folder, unlike_packs(empty="9.6 V", full="12.6 V")).results.circuits["ail"]
    assert figures.volts_left_v is not None
    assert 8 < figures.volts_left_v < 9.6


def test_a_unit_shows_what_it_gives_of_its_better_pack(written_folder: WrittenFolder) -> None:
    said = unlike_packs(empty="9.6 V", full="12.6 V")
    for group in said["harness"]["equipment"]["unit"]["ports"][1:]:
        group["output"] = {"volts": "7 V", "headroom": "0.5 V"}
    outlets = stage(written_folder, said, "unit").outputs
    assert {outlet.volts_v for outlet in outlets} == {7}


@pytest.mark.parametrize(("most", "found"), [("9 V", True), ("13 V", False)])
def test_a_load_bears_the_fuller_of_two_packs(most: str, found: bool, written_folder: WrittenFolder) -> None:
    said = unlike_packs(empty="9.6 V", full="12.6 V")
    said["harness"]["equipment"]["ail"]["volts"] = {"least": "4 V", "most": most}
    assert (("overvolts", ("equipment", "ail")) in keys(findings_in(written_folder, said))) == found


# A full pack of 8.4 V.
@pytest.mark.parametrize(
    ("output", "most", "said_v"),
    [
        ({"volts": "8.2 V", "headroom": "0.5 V"}, "7.95 V", ""),  # 8.4 − 0.5 = 7.9 V
        ({"volts": "8.2 V", "headroom": "0.5 V"}, "7.8 V", "gives `ail` 7.9 V"),
        ({"volts": "8.2 V", "headroom": "0.1 V"}, "8.1 V", "gives `ail` 8.2 V"),
        ({"volts": "9 V", "headroom": "0 V"}, "8.4 V", ""),
    ],
)
def test_an_outlet_that_is_not_reached_gives_less_by_its_headroom(
    output: Definition, most: str, said_v: str, written_folder: WrittenFolder
) -> None:
    load = {**servo("1 A"), "place": "root", "volts": {"least": "4 V", "most": most}}
    said = definition({"ail": load}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"}}, output=output)
    found = [finding for finding in findings_in(written_folder, said) if finding.name == "overvolts"]
    assert [said_v in finding.sentence for finding in found] == ([True] if said_v else [])


# What is given at peak.


def two_outlets(rating: str, *, of_group: bool = False) -> Definition:
    """Return a servo of 2 A stalled and a lamp of 1.5 A on regulated outlets of two groups."""
    lamp = {"kind": "light", "place": "root", "lead": "100 mm", "lead_wire": "pvc-18", "plug": "power-2"}
    lamp["current"] = {"working": "1.5 A"}  # type: ignore[assignment]
    loads = {"ail": {**servo("2 A"), "place": "root"}, "lamp": lamp}
    circuits = {
        "ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"},
        "lamp": {"from": "unit W", "to": "lamp", "lead": "power-18"},
    }
    said = definition(loads, circuits)
    output = {"volts": "5.5 V", "headroom": "0.2 V", "rating": rating}
    unit = said["harness"]["equipment"]["unit"]
    if of_group:
        unit["ports"][1]["output"] = unit["ports"][2]["output"] = output
    else:
        unit["output"] = output
    return said


# 2 + 1.5 = 3.5 A together.
@pytest.mark.parametrize(
    ("rating", "of_group", "found"), [("3.4 A", False, True), ("3.6 A", False, False), ("3.4 A", True, False)]
)
def test_a_rating_of_the_whole_unit_is_for_all_its_outlets_together(
    rating: str, of_group: bool, found: bool, written_folder: WrittenFolder
) -> None:
    findings = findings_in(written_folder, two_outlets(rating, of_group=of_group))
    assert (("supply-current", ("equipment", "unit")) in keys(findings)) == found


@pytest.mark.parametrize(("rating", "found"), [("3.4 A", True), ("3.6 A", False)])
def test_a_pack_is_held_to_what_it_gives_at_peak(rating: str, found: bool, written_folder: WrittenFolder) -> None:
    # Working it gives 0.3 + 1.5 A.
    said = two_outlets("9 A")
    said["harness"]["equipment"]["pack"]["battery"]["rating"] = rating
    findings = findings_in(written_folder, said)
    assert (("supply-current", ("equipment", "pack")) in keys(findings)) == found


def test_a_stage_shows_how_much_of_its_rating_is_given(written_folder: WrittenFolder) -> None:
    assert stage(written_folder, two_outlets("7 A"), "unit").rating_share == pytest.approx(0.5)


def test_of_a_group_of_ports_the_most_used_rating_shows(written_folder: WrittenFolder) -> None:
    # 2 A of 7 A, and 1.5 A of 7 A.
    assert stage(written_folder, two_outlets("7 A", of_group=True), "unit").rating_share == pytest.approx(2 / 7)


def test_working_and_peak_volts_of_a_stage_are_its_own(written_folder: WrittenFolder) -> None:
    # Pack: 6.4 V less 50 mΩ × 1.8 A or 3.5 A.
    said = two_outlets("7 A")
    said["harness"]["equipment"]["pack"]["battery"]["resistance"] = "50 mohm"
    pack = stage(written_folder, said, "pack")
    assert (pack.working_v, pack.peak_v) == pytest.approx((6.4 - 0.05 * 1.8, 6.4 - 0.05 * 3.5))


# Contacts and wires.


def test_how_much_of_a_contact_is_used_leaves_out_what_is_brief(written_folder: WrittenFolder) -> None:
    # Contacts of 2 A, 6 A briefly: a servo alone 0.5 A, 3.6 A stalled; two on a common of two contacts, 1.2 A each.
    alone = definition(
        {"ail": servo("3.6 A", "0.5 A")}, {"ail": through_wing("unit 1", "ail", "servo-22")}, shell="weak"
    )
    used = built(written_folder, alone).results.contacts
    contacts = [contact for (joint, contact) in used if joint == "wing"]
    assert [used["wing", contact] for contact in contacts] == pytest.approx([0.25, 0.25])
    both = {name: through_wing(f"unit {i}", name, BEST) for i, name in enumerate(("ail", "flap"), 1)}
    loads = {name: servo("6 A", "1.2 A") for name in both}
    used = built(
        written_folder, definition(loads, heavy("power-18") | both, shared(*both), shell="weak")
    ).results.contacts
    assert [used["wing", contact] for contact in "1234"] == pytest.approx([0.6] * 4)


# 22 AWG of 80 °C bears 3 A; in 75 °C 3 × √((80 − 75) / (80 − 70)) = 2.12 A (the form of FAA AC 43.13-1B 11-66d(6)).
@pytest.mark.parametrize(("hot", "found"), [("run", False), ("place", True)])
def test_an_own_lead_is_held_to_the_heat_of_its_own_way(hot: str, found: bool, written_folder: WrittenFolder) -> None:
    load = servo("2.6 A", "2.5 A", wire="lead-22")
    leads = {"A": "servo-22", "B": "servo-fluoro-22"}
    said = definition({"ail": load}, {"ail": through_wing("unit 1", "ail", leads)}, heat=75 if hot == "run" else None)
    if hot == "place":
        said["aircraft"]["places"]["tip"]["heat"] = "75 °C"
    of_own = [f for f in findings_in(written_folder, said) if f.name == "wire-current" and "own lead" in f.sentence]
    assert bool(of_own) == found


# Three of eight contacts are taken, so five are to spare; a second for each pole takes two.
@pytest.mark.parametrize(
    ("kept", "words"), [("3", "Share it over 2 contacts"), ("4", "too few to spare (5, of which 4 are to stay spare)")]
)
def test_both_poles_want_contacts_to_spare(kept: str, words: str, written_folder: WrittenFolder) -> None:
    load = servo("2.6 A", "2.4 A", wire="lead-22")
    said = definition({"ail": load}, {"ail": through_wing("unit 1", "ail", "servo-22")}, shell="tight")
    found = [
        finding
        for finding in findings_in(written_folder, limited(said, spare_contacts=kept))
        if finding.name == "contact-current" and "wing" in finding.sentence
    ]
    assert found
    assert all(words in finding.do for finding in found)


# Endurance: 0.3 A over 10 min are 50 mAh; of 2000 mAh 70 % make 28 flights, all of it 40.


def flown(said: Definition, **flight: str) -> Definition:
    said["aircraft"]["flight"] = {"time": "10 min", "reserve": "30 %", **flight}
    return said


def endurance(write: WrittenFolder, said: Definition) -> Endurance:
    found = built(write, said).results.supplies[0].endurance
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("second", "isolates", "together"),
    [
        ({}, True, 56),
        ({}, False, 28),
        ({"capacity": "3000 mAh"}, True, 28),
        ({"empty": "6 V"}, True, 28),
        ({"cells": "3"}, True, 28),
        ({"full": "8.6 V"}, True, 28),
    ],
)
def test_capacities_add_up_for_like_packs_that_a_unit_keeps_apart(
    second: dict[str, Any], isolates: bool, together: float, written_folder: WrittenFolder
) -> None:
    said = flown(unlike_packs(**second))
    if not isolates:
        del said["harness"]["equipment"]["unit"]["isolates"]
    found = endurance(written_folder, said)
    assert found.flight_mah == pytest.approx({"pack": 50, "second": 50})
    assert found.together == pytest.approx(together)
    assert (found.alone["pack"], found.to_empty["pack"]) == pytest.approx((28, 40))


def test_a_unit_behind_one_pack_keeps_it_apart_from_no_other(written_folder: WrittenFolder) -> None:
    said = flown(unlike_packs())
    equipment, circuits = said["harness"]["equipment"], said["harness"]["circuits"]
    ports = [{"plug": "power-2", "names": [name], "contacts": "pins"} for name in ("IN", "OUT")]
    equipment["tap"] = {
        "kind": "power unit",
        "place": "tray",
        "ports": ports,
        "isolates": equipment["unit"].pop("isolates"),
    }
    circuits["supply"] |= {"from": "tap OUT"}
    circuits["tapped"] = {"from": "pack", "to": "tap IN", "lead": "power-16"}
    assert endurance(written_folder, said).together == pytest.approx(28)


def test_of_like_packs_together_the_dearer_flight_counts(written_folder: WrittenFolder) -> None:
    # 6 V × 0.1 A / 0.9 are 0.667 W: of 6.4 V 0.1042 A, behind 2 Ω of 3.2 + √(3.2² − 2 × 0.667) = 6.185 V 0.1078 A; for
    # 10 min 17.4 and 18.0 mAh.
    said = flown(unlike_packs(resistance="2 ohm"))
    said["harness"]["equipment"]["ail"]["current"] = {"working": "0.1 A"}
    for group in said["harness"]["equipment"]["unit"]["ports"][1:]:
        group["output"] = {"volts": "6 V", "headroom": "0.1 V", "efficiency": "90 %"}
    found = endurance(written_folder, said)
    assert found.flight_mah == pytest.approx({"pack": 17.4, "second": 18.0}, rel=5e-3)
    assert found.together == pytest.approx(2 * 1400 / 18.0, rel=5e-3)


@pytest.mark.parametrize(
    ("current", "ground", "mah"),
    [
        ({"working": "0.3 A"}, "2 min", 60),  # idle as working: 0.3 A × 720 s
        ({"working": "0.3 A", "idle": "0.1 A"}, "2 min", 50 + 0.1 * 120 / 3.6),
        ({"working": "0.3 A", "runs": "60 s"}, "2 min", 0.3 * 60 / 3.6),  # idle 0
        ({"working": "0.3 A", "idle": "0.1 A", "runs": "60 s"}, "2 min", (0.3 * 60 + 0.1 * 660) / 3.6),
        ({"working": "0.3 A", "idle": "0.1 A"}, "0 min", 50),
        ({"working": "0.3 A", "idle": "0.1 A", "runs": "20 min"}, "2 min", 0.3 * 1200 / 3.6),  # never idle
    ],
)
def test_a_flight_takes_what_works_and_what_idles(
    current: dict[str, str], ground: str, mah: float, written_folder: WrittenFolder
) -> None:
    load: dict[str, Any] = {**servo("1 A"), "place": "root", "current": current}
    said = definition({"ail": load}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"}})
    assert endurance(written_folder, flown(said, ground=ground)).flight_mah["pack"] == pytest.approx(mah)


def test_equipment_whose_current_is_not_said_shows_no_figures(written_folder: WrittenFolder) -> None:
    lamp = {"kind": "light", "place": "tray", "lead": "100 mm", "plug": "light-2"}
    said = definition(
        {"ail": {**servo("1 A"), "place": "root"}, "lamp": lamp},
        {
            "ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"},
            "lamp": {"from": "unit L", "to": "lamp", "lead": "light-22"},
        },
    )
    of_lamp, of_servo = (stage(written_folder, said, name) for name in ("lamp", "ail"))
    assert (of_lamp.drop_v, of_lamp.working_v, of_lamp.peak_v) == (None, None, None)
    assert None not in (of_servo.drop_v, of_servo.working_v, of_servo.peak_v)


def test_a_wire_of_which_nothing_says_what_it_may_carry_carries_nothing() -> None:
    # PVC of 80 °C: FAA AC 43.13-1B table 11-9 begins at 105 °C.
    unsaid = parts().wires["pvc-22"].model_copy(update={"current_a": None})
    assert (carries(unsaid, None, 0.5), carries(unsaid, None, 0.0)) == (False, True)
