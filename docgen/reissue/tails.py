"""Take two states of an aircraft; return what is done to the tails behind commons."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from docgen.definition.identity import Same
from docgen.definition.issued import IssuedTail, State
from docgen.reissue.moves import SPLICE, Move, Piece, Spot, Wiring

_Behind = tuple[str, str, str]  # joint, half, contact
_Tail = tuple[IssuedTail, str, str]  # what it is, the place of its half, what is crimped on it


def tails_wiring(old: State, new: State, same: Same) -> Wiring:
    """Return what is done so that the tails of another state are there; one whose work differs is made anew."""
    there, wanted = _tails(old, same), _tails(new, None)
    anew = [at for at, tail in wanted.items() if at not in there or _work(there[at][0]) != _work(tail[0])]
    gone = [at for at in there if at not in wanted or at in anew]
    moves = [_move(at, there[at], into=False) for at in gone] + [_move(at, wanted[at], into=True) for at in anew]
    pieces = [_piece(at, wanted[at][0]) for at in anew]
    return Wiring(cut=tuple(pieces), moves=tuple(moves), anew=frozenset(piece.lead for piece in pieces))


def spliced_tails(old: State, new: State, same: Same, touched: Collection[str]) -> Iterator[Move]:
    """Walk what is done to tails that stay in their contacts where the splice behind those is made anew."""
    there, wanted = _tails(old, same), _tails(new, None)
    for at in (at for at in there if at in wanted):
        if _work(there[at][0]) == _work(wanted[at][0]):
            moves = _move(at, there[at], into=False), _move(at, wanted[at], into=True)
            if any(move.spot.splice in touched for move in moves):
                yield from (_at_its_splice(move) for move in moves)


def _at_its_splice(move: Move) -> Move:
    return replace(move, anew=False, spot=replace(move.spot, join=SPLICE, plug=""))


def _tails(state: State, same: Same | None) -> dict[_Behind, _Tail]:
    """Return the tails by where they are under the names of now."""
    return {
        (same.name(name) if same else name, half.name, contact): (tail, half.place, f"{joint.shell} {half.gender}")
        for name, joint in state.disconnects.items()
        for half in joint.halves
        for contact, tail in joint.tails.get(half.name, {}).items()
    }


def _work(tail: IssuedTail) -> tuple[str, str, str, float]:
    return tail.colour, tail.gauge, tail.wire, tail.cut_mm


def _piece(at: _Behind, tail: IssuedTail) -> Piece:
    joint, half, contact = at
    return Piece(f"{joint} {tail.common}", f"{half} {contact}", "", tail.colour, tail.gauge, tail.wire, tail.cut_mm)


def _move(at: _Behind, of: _Tail, *, into: bool) -> Move:
    (joint, half, contact), (tail, place, plug) = at, of
    piece = _piece(at, tail)
    spot = Spot(joint, half, place, (contact,), "", "crimp", True, plug, f"{joint} {half} {tail.common}")
    return Move(piece.lead, piece.role, piece.mark, piece.colour, spot, into, anew=True, wire=tail.wire)
