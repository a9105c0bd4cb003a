"""The card of one half of a disconnect: both views, and what every used contact carries behind it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.basics.units import decimal
from docgen.harness.model.circuits import End, Lead, Wire, numbered
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, ContactUse, Disconnect, Half
from docgen.paperwork.cards.card_faces import WIDTH_MM, Face
from docgen.paperwork.cards.contact_table import CardRow, contact_table
from docgen.paperwork.cards.view_letters import ViewContact
from docgen.paperwork.cards.view_pair import ViewsOf, views_blocks
from docgen.paperwork.cards.views import View, mating_view, wire_view
from docgen.paperwork.hashes import digest
from docgen.paperwork.naming import contacts_text, half_title, mates_text, part_path, place_text
from docgen.paperwork.typesetting.title_block import Corner

_NOT_CHECKED = "Not yet held against the part in hand: check numbers and key first."


@frozen
class HalfCard:
    """What one half's card says."""

    key: tuple[str, str]
    name: str
    half: str
    gender: str
    where: str
    mates: str
    shell: str
    mating: View
    wire_side: View
    turned: bool
    upright: tuple[View, View]
    to_scale: bool
    rows: tuple[CardRow, ...]
    spares: tuple[str, ...]
    commons: tuple[str, ...]
    order: str
    full_volts: str
    checked: str
    lock: str
    keyed: str
    note: str
    came_on: str
    soldered: bool
    is_first: bool

    @cached_property
    def content_hash(self) -> str:
        """Return the first characters of its content's hash."""
        return digest(self)

    @property
    def part(self) -> str:
        """Return where its part of the record stands in the output folder."""
        return part_path("disconnect", self.name)

    @property
    def said(self) -> tuple[str, ...]:
        """Return what is said of the half as a whole, a paragraph each."""
        checked = f"Pattern held against the part on {self.checked}." if self.checked else _NOT_CHECKED
        said = (
            f"The plug on the own lead of {self.came_on}: nothing is joined to it here." if self.came_on else "",
            f"Spare: {contacts_text(self.spares)}" if self.spares else "",
            *self.commons,
            f"{self.shell} · {self.mates}{f' · {self.order}' if self.order else ''}",
            self.full_volts,
            f"Keyed {self.keyed}: mates with no other letter." if self.keyed else "",
            "Contacts are soldered: to move one, unsolder it and give it a new tube." if self.soldered else "",
            f"Lock: {self.lock}" if self.lock else "",
            self.note,
            checked,
        )
        return tuple(text for text in said if text)


def half_card(harness: Harness, disconnect: Disconnect, index: int) -> HalfCard:
    """Return one half's card."""
    half, shell = disconnect.halves[index], disconnect.shell
    place = harness.places[half.place]
    used = (disconnect.uses[contact] for contact in shell.contacts if contact in disconnect.uses)
    rows = tuple(_row(harness, disconnect, use, half) for use in used)
    return HalfCard(
        key=(disconnect.name, half.name),
        name=disconnect.name,
        half=half_title(half),
        gender=half.gender,
        where=f"at {place_text(place)}",
        mates=mates_text(disconnect, half),
        shell=shell.name,
        mating=mating_view(shell, half.gender, half.key),
        wire_side=wire_view(shell, half.gender, half.key),
        turned=half.key is not None and shell.key is not None,
        upright=(mating_view(shell, half.gender, None), wire_view(shell, half.gender, None)),
        to_scale=shell.to_scale,
        rows=rows,
        spares=disconnect.spares,
        commons=tuple(_common(harness, common, index) for common in disconnect.commons.values()),
        order=_order(harness, disconnect),
        full_volts=_full_volts(harness, disconnect),
        checked=shell.checked or "",
        lock=shell.lock,
        keyed=disconnect.form.keyed,
        note=disconnect.form.note,
        came_on=half.came_on,
        soldered=shell.contact.join == "solder" and not half.came_on,
        is_first=index == 0,
    )


def _row(harness: Harness, disconnect: Disconnect, use: ContactUse, half: Half) -> CardRow:
    wire = use.wires.get(half.name)
    common = use.of if use.is_common else ""
    if wire is None:
        return CardRow(use.contact, "", "", use.label, "", "", common)
    goes = _goes_to(harness, disconnect, use, half)
    mark = (wire.mark or "own") if isinstance(wire, Wire) else "tail"
    return CardRow(use.contact, wire.colour, wire.kind.gauge.text, use.label, goes, mark, common)


def _goes_to(harness: Harness, disconnect: Disconnect, use: ContactUse, half: Half) -> str:
    """Say where the wire behind a half goes: to its other end, of a tail to the splice behind the half."""
    if use.is_common:
        behind = disconnect.commons[use.of].behind(half)
        return "splice behind it" if behind.tails else ", ".join(_far(*each, disconnect, half) for each in behind.wires)
    if use.of in harness.left_in:
        return "capped"
    of = [
        (lead, wire)
        for lead in harness.circuits[use.of].leads
        for wire in lead.wires
        for end in lead.ends
        if _is_at(end, disconnect, half) and use.contact in end.contacts.get(wire.role, ())
    ]
    return ", ".join(dict.fromkeys(_far(lead, wire, disconnect, half) for lead, wire in of))


def _is_at(end: End, disconnect: Disconnect, half: Half) -> bool:
    return end.kind == "half" and (end.name, end.part) == (disconnect.name, half.name)


def _far(lead: Lead, wire: Wire, disconnect: Disconnect, half: Half) -> str:
    """Say the end of a lead that is not at a half, with the contacts of a wire where it is one of a joint."""
    end = lead.ends[1 if _is_at(lead.ends[0], disconnect, half) else 0]
    contacts = "+".join(end.contacts.get(wire.role, ())) if end.kind == "half" else ""
    return numbered(end.name, "contact", contacts) if contacts else end.text


def _order(harness: Harness, disconnect: Disconnect) -> str:
    """Say which of several joints between assemblies is plugged first: that whose tail reaches farther, if known."""

    def assemblies(joint: Disconnect) -> frozenset[str]:
        return frozenset(harness.places[half.place].assembly for half in joint.halves)

    def reach_mm(joint: Disconnect) -> float | None:
        reaches_mm = [half.reach_mm for half in joint.halves if half.reach_mm is not None]
        return max(reaches_mm) if len(reaches_mm) == len(joint.halves) else None

    beside = [joint for joint in harness.disconnects.values() if assemblies(joint) == assemblies(disconnect)]
    known = {joint.name: far_mm for joint in beside if (far_mm := reach_mm(joint)) is not None}
    if len(known) < len(beside) or len(beside) == 1 or len(assemblies(disconnect)) == 1:
        return ""
    own_mm = known.pop(disconnect.name)
    longer = [name for name, far_mm in known.items() if far_mm > own_mm]
    if longer:
        return f"plugged after {', '.join(longer)}"
    return "plugged first" if max(known.values()) < own_mm else ""


def _full_volts(harness: Harness, disconnect: Disconnect) -> str:
    """Say what full packs give at the positives of a shell where that differs."""
    at: dict[str, list[str]] = {}
    for contact in disconnect.shell.contacts:
        full_v = harness.results.full_v.get((disconnect.name, contact))
        if full_v is not None:
            at.setdefault(f"{decimal(full_v)} V", []).append(contact)
    said = "; ".join(f"{given} at {contacts_text(contacts)}" for given, contacts in at.items())
    return f"Full packs: {said}" if len(at) > 1 else ""


def _labels(harness: Harness, names: Iterable[str]) -> str:
    return ", ".join(harness.every_circuit[name].label for name in names)


def _served(common: Common) -> list[str]:
    """Return the circuits that share a common: all that arrive there but a heavy pair, which ends there."""
    arriving = dict.fromkeys(lead.circuit for half in common.halves for lead, _ in half.wires)
    heavy = [name for name in common.feeders if name not in common.circuits]
    return [name for name in arriving if name not in heavy] or list(arriving)


def _common(harness: Harness, common: Common, index: int) -> str:
    """Say what feeds a common and what shares it, what is spliced behind this half, and its note."""
    behind = common.halves[index]
    here = dict.fromkeys(lead.circuit for lead, _ in behind.wires)
    heavy = [name for name in common.feeders if name not in common.circuits]
    how = "spliced here" if behind.tails else "straight in"
    said = [
        f"fed by {_labels(harness, heavy)}" if heavy else "",
        f"for {_labels(harness, _served(common))}",
        f"{how}: {_labels(harness, here) or 'nothing'}",
        common.form.note,
    ]
    return f"{common.name} {'+'.join(common.contacts)} · {' · '.join(part for part in said if part)}"


def half_face(card: HalfCard, corner: Corner | None, last: str) -> Face:
    """Return what stands on a card."""
    way = "key as it sits in the hatch" if card.turned else "not turned to the hatch"
    way = way if card.mating.key else "no key to turn it by: go by contact 1 and the colours"
    of = ViewsOf([(card.mating, card.wire_side), card.upright], _view_contacts(card), way, card.to_scale)
    tables = contact_table(card.rows, WIDTH_MM), contact_table(card.rows, WIDTH_MM, small=True)
    return Face(
        name=card.name,
        beside=f"{card.half} · {card.gender}",
        where=(card.where,),
        said=card.said,
        corner=corner,
        last=last,
        tables=tables,
        views=lambda room, anyhow: views_blocks(of, WIDTH_MM, room, anyhow=anyhow),
        opens=card.is_first,
    )


def _view_contacts(card: HalfCard) -> dict[str, ViewContact]:
    """Return what is written at each contact; the square is on contact 1, without one on the first."""
    names = list(card.mating.at_mm)
    first = "1" if "1" in names else names[0]
    colours = {row.contact: row.colour for row in card.rows}
    return {name: ViewContact(name, colours.get(name, ""), name == first) for name in names}
