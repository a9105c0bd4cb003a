"""How thick wires are together: the circle around them, and the outline that a tube is stretched over."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

# Least circle around n equal circles, in their diameters. Source: the known packings (Graham 1968, Pirl 1969,
# Melissen 1994, Fodor 1999 to 2003, Ekanayake and LaFountain 2024; 15 to 18 and 20 are the best known).
_EQUAL = (
    1.0,
    2.0,
    1 + 2 / math.sqrt(3),
    1 + math.sqrt(2),
    1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))),
    3.0,
    3.0,
    1 + 1 / math.sin(math.pi / 7),
    1 + math.sqrt(2 * (2 + math.sqrt(2))),
    3.813,
    1 + 1 / math.sin(math.pi / 9),
    4.029,
    2 + math.sqrt(5),
    4.328,
    1 + math.sqrt(6 + 2 / math.sqrt(5) + 4 * math.sqrt(1 + 2 / math.sqrt(5))),
    4.615,
    4.792,
    1 + math.sqrt(2) + math.sqrt(6),
    1 + math.sqrt(2) + math.sqrt(6),
    5.122,
)
_Circle = tuple[float, float, float]
_DIRECTIONS = 720


def outside_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return the circle around wires laid together [mm]; for mixed ones the circle around a close packing."""
    return _outside(tuple(sorted(diameters_mm, reverse=True)))


def stretched_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return what a tube grips [mm]: the length of a band stretched around the wires, over π.

    By Cauchy's formula the length of a convex outline is the integral of its reach over all directions.
    Two equal wires give 1 + 2/π diameters, three 1 + 3/π, four 1 + 4/π.
    """
    return _stretched(tuple(sorted(diameters_mm, reverse=True)))


def ribbon_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return the length of a band around wires side by side, over π: (π d + 2 (n − 1) d) / π for equal ones."""
    edges = (diameters_mm[0] + diameters_mm[-1]) / 2
    return edges + 2 * (sum(diameters_mm) - edges) / math.pi


@cache
def _outside(diameters_mm: tuple[float, ...]) -> float:
    if not diameters_mm:
        return 0.0
    if len(set(diameters_mm)) == 1 and len(diameters_mm) <= len(_EQUAL):
        return _EQUAL[len(diameters_mm) - 1] * diameters_mm[0]
    circles = _packed(diameters_mm)
    return 2 * min(max(math.hypot(x - cx, y - cy) + r for x, y, r in circles) for cx, cy in _centres(circles))


def _centres(circles: list[_Circle]) -> list[tuple[float, float]]:
    """Return points near the middle of circles, among which the middle of the circle around them is sought."""
    widest = max(math.hypot(x, y) + r for x, y, r in circles)
    steps = [i * widest / 40 for i in range(-12, 13)]
    mean = [sum(c[axis] * c[2] ** 2 for c in circles) / sum(c[2] ** 2 for c in circles) for axis in (0, 1)]
    return [(mean[0] + dx, mean[1] + dy) for dx in steps for dy in steps]


@cache
def _stretched(diameters_mm: tuple[float, ...]) -> float:
    circles = _packed(diameters_mm)
    total = 0.0
    for i in range(_DIRECTIONS):
        angle = 2 * math.pi * i / _DIRECTIONS
        cosine, sine = math.cos(angle), math.sin(angle)
        total += max(x * cosine + y * sine + r for x, y, r in circles)
    return total * 2 / _DIRECTIONS


def _packed(diameters_mm: tuple[float, ...]) -> list[_Circle]:
    """Lay circles together, largest first, each touching two others as near the middle as it can."""
    radii = [diameter / 2 for diameter in diameters_mm]
    circles: list[_Circle] = [(0.0, 0.0, radii[0])]
    if len(radii) > 1:
        circles.append((radii[0] + radii[1], 0.0, radii[1]))
    for radius in radii[2:]:
        weight = sum(r * r for _, _, r in circles)
        middle = [sum(c[axis] * c[2] ** 2 for c in circles) / weight for axis in (0, 1)]
        spots = [spot for spot in _spots(circles, radius) if _is_free(spot, circles)]
        circles.append(
            min(
                spots,
                key=lambda s: (round(math.hypot(s[0] - middle[0], s[1] - middle[1]), 9), -s[1], s[0]),
            )
        )
    return circles


def _spots(circles: list[_Circle], radius: float) -> list[_Circle]:
    """Return where a circle of that radius touches two of the others."""
    spots = []
    for i, (x1, y1, r1) in enumerate(circles):
        for x2, y2, r2 in circles[i + 1 :]:
            a, b, d = r1 + radius, r2 + radius, math.hypot(x2 - x1, y2 - y1)
            if d > a + b or d < abs(a - b) or d == 0:
                continue
            along = (a * a - b * b + d * d) / (2 * d)
            across = math.sqrt(max(a * a - along * along, 0))
            ux, uy = (x2 - x1) / d, (y2 - y1) / d
            x, y = x1 + along * ux, y1 + along * uy
            spots += [(x - sign * across * uy, y + sign * across * ux, radius) for sign in (1, -1)]
    return spots


def _is_free(spot: _Circle, circles: list[_Circle]) -> bool:
    x, y, radius = spot
    return all(math.hypot(x - cx, y - cy) >= radius + r - 1e-9 for cx, cy, r in circles)
