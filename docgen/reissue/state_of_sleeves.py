"""Take the sleeves of a harness; return them as they stand in the state of the aircraft."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from functools import cached_property, partial

from docgen.basics.frozen import frozen
from docgen.basics.units import added
from docgen.definition.identity import Same
from docgen.definition.issued import IssuedSleeve, State
from docgen.definition.kept import NOTHING_ISSUED
from docgen.harness.bundling.bundles import heat_of_run_c
from docgen.harness.bundling.sleeves import fitting_sleeves, sleeves_of
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import CutLead, Lead
from docgen.harness.model.harness import Harness
from docgen.reissue.state_of_leads import figure


def named_sleeves(harness: Harness) -> dict[str, Sleeve]:
    """Return sleeves by the places at their ends; of several between the same two by a number too."""
    sleeves: dict[str, Sleeve] = {}
    for sleeve in sleeves_of(harness.bundles):
        name = " to ".join(sleeve.ends)
        more = sum(key.split(" #")[0] == name for key in sleeves)
        sleeves[f"{name} #{more + 1}" if more else name] = sleeve
    return sleeves


def issued_sleeves(
    harness: Harness, last: State | None = None, same: Same = NOTHING_ISSUED.same
) -> dict[str, IssuedSleeve]:
    """Return sleeves by their names; leads that were not in the last state, or went another way, are cut now."""
    laid = _Laid(harness, frozenset(_anew(harness, last, same)) if last else frozenset())
    return {
        name: IssuedSleeve(
            kind=sleeve.kind.name,
            splits=sleeve.kind.splits,
            run_mm=figure(added(harness.runs[run].length_mm for run in sleeve.runs)),
            cut_mm=figure(sleeve.cut_length_mm),
            leads=next(bundle.leads for bundle in harness.bundles if bundle.sleeve == sleeve),
            would_do=tuple(_would_do(harness, sleeve)),
            slides_from=min(sleeve.ends, key=partial(laid.cost, sleeve)),
            least_mm=None if sleeve.covered_mm is None else figure(sleeve.covered_mm / (1 - sleeve.shortening)),
        )
        for name, sleeve in named_sleeves(harness).items()
    }


def _anew(harness: Harness, last: State, same: Same) -> Iterator[str]:
    there = {
        f"{same.circuit(name)} {letter}": lead.route
        for name, circuit in last.circuits.items()
        if not circuit.planned
        for letter, lead in circuit.leads.items()
    }
    for lead in harness.cut_leads():
        if there.get(lead.name) != lead.route.places:
            yield lead.name


def _would_do(harness: Harness, sleeve: Sleeve) -> Iterator[str]:
    """Walk the other kinds that fit and stand the heat, where the builder chose none."""
    if harness.runs[sleeve.runs[0]].sleeve is None:
        heats_c = [heat_of_run_c(harness.places, harness.runs, run) for run in sleeve.runs]
        hottest_c = max((heat_c for heat_c in heats_c if heat_c is not None), default=None)
        for kind in fitting_sleeves(sleeve.diameter_mm, hottest_c, harness.sleeves):
            if kind != sleeve.kind:
                yield kind.name


@frozen
class _Laid:
    """A harness as it lies: what has to be passed where a sleeve slides on; `anew` are leads that are cut now."""

    harness: Harness
    anew: frozenset[str]

    @cached_property
    def leads_in(self) -> dict[int, list[Lead]]:
        """Return the leads that lie in each run, they or their own leads, those that are dead too."""
        found: dict[int, dict[str, Lead]] = defaultdict(dict)
        for lead in (lead for circuit in self.harness.every_circuit.values() for lead in circuit.leads):
            routes = [lead.route, *(lead.route_of(end.own) for end in lead.ends if end.own is not None)]
            for run in (run for route in routes for run in route.runs):
                found[run][lead.name] = lead
        return {run: list(leads.values()) for run, leads in found.items()}

    @cached_property
    def sleeved(self) -> frozenset[int]:
        """Return the runs with sleeves that slide."""
        sleeves = sleeves_of(self.harness.bundles)
        return frozenset(run for sleeve in sleeves if not sleeve.kind.splits for run in sleeve.runs)

    @cached_property
    def ending(self) -> Counter[str]:
        """Return how many leads end at each place."""
        return Counter(end.place for lead in self.harness.cut_leads() for end in lead.ends)

    def cost(self, sleeve: Sleeve, start: str) -> tuple[float, ...]:
        """Return how bad it is to slide a sleeve on from one of its ends, over the ends of all that lies in it.

        Worst is equipment on its own lead, then where no hand reaches, then a splice that is cut for it, then another
        sleeve on the way; then it is the way [mm] to those ends, then how many leads end there. Leads that are cut now
        have free ends anyhow. Common practice, no source.
        """
        leads, runs = self.leads_in.get(sleeve.runs[0], []), self.harness.runs
        there = (lead for lead in leads if lead.name not in self.anew)
        beyond = [way for lead in there if (way := _beyond(lead, sleeve, start)) is not None]
        return (
            sum(_hangs(lead, sleeve, start) for lead in leads),
            sum(any(runs[run].closed for run in some) for _, some in beyond),
            sum(is_spliced for is_spliced, _ in beyond),
            sum(not self.sleeved.isdisjoint(some) for _, some in beyond),
            sum(runs[run].length_mm or 0.0 for _, some in beyond for run in some),
            self.ending[start],
        )


def _beyond(lead: Lead, sleeve: Sleeve, start: str) -> tuple[bool, Sequence[int]] | None:
    """Return, of a cut lead in a sleeve, whether it is spliced at the end beyond `start`, and the runs to there."""
    if not isinstance(lead, CutLead) or sleeve.runs[0] not in lead.route.runs:
        return None
    index, at = _side(lead.route.places, sleeve, start)
    end, runs = lead.ends[index], lead.route.runs
    return bool(end.is_splice or end.commons), runs[at:] if index else runs[:at]


def _side(places: Sequence[str], sleeve: Sleeve, start: str) -> tuple[int, int]:
    """Return on which end of a way a sleeve slides from `start`, and how far along the way that is."""
    at, other = (places.index(place) for place in sorted(sleeve.ends, key=lambda place: place != start))
    return int(at > other), at


def _hangs(lead: Lead, sleeve: Sleeve, start: str) -> bool:
    """Tell whether own leads of a lead lie in a sleeve and their equipment hangs on them beyond `start`."""
    for index, end in enumerate(lead.ends):
        if end.own is not None:
            route = lead.route_of(end.own)
            hung = 0 if isinstance(lead, CutLead) else index
            if sleeve.runs[0] in route.runs and _side(route.places, sleeve, start)[0] == hung:
                return True
    return False
