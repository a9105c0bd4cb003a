"""Take the harness, and what of it was done anew; return what is measured of supplies before packs go in again."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from docgen.harness.model.circuits import Circuit
from docgen.harness.model.harness import Harness
from docgen.paperwork.field.fault_content import rest_text
from docgen.paperwork.field.power_content import brought_by, content, passes_on, poles_text
from docgen.paperwork.field.power_parts import Part, Step

_PLUGS = Part(
    "Each pack, out of the aircraft",
    "At its own plug, nothing plugged on it; tips of the meter well apart. 2+ is contact 2, plus.",
    [],
    stop="minus shows: never plug it in. Its plug is put right first, one wire bare at a time.",
)


def before_packs(harness: Harness, circuits: Collection[str], packs: Collection[str]) -> tuple[Part, ...]:
    """Return what is measured as on first power-up of packs that are others, and of supply over circuits done anew."""
    harness = harness.made
    wanted: set[str] = set()
    plugs: list[Step] = []
    brought = brought_by(harness)
    for source, some in brought.items():
        entry = harness.equipment.get(source)
        is_pack = entry is not None and entry.battery is not None
        anew = [
            one
            for one in some
            if one.name in circuits
            and (is_pack or passes_on(harness, one) or any(end.name in brought for end in one.loads))
        ]
        tried = some if source in packs else anew
        wanted |= {f"{what} {source}" for what in ("resistance", "pack", "unit") if tried}
        wanted |= {f"circuit {circuit.name}" for circuit in tried}
        wanted |= {f"unit {end.name}" for circuit in tried for end in circuit.loads if end.name not in brought}
        plugs += _at_plug(harness, tried) if is_pack else ()
    parts = (replace(part, steps=_of(part, wanted)) for part in content(harness).parts)
    return tuple(part for part in (replace(_PLUGS, steps=plugs), *parts) if part.steps)


def _of(part: Part, wanted: Collection[str]) -> list[Step]:
    return [step for step in part.steps if any(of in wanted for of in step.of)]


def _at_plug(harness: Harness, brought: Collection[Circuit]) -> Iterator[Step]:
    """Walk the plugs of a pack: which contact is plus; of one that plugs straight in first power-up says it."""
    for circuit in brought:
        if circuit.start.is_port and circuit.cut_leads:
            says = f"{circuit.start.text} {poles_text(circuit, circuit.start)}"
            volts = rest_text(harness.results.rest[circuit.name])
            yield Step(circuit.start.name, says, volts, reads=True, of=(f"plug {circuit.start.text}",))
