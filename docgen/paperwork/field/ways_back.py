"""Take a harness; return where each function can be tested: its plugs and joints, from the load back to its source."""

from __future__ import annotations

from collections import Counter
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

    Quickest is taken to be the cover that most plugs lie behind at one place, a hatch; one over a single plug is
    screwed on. Last comes what takes an assembly off at a joint. Common practice, no source.
    """
    order = _quickness(harness)
    for circuits in functions:
        found: dict[tuple[str, str], Stop] = {}
        for end in (end for name in circuits for end in _back(harness.circuits[name])):
            found.setdefault((end.name, end.part if end.is_port else ""), Stop(cover_of(harness, end), end_text(end)))
        yield tuple(sorted(found.values(), key=lambda stop: order[stop.cover]))


def _back(circuit: Circuit) -> Iterator[End]:
    """Walk the ends of a circuit from its loads to where it begins."""
    ends = [end for lead in circuit.leads for end in lead.ends]
    return (end for end in reversed(ends) if not end.is_splice)


def cover_of(harness: Harness, end: End) -> str:
    """Return how a hand gets to an end: of a joint to that half which does not come off with the other."""
    return _access(harness, harness.disconnects[end.name].halves[0].place if end.kind == "half" else end.place)


def _access(harness: Harness, place: str) -> str:
    return harness.places[place].access or place


def _quickness(harness: Harness) -> dict[str, tuple[bool, int]]:
    """Return how quickly accesses open, the quickest first in order."""
    plugs = Counter(end.place for lead in harness.leads() for end in lead.ends if end.is_port)
    off = set(_taking_off(harness))
    behind: dict[str, list[int]] = {}
    for place in harness.places:
        behind.setdefault(_access(harness, place), []).append(plugs[place])
    return {access: (access in off, -max(counts)) for access, counts in behind.items()}


def _taking_off(harness: Harness) -> Iterator[str]:
    """Walk accesses that take an assembly off at a joint; one that is reached no other way is itself a cover."""
    for joint in harness.disconnects.values():
        near, far = (half.place for half in joint.halves)
        assembly = harness.places[far].assembly
        access = _access(harness, far if harness.places[far].access else near)
        ways = {_access(harness, place.name) for place in harness.places.values() if place.assembly == assembly}
        if assembly != harness.places[near].assembly and not ways <= {access, far}:
            yield access
