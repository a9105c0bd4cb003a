"""Take the harness; return the part of first power-up in which gear is timed, with the doors that move with legs."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.units import decimal
from docgen.harness.checks.gear_limit import suggested_limit_s
from docgen.harness.losses.ways import PASSING
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Harness
from docgen.paperwork.field.power_parts import Part, Step

LEGS = "Hands clear of legs and doors"


def gear(harness: Harness) -> Part:
    """Return the part: doors with their legs, then each leg's strokes, limit and stop."""
    steps = list(_doors(harness))
    for entry in harness.equipment.values():
        if entry.kind == "gear leg":
            steps += _leg(entry)
    return Part(
        "Gear, timed",
        "On stands, legs free to move, with all that they carry; packs as low as they will be.",
        steps,
        caution=f"{LEGS}; a jam only by a block, never by hand.",
    )


def _leg(entry: Equipment) -> Iterator[Step]:
    said = entry.form.gear
    strokes = [stroke for stroke in (said.up_s, said.down_s) if stroke is not None] if said is not None else []
    should = " ".join(f"{decimal(stroke)} s" for stroke in strokes)
    yield Step(entry.name, "up, then down, timed", should, reads=True, of=(f"stroke {entry.name}",))
    suggested = f"suggested {suggested_limit_s(max(strokes))} s" if strokes else ""
    set_to = f"set {decimal(said.limit_s)} s" if said is not None and said.limit_s is not None else ""
    yield Step("limit", ", ".join(filter(None, (suggested, set_to))))
    stop = said.stop_a if said is not None else None
    if stop is not None:
        yield Step("jam", "held by a block of wood: the controller stops it", f"{decimal(stop)} A", reads=True)


def _doors(harness: Harness) -> Iterator[Step]:
    """Walk what is tried of doors before linkages go on: what their servos' arms do."""
    if labels := doors(harness):
        yield Step("doors", f"arms of {', '.join(labels)}: each at open before its leg moves")
        yield Step("half way", "gear switch thrown back; then a leg blocked: no arm shuts")


def doors(harness: Harness) -> list[str]:
    """Return the labels of doors: servos that an input of a controller works together with legs."""
    kinds = {name: entry.kind for name, entry in harness.equipment.items()}
    found: dict[str, None] = {}
    for entry in harness.equipment.values():
        for outlets in entry.form.drives.values() or [[]] if entry.kind not in PASSING else ():
            worked = _worked(harness, entry, outlets)
            if any(kinds[name] == "gear leg" for name in worked):
                found |= dict.fromkeys(name for name in worked if kinds[name] == "servo")
    return harness.losses.labels(tuple(found))


def _worked(harness: Harness, entry: Equipment, outlets: list[str]) -> dict[str, None]:
    """Return all that outlets of equipment work, by further units too; where none are named, all its outlets."""
    found: dict[str, None] = {}
    left = [(entry, outlets)]
    while left:
        unit, some = left.pop()
        at = dict.fromkeys(port.circuit.name for port in unit.ports if port.circuit is not None)
        begun = (
            one for one in map(harness.circuits.__getitem__, at) if one.start.is_port and one.start.name == unit.name
        )
        for end in (end for one in begun if not some or one.start.part in some for end in one.loads if end.is_port):
            load = harness.equipment[end.name]
            if load.name not in found and load.kind not in PASSING:
                found[load.name] = None
                left.append((load, load.form.drives.get(end.part, [])))
    return found
