"""Take a circuit that is left in, or was; return what is done so that no feed reaches it, or that feeds do again.

Its outer plugs are pulled, and at commons its wires leave the splice or contact that others go on feeding. So what is
left in is in no common.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from docgen.definition.identity import Same
from docgen.definition.issued import IssuedCircuit, State
from docgen.reissue.laid import LaidWire, laid_wires, plug_of, port_spot
from docgen.reissue.moves import Move, Plugging, Spot, Wiring

_Wires = Mapping[str, Mapping[str, LaidWire]]  # by lead and role


def made_dead(old: State, circuit: IssuedCircuit | None, name: str, same: Same) -> Wiring:
    """Return what is done to a circuit that is left in from now on: its ends are pulled, or cut out, and capped."""
    if circuit is None or circuit.planned or circuit.left_in:
        return Wiring()
    return Wiring(
        moves=tuple(
            replace(wire.moved(index, into=False, crimped=True), capped=True)
            for wire, index in at_commons(old, laid_wires(old, circuit, name, same), same)
        ),
        plugged=tuple(Plugging(lead, spot, None, capped=True) for lead, spot in _outer_plugs(circuit, name, same)),
    )


def rehoused(old: State, there: _Wires, wanted: _Wires, same: Same) -> Wiring:
    """Return what is done to dead wires whose half has another housing now; those at commons are out of it."""
    out = {(wire.piece.lead, wire.piece.role, index) for wire, index in at_commons(old, there, same)}
    moves = [
        move
        for lead, wires in there.items()
        for role, was in wires.items()
        for now in [wanted.get(lead, {}).get(role, was)]
        for index in (0, 1)
        if was.spots[index].is_half and was.spots[index].housing != now.spots[index].housing
        if (lead, role, index) not in out
        for move in (was.moved(index, into=False), now.moved(index, into=True))
    ]
    return Wiring(moves=tuple(moves))


def _outer_plugs(circuit: IssuedCircuit, name: str, same: Same | None) -> Iterator[tuple[str, Spot]]:
    """Walk the leads at the ends of a circuit, each with the port where its plug is."""
    outer = {end[0] for end in circuit.ends}
    for letter, lead in circuit.leads.items():
        hung = lead.ends if lead.part else [lead.ends[plug_of(lead)]]
        ends = (end for end in hung if end.kind == "port" and end.name in outer)
        yield from ((f"{name} {letter}", port_spot(end, same)) for end in ends)


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


def made_live(new: State, circuit: IssuedCircuit, name: str, wanted: _Wires, done: Wiring) -> Wiring:
    """Return what else is done to a circuit that comes back: its plugs go in, and its wires into commons."""
    into = {(move.lead, move.role, move.spot) for move in done.moves if move.into}
    moves = (
        wire.moved(index, into=True, crimped=True)
        for wire, index in at_commons(new, wanted, None)
        if (wire.piece.lead, wire.piece.role, wire.spots[index]) not in into
    )
    there = {(move.lead, move.spot.at) for move in done.moves if move.into}
    there |= {(each.lead, each.now.at) for each in done.plugged if each.now is not None}
    plugs = _outer_plugs(circuit, name, None)
    plugged = tuple(Plugging(lead, None, spot) for lead, spot in plugs if (lead, spot.at) not in there)
    return Wiring(moves=tuple(moves), plugged=plugged, revived=frozenset(wanted))


def without_commons(old: State, there: _Wires, same: Same, done: Wiring) -> Wiring:
    """Return what is done to a circuit that was left in, without taking out of commons what is in none."""
    none = {(wire.piece.lead, wire.piece.role, wire.spots[index]) for wire, index in at_commons(old, there, same)}
    kept = (move for move in done.moves if move.into or (move.lead, move.role, move.spot) not in none)
    plugged = (replace(each, was=None) for each in done.plugged if each.now is not None)
    return replace(done, moves=tuple(map(_at_its_cap, kept)), plugged=tuple(plugged))


def _at_its_cap(move: Move) -> Move:
    """Return what comes out of a dead plug where that is: in its cap; its port may be another's."""
    if move.into or move.spot.is_half or move.spot.splice:
        return move
    return replace(move, spot=replace(move.spot, name=f"capped plug, was at {move.spot.at}", part=""))
