"""Draw the aircraft from above: places by their coordinates, names at both sides with leaders."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.paperwork.typesetting.ink import (
    BLACK,
    FAINT,
    MIDDLE_MM,
    THIN_MM,
    WHITE,
    Box,
    Circle,
    Ink,
    Line,
    Shape,
    Text,
    rectangle,
)
from docgen.paperwork.typesetting.typeface import FOOT_MM, SMALL_MM, shortened


@dataclass(frozen=True)
class PlanPoint:
    """Something to show: its text, how far aft and right of the nose [mm], and whether it is a joint."""

    text: str
    aft_mm: float
    right_mm: float
    joint: bool


_PITCH_MM = 3.1
_COLUMN = 0.3  # of the width, for names at each side


def plan_height_mm(points: Sequence[PlanPoint]) -> float:
    """Return the height that a plan needs so that all names find room."""
    left, right = _columns(points)
    return max(max(len(left), len(right)) * _PITCH_MM + 4, 45.0)


def _columns(points: Sequence[PlanPoint]) -> tuple[list[PlanPoint], list[PlanPoint]]:
    """Share points between the columns: by side; those in the middle go where there is more room."""
    left = [point for point in points if point.right_mm < 0]
    right = [point for point in points if point.right_mm > 0]
    for point in points:
        if point.right_mm == 0:
            (left if len(left) < len(right) else right).append(point)
    return sorted(left, key=lambda p: p.aft_mm), sorted(right, key=lambda p: p.aft_mm)


def cut_names(points: Sequence[PlanPoint], width_mm: float) -> list[str]:
    """Return the names that a plan of that width shortens."""
    room = width_mm * _COLUMN
    return [point.text for point in points if shortened(point.text, room, SMALL_MM, point.joint) != point.text]


def plan_ink(points: Sequence[PlanPoint], box: Box) -> list[Ink]:
    """Return the plan, nose up, inside a box."""
    column = box.width_mm * _COLUMN
    area = Box(box.x_mm + column + 6, box.y_mm + 5, box.width_mm - 2 * column - 12, box.height_mm - 8)
    aft = [point.aft_mm for point in points]
    widest = max([abs(point.right_mm) for point in points] + [1.0])
    scale = min(area.height_mm / max(max(aft) - min(aft), 1.0), area.width_mm / 2 / widest)
    middle = area.x_mm + area.width_mm / 2

    def spot(point: PlanPoint) -> tuple[float, float]:
        return middle + point.right_mm * scale, area.y_mm + (point.aft_mm - min(aft)) * scale

    low = area.y_mm + (max(aft) - min(aft)) * scale
    ink: list[Ink] = [
        Shape(((middle, box.y_mm), (middle - 1.5, box.y_mm + 3), (middle + 1.5, box.y_mm + 3)), fill=BLACK),
        Text(middle + 2.5, box.y_mm + 2.6, "nose", FOOT_MM),
        Line(middle, box.y_mm + 4, middle, low, THIN_MM, FAINT),
    ]
    for side, names in zip((-1, 1), _columns(points), strict=True):
        edge = box.x_mm + column if side < 0 else box.right_mm - column
        bases = _spread([spot(point)[1] for point in names], box.y_mm + 3, box.bottom_mm - 1)
        for point, base in zip(names, bases, strict=True):
            x, y = spot(point)
            text = shortened(point.text, column, SMALL_MM, point.joint)
            align = "right" if side < 0 else "left"
            cell = Box(box.x_mm if side < 0 else edge, base - 3, column, 4)
            ink.append(Text(edge, base, text, SMALL_MM, point.joint, align, cell=cell))
            ink.append(Line(edge - side * 1.0, base - SMALL_MM / 2, x, y, THIN_MM, FAINT))
    for point in points:
        x, y = spot(point)
        ink.append(
            rectangle(Box(x - 1, y - 1, 2, 2), MIDDLE_MM, BLACK) if point.joint else Circle(x, y, 0.8, MIDDLE_MM, WHITE)
        )
    return ink


def _spread(wanted: list[float], top: float, bottom: float) -> list[float]:
    """Return base lines in order, at least a line apart, as near as can be to where they are wanted."""
    bases: list[float] = []
    for base in wanted:
        bases.append(max(base + SMALL_MM / 2, top, bases[-1] + _PITCH_MM if bases else top))
    limit = bottom
    for i in range(len(bases) - 1, -1, -1):
        bases[i] = min(bases[i], limit)
        limit = bases[i] - _PITCH_MM
    return bases
