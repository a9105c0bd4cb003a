"""Wire labels: printed on shrink tube before crimping, one for each lead end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.basics.findings import Position, nearest
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.bundling.tubes import girth_diameter_mm
from docgen.harness.model.circuits import CutLead, End, Lead, OwnLeads, Wire, numbered
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import TubePart
from docgen.harness.routing.heat import hottest_c
from docgen.paperwork.labels.text import LabelText
from docgen.paperwork.naming import end_text, marks_text

STEM = "wire-labels"
CAUTION = (
    "A heat gun's air and fresh tube burn, and fumes harm: air the room. Never near packs or fuel; shrink "
    "before packs are aboard."
)
# FAA AC 43.13-1B 11-208: wires under 3 in need no mark, 3 to 7 in one at about the centre.
_UNMARKED_MM, _ONE_MARK_MM = 3 * 25.4, 7 * 25.4


@dataclass(frozen=True, slots=True)
class LabelItem:
    """One label: what it says, where it is, how thick its wires are, what it slides over and grips."""

    key: tuple[str, ...]
    lead: str
    place: str
    text: LabelText
    wires_mm: float
    passes_mm: float
    grips_mm: float
    heat_c: float | None
    plug_is_on: bool
    position: Position


@dataclass(frozen=True)
class LabelContent:
    """All labels in the order of the bench: by assembly, then lead, both ends side by side."""

    labels: tuple[LabelItem, ...]
    tubes: tuple[TubePart, ...]
    least_type_mm: float
    behind_plug_mm: float
    fit: str = "before"
    each: str = "lead"
    first: int = 1
    copies: int = 1


@dataclass(frozen=True)
class Selection:
    """Which labels are printed: of some circuits, at some places (none: all); from which cell on; how often each."""

    circuits: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    first: int = 1
    copies: int = 1

    def unknown(self, harnesses: Sequence[Harness]) -> list[str]:
        """Say which circuits and places are in none of the harnesses, with the nearest names."""
        said = []
        for what, wanted, known in (
            ("circuit", self.circuits, [name for harness in harnesses for name in harness.circuits]),
            ("place", self.places, [name for harness in harnesses for name in harness.places]),
        ):
            for name in wanted:
                if name not in known:
                    offer = nearest(name, known)
                    said.append(f"there is no {what} '{name}'" + (f"; did you mean '{offer}'?" if offer else "."))
        return said

    @property
    def says(self) -> str:
        """Say which labels are wanted: `of rudder and at left-root`."""
        words = (("of", self.circuits), ("at", self.places))
        return " and ".join(f"{word} {' or '.join(names)}" for word, names in words if names) or "wanted"

    def of(self, items: LabelContent) -> LabelContent:
        """Return the labels that are wanted."""
        labels = tuple(
            label
            for label in items.labels
            if (not self.circuits or label.key[0] in self.circuits) and (not self.places or label.place in self.places)
        )
        return replace(items, labels=labels, first=self.first, copies=self.copies)


def content(harness: Harness) -> LabelContent:
    """Return the labels of a harness."""
    order = {assembly: i for i, assembly in enumerate(harness.assemblies)}
    leads = sorted(harness.leads(), key=lambda lead: order[lead.assembly])
    labels = [label for lead in leads for label in _labels(harness, lead)]
    rules = harness.labels
    return LabelContent(tuple(labels), harness.tubes, rules.least_type_mm, rules.behind_plug_mm, rules.fit, rules.each)


def _labels(harness: Harness, lead: Lead) -> Iterator[LabelItem]:
    if harness.labels.each != "wire" or isinstance(lead, OwnLeads):
        for index in lead.plugs_at:
            yield _lead_label(harness, lead, index)
    if harness.labels.each != "lead" and isinstance(lead, CutLead):
        for wire in lead.wires:
            yield from _wire_labels(harness, lead, wire)


def _lead_label(harness: Harness, lead: Lead, index: int) -> LabelItem:
    """Return the label behind a plug; one of own leads is called by the end on which it hangs."""
    here, far = lead.ends[index], lead.ends[1 - index]
    is_own = isinstance(lead, OwnLeads)
    passes, grips = lead_thickness_mm(lead)
    wires = passes
    if harness.labels.fit == "after":
        passes = max(passes, _end_mm(here))
    mark = marks_text(lead)
    since = harness.aircraft.revision
    text = LabelText(
        lead.label, _in_the_hand(here), end_text(far), mark, since, _supply(harness, lead), _letter(harness, lead, here)
    )
    return LabelItem(
        key=(lead.circuit, lead.segment, ("from", "to")[1 - index if is_own else index]),
        lead=lead.name,
        place=here.place,
        text=text,
        wires_mm=wires,
        passes_mm=passes,
        grips_mm=grips,
        heat_c=_heat_c(harness, lead),
        plug_is_on=is_own,
        position=lead.position,
    )


def _end_mm(end: End) -> float:
    """Return what a lead's label slides over after crimping: a flat plug by its girth, or each contact of a shell."""
    if end.connector.roles:
        return girth_diameter_mm(end.connector.outline_mm)
    return _contact_mm(end)


def _contact_mm(end: End) -> float:
    """Return what the label of a wire slides over after crimping: the largest insulation of the contact."""
    return end.connector.contact.over_mm or 0.0


def _supply(harness: Harness, lead: Lead) -> str | None:
    """Return the packs behind a lead that feeds a receiver or a unit."""
    packs = harness.results.fed_with.get((lead.circuit, lead.segment), ())
    return "+".join(packs) if packs else None


def _letter(harness: Harness, lead: Lead, end: End) -> str:
    """Return the letter of a lead at a joint, where another lead of its circuit goes to the same contacts."""
    if end.kind != "half":
        return ""
    others = (other for other in harness.circuits[lead.circuit].leads if other is not lead)
    met = {end_text(there) for other in others for there in other.ends if there.name == end.name}
    return lead.segment if end_text(end) in met else ""


def _heat_c(harness: Harness, lead: Lead) -> float | None:
    return hottest_c(harness.places, harness.runs, lead.route)


def _in_the_hand(end: End) -> str:
    """Say where an end goes, and the colours met there where equipment came with a lead of other colours."""
    said = end_text(end)
    colours = "-".join(end.colours.values())
    return f"{said} ({colours})" if colours else said


def _wire_labels(harness: Harness, lead: CutLead, wire: Wire) -> Iterator[LabelItem]:
    length = lead.cut_length_mm
    if length < _UNMARKED_MM:
        return
    ends = (0,) if length <= _ONE_MARK_MM else (0, 1)
    diameter = wire.kind.diameter_mm
    for index in ends:
        here, far = [_wire_end(lead, wire, i) for i in (index, 1 - index)]
        where = ("middle" if len(ends) == 1 else "from") if index == 0 else "to"
        since = harness.aircraft.revision
        mark, letter = wire.mark, _letter(harness, lead, lead.ends[index])
        middle = where == "middle"
        supply = _supply(harness, lead)
        text = LabelText(lead.label, here, far, mark, since, supply, letter, of_wire=True, middle=middle)
        key = (lead.circuit, lead.segment, wire.role, where)
        passes = diameter
        if harness.labels.fit == "after":  # one in the middle comes on from the end where it passes more easily
            over = (lead.ends[i] for i in ((0, 1) if where == "middle" else (index,)))
            passes = max(diameter, min(_contact_mm(end) for end in over))
        heat = _heat_c(harness, lead)
        place, at = lead.ends[index].place, lead.position
        yield LabelItem(key, lead.name, place, text, diameter, passes, diameter, heat, False, at)


def _wire_end(lead: Lead, wire: Wire, index: int) -> str:
    return numbered(lead.ends[index].text, "contact", "+".join(wire.contacts[index]))
