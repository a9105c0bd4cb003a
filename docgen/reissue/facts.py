"""Take a circuit, equipment or a disconnect as it was and as it is; return which facts of it are others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from docgen.basics.frozen import frozen
from docgen.definition.identity import Same
from docgen.definition.issued import (
    IssuedCircuit,
    IssuedDisconnect,
    IssuedEquipment,
    IssuedFigures,
    IssuedPorts,
    IssuedSettings,
)
from docgen.harness.model.circuits import numbered

Value = str | float | None

_OF_EQUIPMENT = ("kind", "place", "plug_at", "idle_a", "working_a", "stall_a", "runs_s", "least_v", "most_v")
_OF_PORTS = ("plug", "gender", "lead_mm", "lead_wire")
_OF_CIRCUITS = ("label", "planned", "left_in", "channel", "throw", "failsafe")
_SETTINGS = (
    *("cells", "capacity_mah", "full_v", "empty_v", "resistance_ohm", "rating_a"),
    *("up_s", "down_s", "limit_s", "stop_a", "isolates"),
)
_FIGURES = ("drop_v", "stalled_drop_v", "left_v")


@frozen(slots=True)
class Fact:
    """One fact that is another: which, of what part (a port, a lead; nothing: the whole), as it was, and as it is."""

    what: str
    of: str
    was: Value
    now: Value


def equipment_facts(old: IssuedEquipment | None, new: IssuedEquipment | None) -> tuple[Fact, ...]:
    """Return what is another of equipment; nothing where it is new or gone."""
    if old is None or new is None:
        return ()
    facts = list(_others("", old, new, _OF_EQUIPMENT))
    before, after = (dict(_ports(entry.ports)) for entry in (old, new))
    for name in dict.fromkeys([*before, *after]):
        if name not in before or name not in after:
            facts.append(Fact("port", name, _there(name in before), _there(name in after)))
        else:
            facts += _others(name, before[name], after[name], _OF_PORTS)
            facts += _texts("order", name, before[name].order, after[name].order)
    facts += _texts("colours", "", old.colours.values(), new.colours.values())
    return tuple(facts)


def joint_facts(old: IssuedDisconnect, new: IssuedDisconnect) -> tuple[Fact, ...]:
    """Return what is another of a disconnect; of its keys and coding, what is known of both."""
    facts = list(_others("", old, new, ("shell",)))
    for was, now in zip(old.halves, new.halves, strict=True):
        facts += _texts("contacts", now.name, [was.gender], [now.gender])
        facts += _texts("key", now.name, [was.key], [now.key]) if was.key and now.key else ()
    facts += _texts("keyed", "", old.keyed, new.keyed) if old.keyed is not None and new.keyed is not None else ()
    return tuple(facts)


def settings_facts(old: IssuedSettings, new: IssuedSettings) -> tuple[Fact, ...]:
    """Return what is set, given or fed otherwise."""
    facts = list(_others("", old, new, _SETTINGS))
    facts += _texts("fed_by", "", old.fed_by, new.fed_by)
    for port in dict.fromkeys([*old.drives, *new.drives]):
        facts += _texts("drives", port, old.drives.get(port, ()), new.drives.get(port, ()))
    outlets: dict[tuple[float | None, float | None], list[str]] = {}
    for port in dict.fromkeys([*old.output_v, *new.output_v]):
        outlets.setdefault((old.output_v.get(port), new.output_v.get(port)), []).append(port)
    facts += [Fact("output_v", ", ".join(some), *volts) for volts, some in outlets.items() if volts[0] != volts[1]]
    return tuple(facts)


def _there(is_there: bool) -> str:
    return "there" if is_there else ""


def _ports(groups: Iterable[IssuedPorts]) -> Iterator[tuple[str, IssuedPorts]]:
    for group in groups:
        for name in group.names or ("",):
            yield name, group


def circuit_facts(old: IssuedCircuit | None, new: IssuedCircuit | None, same: Same) -> tuple[Fact, ...]:
    """Return what is another of a circuit, its leads among it; nothing where it is new or gone."""
    if old is None or new is None:
        return ()
    facts = list(_others("", old, new, _OF_CIRCUITS))
    ends = [[numbered(same.name(end[0]), "port", " ".join(end[1:])) for end in old.ends]]
    ends.append([numbered(end[0], "port", " ".join(end[1:])) for end in new.ends])
    facts += _texts("from", "", ends[0][:1], ends[1][:1])
    facts += _texts("to", "", sorted(ends[0][1:]), sorted(ends[1][1:]))
    for letter in dict.fromkeys([*old.leads, *new.leads]):
        before, after = old.leads.get(letter), new.leads.get(letter)
        if before is not None and after is not None:
            if new.left_in:  # nothing of it is cut or laid again
                continue
            facts += _others(letter, before, after, ("part", "cut_mm"))
            facts += _texts("route", letter, before.route, after.route)
        else:
            facts.append(Fact("lead", letter, _there(before is not None), _there(after is not None)))
    return tuple(facts)


def figures(old: IssuedFigures, new: IssuedFigures) -> tuple[Fact, ...]:
    """Return which figures are others, as far as pages say them: to hundredths."""
    return tuple(_others("", old, new, _FIGURES, 2))


def _others(of: str, old: object, new: object, names: Iterable[str], decimals: int | None = None) -> Iterator[Fact]:
    """Walk the fields that are others, rounded if asked; one that says nothing is as none."""
    for name in names:
        was, now = (getattr(each, name) or None for each in (old, new))
        if decimals is not None:
            was, now = (None if value is None else round(value, decimals) for value in (was, now))
        if was != now:
            yield Fact(name, of, was, now)


def _texts(what: str, of: str, old: Iterable[str], new: Iterable[str]) -> Iterator[Fact]:
    was, now = (", ".join(each) for each in (old, new))
    if was != now:
        yield Fact(what, of, was or None, now or None)
