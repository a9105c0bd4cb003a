"""Say what is done and looked for with packs in: first power-up, and the fault finder, as the record has them."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.harness.model.harness import Harness
from docgen.paperwork.field import fault_content, power_content
from docgen.paperwork.field.fault_content import Alone, Fault, FaultContent
from docgen.paperwork.field.power_parts import Part
from docgen.paperwork.record.lines import Lines, named


def parts(harness: Harness) -> Iterator[tuple[int, Part]]:
    """Walk the parts of first power-up with their numbers."""
    return enumerate(power_content.content(harness).parts, 1)


def add_part(lines: Lines, _: Harness, numbered: tuple[int, Part]) -> None:
    """Add a part of first power-up: what holds for all its steps, each step, and when to stop."""
    number, part = numbered
    lines.add(f"{number} {part.title}: {part.says}".rstrip(": "))
    lines.add(named("caution:", part.caution), depth=1)
    for step in part.steps:
        lines.add(step.name, step.does, named("should read", step.should), ", ".join(step.boxes), depth=1)
    lines.add(named("stop if", part.stop), depth=1)


def found(harness: Harness) -> FaultContent:
    """Return what the fault finder holds."""
    return fault_content.content(harness)


def add_fault(lines: Lines, _: Harness, numbered: tuple[int, Fault]) -> None:
    """Add where one loss is tested and what is seen there."""
    number, fault = numbered
    lines.add(f"{number} {fault.name}", fault.cover, fault.contacts, fault.reads)


def add_alone(lines: Lines, _: Harness, one: Alone) -> None:
    """Add where a function alone is tested, from the cover that is quickest to open."""
    lines.add(f"{one.label} alone: {'; '.join(f'{stop.cover}: {stop.says}' for stop in one.stops)}")
