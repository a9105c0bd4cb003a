"""Take a circuit that is left in, or was; return what is done so that no feed reaches it, or that feeds do again.

Its outer plugs are pulled, and at commons its wires leave the splice or contact that others go on feeding. So what is
left in is in no common.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from docgen.definition.identity import Same
from docgen.definition.issued import IssuedCircuit, State
from docgen.reissue.laid import LaidWire, laid_wires, port_spot
from docgen.reissue.moves import Move, Plugging, Spot, Wiring

_Wires = Mapping[str, Mapping[str, LaidWire]]  # by lead and role


def made_dead(old: State, circuit: IssuedCircuit | None, name: str, same: Same) -> Wiring:
    """Return what is done to a circuit that is left in from now on: its ends are pulled, or cut out, and capped."""
    if circuit is None or circuit.planned or circuit.left_in:
        return Wiring()
    outer = {end[0] for end in circuit.ends}
    ends = [(letter, end) for letter, lead in circuit.leads.items() for end in lead.ends]
    plugs = [(letter, end) for letter, end in ends if end.kind == "port" and end.name in outer]
    return Wiring(
        moves=tuple(
            replace(wire.moved(index, into=False, crimped=True), capped=True)
            for wire, index in at_commons(old, laid_wires(old, circuit, name, same), same)
        ),
        plugged=tuple(Plugging(f"{name} {letter}", port_spot(end), None, capped=True) for letter, end in plugs),
    )


def at_commons(state: State, wires: _Wires, same: Same | None) -> Iterator[tuple[LaidWire, int]]:
    """Walk the ends of wires that are in commons."""
    shared = {
        (same.name(name) if same else name, contact)
        for name, joint in state.disconnects.items()
        for contacts in joint.commons.values()
        for contact in contacts
    }
    for wire in (wire for of in wires.values() for wire in of.values()):
        for index, spot in enumerate(wire.spots):
            if spot.is_half and any((spot.name, contact) in shared for contact in spot.contacts):
                yield wire, index


def fed_again(new: State, wanted: _Wires, moves: tuple[Move, ...]) -> Iterator[Move]:
    """Walk the wires of a circuit that comes back which go into commons again, but for those that do so anyhow."""
    into: set[tuple[str, str, Spot]] = {(move.lead, move.role, move.spot) for move in moves if move.into}
    for wire, index in at_commons(new, wanted, None):
        if (wire.piece.lead, wire.piece.role, wire.spots[index]) not in into:
            yield wire.moved(index, into=True, crimped=True)


def without_commons(old: State, there: _Wires, same: Same, done: Wiring) -> Wiring:
    """Return what is done to a circuit that was left in, without taking out of commons what is in none."""
    none = {(wire.piece.lead, wire.piece.role, wire.spots[index]) for wire, index in at_commons(old, there, same)}
    kept = (move for move in done.moves if move.into or (move.lead, move.role, move.spot) not in none)
    return replace(done, moves=tuple(kept))
