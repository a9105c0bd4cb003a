"""Bin packing instances whose optima are known: lengths of pieces, the length of every spool, the least number."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Instance:
    """Pieces, spools of one length, and the least number of spools; `optimum` 0 where only bounds are known."""

    name: str
    pieces: Sequence[int]
    spool: int
    optimum: int


# S. Martello, P. Toth, Knapsack Problems, 1990, chapter 8, the example of lower bounds (L1 = 3, L2 = 4), from memory.
MARTELLO_TOTH = Instance("Martello, Toth", (70, 60, 50, 33, 33, 33, 11, 7, 3), 100, 4)

# R. L. Graham, Bounds on multiprocessing anomalies and related packing algorithms, 1972, from memory: 33 pieces that
# fill 7 spools; without the one of 46, the longest first in the first that holds them take 8.
GRAHAM_PIECES = (
    *(442, *[252] * 7, *[127] * 5, *[106] * 4, 85, 84, 46),
    *(37, 37, 12, 12, 12, *[10] * 6, 9, 9),
)
GRAHAM = Instance("Graham", GRAHAM_PIECES, 524, 7)
GRAHAM_ONE_LESS = Instance("Graham, one less", tuple(piece for piece in GRAHAM_PIECES if piece != 46), 524, 7)


def johnson(sixths: int) -> Instance:
    """Return pieces that fill 9 spools for each sixth and take 11 when the longest go first.

    D. S. Johnson, Near-optimal bin packing algorithms, 1973: 6 of 1/2 + e, 6 of 1/4 + 2e, 6 of 1/4 + e and 12 of
    1/4 - 2e, from memory; here e is a hundredth. Filled by 6 × (510 + 260 + 230), 3 × (270 + 270 + 230 + 230).
    """
    pieces = [*[510] * 6, *[270] * 6, *[260] * 6, *[230] * 12] * sixths
    return Instance(f"Johnson {30 * sixths}", pieces, 1000, 9 * sixths)


def triplets(spools: int, seed: int) -> Instance:
    """Return three pieces for each spool that fill it to the last unit.

    E. Falkenauer, A hybrid grouping genetic algorithm for bin packing, 1996, the class of triplets, from memory: the
    first from 380 to 490, the second from 250 to half of what is left, the third what is then left of 1000.
    """
    chance = random.Random(seed)
    pieces: list[int] = []
    for _ in range(spools):
        first = chance.randint(380, 490)
        second = chance.randint(250, (1000 - first) // 2)
        pieces += [first, second, 1000 - first - second]
    return Instance(f"triplets {len(pieces)}, {seed}", pieces, 1000, spools)


def uniform(pieces: int, seed: int) -> Instance:
    """Return pieces from 20 to 100 for spools of 150: the uniform class of the same paper, from memory."""
    chance = random.Random(seed)
    return Instance(f"uniform {pieces}, {seed}", [chance.randint(20, 100) for _ in range(pieces)], 150, 0)
