"""All cards that are taped up, of halves and of equipment: a harness in, sheets of cards to cut out."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import astuple, replace

from docgen.basics.frozen import frozen
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards.card_faces import CAUTION
from docgen.paperwork.cards.equipment import EquipmentCard, equipment_card, equipment_face
from docgen.paperwork.cards.halves import HalfCard, half_card, half_face
from docgen.paperwork.items import Item, item
from docgen.paperwork.layouts.forms import PageLayout
from docgen.paperwork.naming import names_of_cards
from docgen.paperwork.page_kit.card_sheets import CardInk, lay_cards
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.title_block import Corner, TitleBlock

STEM = "pinout-cards"


@frozen
class Cards:
    """The cards of halves, both of each disconnect, and those of equipment; `order` are their names by assembly."""

    halves: tuple[HalfCard, ...]
    equipment: tuple[EquipmentCard, ...]
    order: tuple[tuple[str, ...], ...]

    @property
    def hashes(self) -> dict[tuple[str, ...], str]:
        """Return the hash of each card, by the names of a disconnect and its half, or by the name of equipment."""
        halves = {card.key: card.content_hash for card in self.halves}
        return halves | {(card.name,): card.content_hash for card in self.equipment}

    def only(self, names: Sequence[str]) -> Cards:
        """Return the cards of joints and equipment of these names, all if none of them has that name."""
        kept = tuple(tuple(name for name in group if name in names) for group in self.order)
        return replace(self, order=kept) if any(kept) else self


def of_keys(cards: Cards, keys: Collection[str]) -> Cards:
    """Return the cards of these keys."""
    return replace(
        cards,
        halves=tuple(card for card in cards.halves if " ".join(card.key) in keys),
        equipment=tuple(card for card in cards.equipment if card.name in keys),
    )


def content(harness: Harness) -> Cards:
    """Return all cards of a harness."""
    equipment = [entry for entry in harness.equipment.values() if harness.has_here(entry.place)]
    return Cards(
        tuple(half_card(harness, joint, joint.halves.index(half)) for joint, half in harness.halves()),
        tuple(equipment_card(harness, entry) for entry in equipment if entry.has_card),
        _order(harness),
    )


def items(cards: Cards) -> list[Item]:
    """Return each card, as it is compared."""
    halves = [
        item(card.key, (card.name, card.half, card.gender, card.where, *_rows(card), *card.said), (), card.content_hash)
        for card in cards.halves
    ]
    return halves + [
        item((card.name,), (card.name, card.kind, card.where, *_rows(card), *card.said), (), card.content_hash)
        for card in cards.equipment
    ]


def _rows(card: HalfCard | EquipmentCard) -> list[str]:
    return [" ".join(astuple(row)) for row in card.rows]


def _order(harness: Harness) -> tuple[tuple[str, ...], ...]:
    """Return names by assembly; a joint belongs to the later one of its two, which is plugged to the other."""
    places = {entry.name: [entry.place] for entry in harness.equipment.values()}
    places |= {joint.name: [half.place for half in joint.halves] for joint in harness.disconnects.values()}
    assemblies = harness.assemblies
    groups: dict[int, list[str]] = {index: [] for index in range(len(assemblies))}
    for name in names_of_cards(harness):
        here = [place for place in places[name] if harness.has_here(place)]
        if here:
            groups[max(assemblies.index(harness.places[place].assembly) for place in here)].append(name)
    return tuple(tuple(names) for names in groups.values())


def compose(items: Cards, layout: PageLayout) -> Laid:
    """Lay out the sheets of all cards."""
    sheets = Sheets("Pin-out cards", layout.paper, CAUTION)
    return lambda title_block: Composed(lay_cards(sheets.of(title_block), _faces(items, title_block)))


def _faces(items: Cards, title_block: TitleBlock) -> list[CardInk]:
    cards: list[CardInk] = []
    for names in items.order:
        cards += [ink for card in items.halves if card.name in names for ink in _half(card, title_block)]
        alone = [ink for card in items.equipment if card.name in names for ink in _equipment(card, title_block)]
        cards += sorted(alone, key=lambda card: (-card.columns, card.half))
    return cards


def _half(card: HalfCard, title_block: TitleBlock) -> list[CardInk]:
    corner = _corner(title_block, card.part, "this joint in the record")
    return half_face(card, corner, _last(title_block, card)).cards()


def _equipment(card: EquipmentCard, title_block: TitleBlock) -> list[CardInk]:
    corner = _corner(title_block, card.part, f"this {card.kind} in the record")
    return equipment_face(card, corner, _last(title_block, card)).cards()


def _corner(title_block: TitleBlock, part: str, caption: str) -> Corner | None:
    """Return the code that leads to a card's part of the record, if that has an address."""
    link = title_block.link(part)
    return Corner(link, caption) if link is not None else None


def _last(title_block: TitleBlock, card: HalfCard | EquipmentCard) -> str:
    """Return a card's last line: whose it is, its state and its hash."""
    key = " ".join(card.key) if isinstance(card, HalfCard) else card.key
    state = title_block.parts.get(key, title_block.state)
    return f"{title_block.aircraft} · {title_block.marks} · {state} · {card.content_hash}"
