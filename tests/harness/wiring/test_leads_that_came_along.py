"""Own leads whose plug is a half of a plain joint: how long, how far they reach, what they drop, what is made."""

from __future__ import annotations

import json
import math

import pytest
from came_along import FIN, OF_THE_FIN, came_along
from conftest import AircraftFolder, Case
from resolved import harness_of, record_of
from wren_changed import rudder

from docgen.basics.findings import Level
from docgen.harness.assembly.bill_of_materials import bill_of_materials
from docgen.harness.assembly.work import plan_work
from docgen.harness.continuity.readings import lead_readings, path_readings
from docgen.harness.model.circuits import CutLead, OwnLeads
from docgen.paperwork.cards.pinout_cards import content as cards_of
from docgen.paperwork.cut_list.content import content as cut_list_of
from docgen.paperwork.labels.content import content as labels_of
from docgen.pipeline import check

OHM_22, OHM_26, OHM_20 = 16.20 / 304.8, 40.07 / 304.8, 9.88 / 304.8  # per m: AC 43.13-1B table 11-9; nominal of 19/38


def test_the_lead_up_to_the_joint_is_cut_and_the_other_came_along(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder(came_along()))
    cut, own = harness.circuits["rudder"].leads
    assert isinstance(cut, CutLead)
    assert isinstance(own, OwnLeads)
    # 1140 mm with 3 % slack, 2.5 mm of strip and 2 × 10 mm at each end, twisted at 25 mm with 2/√3 × 1.6 mm.
    twist = math.hypot(1, math.pi * 2 / math.sqrt(3) * 1.6 / 25)
    assert cut.needed_length_mm == pytest.approx((1140 * 1.03 + 2 * 22.5) * twist)
    assert (cut.cut_length_mm, own.length_mm) == (1255, 300)
    assert [wire.mark for wire in cut.wires] == ["C5A22N", "C5A22", "C6A22"]
    assert [wire.mark for wire in own.wires] == ["", "", ""]
    # The servo's plug carries sockets, so the half at the harness carries pins; it reaches 300 − 180 mm.
    made, plug = harness.disconnects["fin"].halves
    assert (made.gender, made.came_on, plug.gender, plug.came_on) == ("pins", "", "sockets", "rudder")
    assert plug.reach_mm == pytest.approx(120)
    assert harness.disconnects["nose"].halves[0].came_on == "pack"


def test_it_drops_over_both_leads_and_the_joint_once(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder(came_along()))
    # Out and back: 1.255 m of 22 AWG, 0.300 m of 26 AWG, 10 mΩ at the receiver and 10 mΩ at the joint; 0.5 A.
    rudder_v = 0.5 * 2 * (1.255 * OHM_22 + 0.300 * OHM_26 + 2 * 0.010)
    assert harness.results.circuits["rudder"].own_drop_v == pytest.approx(rudder_v)
    # The pack's own 0.120 m and (260 × 1.03 + 50 mm + 2 × 23 mm) × twist, up to 5 mm: 375; 3 mΩ at joint and receiver.
    supply = harness.circuits["supply"].cut_leads[0]
    assert supply.cut_length_mm == 375
    supply_v = 1.85 * 2 * (0.375 * OHM_20 + 0.120 * OHM_20 + 2 * 0.003)
    assert harness.results.circuits["supply"].own_drop_v == pytest.approx(supply_v)


def test_nothing_is_got_out_or_made_for_the_half_that_came_along(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder(came_along()))
    bill = bill_of_materials(harness)
    # Pins: the fin's half and both ailerons' plugs; of power-2 the load side at the nose.
    assert (bill.housings["servo-3", "pins"], bill.housings["power-2", "pins"]) == (3, 1)
    # Sockets at the receiver alone: three servos', and the supply's.
    assert (bill.housings["servo-3", "sockets"], bill.housings["power-2", "sockets"]) == (3, 1)
    assert bill.retainers["servo-3"] == 3  # both ailerons, and the fin
    made = [made.lead.name for work in plan_work(harness) for made in work.leads]
    assert ("rudder A" in made, "rudder B" in made) == (True, False)
    assert [lead.name for lead in cut_list_of(harness).own_leads] == ["supply A", "rudder B"]


def test_it_is_rung_out_up_to_the_joint(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder(came_along()))
    ends = {
        reading.leads[0].name: [(r.start.name, r.goal.name) for r in reading.readings]
        for reading in lead_readings(harness)
    }
    assert ends["rudder A"] == [("receiver", "fin")] * 3
    assert ends["supply B"] == [("nose", "receiver")] * 2
    assert "rudder B" not in ends
    assert [reading.leads[-1].circuit for reading in path_readings(harness)] == ["left-aileron", "right-aileron"]


def test_cards_labels_and_record_tell_what_came_along(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder(came_along()))
    cards = {card.key: card for card in cards_of(harness).halves}
    made, plug = cards["fin", "fixed"], cards["fin", "loose"]
    assert (made.came_on, plug.came_on) == ("", "rudder")
    assert [(row.contact, row.colour, row.gauge, row.goes, row.mark) for row in plug.rows] == [
        ("1", "BK", "26 AWG", "rudder", "own"),
        ("2", "RD", "26 AWG", "rudder", "own"),
        ("3", "WH", "26 AWG", "rudder", "own"),
    ]
    assert [row.goes for row in made.rows] == ["receiver 4"] * 3
    (label,) = (label for label in labels_of(harness).labels if label.key[:2] == ("rudder", "B"))
    assert (label.place, label.text.function, label.text.here, label.text.far) == ("fin-root", "RUD", "fin", "rudder")
    assert label.plug_is_on
    assert "rudder B: RUD, came on rudder, nothing to cut\n" in record_of(harness).whole


def test_an_own_lead_that_does_not_come_as_far_as_its_joint_is_found(aircraft_folder: AircraftFolder) -> None:
    def found(way: str) -> list[str]:
        folder = aircraft_folder(came_along(way=way))
        return [finding.sentence for finding in check(folder).findings if finding.name == "reach"]

    assert found("300 mm") == []
    assert found("340 mm") == [
        "the own lead of `rudder` is 300 mm; `fin` and `rudder` lie 340 mm apart along the runs: 40 mm short."
    ]


def test_the_wren_with_leads_that_came_along_has_no_other_finding(aircraft_folder: AircraftFolder) -> None:
    assert check(aircraft_folder(came_along())).findings == []


def _rudder(old: str, new: str) -> str:
    assert OF_THE_FIN.count(old) == 1
    return OF_THE_FIN.replace(old, new)


ERRORS = {
    "no joint there": Case("value", rudder("lead: servo-22", "lead: {A: ▶own}"), {}, "joint"),
    "another plug": Case(
        "mate",
        came_along(fin=FIN.replace("servo-3", "light-2"), rudder=_rudder("own", "▶own")),
        came_along(),
        "servo-3",
    ),
    "another circuit there": Case(
        "value",
        came_along(
            (
                "    throw: 40 mm each way\n",
                "  extra: {from: receiver 3, to: second, through: [fin], lead: servo-22}\n",
            ),
            (
                "  rudder:\n    kind",
                "  second: {kind: servo, place: fin-root, lead: 90 mm, plug: servo-3}\n  rudder:\n    kind",
            ),
            rudder=_rudder("own", "▶own"),
        ),
        came_along(),
        "extra",
    ),
    "equipment without a lead": Case(
        "missing",
        came_along(
            (
                "    lead: 120 mm\n    lead_wire: pvc-20\n    plug: power-2\n",
                "    ports: {plug: power-2, names: [OUT]}\n",
            ),
            ("{A: own,", "{A: ▶own,"),
        ),
        came_along(),
        "lead",
    ),
    "a half that says its reach": Case(
        "value",
        came_along(fin=FIN.replace("{place: fin-root}", "{place: fin-root, reach: ▶90 mm}")),
        came_along(),
        "own lead",
    ),
    "a half that says what it carries": Case(
        "value",
        came_along(fin=FIN.replace("{place: fin-root}", "{place: fin-root, contacts: ▶sockets}")),
        came_along(),
        "own lead",
    ),
    "where its plug lies is said twice": Case(
        "value",
        came_along(("    place: fin-servo\n", "    place: fin-servo\n    plug_at: ▶fin-root\n")),
        came_along(),
        "fin",
    ),
    "two halves alike": Case(
        "mate",
        came_along(fin=FIN.replace("{place: tail-post}", "{place: tail-post, contacts: ▶sockets}")),
        came_along(fin=FIN.replace("{place: tail-post}", "{place: tail-post, contacts: pins}")),
    ),
    "a half at a place that is none": Case(
        "name", came_along(fin=FIN.replace("{place: fin-root}", "{place: ▶fin-rot}")), came_along(), "fin-root"
    ),
    "a half at a place that is broken": Case("key", came_along(root="▶colour: red, assembly: fin"), came_along()),
    "a half of equipment that is broken": Case(
        "key", came_along(("    place: fin-servo\n", "    place: fin-servo\n    ▶colour: red\n")), came_along()
    ),
    "a pinned length": Case(
        "value",
        came_along(rudder=_rudder("B: own}", "B: own}\n    lengths: {B: ▶250 mm}")),
        came_along(rudder=_rudder("B: own}", "B: own}\n    lengths: {A: 1260 mm}")),
        "not cut",
    ),
}


@pytest.mark.parametrize("case", ERRORS.values(), ids=ERRORS)
def test_what_can_t_be_an_own_lead_is_an_error_where_it_is_written(case: Case, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(case.wrong)
    marked = {mark[1:] for mark in aircraft_folder.marks}
    found = [finding for finding in check(folder).findings if finding.level is Level.ERROR]
    assert {(f.name, f.position.line, f.position.column) for f in found} == {(case.name, *mark) for mark in marked}
    assert case.told in f"{found[0].sentence} {found[0].do}"
    assert [f for f in check(aircraft_folder(case.right)).findings if f.level is Level.ERROR] == []


def test_a_remedy_leaves_the_own_lead_as_it_came(aircraft_folder: AircraftFolder) -> None:
    weak = came_along(rudder=_rudder("servo-22", "servo-26"))
    (finding,) = (f for f in check(aircraft_folder(weak)).findings if f.name == "drop")
    assert finding.remedy is not None
    assert json.loads(json.dumps(finding.remedy))["lead"]["B"] == "own"
    mended = came_along(rudder=_rudder("servo-22", finding.remedy["lead"]["A"]))
    assert check(aircraft_folder(mended)).findings == []
