"""Take the wires that arrive at a joint; return its commons: what is spliced behind each half, and the tails."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.definition.model import Definition
from docgen.harness.model.circuits import End, Lead, Wire
from docgen.harness.model.joints import Behind, Common, Half, Tail
from docgen.harness.model.parts import ContactPart, WirePart
from docgen.harness.wiring.feeds import FeedFinder
from docgen.harness.wiring.lengths import tail_length_mm

_CLOSE = 1e-9

Arriving = dict[Half, list[tuple[Lead, Wire, End]]]
"""The wires that arrive at each half of a disconnect, each with its lead and that end of it."""


def build_common(
    definition: Definition,
    disconnect: str,
    name: str,
    arriving: Arriving,
    finder: FeedFinder,
    contact: ContactPart,
) -> Common:
    """Return a common as built, between the two halves of its joint."""
    form = definition.disconnects[disconnect].commons[name]
    halves = []
    for half, some in arriving.items():
        wires = tuple((lead, wire) for lead, wire, end in some if end.commons.get(wire.role) == name)
        halves.append(behind_half(definition, half, wires, tuple(form.contacts), form.tail, contact))
    return Common(
        name=name,
        form=form,
        role=form.role,
        contacts=tuple(form.contacts),
        circuits=tuple(form.circuits),
        feeders=tuple(plan.name for plan, _ in finder.feeders(disconnect, name)),
        sources=tuple(dict.fromkeys(source for _, source in finder.sources(disconnect, name))),
        halves=(halves[0], halves[1]),
    )


def behind_half(
    definition: Definition,
    half: Half,
    wires: tuple[tuple[Lead, Wire], ...],
    contacts: tuple[str, ...],
    tail_mm: float,
    contact: ContactPart,
) -> Behind:
    """Return what is behind one half of a common: the wires that arrive, and tails to its contacts."""
    if not wires or (len(wires) == 1 and len(contacts) == 1):
        return Behind(half, wires, (), 0.0)
    heat_c = definition.places[half.place].heat_c
    kind, colour = _tail(definition, [wire for _, wire in wires], contact, heat_c)
    tails = tuple(Tail(wires[0][1].role, kind, colour, number) for number in contacts)
    return Behind(half, wires, tails, tail_length_mm(tail_mm, contact.strip_mm, definition.allowances))


def _tail(
    definition: Definition, wires: Sequence[Wire], contact: ContactPart, heat_c: float | None
) -> tuple[WirePart, str]:
    """Return what tails are made of, and their colour, which is that of the heaviest arriving wire.

    That wire if the contact takes it; else the heaviest of the parts list with the same limit that it takes, else the
    heaviest that it takes at all. Where that does not stand the heat at the half, the next as heavy or heavier that
    does, else the heaviest that does. That heat is what they are judged and derated by; their resistance is at 20 °C.
    """
    heaviest = max(wires, key=lambda wire: wire.kind.gauge.area_mm2)
    kinds = list(definition.parts.wires.values())
    fitting = [kind for kind in kinds if contact.fits(kind)]
    alike = [kind for kind in fitting if kind.limit_c == heaviest.kind.limit_c]
    chosen = heaviest.kind
    if not contact.fits(chosen):
        chosen = max(alike or fitting, key=lambda kind: kind.gauge.area_mm2, default=chosen)
    if chosen.stands(heat_c):
        return chosen, heaviest.colour
    standing = [kind for kind in fitting if kind.stands(heat_c)]
    as_heavy = [kind for kind in standing if kind.gauge.area_mm2 >= chosen.gauge.area_mm2 * (1 - _CLOSE)]
    if as_heavy:
        return min(as_heavy, key=lambda kind: kind.gauge.area_mm2), heaviest.colour
    return max(standing, key=lambda kind: kind.gauge.area_mm2, default=chosen), heaviest.colour
