"""What every check gets, and what a check is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from docgen.basics.findings import Finding, Kind, RemedyValue
from docgen.definition.model import Parts, Where
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import Loadings
from docgen.harness.model.harness import Harness
from docgen.harness.remedies.search import Remedies

# What is over a bound, or under it, by no more than this is rounding noise; a length is measured to a tenth of a mm.
CLOSE = 1e-9
ROUNDING_MM = 0.05


@dataclass(frozen=True)
class Facts:
    """A harness as built, its electricity, what all carries, remedies to be had, the parts list, where it was typed."""

    harness: Harness
    electricity: Electricity
    loadings: Loadings
    remedies: Remedies
    parts: Parts
    where: Where

    def found(
        self, kind: Kind, path: tuple[str | int, ...], sentence: str, do: str, remedy: RemedyValue | None = None
    ) -> Finding:
        """Return a finding at the value that a path leads to, on the entry, common or antenna that the value is of."""
        section, name, *below = path
        subject = str(section), str(name)
        if len(below) > 1 and below[0] in ("commons", "antennas"):
            subject = str(below[0]), f"{name} {below[1]}"
        return kind.at(self.where.value(str(section), name, *below), sentence, do, subject, remedy)


class Check(Protocol):
    """A module that says what kind of finding it makes, and finds them.

    A finding about a value stands at the value, one about something missing at the entry's key.
    """

    KIND: Kind

    def find(self, facts: Facts) -> Iterator[Finding]:
        """Walk what it finds."""
