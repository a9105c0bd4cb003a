"""Take two states of an aircraft; return which sleeves are others, and what is freed so that those go on.

A sleeve stays as long as it does over what lies in it and is not too short; too long, it is cut back in place. One that
goes on and can't be wrapped around slides over one end of each lead in it, which comes out for that and goes in again.
Where no hand reaches all that lies in a sleeve is drawn out over those ends, with a line tied on, and drawn back.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import pairwise

from docgen.definition.identity import Same
from docgen.definition.issued import IssuedLead, IssuedSleeve, State
from docgen.reissue.differences import OtherSleeve
from docgen.reissue.laid import every_wire, owned, plug_of
from docgen.reissue.moves import Move, Plugging, Wiring
from docgen.reissue.own_leads import came_anew

# By so much a sleeve may be longer than its run: up to the labels, which stand as far behind their plugs.
_LOOSE_MM = 25.0


def other_sleeves(old: State, new: State) -> Iterator[OtherSleeve]:
    """Walk sleeves that are others, or cut back; one only cut otherwise because its bundle is, stays."""
    for ends in dict.fromkeys([*old.sleeves, *new.sleeves]):
        was, now = old.sleeves.get(ends), new.sleeves.get(ends)
        is_measured = now is None or now.run_mm is not None
        if was is not None and was.run_mm is None and is_measured:  # it could not be cut
            was = was if old.as_built else None
        closed = is_closed(ends, old, new) or is_closed(ends, new, new)
        if was is None or now is None:
            if was is not now:
                yield OtherSleeve(ends, was, now, closed=closed)
            continue
        kind, too_long_mm = was.lies[0], _too_long_mm(was, now)
        if kind not in (now.kind, *now.would_do) or too_long_mm < 0:
            yield OtherSleeve(ends, was, now, closed=closed)
        elif too_long_mm > _LOOSE_MM:
            yield OtherSleeve(ends, was, now, too_long_mm, closed)


def _too_long_mm(was: IssuedSleeve, now: IssuedSleeve) -> float:
    """Return by how much a sleeve is longer than its way of now, negative where it does not cover what it must [mm].

    It may do over a longer way: it ends short of labels.
    """
    kind, there_mm = was.lies
    if there_mm is None or now.run_mm is None:
        return 0.0
    over_mm, least_mm = there_mm - now.run_mm, now.cut_mm if now.least_mm is None else now.least_mm
    is_alike = over_mm < 0 and kind == was.kind == now.kind
    if is_alike and was.run_mm is not None and was.cut_mm is not None and least_mm is not None:
        does = was.cut_mm + there_mm - was.run_mm >= least_mm
        return 0.0 if does else over_mm
    return over_mm


def is_closed(ends: str, state: State, new: State) -> bool:
    """Tell whether a sleeve of a state lies, for all or some of its way, where no hand reaches now."""
    sleeve = state.sleeves.get(ends)
    if sleeve is None or not new.closed:
        return False
    closed = {frozenset(each.split(" to ")) for each in new.closed}
    ways = [_places(ends)]
    for name in sleeve.leads:
        lead = lead_of(state, name)
        if lead is not None and {*_places(ends)} <= {*lead.route}:
            first, last = sorted(lead.route.index(place) for place in _places(ends))
            ways.append([*lead.route[first : last + 1]])
    return any(frozenset(pair) in closed for way in ways for pair in pairwise(way))


def lead_of(state: State, name: str) -> IssuedLead | None:
    """Return a lead by its circuit and letter, if there is one."""
    circuit, _, letter = name.rpartition(" ")
    return state.circuits[circuit].leads.get(letter) if circuit in state.circuits else None


def drawn_out(old: State, new: State, same: Same, done: Wiring) -> Iterator[OtherSleeve]:
    """Walk the sleeves that stay in closed runs and are drawn out with all in them, for new leads in them.

    An old lead that comes out of one draws the new ones in: common practice, no source.
    """
    others, came = {sleeve.ends for sleeve in other_sleeves(old, new)}, came_anew(old, new, same)
    anew = {*came, *(move.lead for move in done.moves if move.into and move.anew)}
    taken = {*came, *(move.lead for move in done.moves if not move.into and move.anew)}
    for ends, now in new.sleeves.items():
        was = old.sleeves.get(ends)
        if was is not None and ends not in others and not anew.isdisjoint(now.leads) and is_closed(ends, new, new):
            there = (name.rpartition(" ") for name in was.leads)
            if taken.isdisjoint(f"{same.circuit(circuit)} {letter}" for circuit, _, letter in there):
                yield OtherSleeve(ends, was, now, closed=True)


def _places(ends: str) -> list[str]:
    return ends.split(" #", maxsplit=1)[0].split(" to ")


def slid_over(sleeve: OtherSleeve, new: State) -> dict[str, int]:
    """Return the leads over which a sleeve slides on, and over which of their ends, if that is known.

    What plugs straight in has one plug, over which everything slides.
    """
    now, places = sleeve.now, _places(sleeve.ends)
    if now is None or sleeve.back_mm is not None or now.slides_from not in places or (now.splits and not sleeve.closed):
        return {}
    [other] = [place for place in places if place != now.slides_from] or places[:1]
    found = {}
    for name in now.leads:
        lead = lead_of(new, name)
        if lead is not None and now.slides_from in lead.route and other in lead.route:
            beyond = int(lead.route.index(now.slides_from) > lead.route.index(other))
            found[name] = beyond if lead.part else plug_of(lead)
    return found


def drawn_back(sleeve: OtherSleeve, new: State) -> Iterator[tuple[str, str]]:
    """Walk the sleeves between one that slides on and the ends over which it does, each with a lead drawn out of it."""
    for name, index in slid_over(sleeve, new).items():
        circuit, _, letter = name.rpartition(" ")
        lead = new.circuits[circuit].leads[letter]
        at = lead.route.index(sleeve.now.slides_from) if sleeve.now is not None else 0
        beyond = lead.route[at:] if index else lead.route[: at + 1]
        for ends, other in new.sleeves.items():
            is_shut = not other.splits or is_closed(ends, new, new)
            if lead.part and name in other.leads and is_shut and {*_places(ends)} <= {*beyond}:
                yield ends, name


def freed(old: State, new: State, same: Same, done: Wiring) -> Wiring:
    """Return what is done to leads that stay and lie in sleeves that slide on, beside what is done anyhow."""
    opened = (*other_sleeves(old, new), *drawn_out(old, new, same, done))
    slid = [each for sleeve in opened for each in slid_over(sleeve, new).items()]
    there, wanted = every_wire(old, same), every_wire(new, None)
    into = {(move.lead, move.role, move.spot) for move in done.moves if move.into}
    moves: dict[Move, None] = {}
    for lead, index in slid:
        for role, wire in wanted.get(lead, {}).items():
            was, spot = there.get(lead, {}).get(role), wire.spots[index]
            if was is not None and (spot.contacts or spot.splice) and (lead, role, spot) not in into:
                crimped = not spot.is_spliced
                moves[was.moved(index, into=False, crimped=crimped)] = None
                moves[wire.moved(index, into=True, crimped=crimped)] = None
    return Wiring(moves=tuple(moves), plugged=tuple(unplugged(old, new, same, [lead for lead, _ in slid], done)))


def unplugged(old: State, new: State, same: Same, some: Collection[str], done: Wiring) -> Iterator[Plugging]:
    """Walk the plugs of what plugs straight in that are pulled and plugged again, beside what is done anyhow."""
    there = {
        f"{same.circuit(was)} {letter}": spot
        for was, circuit in old.circuits.items()
        if not circuit.planned and not circuit.left_in
        for letter, spot in owned(circuit, same)
    }
    wanted = {f"{name} {letter}": spot for name, of in new.circuits.items() for letter, spot in owned(of, None)}
    plugged = {each.lead for each in done.plugged}
    for lead in dict.fromkeys(some):
        if lead in there and lead in wanted and lead not in plugged:
            yield Plugging(lead, there[lead], wanted[lead])
