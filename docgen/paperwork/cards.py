"""All cards that are taped up: one for each half of each disconnect, then one for each piece of equipment."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.harness.model import Harness
from docgen.paperwork import equipment_cards, pinout_cards
from docgen.paperwork.equipment_cards import EquipmentCard
from docgen.paperwork.imprint import Imprint
from docgen.paperwork.layouts import PageLayout
from docgen.paperwork.pages import Composed
from docgen.paperwork.pinout_cards import Card

STEM = "pinout-cards"


@dataclass(frozen=True)
class Cards:
    """The cards of halves and those of equipment."""

    halves: tuple[Card, ...]
    equipment: tuple[EquipmentCard, ...]


def content(harness: Harness) -> Cards:
    """Return all cards of a harness."""
    return Cards(pinout_cards.content(harness), equipment_cards.content(harness))


def compose(items: Cards, layout: PageLayout, imprint: Imprint) -> Composed:
    """Return the pages of all cards."""
    return Composed(
        pinout_cards.compose(items.halves, layout, imprint) + equipment_cards.compose(items.equipment, layout, imprint)
    )
