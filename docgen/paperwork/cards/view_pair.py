"""Set both views of a half on its card: what meets the eye at the mating face, and from the wires."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from docgen.paperwork.cards.view_drawing import Drawing, is_legible
from docgen.paperwork.cards.view_letters import (
    HEIGHTS,
    TIERS,
    Setting,
    ViewContact,
    draw_contacts,
    in_a_mirror,
    places_of_letters,
)
from docgen.paperwork.cards.view_outline import KEY_MM, outline_ink
from docgen.paperwork.cards.views import View
from docgen.paperwork.typesetting.ink import BLACK, MIDDLE_MM, Box, Circle, Ink, Line, Shape, Text, moved, rectangle
from docgen.paperwork.typesetting.typeface import FOOT_MM, PLAIN_MM, SMALL_MM, line_pitch_mm, width_mm, wrapped
from docgen.paperwork.typesetting.writer import PageWriter

_SCALES = (1, 2, 3, 4)
_SAYS_MM = 5.0  # the lines that state the scale
_GAP_MM = 4.0
_HEADINGS = (
    ("Mating face", "into the contacts, as it comes at you"),
    ("Wire side", "from the wires, as you push them in"),
)


@dataclass(frozen=True)
class _Fit:
    """How a pair of views is set: what is drawn on the first, and whether the other stands beside it."""

    setting: Setting
    drawing: Drawing
    room: Box  # around all that is drawn, from the middle of a view
    legible: bool
    beside: bool = False

    @property
    def heading_mm(self) -> float:
        """Return the height of a view's heading."""
        return 11.5 if self.beside else 6.0


@dataclass(frozen=True)
class ViewsOf:
    """The views of a half and what is said of them.

    `pairs` of mating face and wire side: as the half sits in the hatch, then upright; the first that can be read is
    drawn. `way` is how the first pair stands, in words; `to_scale` whether the part's pitch is known; `also` is what
    else is said below them.
    """

    pairs: Sequence[tuple[View, View]]
    contacts: dict[str, ViewContact]
    way: str
    to_scale: bool
    also: str = ""


def add_views(writer: PageWriter, of: ViewsOf) -> None:
    """Set the mating face and the wire side at the least whole scale at which their letters are read."""
    pair, fit = _chosen(of, writer.width_mm, writer.room_mm - _SAYS_MM)
    says = _says(of, pair, fit.setting)
    places = in_a_mirror(places_of_letters(pair[0], fit.setting))
    drawings = fit.drawing, draw_contacts(pair[1], of.contacts, fit.setting, places)
    column = (writer.width_mm - _GAP_MM) / 2 if fit.beside else writer.width_mm
    top = writer.y_mm
    for index, view in enumerate(pair):
        if not fit.beside and writer.room_mm < fit.heading_mm + fit.room.height_mm + _SAYS_MM:
            if index == 1:
                writer.paragraph(says, FOOT_MM)
            writer.new_page()
        x = writer.x_mm + index * (column + _GAP_MM) if fit.beside else writer.x_mm
        y = top if fit.beside else writer.y_mm
        took_mm = _add_view(writer, view, drawings[index], fit, Box(x, y, column, 0), index)
        writer.y_mm = max(writer.y_mm, y + took_mm)
    writer.paragraph(says, FOOT_MM)
    writer.space(1)


def _chosen(of: ViewsOf, width: float, height: float) -> tuple[tuple[View, View], _Fit]:
    """Choose which pair of views is drawn, and how: with letters if they can be read on any."""
    for pair in of.pairs:
        fit = _fit(pair[0], of.contacts, width, height)
        if fit is not None:
            return pair, fit
    upright = of.pairs[-1]
    return upright, _without_letters(upright[0], of.contacts, width)


def _says(of: ViewsOf, pair: tuple[View, View], setting: Setting) -> str:
    """Say how the views are drawn, and what their signs mean."""
    size = "true to size" if setting.scale == 1 else f"drawn {setting.scale} : 1"
    first = next(contact.number for contact in of.contacts.values() if contact.first)
    spare = any(not contact.colour for contact in of.contacts.values()) and setting.tiers is not None
    tight = "numbers and colours: see the table" if setting.numbers_outside else "colours: see the table"
    said = (
        size if of.to_scale else "not to scale: the pitch of this part is not given",
        f"square: contact {first}",
        ("no letters: spare" if setting.numbers_outside else "ring: spare") if spare else "",
        of.way if pair == of.pairs[0] else "upright, as it could not be read turned to the hatch",
        of.also,
        f"too tight for {tight}" if setting.tiers is None else "",
    )
    return " · ".join(part for part in said if part)


def _fit(view: View, contacts: dict[str, ViewContact], width: float, height: float) -> _Fit | None:
    """Choose how the views are set: true to size if that can be read, else at the least whole scale.

    Side by side, else one above the other; at no scale, on two pages. At each scale the larger type first, letters
    inside the outline before letters outside it, then close together, then numbers outside too.
    """
    usual = [Setting(1, *heights, tiers) for heights, tiers in product(HEIGHTS, TIERS)]
    close = [Setting(1, SMALL_MM, SMALL_MM, 0, away_mm=0.5, stripe_mm=0.25)]
    tight = [Setting(1, SMALL_MM, SMALL_MM, tiers, True) for tiers in TIERS[1:] if view.has_outer_sides]
    together, apart = ((True, 1), (False, 2)), ((False, 1),)
    for ways, scale, settings in product((together, apart), _SCALES, (usual, close, tight)):
        drawn = [_drawn(view, contacts, replace(setting, scale=scale)) for setting in settings]
        legible = [fit for fit in drawn if fit.legible]
        for (beside, views), fit in product(ways, legible):
            placed = replace(fit, beside=beside)
            column = (width - _GAP_MM) / 2 if beside else width
            if fit.room.width_mm <= column and views * (placed.heading_mm + fit.room.height_mm) <= height:
                return placed
    return None


def _without_letters(view: View, contacts: dict[str, ViewContact], width: float) -> _Fit:
    """Return the least scale at which numbers alone keep clear, else with those at the ends of rows beside it.

    The table tells the colours then.
    """
    for outside, scale in product((False, True), _SCALES):
        fit = _drawn(view, contacts, Setting(scale, SMALL_MM, SMALL_MM, None, outside))
        if fit.legible and fit.room.width_mm <= width:
            return fit
    return _drawn(view, contacts, Setting(1, SMALL_MM, SMALL_MM, None, True))


def _drawn(view: View, contacts: dict[str, ViewContact], setting: Setting) -> _Fit:
    """Draw a view, and tell whether it can be read; numbers and letters beside each other share a base line."""
    places = places_of_letters(view, setting)
    drawing = draw_contacts(view, contacts, setting, places)
    across = any(place.is_across for place in places.values())
    levels = setting.tiers is None or not across or setting.number_mm == setting.letters_mm
    legible = levels and is_legible(view, drawing, setting.scale)
    return _Fit(setting, drawing, _around(view, drawing, setting), legible)


def _around(view: View, drawing: Drawing, setting: Setting) -> Box:
    """Return the box around an outline with its key and all that is drawn, as wide to the left as to the right."""
    width, height = (side * setting.scale + 2 * (KEY_MM + 0.5) for side in view.outline_mm)
    drawn = drawing.extent
    half = max(width / 2, -drawn.x_mm, drawn.right_mm)
    top, bottom = min(-height / 2, drawn.y_mm) - 1, max(height / 2, drawn.bottom_mm) + 1.6
    return Box(-half, top, 2 * half, bottom - top)


def _add_view(writer: PageWriter, view: View, drawing: Drawing, fit: _Fit, box: Box, index: int) -> float:
    """Draw one view below its heading in a column and return the height that it took."""
    title, says = _HEADINGS[index]
    beside = width_mm(title, PLAIN_MM, True) + 2 if not fit.beside else 0.0
    lines = wrapped(says, box.width_mm - 9 - beside, SMALL_MM)
    under = len(lines) * line_pitch_mm(SMALL_MM) if fit.beside else 0.8
    head = 2.0 + PLAIN_MM + under + 0.6
    if index == 0:
        writer.page.add(rectangle(Box(box.x_mm, box.y_mm, box.width_mm, head), MIDDLE_MM))
    writer.page.add(*_eye(box.x_mm + 1.2, box.y_mm + head / 2))
    writer.page.add(Text(box.x_mm + 9, box.y_mm + 1.2 + PLAIN_MM, title, PLAIN_MM, True))
    for i, line in enumerate(lines):
        base = box.y_mm + 1.2 + PLAIN_MM + ((i + 1) * line_pitch_mm(SMALL_MM) + 0.2 if fit.beside else 0)
        writer.page.add(Text(box.x_mm + 9 + beside, base, line, SMALL_MM))
    x, y = box.x_mm + box.width_mm / 2, box.y_mm + head + 0.6 - fit.room.y_mm
    width, height = (length * fit.setting.scale for length in view.outline_mm)
    writer.page.add(*outline_ink(view, Box(x - width / 2, y - height / 2, width, height)))
    writer.page.add(*(moved(ink, x, y) for ink in drawing.ink))
    return head + 0.6 + fit.room.height_mm


def _eye(x: float, y: float) -> list[Ink]:
    """Draw an eye that looks along an arrow."""
    return [
        Shape(((x, y), (x + 1.5, y - 1.1), (x + 3, y), (x + 1.5, y + 1.1)), MIDDLE_MM),
        Circle(x + 1.5, y, 0.5, fill=BLACK, colour=None),
        Line(x + 3.4, y, x + 6, y, MIDDLE_MM),
        Shape(((x + 7, y), (x + 5.6, y - 0.8), (x + 5.6, y + 0.8)), fill=BLACK, colour=None),
    ]
