"""Take a harness and an opening; return what goes through it one after the other, finished or not.

The leads that end in one half go through together. Contacts that are soldered sit in their housing and do not go
through without it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.harness.assembly.splices import tail_splices
from docgen.harness.bundling.bundles import laid, lead_circles_mm
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.openings import Size, circle_mm
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import CutLead, End
from docgen.harness.model.harness import Harness

Key = tuple[str, ...]
"""What an end is known by: a port, a half, a splice, or what came along."""

# A contact without its housing is thicker than the largest insulation that it takes: common practice, no source.
_CONTACT_MORE_MM = 1.0


@dataclass(frozen=True)
class Thing:
    """What goes through an opening in one go: leads that end in one plug, half or splice, or one that came along.

    `size_mm` is what it is finished, end on (nothing where it is a splice, made when it is through); `contact_mm` the
    thickest that goes through one by one without the housing, nothing where that can't be; `wires_mm` are its wires.
    One that is not `made` came along: it goes through as it is. `place` is where it is finished, `reached` by a hand.
    """

    key: Key
    name: str
    leads: tuple[str, ...]
    circles_mm: tuple[float, ...]
    wires_mm: tuple[float, ...]
    size_mm: Size | None
    contact_mm: float | None
    place: str
    reached: bool
    made: bool = True

    @property
    def through_mm(self) -> float:
        """Return how thick it is when it goes through finished [mm]."""
        return circle_mm(self.size_mm) if self.size_mm is not None else outside_diameter_mm(self.circles_mm)


def end_key(lead: CutLead, index: int) -> Key:
    """Return what an end of a lead is known by; a lead that divides has one splice."""
    end = lead.ends[index]
    return ("splice", lead.circuit) if end.is_splice else (end.kind, end.name, end.part)


def far_end(route: Route, run: int, goal: str) -> int:
    """Return which end of a lead goes through a run's opening to a place."""
    return int(route.places[route.runs.index(run) + 1] == goal)


def things_through(harness: Harness, run: int, goal: str) -> Iterator[Thing]:
    """Walk what goes through the opening of a run to a place, in the order written, then what came along."""
    groups: dict[Key, list[tuple[CutLead, End]]] = {}
    for lead in harness.cut_leads():
        if run in lead.route.runs:
            index = far_end(lead.route, run, goal)
            groups.setdefault(end_key(lead, index), []).append((lead, lead.ends[index]))
    for key, ends in groups.items():
        yield _made(harness, key, [lead for lead, _ in ends], ends[0][1])
    yield from _came_along(harness, run)


def _made(harness: Harness, key: Key, leads: Sequence[CutLead], end: End) -> Thing:
    """Return leads that end in one plug, half or splice."""
    wires = sorted((wire.kind.diameter_mm for lead in leads for wire in lead.wires), reverse=True)
    contact, contact_mm = end.connector.contact, None
    if not end.is_splice and contact.join != "solder":
        spliced_mm = [_splice_mm(harness, key)] if key[0] == "half" else []
        contact_mm = max([(contact.over_mm or wires[0]) + _CONTACT_MORE_MM, *spliced_mm])
    return Thing(
        key=key,
        name=f"splice of {leads[0].circuit} at {end.place}" if end.is_splice else end.text,
        leads=tuple(lead.name for lead in leads),
        circles_mm=tuple(circle for lead in leads for circle in lead_circles_mm(lead)),
        wires_mm=tuple(wires),
        size_mm=None if end.is_splice else end.connector.outline_mm,
        contact_mm=contact_mm,
        place=end.place,
        reached=bool(harness.places[end.place].access),
    )


def _splice_mm(harness: Harness, key: Key) -> float:
    """Return how thick the splices behind a half are, in their tubes: they go through with its tails [mm]."""
    splices = [s for s in tail_splices(harness) if ("half", s.disconnect.name, s.half.name) == key]
    thick = (
        max(outside_diameter_mm([kind.diameter_mm for kind in side]) for side in splice.sides)
        + (2 * splice.tube.wall_mm if splice.tube is not None else 0.0)
        for splice in splices
    )
    return max(thick, default=0.0)


def _came_along(harness: Harness, run: int) -> Iterator[Thing]:
    """Walk own leads and coaxes that lie in a run: own leads go through with their plug, coaxes as they are."""
    plugs: dict[str, tuple[str, End]] = {}
    for lead in harness.leads():
        for index in lead.plugs_at if not isinstance(lead, CutLead) else ():
            plugs[lead.name] = lead.label, lead.ends[index]
        plugs |= {f"{end.name}'s own lead": (f"{end.name}'s own lead", end) for end in lead.ends if end.own is not None}
    cut = {lead.name for lead in harness.cut_leads()}
    for item in laid(harness.circuits.values(), harness.equipment):
        if run in item.runs and item.name not in cut:
            name, plug = plugs.get(item.name, (item.name, None))
            size = plug.connector.outline_mm if plug is not None else (outside_diameter_mm(item.circles_mm),)
            yield Thing(("own", item.name), name, (item.name,), item.circles_mm, (), size, None, "", True, made=False)
