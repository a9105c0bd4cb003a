"""Take two states of an aircraft; return what is done to the tails behind commons.

A tail of the same wire and length stays in its splice where its half has another shell or other contacts: it has the
length for new contacts as each lead has (AC 43.13-1B 11-118: two), and a splice that is sound is left alone.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.definition.identity import Same
from docgen.definition.issued import IssuedTail, State
from docgen.reissue.moves import SPLICE, Move, Piece, Spot, Wiring

_Behind = tuple[str, str, str]  # joint, half, contact


@frozen(slots=True)
class _Tail:
    """A tail, the place of its half, the plug there; what that is like and how it is joined, if a lead there says."""

    of: IssuedTail
    place: str
    plug: str
    housing: str = ""
    join: str = "crimp"

    @property
    def work(self) -> tuple[str, str, str, float]:
        return self.of.colour, self.of.gauge, self.of.wire, self.of.cut_mm


def tails_wiring(old: State, new: State, same: Same) -> Wiring:
    """Return what is done so that the tails of another state are there; one whose work differs is made anew."""
    there, wanted = _tails(old, same), _tails(new, None)
    anew = [at for at, tail in wanted.items() if at not in there or there[at].work != tail.work]
    gone = [at for at in there if at not in wanted or at in anew]
    crimped = [at for at, tail in wanted.items() if at not in anew and _has_other_contact(there[at], tail)]
    moves = [_move(at, there[at], into=False) for at in gone] + [_move(at, wanted[at], into=True) for at in anew]
    moves += [_move(at, there[at], into=False, anew=False) for at in crimped]
    moves += [_move(at, wanted[at], into=True, anew=False) for at in crimped]
    pieces = [_piece(at, wanted[at].of) for at in anew]
    return Wiring(cut=tuple(pieces), moves=tuple(moves), anew=frozenset(piece.lead for piece in pieces))


def spliced_tails(old: State, new: State, same: Same, touched: Collection[str]) -> Iterator[Move]:
    """Walk what is done to tails that stay in their contacts where the splice behind those is made anew."""
    there, wanted = _tails(old, same), _tails(new, None)
    for at in (at for at in there if at in wanted):
        if there[at].work == wanted[at].work:
            moves = _move(at, there[at], into=False), _move(at, wanted[at], into=True)
            if any(move.spot.splice in touched for move in moves):
                yield from (_at_its_splice(move) for move in moves)


def _at_its_splice(move: Move) -> Move:
    return replace(move, anew=False, spot=replace(move.spot, join=SPLICE, plug=""))


def _tails(state: State, same: Same | None) -> dict[_Behind, _Tail]:
    """Return the tails by where they are under the names of now."""
    leads = (lead for circuit in state.circuits.values() for lead in circuit.leads.values())
    ends = [end for lead in leads for end in lead.ends if end.kind == "half"]
    said = {(end.name, end.part): (f"{end.housing} {end.gender}", end.join) for end in ends if end.housing}
    return {
        (same.name(name) if same else name, half.name, contact): _Tail(
            tail, half.place, f"{joint.shell} {half.gender}", *said.get((name, half.name), ())
        )
        for name, joint in state.disconnects.items()
        for half in joint.halves
        for contact, tail in joint.tails.get(half.name, {}).items()
    }


def _has_other_contact(was: _Tail, now: _Tail) -> bool:
    return bool(was.housing and now.housing) and was.housing != now.housing


def _piece(at: _Behind, tail: IssuedTail) -> Piece:
    joint, half, contact = at
    return Piece(f"{joint} {tail.common}", f"{half} {contact}", "", tail.colour, tail.gauge, tail.wire, tail.cut_mm)


def _move(at: _Behind, tail: _Tail, *, into: bool, anew: bool = True) -> Move:
    joint, half, contact = at
    piece = _piece(at, tail.of)
    spot = Spot(joint, half, tail.place, (contact,), "", tail.join, True, tail.plug, f"{joint} {half} {tail.of.common}")
    return Move(piece.lead, piece.role, piece.mark, piece.colour, spot, into, anew, wire=tail.of.wire)
