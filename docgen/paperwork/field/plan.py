"""Draw the aircraft from above: marks at their places, or beside them on a stub where another is in the way."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from docgen.paperwork.field.plan_content import Mark, Plan, Spot
from docgen.paperwork.typesetting.ink import (
    BLACK,
    MIDDLE_MM,
    THICK_MM,
    THIN_MM,
    WHITE,
    Box,
    Circle,
    Ink,
    Line,
    Text,
    rectangle,
)
from docgen.paperwork.typesetting.typeface import SMALL_MM, width_mm

Point = tuple[float, float]
Edges = tuple[float, float, float, float]
"""Left, right, upper and lower edge."""

_AROUND_MM = 7.0  # of the places, so that marks beside them find room
_DOT_MM, _CLEAR_MM = 0.35, 0.35
_SIDE_MM = 3.2  # of a mark with one letter
_ARROW_MM = 4.4
_STUB_MM, _LONGER_MM, _LENGTHS, _ANGLES = 5.0, 1.5, 18, 16
_TRIES, _MOST_LEFT = 6, 30
_SQUARE_MM = 5.0
_STUBS = tuple(
    (length * math.cos(angle), length * math.sin(angle))
    for length in (_STUB_MM + i * _LONGER_MM for i in range(_LENGTHS))
    for angle in (2 * math.pi * step / _ANGLES for step in range(_ANGLES))
)


def plan_height_mm(plan: Plan, width: float, most: float) -> float:
    """Return the height of a plan of a width: as high as the aircraft is long to one scale, at most as high as said."""
    afts, rights = [mark.at[0] for mark in plan.marks], [abs(mark.at[1]) for mark in plan.marks]
    inside = width - 2 * _AROUND_MM
    longest = inside * (max(afts) - min(afts)) / max(2 * max(rights), 1.0)
    return min(longest + 2 * _AROUND_MM, most)


@lru_cache(4)
def plan_ink(plan: Plan, box: Box) -> tuple[Ink, ...]:
    """Return the plan, nose up, in a box: lines first, broken where marks are."""
    at = _placed(plan, box)
    spots = {mark: _on_paper(at, mark.at) for mark in plan.marks}
    boxes = _marks(spots, box)
    ink: list[Ink] = []
    clear = [_roomy(found) for found in boxes.values() if found is not None]
    for start, end in plan.lines:
        for one, other in _outside(_on_paper(at, start), _on_paper(at, end), clear):
            ink.append(Line(*one, *other, THICK_MM))
    for mark, spot in spots.items():
        found = boxes[mark]
        if found is None or _middle(found) != spot:
            ink.append(Circle(*spot, _DOT_MM, fill=BLACK, colour=None))
        if found is not None and _middle(found) != spot:
            ink += [Line(*one, *other, THIN_MM) for one, other in _outside(spot, _middle(found), clear)]
    for mark, found in boxes.items():
        ink += _mark_ink(mark, found) if found is not None else []
    return tuple(ink)


def _placed(plan: Plan, box: Box) -> tuple[float, float, float]:
    """Return where the line through the nose lies, where what is foremost lies, and the scale."""
    spots = [mark.at for mark in plan.marks] + [spot for line in plan.lines for spot in line]
    afts, widest = [aft for aft, _ in spots], max(*(abs(right) for _, right in spots), 1.0)
    inside = box.width_mm - 2 * _AROUND_MM, box.height_mm - 2 * _AROUND_MM
    scale = min(inside[0] / 2 / widest, inside[1] / max(max(afts) - min(afts), 1.0))
    return box.x_mm + box.width_mm / 2, box.y_mm + _AROUND_MM - min(afts) * scale, scale


def _on_paper(at: tuple[float, float, float], spot: Spot) -> Point:
    middle, top, scale = at
    return middle + spot[1] * scale, top + spot[0] * scale


def _marks(spots: dict[Mark, Point], area: Box) -> dict[Mark, Box | None]:
    """Return the box of each mark; none of one that opens the same way close by.

    What finds no room is tried again before all others, which then make way for it; at last, or where that is too much
    to make way for, stubs may lead past behind other marks.
    """
    order, left = list(spots), list[Mark]()
    boxes: dict[Mark, Box | None] = {}
    for tried in range(1, _TRIES + 1):
        clear = tried < _TRIES and len(left) <= _MOST_LEFT
        boxes = _tried(order, spots, area, clear=clear)
        shown = {mark.says for mark, box in boxes.items() if box is not None}
        left = [mark for mark, box in boxes.items() if box is None and (mark.kind != "cover" or mark.says not in shown)]
        if not left or not clear:
            break
        order = [*left, *(mark for mark in order if mark not in left)]
    return {mark: boxes[mark] for mark in spots}


def _tried(order: Sequence[Mark], spots: dict[Mark, Point], area: Box, *, clear: bool) -> dict[Mark, Box | None]:
    boxes: dict[Mark, Box | None] = {}
    taken = _Taken()
    for spot in spots.values():
        taken.add_dot(_square(spot, 2 * _DOT_MM))
    shown: dict[str, list[Point]] = {}  # covers, by what opens the same way
    for mark in order:
        spot, side_mm, boxes[mark] = spots[mark], _side_mm(mark), None
        alike = shown.setdefault(mark.says, []) if mark.kind == "cover" else []
        if any(math.dist(spot, other) < 2 * _SIDE_MM for other in alike):
            continue
        for centre in _candidates(spot):
            box = _square(centre, side_mm)
            if _holds(area, box) and taken.leaves(box, spot) and not (clear and taken.is_crossed(box, spot, centre)):
                boxes[mark] = box
                taken.add(box, spot, centre)
                alike.append(spot)
                break
    return boxes


class _Taken:
    """What marks have taken of the sheet, found by the square it lies in: boxes and dots; and the stubs."""

    def __init__(self) -> None:
        self._near: dict[tuple[int, int], list[tuple[Edges, Point | None]]] = {}
        self._boxes: list[tuple[Point, Edges]] = []
        self._stubs: list[tuple[Point, Point]] = []

    def add_dot(self, dot: Box) -> None:
        """Keep a place's dot clear of marks of others."""
        self._add(dot, _middle(dot))

    def add(self, box: Box, spot: Point, centre: Point) -> None:
        """Take the box of a mark, and the stub that leads to it."""
        self._add(box, None)
        self._boxes.append((_middle(box), _roomy(box)))
        self._stubs.append((spot, centre))

    def leaves(self, box: Box, spot: Point) -> bool:
        """Tell whether a box of a mark of a place comes too near to nothing that is taken."""
        left, right, top, bottom = edges = _edges(box)
        return not any(
            right > x and left < x_end and bottom > y and top < y_end
            for square in _squares(edges)
            for (x, x_end, y, y_end), middle in self._near.get(square, ())
            if middle != spot
        )

    def is_crossed(self, box: Box, spot: Point, centre: Point) -> bool:
        """Tell whether a stub to a box would lead past behind another, or another's behind this one."""
        edges = _roomy(box)
        # That most boxes lie aside is seen here too: a call for each of them takes several times as long.
        (left, right), (top, bottom) = (sorted(both) for both in zip(spot, centre, strict=True))
        return any(
            x <= right
            and x_end >= left
            and y <= bottom
            and y_end >= top
            and _within(spot, centre, (x, x_end, y, y_end))
            for middle, (x, x_end, y, y_end) in self._boxes
            if middle != spot
        ) or any(_within(*stub, edges) for stub in self._stubs)

    def _add(self, box: Box, middle: Point | None) -> None:
        edges = _roomy(box)
        for square in _squares(edges):
            self._near.setdefault(square, []).append((edges, middle))


def _squares(edges: Edges) -> Iterator[tuple[int, int]]:
    """Walk the squares of the sheet that a box lies in."""
    left, right, top, bottom = (int(edge // _SQUARE_MM) for edge in edges)
    return ((x, y) for x in range(left, right + 1) for y in range(top, bottom + 1))


def _candidates(spot: Point) -> Iterator[Point]:
    """Walk where a mark may be: on its spot, then at the ends of stubs all round, the shortest first."""
    yield spot
    for right_mm, down_mm in _STUBS:
        yield spot[0] + right_mm, spot[1] + down_mm


def _side_mm(mark: Mark) -> float:
    return _ARROW_MM if mark.kind == "antenna" else max(_SIDE_MM, width_mm(mark.says, SMALL_MM, bold=True) + 1.0)


def _square(centre: Point, side: float) -> Box:
    return Box(centre[0] - side / 2, centre[1] - side / 2, side, side)


def _middle(box: Box) -> Point:
    return box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2


def _holds(area: Box, box: Box) -> bool:
    return (
        area.x_mm <= box.x_mm
        and box.right_mm <= area.right_mm
        and area.y_mm <= box.y_mm
        and box.bottom_mm <= area.bottom_mm
    )


def _edges(box: Box) -> Edges:
    return box.x_mm, box.right_mm, box.y_mm, box.bottom_mm


def _roomy(box: Box) -> Edges:
    """Return the edges of a box with a little room around."""
    left, right, top, bottom = _edges(box)
    return left - _CLEAR_MM, right + _CLEAR_MM, top - _CLEAR_MM, bottom + _CLEAR_MM


def _within(start: Point, end: Point, edges: Edges) -> tuple[float, float] | None:
    """Return which part of a line, from 0 to 1, lies between edges (Liang and Barsky, 1984)."""
    (x, y), (x_end, y_end), (left, right, top, bottom) = start, end, edges
    if max(x, x_end) < left or min(x, x_end) > right or max(y, y_end) < top or min(y, y_end) > bottom:
        return None  # mostly
    low, high = 0.0, 1.0
    for from_, to, least, most in ((x, x_end, left, right), (y, y_end, top, bottom)):
        along = to - from_
        if abs(along) < 1e-9:
            if not least <= from_ <= most:
                return None
            continue
        first, last = sorted(((least - from_) / along, (most - from_) / along))
        low, high = max(low, first), min(high, last)
    return (low, high) if low < high else None


def _outside(start: Point, end: Point, boxes: Sequence[Edges]) -> Iterator[tuple[Point, Point]]:
    """Walk the pieces of a line that lie in no box."""
    inside = sorted(part for edges in boxes if (part := _within(start, end, edges)) is not None)
    covered = 0.0
    for first, last in [*inside, (1.0, 1.0)]:
        if first > covered + 1e-6:
            yield _at(start, end, covered), _at(start, end, first)
        covered = max(covered, last)


def _at(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _mark_ink(mark: Mark, box: Box) -> list[Ink]:
    x, y = _middle(box)
    if mark.kind == "antenna":
        return _arrow(mark.says, x, y)
    letter = Text(x, y + SMALL_MM / 2, mark.says, SMALL_MM, True, "centre", WHITE if mark.kind == "joint" else BLACK)
    if mark.kind == "joint":
        return [rectangle(box, MIDDLE_MM, BLACK), letter]
    return [Circle(x, y, box.width_mm / 2, MIDDLE_MM, WHITE), letter]


def _arrow(lies: str, x: float, y: float) -> list[Ink]:
    """Return an arrow both ways as an antenna lies; of one that stands upright a ring with a dot: it is seen end on."""
    if lies == "upright":
        return [Circle(x, y, 1.2, MIDDLE_MM), Circle(x, y, 0.35, fill=BLACK, colour=None)]
    along = {"lengthwise": (0.0, 1.0), "crosswise": (1.0, 0.0), "sloping": (math.sqrt(0.5), math.sqrt(0.5))}[lies]
    half, head = _ARROW_MM / 2 - 0.2, 1.0
    ends = [(x + sign * half * along[0], y + sign * half * along[1]) for sign in (-1, 1)]
    ink: list[Ink] = [Line(*one, *other, MIDDLE_MM) for one, other in pairwise(ends)]
    for sign, (end_x, end_y) in zip((-1, 1), ends, strict=True):
        for side in (-0.6, 0.6):
            back = end_x - sign * head * along[0] - side * along[1], end_y - sign * head * along[1] + side * along[0]
            ink.append(Line(end_x, end_y, *back, MIDDLE_MM))
    return ink
