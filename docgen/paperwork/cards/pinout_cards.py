"""All cards that are taped up: one for each half of each disconnect, then one for each piece of equipment."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from docgen.harness.model.harness import Harness
from docgen.paperwork.cards.equipment import EquipmentCard, add_equipment, equipment_card
from docgen.paperwork.cards.halves import HalfCard, add_half, half_card
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.typesetting.codes import numbered_texts
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import Page, cut_line
from docgen.paperwork.typesetting.title_block import Corner, Foot, TitleBlock, foot_height_mm
from docgen.paperwork.typesetting.writer import PageWriter

STEM = "pinout-cards"
CAUTION = "Packs unplugged and switched off before a half is parted or mated. Hold the shells, never pull by the wires."
_CODE_VERSION = 10  # the largest code that a card of this size holds
_NOTES_MM = 4.0  # by which the notes beside the code may make the foot higher; longer ones stand below the table


@dataclass(frozen=True)
class Cards:
    """The cards of halves, both of each disconnect, and those of equipment."""

    halves: tuple[HalfCard, ...]
    equipment: tuple[EquipmentCard, ...]

    @property
    def hashes(self) -> dict[tuple[str, ...], str]:
        """Return the hash of each card, by the names of a disconnect and its half, or by the name of equipment."""
        halves = {card.key: card.content_hash for card in self.halves}
        return halves | {(card.name,): card.content_hash for card in self.equipment}


def content(harness: Harness) -> Cards:
    """Return all cards of a harness."""
    disconnects, equipment = harness.disconnects.values(), harness.equipment.values()
    return Cards(
        tuple(half_card(harness, disconnect, index) for disconnect in disconnects for index in (0, 1)),
        tuple(equipment_card(harness, entry) for entry in equipment if entry.has_card),
    )


def compose(items: Cards, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages of all cards."""
    pages = [page for card in items.halves for page in _pages(card, add_half, layout, title_block)]
    pages += [page for card in items.equipment for page in _pages(card, add_equipment, layout, title_block)]
    return Composed(pages)


def _pages(
    card: HalfCard | EquipmentCard,
    add: Callable[[PageWriter, Any, Sequence[str]], None],
    layout: PageLayout,
    title_block: TitleBlock,
) -> list[Page]:
    """Return the pages of one card, numbered by themselves, each with the line along which it is cut out."""
    state = f"rev {card.since} · {title_block.date}"
    foot = Foot(title_block, CAUTION, state, card.content_hash, _codes(card, title_block))
    foot, notes = _with_notes_beside(foot, card.notes, layout.paper[0] - 2 * layout.margin)
    writer = PageWriter(layout.paper, layout.margin, foot, 1.5)
    add(writer, card, notes)
    pages = writer.finished()
    for page in pages:
        page.add(cut_line(page))
    return pages


def _codes(card: HalfCard | EquipmentCard, title_block: TitleBlock) -> tuple[Corner, ...]:
    """Return the codes of a card: a link to its part of the record, or else the card itself as texts."""
    linked, whose = card.code_words
    link = title_block.link(card.part)
    if link is not None:
        return (Corner(link, f"this {linked} in the record"),)
    first, *lines = card.code_lines
    texts = numbered_texts(f"{title_block.marks} {first} since {card.since} {card.content_hash}", lines, _CODE_VERSION)
    counts = [f", {number} of {len(texts)}" if len(texts) > 1 else "" for number in range(1, len(texts) + 1)]
    return tuple(Corner(text, f"this {whose} as text{count}") for text, count in zip(texts, counts, strict=True))


def _with_notes_beside(foot: Foot, notes: list[str], width: float) -> tuple[Foot, list[str]]:
    """Return the foot with those notes beside its codes that make it hardly higher, and the other notes."""
    feet = [replace(foot, beside=tuple(notes[:count])) for count in range(len(notes) + 1)]
    most = foot_height_mm(foot, width) + _NOTES_MM
    count = max(count for count, one in enumerate(feet) if count == 0 or foot_height_mm(one, width) <= most)
    return feet[count], notes[count:]
