"""Take an opening and what goes through it; return in which order it does, and what has to wait till it is through."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum

from docgen.basics.frozen import frozen
from docgen.harness.assembly.things import Thing
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.openings import Size, passes

_MOST_TRIED = 7  # things through one opening of which every order is tried; of more the thickest go first


class Waits(IntEnum):
    """What is put on only when an end is through: nothing, its housing, or its contacts too."""

    NOTHING = 0
    HOUSING = 1
    CONTACTS = 2


@frozen
class Passage:
    """One thing that goes through, and what waits till then; a `stuck` one does not go through at all."""

    thing: Thing
    waits: Waits
    stuck: bool = False

    @property
    def cost(self) -> float:
        """Return how bad it is: what is crimped inside the airframe most, but for a splice, and where no hand reaches.

        What is stuck is worse than all else.
        """
        if self.stuck:
            return 1000.0
        waits = self.waits if self.thing.size_mm is not None else Waits.HOUSING
        unreached = 50.0 if waits is not Waits.NOTHING and not self.thing.reached else 0.0
        return {Waits.NOTHING: 0.0, Waits.HOUSING: 1.0, Waits.CONTACTS: 100.0}[waits] + unreached


def passages_of(opening_mm: Size, things: Sequence[Thing], lies_mm: Sequence[float] = ()) -> list[Passage]:
    """Return what goes through beside circles that lie in the opening already [mm], what is bound after all else."""
    order = order_of(opening_mm, [thing for thing in things if not thing.bound], lies_mm)
    lying_mm = _lying_mm(order, lies_mm)
    return [*order, *(passage_of(opening_mm, thing, lying_mm) for thing in things if thing.bound)]


def order_of(opening_mm: Size, things: Sequence[Thing], lies_mm: Sequence[float] = ()) -> list[Passage]:
    """Return what goes through in the order in which the least is left unfinished."""
    thickest = sorted(things, key=lambda thing: outside_diameter_mm(thing.circles_mm) - thing.through_mm)
    order: list[Passage] = []
    for thing in thickest:
        order.append(passage_of(opening_mm, thing, _lying_mm(order, lies_mm)))
    if len(things) > _MOST_TRIED or not _cost(order):
        return order
    return min(order, _best(opening_mm, thickest, lies_mm), key=_cost)


def _cost(order: Sequence[Passage]) -> float:
    return sum(passage.cost for passage in order)


def _best(opening_mm: Size, things: Sequence[Thing], lies_mm: Sequence[float]) -> list[Passage]:
    """Return the best of all orders: how something goes through depends on what is through, not in which order."""
    best: dict[frozenset[int], list[Passage]] = {frozenset(): []}
    for _ in things:
        longer: dict[frozenset[int], list[Passage]] = {}
        for done, order in best.items():
            for index in (index for index in range(len(things)) if index not in done):
                tried = [*order, passage_of(opening_mm, things[index], _lying_mm(order, lies_mm))]
                key = done | {index}
                if key not in longer or _cost(tried) < _cost(longer[key]):
                    longer[key] = tried
        best = longer
    return best[frozenset(range(len(things)))]


def _lying_mm(order: Sequence[Passage], lies_mm: Sequence[float]) -> list[float]:
    return [*lies_mm, *(circle for passage in order for circle in passage.thing.circles_mm)]


def passage_of(opening_mm: Size, thing: Thing, lies_mm: Sequence[float]) -> Passage:
    """Return how something goes through beside circles that lie in the opening already [mm]: as finished as it can."""
    beside_mm = outside_diameter_mm(lies_mm)
    if thing.whole and thing.size_mm is not None and passes(opening_mm, thing.size_mm, beside_mm):
        return Passage(thing, Waits.NOTHING)
    if not thing.made:
        return Passage(thing, Waits.NOTHING, stuck=True)
    if thing.contact_mm is not None:
        others_mm = outside_diameter_mm([*lies_mm, *thing.wires_mm[:-1]])
        if passes(opening_mm, (thing.contact_mm,), others_mm):
            return Passage(thing, Waits.HOUSING)
    whole_mm = outside_diameter_mm([*lies_mm, *thing.circles_mm])
    return Passage(thing, Waits.CONTACTS, stuck=not passes(opening_mm, (whole_mm,)))
