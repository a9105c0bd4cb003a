"""The card of one half of a disconnect: both views, and what every contact carries."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from docgen.harness.model.circuits import Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, ContactUse, Disconnect
from docgen.paperwork.cards.contact_table import CardRow, add_table
from docgen.paperwork.cards.view_letters import ViewContact
from docgen.paperwork.cards.view_pair import ViewsOf, add_views
from docgen.paperwork.cards.views import View, mating_view, wire_view
from docgen.paperwork.hashes import digest
from docgen.paperwork.naming import half_title, mates_text, part_path, place_text
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, TITLE_MM
from docgen.paperwork.typesetting.writer import PageWriter

_NOT_CHECKED = "Not yet held against the part in hand: check numbers and key before you fill it."


@dataclass(frozen=True)
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
    commons: tuple[str, ...]
    checked: str
    lock: str
    keyed: str
    note: str
    since: str

    @cached_property
    def content_hash(self) -> str:
        """Return the first characters of its content's hash."""
        return digest(self)

    @property
    def part(self) -> str:
        """Return where its part of the record stands in the output folder."""
        return part_path("disconnect", self.name)

    @property
    def notes(self) -> list[str]:
        """Return what is said of the half as a whole."""
        checked = f"Pattern held against the part on {self.checked}." if self.checked else _NOT_CHECKED
        keyed = f"Keyed {self.keyed}: mates with no other letter." if self.keyed else ""
        lock = f"Lock: {self.lock}" if self.lock else ""
        return [text for text in (checked, keyed, lock, self.note) if text]

    @property
    def code_words(self) -> tuple[str, str]:
        """Return what a code says it is: of what the record that it links to is, and whose text it holds."""
        return "joint", "half"

    @property
    def code_lines(self) -> list[str]:
        """Return the lines of codes that carry the card itself, the first of them on each."""
        rows = (row for row in self.rows if row.mark)
        said = [f"{row.contact} {row.colour}{row.gauge.removesuffix(' AWG')} {row.function}" for row in rows]
        return [f"disconnect-{self.name} {self.half}", *said]


def half_card(harness: Harness, disconnect: Disconnect, index: int) -> HalfCard:
    """Return one half's card."""
    half, shell = disconnect.halves[index], disconnect.shell
    place = harness.places[half.place]
    rows = tuple(_row(harness, disconnect, contact, index) for contact in shell.contacts)
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
        commons=tuple(_common(harness, common, index) for common in disconnect.commons.values()),
        checked=shell.checked or "",
        lock=shell.lock,
        keyed=disconnect.form.keyed,
        note=disconnect.form.note,
        since=harness.aircraft.revision,
    )


def _row(harness: Harness, disconnect: Disconnect, contact: str, index: int) -> CardRow:
    use: ContactUse | None = disconnect.uses.get(contact)
    if use is None:
        return CardRow(contact, "", "", "spare", "", "", "")
    wire = use.wires.get(disconnect.halves[index].name)
    start, goal = _from_and_to(harness, disconnect, use)
    share = harness.results.contacts.get((disconnect.name, contact))
    used = "" if share is None else f"{100 * share:.0f}"
    common = use.of if use.is_common else ""
    if wire is None:
        return CardRow(contact, "", "", use.label, start, goal, "", common, used)
    gauge, mark = wire.kind.gauge.text, wire.mark if isinstance(wire, Wire) else "tail"
    return CardRow(contact, wire.colour, gauge, use.label, start, goal, mark, common, used)


def _from_and_to(harness: Harness, disconnect: Disconnect, use: ContactUse) -> tuple[str, str]:
    """Say where a contact's circuit begins and ends; of a common, where it comes from and whom it serves."""
    if use.is_common:
        common = disconnect.commons[use.of]
        starts = dict.fromkeys(harness.circuits[name].start.text for name in common.feeders)
        served = _served(common)
        to = harness.circuits[served[0]].load_text if len(served) == 1 else f"{len(served)} circuits"
        return ", ".join(starts), to
    circuit = harness.circuits[use.of]
    return circuit.start.text, circuit.load_text


def _labels(harness: Harness, names: Iterable[str]) -> str:
    return ", ".join(harness.circuits[name].label for name in names)


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


def add_half(writer: PageWriter, card: HalfCard, notes: Sequence[str]) -> None:
    """Set a card; `notes` are those that have no room beside its code."""
    writer.heading(card.name, TITLE_MM, keep_mm=20)
    writer.heading(f"{card.half} · {card.gender}", LARGE_MM, keep_mm=20)
    writer.paragraph(card.where, PLAIN_MM)
    writer.paragraph(f"{card.shell} · {card.mates}", SMALL_MM)
    writer.space(1.2)
    again = f"{card.name} · {card.key[1]} · {card.gender}, continued"
    writer.on_new_page = lambda writer: writer.heading(again, LARGE_MM, 0)
    way = "key as it sits in the hatch" if card.turned else "not turned to the hatch"
    way = way if card.mating.key else "no key to turn it by: go by contact 1 and the colours"
    used = "%: of its rating" if any(row.used for row in card.rows) else ""
    pairs = [(card.mating, card.wire_side), card.upright]
    add_views(writer, ViewsOf(pairs, _view_contacts(card), way, card.to_scale, used))
    add_table(writer, card.rows, card.commons, notes)


def _view_contacts(card: HalfCard) -> dict[str, ViewContact]:
    """Return what is written at each contact; the square is on contact 1, without one on the first."""
    names = [row.contact for row in card.rows]
    first = "1" if "1" in names else names[0]
    return {row.contact: ViewContact(row.contact, row.colour, row.contact == first) for row in card.rows}
