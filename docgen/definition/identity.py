"""Take what was and what is; return which is which, so that a thing with another name or end is still the same.

Disconnects and equipment are known by name, else as the only unmatched one with the same places (of equipment kind,
place and ports). Then circuits, in passes over all that are unmatched: by their ends, by name, by their loads; where
several would do, none does.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from docgen.basics.frozen import frozen
from docgen.definition.ends import find_port, port_groups
from docgen.definition.issued import IssuedCircuit, State
from docgen.definition.model import Definition

End = tuple[str, ...]
"""Equipment and port, or a disconnect and the roles that are taken there from commons."""


@frozen
class Known:
    """What things are known by, beside their names: places of equipment and disconnects, ends of circuits."""

    equipment: Mapping[str, Hashable]
    disconnects: Mapping[str, Hashable]
    circuits: Mapping[str, tuple[End, ...]]


class Taken(NamedTuple):
    """One thing that was taken as the same though its name or an end is another."""

    what: str
    old: str
    new: str
    by: str

    @property
    def text(self) -> str:
        """Say it."""
        return f"{self.what} {self.old} is now {self.new}" if self.old != self.new else f"{self.what} {self.old}"


@frozen
class Same:
    """Which is which, by the old name the new one; and what was taken as the same."""

    equipment: Mapping[str, str]
    disconnects: Mapping[str, str]
    circuits: Mapping[str, str]
    taken: tuple[Taken, ...]

    def name(self, old: str) -> str:
        """Return the name that equipment or a disconnect has now, its own if it is gone."""
        return self.equipment.get(old) or self.disconnects.get(old, old)

    def circuit(self, old: str) -> str:
        """Return the name that a circuit has now, its own if it is gone."""
        return self.circuits.get(old, old)


def known_of_state(state: State, gone: Mapping[str, IssuedCircuit] | None = None) -> Known:
    """Return what the things of a state are known by; with `gone`, of those circuits instead of its own."""
    return Known(
        {
            name: (entry.kind, entry.place, tuple(port for group in entry.ports for port in group.names))
            for name, entry in state.equipment.items()
        },
        {name: tuple(half.place for half in entry.halves) for name, entry in state.disconnects.items()},
        {name: entry.ends for name, entry in (state.circuits if gone is None else gone).items()},
    )


def known_of_definition(definition: Definition) -> Known:
    """Return what the things of a sound definition are known by."""
    return Known(
        {
            name: (entry.kind, entry.place, tuple(port for group in port_groups(entry) for port in group.names if port))
            for name, entry in definition.equipment.items()
        },
        {name: tuple(half.place for half in entry.both) for name, entry in definition.disconnects.items()},
        {
            name: tuple(_end(definition, words) for words in circuit.ends)
            for name, circuit in definition.circuits.items()
        },
    )


def _end(definition: Definition, words: tuple[str, ...]) -> End:
    name = words[0]
    if name in definition.equipment:
        port = find_port(definition, words).name
        return (name, port) if port else (name,)
    commons = definition.disconnects[name].commons
    return (name, *sorted(commons[common].role for common in words[1:]))


def identify(old: Known, new: Known) -> Same:
    """Return which is which."""
    equipment, disconnects = (
        _match(was, now, [lambda name, _: name, lambda _, places: places])
        for was, now in ((old.equipment, new.equipment), (old.disconnects, new.disconnects))
    )
    names = equipment | disconnects
    was = {name: tuple(_renamed(end, names) for end in ends) for name, ends in old.circuits.items()}
    passes: list[_Key] = [lambda _, ends: _all_ends(ends), lambda name, _: name, lambda _, ends: _loads(ends)]
    circuits = _match(was, new.circuits, passes)
    taken = [
        Taken(what, before, after, "its places")
        for what, pairs in (("disconnect", disconnects), ("equipment", equipment))
        for before, after in pairs.items()
        if before != after
    ]
    for before, after in circuits.items():
        same_ends = _all_ends(was[before]) == _all_ends(new.circuits[after])
        if before != after or not same_ends:
            by = "its ends" if same_ends else "its name" if before == after else "its load"
            taken.append(Taken("circuit", before, after, by))
    return Same(equipment, disconnects, circuits, tuple(taken))


_Key = Callable[[str, Any], Hashable]


def _renamed(end: End, names: Mapping[str, str]) -> End:
    """Return an end under its name of now; one that is gone is like none."""
    return (names.get(end[0], f"{end[0]} (gone)"), *end[1:])


def _all_ends(ends: Sequence[End]) -> Hashable:
    return ends[0], _loads(ends)


def _loads(ends: Sequence[End]) -> Hashable:
    return tuple(sorted(ends[1:]))


def _match(old: Mapping[str, Any], new: Mapping[str, Any], passes: Iterable[_Key]) -> dict[str, str]:
    """Return pairs of names, found in passes over all that are unmatched, by keys that one of each has."""
    pairs: dict[str, str] = {}
    for key in passes:
        left = _by_key({name: of for name, of in old.items() if name not in pairs}, key)
        right = _by_key({name: of for name, of in new.items() if name not in pairs.values()}, key)
        pairs |= {names[0]: right[of][0] for of, names in left.items() if len(names) == len(right.get(of, ())) == 1}
    return {name: pairs[name] for name in old if name in pairs}


def _by_key(things: Mapping[str, Any], key: _Key) -> dict[Hashable, list[str]]:
    found: dict[Hashable, list[str]] = {}
    for name, known in things.items():
        found.setdefault(key(name, known), []).append(name)
    return found
