"""Currents and volts of 100 random supply trees, against a nodal analysis that knows the design and not the code."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy
import pytest
from click.testing import CliRunner
from numpy.typing import NDArray
from reference.conversions import FOOT_MM
from reference.wire_tables import NOMINAL_TINNED_OHM_PER_1000_FT, TABLE_11_9_OHM_PER_1000_FT

from docgen.cli import docgen

WrittenFolder = Callable[[Mapping[str, str]], Path]
Vector = NDArray[numpy.float64]

# Wires by gauge, those of own leads too: FAA AC 43.13-1B table 11-9, and the trade's nominal for 24, 26 and 28 AWG.
OHM_PER_M = {
    gauge: ohm_per_1000_ft / FOOT_MM
    for gauge, ohm_per_1000_ft in {
        **{gauge: TABLE_11_9_OHM_PER_1000_FT[gauge] for gauge in (16, 20, 22)},
        24: NOMINAL_TINNED_OHM_PER_1000_FT[24, "19/36"],
        26: NOMINAL_TINNED_OHM_PER_1000_FT[26, "19/38"],
        28: NOMINAL_TINNED_OHM_PER_1000_FT[28, "19/40"],
    }.items()
}
COPPER_PER_K = 0.00393  # Industrial Power Engineering & Applications Handbook, p. 970

# Common practice, no source.
CONTACT_OHM = {"servo-3": 0.010, "light-2": 0.010, "power-2": 0.003, "power-2-heavy": 0.001}
JOINTS = {"block-14": (0.005, 14), "dsub-25": (0.010, 25)}
TOGETHER = 4

SERVO_LEADS = {"servo-20": 20, "servo-22": 22, "servo-24": 24, "servo-26": 26}
PAIRS = {"power-16": 16, "power-20": 20, "light-24": 24}
LEAST_VOLTS_TRIED = 2.0


@dataclass(frozen=True)
class Outlet:
    """What the outlets of one group give: what arrives less the headroom, at most `volts`."""

    volts: float
    headroom: float
    efficiency: float | None


@dataclass(frozen=True)
class Circuit:
    """A pair of wires from an outlet to equipment; `fixed_ohm` is what one pole has beside the lead that is cut."""

    name: str
    source: str
    outlet: str
    load: str
    ohm_per_m: float
    fixed_ohm: float


@dataclass
class Tree:
    """What hangs on one pack; loads are (working, stall) [A] in the order written."""

    pack: str
    empty_v: float
    pack_ohm: float
    loads: dict[str, tuple[float, float | None]] = field(default_factory=dict)
    outlets: dict[str, Outlet] = field(default_factory=dict)
    circuits: list[Circuit] = field(default_factory=list)


class Grown:
    """An aircraft grown at random: its two files, and its trees as they are to be solved."""

    def __init__(self, seed: int, trees: int) -> None:
        self.chance = random.Random(seed)
        self.together = self.chance.choice([TOGETHER, TOGETHER, 0, 1, 2, 6])
        self.heat = self.chance.choice([None, None, 45, 70])
        self.places = {"fuselage": ["tray", "bay", "sill", "root"]}
        if self.chance.random() < 0.7:
            self.places["panel"] = ["panel-root", "rib", "tip"]
        self.room = {shell: contacts for shell, (_, contacts) in JOINTS.items()}
        self.equipment: dict[str, dict[str, Any]] = {}
        self.circuits: dict[str, dict[str, Any]] = {}
        self.trees = [self.tree(number) for number in range(trees)]

    # The two files

    def files(self) -> dict[str, str]:
        """Return them as JSON, which is YAML too."""
        texts = {"aircraft.yaml": self.aircraft(), "harness.yaml": self.harness()}
        return {file: json.dumps(text, ensure_ascii=False, indent=1) for file, text in texts.items()}

    def aircraft(self) -> dict[str, Any]:
        heat = {} if self.heat is None else {"heat": f"{self.heat} °C"}
        places = {
            place: {"assembly": assembly, "access": "hatch", **heat}
            for assembly, names in self.places.items()
            for place in names
        }
        runs = [
            {"between": list(pair), "length": f"{self.chance.randint(40, 700)} mm"}
            for names in self.places.values()
            for pair in pairwise(names)
        ]
        said = {"name": "Plover", "description": "grown", "marks": "PL-1", "revision": "A", "date": "2026-01-01"}
        return {"aircraft": said, "places": places, "runs": runs}

    def harness(self) -> dict[str, Any]:
        text: dict[str, Any] = {"equipment": self.equipment, "circuits": self.circuits}
        if "panel" in self.places:
            text["disconnects"] = {
                f"joint-{shell}": {
                    "shell": shell,
                    "fixed": {"place": "root", "contacts": "sockets"},
                    "loose": {"place": "panel-root", "contacts": "pins", "reach": "110 mm"},
                }
                for shell in JOINTS
            }
        if self.together != TOGETHER:
            text["limits"] = {"together": str(self.together)}
        return text

    # Growing

    def tree(self, number: int) -> Tree:
        cells, resistance_mohm = self.chance.choice([2, 3]), self.chance.choice([0, 0, 12, 35])
        plug, lead_wire = self.chance.choice([("power-2", "pvc-20"), ("power-2-heavy", "pvc-16")])
        lead_mm = self.chance.randint(60, 160)
        tree = Tree(f"pack-{number}", 3.3 * cells, resistance_mohm / 1000)
        battery = {
            "cells": str(cells),
            "capacity": "2600 mAh",
            "full": f"{4.2 * cells:.1f} V",
            "empty": f"{tree.empty_v:.1f} V",
        }
        if resistance_mohm:
            battery["resistance"] = f"{resistance_mohm} mohm"
        self.equipment[tree.pack] = {
            "kind": "battery",
            "place": "bay",
            "plug": plug,
            "lead": f"{lead_mm} mm",
            "lead_wire": lead_wire,
            "battery": battery,
        }
        own_ohm = self.own_ohm(lead_mm, 16 if lead_wire == "pvc-16" else 20)
        self.left_to_grow = self.chance.randint(4, 12)
        self.grow_unit(tree, (tree.pack, "", plug, own_ohm), "", "fuselage", self.chance.randint(1, 4))
        return tree

    def own_ohm(self, length_mm: float, gauge: int) -> float:
        return self.warm(length_mm / 1000 * OHM_PER_M[gauge])

    def warm(self, ohm: float) -> float:
        return ohm * (1 + COPPER_PER_K * ((self.heat or 20) - 20))

    def grow_unit(self, tree: Tree, above: tuple[str, str, str, float], outlet: str, assembly: str, depth: int) -> None:
        """Add equipment with outlets and what hangs on them; `above` is a port: equipment, name, plug, own lead."""
        kind = self.chance.choice(["power switch", "power unit", "regulator", "receiver", "light controller"])
        name = f"{kind.replace(' ', '-')}-{len(self.equipment)}"
        place, assembly, through = self.place_below(assembly, 3)
        plug = self.chance.choice(["power-2", "servo-3"])
        groups: list[dict[str, Any]] = [{"plug": plug, "names": "IN", "contacts": "pins"}]
        said = {"kind": kind, "place": place, "volts": {"least": "3.6 V", "most": "13 V"}, "ports": groups}
        self.equipment[name] = said
        if kind != "power switch":
            tree.loads[name] = self.draws(said, 20, 150, stalls=False)
        lead_mm = self.chance.choice([0, 0, 90])
        if lead_mm:
            groups[0] |= {"lead": f"{lead_mm} mm", "lead_wire": "lead-22"}
        own_ohm = self.own_ohm(lead_mm, 22)
        self.wire(tree, above, outlet, (name, "IN", plug, own_ohm), through)
        for letter in "AB"[: self.chance.randint(1, 2)]:
            self.grow_group(tree, name, letter, assembly, depth)

    def grow_group(self, tree: Tree, name: str, letter: str, assembly: str, depth: int) -> None:
        """Add a group of outlets; an output of the equipment holds for all groups, one of a group for that alone."""
        ports = [f"{letter}{number}" for number in range(1, self.chance.randint(1, 3) + 1)]
        plug, outlet = self.chance.choice(["servo-3"] * 3 + ["power-2", "light-2"]), f"{name} {letter}"
        said = self.equipment[name]
        group: dict[str, Any] = {"plug": plug, "names": ports, "contacts": "pins"}
        said["ports"].append(group)
        if "output" in said:
            tree.outlets[outlet] = tree.outlets[f"{name} A"]
        elif said["kind"] != "receiver" and (said["kind"] == "regulator" or self.chance.random() < 0.3):
            tree.outlets[outlet] = self.regulated(said if said["kind"] == "regulator" else group)
        for port in ports:
            self.left_to_grow -= 1
            if self.left_to_grow < 0 and port != ports[0]:
                return
            above = name, port, plug, 0.0
            if depth > 1 and self.left_to_grow > 0 and self.chance.random() < 0.5:
                self.grow_unit(tree, above, outlet, assembly, depth - 1)
            else:
                self.grow_load(tree, above, outlet, assembly)

    def regulated(self, said: dict[str, Any]) -> Outlet:
        volts, headroom = self.chance.choice([5.0, 5.5, 6.0, 7.4]), self.chance.choice([0.0, 0.2, 0.5])
        efficiency = self.chance.choice([None, 80, 92])
        rating = self.chance.choice([None, 10])
        said["output"] = {"volts": f"{volts} V", "headroom": f"{headroom} V"}
        said["output"] |= {} if rating is None else {"rating": f"{rating} A"}
        said["output"] |= {} if efficiency is None else {"efficiency": f"{efficiency} %"}
        return Outlet(volts, headroom, None if efficiency is None else efficiency / 100)

    def grow_load(self, tree: Tree, above: tuple[str, str, str, float], outlet: str, assembly: str) -> None:
        kind, plug = {
            "servo-3": self.chance.choice([("servo", "servo-3")] * 4 + [("gyro", "servo-3")]),
            "light-2": ("light", "light-2"),
            "power-2": self.chance.choice([("light", "light-2"), ("pump", "power-2"), ("receiver", "power-2")]),
        }[above[2]]
        name = f"{kind}-{len(self.equipment)}"
        straight = plug == above[2] and self.chance.random() < 0.25
        place, _, through = (self.place_in(assembly), assembly, None) if straight else self.place_below(assembly, 3)
        said: dict[str, Any] = {"kind": kind, "place": place, "volts": {"least": "3.6 V", "most": "13 V"}}
        self.equipment[name] = said
        tree.loads[name] = self.draws(said, 50, 400, stalls=kind in ("servo", "pump"))
        if kind == "receiver":
            said["ports"] = {"plug": plug, "names": ["BATT"], "contacts": "pins"}
            end: tuple[str, str, str, float | tuple[int, int | None]] = (name, "BATT", plug, 0.0)
        else:
            lead_mm, gauge = self.chance.randint(40, 320), self.chance.choice([None, 22, 24, 26, 28])
            said |= {"plug": plug, "lead": f"{lead_mm} mm"}
            if gauge is not None:
                said["lead_wire"] = f"lead-{gauge}"
            elif kind == "servo":
                gauge = 26  # an unsaid wire of a servo's lead
            end = (name, "", plug, (lead_mm, gauge))
        self.wire(tree, above, outlet, end, through, straight=straight and kind != "receiver")

    def draws(self, said: dict[str, Any], least_ma: int, most_ma: int, *, stalls: bool) -> tuple[float, float | None]:
        """Say what it draws, to 0.1 mA so that hardly two have as much to add."""
        working_ma = round(self.chance.uniform(least_ma, most_ma), 1)
        said["current"] = {"working": f"{working_ma} mA"}
        if not stalls:
            return working_ma / 1000, None
        stall_ma = round(working_ma + self.chance.uniform(200, 900), 1)
        said["current"]["stall"] = f"{stall_ma} mA"
        return working_ma / 1000, stall_ma / 1000

    def place_in(self, assembly: str) -> str:
        return self.chance.choice(self.places[assembly])

    def place_below(self, assembly: str, contacts: int) -> tuple[str, str, str | None]:
        """Return a place here or beyond a joint with room for the circuit, its assembly, and the joint's shell."""
        shell = self.chance.choice(list(JOINTS))
        crosses = assembly == "fuselage" and "panel" in self.places and self.chance.random() < 0.4
        if not crosses or self.room[shell] < contacts:
            return self.place_in(assembly), assembly, None
        self.room[shell] -= contacts
        return self.place_in("panel"), "panel", shell

    def wire(
        self,
        tree: Tree,
        above: tuple[str, str, str, float],
        outlet: str,
        end: tuple[str, str, str, float | tuple[int, int | None]],
        through: str | None,
        *,
        straight: bool = False,
    ) -> None:
        """Add the circuit to equipment, whose own lead is its ohm, or its length and its gauge where that is said."""
        source, port, plug, above_ohm = above
        load, end_port, end_plug, own = end
        name = f"to-{load}"
        said: dict[str, Any] = {"from": f"{source} {port}".strip(), "to": f"{load} {end_port}".strip()}
        gauge, contacts_ohm = 22, CONTACT_OHM[plug]  # pvc-22 is the unsaid wire of a lead that plugs straight in
        if not straight:
            leads = SERVO_LEADS if plug == end_plug == "servo-3" else PAIRS
            thinnest = 22 if end_port == "IN" else 26  # what feeds more than one is no thin lead
            fit = [(lead, gauge) for lead, gauge in leads.items() if gauge <= thinnest]
            lead, gauge = self.chance.choice(fit)
            said |= {"lead": lead, "loop": f"{self.chance.choice([0, 60])} mm"}
            contacts_ohm += CONTACT_OHM[end_plug]
        if through is not None:
            said["through"] = [f"joint-{through}"]
            contacts_ohm += JOINTS[through][0]
        own_ohm = own if isinstance(own, float) else self.own_ohm(own[0], own[1] or gauge)
        ohm_per_m = 0.0 if straight else self.warm(OHM_PER_M[gauge])
        self.circuits[name] = said
        tree.circuits.append(Circuit(name, source, outlet, load, ohm_per_m, above_ohm + own_ohm + contacts_ohm))


class Network:
    """A tree as nodes and branches, both poles apart, solved by modified nodal analysis; the pack's minus is earth."""

    def __init__(self, tree: Tree, pole_ohm: Mapping[str, float]) -> None:
        self.tree = tree
        self.pole_ohm = pole_ohm
        self.nodes: dict[str, int] = {}
        self.branches: list[tuple[str, str, float]] = []
        self.sources: list[tuple[str, str]] = [("cell", f"{tree.pack} -") if tree.pack_ohm else self.ends(tree.pack)]
        if tree.pack_ohm:
            self.branches.append(("cell", f"{tree.pack} +", tree.pack_ohm))
        for circuit in tree.circuits:
            start = circuit.outlet if circuit.outlet in tree.outlets else f"{circuit.source} +"
            self.branches.append((start, f"{circuit.load} +", pole_ohm[circuit.name]))
            self.branches.append((f"{circuit.load} -", f"{circuit.source} -", pole_ohm[circuit.name]))
        self.sources += [(outlet, f"{self.owner(outlet)} -") for outlet in tree.outlets]
        for ends in [*self.sources, *((one, other) for one, other, _ in self.branches)]:
            for node in ends:
                if node != f"{tree.pack} -":
                    self.nodes.setdefault(node, len(self.nodes))
        self.inverse = numpy.linalg.inv(self.matrix())

    @staticmethod
    def ends(equipment: str) -> tuple[str, str]:
        return f"{equipment} +", f"{equipment} -"

    @staticmethod
    def owner(outlet: str) -> str:
        return outlet.split(maxsplit=1)[0]

    def matrix(self) -> Vector:
        """Return conductances between nodes, bordered by the sources."""
        count = len(self.nodes)
        matrix = numpy.zeros((count + len(self.sources),) * 2)
        for one, other, ohm in self.branches:
            for node, far in ((one, other), (other, one)):
                if node in self.nodes:
                    matrix[self.nodes[node], self.nodes[node]] += 1 / ohm
                if node in self.nodes and far in self.nodes:
                    matrix[self.nodes[node], self.nodes[far]] -= 1 / ohm
        for index, ends in enumerate(self.sources, count):
            for node, sign in zip(ends, (1, -1), strict=True):
                if node in self.nodes:
                    matrix[self.nodes[node], index] = matrix[index, self.nodes[node]] = sign
        return matrix

    def solved(self, draws: Mapping[str, float]) -> Solution:
        """Solve with these currents [A]; what outlets give and take follows what arrives, to a fixed point."""
        outlets = list(self.tree.outlets.items())
        gives = [self.tree.empty_v, *(outlet.volts for _, outlet in outlets)]
        takes = [0.0] * len(outlets)
        for _ in range(300):
            found = self.inverse @ self.right_side(draws, gives, takes)
            solution = Solution(self, found)
            before = [*gives, *takes]
            for index, (name, outlet) in enumerate(outlets):
                arrives, current = solution.volts(self.owner(name)), -found[len(self.nodes) + 1 + index]
                gives[index + 1] = min(outlet.volts, arrives - outlet.headroom)
                share = 1 if outlet.efficiency is None else gives[index + 1] / (outlet.efficiency * arrives)
                takes[index] = current * share
            if numpy.allclose(before, [*gives, *takes], rtol=0, atol=1e-11):
                return solution
        raise AssertionError("the tree has no steady state")

    def right_side(self, draws: Mapping[str, float], gives: list[float], takes: list[float]) -> Vector:
        right = numpy.zeros(len(self.nodes) + len(self.sources))
        drawn = [*draws.items(), *zip(map(self.owner, self.tree.outlets), takes, strict=True)]
        for equipment, current in drawn:
            for node, sign in zip(self.ends(equipment), (-1, 1), strict=True):
                if node in self.nodes:
                    right[self.nodes[node]] += sign * current
        right[len(self.nodes) :] = gives
        return right


@dataclass(frozen=True)
class Solution:
    """One case of a network."""

    network: Network
    found: Vector

    def potential(self, node: str) -> float:
        return float(self.found[self.network.nodes[node]]) if node in self.network.nodes else 0.0

    def volts(self, equipment: str) -> float:
        """Return what arrives at equipment, pole to pole [V]."""
        plus, minus = self.network.ends(equipment)
        return self.potential(plus) - self.potential(minus)

    def current(self, circuit: Circuit) -> float:
        """Return the current through a circuit's route back [A]."""
        drop_v = self.potential(f"{circuit.load} -") - self.potential(f"{circuit.source} -")
        return drop_v / self.network.pole_ohm[circuit.name]

    @property
    def pack_current(self) -> float:
        return -float(self.found[len(self.network.nodes)])


class Cases:
    """The three cases of a tree: all working, the most stalled together, and each load stalled alone."""

    def __init__(self, tree: Tree, network: Network, together: int) -> None:
        working = {name: working for name, (working, _) in tree.loads.items()}
        stall = {name: stall for name, (_, stall) in tree.loads.items() if stall is not None}
        most = sorted(stall, key=lambda name: working[name] - stall[name])[:together]
        self.working = network.solved(working)
        self.peak = network.solved(working | {name: stall[name] for name in most})
        self.stalled = {name: network.solved(working | {name: amperes}) for name, amperes in stall.items()}

    def volts_left(self, load: str) -> float:
        """Return the least of the cases that are judged at a load: at peak only what has no stall."""
        return min(self.working.volts(load), self.stalled.get(load, self.peak).volts(load))

    def least(self) -> float:
        solutions = (self.working, self.peak, *self.stalled.values())
        return min(solution.volts(circuit.load) for solution in solutions for circuit in solution.network.tree.circuits)


def upstream_v(tree: Tree, circuit: Circuit) -> float:
    """Return the nearest regulated outlet's volts on the way to the pack, else the empty pack's."""
    while circuit.outlet not in tree.outlets:
        above = [one for one in tree.circuits if one.load == circuit.source]
        if not above:
            return tree.empty_v
        circuit = above[0]
    return tree.outlets[circuit.outlet].volts


def expected_circuits(tree: Tree, cases: Cases, pole_ohm: Mapping[str, float]) -> Iterator[tuple[str, str, float]]:
    for circuit in tree.circuits:
        name, loop_ohm = circuit.name, 2 * pole_ohm[circuit.name]
        working_a = cases.working.current(circuit)
        yield name, "working_a", working_a
        yield name, "own_drop_v", working_a * loop_ohm
        yield name, "own_drop_share", working_a * loop_ohm / upstream_v(tree, circuit)
        yield name, "volts_left_v", cases.volts_left(circuit.load)
        if circuit.load in cases.stalled:
            yield name, "stalled_drop_v", cases.stalled[circuit.load].current(circuit) * loop_ohm


def checked(folder: Path) -> dict[str, Any]:
    """Return what the program finds of a folder, which has no error."""
    result = CliRunner().invoke(docgen, ["check", str(folder), "--json"])
    assert result.exit_code == 0, result.output
    said: dict[str, Any] = json.loads(result.stdout)
    return said


def pole_ohms(tree: Tree, said: Mapping[str, Any]) -> dict[str, float]:
    """Return one pole's resistance by circuit; only the cut lengths are the program's."""
    length_m = {circuit["name"]: (circuit["length_mm"] or 0) / 1000 for circuit in said["circuits"]}
    return {one.name: length_m[one.name] * one.ohm_per_m + one.fixed_ohm for one in tree.circuits}


def supply_of(said: Mapping[str, Any], tree: Tree) -> Any:
    [supply] = [supply for supply in said["supplies"] if supply["packs"] == [tree.pack]]
    return supply


# 100 trees: 20 alone in an aircraft, 80 two and two.
@pytest.mark.parametrize(("seed", "trees"), [(seed, 1 if seed < 20 else 2) for seed in range(60)])
@pytest.mark.long
def test_random_trees_are_as_a_nodal_analysis_finds_them(seed: int, trees: int, written_folder: WrittenFolder) -> None:
    grown = Grown(seed, trees)
    said = checked(written_folder(grown.files()))
    circuits = {circuit["name"]: circuit for circuit in said["circuits"]}
    for tree in grown.trees:
        pole_ohm = pole_ohms(tree, said)
        cases = Cases(tree, Network(tree, pole_ohm), grown.together)
        assert cases.least() > LEAST_VOLTS_TRIED
        for name, key, value in expected_circuits(tree, cases, pole_ohm):
            assert circuits[name][key] == pytest.approx(value, abs=1e-4), f"{key} of {name}"
        supply = supply_of(said, tree)
        assert supply["working_a"] == pytest.approx(cases.working.pack_current, abs=1e-4)
        assert supply["peak_a"] == pytest.approx(cases.peak.pack_current, abs=1e-4)
        fed = [tree.pack, *(circuit.load for circuit in tree.circuits)]
        assert supply["stages"][0]["name"] == tree.pack
        assert {stage["name"] for stage in supply["stages"]} == set(fed)
        for stage in supply["stages"]:
            assert stage["working_v"] == pytest.approx(cases.working.volts(stage["name"]), abs=1e-4), stage
            assert stage["peak_v"] == pytest.approx(cases.peak.volts(stage["name"]), abs=1e-4), stage


# The analysis itself, where it can be worked out by hand.


def regulated_by_hand(efficiency: float | None) -> tuple[Tree, Cases]:
    """Return a 10 V pack of 0.5 ohm, 0.25 ohm a pole to a 5 V regulator, 0.1 ohm a pole to a load of 2 A."""
    tree = Tree("pack", 10, 0.5, {"lamp": (2, None)}, {"unit A": Outlet(5, 1, efficiency)})
    tree.circuits = [Circuit("in", "pack", "", "unit", 0, 0.25), Circuit("out", "unit", "unit A", "lamp", 0, 0.1)]
    return tree, Cases(tree, Network(tree, {"in": 0.25, "out": 0.1}), TOGETHER)


def test_the_analysis_of_a_linear_outlet_is_that_by_hand() -> None:
    _, cases = regulated_by_hand(None)
    # 2 A all the way: 10 − 2 × 0.5 = 9 V at the pack, 9 − 2 × 0.5 = 8 V at the unit, 5 − 2 × 0.2 = 4.6 V at the lamp.
    volts = [cases.working.volts(name) for name in ("pack", "unit", "lamp")]
    assert [cases.working.pack_current, *volts] == pytest.approx([2, 9, 8, 4.6])


def test_the_analysis_of_a_switching_outlet_is_that_by_hand() -> None:
    tree, cases = regulated_by_hand(0.625)
    # 5 V × 2 A / 0.625 = 16 W taken over 0.5 + 2 × 0.25 ohm: I (10 − I) = 16, the lesser root 2 A, and 8 V arrive.
    assert cases.working.current(tree.circuits[0]) == pytest.approx(2)
    assert cases.working.volts("unit") == pytest.approx(8)
