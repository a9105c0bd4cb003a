"""Take states of issues that are not said to be built; return the cards that they may have left in the aircraft."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.definition.identity import identify, known_of_state
from docgen.definition.issued import State
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.standing import SHEETS
from docgen.reissue.differences import ABOARD


def leftover(old: State, new: State, unbuilt: Sequence[State]) -> dict[str, tuple[str, ...]]:
    """Return the hashes that cards and documents aboard have neither as they were nor now, under the names of now."""
    known = [set(_printed(state, new).items()) for state in (old, new)]
    found: dict[str, tuple[str, ...]] = {}
    for state in unbuilt:
        for card, of in _printed(state, new).items():
            if all((card, of) not in some for some in known) and of not in found.get(card, ()):
                found[card] = (*found.get(card, ()), of)
    return found


def _printed(state: State, now: State) -> dict[str, str]:
    """Return the hashes of cards and of documents that are kept aboard."""
    same = identify(known_of_state(state), known_of_state(now))
    cards = state.items.get(pinout_cards.STEM, {})
    named = {" ".join([same.name(card.split(" ")[0]), *card.split(" ")[1:]]): item.hash for card, item in cards.items()}
    return named | {name: item.hash for name, item in state.items.get(SHEETS, {}).items() if name in ABOARD}
