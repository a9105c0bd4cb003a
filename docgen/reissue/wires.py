"""Take two states of an aircraft and which is which; return what is done to wires: cut, taken out, moved, plugged.

A wire whose colour or kind differs, that is too short, or far too long, is made anew: the old one comes out at both
ends. One that stays leaves a contact only where that is another, or where its housing is; a whole plug that goes
elsewhere is plugged elsewhere. A lead that had no length could not be cut: once it has, all of it is new, and nothing
comes out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from docgen.definition.identity import Same
from docgen.definition.issued import IssuedCircuit, State
from docgen.reissue.laid import LaidWire, first_cut, laid_wires, owned
from docgen.reissue.left_in import made_dead, made_live, rehoused, without_commons
from docgen.reissue.moves import SPLICE, Move, Piece, Plugging, Spot, Wiring, together
from docgen.reissue.sleeves import freed
from docgen.reissue.splices import made_again
from docgen.reissue.tails import tails_wiring

# A lead that stays may be so much longer than is needed now, which goes into the loop before its plug; and so much
# shorter where a contact is another, whose strip may be longer: that is in it for each new contact. Common practice.
_TUCKED_MM, _AGAIN_MM = 50.0, 10.0


def wiring(old: State, new: State, same: Same) -> Wiring:
    """Return what is done to the wires of one state so that those of another are there."""
    pairs = [(was, same.circuits.get(was, "")) for was in old.circuits]
    pairs += [("", now) for now in new.circuits if now not in same.circuits.values()]
    done = together([*(_of_circuit(old, new, same, *both) for both in pairs), tails_wiring(old, new, same)])
    done = together([done, freed(old, new, same, done)])
    return together([done, made_again(old, new, same, done)])


def _of_circuit(old: State, new: State, same: Same, was: str, now: str) -> Wiring:
    """Return what is done to the wires of a circuit, by both of its names; what is planned has none yet."""
    name, before, after = now or was, old.circuits.get(was), new.circuits.get(now)
    if after is not None and after.left_in:
        dead = made_dead(old, before, name, same)
        if before is None or before.planned:
            return dead
        both = laid_wires(old, before, name, same), laid_wires(new, after, name, None)
        return together([dead, rehoused(old, *both, same)])
    before = None if before is not None and before.planned else before
    after = None if after is not None and after.planned else after
    there = laid_wires(old, before, name, same) if before else {}
    for letter in first_cut(old, before, after):
        del there[f"{name} {letter}"]
    wanted = laid_wires(new, after, name, None) if after else {}
    done = together([_of_lead(lead, there.get(lead, {}), wires) for lead, wires in wanted.items()])
    gone = {lead: wires for lead, wires in there.items() if lead not in wanted}
    out = [move for wires in gone.values() for wire in wires.values() for move in _both(wire, into=False)]
    whole = Wiring(removed=tuple(gone), moves=tuple(out), plugged=_own_plugs(before, after, name, same))
    done = together([whole, done])
    if before is None or not before.left_in:
        return done
    again = [made_live(new, after, name, wanted, done)] if after is not None else []
    return without_commons(old, there, same, together([done, *again]))


def _of_lead(lead: str, there: Mapping[str, LaidWire], wanted: Mapping[str, LaidWire]) -> Wiring:
    """Return what makes the wanted wires of a lead of those that are there, both by role."""
    kept = [role for role, wire in wanted.items() if role in there and _is_kept(there[role], wire)]
    if len(kept) < len(wanted) and next(iter(wanted.values())).lead.bought:  # as all of its wires are then
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
                moves += [there[role].moved(index, into=False, crimped=crimped)]
                moves += [wanted[role].moved(index, into=True, crimped=crimped)]
    lengths_mm = [{there[role].lead.lies_mm, wanted[role].lead.cut_mm} for role in kept]
    stays = [lead for both_mm in lengths_mm if len(both_mm - {None}) == 2]
    return Wiring(
        _cut(anew), (), tuple(moves), tuple(plugged), frozenset([lead] if anew else []), stays=frozenset(stays)
    )


def _is_kept(was: LaidWire, now: LaidWire) -> bool:
    """Tell whether a wire stays: it has the same colour and kind, and is long enough, if both lengths are known."""
    one, other = was.piece, now.piece
    alike = (one.colour, one.gauge, one.wire) == (other.colour, other.gauge, other.wire)
    there_mm, wanted_mm = was.lead.lies_mm, now.lead.cut_mm
    if not alike or there_mm is None or wanted_mm is None or there_mm == wanted_mm:
        return alike
    other_contact = any(there.housing != here.housing for there, here in zip(was.spots, now.spots, strict=True))
    too_long_mm = there_mm - wanted_mm
    # One that stayed though it is shorter than its cut goes on doing for that cut.
    short_mm = max(_AGAIN_MM * other_contact, (was.lead.cut_mm or there_mm) - there_mm)
    return was.lead.route == now.lead.route and -short_mm <= too_long_mm <= _TUCKED_MM


def _cut(wires: Sequence[LaidWire]) -> tuple[Piece, ...]:
    """Return the pieces to cut; of what comes as one, that alone."""
    if wires and wires[0].lead.bought:
        return (replace(wires[0].piece, role="", colour=""),)
    return tuple(wire.piece for wire in wires)


def _is_other(was: Spot, now: Spot) -> bool:
    """Tell whether a wire that stays leaves where it was; it does too if only its housing is another."""
    return (was.name, was.part, was.contacts, was.housing) != (now.name, now.part, now.contacts, now.housing)


def _plugs_over(was: Spot, now: Spot) -> bool:
    """Tell whether a wire goes to another port with the plug that it is in."""
    alike = (was.contacts, was.housing) == (now.contacts, now.housing)
    return alike and not was.is_half and not now.is_half and (was.name, was.part) != (now.name, now.part)


def _both(wire: LaidWire, *, into: bool) -> list[Move]:
    return [wire.moved(index, into=into, anew=True) for index in (0, 1)]


def _own_plugs(
    before: IssuedCircuit | None, after: IssuedCircuit | None, name: str, same: Same
) -> tuple[Plugging, ...]:
    """Return the plugs of leads that equipment came with: plugged in, unplugged, or plugged elsewhere."""
    was = dict(owned(before, same))
    now = dict(owned(after, None))
    return tuple(
        Plugging(f"{name} {letter}", was.get(letter), now.get(letter))
        for letter in dict.fromkeys([*was, *now])
        if _at(was.get(letter)) != _at(now.get(letter))
    )


def _at(spot: Spot | None) -> tuple[str, str] | None:
    return (spot.name, spot.part) if spot is not None else None
