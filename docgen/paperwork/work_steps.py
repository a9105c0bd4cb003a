"""What is in the order of work: samples to pull, then the steps of each assembly with their rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.basics.findings import Said, listed
from docgen.basics.pulls import least_pull_n
from docgen.basics.units import decimal, millimetres
from docgen.harness.kinds import Connector, WireKind
from docgen.harness.lengths import SPLICE_STRIP_MM
from docgen.harness.model import Behind, Common, Disconnect, Half, Harness
from docgen.harness.ringing import load_chains
from docgen.harness.splices import Splice, crimped_wires, splices_of
from docgen.harness.wiring import Circuit, End, Lead
from docgen.harness.work import AssemblyPlan, GuardWork, LeadWork, plan_work
from docgen.paperwork.getting_out import collar_of
from docgen.paperwork.naming import contacts_text, end_said, half_title, half_where_both

_NO_HEADS = ("", "", "", "")


@dataclass(frozen=True)
class Sample:
    """One wire, contact and tool to be pulled to destruction, with the least force [N] where a table has one."""

    wire: str
    contact: str
    least_n: float | None
    military_n: float | None


@dataclass(frozen=True)
class WorkRow:
    """One line of a step: what is worked on, how, where, what to mind, and whether it is ticked in this step."""

    key: tuple[str, ...]
    on: Said
    how: str
    at: Said
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


def content(harness: Harness) -> WorkContent:
    """Return the order of work."""
    plans = plan_work(harness)
    works = tuple(AssemblyWork(plan.assembly, _steps(harness, plan)) for plan in plans)
    samples = _samples(harness, [work.lead for plan in plans for work in plan.leads])
    return WorkContent(samples, works, any(True for _ in load_chains(harness)))


def _samples(harness: Harness, leads: Sequence[Lead]) -> tuple[Sample, ...]:
    """Return each wire with each contact once; behind a common the contact takes a tail."""
    pairs = [
        (wire.kind, f"{end.connector.name} {end.gender}")
        for lead in leads
        for end in lead.ends
        for wire in crimped_wires(harness, lead, end)
    ]
    pairs += [
        (tail.kind, f"{disconnect.shell.name} {half.gender}")
        for disconnect, half, _, behind in _halves_with_tails(harness)
        for tail in behind.tails
    ]
    samples: dict[tuple[str, str], Sample] = {}
    for kind, contact in pairs:
        pull = least_pull_n(kind.gauge.area_mm2)
        samples.setdefault((kind.name, contact), Sample(kind.name, contact, *(pull or (None, None))))
    return tuple(samples[key] for key in sorted(samples))


def _halves_with_tails(harness: Harness) -> Iterator[tuple[Disconnect, Half, Common, Behind]]:
    for disconnect in harness.disconnects.values():
        for common in disconnect.commons.values():
            for half, behind in zip(disconnect.halves, common.halves, strict=True):
                if behind.tails:
                    yield disconnect, half, common, behind


def _steps(harness: Harness, plan: AssemblyPlan) -> tuple[Step, ...]:
    """Return the steps of an assembly; one that is about nothing here is left out."""
    steps = (*_first_steps(harness, plan), *_guard_steps(harness, plan), *_last_steps(harness, plan))
    return tuple(step for step in steps if step.rows)


def _first_steps(harness: Harness, plan: AssemblyPlan) -> Iterator[Step]:
    """Walk what comes before anything slides on over several leads."""
    tails = [of for of in _halves_with_tails(harness) if harness.places[of[1].place].assembly == plan.assembly]
    twisted = [w for w in plan.leads if w.lead.lay_mm is not None and len(w.lead.wires) > 1 and not w.lead.bought]
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
        "The first end. Guards and the other labels slide on from elsewhere. Wires not named are spliced later.",
        ("lead", "gauge, strip", "at", "contact"),
        (*_first_ends(harness, plan.leads), *(_crimp_tail(harness, *of) for of in tails)),
    )


def _guard_steps(harness: Harness, plan: AssemblyPlan) -> Iterator[Step]:
    """Walk what slides on, and what is crimped after it."""
    yield Step("Lay up", "Leads side by side along their ways.", _NO_HEADS, _every_lead(plan))
    yield Step(
        "Slide on",
        "Guards in this order, each with a collar before and behind it.",
        ("guard", "cut, mm", "between", "how"),
        tuple(_guard(harness, guard) for guard in plan.guards),
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
    splices = [splice for splice in splices_of(harness) if harness.places[splice.place].assembly == plan.assembly]
    behind = f"{decimal(harness.labels.behind_plug_mm)} mm"
    clips = (
        f"A clip every {decimal(harness.clip_every_mm)} mm, within 50 mm of a fixed half, and where a free tail begins."
    )
    yield Step(
        "Splice",
        f"Strip {decimal(SPLICE_STRIP_MM)} mm, slide a tube on first, and shrink it over the joint.",
        ("splice", "role", "joins", ""),
        tuple(_splice(splice) for splice in splices),
    )
    yield Step("Ring out", "By the ring-out sheet.", _NO_HEADS, _every_lead(plan))
    yield Step("Shrink", f"Labels {behind} behind their plugs, and collars.", _NO_HEADS, _every_lead(plan))
    yield Step("Fit and clip", clips, _NO_HEADS, _every_lead(plan))


def _every_lead(plan: AssemblyPlan) -> tuple[WorkRow, ...]:
    at = plan.leads[0].lead.position
    return (WorkRow((), Said("all leads of this assembly", at), "", Said("", at)),)


def _end(harness: Harness, end: End) -> Said:
    """Say an end, and which half where both are in one assembly."""
    said = end_said(end)
    return said if end.kind != "half" else Said(f"{said.text}{half_where_both(harness, end)}", said.position)


def _row(work: LeadWork, how: str, at: Said, mind: str = "", ticked: bool = True) -> WorkRow:
    lead = work.lead
    key = lead.circuit, lead.segment, at.text
    return WorkRow(key, Said(f"{lead.label.text} · {lead.name}", lead.label.position), how, at, mind, ticked)


def _cut(harness: Harness, work: LeadWork) -> WorkRow:
    lead = work.lead
    marks = ", ".join(wire.mark for wire in lead.wires)
    now = _end(harness, work.first_end).text if _labelled_early(harness, work) else ""
    return _row(work, millimetres(lead.cut_length_mm or 0), Said(marks, lead.position), now)


def _labelled_early(harness: Harness, work: LeadWork) -> bool:
    """Tell whether the first end's label goes on before that end is crimped; one that passes the plug comes last."""
    return not work.after and harness.labels.fit == "before" and harness.labels.each != "wire"


def _twist(work: LeadWork) -> WorkRow:
    return _row(work, decimal(work.lead.lay_mm or 0), Said(str(len(work.lead.wires)), work.lead.position))


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
            said = Said(f"{end.name} {contacts}{half_where_both(harness, end)}: {marks} only", said.position)
        yield _row(work, strip, said, contact, not wait)


def _gauge_and_strip(harness: Harness, kinds: Sequence[WireKind], connector: Connector) -> str:
    gauges = "/".join(dict.fromkeys(kind.gauge.text for kind in kinds))
    strip_mm = connector.contact.strip_mm
    return f"{gauges}, {decimal(harness.strip_mm if strip_mm is None else strip_mm)} mm"


def _tail_row(disconnect: Disconnect, half: Half, common: Common, how: str, at: str) -> WorkRow:
    on = f"{common.name} · tails of {disconnect.name}, {half_title(half)}"
    key = "tails", disconnect.name, half.name, common.name
    return WorkRow(key, Said(on, common.said.position), how, Said(at, common.said.position))


def _cut_tail(disconnect: Disconnect, half: Half, common: Common, behind: Behind) -> WorkRow:
    count = len(behind.tails)
    pieces = f"{count} piece{'s' if count != 1 else ''}, unmarked"
    return _tail_row(disconnect, half, common, millimetres(behind.tail_mm or 0), pieces)


def _crimp_tail(harness: Harness, disconnect: Disconnect, half: Half, common: Common, behind: Behind) -> WorkRow:
    contacts = contacts_text([tail.contacts[1][0] for tail in behind.tails])
    how = _gauge_and_strip(harness, [tail.kind for tail in behind.tails], disconnect.shell)
    contact = f"{disconnect.shell.name} {half.gender}"
    return replace(_tail_row(disconnect, half, common, how, f"{disconnect.name} {contacts}"), mind=contact)


def _guard(harness: Harness, work: GuardWork) -> WorkRow:
    at = harness.places[work.start].position
    kind = work.guard.kind
    collar = collar_of(harness, work.guard)
    how = "around, when all else is on" if work.opens else f"on from {work.start}"
    stuck = (
        f"; not over the plug of {listed(work.plugs)}: fit that plug after, or a guard that opens" if work.plugs else ""
    )
    if work.past:
        stuck += f"; can't pass another guard on {listed(work.past)}: take one that opens"
    return WorkRow(
        (kind.name, work.start, work.goal),
        Said(f"{kind.name} · {kind.kind}", at),
        millimetres(work.guard.cut_length_mm),
        Said(f"{work.goal} and {work.start}", at),
        f"{how}; collars {collar}{stuck}",
    )


def _last_labels(harness: Harness, work: LeadWork) -> Iterator[WorkRow]:
    if harness.labels.each == "wire":
        return
    early = (work.first_end,) if _labelled_early(harness, work) else ()
    for end in (work.first_end, work.second_end):
        if end not in early and not end.is_splice:
            yield _row(work, "", _end(harness, end))


def _splice(splice: Splice) -> WorkRow:
    names = [lead.name for lead in splice.leads]
    if isinstance(splice.of, Circuit):
        on = f"{splice.of.label.text} · splice at {splice.place}"
    else:
        disconnect, half, common = splice.of
        on = f"{common.name} · {disconnect.name}, {half_title(half)}"
        names.append("tails" if len(common.contacts) > 1 else "the tail")
    return WorkRow(
        (on, splice.role), Said(on, splice.said.position), splice.role, Said(listed(names), splice.said.position)
    )
