"""What stops when one thing is lost: against a graph of all, by removing it and looking what packs still reach."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path
from typing import TYPE_CHECKING

import networkx
import pytest
from checked import data_of, tables_in, text_of
from grown_supplies import Grown
from handed_on import BUS_SERVO
from reached import Stopped, by_removal
from recorded import sections_of
from resolved import EXAMPLES, harness_of, record_of

from docgen.harness.continuity.netlist import Point, contact_point, netlist_of
from docgen.harness.model.harness import Harness

if TYPE_CHECKING:
    from conftest import AircraftFolder

ANTENNAS = """    antennas:
      A: {place: radio-tray, lies: lengthwise, lead: 150 mm}
      B: {place: radio-tray, lies: crosswise, lead: 150 mm}
"""


def in_table(harness: Harness) -> Stopped:
    return {loss.thing: (set(loss.stopped), set(loss.goes_on)) for loss in harness.losses.losses}


def assert_same(harness: Harness) -> None:
    expected, shown = by_removal(harness), in_table(harness)
    assert shown == {thing: expected[thing] for thing in shown}
    # What the table leaves out is a function itself, or its only lead, which stops alone.
    for kind, name in expected.keys() - shown.keys():
        stopped, goes_on = expected[kind, name]
        assert not goes_on, (kind, name)
        assert stopped == {name} or (kind == "lead" and len(stopped) == 1), (kind, name)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_what_stops_in_an_example_is_what_no_pack_or_receiver_reaches_any_more(name: str) -> None:
    assert_same(harness_of(EXAMPLES / name))


def cut_off(harness: Harness, joint: str, contacts: Collection[str]) -> set[str]:
    """Return the loads with a wire that networkx finds joined to no outlet, on the netlist without these contacts."""
    graph = networkx.Graph([(one, other) for one, other, _ in netlist_of(harness, mated=True).connections])
    for half in harness.disconnects[joint].halves:
        graph.remove_nodes_from([Point(joint, half.name, contact) for contact in contacts])
    leads = list(harness.cut_leads())
    outlets = {contact_point(lead, 0, wire.role) for lead in leads if lead.ends[0].is_port for wire in lead.wires}
    fed = set().union(*(net for net in networkx.connected_components(graph) if not outlets.isdisjoint(net)))
    ends = [(lead, wire) for lead in leads if lead.ends[1].is_port for wire in lead.wires]
    return {lead.ends[1].name for lead, wire in ends if contact_point(lead, 1, wire.role) not in fed}


def test_what_the_contacts_of_a_joint_cut_off_stops() -> None:
    """A member's negative that joins a common passes its contacts and no others: without those it goes no other way."""
    harness = harness_of(EXAMPLES / "fulmar")
    loads = {function.load for function in harness.losses.functions}
    for loss in harness.losses.losses:
        joint, _, common = loss.thing.name.partition(" ")
        # An own lead's plug is not on the netlist.
        if loss.thing.kind in ("joint", "common") and joint != "hatch-joint":
            shared = harness.disconnects[joint].commons
            contacts = shared[common].contacts if common else harness.disconnects[joint].uses
            assert set(loss.stopped) == cut_off(harness, joint, contacts) & loads, loss.thing
    assert lost(harness, "common", "left-wing-b wing-negative") == (["AIL L OUT", "FLAP L", "BEACON L"], [])


SEEDS = [range(10), pytest.param(range(10, 100), marks=pytest.mark.longest)]


@pytest.mark.parametrize("seeds", SEEDS)
def test_what_stops_in_harnesses_grown_at_random_is_what_is_reached_no_more(seeds: range, tmp_path: Path) -> None:
    for seed in seeds:
        assert_same(harness_of(Grown(seed).written(tmp_path / str(seed))))


def lost(harness: Harness, kind: str, name: str) -> tuple[list[str], list[str]]:
    """Return the labels of what stops, and of what goes on another way."""
    loss = next(loss for loss in harness.losses.losses if loss.thing == (kind, name))
    return harness.losses.labels(loss.stopped), harness.losses.labels(loss.goes_on)


def test_the_joint_is_found_that_flap_and_landing_light_have_in_common() -> None:
    """By hand from harness.yaml: all circuits `through: [<side>-wing-b]`, and the beacon that begins there."""
    harness = harness_of(EXAMPLES / "fulmar")
    assert lost(harness, "joint", "left-wing-b") == (
        ["AIL L OUT", "FLAP L", "LEG L", "BRAKE L", "LAND L", "BEACON L"],
        [],
    )
    # Both inputs of the gear unit drive outlets of their own; a key that is out when the radio is on stops nothing.
    assert lost(harness, "lead", "brake-signal") == (["BRAKE L", "BRAKE R"], [])
    assert not any("key" in (loss.thing.kind, loss.thing.name) for loss in harness.losses.losses)


TWO_RUDDERS = [
    ("    to: rudder\n", "    to: [rudder, tab]\n    split: {place: radio-tray, loop: 20 mm}\n"),
    ("  rudder:\n    kind", "  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}\n  rudder:\n    kind"),
]


def test_things_come_in_the_order_written_equipment_before_joints_commons_splices_and_leads(
    aircraft_folder: AircraftFolder,
) -> None:
    for harness in (harness_of(EXAMPLES / "fulmar"), harness_of(aircraft_folder({"harness.yaml": TWO_RUDDERS}))):
        equipment, joints, circuits = list(harness.equipment), list(harness.disconnects), list(harness.circuits)
        below = {"joint": (1, joints), "common": (2, joints), "splice": (3, circuits), "lead": (4, circuits)}
        kinds = [
            (loss.thing.name.split()[0], *below.get(loss.thing.kind, (0, equipment))) for loss in harness.losses.losses
        ]
        places = [(rank, written.index(name)) for name, rank, written in kinds]
        assert places == sorted(places)


def test_what_stops_comes_in_the_order_written() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    written = list(harness.equipment)
    for loss in harness.losses.losses:
        for names in (loss.stopped, loss.goes_on, loss.receivers):
            assert list(names) == sorted(names, key=written.index), loss.thing


def test_a_splice_takes_all_its_branches_and_a_branch_itself(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": TWO_RUDDERS}))
    both = ["RUD tab", "RUD rudder"]
    assert lost(harness, "splice", "rudder") == (both, [])
    assert lost(harness, "lead", "rudder") == (both, [])
    assert {loss.thing.name for loss in harness.losses.losses}.isdisjoint({"rudder B", "rudder C"})


def test_a_signal_that_no_receiver_sends_is_asked_of_nothing(aircraft_folder: AircraftFolder) -> None:
    tester = [("kind: receiver", "kind: power unit"), (ANTENNAS, "")]
    harness = harness_of(aircraft_folder({"harness.yaml": tester}))
    assert lost(harness, "battery", "pack") == (["AIL L", "AIL R", "RUD"], [])


def test_the_record_and_the_data_of_check_say_what_stops(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": TWO_RUDDERS})
    said = sections_of(record_of(harness_of(folder)).whole)["What stops when one thing is lost"]
    assert "joint left-root: AIL L stops" in said
    assert "splice rudder: RUD tab, RUD rudder stops" in said
    data = data_of(folder)
    assert {"kind": "joint", "name": "left-root", "stopped": ["left-aileron"], "goes_on": []} in data["losses"]
    assert {"load": "left-aileron", "label": "AIL L", "circuits": ["left-aileron"]} in data["functions"]
    assert {"lost": "joint left-root", "stops": "AIL L", "goes on another way": "–"} in tables_in(text_of(folder))[
        "lost"
    ]


def test_a_servo_that_hands_the_bus_on_stops_with_its_lead_and_what_hangs_behind_it_stops_with_the_servo(
    aircraft_folder: AircraftFolder,
) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": BUS_SERVO}))
    assert [one.label for one in harness.losses.functions] == ["AIL L", "AIL R", "TAB", "RUD"]
    assert lost(harness, "lead", "rudder") == (["TAB", "RUD"], [])
    assert lost(harness, "servo", "rudder") == (["TAB", "RUD"], [])
    assert_same(harness)


@pytest.mark.parametrize(("kind", "is_one"), [("light", True), ("gyro", False), ("light controller", False)])
def test_what_does_something_itself_is_a_function_whatever_hangs_behind_it(
    aircraft_folder: AircraftFolder, kind: str, is_one: bool
) -> None:
    changes = [*BUS_SERVO, ("  rudder:\n    kind: servo\n", f"  rudder:\n    kind: {kind}\n")]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    assert ("rudder" in {one.load for one in harness.losses.functions}) == is_one
