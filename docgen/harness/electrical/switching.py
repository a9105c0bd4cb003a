"""In which order things are switched: what feeds motors comes on last and goes off first."""

from __future__ import annotations

from docgen.harness.model.circuits import End
from docgen.harness.model.harness import Equipment, Harness

_MOTORS = ("speed controller", "motor", "engine unit")


def order_of_switching_on(harness: Harness) -> list[Equipment]:
    """Return all equipment as written, but what feeds motors last; off is the reverse of it.

    What feeds a receiver too comes with the others: without it nothing steers.
    """
    below = _fed(harness)
    last = {name for name in harness.equipment if _drives_alone(harness, name, below)}
    last |= {
        key for key in harness.equipment if harness.equipment[key].kind == "key" and _switched(harness, key) & last
    }
    return sorted(harness.equipment.values(), key=lambda entry: entry.name in last)


def _drives_alone(harness: Harness, name: str, below: dict[str, set[str]]) -> bool:
    """Tell whether equipment is or feeds a motor, a speed controller or an engine unit, and feeds no receiver."""
    found, left = {name}, [name]
    while left:
        new = below.get(left.pop(), set()) - found
        found |= new
        left += new
    kinds = {harness.equipment[each].kind for each in found if each in harness.equipment}
    return not kinds.isdisjoint(_MOTORS) and "receiver" not in kinds


def _fed(harness: Harness) -> dict[str, set[str]]:
    """Return for each piece of equipment, and each disconnect whose commons pass supply on, what it feeds next."""
    below: dict[str, set[str]] = {}
    for circuit in harness.circuits.values():
        if circuit.carries_supply:
            taking = {end.name for end in circuit.loads if _takes_supply(harness, end)}
            below.setdefault(circuit.start.name, set()).update(taking)
    return below


def _takes_supply(harness: Harness, end: End) -> bool:
    entry = harness.equipment.get(end.name)
    return entry is None or not entry.fed_by or end.part in entry.fed_by


def _switched(harness: Harness, key: str) -> set[str]:
    """Return what a key switches: the equipment at the other ends of its circuits."""
    ends = [{circuit.start.name, *(end.name for end in circuit.loads)} for circuit in harness.circuits.values()]
    return set().union(*(names for names in ends if key in names)) - {key}
