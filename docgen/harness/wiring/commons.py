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
    definition: Definition, disconnect: str, name: str, arriving: Arriving, finder: FeedFinder, contact: ContactPart
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
    heaviest = max((wire for _, wire in wires), key=lambda wire: wire.kind.gauge.area_mm2)
    fitting = [kind for kind in definition.parts.wires.values() if contact.fits(kind)]
    kind = _tail(heaviest.kind, fitting, contact, definition.places[half.place].heat_c)
    tails = tuple(Tail(heaviest.role, kind, heaviest.colour, number) for number in contacts)
    return Behind(half, wires, tails, tail_length_mm(tail_mm, contact.strip_mm, definition))


def _tail(heaviest: WirePart, fitting: Sequence[WirePart], contact: ContactPart, heat_c: float | None) -> WirePart:
    """Return what tails are made of, whose colour is that of the heaviest arriving wire too.

    That wire if the contact takes it; else the heaviest of the parts list with the same limit that it takes, else the
    heaviest that it takes at all. Where that does not stand the heat at the half, the next as heavy or heavier that
    does, else the heaviest that does. That heat is what they are judged and derated by; their resistance is at 20 °C.
    """
    chosen = heaviest
    if not contact.fits(heaviest):
        alike = [kind for kind in fitting if kind.limit_c == heaviest.limit_c]
        chosen = max(alike or fitting, key=_area_mm2, default=heaviest)
    if chosen.stands(heat_c):
        return chosen
    standing = [kind for kind in fitting if kind.stands(heat_c)]
    as_heavy = [kind for kind in standing if _area_mm2(kind) >= _area_mm2(chosen) * (1 - _CLOSE)]
    return min(as_heavy, key=_area_mm2) if as_heavy else max(standing, key=_area_mm2, default=chosen)


def _area_mm2(kind: WirePart) -> float:
    return kind.gauge.area_mm2
