"""Draw the outline of a shell as it is seen, with its key solid black."""

from __future__ import annotations

from docgen.paperwork.cards.views import View
from docgen.paperwork.typesetting.ink import BLACK, MIDDLE_MM, THIN_MM, Box, Circle, Ink, Shape, rectangle

KEY_MM = 1.6
_SLANT = 0.18  # of a D's height, by which its narrow side is shorter at each end; 10° as far as a drawing needs


def outline_ink(view: View, body: Box) -> list[Ink]:
    """Return the outline in its box: a rectangle, a D with its wide side at the key, or round, and the key."""
    if view.shape == "round":
        middle = body.x_mm + body.width_mm / 2, body.y_mm + body.height_mm / 2
        return [Circle(*middle, min(body.width_mm, body.height_mm) / 2, MIDDLE_MM), *_tooth(view, body)]
    if view.shape == "D" and view.key is not None:
        return _d_shape(view.key, body)
    return [rectangle(body, MIDDLE_MM), *_tooth(view, body)]


def _d_shape(wide: str, body: Box) -> list[Ink]:
    """Return a D whose shape is its key: the wide side is drawn solid, so that it is found as other keys are."""
    left, right, top, bottom = body.x_mm, body.right_mm, body.y_mm, body.bottom_mm
    # A D that is deeper than wide still has a narrow side.
    in_x = min(_SLANT * body.height_mm, body.width_mm / 4)
    in_y = min(_SLANT * body.width_mm, body.height_mm / 4)
    corners = {
        "up": ((left, top), (right, top), (right - in_x, bottom), (left + in_x, bottom)),
        "down": ((left + in_x, top), (right - in_x, top), (right, bottom), (left, bottom)),
        "left": ((left, top), (right, top + in_y), (right, bottom - in_y), (left, bottom)),
        "right": ((left, top + in_y), (right, top), (right, bottom), (left, bottom - in_y)),
    }[wide]
    bars = {
        "up": Box(left, top - KEY_MM / 2, body.width_mm, KEY_MM / 2),
        "down": Box(left, bottom, body.width_mm, KEY_MM / 2),
        "left": Box(left - KEY_MM / 2, top, KEY_MM / 2, body.height_mm),
        "right": Box(right, top, KEY_MM / 2, body.height_mm),
    }
    return [Shape(corners, MIDDLE_MM), rectangle(bars[wide], THIN_MM, BLACK)]


def _tooth(view: View, body: Box) -> list[Ink]:
    """Return the key, a tooth outside the outline."""
    if view.key is None:
        return []
    middle_x, middle_y = body.x_mm + body.width_mm / 2, body.y_mm + body.height_mm / 2
    tooth = {
        "up": Box(middle_x - 2, body.y_mm - KEY_MM, 4, KEY_MM),
        "down": Box(middle_x - 2, body.bottom_mm, 4, KEY_MM),
        "left": Box(body.x_mm - KEY_MM, middle_y - 2, KEY_MM, 4),
        "right": Box(body.right_mm, middle_y - 2, KEY_MM, 4),
    }[view.key]
    return [rectangle(tooth, THIN_MM, BLACK)]
