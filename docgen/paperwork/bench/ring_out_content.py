"""Take a harness; return what the ring-out sheet holds: readings of leads and paths, and what must not be connected."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.harness.assembly.through_openings import plan_threading, waits_of
from docgen.harness.assembly.unmeasured import Waiting, waiting_leads
from docgen.harness.continuity.isolation import Isolations, isolations
from docgen.harness.continuity.netlist import Point
from docgen.harness.continuity.readings import (
    Chain,
    LeadReadings,
    TailReadings,
    lead_readings,
    mirror_chains,
    path_readings,
    tail_readings,
)
from docgen.harness.model.circuits import numbered
from docgen.harness.model.harness import Harness
from docgen.paperwork.naming import half_names


@frozen
class RingOutContent:
    """All that is rung out, by assembly with disconnects parted, and then with all mated.

    `halves` is what is said of each half after its joint's name, `every_half` where it is always said. A `brief` sheet
    leaves the millivolts out. Of leads that are `unmeasured` none are expected. Plugs and halves `in_place` are filled
    and rung out in the airframe.
    """

    assemblies: tuple[str, ...]
    leads: tuple[LeadReadings, ...]
    tails: tuple[TailReadings, ...]
    mirrors: tuple[tuple[Chain, Chain], ...]
    paths: tuple[LeadReadings, ...]
    isolations: Isolations
    halves: dict[tuple[str, str], str]
    every_half: dict[tuple[str, str], str]
    unmeasured: tuple[Waiting, ...]
    in_place: frozenset[tuple[str, ...]]
    brief: bool = False

    def place(self, point: Point, *, with_half: bool = False) -> str:
        """Name the plug or the joint of a contact; which half of that if asked, or if both are in one assembly."""
        half = (self.every_half if with_half else self.halves).get(point.place)
        return numbered(point.name, "port", point.part) if half is None else point.name + half


def only(items: RingOutContent, names: Collection[str]) -> RingOutContent:
    """Return what of it leads, and commons with their joint, of these names show, disconnects parted."""
    return replace(
        items,
        leads=tuple(lead for lead in items.leads if any(each.name in names for each in lead.leads)),
        tails=tuple(
            tails
            for tails in items.tails
            if tails.readings and f"{tails.readings[0].start.name} {tails.common.name}" in names
        ),
        mirrors=(),
        paths=(),
    )


def content(harness: Harness) -> RingOutContent:
    """Return what there is to ring out."""
    harness = harness.made
    return RingOutContent(
        assemblies=harness.assemblies,
        leads=lead_readings(harness),
        tails=tail_readings(harness),
        mirrors=mirror_chains(harness),
        paths=() if harness.only else path_readings(harness),
        isolations=Isolations((), (), ()) if harness.only else isolations(harness),
        halves=half_names(harness),
        every_half=half_names(harness, always=True),
        unmeasured=waiting_leads(harness),
        in_place=frozenset(key[1:] for key in waits_of(plan_threading(harness))),
    )
