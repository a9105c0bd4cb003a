"""Take a harness; return its labels, one for each end of a lead or of each wire: what it says, where, on what."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from docgen.basics.findings import Finding, Kind, Position, shown
from docgen.basics.frozen import frozen
from docgen.harness.assembly.passing import Waits
from docgen.harness.assembly.things import Key, end_key
from docgen.harness.assembly.through_openings import plan_threading
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.bundling.tubes import LABEL_MM, Need, fewest_tubes, girth_diameter_mm, takes_label
from docgen.harness.model.circuits import CutLead, End, Lead, OwnLeads, Wire, numbered
from docgen.harness.model.harness import Harness, Labels
from docgen.harness.model.parts import TubePart
from docgen.paperwork.hashes import digest
from docgen.paperwork.items import Item, item
from docgen.paperwork.labels.text import LabelText
from docgen.paperwork.naming import end_text, marks_text

STEM = "wire-labels"
CAUTION = (
    "A heat gun's air and fresh tube burn, and fumes harm: air the room. Never near packs or fuel; shrink "
    "before packs are aboard."
)
MIDDLE = "middle"
# FAA AC 43.13-1B 11-208: wires under 3 in (76.2 mm) need no mark, 3 to 7 in (177.8 mm) one at about the centre.
_UNMARKED_MM, _ONE_MARK_MM = 76.2, 177.8
_ROUNDING_MM = 1e-6
_END = ("from", "to")


class LabelKey(NamedTuple):
    """Which label it is, whatever else changes: circuit, letter of the lead, which end, and the role of a wire's."""

    circuit: str
    segment: str
    end: str
    role: str = ""

    @property
    def words(self) -> tuple[str, ...]:
        """Return it in words, the end last; of a label of a whole lead no role."""
        return tuple(filter(None, (self.circuit, self.segment, self.role, self.end)))


@frozen(slots=True)
class LabelItem:
    """One label: what it says, where it is, how thick its wires are, what its tube slides over and grips.

    Where the plug `is_on` already, as on own leads, the tube goes over that. `goes_through` tells whether it passes an
    opening with its end.
    """

    key: LabelKey
    place: str
    text: LabelText
    wires_mm: float
    passes_mm: float
    grips_mm: float
    heat_c: float | None
    plug_is_on: bool
    position: Position
    goes_through: bool = False

    @property
    def need(self) -> Need:
        """Return what a tube that is printed on must do."""
        return Need(self.passes_mm, self.grips_mm, self.heat_c)

    @property
    def need_over_paper(self) -> Need:
        """Return what a clear tube over a strip of paper must do."""
        over = self.passes_mm if self.passes_mm > self.wires_mm else 0.0
        return Need.under_paper(self.wires_mm, self.grips_mm, self.heat_c, over)

    @property
    def named(self) -> str:
        """Name it in a sentence."""
        lead = f" (lead {self.text.lead})" if self.text.lead else ""
        return f"the label {shown(self.text.function)} at {self.text.here}{lead}"

    def finding(self, kind: Kind, sentence: str, do: str) -> Finding:
        """Return something that was found of it."""
        return kind.at(self.position, sentence, do, ("circuits", self.key.circuit))


@frozen
class LabelContent:
    """Labels in the order of the bench, by assembly, then lead, both ends side by side; from which cell on, how often.

    `tubes` are those of the parts list, of which the `shelf` has some; `rules` are what the builder wants of labels.
    """

    labels: tuple[LabelItem, ...]
    tubes: tuple[TubePart, ...]
    rules: Labels
    shelf: tuple[str, ...] = ()
    first: int = 1
    copies: int = 1

    @property
    def slid_on(self) -> str:
        """Say when tubes are slid on, and over what."""
        return "before crimping" if self.rules.fit == "before" else f"after crimping, {_AFTER[self.rules.each]}"

    def printed_tubes(self) -> dict[Need, TubePart]:
        """Return the tubes to print on, by what they must do."""
        tubes = [tube for tube in self.tubes if takes_label(tube)]
        return fewest_tubes((label.need for label in self.labels), tubes, self.shelf)

    def clear_tubes(self) -> dict[Need, TubePart]:
        """Return the tubes over strips of paper, by what they must do."""
        tubes = [tube for tube in self.tubes if tube.clear]
        return fewest_tubes((label.need_over_paper for label in self.labels), tubes, self.shelf)


_AFTER = {
    "lead": "over the plug, or contact by contact before a shell is filled",
    "wire": "over the contact before its housing is filled",
    "both": "a lead's over the plug, or contact by contact before a shell is filled, a wire's over its contact",
}


def content(harness: Harness, finished: Collection[LabelKey] = ()) -> LabelContent:
    """Return the labels of a harness; where an end is `finished` already, its tube must pass the plug.

    A lead too short for a label behind each plug has one in the middle, and keeps that however short it is. Leads and
    wires of unknown length are taken as long, with a label at each end.
    """
    harness = harness.made
    order = {assembly: i for i, assembly in enumerate(harness.assemblies)}
    leads = sorted(harness.leads(), key=lambda lead: order[lead.assembly])
    through = _through(harness)
    labels = (label for lead in leads for label in _labels(harness, lead, finished, through))
    return LabelContent(tuple(labels), harness.tubes, harness.labels, harness.shelf_tubes)


def items(content: LabelContent) -> list[Item]:
    """Return each label, as it is compared."""
    said = ((label, label.text) for label in content.labels)
    return [
        item(label.key.words, (text.function, text.here, text.far, text.mark), (), digest(text)) for label, text in said
    ]


def _through(harness: Harness) -> frozenset[tuple[Key, str]]:
    """Return the ends that pass an opening with contacts and labels on: what each is known by, and its lead."""
    passages = (passage for threading in plan_threading(harness) for passage in threading.passages)
    return frozenset(
        (of.thing.key, lead) for of in passages if of.waits is not Waits.CONTACTS for lead in of.thing.leads
    )


def _goes_through(through: Collection[tuple[Key, str]], lead: Lead, indices: Sequence[int]) -> bool:
    """Tell whether one of the ends of a lead passes an opening."""
    if isinstance(lead, CutLead):
        return any((end_key(lead, index), lead.name) in through for index in indices)
    return (("own", lead.name), lead.name) in through


def _labels(
    harness: Harness, lead: Lead, finished: Collection[LabelKey], through: Collection[tuple[Key, str]]
) -> Iterator[LabelItem]:
    each = harness.labels.each
    if each != "wire" or isinstance(lead, OwnLeads):
        two_mm = 2 * (harness.labels.behind_plug_mm + LABEL_MM)
        one = isinstance(lead, CutLead) and lead.length_mm is not None and lead.length_mm < two_mm
        for index in lead.plugs_at[:1] if one else lead.plugs_at:
            label = _lead_label(harness, lead, index, finished, middle=one)
            yield replace(label, goes_through=_goes_through(through, lead, (0, 1) if one else (index,)))
    length_mm = lead.cut_length_mm if isinstance(lead, CutLead) else 0.0
    if each != "lead" and (length_mm is None or length_mm >= _UNMARKED_MM - _ROUNDING_MM):
        middle = length_mm is not None and length_mm <= _ONE_MARK_MM + _ROUNDING_MM
        for wire in lead.wires:
            for index in (0,) if middle else (0, 1):
                label = _wire_label(harness, lead, wire, index, middle=middle)
                yield replace(label, goes_through=_goes_through(through, lead, (0, 1) if middle else (index,)))


def _lead_label(harness: Harness, lead: Lead, index: int, finished: Collection[LabelKey], *, middle: bool) -> LabelItem:
    """Return the label behind a plug, or in the middle; one of own leads is called by the end on which it hangs."""
    here, far, is_own = lead.ends[index], lead.ends[1 - index], isinstance(lead, OwnLeads)
    key = LabelKey(lead.circuit, lead.segment, MIDDLE if middle else _END[1 - index if is_own else index])
    wires, grips = lead_thickness_mm(lead)
    is_on = is_own or key in finished
    passes = wires
    if is_on:
        passes = max(wires, girth_diameter_mm(here.connector.outline_mm))
    elif harness.labels.fit == "after":  # one in the middle comes on from the end where it passes more easily
        passes = max(wires, min(_end_mm(end) for end in (lead.ends if middle else [here])))
    letter = _letter(harness, lead, here)
    text = LabelText(lead.label, _in_the_hand(here), end_text(far), marks_text(lead), letter, middle=middle)
    heat = harness.hottest_c(lead.route)
    return LabelItem(key, here.place, text, wires, passes, grips, heat, is_on, lead.position)


def _wire_end(end: End, wire: Wire) -> str:
    return numbered(end.text, "contact", "+".join(end.contacts.get(wire.role, ())))


def _wire_label(harness: Harness, lead: Lead, wire: Wire, index: int, *, middle: bool) -> LabelItem:
    end = lead.ends[index]
    here, far = (_wire_end(lead.ends[i], wire) for i in (index, 1 - index))
    diameter = passes = wire.kind.diameter_mm
    if harness.labels.fit == "after":  # as of a lead
        passes = max(diameter, min(_contact_mm(there) for there in (lead.ends if middle else [end])))
    letter = _letter(harness, lead, end)
    text = LabelText(lead.label, here, far, wire.mark, letter, of_wire=True, middle=middle)
    key = LabelKey(lead.circuit, lead.segment, MIDDLE if middle else _END[index], wire.role)
    heat = harness.hottest_c(lead.route)
    return LabelItem(key, end.place, text, diameter, passes, diameter, heat, plug_is_on=False, position=lead.position)


def _end_mm(end: End) -> float:
    """Return what a lead's label slides over after crimping: a flat plug by its girth, or each contact of a shell.

    So it is at a plain joint of plugs too.
    """
    if end.connector.roles:
        return girth_diameter_mm(end.connector.outline_mm)
    return _contact_mm(end)


def _contact_mm(end: End) -> float:
    """Return what the label of a wire slides over after crimping: the largest insulation of the contact."""
    return end.connector.contact.over_mm or 0.0


def _letter(harness: Harness, lead: Lead, end: End) -> str:
    """Return the letter of a lead at a joint, where another lead of its circuit goes to the same contacts."""
    if end.kind != "half":
        return ""
    others = (other for other in harness.circuits[lead.circuit].leads if other is not lead)
    met = {end_text(there) for other in others for there in other.ends if there.name == end.name}
    return lead.segment if end_text(end) in met else ""


def _in_the_hand(end: End) -> str:
    """Say where an end goes, and the colours met there where equipment came with a lead of other colours."""
    said = end_text(end)
    colours = "-".join(end.colours.values())
    return f"{said} ({colours})" if colours else said
