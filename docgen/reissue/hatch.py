"""Take what differs; return what is done under each cover, lead by lead: taken out, put in, plugged, labelled.

At one place what only comes out is first and what only goes in last, so that nothing goes where something else still
is, and all is cut out of a splice before something new goes in.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.definition.issued import State
from docgen.reissue.differences import Differences, OtherLabel
from docgen.reissue.moves import Move, Plugging


@frozen
class Stop:
    """One end of a lead, at a plug, half or splice: what comes out, goes in, is plugged, and which labels change.

    What lay elsewhere has a stop there and one here. What is `live` may be: a pack's own plug.
    """

    place: str
    assembly: str
    access: str
    lead: str
    function: str
    at: str
    live: bool
    out: tuple[Move, ...]
    into: tuple[Move, ...]
    plugged: tuple[Plugging, ...]
    stripped: tuple[OtherLabel, ...]
    put_on: tuple[OtherLabel, ...]

    @property
    def is_open(self) -> bool:
        """Tell whether wires go in there, so that a tube passes before."""
        return bool(self.into)

    @property
    def pulled(self) -> Plugging | None:
        """Return the plug that is unplugged there."""
        here = (self.at, self.place)
        return next((each for each in self.plugged if each.was and (each.was.at, each.was.place) == here), None)

    @property
    def plugged_in(self) -> Plugging | None:
        """Return the plug that is plugged in there."""
        here = (self.at, self.place)
        return next((each for each in self.plugged if each.now and (each.now.at, each.now.place) == here), None)

    @property
    def halves(self) -> tuple[Stop, Stop]:
        """Return what comes out, and what goes in."""
        pulled = tuple(replace(each, now=None) for each in self.plugged if each.was is not None)
        plugged = tuple(replace(each, was=None) for each in self.plugged if each.now is not None)
        return (
            replace(self, into=(), plugged=pulled, put_on=()),
            replace(self, out=(), plugged=plugged, stripped=()),
        )


def stops(of: Differences, old: State, new: State) -> tuple[Stop, ...]:
    """Return what is done at each end, by the places in the order in which they are written."""
    wires = of.wiring
    ends = [(move.lead, move.spot.at, move.spot.place) for move in wires.moves]
    ends += [(each.lead, *end) for each in wires.plugged for end in _ends_of(each)]
    ends += [(label.lead, label.at, label.place) for label in (*of.stripped, *of.put_on)]
    order = [*new.places, *(place for place in old.places if place not in new.places)]
    found = [_stop(of, old, new, *end) for end in dict.fromkeys(ends)]
    found = [part for stop in found for part in (stop.halves if _waits(stop, found) else (stop,))]
    return tuple(sorted(found, key=lambda stop: (order.index(stop.place), _turn(stop))))


def _turn(stop: Stop) -> int:
    """Return when something is done at its place: out first, then out and in, then in."""
    out, into = bool(stop.out or stop.pulled), bool(stop.into or stop.plugged_in)
    return 1 + into - out


def _waits(stop: Stop, some: Sequence[Stop]) -> bool:
    """Tell whether a lead goes into a contact that another leaves, which itself goes into one then."""
    wanted = _contacts(stop.into) if stop.out else set()
    return any(each.into and each.lead != stop.lead and wanted & _contacts(each.out) for each in some)


def _contacts(moves: Iterable[Move]) -> set[tuple[str, str, str]]:
    """Return the contacts of moves, by where those are and the plug that they are in."""
    crimped = (move.spot for move in moves if not move.spot.is_spliced)
    return {(spot.at, spot.plug, contact) for spot in crimped for contact in spot.contacts}


def _stop(of: Differences, old: State, new: State, lead: str, at: str, place: str) -> Stop:
    where = new.places.get(place) or old.places[place]
    here = [move for move in of.wiring.moves if (move.lead, move.spot.at, move.spot.place) == (lead, at, place)]
    packs = {name for state in (old, new) for name, entry in state.equipment.items() if entry.kind == "battery"}
    return Stop(
        place=place,
        assembly=where.assembly,
        access=where.access,
        lead=lead,
        function=function_of(old, new, lead),
        at=at,
        live=any(move.spot.name in packs for move in here),
        out=tuple(move for move in here if not move.into),
        into=tuple(move for move in here if move.into),
        plugged=tuple(each for each in of.wiring.plugged if each.lead == lead and (at, place) in _ends_of(each)),
        stripped=tuple(label for label in of.stripped if (label.lead, label.at, label.place) == (lead, at, place)),
        put_on=tuple(label for label in of.put_on if (label.lead, label.at, label.place) == (lead, at, place)),
    )


def parted(some: Sequence[Stop], free: Mapping[str, Collection[str]]) -> tuple[list[Stop], list[Stop]]:
    """Return what is done first, and what goes in last at ends that stay free till they are through.

    What is spliced to such an end waits for it.
    """
    waiting = [stop for stop in some if stop.at in free.get(stop.lead, ())]
    late = {move.spot.splice for stop in waiting for move in stop.into if move.spot.is_spliced}
    first, last = [], []
    for stop in some:
        is_late = any(move.spot.is_spliced and move.spot.splice in late for move in stop.into)
        put_in = stop.into or any(each.now for each in stop.plugged)
        if not put_in or not (stop in waiting or is_late):
            first.append(stop)
            continue
        out, into = stop.halves
        last.append(into)
        if out.out or out.plugged or out.stripped:
            first.append(out)
    return first, last


def _ends_of(plugging: Plugging) -> list[tuple[str, str]]:
    return [(spot.at, spot.place) for spot in (plugging.was, plugging.now) if spot is not None]


def function_of(old: State, new: State, lead: str) -> str:
    """Say a lead as its labels do: its circuit's function and its letter; of a tail its common."""
    name, _, letter = lead.rpartition(" ")
    circuit = new.circuits.get(name) or old.circuits.get(name)
    return f"{circuit.label} {letter}" if circuit is not None else letter
