"""Take a harness; return what the order of work holds: samples to pull, and how each assembly is made."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from docgen.basics.frozen import frozen
from docgen.harness.assembly.samples import Sample, samples_of
from docgen.harness.assembly.unmeasured import Waiting, straight_leads, straight_sleeves, waiting_leads
from docgen.harness.assembly.work import AssemblyWork, plan_work
from docgen.harness.continuity.readings import load_chains
from docgen.harness.model.harness import Harness, Labels, Splices
from docgen.harness.model.parts import TubePart
from docgen.paperwork.naming import half_names


@frozen
class WorkContent:
    """Samples to pull first, by gauge, then the work of each assembly; whether whole paths are rung out at the last.

    `strip_mm` is for contacts whose part says nothing; `halves` is what is said of each half after its joint's name;
    leads that go to one of `packs` may be live; those that are `unmeasured` have no length to cut, so it is left blank,
    or one by a straight line.
    """

    samples: tuple[tuple[Sample, ...], ...]
    assemblies: tuple[AssemblyWork, ...]
    has_paths: bool
    labels: Labels
    splices: Splices
    clip_every_mm: float
    strip_mm: float
    halves: dict[tuple[str, str], str]
    packs: frozenset[str]
    tubes: tuple[TubePart, ...]
    heats_c: dict[str, float | None]
    openings: tuple[tuple[float, ...] | None, ...]
    unmeasured: tuple[Waiting, ...]
    straight_sleeves: frozenset[tuple[int, ...]]

    @property
    def straight(self) -> frozenset[str]:
        """Return the leads that are cut by a straight line."""
        known = {made.lead.name for work in self.assemblies for made in work.leads if made.lead.cut_length_mm}
        return frozenset(known & {waiting.lead for waiting in self.unmeasured})


def content(harness: Harness) -> WorkContent:
    """Return the order of work."""
    harness = harness.made
    return WorkContent(
        samples=by_gauge(samples_of(harness)),
        assemblies=plan_work(harness),
        has_paths=not harness.only and any(True for _ in load_chains(harness)),
        labels=harness.labels,
        splices=harness.splices,
        clip_every_mm=harness.clip_every_mm,
        strip_mm=harness.strip_mm,
        halves=half_names(harness),
        packs=frozenset(name for name, equipment in harness.equipment.items() if equipment.kind == "battery"),
        tubes=harness.tubes,
        heats_c={name: place.heat_c for name, place in harness.places.items()},
        openings=tuple(run.hole_mm for run in harness.runs),
        unmeasured=waiting_leads(harness) + straight_leads(harness),
        straight_sleeves=straight_sleeves(harness),
    )


def by_gauge(samples: Sequence[Sample]) -> tuple[tuple[Sample, ...], ...]:
    """Return samples by gauge, the thickest first."""

    def size(sample: Sample) -> tuple[float, str]:
        return -sample.gauge.area_mm2, sample.gauge.text

    return tuple(tuple(group) for _, group in groupby(sorted(samples, key=size), key=size))
