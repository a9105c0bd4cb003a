"""Give out the contacts of a disconnect, in the order in which circuits are written.

Each circuit gets one block: consecutive contacts in number order. A block is split over a gap only where no
way of giving them out can avoid it. What the builder pinned stands; what was issued stands where it can.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, combinations

_MOST_SEARCHED = 100  # circuits through one shell
_MOST_STEPS = 20_000  # of search; past them the first fit is taken, a split more or less


@dataclass(frozen=True)
class Demand:
    """What one circuit needs: how many contacts, and which are pinned or were issued (none: any).

    At a plain joint of plugs roles have their contacts, and `no_others` will do.
    """

    circuit: str
    count: int
    pinned: tuple[str, ...] = ()
    issued: tuple[str, ...] = ()
    no_others: bool = False


def give_contacts(contacts: Sequence[str], demands: Sequence[Demand]) -> tuple[dict[str, tuple[str, ...]], list[str]]:
    """Return the contacts of each circuit, and the circuits that did not fit."""
    free = list(contacts)
    given: dict[str, tuple[str, ...]] = {}
    for held in ("pinned", "issued"):
        for demand in demands:
            wanted: tuple[str, ...] = getattr(demand, held)
            if demand.circuit not in given and len(wanted) == demand.count and all(c in free for c in wanted):
                given[demand.circuit] = wanted
                free = [contact for contact in free if contact not in wanted]
    fitting: list[Demand] = []
    unfit: list[str] = []
    room = len(free)
    for demand in demands:
        if demand.circuit in given:
            continue
        if demand.count <= room and not demand.no_others:
            fitting.append(demand)
            room -= demand.count
        else:
            unfit.append(demand.circuit)
    number = {contact: i for i, contact in enumerate(contacts)}
    blocks = _fewest_splits([number[contact] for contact in free], [demand.count for demand in fitting])
    for demand, block in zip(fitting, blocks, strict=True):
        given[demand.circuit] = tuple(contacts[i] for i in block)
    return given, unfit


def _fewest_splits(free: list[int], counts: list[int]) -> list[list[int]]:
    """Return a block of numbers for each count, in order, lowest first, with the fewest blocks split."""
    blocks = _first_fit(free, counts)
    if all(map(_whole, blocks)) or len(counts) > _MOST_SEARCHED:
        return blocks
    for splits in range(len(counts) + 1):
        found = _Search(counts).run(tuple(free), 0, splits)
        if found is not None:
            return found
    return blocks


class _Search:
    """A search for blocks with a given number of splits; gives up after a fixed number of steps."""

    def __init__(self, counts: list[int]) -> None:
        self.counts = counts
        self.steps = 0
        self.failed: set[tuple[tuple[int, ...], int, int]] = set()

    def run(self, free: tuple[int, ...], index: int, splits: int) -> list[list[int]] | None:
        if index == len(self.counts):
            return []
        state = (free, index, splits)
        self.steps += 1
        if state in self.failed or self.steps > _MOST_STEPS:
            return None
        count = self.counts[index]
        choices: Iterable[list[int]] = _blocks(free, count)
        if splits:
            choices = chain(choices, map(list, combinations(free, count)))
        for block in choices:
            if self.steps > _MOST_STEPS:
                break
            used = splits - (0 if _whole(block) else 1)
            if used < 0:
                continue
            rest = self.run(tuple(i for i in free if i not in block), index + 1, used)
            if rest is not None:
                return [block, *rest]
        self.failed.add(state)
        return None


def _blocks(free: Sequence[int], count: int) -> list[list[int]]:
    starts = range(len(free) - count + 1)
    return [list(free[i : i + count]) for i in starts if free[i + count - 1] - free[i] == count - 1]


def _whole(block: list[int]) -> bool:
    return not block or block[-1] - block[0] == len(block) - 1


def _first_fit(free: list[int], counts: list[int]) -> list[list[int]]:
    left = list(free)
    blocks = []
    for count in counts:
        block = (_blocks(left, count) or [left[:count]])[0]
        blocks.append(block)
        left = [i for i in left if i not in block]
    return blocks
