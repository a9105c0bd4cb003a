"""Order of work: what to do for each assembly, step by step, with boxes to tick and initial."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.basics.findings import Said
from docgen.basics.pulls import SOURCE, least_pull_n
from docgen.basics.units import millimetres
from docgen.harness.model import Harness
from docgen.harness.wiring import End, Lead
from docgen.harness.work import LeadWork, plan_work
from docgen.paperwork.flow import Flow, TableStyle
from docgen.paperwork.imprint import (
    LARGE_MM,
    PLAIN_MM,
    SMALL_MM,
    TITLE_MM,
    Foot,
    Imprint,
    foot_height_mm,
    number_pages,
    state_of,
)
from docgen.paperwork.layouts import PageLayout
from docgen.paperwork.marks import MIDDLE_MM, Box, Mark, rectangle
from docgen.paperwork.materials import GuardPiece, guard_pieces
from docgen.paperwork.naming import end_said
from docgen.paperwork.pages import Composed
from docgen.paperwork.tables import Column
from docgen.paperwork.wire_labels import CAUTION

STEM = "order-of-work"
_ROW_MM = 7.0
_BOX_MM = 4.0
_INITIALS_MM = 18.0
_WITH_ROWS = ("Cut", "Twist", "Crimp and fill", "Slide on")


@dataclass(frozen=True)
class Sample:
    """One wire, contact and tool to be pulled to destruction, with the least force [N] where a table has one."""

    wire: str
    contact: str
    least_n: float | None
    military_n: float | None


@dataclass(frozen=True)
class WorkRow:
    """One lead in a step: which, what, at which end, and what to mind."""

    key: tuple[str, str]
    lead: Said
    name: str
    what: str
    end: Said
    mind: str


@dataclass(frozen=True)
class Step:
    """One step: its verb, what it is about, and its rows."""

    verb: str
    says: str
    rows: tuple[WorkRow, ...]


@dataclass(frozen=True)
class AssemblyWork:
    """All steps of one assembly."""

    assembly: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class WorkContent:
    """Samples to pull first, then the work of each assembly."""

    samples: tuple[Sample, ...]
    assemblies: tuple[AssemblyWork, ...]


def content(harness: Harness) -> WorkContent:
    """Return the order of work."""
    works = plan_work(harness)
    assemblies = []
    for assembly in harness.assemblies:
        here = [work for work in works if work.lead.assembly == assembly]
        if here:
            guards = [piece for piece in guard_pieces(harness) if _assembly_of(harness, piece) == assembly]
            assemblies.append(AssemblyWork(assembly, _steps(harness, here, guards)))
    return WorkContent(_samples(harness, works), tuple(assemblies))


def _assembly_of(harness: Harness, piece: GuardPiece) -> str:
    return harness.places[piece.start.text].assembly


def _samples(harness: Harness, works: Sequence[LeadWork]) -> tuple[Sample, ...]:
    """Return each wire with each contact once; behind a common the contact takes a tail."""
    pairs = [
        (wire.kind, f"{end.connector.name} {end.gender}")
        for work in works
        for end in work.lead.ends
        for wire in work.lead.wires
        if not end.is_splice and wire.role not in end.commons
    ]
    for disconnect in harness.disconnects.values():
        for common in disconnect.commons.values():
            for half, behind in zip(disconnect.halves, common.halves, strict=True):
                wires = behind.tails or tuple(wire for _, wire in behind.wires)
                pairs += [(wire.kind, f"{disconnect.shell.name} {half.gender}") for wire in wires]
    samples: dict[tuple[str, str], Sample] = {}
    for kind, contact in pairs:
        pull = least_pull_n(kind.gauge.area_mm2)
        samples.setdefault((kind.name, contact), Sample(kind.name, contact, *(pull or (None, None))))
    return tuple(samples[key] for key in sorted(samples))


def _steps(harness: Harness, works: Sequence[LeadWork], guards: Sequence[GuardPiece]) -> tuple[Step, ...]:
    wires = [work for work in works if not work.lead.bought]
    twisted = [work for work in wires if work.lead.lay_mm is not None and len(work.lead.wires) > 1]
    behind = f"{harness.labels.behind_plug_mm:g} mm"
    return tuple(
        step
        for step in (
            Step("Cut", "all wires of these leads, from the cut list, and mark them", _rows(works, _cut)),
            Step("Twist", "each lead to its lay", _rows(twisted, _twist)),
            Step("Crimp and fill", "the first end", _rows(works, _first_end)),
            Step("Slide on", "labels for both ends, then guards with their collars", _guard_rows(guards)),
            Step("Crimp and fill", "the second end; a splice is made now", _rows(works, _second_end)),
            Step("Ring out", "each lead, by the ring-out sheet", ()),
            Step("Shrink", f"labels {behind} behind their plugs, and collars", ()),
            Step("Fit and clip", f"with a clip every {harness.clip_every_mm:g} mm and where a free tail begins", ()),
        )
        if step.rows or step.verb not in _WITH_ROWS
    )


def _rows(works: Sequence[LeadWork], row: object) -> tuple[WorkRow, ...]:
    assert callable(row)
    return tuple(row(work) for work in works)


def _name(lead: Lead) -> tuple[tuple[str, str], Said, str]:
    return (lead.circuit, lead.segment), lead.label, lead.name


def _cut(work: LeadWork) -> WorkRow:
    key, label, name = _name(work.lead)
    marks = ", ".join(wire.mark for wire in work.lead.wires)
    return WorkRow(
        key, label, name, f"{millimetres(work.lead.cut_length_mm or 0)} mm", Said(marks, work.lead.position), ""
    )


def _twist(work: LeadWork) -> WorkRow:
    key, label, name = _name(work.lead)
    turns = f"{len(work.lead.wires)} wires"
    return WorkRow(key, label, name, f"lay {work.lead.lay_mm:g} mm", Said(turns, work.lead.position), "")


def _first_end(work: LeadWork) -> WorkRow:
    key, label, name = _name(work.lead)
    mind = f"crimp after {', '.join(work.after)} is on" if work.after else ""
    return WorkRow(key, label, name, _strip(work.lead, work.first_end), end_said(work.first_end), mind)


def _second_end(work: LeadWork) -> WorkRow:
    key, label, name = _name(work.lead)
    return WorkRow(key, label, name, _strip(work.lead, work.second_end), end_said(work.second_end), "")


def _strip(lead: Lead, end: End) -> str:
    gauges = "/".join(dict.fromkeys(wire.kind.gauge.mark for wire in lead.wires))
    if end.is_splice:
        return f"{gauges}, strip 8 mm"
    strip = end.connector.contact.strip_mm
    return f"{gauges}, strip {4 if strip is None else strip:g} mm"


def _guard_rows(guards: Sequence[GuardPiece]) -> tuple[WorkRow, ...]:
    return tuple(
        WorkRow(
            (piece.guard, f"{piece.start.text} {piece.goal.text}"),
            Said(piece.guard, piece.start.position),
            piece.kind,
            f"{millimetres(piece.length_mm)} mm",
            Said(f"{piece.start.text} to {piece.goal.text}", piece.start.position),
            "two collars",
        )
        for piece in guards
    )


def compose(items: WorkContent, layout: PageLayout, imprint: Imprint) -> Composed:
    """Return the pages: samples first, then a new page for each assembly."""
    foot = Foot(imprint, CAUTION, state_of(imprint), imprint.record_hash)
    width = layout.paper[0] - 2 * layout.margin
    flow = Flow(layout.paper, layout.margin, layout.margin + foot_height_mm(foot, width) + 2)
    flow.new_page()
    _add_samples(flow, items, imprint)
    for work in items.assemblies:
        flow.new_page()
        flow.heading(f"Order of work · {work.assembly}", TITLE_MM)
        for number, step in enumerate(work.steps, 1):
            _add_step(flow, number, step)
    flow.finish_page()
    number_pages(flow.pages, [foot] * len(flow.pages), layout.margin)
    return Composed(flow.pages if items.assemblies else [])


def _add_samples(flow: Flow, items: WorkContent, imprint: Imprint) -> None:
    flow.heading(f"Order of work · {imprint.aircraft}", TITLE_MM)
    flow.heading("First: pull samples", LARGE_MM)
    says = (
        "Crimp one sample of each wire and contact with the tool of the day, about 150 mm long, and pull it until it "
        f"gives. It must hold the least force ({SOURCE}). Contacts that fly get a tug."
    )
    flow.paragraph(says, SMALL_MM)
    columns = [
        Column("wire", PLAIN_MM, bold=True, gives=True),
        Column("contact", PLAIN_MM, gives=True),
        Column("least, N", PLAIN_MM, align="right"),
        Column("military, N", PLAIN_MM, align="right"),
        Column("held, N", PLAIN_MM, fixed_mm=_INITIALS_MM),
        Column("initials", PLAIN_MM, fixed_mm=_INITIALS_MM),
    ]
    rows = [(s.wire, s.contact, _newtons(s.least_n), _newtons(s.military_n), "", "") for s in items.samples]
    flow.table(columns, rows, TableStyle(_ROW_MM), "Samples", _two_boxes)


def _newtons(force: float | None) -> str:
    return "–" if force is None else f"{force:.1f}"


def _add_step(flow: Flow, number: int, step: Step) -> None:
    flow.space(4)
    title = f"{number}  {step.verb}"
    flow.heading(title, LARGE_MM, keep_mm=2 * _ROW_MM + 8)
    flow.paragraph(step.says, SMALL_MM)
    columns = [
        Column("lead" if step.verb != "Slide on" else "guard", PLAIN_MM, bold=True, gives=True),
        Column("", PLAIN_MM),
        Column("at", PLAIN_MM, gives=True),
        Column("", PLAIN_MM, bold=True, gives=True),
        Column("", PLAIN_MM, fixed_mm=_BOX_MM + 1),
        Column("initials", PLAIN_MM, fixed_mm=_INITIALS_MM),
    ]
    rows = [(f"{row.lead.text} · {row.name}", row.what, row.end.text, row.mind, "", "") for row in step.rows] or [
        ("all leads of this assembly", "", "", "", "", "")
    ]
    flow.table(columns, rows, TableStyle(_ROW_MM), title, _tick_and_initials)


def _two_boxes(index: int, row: Box, cells: Sequence[Box]) -> list[Mark]:  # noqa: ARG001 - rows look alike
    return [_box(cell, _INITIALS_MM) for cell in cells[-2:]]


def _tick_and_initials(index: int, row: Box, cells: Sequence[Box]) -> list[Mark]:  # noqa: ARG001 - rows look alike
    return [_box(cells[-2], _BOX_MM), _box(cells[-1], _INITIALS_MM)]


def _box(cell: Box, width_mm: float) -> Mark:
    high = _BOX_MM if width_mm == _BOX_MM else _ROW_MM - 1.6
    return rectangle(Box(cell.x_mm, cell.y_mm + (_ROW_MM - high) / 2, width_mm, high), MIDDLE_MM)
