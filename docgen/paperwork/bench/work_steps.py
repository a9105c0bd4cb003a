"""Take the work of one assembly; return its steps in words: of each the verb, what it is about, and its rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.basics.findings import listed
from docgen.basics.units import decimal, millimetres
from docgen.harness.assembly.splices import Splice
from docgen.harness.assembly.work import AssemblyWork, EndWork, LeadWork, SleeveWork
from docgen.harness.model.circuits import CutLead, Wire
from docgen.harness.model.joints import Behind, Common, Disconnect, Half, Tail
from docgen.harness.model.parts import ContactPart
from docgen.harness.wiring.lengths import SPLICE_STRIP_MM
from docgen.paperwork.bench.work_content import WorkContent
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
        [*(_cut(items, made) for made in work.leads), *(_cut_tails(*of) for of in work.tails)],
    )
    twisted = [_twist(made.lead) for made in work.leads if made.twisted]
    yield Step("Twist", "Each lead to its lay.", ("lead", "lay, mm", "wires", ""), twisted)
    first = [row for made in work.leads for row in _crimp(items, made.lead, made.first, made.after)]
    yield Step(
        "Crimp and fill",
        "The first end. Sleeves and the other labels slide on from elsewhere. Wires not named are spliced later.",
        _CRIMP_HEADS,
        [*first, *(_crimp_tails(items, *of) for of in work.tails)],
    )


def _sleeve_steps(items: WorkContent, work: AssemblyWork) -> Iterator[Step]:
    """Walk what slides on, and what is crimped after it."""
    yield _all_leads("Lay up", "Leads side by side along their routes.")
    yield Step(
        "Slide on",
        "Sleeves in this order, each with a collar before and behind it.",
        ("sleeve", "cut, mm", "between", "how"),
        [_sleeve(sleeve) for sleeve in work.sleeves],
    )
    yield Step(
        "Last labels",
        "From ends that are still open." if items.labels.fit == "before" else "Each from its own end, over its plug.",
        ("lead", "", "label", ""),
        [row for made in work.leads for row in _last_labels(items, made)],
    )
    ends = [(made, end) for made in work.leads for end in ((made.first, made.second) if made.after else (made.second,))]
    yield Step(
        "Crimp and fill",
        "The second end, and first ends that waited. Wires not named are spliced next.",
        _CRIMP_HEADS,
        [row for made, end in ends for row in _crimp(items, made.lead, end)],
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


def _half(items: WorkContent, end: EndWork) -> str:
    return items.halves.get((end.end.name, end.end.part), "")


def _place(items: WorkContent, end: EndWork) -> str:
    return end_text(end.end) + _half(items, end)


def _labelled_first(items: WorkContent, made: LeadWork) -> bool:
    """Tell whether the first end's label goes on before that end is crimped; one that passes the plug comes last."""
    return not made.after and items.labels.fit == "before" and items.labels.each != "wire"


def _cut(items: WorkContent, made: LeadWork) -> Row:
    lead = made.lead
    now = _place(items, made.first) if _labelled_first(items, made) else ""
    return _row(lead, millimetres(lead.cut_length_mm), ", ".join(wire.mark for wire in lead.wires), now)


def _last_labels(items: WorkContent, made: LeadWork) -> Iterator[Row]:
    ends = (made.second,) if _labelled_first(items, made) else (made.first, made.second)
    for end in ends:
        if items.labels.each != "wire" and not end.end.is_splice:
            yield _row(made.lead, "", _place(items, end))


def _twist(lead: CutLead) -> Row:
    return _row(lead, decimal(lead.part.lay_mm or 0), str(len(lead.wires)))


def _crimp(items: WorkContent, lead: CutLead, end: EndWork, after: Sequence[str] = ()) -> Iterator[Row]:
    """Return the row of one end, if any of its wires goes into a contact there; one that waits has nothing to tick."""
    if end.crimped:
        connector, at = end.end.connector, _place(items, end)
        if end.spliced:
            contacts = contacts_text([contact for wire in end.crimped for contact in end.end.contacts[wire.role]])
            marks = listed([wire.mark for wire in end.crimped])
            at = f"{end.end.name} {contacts}{_half(items, end)}: {marks} only"
        contact = f"crimp after {listed(after)} is on" if after else f"{connector.name} {end.end.gender}"
        yield _row(lead, _gauge_and_strip(items, end.crimped, connector.contact), at, contact, ticked=not after)


def _gauge_and_strip(items: WorkContent, wires: Sequence[Wire | Tail], contact: ContactPart) -> str:
    gauges = "/".join(dict.fromkeys(wire.kind.gauge.text for wire in wires))
    return f"{gauges}, {decimal(items.strip_mm if contact.strip_mm is None else contact.strip_mm)} mm"


def _tails(disconnect: Disconnect, common: Common, half: Half) -> str:
    return f"{common.name} · tails of {disconnect.name}, {half_title(half)}"


def _cut_tails(disconnect: Disconnect, common: Common, behind: Behind) -> Row:
    count = len(behind.tails)
    pieces = f"{count} piece{'s' if count != 1 else ''}, unmarked"
    return Row(_tails(disconnect, common, behind.half), millimetres(behind.tail_mm), pieces)


def _crimp_tails(items: WorkContent, disconnect: Disconnect, common: Common, behind: Behind) -> Row:
    at = f"{disconnect.name} {contacts_text([tail.contact for tail in behind.tails])}"
    how = _gauge_and_strip(items, behind.tails, disconnect.shell.contact)
    return Row(_tails(disconnect, common, behind.half), how, at, f"{disconnect.shell.name} {behind.half.gender}")


def _sleeve(work: SleeveWork) -> Row:
    kind = work.sleeve.kind
    how = "around, when all else is on" if work.opens else f"on from {work.start}"
    how += f"; collars {work.collar or NO_TUBE}"
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
