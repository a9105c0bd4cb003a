"""Take pieces and given spools; return whether they fit: by bounds, by a quick rule, by a search of all that matter."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right, insort
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import accumulate, combinations

from docgen.basics.frozen import frozen

# Up to so many pieces the search is exhausted; above, it takes so many steps at most, whatever the machine.
EXHAUSTED_UP_TO = 20
SEARCH_STEPS = 200_000
# Sums of pieces are kept as bits; where they would fill the memory, the search is left out.
MOST_BITS = 10**9

Filling = tuple[int, ...]  # the lengths of the pieces on one spool, the longest first
Numbers = tuple[int, ...]  # how many pieces there are of each length
Rooms = tuple[int, ...]  # the lengths of spools, the shortest first


@frozen
class Answer:
    """How pieces fit given spools, a filling for each; where none was found, whether it is sure that there is none."""

    fillings: tuple[Filling, ...] | None
    sure: bool = True


class OutOfStepsError(Exception):
    """The search has taken all the steps that it may."""


class Packer:
    """Fits one group of pieces on spools; lengths are whole tenths of a mm, inside whole multiples of `unit`."""

    def __init__(self, pieces: Sequence[int]) -> None:
        self.total = sum(pieces)
        self.unit = math.gcd(*pieces) or 1
        self.pieces = sorted((piece // self.unit for piece in pieces), reverse=True)
        self.lengths = sorted(set(self.pieces), reverse=True)
        self.bounded = len(pieces) > EXHAUSTED_UP_TO
        self.steps = SEARCH_STEPS  # for all searches together
        self._left = 0  # for the search that is going on
        self._answers: dict[Rooms, Answer] = {}
        self._dead: set[tuple[Numbers, Rooms]] = set()

    def fit(self, spools: Sequence[int]) -> Answer:
        """Return a filling for each spool, in the order of the spools; it may be empty."""
        order = sorted(range(len(spools)), key=lambda at: spools[at])
        rooms = tuple(spools[at] // self.unit for at in order)
        if rooms not in self._answers:
            self._answers[rooms] = self._find(rooms)
        answer = self._answers[rooms]
        if answer.fillings is None:
            return answer
        aligned = dict(zip(order, answer.fillings, strict=True))
        return Answer(tuple(tuple(piece * self.unit for piece in aligned[at]) for at in range(len(spools))))

    def learn(self, spools: Sequence[int], fillings: Sequence[Filling]) -> None:
        """Keep what is known to fit, so that a bounded search need not find it again."""
        order = sorted(range(len(spools)), key=lambda at: spools[at])
        rooms = tuple(spools[at] // self.unit for at in order)
        self._answers[rooms] = Answer(tuple(tuple(piece // self.unit for piece in fillings[at]) for at in order))

    def is_ruled_out(self, spools: Sequence[int]) -> bool:
        """Whether it is sure without a search that the pieces don't fit."""
        return is_ruled_out(self.pieces, tuple(sorted(spool // self.unit for spool in spools)))

    def _find(self, rooms: Rooms) -> Answer:
        if is_ruled_out(self.pieces, rooms):
            return Answer(None)
        fillings = fit_tightest(self.pieces, rooms)
        if fillings is not None:
            return Answer(fillings)
        if len(self.pieces) * min(rooms[-1], sum(self.pieces)) > MOST_BITS:
            return Answer(None, sure=False)
        # Each search may take a quarter of the steps, so that some are always left to the next.
        self._left = self.steps // 4
        self.steps -= self._left
        try:
            return Answer(self._search(rooms))
        except OutOfStepsError:
            return Answer(None, sure=False)
        finally:
            self.steps += max(self._left, 0)

    def _spend(self, steps: int) -> None:
        self._left -= steps
        if self.bounded and self._left < 0:
            raise OutOfStepsError

    def _search(self, rooms: Rooms) -> tuple[Filling, ...] | None:
        """Fill spool after spool, and go back where what is left does not fit the others."""
        pieces = Counter(self.pieces)
        levels = [self._ways(tuple(pieces[length] for length in self.lengths), rooms)]
        path: list[tuple[int, Filling]] = []
        while levels:
            way = next(levels[-1], None)
            del path[len(levels) - 1 :]
            if way is None:
                levels.pop()
                continue
            room, filling, numbers, others = way
            path.append((room, filling))
            if not any(numbers):
                path += [(other, ()) for other in others]
                return tuple(filling for _, filling in sorted(path))
            levels.append(self._ways(numbers, others))
        return None

    def _ways(self, numbers: Numbers, rooms: Rooms) -> Iterator[tuple[int, Filling, Numbers, Rooms]]:
        """Choose a spool and walk the ways to fill it, the fullest first, with the pieces and spools then left."""
        if (numbers, rooms) in self._dead:
            return
        pieces = [length for length, number in zip(self.lengths, numbers, strict=True) for _ in range(number)]
        self._spend(len(pieces))
        if not is_ruled_out(pieces, rooms):
            sums = self._sums(numbers, rooms[-1])
            fullest = {room: highest(sums[0], room) for room in rooms}
            waste = sum(fullest[room] for room in rooms) - sum(pieces)
            holding = rooms[bisect_left(rooms, pieces[0])]
            # Where only spools of one length hold the longest piece, it may as well lie on this one.
            forced = holding == rooms[-1]
            room = holding if forced else rooms[0]
            at = rooms.index(room)
            length = fullest[room]
            while length >= max(fullest[room] - waste, 0):
                for filling in self._exactly(length, numbers, sums, forced=forced):
                    taken = Counter(filling)
                    left = tuple(n - taken[piece] for piece, n in zip(self.lengths, numbers, strict=True))
                    if not self._can_be_bettered(filling, left, room - length):
                        yield room, filling, left, rooms[:at] + rooms[at + 1 :]
                length = highest(sums[0], length - 1)
        self._dead.add((numbers, rooms))

    def _sums(self, numbers: Numbers, room: int) -> list[int]:
        """Return, for each length, as bits, all sums up to `room` of pieces of it and of shorter ones."""
        within = (1 << (room + 1)) - 1
        sums = [1]
        for length, number in zip(reversed(self.lengths), reversed(numbers), strict=True):
            bits = sums[-1]
            for _ in range(min(number, room // length)):
                bits |= bits << length & within
            sums.append(bits)
        return sums[::-1]

    def _exactly(self, length: int, numbers: Numbers, sums: list[int], *, forced: bool) -> Iterator[Filling]:
        """Walk all sets of pieces that are together of one length, those of long pieces first."""
        first = next(at for at, number in enumerate(numbers) if number)
        stack: list[tuple[int, int, Filling]] = [(first, length, ())]
        while stack:
            at, left, filling = stack.pop()
            if left == 0:
                self._spend(len(numbers))
                yield filling
            elif sums[at] >> left & 1:
                piece = self.lengths[at]
                least = int(forced and at == first)
                stack += [
                    (at + 1, left - number * piece, filling + (piece,) * number)
                    for number in range(least, min(numbers[at], left // piece) + 1)
                ]

    def _can_be_bettered(self, filling: Filling, left: Numbers, rest: int) -> bool:
        """Whether a piece that is left fits in the rest, or in place of one or two shorter ones that are taken.

        What is taken out fits where the piece would have been: such a filling need not be tried.
        """
        waiting = [length for length, number in zip(self.lengths, left, strict=True) if number][::-1]
        swaps = {0, *filling}
        pairs = {one + other for one, other in combinations(filling[:EXHAUSTED_UP_TO], 2)}
        return any(bisect_right(waiting, out) < bisect_right(waiting, out + rest) for out in swaps) or any(
            bisect_left(waiting, out) < bisect_right(waiting, out + rest) for out in pairs
        )


def highest(bits: int, most: int) -> int:
    """Return the highest bit that is set up to `most`; -1 if none is."""
    return (bits & ((1 << (most + 1)) - 1)).bit_length() - 1


def fit_tightest(pieces: Sequence[int], rooms: Rooms) -> tuple[Filling, ...] | None:
    """Put each piece, the longest first, on the spool where it leaves the least, or return none if that fails."""
    rests = [(room, at) for at, room in enumerate(rooms)]
    fillings: list[list[int]] = [[] for _ in rooms]
    for piece in pieces:
        tightest = bisect_left(rests, (piece, 0))
        if tightest == len(rests):
            return None
        rest, at = rests.pop(tightest)
        fillings[at].append(piece)
        insort(rests, (rest - piece, at))
    return tuple(tuple(filling) for filling in fillings)


def is_ruled_out(pieces: Sequence[int], rooms: Rooms) -> bool:
    """Whether the longest pieces are too long together, too many, or leave too little beside them.

    For each length: how many pieces of it and over fit each spool, by number; and by sums, where a piece that leaves
    less than that length on the longest spool counts as all of it (a dual feasible function; S. Martello, P. Toth,
    Knapsack Problems, 1990, 8.3.2, for spools of one length).
    """
    before = [0, *accumulate(pieces)]
    if before[-1] > sum(rooms) or (pieces and pieces[0] > rooms[-1]):
        return True
    alike = Counter(rooms)
    for upto, least in enumerate(pieces, start=1):
        if upto < len(pieces) and pieces[upto] == least:
            continue
        fitting = sum(many * (upto - bisect_left(before, before[upto] - room)) for room, many in alike.items())
        # Pieces are sorted down: those over the longest spool less `least` come first.
        large = bisect_left(pieces, least - rooms[-1], hi=upto, key=lambda piece: -piece)
        shortest_large = pieces[large - 1] if large else rooms[-1]
        space = sum(
            many * (rooms[-1] if room >= shortest_large else room) for room, many in alike.items() if room >= least
        )
        if fitting < upto or large * rooms[-1] + before[upto] - before[large] > space:
            return True
    return False
