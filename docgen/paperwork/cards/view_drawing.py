"""What is drawn on a view of a half, and whether what belongs to different contacts keeps clear of each other."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from docgen.paperwork.cards.views import View
from docgen.paperwork.typesetting.ink import Box, Ink

APART_MM = (0.3, 0.35)  # between what belongs to different contacts, across and down
_RIM_MM = 0.3  # from the outline to what is inside it

Named = tuple[str, Box]


@dataclass
class Drawing:
    """The ink on one view, in mm from its middle, right and down, and the boxes that they keep clear of."""

    ink: list[Ink] = field(default_factory=list)
    boxes: list[Named] = field(default_factory=list)
    leaders: list[Named] = field(default_factory=list)
    inside: list[Box] = field(default_factory=list)

    def keep_clear(self, contact: str, box: Box, inside: Box | None = None) -> None:
        """Keep a box clear of what belongs to other contacts, and one within the outline."""
        self.boxes.append((contact, box))
        if inside is not None:
            self.inside.append(inside)

    @property
    def extent(self) -> Box:
        """Return the box around everything."""
        boxes = [box for _, box in self.boxes]
        left, top = min(box.x_mm for box in boxes), min(box.y_mm for box in boxes)
        return Box(left, top, max(box.right_mm for box in boxes) - left, max(box.bottom_mm for box in boxes) - top)


def is_legible(view: View, drawing: Drawing, scale: int) -> bool:
    """Tell whether what belongs to different contacts keeps clear of each other, and of the outline."""
    return all(_is_inside(view, box, scale) for box in drawing.inside) and _are_apart(drawing)


def _is_inside(view: View, box: Box, scale: int) -> bool:
    """Tell whether a box from the middle of a view keeps clear of its outline."""
    half_width, half_height = (side * scale / 2 - _RIM_MM for side in view.outline_mm)
    corners = [(x, y) for x in (box.x_mm, box.right_mm) for y in (box.y_mm, box.bottom_mm)]
    if view.shape == "round":
        return all(math.hypot(x, y) < half_width for x, y in corners)
    return all(abs(x) < half_width and abs(y) < half_height for x, y in corners)


def _are_apart(drawing: Drawing) -> bool:
    boxes = sorted(drawing.boxes, key=lambda named: named[1].x_mm)
    things = sorted((*boxes, *drawing.leaders), key=lambda named: named[1].x_mm)
    return not any(_collide(one, other) for one, other in _near(boxes, things))


def _near(boxes: Sequence[Named], things: Sequence[Named]) -> Iterable[tuple[Named, Named]]:
    """Walk the pairs of a box and another thing that are near each other across."""
    widest = max((box.width_mm for _, box in things), default=0.0) + APART_MM[0]
    first = 0
    for one in boxes:
        while first < len(things) and things[first][1].x_mm < one[1].x_mm - widest:
            first += 1
        for other in things[first:]:
            if other[1].x_mm > one[1].right_mm + APART_MM[0]:
                break
            yield one, other


def _collide(one: Named, other: Named) -> bool:
    if one[0] == other[0]:
        return False
    a, b = one[1], other[1]
    across = min(a.right_mm, b.right_mm) - max(a.x_mm, b.x_mm)
    down = min(a.bottom_mm, b.bottom_mm) - max(a.y_mm, b.y_mm)
    return across > -APART_MM[0] and down > -APART_MM[1]
