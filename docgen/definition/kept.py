"""Take a definition and what was issued; return what stays put, under the names of now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace

from docgen.basics.frozen import frozen
from docgen.definition.identity import Same, identify, known_of_definition, known_of_state
from docgen.definition.issued import IssuedCircuit, IssuedEnd, State
from docgen.definition.issues import Issues
from docgen.definition.model import Definition

StopKey = tuple[str, str, str]
"""Where a lead ends: its kind (port, half, splice), the equipment or disconnect, and the port or half."""
SegmentKey = tuple[StopKey, StopKey]


@frozen
class Issued:
    """What was given in issues and stays: contacts, wire numbers, letters of leads.

    `contacts` are by disconnect, circuit and role, those of `commons` by disconnect and name, `used` are all that ever
    carried something; `numbers` are by circuit and role, `highest` of each letter; `letters` by circuit and the two
    ends of a lead, `every` are all that a circuit had. `last` is the last issue; `gone` are circuits whose entry is
    gone, of which no issue that is built is without them.
    """

    contacts: Mapping[tuple[str, str, str], str] = field(default_factory=dict)
    commons: Mapping[tuple[str, str], tuple[str, ...]] = field(default_factory=dict)
    used: Mapping[str, frozenset[str]] = field(default_factory=dict)
    numbers: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    highest: Mapping[str, int] = field(default_factory=dict)
    letters: Mapping[str, Mapping[SegmentKey, str]] = field(default_factory=dict)
    every: Mapping[str, Sequence[str]] = field(default_factory=dict)
    last: str = ""
    gone: Mapping[str, IssuedCircuit] = field(default_factory=dict)
    same: Same = field(default=Same({}, {}, {}, ()))


NOTHING_ISSUED = Issued()


def keep(definition: Definition, issues: Issues) -> Issued:
    """Return what stays put of the last issue; of circuits that issues since the last one built left out too."""
    state = issues.last
    if state is None:
        return NOTHING_ISSUED
    left_out = {} if state.issue == issues.built else state.gone
    new = known_of_definition(definition)
    same = identify(known_of_state(state), new)
    others = {name: ends for name, ends in new.circuits.items() if name not in same.circuits.values()}
    back = identify(known_of_state(state, left_out), replace(new, circuits=others))
    circuits = {same.circuits[name]: circuit for name, circuit in state.circuits.items() if name in same.circuits}
    circuits |= {back.circuits[name]: circuit for name, circuit in left_out.items() if name in back.circuits}
    return Issued(
        last=state.issue,
        contacts={key: contact for name, of in circuits.items() for key, contact in _contacts(state, same, name, of)},
        commons={
            (same.disconnects[name], common): contacts
            for name, joint in state.disconnects.items()
            if name in same.disconnects
            for common, contacts in joint.commons.items()
        },
        used={
            same.disconnects[name]: frozenset([*joint.freed, *joint.contacts, *sum(joint.commons.values(), ())])
            for name, joint in state.disconnects.items()
            if name in same.disconnects
        },
        numbers={name: circuit.numbers for name, circuit in circuits.items()},
        highest=state.numbers,
        letters={name: _letters(circuit, same) for name, circuit in circuits.items()},
        every={name: circuit.letters for name, circuit in circuits.items()},
        gone={name: circuit for name, circuit in left_out.items() if name not in back.circuits}
        | {name: circuit for name, circuit in state.circuits.items() if name not in same.circuits},
        same=same,
    )


def _contacts(
    state: State, same: Same, name: str, circuit: IssuedCircuit
) -> Iterator[tuple[tuple[str, str, str], str]]:
    """Walk the contacts that a circuit has alone, by disconnect, circuit and role."""
    for lead in circuit.leads.values():
        for index, end in enumerate(lead.ends):
            joint = state.disconnects.get(end.name) if end.kind == "half" else None
            if joint is None or end.name not in same.disconnects:
                continue
            shared = set(sum(joint.commons.values(), ()))
            for role, wire in lead.wires.items():
                for contact in wire.at[index] if shared.isdisjoint(wire.at[index]) else ():
                    yield (same.disconnects[end.name], name, role), contact


def _letters(circuit: IssuedCircuit, same: Same) -> dict[SegmentKey, str]:
    ends = [tuple(_stop(end, same) for end in lead.ends) for lead in circuit.leads.values()]
    keys = segment_keys([(start, goal) for start, goal in ends])
    return dict(zip(keys, circuit.leads, strict=True))


def _stop(end: IssuedEnd, same: Same) -> StopKey:
    return end.kind, same.name(end.name), end.part


def segment_keys(ends: Sequence[SegmentKey]) -> list[SegmentKey]:
    """Return what the leads of a circuit are known by, given their ends in order.

    Where the circuit begins, and where it ends once, is known as that: another port there is no other lead.
    """
    last = len(ends) - 1
    loads = [i for i, (_, goal) in enumerate(ends) if goal[0] == "port" or (goal[0] == "half" and i == last)]
    start, to = ("from", "", ""), ("to", "", "")
    return [
        (start if i == 0 else here, to if loads == [i] else goal if goal[0] != "splice" else ("splice", "", ""))
        for i, (here, goal) in enumerate(ends)
    ]
