"""Draw the aircraft from above: places by their coordinates, names at both sides with leaders."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.paperwork.hangar.content import PlanPoint
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


def _text(point: PlanPoint) -> str:
    return point.name if point.is_joint else f"{point.name}: {point.cover}"


def cut_names(points: Sequence[PlanPoint], width_mm: float) -> list[str]:
    """Return the names that a plan of that width shortens."""
    names = ((_text(point), point.is_joint) for point in points)
    return [name for name, bold in names if shortened(name, width_mm * _COLUMN, SMALL_MM, bold) != name]


def plan_ink(points: Sequence[PlanPoint], box: Box) -> list[Ink]:
    """Return the plan, nose up, inside a box."""
    column = box.width_mm * _COLUMN
    area = Box(box.x_mm + column + 6, box.y_mm + 5, box.width_mm - 2 * column - 12, box.height_mm - 8)
    aft = [point.aft_mm for point in points]
    widest = max([abs(point.right_mm) for point in points] + [1.0])
    scale = min(area.height_mm / max(max(aft) - min(aft), 1.0), area.width_mm / 2 / widest)
    middle = area.x_mm + area.width_mm / 2
    spots = {
        point: (middle + point.right_mm * scale, area.y_mm + (point.aft_mm - min(aft)) * scale) for point in points
    }
    low = area.y_mm + (max(aft) - min(aft)) * scale
    ink: list[Ink] = [
        Shape(((middle, box.y_mm), (middle - 1.5, box.y_mm + 3), (middle + 1.5, box.y_mm + 3)), fill=BLACK),
        Text(middle + 2.5, box.y_mm + 2.6, "nose", FOOT_MM),
        Line(middle, box.y_mm + 4, middle, low, THIN_MM, FAINT),
    ]
    left, right = _columns(points)
    ink += _names_ink(left, spots, Box(box.x_mm, box.y_mm, column, box.height_mm), "right")
    ink += _names_ink(right, spots, Box(box.right_mm - column, box.y_mm, column, box.height_mm), "left")
    for point, (x, y) in spots.items():
        square, circle = Box(x - 1, y - 1, 2, 2), Circle(x, y, 0.8, MIDDLE_MM, WHITE)
        ink.append(rectangle(square, MIDDLE_MM, BLACK) if point.is_joint else circle)
    return ink


def _names_ink(
    points: Sequence[PlanPoint], spots: dict[PlanPoint, tuple[float, float]], column: Box, align: str
) -> list[Ink]:
    """Return names in a column, each with a leader from its edge at the plan to its spot."""
    edge, away = (column.right_mm, 1.0) if align == "right" else (column.x_mm, -1.0)
    bases = _spread([spots[point][1] for point in points], column.y_mm + 3, column.bottom_mm - 1)
    ink: list[Ink] = []
    for point, base in zip(points, bases, strict=True):
        text = shortened(_text(point), column.width_mm, SMALL_MM, point.is_joint)
        cell = Box(column.x_mm, base - 3, column.width_mm, 4)
        ink.append(Text(edge, base, text, SMALL_MM, point.is_joint, align, cell=cell))
        ink.append(Line(edge + away, base - SMALL_MM / 2, *spots[point], THIN_MM, FAINT))
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
