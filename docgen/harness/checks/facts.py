"""What every check gets, and what a check is."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Protocol

from docgen.basics.findings import Finding, Kind, Level, RemedyValue
from docgen.basics.frozen import frozen
from docgen.definition.model import Parts, Where
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import Loadings
from docgen.harness.model.harness import Harness
from docgen.harness.remedies.search import Remedies

# What a check finds, by its level.
caution = partial(Kind, level=Level.CAUTION)
note = partial(Kind, level=Level.NOTE)

# What is over a bound, or under it, by no more than this is rounding noise; a length is measured to a tenth of a mm.
CLOSE = 1e-9
ROUNDING_MM = 0.05

Path = tuple[str | int, ...]
"""Keys, and numbers of items, one below the other."""


@frozen
class Facts:
    """A harness as built, its electricity, what all carries, remedies to be had, the parts list, where it was typed."""

    harness: Harness
    electricity: Electricity
    loadings: Loadings
    remedies: Remedies
    parts: Parts
    where: Where

    def found(
        self,
        kind: Kind,
        path: Path,
        sentence: str,
        do: str,
        remedy: RemedyValue | None = None,
        over: float = 0.0,
        half: str = "",
    ) -> Finding:
        """Return a finding at the value that a path leads to, on the entry that the value is of."""
        section, *below = path
        position = self.where.value(str(section), *below)
        return kind.at(position, sentence, do, subject_of(str(section), *below), remedy, over, half)


def subject_of(section: str, *path: str | int) -> tuple[str, str]:
    """Return the entry on a path as findings name it: an antenna or common, else what stands in its section."""
    match path:
        case (name, ("antennas" | "commons") as below, inner, *_):
            return str(below), f"{name} {inner}"
        case (name, *_):
            return section, str(name)
    return section, section


class Check(Protocol):
    """A module that says what kind of finding it makes, and finds them.

    A finding about a value stands at the value, one about something missing at the entry's key.
    """

    KIND: Kind

    def find(self, facts: Facts) -> Iterator[Finding]:
        """Walk what it finds."""
