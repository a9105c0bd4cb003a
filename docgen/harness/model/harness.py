"""The harness as built: what is made of which parts, how long, and what goes where. Values only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property
from typing import NamedTuple

from docgen.basics.findings import Finding
from docgen.basics.frozen import frozen
from docgen.definition.aircraft import Aircraft, Flight
from docgen.definition.defaults import Labels, Splices
from docgen.definition.equipment import Output
from docgen.definition.stores import Spool
from docgen.harness.model.airframe import Place, Route, Run, hottest_c
from docgen.harness.model.bundles import AssemblyMass, Bundle
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.joints import Behind, Common, Disconnect, Half
from docgen.harness.model.limits import Limits
from docgen.harness.model.losses import Losses
from docgen.harness.model.parts import SleevePart, TubePart, WirePart
from docgen.harness.model.results import Results

__all__ = ["Flight", "Labels", "Output", "Splices"]  # documents show them too


class Wired(NamedTuple):
    """Some circuits, with equipment and disconnects as if there were no others."""

    circuits: dict[str, Circuit]
    equipment: dict[str, Equipment]
    disconnects: dict[str, Disconnect]


@frozen
class Harness:
    """Everything that documents show.

    Circuits that are `left_in` are dead, and none of its `circuits`; `bench` is what is made, where some of it is dead
    or only planned. `only` names an assembly where nothing else is shown.
    """

    aircraft: Aircraft
    flight: Flight | None
    places: dict[str, Place]
    runs: tuple[Run, ...]
    equipment: dict[str, Equipment]
    disconnects: dict[str, Disconnect]
    circuits: dict[str, Circuit]
    left_in: dict[str, Circuit]
    bench: Wired | None
    tubes: tuple[TubePart, ...]
    sleeves: tuple[SleevePart, ...]
    wires: tuple[WirePart, ...]
    labels: Labels
    splices: Splices
    limits: Limits
    spools: tuple[Spool, ...]
    shelf_tubes: tuple[str, ...]
    offcut_mm: float
    clip_every_mm: float
    round_up_to_mm: float
    strip_mm: float
    bundles: tuple[Bundle, ...]
    balance: tuple[AssemblyMass, ...]
    losses: Losses
    results: Results
    findings: tuple[Finding, ...]
    acceptances: dict[tuple[str, str], dict[str, str]]
    only: str = ""

    @property
    def every_circuit(self) -> dict[str, Circuit]:
        """Return all circuits, dead ones last."""
        return self.circuits | self.left_in

    @cached_property
    def made(self) -> Harness:
        """Return it without what is only planned, and without what is dead: what is cut, labelled and rung out."""
        if self.bench is None:
            return self
        made = replace(self, **self.bench._asdict(), left_in={}, bench=None)
        return made.of_assembly(self.only) if self.only else made

    def of_assembly(self, name: str) -> Harness:
        """Return it with what belongs to one assembly alone in all that is walked; circuits stay whole."""
        bundles = tuple(
            bundle
            if self.places[self.runs[bundle.run].between[0]].assembly == name
            else replace(bundle, leads=(), sleeve=None)
            for bundle in self.bundles
        )
        return replace(self, only=name, bundles=bundles)

    def has_here(self, place: str) -> bool:
        """Tell whether a place is in the assembly that is shown."""
        return self.only in ("", self.places[place].assembly)

    def leads(self) -> Iterator[Lead]:
        """Walk all leads in the order written."""
        for circuit in self.circuits.values():
            yield from (lead for lead in circuit.leads if self.only in ("", lead.assembly))

    def cut_leads(self) -> Iterator[CutLead]:
        """Walk the leads that are cut, in the order written."""
        for circuit in self.circuits.values():
            yield from (lead for lead in circuit.cut_leads if self.only in ("", lead.assembly))

    def halves(self) -> Iterator[tuple[Disconnect, Half]]:
        """Walk the halves of disconnects."""
        for disconnect in self.disconnects.values():
            yield from ((disconnect, half) for half in disconnect.halves if self.has_here(half.place))

    def hottest_c(self, route: Route) -> float | None:
        """Return the heat of the hottest run or place on a route [°C], or nothing where none is given."""
        return hottest_c(self.places, self.runs, route)

    def has_tails(self, end: End, role: str) -> bool:
        """Tell whether a wire of a role ends at a common from which tails go on."""
        return role in end.commons and self.disconnects[end.name].has_tails(end, role)

    def behind_commons(self) -> Iterator[tuple[Disconnect, Common, Behind]]:
        """Walk what is behind each half of each common."""
        for disconnect in self.disconnects.values():
            for common in disconnect.commons.values():
                for behind in common.halves:
                    if self.has_here(behind.half.place):
                        yield disconnect, common, behind

    @property
    def assemblies(self) -> tuple[str, ...]:
        """Return the assemblies in the order in which places name them."""
        return tuple(dict.fromkeys(place.assembly for name, place in self.places.items() if self.has_here(name)))
