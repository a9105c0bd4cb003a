"""Take a harness; return where each function can be tested: its plugs and joints, from the load back to its source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from docgen.basics.frozen import frozen
from docgen.harness.model.circuits import Circuit, End
from docgen.harness.model.harness import Harness
from docgen.paperwork.naming import end_text


@frozen
class Stop:
    """A plug or joint where a hand gets to it, by the words of its access."""

    cover: str
    says: str


def stops_of(harness: Harness, functions: Iterable[Sequence[str]]) -> Iterator[tuple[Stop, ...]]:
    """Walk the plugs and joints of each function's circuits, each once, those behind the cover quickest to open first.

    Quickest is taken to be what gives access to most places of its assembly, a hatch; then what comes off with an
    assembly, at a joint; last a cover over one place alone, which is screwed on. Common practice, no source.
    """
    order = _quickness(harness)
    for circuits in functions:
        found: dict[tuple[str, str], Stop] = {}
        for end in (end for name in circuits for end in _back(harness.circuits[name])):
            found.setdefault((end.name, end.part if end.is_port else ""), Stop(cover_of(harness, end), end_text(end)))
        yield tuple(sorted(found.values(), key=lambda stop: order.get(stop.cover, (2, 0))))


def _back(circuit: Circuit) -> Iterator[End]:
    """Walk the ends of a circuit from its loads to where it begins."""
    ends = [end for lead in circuit.leads for end in lead.ends]
    return (end for end in reversed(ends) if not end.is_splice)


def cover_of(harness: Harness, end: End) -> str:
    """Return how a hand gets to an end: of a joint to that half which does not come off with the other."""
    place = harness.disconnects[end.name].halves[0].place if end.kind == "half" else end.place
    return harness.places[place].access or place


def _quickness(harness: Harness) -> dict[str, tuple[int, int]]:
    """Return how quickly accesses open, the quickest first in order."""
    halves = {half.place for joint in harness.disconnects.values() for half in joint.halves}
    places: dict[str, list[str]] = {}
    for place in harness.places.values():
        places.setdefault(place.access or place.name, []).append(place.name)
    order = {}
    for access, names in places.items():
        of_joint = any(name in halves for name in names)
        several = len({harness.places[name].assembly for name in names}) == 1 and len(names) > 1
        order[access] = (1 if of_joint else 0 if several else 2, -len(names))
    return order
