"""What is rung out, found again from the text of the record by a reader that knows its words and not the code."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations, pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy
import pytest
from came_along import came_along
from reference.conversions import FOOT_MM
from reference.wire_tables import NOMINAL_TINNED_OHM_PER_1000_FT, TABLE_11_9_OHM_PER_1000_FT
from resolved import EXAMPLES, harness_of, known, record_of

from docgen.harness.continuity.isolation import Isolation, isolations, neighbours
from docgen.harness.continuity.netlist import Point, netlist_of
from docgen.harness.continuity.readings import (
    LeadReadings,
    Reading,
    lead_readings,
    mirror_chains,
    path_readings,
    tail_readings,
)
from docgen.harness.model.harness import Harness

if TYPE_CHECKING:
    from conftest import Changes

# Milliohms at 20 °C of a metre and of a mated contact: FAA AC 43.13-1B table 11-9, and the trade's nominal for 24
# and 26 AWG; contacts are common practice, no source.
MOHM_PER_MM = {
    **{gauge: TABLE_11_9_OHM_PER_1000_FT[gauge] / FOOT_MM for gauge in (12, 16, 18, 20, 22)},
    24: NOMINAL_TINNED_OHM_PER_1000_FT[24, "19/36"] / FOOT_MM,
    26: NOMINAL_TINNED_OHM_PER_1000_FT[26, "19/38"] / FOOT_MM,
}
CONTACT_MOHM = {"block-6": 5, "block-10": 5, "block-14": 5, "dsub-15": 10, "dsub-25": 10, "servo-3": 10}

Node = tuple[str, str, str]
Edge = tuple[Node, Node, float]


# The reader


def unwrapped(text: str) -> Iterator[tuple[int, str]]:
    """Walk the lines of a record with their indent; what is indented by four more goes on."""
    indent, line = 0, ""
    for part in text.splitlines():
        own = len(part) - len(part.lstrip())
        if line and own == indent + 4:
            line += " " + part.strip()
            continue
        yield indent, line
        indent, line = own, part.strip()
    yield indent, line


class RecordReader:
    """Wires, tails and contacts that a record tells of, in milliohms; a contact is (end, half, number)."""

    def __init__(self, text: str) -> None:
        self.commons: dict[tuple[str, str], dict[str, str]] = {}
        self.arriving: dict[tuple[str, str, str], list[str]] = {}
        self.spliced: dict[tuple[str, str, str], list[str]] = {}
        self.wires: list[Edge] = []
        self.shells: dict[str, str] = {}
        sections = dict(re.findall(r"(?ms)^([^\n]+)\n-+\n(.*?)(?=\n\n[^\n]+\n-+\n|\Z)", text))
        self.read_disconnects(sections.get("Disconnects", ""))
        self.read_leads(sections.get("Leads", ""))

    def read_disconnects(self, text: str) -> None:
        name, common = "", ""
        numbers: list[str] = []
        for indent, line in unwrapped(text):
            if indent == 0 and (head := re.match(r"(\S+): (\S+), \d+ contacts", line)):
                name = head[1]
                self.shells[name] = head[2]
            elif head := re.match(r"common (\S+): \S+ on contacts? ([^a-z]+?)(?:, fed|$)", line):
                common, numbers = head[1], head[2].split(", ")
            elif indent == 4 and (head := re.match(r"(\S+) half: (?:.* (\S+)-(\d+), cut (\d+) mm, )?(.*)", line)):
                if head[3] is None:
                    continue
                half, mohm = head[1], int(head[4]) * MOHM_PER_MM[int(head[3])]
                self.spliced[name, half, common] = sorted(head[5].removeprefix("spliced to ").split(", "))
                self.commons.setdefault((name, half), {}).update(dict.fromkeys(numbers, common))
                splice = name, half, f"splice {common}"
                self.wires += [(splice, (name, half, number), mohm) for number in numbers]

    def read_leads(self, text: str) -> None:
        lead, length_mm, halves = "", 0, ["", ""]
        for _, line in unwrapped(text):
            if head := re.match(r"(\S+ \S+): .*(?:, cut (\d+) mm|nothing to cut)", line):
                lead, length_mm, halves = head[1], int(head[2] or 0), []
            elif re.match(r"(from|to) ", line):
                half = re.search(r", (\S+) half\) at ", line)
                halves.append(half[1] if half else "")
            elif length_mm and (wire := re.match(r"(\S+): (\S+), .*, [a-z]+-(\d+), ([^,]+) to ([^,]+)", line)):
                ends = [
                    self.end(lead, wire[1], wire[2], said, half)
                    for said, half in zip((wire[4], wire[5]), halves, strict=True)
                ]
                self.wires.append((ends[0], ends[1], length_mm * MOHM_PER_MM[int(wire[3])]))

    def end(self, lead: str, mark: str, role: str, said: str, half: str) -> Node:
        """Return where a wire ends: a contact, the splice of its lead, or the one behind a half."""
        at = re.fullmatch(r"(.+) contact (\S+)", said)
        if at is None:
            return lead.split(maxsplit=1)[0], "", f"{said} {role}"
        number = at[2].split("+")[0]
        common = self.commons.get((at[1], half), {}).get(number)
        if common is None:
            return at[1], half, number
        self.arriving.setdefault((at[1], half, common), []).append(f"{lead} {mark}")
        return at[1], half, f"splice {common}"

    def edges(self, mated: bool) -> list[Edge]:
        """Return wires and tails, and if mated the contacts that have a wire behind both halves."""
        found = {node for edge in self.wires for node in edge[:2]}
        joints = [
            (one, other, float(CONTACT_MOHM[self.shells[name]]))
            for name in self.shells
            for one, other in combinations(sorted(node for node in found if node[0] == name), 2)
            if one[1] != other[1] and one[2] == other[2] and not one[2].startswith("splice")
        ]
        return self.wires + (joints if mated else [])

    def nets(self, mated: bool) -> set[frozenset[Node]]:
        """Return the contacts that are connected, by union-find."""
        above: dict[Node, Node] = {}

        def top(node: Node) -> Node:
            while above.setdefault(node, node) != node:
                node = above[node]
            return node

        for one, other, _ in self.edges(mated):
            above[top(one)] = top(other)
        nets: dict[Node, set[Node]] = {}
        for node in list(above):
            nets.setdefault(top(node), set())
            if "splice" not in node[2]:
                nets[top(node)].add(node)
        return {frozenset(net) for net in nets.values()}

    def mohm(self, mated: bool) -> Callable[[Node, Node], float]:
        """Return the resistance between two contacts by nodal analysis, every node leaking a little to ground."""
        edges = self.edges(mated)
        nodes = {node: i for i, node in enumerate(dict.fromkeys(node for edge in edges for node in edge[:2]))}
        conductance = numpy.eye(len(nodes)) * 1e-10
        for one, other, mohm in edges:
            i, j = nodes[one], nodes[other]
            conductance[[i, j], [i, j]] += 1 / mohm
            conductance[[i, j], [j, i]] -= 1 / mohm
        inverse = numpy.linalg.inv(conductance)

        def between(one: Node, other: Node) -> float:
            i, j = nodes[one], nodes[other]
            return float(inverse[i, i] + inverse[j, j] - 2 * inverse[i, j])

        return between


def node(harness: Harness, point: Point) -> Node:
    """Return how the record names a contact."""
    if point.name in harness.disconnects:
        return point.name, point.part, point.contact
    return f"{point.name} {point.part}".strip(), "", point.contact


def hold_against_its_record(harness: Harness) -> None:
    reader = RecordReader(record_of(harness).whole)
    assert {key: sorted(wires) for key, wires in reader.arriving.items()} == reader.spliced
    leads = [one for group in lead_readings(harness) for one in group.readings]
    leads += [one for group in tail_readings(harness) for one in group.readings]
    paths = [one for group in path_readings(harness) for one in group.readings]
    apart = isolations(harness)
    pairs = {
        False: [pair for group in apart.parted for pair in group.pairs],
        True: [*apart.packs, *(pair for group in apart.mated for pair in group.pairs)],
    }
    for mated, readings in ((False, leads), (True, paths)):
        nets = reader.nets(mated)
        contacts = ([one for one in net if isinstance(one, Point)] for net in netlist_of(harness, mated).nets)
        assert {frozenset(node(harness, point) for point in net) for net in contacts} == nets
        net_of = {contact: net for net in nets for contact in net}
        mohm = reader.mohm(mated)
        for reading in readings:
            one, other = node(harness, reading.start), node(harness, reading.goal)
            assert net_of[one] is net_of[other], reading
            assert reading.expected_mv == pytest.approx(mohm(one, other), abs=0.01), reading
        for first, second in pairs[mated]:
            assert net_of[node(harness, first)] is not net_of[node(harness, second)], (first, second)
    assert shown(harness, leads) == reader.nets(mated=False)
    hold_plugs_shown(shown(harness, [*leads, *paths]), reader.nets(mated=True))


def shown(harness: Harness, readings: Sequence[Reading]) -> set[frozenset[Node]]:
    """Return the contacts that whoever rings out these rows has shown to be connected."""
    together: dict[Node, set[Node]] = {}
    for reading in readings:
        one, other = node(harness, reading.start), node(harness, reading.goal)
        both = together.setdefault(one, {one}) | together.setdefault(other, {other})
        together.update(dict.fromkeys(both, both))
    return {frozenset(net) for net in together.values()}


def hold_plugs_shown(together: set[frozenset[Node]], nets: set[frozenset[Node]]) -> None:
    """Hold that the plugs of each net were shown to be connected; halves between them cannot be probed mated."""
    for net in nets:
        plugs = {contact for contact in net if not contact[1]}
        assert not plugs or any(plugs <= part for part in together), plugs


# Harnesses at random


class Grown:
    """A harness at random over three assemblies: whole circuits, members of commons, splits, loops of wires."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.equipment: dict[str, Any] = {
            "unit": {
                "kind": "power unit",
                "place": "tray",
                "ports": [
                    {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
                    {"plug": "servo-3", "names": "1..40", "contacts": "pins"},
                    {"plug": "power-2", "names": ["H1", "H2", "H3"], "contacts": "sockets"},
                ],
                "fed_by": ["IN"],
            },
            "pack": {
                "kind": "battery",
                "place": "bay",
                "lead": "120 mm",
                "lead_wire": "pvc-20",
                "plug": "power-2",
                "battery": {"cells": "2", "capacity": "2600 mAh", "full": "8.4 V", "empty": "6.4 V"},
            },
        }
        self.circuits: dict[str, Any] = {"supply": {"from": "pack", "to": "unit IN", "lead": "power-20"}}
        self.joints: dict[str, Any] = {}
        self.ports = 0
        self.count = self.chance.randint(2, 6)
        for number in range(self.chance.randint(1, 2)):
            self.joint(f"wing-{number}", "root", "panel-root")
        self.joint("tip-joint", "tip", "outer-root")
        for number in range(self.count):
            self.grow_circuit(f"circuit-{number}")
        self.use_commons()

    def joint(self, name: str, near: str, far: str) -> None:
        shell = "block-14" if self.count <= 3 else "dsub-25"  # room for three contacts each, and commons
        reach = f"{self.chance.randint(80, 150)} mm"
        self.joints[name] = {
            "shell": shell,
            "fixed": {"place": near, "contacts": "sockets"},
            "loose": {"place": far, "contacts": "pins", "reach": reach},
        }
        # At the tip a common has no heavy pair: its members bring the role and share it, in loops with the wing's.
        roles = ["positive", "negative"] if near == "root" else ["negative"]
        if self.chance.random() < 0.7:
            numbers = self.chance.sample(range(1, 15), 5)
            shares = [numbers[: self.chance.randint(1, 3)], numbers[3 : self.chance.randint(4, 5)]]
            self.joints[name]["commons"] = {
                role: {"role": role, "contacts": sorted(map(str, share)), "circuits": []}
                for role, share in zip(roles, shares, strict=False)
            }
            if near == "root":
                self.circuits[f"{name}-supply"] = {
                    "from": f"unit H{len(self.joints)}",
                    "to": f"{name} positive negative",
                    "lead": "power-20",
                }

    def servo(self, place: str) -> str:
        name = f"servo-{len(self.equipment)}"
        self.equipment[name] = {"kind": "servo", "place": place, "lead": "200 mm", "plug": "servo-3"}
        return name

    def grow_circuit(self, name: str) -> None:
        self.ports += 1
        wings = [joint for joint in self.joints if joint != "tip-joint"]
        depth = self.chance.choice([0, 1, 1, 2, 2])
        through = [self.chance.choice(wings), "tip-joint"][:depth]
        places = [("bay", "tray"), ("rib", "tip"), ("end", "outer-root")][depth]
        leads = dict.fromkeys("ABC"[: depth + 1], self.chance.choice(["servo-20", "servo-22", "servo-24"]))
        said: dict[str, Any] = {"from": f"unit {self.ports}", "to": self.servo(places[0]), "through": through}
        if self.chance.random() < 0.3:
            said |= {"to": [said["to"], self.servo(places[1])], "split": {"place": self.chance.choice(places)}}
            leads |= dict.fromkeys("ABCDE"[: depth + 3], leads["A"])
        if through and "commons" in self.joints[through[0]]:
            leads["A"] = self.chance.choice([leads["A"], "signal-24", "lone-26"])
        if len(set(leads.values())) == 1 and self.chance.random() < 0.3 and through:
            said["loop"] = f"{self.chance.randint(10, 90)} mm"
        self.circuits[name] = said | {"lead": leads}

    def use_commons(self) -> None:
        """Make members of those that lack a role before a joint, and of some that bring it."""
        lacking = {"signal-24": ["positive"], "lone-26": ["positive", "negative"]}
        for name, said in list(self.circuits.items()):
            for joint in said.get("through", ()):
                for role, common in self.joints[joint].get("commons", {}).items():
                    lacks = joint != "tip-joint" and role in lacking.get(said["lead"]["A"], ())
                    if lacks or (role == "negative" and self.chance.random() < 0.6):
                        common["circuits"].append(name)
        for joint, form in self.joints.items():
            members = {role: common["circuits"] for role, common in form.get("commons", {}).items()}
            if members.get("positive") and not members["negative"]:
                members["negative"].append(members["positive"][0])
            form["commons"] = {role: common for role, common in form.get("commons", {}).items() if common["circuits"]}
            if f"{joint}-supply" in self.circuits:
                self.feed(joint, list(form["commons"]))
            if not form["commons"]:
                del form["commons"]

    def feed(self, joint: str, roles: list[str]) -> None:
        """Keep the heavy pair where both commons are in use, and begin a circuit on the far side."""
        if len(roles) < 2:
            del self.circuits[f"{joint}-supply"]
        elif self.chance.random() < 0.5:
            self.equipment["lamp-" + joint] = {"kind": "light", "place": "rib", "lead": "90 mm", "plug": "light-2"}
            self.circuits[f"{joint}-lamp"] = {
                "from": f"{joint} positive negative",
                "to": "lamp-" + joint,
                "lead": "light-24",
            }

    def files(self) -> dict[str, str]:
        """Return its files as JSON, which is YAML too."""
        assemblies = {
            "fuselage": ["bay", "tray", "root"],
            "panel": ["panel-root", "rib", "tip"],
            "outer": ["outer-root", "end"],
        }
        aircraft = {
            "aircraft": {
                "name": "Lapwing",
                "description": "grown",
                "marks": "LW-1",
                "revision": "A",
                "date": "2026-01-01",
            },
            "places": {
                place: {"assembly": assembly, "access": "hatch"}
                for assembly, places in assemblies.items()
                for place in places
            },
            "runs": [
                {"between": list(pair), "length": f"{self.chance.randint(40, 700)} mm"}
                for places in assemblies.values()
                for pair in pairwise(places)
            ],
        }
        harness = {"equipment": self.equipment, "disconnects": self.joints, "circuits": self.circuits}
        return {"aircraft.yaml": json.dumps(aircraft), "harness.yaml": json.dumps(harness)}


@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_what_is_rung_out_is_what_the_record_tells(example: str) -> None:
    hold_against_its_record(harness_of(EXAMPLES / example))


@pytest.mark.parametrize("seeds", [range(20), pytest.param(range(20, 100), marks=pytest.mark.long)])
@pytest.mark.long
def test_what_is_rung_out_of_random_harnesses_is_what_their_records_tell(
    seeds: range,
    written_folder: Callable[[Mapping[str, str]], Path],
) -> None:
    loops = 0
    for seed in seeds:
        harness = harness_of(written_folder(Grown(seed).files()))
        hold_against_its_record(harness)
        loops += has_loop(harness)
    assert loops > 0  # so that parallel wires, not only the tails of a common, are among them


def has_loop(harness: Harness) -> bool:
    """Tell whether wires of two circuits lie side by side between two joints whose commons they share."""
    shared = [common.circuits for disconnect in harness.disconnects.values() for common in disconnect.commons.values()]
    return any(len(set(one) & set(other)) > 1 for one, other in combinations(shared, 2) if one is not other)


def reading_of(groups: Sequence[LeadReadings], circuit: str, segments: str, role: str) -> Reading:
    (found,) = (
        reading
        for group in groups
        if group.leads[-1].circuit == circuit and "".join(lead.segment for lead in group.leads) == segments
        for reading in group.readings
        if reading.role == role
    )
    return found


def test_the_aileron_path_of_the_smallest_example_drops_76_millivolts_one_way() -> None:
    readings = path_readings(harness_of(EXAMPLES / "wren"))
    (ailerons,) = (group.readings for group in readings if group.leads[-1].circuit == "left-aileron")
    # By hand: fuselage 300 mm and panel 1045 mm of 22 AWG (AC 43.13-1B table 11-9: 16.20 ohm/1000 ft), and the
    # 5 mohm of one contact of the joint: 1.345 m x 16.20 / 304.8 m + 5 mohm = 71.5 + 5 = 76.5 mV at 1 A.
    assert [reading.role for reading in ailerons] == ["negative", "positive", "signal"]
    assert [reading.expected_mv for reading in ailerons] == [pytest.approx(76.486, abs=0.001)] * 3
    # The servo plug bears 3 A: 10 mV more is too much (common practice, no source).
    assert [reading.too_much_mv for reading in ailerons] == [pytest.approx(86.486, abs=0.001)] * 3


def test_the_battery_lead_bears_less_over_its_heavy_contacts() -> None:
    reading = reading_of(lead_readings(harness_of(EXAMPLES / "wren")), "supply", "A", "positive")
    # 325 mm of 20 AWG, 9.88 ohm/1000 ft: 10.53 mV; plugs of 10 A at both ends: 5 mV (common practice, no source).
    assert (reading.expected_mv, reading.too_much_mv) == pytest.approx((10.535, 15.535), abs=0.001)


def test_a_path_over_a_common_passes_its_tails_and_contacts_side_by_side() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    reading = reading_of(path_readings(harness), "left-flap", "AB", "positive")
    assert (reading.start, reading.goal) == (Point("power-unit", "WING-L", "2"), Point("left-flap", "", "2"))
    cut_mm = {lead.name: known(lead.cut_length_mm) for lead in harness.cut_leads()}
    # Two contacts of 5 mohm, each with a tail of 75 mm of 18 AWG in front and one of 22 AWG behind, side by side.
    side_by_side = (75 * MOHM_PER_MM[18] + 5 + 75 * MOHM_PER_MM[22]) / 2
    wires = cut_mm["left-wing-supply A"] * MOHM_PER_MM[16] + cut_mm["left-flap B"] * MOHM_PER_MM[22]
    assert reading.expected_mv == pytest.approx(wires + side_by_side, abs=0.001)


def test_twice_the_length_drops_twice_as_much(aircraft_folder: Callable[[Changes], Path]) -> None:
    def drop_mv(length_mm: int) -> float:
        lengths = f"  rudder:\n    lengths: {{A: {length_mm} mm}}\n    label: RUD\n"
        folder = aircraft_folder({"harness.yaml": [("  rudder:\n    label: RUD\n", lengths)]})
        return known(reading_of(lead_readings(harness_of(folder)), "rudder", "A", "signal").expected_mv)

    assert drop_mv(3000) == pytest.approx(2 * drop_mv(1500))


def test_a_whole_path_drops_what_its_leads_and_joints_drop() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    leads = lead_readings(harness)
    ends = [known(reading_of(leads, "rudder", segment, "positive").expected_mv) for segment in "AB"]
    path = reading_of(path_readings(harness), "rudder", "AB", "positive")
    assert path.expected_mv == pytest.approx(sum(ends) + CONTACT_MOHM["block-14"])


def contacts_apart(groups: Sequence[Isolation], *place: str) -> list[tuple[str, str]]:
    (group,) = (group for group in groups if group.place == place)
    return [(one.contact, other.contact) for one, other in group.pairs]


def test_neighbours_and_poles_must_not_be_connected() -> None:
    apart = isolations(harness_of(EXAMPLES / "wren"))
    # Contacts 1 to 3 are in use, in one row: 1 negative, 2 positive, 3 signal.
    for half in ("fixed", "loose"):
        assert contacts_apart(apart.parted, "left-root", half) == [("1", "2"), ("1", "3"), ("2", "3")]
    assert contacts_apart(apart.parted, "pack", "") == [("1", "2")]
    assert contacts_apart(apart.mated, "left-aileron", "") == [("1", "2"), ("1", "3"), ("2", "3")]


def test_one_supply_must_not_be_connected_to_another() -> None:
    apart = isolations(harness_of(EXAMPLES / "fulmar"))
    # Positives from the power unit are on 2, 5 and 8, that from the lamps' unit on 11, beside none of them.
    assert {("2", "11"), ("5", "11"), ("8", "11")} <= set(contacts_apart(apart.parted, "tail", "fixed"))
    assert len(apart.packs) == 5 * 4 / 2  # every two of five packs


def test_a_pack_whose_own_plug_is_half_of_a_joint_is_probed_at_the_half_that_is_made(
    aircraft_folder: Callable[[Changes], Path],
) -> None:
    second = (
        "  second: {kind: battery, place: battery-bay, lead: 120 mm, lead_wire: pvc-20, plug: power-2,\n"
        "    battery: {cells: 2, capacity: 900 mAh, full: 8.4 V, empty: 6.4 V}}\n"
        "  lamp: {kind: light, place: radio-tray, lead: 90 mm, plug: power-2, current: {working: 0.1 A}}\n"
    )
    lamp = "  lamp: {from: second, to: lamp, lead: power-20}\n"
    changes = came_along(("equipment:\n", f"equipment:\n{second}"), ("circuits:\n", f"circuits:\n{lamp}"))
    # The first pack plugs into the joint's other half, the second into the lead of its own circuit.
    [pair] = isolations(harness_of(aircraft_folder(changes))).packs
    assert set(pair) == {Point("nose", "load side", "2"), Point("second", "", "2")}


def test_a_regulated_outlet_must_not_be_connected_to_what_its_unit_passes_on(
    aircraft_folder: Callable[[Changes], Path],
) -> None:
    second = (
        "  <side>-tab:\n    label: {left: TAB L, right: TAB R}\n"
        "    from: {left: receiver SOFT-1, right: receiver SOFT-2}\n    to: <side>-tab\n"
        "    through: [<side>-root]\n    lead: servo-22\n    contacts: {<side>-root: [5, 6, 4]}\n"
    )
    soft = "      - {plug: servo-3, names: [SOFT-1, SOFT-2], contacts: pins, output: {volts: 5 V, headroom: 0.2 V}}\n"
    tab = "  <side>-tab: {kind: servo, place: <side>-aileron, lead: 300 mm, lead_wire: pvc-26, plug: servo-3}\n"
    bank = "      - {plug: servo-3, names: 1..4, contacts: pins}\n"
    changes: Changes = {
        "harness.yaml": [
            (bank, bank + soft),
            ("equipment:\n", f"equipment:\n{tab}"),
            ("circuits:\n", f"circuits:\n{second}"),
        ]
    }
    harness = harness_of(aircraft_folder(changes))
    # Positives are on 2, from what is passed on, and on 6, regulated: 2 is beside 1, 3 and 5 alone.
    assert ("2", "6") in contacts_apart(isolations(harness).parted, "left-root", "fixed")


def test_neighbours_lie_at_one_pitch_or_on_the_slant_of_staggered_rows() -> None:
    parts = harness_of(EXAMPLES / "fulmar").disconnects
    block, staggered = (neighbours(parts[name].shell) for name in ("tail", "left-wing-a"))
    # Two rows of seven: six pairs along each and seven across.
    assert len(block) == 6 + 6 + 7
    assert {("1", "2"), ("1", "8")} <= set(block)
    assert ("1", "9") not in block
    # Rows of eight and seven, half a pitch apart: seven and six along, and each of the seven beside two of the eight.
    assert len(staggered) == 7 + 6 + 14
    assert {("1", "9"), ("2", "9")} <= set(staggered)


def test_mirror_leads_are_those_of_one_part_and_length(aircraft_folder: Callable[[Changes], Path]) -> None:
    def mirrors(folder: Path) -> list[tuple[str, ...]]:
        pairs = mirror_chains(harness_of(folder))
        return [tuple(" + ".join(lead.name for lead in chain) for chain in pair) for pair in pairs]

    both = [("left-aileron A", "right-aileron A"), ("left-aileron B", "right-aileron B")]
    assert mirrors(EXAMPLES / "wren") == both
    run = "[<side>-panel-root, <side>-aileron], length: "
    unlike = (run + "745 mm", run + "{left: 745 mm, right: 790 mm}")
    assert mirrors(aircraft_folder({"aircraft.yaml": [unlike]})) == both[:1]
