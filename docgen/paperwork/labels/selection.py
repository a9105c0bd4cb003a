"""Which labels are printed, as the builder asked: labels of a harness in, those that are wanted out.

What is named beside circuits may be joints and equipment, whose cards are wanted then.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from docgen.basics.findings import nearest
from docgen.basics.frozen import frozen
from docgen.harness.model.harness import Harness
from docgen.paperwork.labels.content import LabelContent
from docgen.paperwork.naming import names_of_cards


@frozen
class Selection:
    """Labels of some circuits, at some places (none: all); from which cell on; how often each."""

    circuits: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    first: int = 1
    copies: int = 1

    def unknown(self, harnesses: Sequence[Harness]) -> list[str]:
        """Say which circuits and places are in none of the harnesses, with the nearest names."""
        circuits = [name for harness in harnesses for name in (*harness.circuits, *names_of_cards(harness))]
        places = [name for harness in harnesses for name in harness.places]
        return [
            *_unknown("circuit, joint or equipment with a card", self.circuits, circuits),
            *_unknown("place", self.places, places),
        ]

    @property
    def says(self) -> str:
        """Say which labels are wanted: `of rudder and at left-root`."""
        words = (("of", self.circuits), ("at", self.places))
        return " and ".join(f"{word} {' or '.join(names)}" for word, names in words if names) or "wanted"

    def wanted(self, items: LabelContent) -> tuple[LabelContent, list[str]]:
        """Return the labels that are wanted, and what the builder is told where there are none."""
        found = self.of(items)
        return found, [] if found.labels else [f"no label is {self.says}."]

    def of(self, items: LabelContent) -> LabelContent:
        """Return the labels that are wanted."""
        labels = tuple(
            label
            for label in items.labels
            if (not self.circuits or label.key.circuit in self.circuits)
            and (not self.places or label.place in self.places)
        )
        return replace(items, labels=labels, first=self.first, copies=self.copies)


def _unknown(what: str, wanted: Sequence[str], known: Sequence[str]) -> list[str]:
    """Say of each wanted name that is not known that it is not there."""
    offers = ((name, nearest(name, known)) for name in wanted if name not in known)
    return [f"there is no {what} '{name}'" + (f"; did you mean '{offer}'?" if offer else ".") for name, offer in offers]
