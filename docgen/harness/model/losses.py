"""What stops when one thing of a harness is lost, and what goes on another way. Values only."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from docgen.basics.frozen import frozen


class Thing(NamedTuple):
    """What can be lost: equipment, by its kind; a joint, a common of one, a splice of a circuit, or a lead.

    A lead is a whole circuit by its name, of one that divides all before its splice; behind it each for itself.
    """

    kind: str
    name: str


@frozen(slots=True)
class Function:
    """What works or is dead: equipment at the end of circuits, with the label by which it is known."""

    load: str
    label: str
    circuits: tuple[str, ...]


@frozen(slots=True)
class Loss:
    """Loads that stop when a thing is lost, loads that go on by another feed or signal, and receivers that stop."""

    thing: Thing
    stopped: tuple[str, ...]
    goes_on: tuple[str, ...]
    receivers: tuple[str, ...]


@frozen(slots=True)
class Losses:
    """All functions of a harness, and everything whose loss is more than that of one function's only lead."""

    functions: tuple[Function, ...] = ()
    losses: tuple[Loss, ...] = ()

    def labels(self, loads: Sequence[str]) -> list[str]:
        """Return by which labels loads are known."""
        return [function.label for function in self.functions if function.load in loads]
