"""Take an opening and what is to go through it, beside what lies in it already; return whether it passes."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from docgen.harness.bundling.tubes import TO_SPARE

_NOISE_MM = 1e-9

Size = tuple[float, ...]
"""How wide an opening is, or what goes through it end on: a diameter, or both sides [mm]."""


def circle_mm(size_mm: Size) -> float:
    """Return the diameter of the circle around something [mm]."""
    return size_mm[0] if len(size_mm) == 1 else math.hypot(*size_mm)


def passes(opening_mm: Size, size_mm: Size, beside_mm: float = 0.0) -> bool:
    """Tell whether something passes an opening beside a bundle that lies in it, a tenth to spare: common practice.

    In a round one both lie in one circle; in a rectangle side by side, either way round.
    """
    if len(opening_mm) == 1:
        return TO_SPARE * (circle_mm(size_mm) + beside_mm) <= opening_mm[0] + _NOISE_MM
    sides = size_mm if len(size_mm) > 1 else size_mm * 2
    return any(
        TO_SPARE * (along + beside_mm) <= long + _NOISE_MM and TO_SPARE * max(across, beside_mm) <= short + _NOISE_MM
        for along, across in itertools.permutations(sides)
        for long, short in itertools.permutations(opening_mm)
    )


def least_opening_mm(sizes_mm: Sequence[float]) -> float:
    """Return the least diameter of an opening that circles pass side by side, a tenth to spare [mm]."""
    return TO_SPARE * sum(sizes_mm)
