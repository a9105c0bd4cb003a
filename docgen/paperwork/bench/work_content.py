"""Take a harness; return what the order of work holds: samples to pull, and how each assembly is made."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.harness.assembly.samples import Sample, samples_of
from docgen.harness.assembly.work import AssemblyWork, plan_work
from docgen.harness.continuity.readings import load_chains
from docgen.harness.model.harness import Harness, Labels
from docgen.paperwork.naming import half_names


@dataclass(frozen=True)
class WorkContent:
    """Samples to pull first, then the work of each assembly; whether whole paths are rung out at the last.

    `strip_mm` is for contacts whose part says nothing; `halves` is what is said of each half after its joint's name.
    """

    samples: tuple[Sample, ...]
    assemblies: tuple[AssemblyWork, ...]
    has_paths: bool
    labels: Labels
    clip_every_mm: float
    strip_mm: float
    halves: dict[tuple[str, str], str]


def content(harness: Harness) -> WorkContent:
    """Return the order of work."""
    return WorkContent(
        samples=samples_of(harness),
        assemblies=plan_work(harness),
        has_paths=any(True for _ in load_chains(harness)),
        labels=harness.labels,
        clip_every_mm=harness.clip_every_mm,
        strip_mm=harness.strip_mm,
        halves=half_names(harness),
    )
