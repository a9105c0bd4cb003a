"""Wire labels: printed on shrink tube before crimping, one for each lead end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.basics.findings import Finding, Position, Said, shown
from docgen.harness.bundles import lead_thickness_mm
from docgen.harness.heat import hottest_c
from docgen.harness.kinds import TubeKind
from docgen.harness.model import Harness
from docgen.harness.tubes import choose_tube, fits, flat_width_mm, girth_diameter_mm, shrink_of_type
from docgen.harness.wiring import End, Lead, Wire
from docgen.paperwork.imprint import (
    FOOT_MM,
    PLAIN_MM,
    SMALL_MM,
    Foot,
    Imprint,
    number_pages,
    state_of,
)
from docgen.paperwork.label_text import LabelText, SetLabel, set_label
from docgen.paperwork.layouts import LabelSheet, LabelStock, LabelTape
from docgen.paperwork.marks import FAINT, THIN_MM, Box, Page, Text, rectangle
from docgen.paperwork.naming import end_said, marks_text
from docgen.paperwork.pages import Composed
from docgen.paperwork.typeface import shortened

STEM = "wire-labels"
CAUTION = (
    "A heat gun's air and fresh tube burn, and fumes harm: air the room. Never near packs or fuel; shrink "
    "before packs are aboard."
)
# FAA AC 43.13-1B 11-208: wires under 3 in need no mark, 3 to 7 in one at about the centre.
_UNMARKED_MM, _ONE_MARK_MM = 3 * 25.4, 7 * 25.4


@dataclass(frozen=True)
class LabelItem:
    """One label: what it says, what it slides over and grips."""

    key: tuple[str, ...]
    lead: str
    text: LabelText
    passes_mm: float
    grips_mm: float
    heat_c: float | None
    plug_is_on: bool
    position: Position


@dataclass(frozen=True)
class LabelContent:
    """All labels in the order of the bench: by assembly, then lead, both ends side by side."""

    labels: tuple[LabelItem, ...]
    tubes: tuple[TubeKind, ...]
    least_type_mm: float
    behind_plug_mm: float


def content(harness: Harness) -> LabelContent:
    """Return the labels of a harness."""
    order = {assembly: i for i, assembly in enumerate(harness.assemblies)}
    leads = sorted(harness.leads(), key=lambda lead: order[lead.assembly])
    labels = [label for lead in leads for label in _labels(harness, lead)]
    rules = harness.labels
    return LabelContent(tuple(labels), harness.tubes, rules.least_type_mm, rules.behind_plug_mm)


def _labels(harness: Harness, lead: Lead) -> Iterator[LabelItem]:
    if harness.labels.each != "wire" or lead.straight:
        for index in _labelled_ends(lead):
            yield _lead_label(harness, lead, index)
    if harness.labels.each != "lead" and not lead.straight:
        for wire in lead.wires:
            yield from _wire_labels(harness, lead, wire)


def _labelled_ends(lead: Lead) -> list[int]:
    """Return the ends that plug in; of own leads, those that are leads."""
    if lead.straight:
        return [i for i in (0, 1) if lead.ends[i].own is not None]
    return [i for i in (0, 1) if not lead.ends[i].is_splice]


def _lead_label(harness: Harness, lead: Lead, index: int) -> LabelItem:
    # An own lead hangs on its equipment: its plug, and so its label, are where it is plugged in.
    here, far = lead.ends[index], lead.ends[1 - index]
    if lead.straight:
        here, far = far, here
    passes, grips = lead_thickness_mm(lead)
    if harness.labels.fit == "after" and here.is_port and here.connector.roles:
        passes = max(passes, girth_diameter_mm(here.connector.outline_mm))
    mark = Said(marks_text(lead), lead.position)
    since = harness.aircraft.revision.text
    text = LabelText(lead.label, _in_the_hand(here), end_said(far), mark, since)
    return LabelItem(
        key=(lead.circuit, lead.segment, "from" if index == 0 else "to"),
        lead=lead.name,
        text=text,
        passes_mm=passes,
        grips_mm=grips,
        heat_c=_heat_c(harness, lead),
        plug_is_on=lead.straight,
        position=lead.label.position,
    )


def _heat_c(harness: Harness, lead: Lead) -> float | None:
    return hottest_c(harness.places, harness.runs, lead.route)


def _in_the_hand(end: End) -> Said:
    """Say where an end goes, and the colours met there where equipment came with a lead of other colours."""
    said = end_said(end)
    colours = "-".join(end.colours.values())
    return Said(f"{said.text} ({colours})", said.position) if colours else said


def _wire_labels(harness: Harness, lead: Lead, wire: Wire) -> Iterator[LabelItem]:
    length = lead.cut_length_mm or 0
    if length < _UNMARKED_MM:
        return
    ends = (0,) if length <= _ONE_MARK_MM else (0, 1)
    diameter = wire.kind.diameter_mm
    for index in ends:
        here, far = [Said(_wire_end(lead, wire, i), lead.ends[i].said.position) for i in (index, 1 - index)]
        where = ("middle" if len(ends) == 1 else "from") if index == 0 else "to"
        since = harness.aircraft.revision.text
        text = LabelText(lead.label, here, far, Said(wire.mark, lead.position), since)
        key = (lead.circuit, lead.segment, wire.role, where)
        heat = _heat_c(harness, lead)
        yield LabelItem(key, lead.name, text, diameter, diameter, heat, False, lead.label.position)


def _wire_end(lead: Lead, wire: Wire, index: int) -> str:
    return f"{lead.ends[index].text} {'+'.join(wire.contacts[index])}".strip()


def compose(items: LabelContent, layout: LabelStock, imprint: Imprint) -> Composed:
    """Return the pages of labels on one stock; what does not fit it is found and left out."""
    done: list[SetLabel] = []
    findings: list[Finding] = []
    left_out: list[str] = []
    for item in items.labels:
        if item.plug_is_on:
            left_out.append(f"{item.text.function.text} at {item.text.here.text}")
            continue
        label, found = _set(item, items, layout)
        findings += found
        if label is not None:
            done.append(label)
    notes = []
    if left_out:
        notes.append(f"left out on tube, their plugs are on already: {', '.join(left_out)}.")
    if isinstance(layout, LabelTape):
        pages = [_tape_page(layout, label) for label in done]
        return Composed(pages, findings, notes)
    return Composed(_sheets(items, done, layout, imprint), findings, notes)


def _set(item: LabelItem, items: LabelContent, layout: LabelStock) -> tuple[SetLabel | None, list[Finding]]:
    subject = ("circuits", item.key[0])
    what = f"the label {shown(item.text.function.text)} at {item.text.here.text}"
    if isinstance(layout, LabelTape):
        tube, name = layout.tube, ""
        if not fits(tube.expanded, tube.recovered, item.passes_mm, item.grips_mm):
            sentence = f"{what}: the tape does not pass {item.passes_mm:.1f} mm and grip {item.grips_mm:.1f} mm."
            do = "Print it on another stock."
            return None, [Finding(item.position, "tube", sentence, do, subject)]
        expanded, flat, lengths = tube.expanded, layout.flat, (layout.length[0], layout.length[1])
    else:
        kind = choose_tube(item.passes_mm, item.grips_mm, items.tubes, item.heat_c)
        if kind is None:
            sentence = f"{what}: no tube passes {item.passes_mm:.1f} mm and grips {item.grips_mm:.1f} mm."
            do = "Add a tube to parts.yaml, or `labels: {fit: before}`."
            return None, [Finding(item.position, "tube", sentence, do, subject)]
        expanded, name = kind.expanded_mm, kind.name
        flat = flat_width_mm(expanded)
        lengths = (layout.label.length, layout.label.length)
        if flat > layout.label.width:
            sentence = f"{what}: {name} is {flat:.1f} mm flat, the stock holds {layout.label.width:g} mm."
            return None, [Finding(item.position, "stock", sentence, "Print it on a wider stock.", subject)]
    least = items.least_type_mm / shrink_of_type(expanded, item.grips_mm)
    label = set_label(item.text, lengths, flat, layout.clear, least, name)
    if label is None:
        sentence = f"{what} can't be set in type that is {items.least_type_mm:g} mm high when shrunk."
        do = "Give the circuit a shorter `label:`, or allow smaller type with `labels: {least_type: …}`."
        return None, [Finding(item.position, "type", sentence, do, subject)]
    if label.function_only:
        sentence = f"{what} has room for its function only; {shown(item.text.here.text)} is too long for it."
        do = "Use shorter names, or allow smaller type with `labels: {least_type: …}`."
        return label, [Finding(item.position, "type", sentence, do, subject)]
    return label, []


def _tape_page(layout: LabelTape, label: SetLabel) -> Page:
    page = Page(label.length_mm, layout.flat)
    page.add(*label.marks(0, 0))
    return page


def _sheets(items: LabelContent, done: Sequence[SetLabel], layout: LabelSheet, imprint: Imprint) -> list[Page]:
    cells = layout.cells
    per_sheet = cells.across * cells.down
    foot = Foot(imprint, CAUTION, state_of(imprint), imprint.record_hash)
    pages = []
    for start in range(0, len(done), per_sheet):
        page = Page(layout.paper[0], layout.paper[1])
        _head(page, items, layout, foot)
        for i, label in enumerate(done[start : start + per_sheet]):
            x = cells.first[0] + i % cells.across * cells.pitch[0]
            y = cells.first[1] + i // cells.across * cells.pitch[1]
            box = Box(x, y, label.length_mm, label.flat_mm)
            page.add(rectangle(box, THIN_MM, colour=FAINT), *label.marks(x, y))
            if label.tube:
                page.add(_tube_text(label, x, y))
        pages.append(page)
    number_pages(pages, [foot] * len(pages), layout.margin)
    return pages


def _tube_text(label: SetLabel, x: float, y: float) -> Text:
    """Say beside the outline which tube is taped there."""
    says = shortened(f"{label.tube} · {label.length_mm:g} mm", label.length_mm, FOOT_MM)
    return Text(x, y - 0.7, says, FOOT_MM)


def _head(page: Page, items: LabelContent, layout: LabelSheet, foot: Foot) -> None:
    """Say once how labels are used, above the cells."""
    width = page.width_mm - 2 * layout.margin
    title = f"Wire labels · {foot.imprint.aircraft} {foot.imprint.marks}"
    says = (
        "Tape flat tube of the size named over each outline. Slide on before crimping, bar towards the plug, "
        f"near edge {items.behind_plug_mm:g} mm behind it; shrink last."
    )
    page.add(Text(layout.margin, layout.margin, title, PLAIN_MM, bold=True))
    page.add(Text(layout.margin, layout.margin + 3.2, shortened(says, width, SMALL_MM), SMALL_MM))
