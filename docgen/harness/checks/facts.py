"""What every check gets, and what a check is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from docgen.basics.findings import Finding, Kind
from docgen.definition.model import Parts, Where
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import Loadings
from docgen.harness.model.harness import Harness
from docgen.harness.remedies.search import Remedies


@dataclass(frozen=True)
class Facts:
    """A harness as built, its electricity, what all carries, remedies to be had, the parts list, where it was typed."""

    harness: Harness
    electricity: Electricity
    loadings: Loadings
    remedies: Remedies
    parts: Parts
    where: Where


class Check(Protocol):
    """A module that says what kind of finding it makes, and finds them.

    A finding about a value stands at the value, one about something missing at the entry's key.
    """

    KIND: Kind

    def find(self, facts: Facts) -> Iterator[Finding]:
        """Walk what it finds."""
