"""Build commons: which wires are spliced behind each half, and the tails that go on to the contacts."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.basics.gauges import takes_gauge
from docgen.definition.model import Definition
from docgen.harness.connectors import connector_of, wire_kind
from docgen.harness.feeds import FeedFinder
from docgen.harness.kinds import ContactKind, WireKind
from docgen.harness.lengths import allowances_of, tail_length_mm
from docgen.harness.model import Behind, Common
from docgen.harness.wiring import End, Lead, Wire

Arriving = tuple[list[tuple[Lead, Wire, End]], list[tuple[Lead, Wire, End]]]
"""The wires that arrive at each half of a disconnect, each with its lead and that end of it."""


def build_common(definition: Definition, disconnect: str, name: str, arriving: Arriving, finder: FeedFinder) -> Common:
    """Return a common as built."""
    form = definition.disconnects[disconnect].commons[name]
    contact = connector_of(definition.parts, definition.disconnects[disconnect].shell).contact
    halves = []
    for index in (0, 1):
        wires = tuple((lead, wire) for lead, wire, end in arriving[index] if end.commons.get(wire.role) == name)
        halves.append(_behind(definition, wires, tuple(form.contacts), form.tail, contact))
    return Common(
        name=name,
        role=form.role,
        contacts=tuple(form.contacts),
        circuits=tuple(form.circuits),
        feeders=tuple(plan.name for plan, _ in finder.feeders(disconnect, name)),
        sources=tuple(dict.fromkeys(source for _, source in finder.sources(disconnect, name))),
        halves=(halves[0], halves[1]),
        note=form.note,
        said=definition.where.said(name, "disconnects", disconnect, "commons", name, "contacts"),
    )


def _behind(
    definition: Definition,
    wires: tuple[tuple[Lead, Wire], ...],
    contacts: tuple[str, ...],
    tail_mm: float,
    contact: ContactKind,
) -> Behind:
    if not wires or (len(wires) == 1 and len(contacts) == 1):
        return Behind(wires, (), None)
    kind, colour = tail_of(definition, [wire for _, wire in wires], contact)
    tails = tuple(Wire(wires[0][1].role, kind, colour, "", ((), (number,))) for number in contacts)
    return Behind(wires, tails, tail_length_mm(tail_mm, contact.strip_mm, allowances_of(definition)))


def tail_of(definition: Definition, wires: Sequence[Wire], contact: ContactKind) -> tuple[WireKind, str]:
    """Return what tails are made of, and their colour.

    The heaviest arriving wire that the contact takes; where it takes none, the heaviest wire of the parts list that
    it takes, in the colour of the heaviest arriving one.
    """
    taken = [wire for wire in wires if takes(contact, wire.kind)]
    heaviest = max(taken or wires, key=lambda wire: wire.kind.gauge.area_mm2)
    if taken:
        return heaviest.kind, heaviest.colour
    kinds = [wire_kind(definition.parts, name) for name in definition.parts.wires]
    fitting = [kind for kind in kinds if takes(contact, kind)]
    return max(fitting, key=lambda kind: kind.gauge.area_mm2, default=heaviest.kind), heaviest.colour


def takes(contact: ContactKind, kind: WireKind) -> bool:
    """Tell whether a crimp contact takes a wire, by its gauges and its largest insulation."""
    fits = contact.over_mm is None or kind.diameter_mm <= contact.over_mm
    return fits and (contact.takes is None or takes_gauge(contact.takes, kind.gauge))
