"""What a finding says to do, done, and judged by a nodal analysis that knows nothing of the program's checks.

From the harness as built come only what is joined to what and how long it is cut; resistances, limits and what may be
carried are typed here. Resistances: FAA AC 43.13-1B table 11-9, under 22 AWG the trade's nominal for tinned strands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

import numpy
import pytest
from reference.conversions import FOOT_MM
from reference.wire_tables import NOMINAL_TINNED_OHM_PER_1000_FT, TABLE_11_9_OHM_PER_1000_FT
from remedied import (
    Case,
    Definition,
    about,
    built,
    definition,
    findings_in,
    heavy,
    remedied,
    servo,
    shared,
    through_wing,
)
from resolved import known

from docgen.harness.model.circuits import CutLead, Lead
from docgen.harness.model.harness import Harness

WrittenFolder = Callable[[Mapping[str, str]], Path]
Node = tuple[str, ...]

OHM_PER_1000_FT = TABLE_11_9_OHM_PER_1000_FT | {
    24: NOMINAL_TINNED_OHM_PER_1000_FT[24, "19/36"],
    26: NOMINAL_TINNED_OHM_PER_1000_FT[26, "19/38"],
}
OHM_PER_MM = {f"{gauge} AWG": ohm / 1000 / FOOT_MM for gauge, ohm in OHM_PER_1000_FT.items()}
OHM_PER_MM |= {"0.25 mm²": 0.072 / 1000, "0.34 mm²": 0.0527 / 1000}
CONTACT_OHM = {"servo-3": 0.010, "power-2": 0.003, "block-14": 0.005, "weak": 0.040}
CONTACT_A = {"servo-3": (3.0, 5.0), "power-2": (10.0, 15.0), "block-14": (10.0, 15.0), "weak": (2.0, 6.0)}
# Common practice, no source; silicone in the open as well.
PVC_A = {
    "26 AWG": 2.0,
    "24 AWG": 2.5,
    "22 AWG": 3.0,
    "20 AWG": 5.0,
    "18 AWG": 7.0,
    "16 AWG": 10.0,
    "0.34 mm²": 3.0,
    "0.25 mm²": 2.5,
}
EMPTY_V, MARGIN_V = 6.4, 0.3
MOST_WORKING, MOST_STALLED = 1 / 28, 0.1  # of the pack's volts: AC 43.13-1B table 11-6, continuous; common practice
POLES = ("positive", "negative")


@dataclass
class Net:
    """Branches between nodes [ohm], and for contacts and wires of the harness what each may carry [A]."""

    branches: list[tuple[Node, Node, float]] = field(default_factory=list)
    may_a: dict[int, tuple[str, tuple[float, float]]] = field(default_factory=dict)

    def add(self, one: Node, other: Node, ohm: float, what: str = "", may_a: tuple[float, float] = (0, 0)) -> None:
        if what:
            self.may_a[len(self.branches)] = what, may_a
        self.branches.append((one, other, ohm))

    def potentials(self, draws: Mapping[str, float]) -> dict[Node, float]:
        """Solve with currents from positive to negative of loads [A]; the pack's minus is earth, its plus 6.4 V."""
        plus, minus = ("pack", "positive"), ("pack", "negative")
        nodes = sorted({node for one, other, _ in self.branches for node in (one, other)})
        number = {node: i for i, node in enumerate(nodes)}
        matrix, right = numpy.zeros((len(nodes), len(nodes))), numpy.zeros(len(nodes))
        for one, other, ohm in self.branches:
            for near, far in ((number[one], number[other]), (number[other], number[one])):
                matrix[near, near] += 1 / ohm
                matrix[near, far] -= 1 / ohm
        for load, amps in draws.items():
            right[number[load, "positive"]] -= amps
            right[number[load, "negative"]] += amps
        for node, volts in ((plus, EMPTY_V), (minus, 0.0)):
            matrix[number[node]] = 0
            matrix[number[node], number[node]] = 1
            right[number[node]] = volts
        found = numpy.linalg.solve(matrix, right)
        return {node: float(found[i]) for node, i in number.items()}

    def currents(self, draws: Mapping[str, float]) -> dict[int, float]:
        at = self.potentials(draws)
        return {i: abs(at[self.branches[i][0]] - at[self.branches[i][1]]) / self.branches[i][2] for i in self.may_a}


def net_of(harness: Harness) -> Net:
    net = Net()
    for lead in harness.leads():
        for wire in lead.wires:
            if wire.role in POLES:
                _add_wire(harness, net, lead, wire.role)
    for joint in harness.disconnects.values():
        passed = [(contact, use) for contact, use in joint.uses.items() if len(use.wires) == 2]
        for contact, use in passed:
            if any(wire.role in POLES for wire in use.wires.values()):
                ends = ("contact", joint.name, "0", contact), ("contact", joint.name, "1", contact)
                name = joint.shell.name
                net.add(*ends, CONTACT_OHM[name], f"contact {contact}", CONTACT_A[name])
        for common in joint.commons.values():
            for half, behind in enumerate(common.halves):
                for tail in behind.tails:
                    ends = (
                        ("splice", joint.name, str(half), common.name),
                        ("contact", joint.name, str(half), tail.contact),
                    )
                    gauge = tail.kind.gauge.text
                    # 40 mm, a splice's strip of 8 mm, the block's of 4 mm and 2 × 10 mm: 72 → 75 mm.
                    net.add(*ends, 75 * OHM_PER_MM[gauge], f"tail of {common.name}", (PVC_A[gauge], 1000))
    return net


def _add_wire(harness: Harness, net: Net, lead: Lead, role: str) -> None:
    wire = lead.wire(role)
    assert wire is not None
    nodes: list[Node] = []
    for end in lead.ends:
        if end.is_splice:
            nodes.append(("splice", lead.circuit, role))
        elif end.is_port:
            nodes.append(("plug", lead.name, end.name, role))
            own = end.own
            gauge = (own.kind or wire.kind).gauge.text if own is not None else ""
            own_ohm = known(own.length_mm) * OHM_PER_MM[gauge] if own is not None else 0.0
            plug = end.connector.name
            net.add(
                nodes[-1], ("inside", lead.name, end.name, role), CONTACT_OHM[plug], f"plug {plug}", CONTACT_A[plug]
            )
            net.add(("inside", lead.name, end.name, role), (end.name, role), own_ohm + 1e-9)
        else:
            half = [half.name for half in harness.disconnects[end.name].halves].index(end.part)
            common = end.commons.get(role)
            tails = common is not None and harness.disconnects[end.name].commons[common].halves[half].tails
            kind, last = ("splice", common or "") if tails else ("contact", end.contacts[role][0])
            nodes.append((kind, end.name, str(half), last))
    gauge = wire.kind.gauge.text
    cut_mm = known(lead.cut_length_mm) if isinstance(lead, CutLead) else 0
    may_a = PVC_A[gauge] if wire.kind.limit_c == 80 else 5.0  # the rest is fluoropolymer of 22 AWG, table 11-9
    net.add(nodes[0], nodes[1], cut_mm * OHM_PER_MM[gauge], f"wire of {lead.name}", (may_a, 1000))


def amps_of(said: Definition, key: str) -> dict[str, float]:
    loads = {name: one["current"] for name, one in said["harness"]["equipment"].items() if "current" in one}
    return {name: float(current.get(key, current["working"]).split()[0]) for name, current in loads.items()}


def too_much(harness: Harness, said: Definition) -> Iterator[str]:
    """Say what is over what it may be: volts and drops of each load, currents working and with one or all stalled."""
    net, working, stall = net_of(harness), amps_of(said, "working"), amps_of(said, "stall")
    cases = [(working, MOST_WORKING, None)] + [(working | {one: stall[one]}, MOST_STALLED, one) for one in stall]
    for draws, most, stalled in cases:
        at = net.potentials(draws)

        def across(name: str, at: Mapping[Node, float] = at) -> float:
            return at[name, "positive"] - at[name, "negative"]

        for load in [stalled] if stalled else list(working):
            least = said["harness"]["equipment"][load].get("volts", {}).get("least")
            if least and across(load) < float(least.split()[0]) + MARGIN_V - 1e-6:
                yield f"volts of {load}"
            if across("unit") - across(load) > most * EMPTY_V + 1e-6:
                yield f"drop of {load}"
    for draws, which in ((working, 0), (stall, 1)):  # four of them, if there are as many, stall together
        for index, amps in net.currents(draws).items():
            what, may = net.may_a[index]
            if amps > may[which] * (1 + 1e-6):
                yield f"current of {what}"


THIN = {"A": "lone-24", "B": "servo-24"}
BEST = {"A": "lone-24", "B": "servo-22"}


def alone(load: Definition, lead: str | Mapping[str, str], run_mm: tuple[int, int], shell: str = "weak") -> Definition:
    return definition({"ail": load}, {"ail": through_wing("unit 1", "ail", lead)}, shell=shell, run_mm=run_mm)


def pair(
    load: Definition, lead: Mapping[str, str], heavy_lead: str, run_mm: tuple[int, int] = (300, 700)
) -> Definition:
    names = ("ail", "flap")
    circuits = {name: through_wing(f"unit {i}", name, lead) for i, name in enumerate(names, 1)}
    return definition(
        dict.fromkeys(names, load), heavy(heavy_lead) | circuits, shared(*names), run_mm=run_mm, shell="block-14"
    )


# What is found and about what, and what the analysis must find wrong before.
CASES = {
    "volts, a thicker lead": (
        Case("volts", "ail", alone(servo("2 A", least="5.4 V"), "servo-24", (300, 900), "block-14")),
        "volts of ail",
    ),
    "drop, a thicker lead": (
        Case("drop", "ail", alone(servo("2.2 A"), "servo-24", (300, 900), "block-14")),
        "drop of ail",
    ),
    "drop, a second contact": (
        Case("drop", "ail", alone(servo("1.78 A", wire="lead-22"), "servo-22", (500, 1300))),
        "drop of ail",
    ),
    "volts, a second contact": (
        Case("volts", "ail", alone(servo("1.78 A", least="5.43 V", wire="lead-22"), "servo-22", (500, 1300))),
        "volts of ail",
    ),
    "volts behind commons": (
        Case("volts", "ail", pair(servo("2 A", "0.2 A", least="5.5 V"), THIN, "power-20", (300, 1000))),
        "volts of ail",
    ),
    "drop behind commons": (
        Case("drop", "ail", pair(servo("2.2 A", "0.2 A"), THIN, "power-20", (300, 1000))),
        "drop of ail",
    ),
    "current of a heavy pair": (
        Case("wire-current", "heavy", pair(servo("2 A", "1.8 A", wire="lead-22"), BEST, "light-22")),
        "current of wire of heavy A",
    ),
    "current of a lead": (
        Case("wire-current", "ail", alone(servo("2.9 A", "2.7 A", wire="lead-22"), "servo-24", (100, 100), "block-14")),
        "current of wire of ail A",
    ),
    "current of contacts": (
        Case("contact-current", "ail", alone(servo("2.9 A", "2.4 A", wire="lead-22"), "servo-22", (100, 100))),
        "current of contact 1",
    ),
}


@pytest.mark.parametrize(("case", "wrong"), CASES.values(), ids=CASES)
def test_a_remedy_does_by_an_analysis_of_its_own(case: Case, wrong: str, written_folder: WrittenFolder) -> None:
    assert wrong in set(too_much(built(written_folder, case.said), case.said))
    after = remedied(case.said, about(findings_in(written_folder, case.said), case))
    assert after is not None
    assert wrong not in set(too_much(built(written_folder, after), after))


def test_the_analysis_itself_is_that_by_hand() -> None:
    # 6.4 V; 0.1 ohm out and 0.1 ohm back for 2 A: 0.4 V; two contacts of 0.04 ohm side by side 1 A each.
    net = Net()
    net.add(("pack", "positive"), ("a",), 0.08)
    net.add(("a",), ("lamp", "positive"), 0.04, "one", (2, 2))
    net.add(("a",), ("lamp", "positive"), 0.04, "other", (2, 2))
    net.add(("lamp", "negative"), ("pack", "negative"), 0.1)
    at = net.potentials({"lamp": 2})
    assert at["lamp", "positive"] - at["lamp", "negative"] == pytest.approx(6.4 - 0.4)
    assert list(net.currents({"lamp": 2}).values()) == pytest.approx([1, 1])
