"""Take the diameters of wires that lie together; return the circle around them, and the diameter that a tube grips."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

from docgen.harness.model.circuits import CutLead, Lead

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
# Of a bundle laid by hand: outside diameter over that of one round wire of the summed areas, the trade's rule
# of wiring data books. It fills 1/1.2² = 69 % of its circle.
_LAID_BY_HAND = 1.2
_Circle = tuple[float, float, float]
_DIRECTIONS = 720


def outside_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return the circle around wires laid together [mm]: known for up to 20 equal ones, else an estimate.

    The estimate is 1.2 × sqrt(Σ d²), kept between what is certain. Never under: the two thickest side by side;
    the known circle around the k thickest, were all as thin as the kth. Never over: all side by side in one
    line; the known circle around as many as the thickest. As no circle is smaller than sqrt(Σ d²), which is the
    circle of the summed areas, it is at most 20 % over the best packing. It takes the same time for any number
    of wires, does not depend on their order, and one wire more never makes it smaller.

    Source: the packings at `_EQUAL`; the factor 1.2 is that of wiring data books.
    """
    wires = sorted(diameters_mm, reverse=True)
    if not wires:
        return 0.0
    known = [factor * wire for factor, wire in zip(_EQUAL, wires, strict=False)]
    least = max(sum(wires[:2]), *known)
    most = min(sum(wires), _EQUAL[len(wires) - 1] * wires[0] if len(wires) <= len(_EQUAL) else math.inf)
    return min(max(least, _LAID_BY_HAND * math.hypot(*wires)), most)


def gripped_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return what a tube grips [mm]: the length of a band stretched around the wires, over π.

    By Cauchy's formula the length of a convex outline is the integral of its reach over all directions.
    Two equal wires give 1 + 2/π diameters, three 1 + 3/π, four 1 + 4/π. Around more than 20 wires the band is
    as good as the circle around them, which it is never longer than.
    """
    outside = outside_diameter_mm(diameters_mm)
    if len(diameters_mm) > len(_EQUAL):
        return outside
    return min(_gripped(tuple(sorted(diameters_mm, reverse=True))), outside)


def ribbon_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return the length of a band around wires side by side, over π: (π d + 2 (n − 1) d) / π for equal ones."""
    edges = (diameters_mm[0] + diameters_mm[-1]) / 2
    return edges + 2 * (sum(diameters_mm) - edges) / math.pi


def lead_thickness_mm(lead: Lead) -> tuple[float, float]:
    """Return what a tube passes over a lead's wires, and what it grips [mm]: a jacket, a ribbon, or wires laid up."""
    diameters = [wire.kind.diameter_mm for wire in lead.wires]
    part = lead.part if isinstance(lead, CutLead) else None
    if part is not None and part.jacket_mm is not None:
        return part.jacket_mm, part.jacket_mm
    if part is not None and part.bought == "flat":
        return ribbon_diameter_mm(diameters), ribbon_diameter_mm(diameters)
    return outside_diameter_mm(diameters), gripped_diameter_mm(diameters)


@cache
def _gripped(diameters_mm: tuple[float, ...]) -> float:
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
        circles.append(min(spots, key=lambda s: (round(math.dist(s[:2], middle), 9), -s[1], s[0])))
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
