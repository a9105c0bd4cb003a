"""What is done to wires, ends of wires and plugs so that one state of an aircraft becomes another. Values only."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.basics.frozen import frozen
from docgen.definition.issued import IssuedEnd
from docgen.harness.model.circuits import numbered

SPLICE = "splice"


@frozen(slots=True)
class Spot:
    """Where a wire ends: contacts of a port or half, at a place; spliced where its `join` is that.

    `housing` says what the housing is like and what contacts it carries: one that says the same takes a crimped contact
    from it. `plug` names it with those; `splice` is the same for all that one splice joins there.
    """

    name: str
    part: str
    place: str
    contacts: tuple[str, ...]
    housing: str
    join: str
    is_half: bool
    plug: str = ""
    splice: str = ""

    @property
    def is_spliced(self) -> bool:
        """Tell whether the wire ends in a splice."""
        return self.join == SPLICE

    @property
    def at(self) -> str:
        """Name the port, the half or the splice."""
        return _at(self.name, self.part, self.place, is_half=self.is_half)


def _at(name: str, part: str, place: str, *, is_half: bool) -> str:
    if is_half:
        return f"{name} {part}"
    return numbered(name, "port", part) if name else f"{SPLICE} at {place}"


def at_text(end: IssuedEnd) -> str:
    """Name the port, the half or the splice where a lead ends."""
    return _at(end.name, end.part, end.place, is_half=end.kind == "half")


@frozen(slots=True)
class Piece:
    """One piece to cut: a wire of a lead, a lead that comes as one (no role), or the tail to one contact of a half."""

    lead: str
    role: str
    mark: str
    colour: str
    gauge: str
    wire: str
    cut_mm: float | None


@frozen(slots=True)
class Move:
    """One end of a wire that comes out, or goes in.

    `anew` is a piece that was cut for this, or that is taken away; `crimped` one that keeps the contact on its end;
    what comes out dead and stays there is `capped`. `wire` is what it is a piece of.
    """

    lead: str
    role: str
    mark: str
    colour: str
    spot: Spot
    into: bool
    anew: bool
    crimped: bool = False
    capped: bool = False
    wire: str = ""


@frozen(slots=True)
class Plugging:
    """A whole plug that is unplugged (`was`), plugged (`now`), or both; a `capped` one is dead and gets a cap."""

    lead: str
    was: Spot | None
    now: Spot | None
    capped: bool = False


@frozen(slots=True)
class Wiring:
    """What is done to wires; `removed` are leads that come out for good, `anew` those of which wires are new pieces.

    `revived` are leads that were dead, `stays` those that stay though they would be cut otherwise now, `fed` those on
    commons of which a splice is made anew, or tails get new contacts.
    """

    cut: tuple[Piece, ...] = ()
    removed: tuple[str, ...] = ()
    moves: tuple[Move, ...] = ()
    plugged: tuple[Plugging, ...] = ()
    anew: frozenset[str] = frozenset()
    revived: frozenset[str] = frozenset()
    stays: frozenset[str] = frozenset()
    fed: frozenset[str] = frozenset()

    @property
    def rung_out(self) -> tuple[str, ...]:
        """Return the leads, or commons with their tails, that have a wire in another contact, or in a contact anew."""
        return tuple(dict.fromkeys([*(move.lead for move in self.moves if move.into), *sorted(self.revived)]))

    @property
    def touched(self) -> tuple[str, ...]:
        """Return the leads that are rung out, plugged elsewhere, or fed through what is spliced anew."""
        plugged = (plugging.lead for plugging in self.plugged if plugging.now is not None)
        return tuple(dict.fromkeys([*self.rung_out, *plugged, *sorted(self.fed)]))


def together(some: Sequence[Wiring]) -> Wiring:
    """Return all of it as one."""
    return Wiring(
        cut=tuple(piece for each in some for piece in each.cut),
        removed=tuple(lead for each in some for lead in each.removed),
        moves=tuple(move for each in some for move in each.moves),
        plugged=tuple(plugging for each in some for plugging in each.plugged),
        anew=frozenset().union(*(each.anew for each in some)),
        revived=frozenset().union(*(each.revived for each in some)),
        stays=frozenset().union(*(each.stays for each in some)),
        fed=frozenset().union(*(each.fed for each in some)),
    )
