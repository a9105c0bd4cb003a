"""Equipment cards: what is plugged in where, for everything that the harness plugs into with several ports."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Equipment, PortUse
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards.half_cards import CAUTION, CODE_VERSION
from docgen.paperwork.cards.pages import add_notes, codes_of, finish, with_notes_beside
from docgen.paperwork.items import digest
from docgen.paperwork.naming import part_path, place_text
from docgen.paperwork.stocks.layouts import PageLayout
from docgen.paperwork.typesetting.codes import numbered_texts
from docgen.paperwork.typesetting.ink import Page
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.title_block import Foot, TitleBlock, foot_height_mm
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, TITLE_MM
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

_CODE_LEAVES_OUT = ("", "hold", "centre")  # so that most cards do with one code
_ENGINES = ("engine unit", "speed controller", "motor", "smoke", "pump")


@dataclass(frozen=True)
class PortRow:
    """One port: the function plugged in there, the other end, its channel, and what it does without the radio."""

    port: str
    function: str
    far: str
    channel: str
    failsafe: str


@dataclass(frozen=True)
class EquipmentCard:
    """The content of one piece of equipment's card."""

    key: str
    name: str
    kind: str
    where: str
    feeds: str
    rows: tuple[PortRow, ...]
    on: str
    off: str
    note: str
    since: str

    @property
    def hash8(self) -> str:
        """Return the first characters of its content's hash."""
        return digest(self)


def content(harness: Harness) -> tuple[EquipmentCard, ...]:
    """Return the cards of all equipment with ports of its own."""
    return tuple(equipment_card(harness, equipment) for equipment in harness.equipment.values() if equipment.has_card)


def equipment_card(harness: Harness, equipment: Equipment) -> EquipmentCard:
    """Return the card of one piece of equipment."""
    place = harness.places[equipment.place]
    isolates = ", kept apart" if equipment.isolates else ""
    return EquipmentCard(
        key=equipment.name,
        name=equipment.name,
        kind=equipment.kind,
        where=f"at {place_text(place)}",
        feeds=f"fed by {', '.join(equipment.fed_by)}{isolates}" if equipment.fed_by else "",
        rows=tuple(_row(harness, port) for port in equipment.ports),
        on=equipment.form.on,
        off=equipment.form.off,
        note=equipment.form.note,
        since=harness.aircraft.revision,
    )


def _row(harness: Harness, port: PortUse) -> PortRow:
    circuit = port.circuit
    name = port.name or "own lead"
    if circuit is None:
        return PortRow(name, "free", "", "", "")
    channel = str(circuit.form.channel) if circuit.form.channel is not None else ""
    failsafe = circuit.form.failsafe or ("not set" if _drives(harness, circuit) else "")
    return PortRow(name, circuit.label, port.far, channel, failsafe)


def _drives(harness: Harness, circuit: Circuit) -> bool:
    """Tell whether a signal drives an engine, a motor or smoke by a circuit, so that cards must say its fail-safe."""
    kinds = [harness.equipment[end.name].kind for end in circuit.loads if end.is_port]
    signal = circuit.form.channel is not None or any(lead.wire("signal") is not None for lead in circuit.leads)
    return signal and any(kind in _ENGINES for kind in kinds)


def short_form(card: EquipmentCard, title_block: TitleBlock) -> list[str]:
    """Return the texts of the codes that carry the card itself, where the record does not stand on the web."""
    first = f"{title_block.marks} equipment-{card.key} since {card.since} {card.hash8}"
    lines = [
        f"{row.port} {row.function}"
        + (f" ch {row.channel}" if row.channel else "")
        + (f" fail-safe {row.failsafe}" if row.failsafe not in _CODE_LEAVES_OUT else "")
        for row in card.rows
    ]
    return numbered_texts(first, lines, CODE_VERSION)


def compose(items: tuple[EquipmentCard, ...], layout: PageLayout, title_block: TitleBlock) -> list[Page]:
    """Return the pages of all cards; page numbers count within one card."""
    return [page for card in items for page in _compose_card(card, layout, title_block)]


def _compose_card(card: EquipmentCard, layout: PageLayout, title_block: TitleBlock) -> list[Page]:
    link = title_block.link(part_path("equipment", card.key))
    codes = codes_of(link, card.kind, lambda: short_form(card, title_block), "card")
    switching = [f"{word}: {said}" for word, said in (("On", card.on), ("Off", card.off)) if said]
    notes = (*switching, *([card.note] if card.note else []))
    state = f"rev {card.since} · {title_block.date}"
    width = layout.paper[0] - 2 * layout.margin
    feet, below = with_notes_beside(
        [Foot(title_block, CAUTION, state, card.hash8, corner) for corner in codes], notes, width
    )
    bottom = layout.margin + max(foot_height_mm(foot, width) for foot in feet) + 1.5
    writer = PageWriter(layout.paper, layout.margin, bottom)
    writer.new_page()
    writer.heading(card.name, TITLE_MM, keep_mm=20)
    writer.on_new_page = lambda writer: writer.heading(f"{card.name}, continued", LARGE_MM, 0)
    if card.kind != card.name:
        writer.heading(card.kind, LARGE_MM, keep_mm=10)
    writer.paragraph(card.where, PLAIN_MM)
    if card.feeds:
        writer.paragraph(card.feeds, SMALL_MM)
    writer.space(1.2)
    _table(writer, card)
    add_notes(writer, below)
    return finish(writer, feet, layout.margin)


def _table(writer: PageWriter, card: EquipmentCard) -> None:
    failsafe = any(row.failsafe for row in card.rows)
    columns = [
        Column("port", LARGE_MM, bold=True, gives=True, least_mm=PLAIN_MM),
        Column("function", LARGE_MM, bold=True, gives=True, wraps=True),
        Column("other end", PLAIN_MM, gives=True, wraps=True),
        Column("channel", PLAIN_MM, align="right"),
        *([Column("fail-safe", PLAIN_MM)] if failsafe else []),
    ]
    rows = [(row.port, row.function, row.far, row.channel, *([row.failsafe] if failsafe else [])) for row in card.rows]
    writer.table(columns, rows, TableStyle(5.2), "")
