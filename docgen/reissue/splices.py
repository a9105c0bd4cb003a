"""Take what is done to wires; return what else a splice asks for that is made anew: all that stays in it.

A crimped or soldered splice is cut off, and every wire and tail in it stripped and joined again under a new tube, so
each is named, rung out and tried like those that are new in it. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from docgen.definition.identity import Same
from docgen.definition.issued import State
from docgen.reissue.laid import every_wire, first_cut
from docgen.reissue.moves import Move, Wiring
from docgen.reissue.tails import spliced_tails

_InSplice = dict[tuple[str, str, int], Move]  # by lead, role and end


def made_again(old: State, new: State, same: Same, done: Wiring) -> Wiring:
    """Return what is done to wires and tails that stay in splices which something else leaves or enters."""
    at_splices = [move for move in done.moves if move.spot.splice]
    touched = {move.spot.splice for move in at_splices if move.anew or move.spot.is_spliced}
    fed = {move.spot.splice for move in at_splices}
    moved = {(move.lead, move.role, move.spot) for move in done.moves}
    there, wanted = _in_splices(old, same, into=False), _in_splices(new, None, into=True)
    uncut = set(_first_cut(old, new, same))
    moves: list[Move] = []
    for key, out in there.items():
        into = wanted.get(key)
        if into is None or out.lead in uncut or touched.isdisjoint((out.spot.splice, into.spot.splice)):
            continue
        if not any((move.lead, move.role, move.spot) in moved for move in (out, into)):
            moves += [out, into]
    moves += spliced_tails(old, new, same, touched)
    return Wiring(moves=tuple(moves), fed=frozenset(_fed(new, fed)))


def _fed(new: State, touched: Collection[str]) -> Iterator[str]:
    """Walk the leads on commons of which a splice is made anew, or its tails get new contacts, behind either half."""
    shared = {
        (name, contact)
        for name, joint in new.disconnects.items()
        for common, contacts in joint.commons.items()
        for contact in contacts
        if any(f"{name} {half.name} {common}" in touched for half in joint.halves)
    }
    for lead, wires in every_wire(new, None).items():
        spots = (spot for wire in wires.values() for spot in wire.spots if spot.is_half)
        if any((spot.name, contact) in shared for spot in spots for contact in spot.contacts):
            yield lead


def _in_splices(state: State, same: Same | None, *, into: bool) -> _InSplice:
    """Return the ends of wires that are in splices, cut out of them or spliced into them."""
    wires = (wire for of in every_wire(state, same).values() for wire in of.values())
    return {
        (wire.piece.lead, wire.piece.role, index): wire.moved(index, into=into)
        for wire in wires
        for index, spot in enumerate(wire.spots)
        if spot.splice
    }


def _first_cut(old: State, new: State, same: Same) -> Iterator[str]:
    """Walk the leads that are not there yet."""
    for was, now in same.circuits.items():
        yield from (f"{now} {letter}" for letter in first_cut(old, old.circuits[was], new.circuits[now]))
