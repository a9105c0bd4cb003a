"""Take a harness; return what the order of work holds: samples to pull, and how each lead of each assembly is made."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.harness.assembly.bill_of_materials import collar_of
from docgen.harness.assembly.samples import Sample, samples_of
from docgen.harness.assembly.splices import BranchSplice, TailSplice, branch_splices, crimped_wires, tail_splices
from docgen.harness.assembly.work import AssemblyPlan, LeadWork, SleeveWork, plan_work
from docgen.harness.continuity.readings import load_chains
from docgen.harness.model.circuits import CutLead, End, Wire
from docgen.harness.model.harness import Harness, Labels
from docgen.harness.model.joints import Behind, Common, Disconnect
from docgen.harness.model.parts import Connector
from docgen.paperwork.naming import which_half


@dataclass(frozen=True)
class LeadEnd:
    """One end of a lead: which of its wires are crimped into contacts there, and which are spliced to tails.

    `half` says which half of a joint it is, after its name, where both are in one assembly.
    """

    end: End
    half: str
    crimped: tuple[Wire, ...]
    spliced: tuple[Wire, ...]
    strip_mm: float


@dataclass(frozen=True)
class MadeLead:
    """How one lead is made: its ends in the order in which they are crimped, or the sleeves that both have to wait for.

    The first end's label goes on before that end is crimped, unless it waits or labels are fitted after.
    """

    lead: CutLead
    first: LeadEnd
    second: LeadEnd
    after: tuple[str, ...]
    labelled_first: bool

    @property
    def twisted(self) -> bool:
        """Tell whether its wires are twisted here: they have a lay and did not come so."""
        part = self.lead.part
        return part.lay_mm is not None and len(part.wires) > 1 and not part.bought

    @property
    def last_labels(self) -> tuple[LeadEnd, ...]:
        """Return the ends whose labels go on after the sleeves; a splice has none."""
        ends = (self.second,) if self.labelled_first else (self.first, self.second)
        return tuple(end for end in ends if not end.end.is_splice)


@dataclass(frozen=True)
class MadeTails:
    """The tails of a common behind one half, which are crimped and filled with the first ends."""

    disconnect: Disconnect
    common: Common
    behind: Behind
    strip_mm: float


@dataclass(frozen=True)
class FittedSleeve:
    """A sleeve, and the tube of its collars, if one of the parts list does."""

    work: SleeveWork
    collar: str | None


@dataclass(frozen=True)
class AssemblyWork:
    """All that is made for one assembly; every splice is made last."""

    assembly: str
    leads: tuple[MadeLead, ...]
    tails: tuple[MadeTails, ...]
    sleeves: tuple[FittedSleeve, ...]
    branch_splices: tuple[BranchSplice, ...]
    tail_splices: tuple[TailSplice, ...]


@dataclass(frozen=True)
class WorkContent:
    """Samples to pull first, then the work of each assembly; whether whole paths are rung out at the last."""

    samples: tuple[Sample, ...]
    assemblies: tuple[AssemblyWork, ...]
    has_paths: bool
    labels: Labels
    clip_every_mm: float


def content(harness: Harness) -> WorkContent:
    """Return the order of work."""
    return WorkContent(
        samples=samples_of(harness),
        assemblies=tuple(_assembly(harness, plan) for plan in plan_work(harness)),
        has_paths=any(True for _ in load_chains(harness)),
        labels=harness.labels,
        clip_every_mm=harness.clip_every_mm,
    )


def _assembly(harness: Harness, plan: AssemblyPlan) -> AssemblyWork:
    def is_here(place: str) -> bool:
        return harness.places[place].assembly == plan.assembly

    return AssemblyWork(
        assembly=plan.assembly,
        leads=tuple(_lead(harness, work) for work in plan.leads),
        tails=tuple(
            MadeTails(disconnect, common, behind, _strip_mm(harness, disconnect.shell))
            for disconnect, common, behind in harness.behind_commons()
            if behind.tails and is_here(behind.half.place)
        ),
        sleeves=tuple(FittedSleeve(work, collar_of(harness, work.sleeve)) for work in plan.sleeves),
        branch_splices=tuple(splice for splice in branch_splices(harness) if is_here(splice.place)),
        tail_splices=tuple(splice for splice in tail_splices(harness) if is_here(splice.place)),
    )


def _lead(harness: Harness, work: LeadWork) -> MadeLead:
    labels = harness.labels
    first, second = (_end(harness, work.lead, end) for end in (work.first_end, work.second_end))
    early = not work.after and labels.fit == "before" and labels.each != "wire"
    return MadeLead(work.lead, first, second, work.after, early)


def _end(harness: Harness, lead: CutLead, end: End) -> LeadEnd:
    half = which_half(harness, end.name, end.part) if end.kind == "half" else ""
    crimped = tuple(crimped_wires(harness, lead, end))
    spliced = tuple(wire for wire in lead.wires if end.contacts.get(wire.role) and wire not in crimped)
    return LeadEnd(end, half, crimped, spliced, _strip_mm(harness, end.connector))


def _strip_mm(harness: Harness, connector: Connector) -> float:
    """Return how far wires are stripped for a connector's contacts: as its part says, else the builder's own."""
    strip_mm = connector.contact.strip_mm
    return harness.strip_mm if strip_mm is None else strip_mm
