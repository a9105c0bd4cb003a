"""What is drawn on a view of a half, and whether what belongs to different contacts keeps clear of each other."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from docgen.paperwork.cards.views import View
from docgen.paperwork.typesetting.ink import Box, Ink

APART_MM = (0.3, 0.35)  # between what belongs to different contacts, across and down
_RIM_MM = 0.4  # from the middle of the outline to what is inside it, so that more white than line is between

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
    """Tell whether boxes keep clear of all that belongs to other contacts; leaders may cross each other.

    All is taken from left to right, each thing held against those that reach as far across.
    """
    across, down = APART_MM
    things = [
        (x, x + width, y, y + height, contact, leads)
        for leads, named in enumerate((drawing.boxes, drawing.leaders))
        for contact, (x, y, width, height) in named
    ]
    near: list[tuple[float, float, float, float, str, int]] = []
    for thing in sorted(things):
        left, _, top, bottom, contact, leads = thing
        near = [other for other in near if other[1] - left > -across]
        for _, _, other_top, other_bottom, other_contact, other_leads in near:
            overlap = bottom - other_top > -down and other_bottom - top > -down
            if overlap and contact != other_contact and not (leads and other_leads):
                return False
        near.append(thing)
    return True
