"""Take leads and tails of a harness; return them as they stand in the state of the aircraft."""

from __future__ import annotations

from docgen.basics.units import decimal
from docgen.definition.issued import IssuedEnd, IssuedLead, IssuedTail, IssuedWire
from docgen.harness.model.circuits import CutLead, End, Lead
from docgen.harness.model.joints import Disconnect, Half
from docgen.harness.model.parts import Connector

DECIMALS = 4


def figure(value: float | None) -> float | None:
    """Return a figure as it is kept."""
    return None if value is None else round(value, DECIMALS)


def issued_lead(lead: Lead) -> IssuedLead:
    """Return a lead, its ends and its wires."""
    wires = {}
    for wire in lead.wires:
        start, goal = (end.contacts.get(wire.role, ()) for end in lead.ends)
        gauge = wire.kind.gauge.text
        wires[wire.role] = IssuedWire(
            mark=wire.mark, colour=wire.colour, gauge=gauge, wire=wire.kind.name, at=(start, goal)
        )
    start_end, goal_end = map(_end, lead.ends)
    return IssuedLead(
        part=lead.part.name if isinstance(lead, CutLead) else "",
        bought=isinstance(lead, CutLead) and lead.part.bought is not None,
        cut_mm=figure(lead.cut_length_mm) if isinstance(lead, CutLead) else None,
        route=lead.route.places,
        ends=(start_end, goal_end),
        wires=wires,
    )


def _end(end: End) -> IssuedEnd:
    return IssuedEnd(
        kind=end.kind,
        name=end.name,
        part=end.part,
        place=end.place,
        plug="" if end.is_splice else end.connector.name,
        gender=end.gender,
        housing="" if end.is_splice else _housing(end.connector),
        join="" if end.is_splice else end.connector.contact.join,
        own_mm=figure(end.own.length_mm) if end.own else None,
        own_wire=end.own.kind.name if end.own and end.own.kind else "",
    )


def _housing(connector: Connector) -> str:
    """Say what a housing and its contacts are like: two that say the same take each other's crimped contacts."""
    contact, (wide, high) = connector.contact, connector.outline_mm
    takes = "–".join(gauge.text for gauge in contact.takes or ())
    said = [f"{len(connector.contacts)} of {decimal(wide)} × {decimal(high)} mm", takes, contact.join]
    said += [decimal(size) for size in (contact.strip_mm, contact.over_mm, contact.rating_a) if size is not None]
    return " ".join(filter(None, said))


def issued_tails(joint: Disconnect, half: Half) -> dict[str, IssuedTail]:
    """Return the tails behind a half by their contacts."""
    behind = [(common.name, common.behind(half)) for common in joint.commons.values()]
    return {
        tail.contact: IssuedTail(
            common=name,
            cut_mm=round(at.tail_mm, DECIMALS),
            colour=tail.colour,
            gauge=tail.kind.gauge.text,
            wire=tail.kind.name,
        )
        for name, at in behind
        for tail in at.tails
    }
