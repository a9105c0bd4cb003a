"""Take two states of an aircraft and which is which; return what is done to wires: cut, taken out, moved, plugged.

A wire whose length, colour or kind differs is made anew: the old one comes out at both ends. One that stays leaves a
contact only where that is another, or where its housing is; a whole plug that goes elsewhere is plugged elsewhere. A
lead that had no length could not be cut: once it has, all of it is new, and nothing comes out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.definition.identity import Same
from docgen.definition.issued import IssuedCircuit, IssuedEnd, IssuedLead, IssuedWire, State
from docgen.reissue.moves import SPLICE, Move, Piece, Plugging, Spot, Wiring, together
from docgen.reissue.tails import tails_wiring


@frozen(slots=True)
class _Wire:
    """One wire as it lies in the aircraft: what it is of, and where its ends are."""

    piece: Piece
    spots: tuple[Spot, Spot]
    whole: bool  # what it is of is one piece


def wiring(old: State, new: State, same: Same) -> Wiring:
    """Return what is done to the wires of one state so that those of another are there."""
    pairs = [(was, same.circuits.get(was, "")) for was in old.circuits]
    pairs += [("", now) for now in new.circuits if now not in same.circuits.values()]
    return together([*(_of_circuit(old, new, same, *both) for both in pairs), tails_wiring(old, new, same)])


def _of_circuit(old: State, new: State, same: Same, was: str, now: str) -> Wiring:
    """Return what is done to the wires of a circuit, by both of its names; what is planned has none yet."""
    name, before, after = now or was, old.circuits.get(was), new.circuits.get(now)
    if after is not None and after.left_in:
        return Wiring(plugged=_capped(name, before))
    before = None if before is not None and before.planned else before
    after = None if after is not None and after.planned else after
    there = _wires(old, before, name, same) if before else {}
    for letter in first_cut(old, before, after):
        del there[f"{name} {letter}"]
    wanted = _wires(new, after, name, None) if after else {}
    done = [_of_lead(lead, there.pop(lead, {}), wires) for lead, wires in wanted.items()]
    out = [move for wires in there.values() for wire in wires.values() for move in _both(wire, into=False)]
    whole = Wiring(
        removed=tuple(there),
        moves=tuple(out),
        plugged=_own_plugs(before, after, name, same),
        revived=frozenset(wanted) if before is not None and before.left_in else frozenset(),
    )
    return together([whole, *done])


def first_cut(old: State, before: IssuedCircuit | None, after: IssuedCircuit | None) -> tuple[str, ...]:
    """Return the letters of leads that have a length now and had none, so that they could not be cut before.

    Where the aircraft was altered before its files, they are there all the same.
    """
    if before is None or after is None or old.as_built:
        return ()
    return tuple(letter for letter in before.uncut if letter in after.leads and not after.leads[letter].is_uncut)


def _of_lead(lead: str, there: Mapping[str, _Wire], wanted: Mapping[str, _Wire]) -> Wiring:
    """Return what makes the wanted wires of a lead of those that are there, both by role."""
    kept = [role for role, wire in wanted.items() if role in there and _is_kept(there[role].piece, wire.piece)]
    if len(kept) < len(wanted) and next(iter(wanted.values())).whole:  # as all of its wires are then
        kept = []
    anew = [wire for role, wire in wanted.items() if role not in kept]
    moves = [move for role, wire in there.items() if role not in kept for move in _both(wire, into=False)]
    moves += [move for wire in anew for move in _both(wire, into=True)]
    plugged = []
    for index in (0, 1):
        ends = {role: (there[role].spots[index], wanted[role].spots[index]) for role in kept}
        if not anew and all(_plugs_over(*spots) for spots in ends.values()):
            plugged.append(Plugging(lead, *next(iter(ends.values()))))
            continue
        for role, (was, now) in ends.items():
            if _is_other(was, now):
                crimped = was.housing == now.housing and SPLICE not in (was.join, now.join)
                moves += [_move(there[role], index, into=False, crimped=crimped)]
                moves += [_move(wanted[role], index, into=True, crimped=crimped)]
    return Wiring(_cut(anew), (), tuple(moves), tuple(plugged), frozenset([lead] if anew else []))


def _is_kept(was: Piece, now: Piece) -> bool:
    """Tell whether a wire stays: it has the same colour and kind, and its length, if both are known."""
    alike = (was.colour, was.gauge, was.wire) == (now.colour, now.gauge, now.wire)
    return alike and (was.cut_mm == now.cut_mm or None in (was.cut_mm, now.cut_mm))


def _cut(wires: Sequence[_Wire]) -> tuple[Piece, ...]:
    """Return the pieces to cut; of what comes as one, that alone."""
    if wires and wires[0].whole:
        return (replace(wires[0].piece, role="", colour=""),)
    return tuple(wire.piece for wire in wires)


def _is_other(was: Spot, now: Spot) -> bool:
    """Tell whether a wire that stays leaves where it was; it does too if only its housing is another."""
    return (was.name, was.part, was.contacts, was.housing) != (now.name, now.part, now.contacts, now.housing)


def _plugs_over(was: Spot, now: Spot) -> bool:
    """Tell whether a wire goes to another port with the plug that it is in."""
    alike = (was.contacts, was.housing) == (now.contacts, now.housing)
    return alike and not was.is_half and not now.is_half and (was.name, was.part) != (now.name, now.part)


def _both(wire: _Wire, *, into: bool) -> list[Move]:
    return [replace(_move(wire, index, into=into), anew=True) for index in (0, 1)]


def _move(wire: _Wire, index: int, *, into: bool, crimped: bool = False) -> Move:
    piece = wire.piece
    return Move(piece.lead, piece.role, piece.mark, piece.colour, wire.spots[index], into, anew=False, crimped=crimped)


def _wires(state: State, circuit: IssuedCircuit, name: str, same: Same | None) -> dict[str, dict[str, _Wire]]:
    """Return the wires of each lead that is cut, by role; ends under the names of now."""
    return {
        f"{name} {letter}": {
            role: _Wire(
                Piece(f"{name} {letter}", role, wire.mark, wire.colour, wire.gauge, wire.wire, lead.cut_mm),
                (_spot(state, lead, wire, 0, same), _spot(state, lead, wire, 1, same)),
                lead.bought,
            )
            for role, wire in lead.wires.items()
        }
        for letter, lead in circuit.leads.items()
        if lead.part
    }


def _spot(state: State, lead: IssuedLead, wire: IssuedWire, index: int, same: Same | None) -> Spot:
    end, contacts = lead.ends[index], wire.at[index]
    tails = state.disconnects[end.name].tails.get(end.part, {}) if end.kind == "half" else {}
    spliced = end.kind == SPLICE or any(contact in tails for contact in contacts)
    return Spot(
        same.name(end.name) if same else end.name,
        end.part,
        end.place,
        contacts,
        "" if spliced else end.housing,
        SPLICE if spliced else end.join,
        end.kind == "half",
        "" if spliced else f"{end.plug} {end.gender}",
    )


def _port(end: IssuedEnd, same: Same | None = None) -> Spot:
    name = same.name(end.name) if same else end.name
    return Spot(name, end.part, end.place, (), end.housing, end.join, end.kind == "half")


def _capped(name: str, circuit: IssuedCircuit | None) -> tuple[Plugging, ...]:
    """Return the outer ends of a circuit that is left in: each is pulled, or cut off its splice, and capped."""
    if circuit is None or circuit.planned or circuit.left_in:
        return ()
    outer = {end[0] for end in circuit.ends}
    ends = [(letter, end) for letter, lead in circuit.leads.items() for end in lead.ends if end.name in outer]
    return tuple(Plugging(f"{name} {letter}", _port(end), None, capped=True) for letter, end in ends)


def _own_plugs(
    before: IssuedCircuit | None, after: IssuedCircuit | None, name: str, same: Same
) -> tuple[Plugging, ...]:
    """Return the plugs of leads that equipment came with: plugged in, unplugged, or plugged elsewhere."""
    was = dict(_owned(before, same))
    now = dict(_owned(after, None))
    return tuple(
        Plugging(f"{name} {letter}", was.get(letter), now.get(letter))
        for letter in dict.fromkeys([*was, *now])
        if _at(was.get(letter)) != _at(now.get(letter))
    )


def _at(spot: Spot | None) -> tuple[str, str] | None:
    return (spot.name, spot.part) if spot is not None else None


def _owned(circuit: IssuedCircuit | None, same: Same | None) -> Iterator[tuple[str, Spot]]:
    """Walk, of leads that plug straight in, the port that the first own lead of each is plugged into."""
    for letter, lead in circuit.leads.items() if circuit else ():
        if not lead.part:
            hung = next((i for i in (1, 0) if lead.ends[i].own_mm is not None), 1)
            yield letter, _port(lead.ends[1 - hung], same)
