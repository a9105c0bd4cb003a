"""Pin-out cards: for each half of each disconnect, both views and what every contact carries."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, ContactUse, Disconnect
from docgen.paperwork.cards.faces import View, mating_view, wire_view
from docgen.paperwork.cards.letters import ViewContact
from docgen.paperwork.cards.pages import add_notes, codes_of, finish, with_notes_beside
from docgen.paperwork.cards.table import CardRow, add_table, table_fits
from docgen.paperwork.cards.views import ViewsOf, add_views
from docgen.paperwork.items import digest
from docgen.paperwork.naming import half_title, mates_text, part_path, place_text
from docgen.paperwork.stocks.layouts import PageLayout
from docgen.paperwork.typesetting.codes import numbered_texts
from docgen.paperwork.typesetting.ink import Page
from docgen.paperwork.typesetting.title_block import Foot, TitleBlock, foot_height_mm
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, TITLE_MM
from docgen.paperwork.typesetting.writer import PageWriter

CAUTION = "Packs unplugged and switched off before a half is parted or mated. Hold the shells, never pull by the wires."
CODE_VERSION = 10  # the largest code that a card of this size holds
NOT_CHECKED = "Not yet held against the part in hand: check numbers and key before you fill it."


@dataclass(frozen=True)
class Card:
    """The content of one half's card."""

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

    @property
    def hash8(self) -> str:
        """Return the first characters of its content's hash."""
        return digest(self)


def content(harness: Harness) -> tuple[Card, ...]:
    """Return the cards of all halves."""
    return tuple(card_of(harness, disconnect, index) for disconnect in harness.disconnects.values() for index in (0, 1))


def card_of(harness: Harness, disconnect: Disconnect, index: int) -> Card:
    """Return one half's card."""
    half, shell = disconnect.halves[index], disconnect.shell
    place = harness.places[half.place]
    rows = tuple(_row(harness, disconnect, contact, index) for contact in shell.contacts)
    return Card(
        key=(disconnect.name, half.name),
        name=disconnect.name,
        half=half_title(half),
        gender=half.gender,
        where=f"at {place_text(place)}",
        mates=mates_text(harness, disconnect, index),
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
        spare = "spare"
        nothing = ""
        return CardRow(contact, "", "", spare, nothing, nothing, "")
    wire = use.wires[index]
    start, goal = _from_and_to(harness, disconnect, use)
    share = harness.results.contacts.get((disconnect.name, contact))
    used = "" if share is None else f"{100 * share:.0f}"
    if wire is None:
        return CardRow(contact, "", "", use.label, start, goal, "", use.common, used)
    gauge, mark = wire.kind.gauge.text, wire.mark or "tail"
    return CardRow(contact, wire.colour, gauge, use.label, start, goal, mark, use.common, used)


def _from_and_to(harness: Harness, disconnect: Disconnect, use: ContactUse) -> tuple[str, str]:
    """Say where a contact's circuit begins and ends; of a common, where it comes from and whom it serves."""
    if use.common:
        common = disconnect.commons[use.common]
        starts = dict.fromkeys(harness.circuits[name].start.text for name in common.feeders)
        served = _served(common)
        to = harness.circuits[served[0]].load_text if len(served) == 1 else f"{len(served)} circuits"
        return ", ".join(starts), to
    circuit = harness.circuits[use.circuit]
    goal = circuit.load_text
    return circuit.start.text, goal


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


def short_form(card: Card, title_block: TitleBlock) -> list[str]:
    """Return the texts of the codes that carry the card itself, where the record does not stand on the web."""
    first = f"{title_block.marks} disconnect-{card.key[0]} {card.half} since {card.since} {card.hash8}"
    lines = [
        f"{row.contact} {row.colour}{row.gauge.removesuffix(' AWG')} {row.function}" for row in card.rows if row.mark
    ]
    return numbered_texts(first, lines, CODE_VERSION)


def compose(items: tuple[Card, ...], layout: PageLayout, title_block: TitleBlock) -> list[Page]:
    """Return the pages of all cards; page numbers count within one card."""
    return [page for card in items for page in _compose_card(card, layout, title_block)]


def _compose_card(card: Card, layout: PageLayout, title_block: TitleBlock) -> list[Page]:
    link = title_block.link(part_path("disconnect", card.key[0]))
    codes = codes_of(link, "joint", lambda: short_form(card, title_block), "half")
    state = f"rev {card.since} · {title_block.date}"
    width = layout.paper[0] - 2 * layout.margin
    feet = [Foot(title_block, CAUTION, state, card.hash8, corner) for corner in codes]
    feet, notes = with_notes_beside(feet, _notes(card), width)
    bottom = layout.margin + max(foot_height_mm(foot, width) for foot in feet) + 1.5
    writer = PageWriter(layout.paper, layout.margin, bottom)
    writer.new_page()
    _title(writer, card)
    half = f"{card.half.removesuffix(' half')} · {card.gender}"
    writer.on_new_page = lambda writer: writer.heading(f"{card.name} · {half}, continued", LARGE_MM, 0)
    way = "key as it sits in the hatch" if card.turned else "not turned to the hatch"
    way = way if card.mating.key else "no key to turn it by: go by contact 1 and the colours"
    used = "%: of its rating" if any(row.used for row in card.rows) else ""
    pairs = [(card.mating, card.wire_side), card.upright]
    add_views(writer, ViewsOf(pairs, _view_contacts(card), way, card.to_scale, used))
    said, below = list(card.commons), list(notes)
    if table_fits(writer, card.rows, said + below):
        said, below = said + below, []
    add_notes(writer, below)
    add_table(writer, card.rows, said)
    return finish(writer, feet, layout.margin)


def _notes(card: Card) -> tuple[str, ...]:
    """Return what is said of the half as a whole."""
    keyed = f"Keyed {card.keyed}: mates with no other letter." if card.keyed else ""
    lock = f"Lock: {card.lock}" if card.lock else ""
    return tuple(text for text in (_checked(card), keyed, lock, card.note) if text)


def _checked(card: Card) -> str:
    return f"Pattern held against the part on {card.checked}." if card.checked else NOT_CHECKED


def _title(writer: PageWriter, card: Card) -> None:
    writer.heading(card.name, TITLE_MM, keep_mm=20)
    writer.heading(f"{card.half} · {card.gender}", LARGE_MM, keep_mm=20)
    writer.paragraph(card.where, PLAIN_MM)
    writer.paragraph(f"{card.shell} · {card.mates}", SMALL_MM)
    writer.space(1.2)


def _view_contacts(card: Card) -> dict[str, ViewContact]:
    names = [row.contact for row in card.rows]
    first = "1" if "1" in names else names[0]
    return {row.contact: ViewContact(row.contact, row.colour, row.contact == first) for row in card.rows}
