"""Take pieces and a shelf; return which comes off which spool: part-used ones first, then sealed, only then bought."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from itertools import combinations_with_replacement, count, groupby, product

from docgen.basics.frozen import frozen
from docgen.harness.assembly.packing import SEARCH_STEPS, Filling, Packer

# Where sold lengths can be mixed in more ways, only the mixture is looked at that follows from the longest.
MOST_MIXTURES = 500


@frozen
class ShelfSpool:
    """A spool on the shelf: its number in stores.yaml, from 1, and what is left on it."""

    number: int
    length_mm: float
    sealed: bool


@frozen
class Cut:
    """A spool that is cut from, and the indices of its pieces, the longest first.

    Its number is that on the shelf, or counts what is bought; `sealed` if it lay sealed on the shelf.
    """

    number: int
    length_mm: float
    sealed: bool
    bought: bool
    pieces: tuple[int, ...]
    rest_mm: float


@frozen
class SpoolPlan:
    """How pieces are cut; whatever is taken in the same order takes `least` spools, `proved` where ours takes no more.

    `too_long` are the indices of pieces longer than any spool, on the shelf or sold; they are on no spool.
    """

    cuts: tuple[Cut, ...]
    least: int
    proved: bool
    too_long: tuple[int, ...]
    bought_mm: float


def plan_spools(
    pieces_mm: Sequence[float], shelf: Sequence[ShelfSpool], sold_mm: Sequence[float], offcut_mm: float
) -> SpoolPlan:
    """Return from which spools to cut pieces; where no size is sold, what does not fit is bought by length.

    In this order: no piece left over, the fewest bought spools, the least bought length, the fewest sealed spools
    opened, the fewest part-used ones, the longest end of at least `offcut_mm` on one of these; so where one sealed
    spool must be opened and does for all, part-used ones stay whole. Of spools of a kind the longest are taken: if
    any do, they do. Lengths in mm, exact to 0.1 mm; cuts lose nothing.
    """
    pieces = [math.ceil(length * 10 - 1e-6) for length in pieces_mm]
    sold = sorted({tenths(length) for length in sold_mm})
    longest = max([*sold, *(tenths(spool.length_mm) for spool in shelf)], default=0)
    too_long = tuple(index for index, length in enumerate(pieces) if sold and length > longest)
    planner = Planner([length for length in pieces if not sold or length <= longest], shelf, sold)
    planner.choose()
    planner.gather_rest(tenths(offcut_mm))
    cuts = planner.cuts(pieces, too_long)
    least = planner.least(len(cuts))
    bought_mm = sum(round(cut.length_mm * 10) for cut in cuts if cut.bought) / 10
    return SpoolPlan(cuts, least, least == len(cuts), too_long, bought_mm)


def tenths(length_mm: float) -> int:
    """Return the whole tenths of a mm in a length."""
    return math.floor(length_mm * 10 + 1e-6)


class Planner:
    """Chooses spools for one group of pieces; lengths are tenths of a mm."""

    def __init__(self, pieces: Sequence[int], shelf: Sequence[ShelfSpool], sold: Sequence[int]) -> None:
        self.packer = Packer(pieces)
        self.sold = sold
        longest_first = sorted(shelf, key=lambda spool: (-spool.length_mm, spool.number))
        self.part = [spool for spool in longest_first if not spool.sealed]
        self.sealed = [spool for spool in longest_first if spool.sealed]
        self.bought: tuple[int, ...] = ()
        self.numbers = (0, 0)  # of sealed and of part-used spools
        self.used: list[tuple[int, ShelfSpool | None]] = []  # lengths, and which are on the shelf
        self.fillings: tuple[Filling, ...] = ()  # of those
        self.lows = (0, 0, 0)  # how many bought, sealed and part-used spools are not known to be too few
        self.is_shortest = True  # whether no shorter length bought will do

    def choose(self) -> None:
        """Choose what to buy, then what to open."""
        low, mixtures = self._buy_spools() if self.sold else self._buy_length()
        choices = [(*self._open(bought), bought) for bought in mixtures]
        self.numbers, _, fillings, self.bought = min(choices, key=lambda choice: choice[0])
        self.lows = (low, *min(lows for _, lows, _, _ in choices))
        opened = [None] * len(self.bought) + self._opened(*self.numbers)
        spools = zip(self._spools(self.bought, *self.numbers), opened, fillings, strict=True)
        used = [spool for spool in spools if spool[2]]  # a bounded search may leave one without a piece
        self.used = [(length, on_shelf) for length, on_shelf, _ in used]
        self.fillings = tuple(filling for _, _, filling in used)

    def _opened(self, sealed: int, part: int) -> list[ShelfSpool]:
        return self.sealed[:sealed] + self.part[:part]

    def _spools(self, bought: Sequence[int], sealed: int, part: int) -> list[int]:
        return [*bought, *(tenths(spool.length_mm) for spool in self._opened(sealed, part))]

    def _with_shelf(self, bought: Sequence[int]) -> list[int]:
        return self._spools(bought, len(self.sealed), len(self.part))

    def _buy_spools(self) -> tuple[int, list[tuple[int, ...]]]:
        """Return how many bought spools are not known to be too few, and the shortest mixtures found that do."""
        low, number, fillings = self._first(self._with_shelf([self.sold[-1]] * number) for number in count())
        needed = [sum(filling) for filling in fillings[:number]]
        enough = tuple(self.sold[bisect_left(self.sold, length)] for length in needed)
        self.packer.learn(self._with_shelf(enough), fillings)
        mixtures = [enough]
        if not self.packer.bounded or math.comb(number + len(self.sold) - 1, number) <= MOST_MIXTURES:
            mixtures = sorted(combinations_with_replacement(self.sold, number), key=sum)
        elif sum(enough) > number * self.sold[0]:
            self.is_shortest = False
        found: list[tuple[int, ...]] = []
        for _, group in groupby(mixtures, key=sum):
            answers = {mixture: self.packer.fit(self._with_shelf(mixture)) for mixture in group}
            found = [mixture for mixture, answer in answers.items() if answer.fillings is not None]
            self.is_shortest &= all(answer.sure for answer in answers.values())
            if found:
                break
        return low, found

    def _buy_length(self) -> tuple[int, list[tuple[int, ...]]]:
        """Return whether it is sure that something must be bought, and the least length found that does."""
        answer = self.packer.fit(self._with_shelf(()))
        if answer.fillings is not None:
            return 0, [()]
        must, unit = int(answer.sure), self.packer.unit
        least, found = 0, self.packer.total
        while least < found:
            middle = (least + found) // 2 // unit * unit
            answer = self.packer.fit(self._with_shelf([middle]))
            if answer.fillings is None:
                self.is_shortest &= answer.sure
                least = middle + unit
            else:
                found = sum(answer.fillings[0])
                self.packer.learn(self._with_shelf([found]), answer.fillings)
        return must, [(found,)]

    def _open(self, bought: tuple[int, ...]) -> tuple[tuple[int, int], tuple[int, int], tuple[Filling, ...]]:
        """Return how many sealed and part-used spools to open, how many are not known to be too few, and fillings."""
        sealed_numbers, part_numbers = range(len(self.sealed) + 1), range(len(self.part) + 1)
        low_sealed, sealed, _ = self._first(self._spools(bought, number, len(self.part)) for number in sealed_numbers)
        low_part, part, fillings = self._first(self._spools(bought, sealed, number) for number in part_numbers)
        return (sealed, part), (low_sealed, low_part), fillings

    def _first(self, choices: Iterable[Sequence[int]]) -> tuple[int, int, tuple[Filling, ...]]:
        """Return which choice is the first not known to fail, which the first found to do, and its fillings."""
        low = None
        for number, spools in enumerate(choices):
            answer = self.packer.fit(spools)
            if low is None and (answer.fillings is not None or not answer.sure):
                low = number
            if low is not None and answer.fillings is not None:
                return low, number, answer.fillings
        raise AssertionError("the last choice is known to do")

    def least(self, ours: int) -> int:
        """Return the number of spools that can't be undercut by any plan that is as good or better in the order."""
        bought, (sealed, part) = len(self.bought), self.numbers
        if self.is_shortest and self.lows == (bought, sealed, part):
            return ours
        sealed_numbers = range(len(self.sealed) + 1)
        if self.is_shortest and self.lows[0] == bought:
            sealed_numbers = range(self.lows[1], sealed + 1)
        longest = self.sold[-1] if self.sold else sum(self.bought)
        found = [ours]
        for more, number in product(range(self.lows[0], bought + 1), sealed_numbers):
            for fewest in range(len(self.part) + 1):
                if not self.packer.is_ruled_out(self._spools([longest] * more, number, fewest)):
                    found.append(more + number + fewest)
                    break
        return min(found)

    def gather_rest(self, offcut: int) -> None:
        """Cut so that the longest usable end is left, as far as a search of bounded steps finds."""
        self.packer.steps, self.packer.bounded = SEARCH_STEPS, True
        spools = [length for length, _ in self.used]
        slack = sum(spools) - self.packer.total
        # What is bought by length leaves nothing.
        wholes = [at for at, (_, on_shelf) in enumerate(self.used) if self.sold or on_shelf is not None]
        best = max([offcut - 1, *(spools[at] - sum(self.fillings[at]) for at in wholes)])
        for at in sorted({spools[at]: at for at in wholes}.values(), key=lambda at: -spools[at]):
            least, most = max(spools[at] - slack, 0), spools[at] - best - 1
            while least <= most:
                middle = (least + most) // 2
                answer = self.packer.fit([*spools[:at], middle, *spools[at + 1 :]])
                if answer.fillings is None:
                    least = middle + 1
                else:
                    self.fillings = answer.fillings
                    best = spools[at] - sum(answer.fillings[at])
                    most = spools[at] - best - 1

    def cuts(self, pieces: Sequence[int], too_long: Sequence[int]) -> tuple[Cut, ...]:
        """Return the spools with their pieces: part-used, sealed, bought."""
        waiting: dict[int, list[int]] = {}
        for index in sorted(set(range(len(pieces))) - set(too_long), reverse=True):
            waiting.setdefault(pieces[index], []).append(index)
        found: list[Cut] = []
        new: list[Cut] = []
        spools = [(*spool, filling) for spool, filling in zip(self.used, self.fillings, strict=True) if filling]
        for length, on_shelf, filling in sorted(spools, key=_in_order):
            whole = length if self.sold or on_shelf is not None else sum(filling)
            own = tuple(waiting[piece].pop() for piece in filling)
            rest_mm = (whole - sum(filling)) / 10
            if on_shelf is not None:
                found.append(Cut(on_shelf.number, on_shelf.length_mm, on_shelf.sealed, False, own, rest_mm))
            else:
                new.append(Cut(len(new) + 1, whole / 10, False, True, own, rest_mm))
        return (*found, *new)


def _in_order(spool: tuple[int, ShelfSpool | None, Filling]) -> tuple[int, int]:
    """Part-used ones and sealed ones by their numbers, then bought ones, the longest first."""
    length, on_shelf, _ = spool
    return (2, -length) if on_shelf is None else (int(on_shelf.sealed), on_shelf.number)
