"""Build commons: which wires are spliced behind each half, and the tails that go on to the contacts."""

from __future__ import annotations

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
    heaviest = max((wire for _, wire in wires), key=lambda wire: wire.kind.gauge.area_mm2)
    kind = _tail_kind(definition, heaviest.kind, contact)
    tails = tuple(Wire(heaviest.role, kind, heaviest.colour, "", ((), (number,))) for number in contacts)
    return Behind(wires, tails, tail_length_mm(tail_mm, contact.strip_mm, allowances_of(definition)))


def _tail_kind(definition: Definition, heaviest: WireKind, contact: ContactKind) -> WireKind:
    """Return the heaviest arriving wire if the contact takes it, else the heaviest of the parts list that it takes."""
    if takes(contact, heaviest):
        return heaviest
    kinds = [wire_kind(definition.parts, name) for name in definition.parts.wires]
    taken = [kind for kind in kinds if takes(contact, kind)]
    return max(taken, key=lambda kind: kind.gauge.area_mm2, default=heaviest)


def takes(contact: ContactKind, kind: WireKind) -> bool:
    """Tell whether a crimp contact takes a wire, by its gauges and its largest insulation."""
    fits = contact.over_mm is None or kind.diameter_mm <= contact.over_mm
    return fits and (contact.takes is None or takes_gauge(contact.takes, kind.gauge))
