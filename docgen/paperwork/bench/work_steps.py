"""What is in the order of work: samples to pull, then the steps of each assembly with their rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.basics.findings import listed
from docgen.basics.units import decimal, millimetres
from docgen.harness.assembly.bill_of_materials import collar_of
from docgen.harness.assembly.samples import Sample, samples_of
from docgen.harness.assembly.splices import (
    BranchSplice,
    Splice,
    TailSplice,
    branch_splices,
    crimped_wires,
    tail_splices,
)
from docgen.harness.assembly.work import AssemblyPlan, LeadWork, SleeveWork, plan_work
from docgen.harness.continuity.readings import load_chains
from docgen.harness.model.circuits import End
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Behind, Common, Disconnect, Half
from docgen.harness.model.parts import Connector, WirePart
from docgen.harness.wiring.lengths import SPLICE_STRIP_MM
from docgen.paperwork.cut_list.materials import NO_TUBE
from docgen.paperwork.naming import contacts_text, end_text, half_title, which_half

_NO_HEADS = ("", "", "", "")


@dataclass(frozen=True)
class WorkRow:
    """One line of a step: what is worked on, how, where, what to mind, and whether it is ticked in this step."""

    key: tuple[str, ...]
    on: str
    how: str
    at: str
    mind: str = ""
    ticked: bool = True


@dataclass(frozen=True)
class Step:
    """One step: its verb, what it is about, the headings of its columns, and its rows."""

    verb: str
    says: str
    heads: tuple[str, str, str, str]
    rows: tuple[WorkRow, ...]


@dataclass(frozen=True)
class AssemblyWork:
    """All steps of one assembly."""

    assembly: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class WorkContent:
    """Samples to pull first, then the work of each assembly; whether whole paths are rung out at the last."""

    samples: tuple[Sample, ...]
    assemblies: tuple[AssemblyWork, ...]
    has_paths: bool


_EVERY_LEAD = (WorkRow((), "all leads of this assembly", "", ""),)


def content(harness: Harness) -> WorkContent:
    """Return the order of work."""
    plans = plan_work(harness)
    works = tuple(AssemblyWork(plan.assembly, _steps(harness, plan)) for plan in plans)
    return WorkContent(samples_of(harness), works, any(True for _ in load_chains(harness)))


def _steps(harness: Harness, plan: AssemblyPlan) -> tuple[Step, ...]:
    """Return the steps of an assembly; one that is about nothing here is left out."""
    steps = (*_first_steps(harness, plan), *_sleeve_steps(harness, plan), *_last_steps(harness, plan))
    return tuple(step for step in steps if step.rows)


def _first_steps(harness: Harness, plan: AssemblyPlan) -> Iterator[Step]:
    """Walk what comes before anything slides on over several leads."""
    behind = [of for of in harness.behind_commons() if of[2].tails]
    tails = [of for of in behind if harness.places[of[2].half.place].assembly == plan.assembly]
    twisted = [w for w in plan.leads if (p := w.lead.part).lay_mm is not None and len(p.wires) > 1 and not p.bought]
    single = " Slide each wire's own labels on before it is twisted." if harness.labels.each != "lead" else ""
    named = " Slide on the label that is named; the others come later." if harness.labels.each != "wire" else ""
    yield Step(
        "Cut and label",
        f"All wires of these leads, from the cut list.{single}{named}",
        ("lead", "cut, mm", "marks", "label now"),
        (*(_cut(harness, work) for work in plan.leads), *(_cut_tail(*of) for of in tails)),
    )
    yield Step("Twist", "Each lead to its lay.", ("lead", "lay, mm", "wires", ""), tuple(_twist(w) for w in twisted))
    yield Step(
        "Crimp and fill",
        "The first end. Sleeves and the other labels slide on from elsewhere. Wires not named are spliced later.",
        ("lead", "gauge, strip", "at", "contact"),
        (*_first_ends(harness, plan.leads), *(_crimp_tail(harness, *of) for of in tails)),
    )


def _sleeve_steps(harness: Harness, plan: AssemblyPlan) -> Iterator[Step]:
    """Walk what slides on, and what is crimped after it."""
    yield Step("Lay up", "Leads side by side along their routes.", _NO_HEADS, _EVERY_LEAD)
    yield Step(
        "Slide on",
        "Sleeves in this order, each with a collar before and behind it.",
        ("sleeve", "cut, mm", "between", "how"),
        tuple(_sleeve(harness, sleeve) for sleeve in plan.sleeves),
    )
    yield Step(
        "Last labels",
        "From ends that are still open." if harness.labels.fit == "before" else "Each from its own end, over its plug.",
        ("lead", "", "label", ""),
        tuple(row for work in plan.leads for row in _last_labels(harness, work)),
    )
    yield Step(
        "Crimp and fill",
        "The second end, and first ends that waited. Wires not named are spliced next.",
        ("lead", "gauge, strip", "at", "contact"),
        tuple(row for work in plan.leads for row in _second_ends(harness, work)),
    )


def _last_steps(harness: Harness, plan: AssemblyPlan) -> Iterator[Step]:
    """Walk what is done when every contact is crimped."""
    splices: list[tuple[Splice, WorkRow]] = [(splice, _branch_splice(splice)) for splice in branch_splices(harness)]
    splices += [(splice, _tail_splice(splice)) for splice in tail_splices(harness)]
    behind = f"{decimal(harness.labels.behind_plug_mm)} mm"
    clips = (
        f"A clip every {decimal(harness.clip_every_mm)} mm, within 50 mm of a fixed half, and where a free tail begins."
    )
    yield Step(
        "Splice",
        f"Strip {decimal(SPLICE_STRIP_MM)} mm, slide a tube on first, and shrink it over the joint.",
        ("splice", "role", "joins", ""),
        tuple(row for splice, row in splices if harness.places[splice.place].assembly == plan.assembly),
    )
    yield Step("Ring out", "By the ring-out sheet.", _NO_HEADS, _EVERY_LEAD)
    yield Step("Shrink", f"Labels {behind} behind their plugs, and collars.", _NO_HEADS, _EVERY_LEAD)
    yield Step("Fit and clip", clips, _NO_HEADS, _EVERY_LEAD)


def _end(harness: Harness, end: End) -> str:
    """Say an end, and which half where both are in one assembly."""
    said = end_text(end)
    return said if end.kind != "half" else f"{said}{which_half(harness, end.name, end.part)}"


def _row(work: LeadWork, how: str, at: str, mind: str = "", ticked: bool = True) -> WorkRow:
    lead = work.lead
    key = lead.circuit, lead.segment, at
    return WorkRow(key, f"{lead.label} · {lead.name}", how, at, mind, ticked)


def _cut(harness: Harness, work: LeadWork) -> WorkRow:
    lead = work.lead
    marks = ", ".join(wire.mark for wire in lead.wires)
    now = _end(harness, work.first_end) if _labelled_early(harness, work) else ""
    return _row(work, millimetres(lead.cut_length_mm), marks, now)


def _labelled_early(harness: Harness, work: LeadWork) -> bool:
    """Tell whether the first end's label goes on before that end is crimped; one that passes the plug comes last."""
    return not work.after and harness.labels.fit == "before" and harness.labels.each != "wire"


def _twist(work: LeadWork) -> WorkRow:
    return _row(work, decimal(work.lead.part.lay_mm or 0), str(len(work.lead.wires)))


def _first_ends(harness: Harness, works: Sequence[LeadWork]) -> Iterator[WorkRow]:
    for work in works:
        wait = f"crimp after {listed(work.after)} is on" if work.after else ""
        yield from _crimp(harness, work, work.first_end, wait)


def _second_ends(harness: Harness, work: LeadWork) -> Iterator[WorkRow]:
    for end in (work.first_end, work.second_end) if work.after else (work.second_end,):
        yield from _crimp(harness, work, end)


def _crimp(harness: Harness, work: LeadWork, end: End, wait: str = "") -> Iterator[WorkRow]:
    """Return the row of one end, if any of its wires goes into a contact there; one that waits has nothing to tick."""
    wires = crimped_wires(harness, work.lead, end)
    if wires:
        contact = wait or f"{end.connector.name} {end.gender}"
        strip = _gauge_and_strip(harness, [wire.kind for wire in wires], end.connector)
        said = _end(harness, end)
        if len(wires) < sum(bool(end.contacts.get(wire.role)) for wire in work.lead.wires):
            contacts = contacts_text([number for wire in wires for number in end.contacts[wire.role]])
            marks = listed([wire.mark for wire in wires])
            said = f"{end.name} {contacts}{which_half(harness, end.name, end.part)}: {marks} only"
        yield _row(work, strip, said, contact, not wait)


def _gauge_and_strip(harness: Harness, kinds: Sequence[WirePart], connector: Connector) -> str:
    gauges = "/".join(dict.fromkeys(kind.gauge.text for kind in kinds))
    strip_mm = connector.contact.strip_mm
    return f"{gauges}, {decimal(harness.strip_mm if strip_mm is None else strip_mm)} mm"


def _tail_row(disconnect: Disconnect, common: Common, half: Half, how: str, at: str) -> WorkRow:
    on = f"{common.name} · tails of {disconnect.name}, {half_title(half)}"
    key = "tails", disconnect.name, half.name, common.name
    return WorkRow(key, on, how, at)


def _cut_tail(disconnect: Disconnect, common: Common, behind: Behind) -> WorkRow:
    count = len(behind.tails)
    pieces = f"{count} piece{'s' if count != 1 else ''}, unmarked"
    return _tail_row(disconnect, common, behind.half, millimetres(behind.tail_mm or 0), pieces)


def _crimp_tail(harness: Harness, disconnect: Disconnect, common: Common, behind: Behind) -> WorkRow:
    contacts = contacts_text([tail.contacts[1][0] for tail in behind.tails])
    how = _gauge_and_strip(harness, [tail.kind for tail in behind.tails], disconnect.shell)
    contact = f"{disconnect.shell.name} {behind.half.gender}"
    return replace(_tail_row(disconnect, common, behind.half, how, f"{disconnect.name} {contacts}"), mind=contact)


def _sleeve(harness: Harness, work: SleeveWork) -> WorkRow:
    kind = work.sleeve.kind
    collar = collar_of(harness, work.sleeve) or NO_TUBE
    how = "around, when all else is on" if work.opens else f"on from {work.start}"
    stuck = (
        f"; not over the plug of {listed(work.plugs)}: fit that plug after, or a sleeve that opens"
        if work.plugs
        else ""
    )
    if work.past:
        stuck += f"; can't pass another sleeve on {listed(work.past)}: take one that opens"
    return WorkRow(
        (kind.name, work.start, work.goal),
        f"{kind.name} · {kind.kind}",
        millimetres(work.sleeve.cut_length_mm),
        f"{work.goal} and {work.start}",
        f"{how}; collars {collar}{stuck}",
    )


def _last_labels(harness: Harness, work: LeadWork) -> Iterator[WorkRow]:
    if harness.labels.each == "wire":
        return
    early = (work.first_end,) if _labelled_early(harness, work) else ()
    for end in (work.first_end, work.second_end):
        if end not in early and not end.is_splice:
            yield _row(work, "", _end(harness, end))


def _branch_splice(splice: BranchSplice) -> WorkRow:
    return _splice(splice, f"{splice.circuit.label} · splice at {splice.place}", [])


def _tail_splice(splice: TailSplice) -> WorkRow:
    on = f"{splice.common.name} · {splice.disconnect.name}, {half_title(splice.half)}"
    return _splice(splice, on, ["tails" if len(splice.common.contacts) > 1 else "the tail"])


def _splice(splice: Splice, on: str, more: Sequence[str]) -> WorkRow:
    return WorkRow((on, splice.role), on, splice.role, listed([*(lead.name for lead in splice.leads), *more]))
