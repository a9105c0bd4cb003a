"""Set both views of a half on its card: what meets the eye at the mating face, and from the wires."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace
from functools import cached_property
from itertools import product

from docgen.basics.frozen import frozen
from docgen.paperwork.cards.view_drawing import Drawing, is_legible
from docgen.paperwork.cards.view_letters import (
    HEIGHTS,
    TIERS,
    Setting,
    ViewContact,
    draw_contacts,
    in_a_mirror,
    places_of_letters,
    stand_across,
)
from docgen.paperwork.cards.view_outline import KEY_MM, outline_ink
from docgen.paperwork.cards.views import View
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.typesetting.ink import BLACK, MIDDLE_MM, Box, Circle, Ink, Line, Shape, Text, moved, rectangle
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM, line_pitch_mm, width_mm, wrapped

_SCALES = (1, 2, 3, 4)
_GAP_MM = 4.0
_HEADINGS = (
    ("Mating face", "looking into the open end"),
    ("Wire side", "from the wires' side"),
)


@frozen
class _Drawn:
    """What is drawn on a view in one setting."""

    view: View
    setting: Setting
    drawing: Drawing

    @cached_property
    def room(self) -> Box:
        """Return the box around its outline, key and all that is drawn, from its middle, as wide to either side."""
        return _around(self.view, self.setting.scale, self.drawing.extent)

    @cached_property
    def legible(self) -> bool:
        """Tell whether it can be read."""
        return is_legible(self.view, self.drawing, self.setting.scale)


@frozen
class _Fit:
    """How a pair of views is set: what is drawn on the first, and whether the other stands beside it."""

    drawn: _Drawn
    beside: bool = False

    @property
    def setting(self) -> Setting:
        """Return how both are set."""
        return self.drawn.setting

    @property
    def room(self) -> Box:
        """Return the box around either, from its middle."""
        return self.drawn.room

    @property
    def heading_mm(self) -> float:
        """Return the height of a view's heading."""
        return _heading_mm(self.beside)


@frozen
class ViewsOf:
    """The views of a half and what is said of them.

    `pairs` of mating face and wire side: as the half sits in the hatch, then upright; the first that can be read is
    drawn. `way` is how the first pair stands, in words; `to_scale` whether the part's pitch is known. What is drawn to
    find how they are set is kept, as the same is tried in all heights that a card may have left.
    """

    pairs: Sequence[tuple[View, View]]
    contacts: dict[str, ViewContact]
    way: str
    to_scale: bool
    _drawn: dict[tuple[int, Setting], _Drawn] = field(default_factory=dict, compare=False)

    def drawn(self, index: int, setting: Setting) -> _Drawn:
        """Return the first view of a pair in one setting."""
        key = index, setting
        if key not in self._drawn:
            view = self.pairs[index][0]
            drawing = draw_contacts(view, self.contacts, setting, places_of_letters(view, setting))
            self._drawn[key] = _Drawn(view, setting, drawing)
        return self._drawn[key]

    def may_be_legible(self, index: int, setting: Setting) -> bool:
        """Tell whether the numbers alone, without letters, keep clear in a setting: else nothing with them does."""
        alone = replace(setting, letters_mm=setting.number_mm, tiers=None)
        return setting.numbers_outside or self.drawn(index, alone).legible


def views_block(of: ViewsOf, width: float, height: float, *, anyhow: bool = False) -> Block | None:
    """Return the mating face and the wire side at the least whole scale at which their letters are read.

    If they can't be in that height there are none, or, `anyhow`, they are upright, or else numbers alone, and the
    table tells the colours.
    """
    for index, pair in enumerate(of.pairs if anyhow else of.pairs[:1]):
        says_mm = _says_mm(_says(of, pair, Setting(4, 1, 1, None, True)), width)
        fit = _fit(of, index, width, height - says_mm)
        if fit is not None:
            return _block(of, pair, fit, width)
    return _block(of, of.pairs[-1], _without_letters(of, width), width) if anyhow else None


def _says_mm(says: str, width: float) -> float:
    """Return the height of what is said below views, and of what is left clear below that."""
    return 1.0 + len(wrapped(says, width, SMALL_MM)) * line_pitch_mm(SMALL_MM) + 1.0


def _block(of: ViewsOf, pair: tuple[View, View], fit: _Fit, width: float) -> Block:
    """Return both views, side by side or below each other, and how they are drawn."""
    places = in_a_mirror(places_of_letters(pair[0], fit.setting))
    drawings = fit.drawn.drawing, draw_contacts(pair[1], of.contacts, fit.setting, places)
    says = _says(of, pair, fit.setting)
    column = (width - _GAP_MM) / 2 if fit.beside else width
    high = fit.heading_mm + fit.room.height_mm
    both_mm = high if fit.beside else 2 * high

    def draw(box: Box) -> list[Ink]:
        ink: list[Ink] = []
        for index, view in enumerate(pair):
            x = box.x_mm + (index * (column + _GAP_MM) if fit.beside else 0.0)
            y = box.y_mm + (0.0 if fit.beside else index * high)
            ink += _view_ink(view, drawings[index], fit, Box(x, y, column, high), index)
        first = box.y_mm + both_mm + 1.0 + SMALL_MM
        for i, line in enumerate(wrapped(says, width, SMALL_MM)):
            ink.append(Text(box.x_mm, first + i * line_pitch_mm(SMALL_MM), line, SMALL_MM))
        return ink

    return Block(both_mm + _says_mm(says, width), draw)


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
        f"too tight for {tight}" if setting.tiers is None else "",
    )
    return " · ".join(part for part in said if part)


def _fit(of: ViewsOf, index: int, width: float, height: float) -> _Fit | None:
    """Choose how the views are set: true to size if that can be read, else at the least whole scale.

    Side by side, else one above the other. At each scale the larger type first, letters
    inside the outline before letters outside it, then close together; at no scale, numbers outside too.
    """
    view = of.pairs[index][0]
    across = stand_across(view)
    usual = [Setting(1, *heights, tiers) for heights, tiers in product(HEIGHTS, TIERS)]
    close = [Setting(1, SMALL_MM, SMALL_MM, 0, away_mm=0.5, stripe_mm=0.25)]
    tight = [Setting(1, SMALL_MM, SMALL_MM, tiers, True) for tiers in TIERS[1:] if view.has_outer_sides]
    for scale, settings in (*product(_SCALES, (usual, close)), *product(_SCALES, (tight,))):
        outline = _around(view, scale, Box(0, 0, 0, 0))
        scaled = [replace(setting, scale=scale) for setting in settings if not across or _is_level(setting)]
        for beside in (beside for beside in (True, False) if _has_room(outline, beside, width, height)):
            for setting in (setting for setting in scaled if of.may_be_legible(index, setting)):
                drawn = of.drawn(index, setting)
                if _has_room(drawn.room, beside, width, height) and drawn.legible:
                    return _Fit(drawn, beside)
    return None


def _has_room(room: Box, beside: bool, width: float, height: float) -> bool:
    """Tell whether two views that take so much room each fit beside each other, or else below each other."""
    columns, rows, gap = (2, 1, _GAP_MM) if beside else (1, 2, 0.0)
    return room.width_mm <= (width - gap) / columns and rows * (_heading_mm(beside) + room.height_mm) <= height


def _heading_mm(beside: bool) -> float:
    return 8.9 if beside else 6.0


def _around(view: View, scale: int, drawn: Box) -> Box:
    """Return the box around an outline with its key and all that is drawn, as wide to the left as to the right."""
    width, height = (side * scale + 2 * (KEY_MM + 0.5) for side in view.outline_mm)
    half = max(width / 2, -drawn.x_mm, drawn.right_mm)
    top, bottom = min(-height / 2, drawn.y_mm) - 1, max(height / 2, drawn.bottom_mm) + 1.6
    return Box(-half, top, 2 * half, bottom - top)


def _is_level(setting: Setting) -> bool:
    """Tell whether numbers share a base line with letters beside them."""
    return setting.tiers is None or setting.number_mm == setting.letters_mm


def _without_letters(of: ViewsOf, width: float) -> _Fit:
    """Return the least scale at which numbers alone keep clear, else with those at the ends of rows beside it.

    The table tells the colours then.
    """
    for outside, scale in product((False, True), _SCALES):
        fit = _Fit(of.drawn(len(of.pairs) - 1, Setting(scale, SMALL_MM, SMALL_MM, None, outside)))
        if fit.room.width_mm <= width and fit.drawn.legible:
            return fit
    return _Fit(of.drawn(len(of.pairs) - 1, Setting(1, SMALL_MM, SMALL_MM, None, True)))


def _view_ink(view: View, drawing: Drawing, fit: _Fit, box: Box, index: int) -> list[Ink]:
    """Return one view below its heading."""
    title, says = _HEADINGS[index]
    beside = width_mm(title, PLAIN_MM, True) + 2 if not fit.beside else 0.0
    said = wrapped(says, box.width_mm - 9 - beside, SMALL_MM)
    head = fit.heading_mm - 0.6
    ink: list[Ink] = [rectangle(Box(box.x_mm, box.y_mm, box.width_mm, head), MIDDLE_MM)] if index == 0 else []
    ink += _eye(box.x_mm + 1.2, box.y_mm + head / 2)
    ink.append(Text(box.x_mm + 9, box.y_mm + 1.2 + PLAIN_MM, title, PLAIN_MM, True))
    for i, line in enumerate(said):
        base = box.y_mm + 1.2 + PLAIN_MM + ((i + 1) * line_pitch_mm(SMALL_MM) + 0.2 if fit.beside else 0)
        ink.append(Text(box.x_mm + 9 + beside, base, line, SMALL_MM))
    x, y = box.x_mm + box.width_mm / 2, box.y_mm + fit.heading_mm - fit.room.y_mm
    width, height = (length * fit.setting.scale for length in view.outline_mm)
    ink += outline_ink(view, Box(x - width / 2, y - height / 2, width, height))
    return [*ink, *(moved(one, x, y) for one in drawing.ink)]


def _eye(x: float, y: float) -> list[Ink]:
    """Draw an eye that looks along an arrow."""
    return [
        Shape(((x, y), (x + 1.5, y - 1.1), (x + 3, y), (x + 1.5, y + 1.1)), MIDDLE_MM),
        Circle(x + 1.5, y, 0.5, fill=BLACK, colour=None),
        Line(x + 3.4, y, x + 6, y, MIDDLE_MM),
        Shape(((x + 7, y), (x + 5.6, y - 0.8), (x + 5.6, y + 0.8)), fill=BLACK, colour=None),
    ]
