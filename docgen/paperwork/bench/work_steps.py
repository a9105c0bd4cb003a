"""Take the work of one assembly; return its steps in words: of each the verb, what it is about, and its rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.basics.findings import listed
from docgen.basics.units import decimal, millimetres
from docgen.harness.assembly.splices import Splice
from docgen.harness.model.circuits import CutLead, Wire
from docgen.harness.wiring.lengths import SPLICE_STRIP_MM
from docgen.paperwork.bench.work_content import AssemblyWork, FittedSleeve, LeadEnd, MadeLead, MadeTails, WorkContent
from docgen.paperwork.cut_list.materials import NO_TUBE
from docgen.paperwork.naming import contacts_text, end_text, half_title


@dataclass(frozen=True)
class Row:
    """One line of a step: what is worked on, how, where, what to mind, and whether it is ticked in this step."""

    on: str
    how: str = ""
    at: str = ""
    mind: str = ""
    ticked: bool = True


@dataclass(frozen=True)
class Step:
    """One step: its verb, what it is about, the headings of its columns, and its rows; what is about all has none."""

    verb: str
    says: str
    heads: tuple[str, str, str, str] | None
    rows: Sequence[Row]


_CRIMP_HEADS = ("lead", "gauge, strip", "at", "contact")


def steps_of(items: WorkContent, work: AssemblyWork) -> list[Step]:
    """Return the steps of an assembly; one that is about nothing here is left out."""
    steps = (*_first_steps(items, work), *_sleeve_steps(items, work), *_last_steps(items, work))
    return [step for step in steps if step.rows]


def _all_leads(verb: str, says: str) -> Step:
    return Step(verb, says, None, [Row("all leads of this assembly")])


def _first_steps(items: WorkContent, work: AssemblyWork) -> Iterator[Step]:
    """Walk what comes before anything slides on over several leads."""
    each = items.labels.each
    single = " Slide each wire's own labels on before it is twisted." if each != "lead" else ""
    named = " Slide on the label that is named; the others come later." if each != "wire" else ""
    yield Step(
        "Cut and label",
        f"All wires of these leads, from the cut list.{single}{named}",
        ("lead", "cut, mm", "marks", "label now"),
        [*map(_cut, work.leads), *map(_cut_tails, work.tails)],
    )
    twisted = [made.lead for made in work.leads if made.twisted]
    yield Step("Twist", "Each lead to its lay.", ("lead", "lay, mm", "wires", ""), [_twist(lead) for lead in twisted])
    yield Step(
        "Crimp and fill",
        "The first end. Sleeves and the other labels slide on from elsewhere. Wires not named are spliced later.",
        _CRIMP_HEADS,
        [*(row for made in work.leads for row in _crimp(made, made.first, made.after)), *map(_crimp_tails, work.tails)],
    )


def _sleeve_steps(items: WorkContent, work: AssemblyWork) -> Iterator[Step]:
    """Walk what slides on, and what is crimped after it."""
    yield _all_leads("Lay up", "Leads side by side along their routes.")
    yield Step(
        "Slide on",
        "Sleeves in this order, each with a collar before and behind it.",
        ("sleeve", "cut, mm", "between", "how"),
        [_sleeve(fitted) for fitted in work.sleeves],
    )
    labels = [(made, end) for made in work.leads for end in made.last_labels if items.labels.each != "wire"]
    yield Step(
        "Last labels",
        "From ends that are still open." if items.labels.fit == "before" else "Each from its own end, over its plug.",
        ("lead", "", "label", ""),
        [_row(made.lead, "", _place(end)) for made, end in labels],
    )
    ends = [(made, end) for made in work.leads for end in ((made.first, made.second) if made.after else (made.second,))]
    yield Step(
        "Crimp and fill",
        "The second end, and first ends that waited. Wires not named are spliced next.",
        _CRIMP_HEADS,
        [row for made, end in ends for row in _crimp(made, end, ())],
    )


def _last_steps(items: WorkContent, work: AssemblyWork) -> Iterator[Step]:
    """Walk what is done when every contact is crimped."""
    behind, every = (f"{decimal(length_mm)} mm" for length_mm in (items.labels.behind_plug_mm, items.clip_every_mm))
    yield Step(
        "Splice",
        f"Strip {decimal(SPLICE_STRIP_MM)} mm, slide a tube on first, and shrink it over the joint.",
        ("splice", "role", "joins", ""),
        list(_splices(work)),
    )
    yield _all_leads("Ring out", "By the ring-out sheet.")
    yield _all_leads("Shrink", f"Labels {behind} behind their plugs, and collars.")
    clips = f"A clip every {every}, within 50 mm of a fixed half, and where a free tail begins."
    yield _all_leads("Fit and clip", clips)


def _row(lead: CutLead, how: str, at: str, mind: str = "", *, ticked: bool = True) -> Row:
    return Row(f"{lead.label} · {lead.name}", how, at, mind, ticked)


def _place(end: LeadEnd) -> str:
    return end_text(end.end) + end.half


def _cut(made: MadeLead) -> Row:
    lead = made.lead
    now = _place(made.first) if made.labelled_first else ""
    return _row(lead, millimetres(lead.cut_length_mm), ", ".join(wire.mark for wire in lead.wires), now)


def _twist(lead: CutLead) -> Row:
    return _row(lead, decimal(lead.part.lay_mm or 0), str(len(lead.wires)))


def _crimp(made: MadeLead, end: LeadEnd, after: Sequence[str]) -> Iterator[Row]:
    """Return the row of one end, if any of its wires goes into a contact there; one that waits has nothing to tick."""
    if end.crimped:
        at = _place(end)
        if end.spliced:
            contacts = contacts_text([contact for wire in end.crimped for contact in end.end.contacts[wire.role]])
            at = f"{end.end.name} {contacts}{end.half}: {listed([wire.mark for wire in end.crimped])} only"
        contact = f"crimp after {listed(after)} is on" if after else f"{end.end.connector.name} {end.end.gender}"
        yield _row(made.lead, _gauge_and_strip(end.crimped, end.strip_mm), at, contact, ticked=not after)


def _gauge_and_strip(wires: Sequence[Wire], strip_mm: float) -> str:
    gauges = "/".join(dict.fromkeys(wire.kind.gauge.text for wire in wires))
    return f"{gauges}, {decimal(strip_mm)} mm"


def _tails(made: MadeTails) -> str:
    return f"{made.common.name} · tails of {made.disconnect.name}, {half_title(made.behind.half)}"


def _cut_tails(made: MadeTails) -> Row:
    count = len(made.behind.tails)
    pieces = f"{count} piece{'s' if count != 1 else ''}, unmarked"
    return Row(_tails(made), millimetres(made.behind.tail_mm or 0), pieces)


def _crimp_tails(made: MadeTails) -> Row:
    tails = made.behind.tails
    at = f"{made.disconnect.name} {contacts_text([tail.contacts[1][0] for tail in tails])}"
    contact = f"{made.disconnect.shell.name} {made.behind.half.gender}"
    return Row(_tails(made), _gauge_and_strip(tails, made.strip_mm), at, contact)


def _sleeve(fitted: FittedSleeve) -> Row:
    work, kind = fitted.work, fitted.work.sleeve.kind
    how = "around, when all else is on" if work.opens else f"on from {work.start}"
    how += f"; collars {fitted.collar or NO_TUBE}"
    if work.plugs:
        how += f"; not over the plug of {listed(work.plugs)}: fit that plug after, or a sleeve that opens"
    if work.past:
        how += f"; can't pass another sleeve on {listed(work.past)}: take one that opens"
    cut = millimetres(work.sleeve.cut_length_mm)
    return Row(f"{kind.name} · {kind.kind}", cut, f"{work.goal} and {work.start}", how)


def _splices(work: AssemblyWork) -> Iterator[Row]:
    for splice in work.branch_splices:
        yield _splice(splice, f"{splice.circuit.label} · splice at {splice.place}")
    for at in work.tail_splices:
        tails = "tails" if len(at.common.contacts) > 1 else "the tail"
        yield _splice(at, f"{at.common.name} · {at.disconnect.name}, {half_title(at.half)}", tails)


def _splice(splice: Splice, on: str, *more: str) -> Row:
    return Row(on, splice.role, listed([*(lead.name for lead in splice.leads), *more]))
