"""All cards that are taped up: one for each half of each disconnect, then one for each piece of equipment."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.harness.model.harness import Harness
from docgen.paperwork.cards import equipment_cards
from docgen.paperwork.cards import half_cards as pinout_cards
from docgen.paperwork.cards.equipment_cards import EquipmentCard
from docgen.paperwork.cards.half_cards import Card
from docgen.paperwork.stocks.layouts import PageLayout
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.title_block import TitleBlock

STEM = "pinout-cards"


@dataclass(frozen=True)
class Cards:
    """The cards of halves and those of equipment."""

    halves: tuple[Card, ...]
    equipment: tuple[EquipmentCard, ...]


def content(harness: Harness) -> Cards:
    """Return all cards of a harness."""
    return Cards(pinout_cards.content(harness), equipment_cards.content(harness))


def compose(items: Cards, layout: PageLayout, title_block: TitleBlock) -> Composed:
    """Return the pages of all cards."""
    return Composed(
        pinout_cards.compose(items.halves, layout, title_block)
        + equipment_cards.compose(items.equipment, layout, title_block)
    )
