"""Set both views of a half on its card: what meets the eye at the mating face, and from the wires."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
# How both stand on one side of a card, as columns and rows; apart, each has a side of its own.
_BESIDE, _BELOW, _APART = (2, 1), (1, 2), (1, 1)
_ON_ONE_SIDE = (_BESIDE, _BELOW)
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
    """How a pair of views is set: which, what is drawn on the first, and in how many columns and rows they stand."""

    index: int
    drawn: _Drawn
    way: tuple[int, int]

    @property
    def beside(self) -> bool:
        """Tell whether the other stands beside the first."""
        return self.way == _BESIDE

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


def views_blocks(of: ViewsOf, width: float, height: float, *, anyhow: bool = False) -> Sequence[Block]:
    """Return the mating face and the wire side in one block of that height, if they can be read there.

    If not there are none, or, `anyhow`, the best that can be: if need be one in each of two blocks, for a side of a
    card each.
    """
    fits = _fits(of, width, height) if anyhow else iter([_fit(of, 0, width, height, _ON_ONE_SIDE)])
    fit = next((fit for fit in fits if fit is not None), None)
    if fit is None:
        return ()
    if fit.way == _APART:
        return [_block(of, fit, width, (0,)), _block(of, fit, width, (1,))]
    return [_block(of, fit, width)]


def _fits(of: ViewsOf, width: float, height: float) -> Iterator[_Fit | None]:
    """Walk how the views may be set, the best first: as they sit in the hatch, upright, numbers alone; the same apart.

    Then, too tight for numbers, with those at the ends of rows, and at last with none.
    """
    for ways in (_ON_ONE_SIDE, (_APART,)):
        for index in range(len(of.pairs)):
            yield _fit(of, index, width, height, ways)
        yield _numbers_alone(of, width, height, ways[::-1], outside=False)
    for way in (_BELOW, _APART):
        yield _numbers_alone(of, width, height, (way,), outside=True)
    yield _dots(of, width, height)


def _says_mm(says: str, width: float) -> float:
    """Return the height of what is said below views, and of what is left clear below that."""
    return 1.0 + len(wrapped(says, width, SMALL_MM)) * line_pitch_mm(SMALL_MM) + 1.0


def _block(of: ViewsOf, fit: _Fit, width: float, shown: Sequence[int] = (0, 1)) -> Block:
    """Return one view or both, side by side or below each other, and below the second how they are drawn."""
    pair = of.pairs[fit.index]
    places = in_a_mirror(places_of_letters(pair[0], fit.setting))
    drawings = fit.drawn.drawing, draw_contacts(pair[1], of.contacts, fit.setting, places)
    says = _says(of, pair, fit.setting) if 1 in shown else ""
    columns, rows = fit.way
    column = (width - (columns - 1) * _GAP_MM) / columns
    high = fit.heading_mm + fit.room.height_mm

    def draw(box: Box) -> list[Ink]:
        ink: list[Ink] = []
        for i, index in enumerate(shown):
            x, y = box.x_mm + i % columns * (column + _GAP_MM), box.y_mm + i // columns * high
            ink += _view_ink(pair[index], drawings[index], fit, Box(x, y, column, high), index)
        first = box.y_mm + rows * high + 1.0 + SMALL_MM
        for i, line in enumerate(wrapped(says, width, SMALL_MM) if says else ()):
            ink.append(Text(box.x_mm, first + i * line_pitch_mm(SMALL_MM), line, SMALL_MM))
        return ink

    return Block(rows * high + (_says_mm(says, width) if says else 0.0), draw)


def _says(of: ViewsOf, pair: tuple[View, View], setting: Setting) -> str:
    """Say how the views are drawn, and what their signs mean."""
    size = "true to size" if setting.scale == 1 else f"drawn {setting.scale} : 1"
    first = next(contact.number for contact in of.contacts.values() if contact.first)
    spare = any(not contact.colour for contact in of.contacts.values()) and setting.tiers is not None
    tight = "numbers and colours: see the table" if setting.numbers_outside else "colours: see the table"
    tight = tight if setting.row_ends else "numbers and colours: see the part"
    said = (
        size if of.to_scale else "not to scale: the pitch of this part is not given",
        f"square: contact {first}",
        ("no letters: spare" if setting.numbers_outside else "ring: spare") if spare else "",
        of.way if pair == of.pairs[0] else "upright, as it could not be read turned to the hatch",
        f"too tight for {tight}" if setting.tiers is None else "",
    )
    return " · ".join(part for part in said if part)


def _fit(of: ViewsOf, index: int, width: float, height: float, ways: Sequence[tuple[int, int]]) -> _Fit | None:
    """Choose how the views are set: the first setting that can be read, in the first of the ways that has room."""
    view = of.pairs[index][0]
    for scale, settings in _settings(view):
        outline = _around(view, scale, Box(0, 0, 0, 0))
        left_mm = [height - _below_mm(of, index, setting, ways, width) for setting in settings]
        for way in (way for way in ways if _has_room(outline, way, width, max(left_mm))):
            for setting, left in zip(settings, left_mm, strict=True):
                if of.may_be_legible(index, setting):
                    drawn = of.drawn(index, setting)
                    if _has_room(drawn.room, way, width, left) and drawn.legible:
                        return _Fit(index, drawn, way)
    return None


def _settings(view: View) -> Iterator[tuple[int, list[Setting]]]:
    """Walk the settings of a view, the best first: true to size, else at the least whole scale.

    At each scale the larger type first, letters inside the outline before letters outside it, then close together; at
    no scale, numbers outside too. Numbers share a base line with letters beside them.
    """
    heights = [each for each in HEIGHTS if not stand_across(view) or each[0] == each[1]]
    for scale in _SCALES:
        yield scale, [Setting(scale, *each, tiers) for each, tiers in product(heights, TIERS)]
        yield scale, [Setting(scale, SMALL_MM, SMALL_MM, 0, away_mm=0.5, stripe_mm=0.25)]
    for scale in _SCALES if view.has_outer_sides else ():
        yield scale, [Setting(scale, SMALL_MM, SMALL_MM, tiers, True) for tiers in TIERS[1:]]


def _below_mm(of: ViewsOf, index: int, setting: Setting, ways: Sequence[tuple[int, int]], width: float) -> float:
    """Return the height that what is said takes below views on one side; apart, the second one's side has more room."""
    return 0.0 if ways == (_APART,) else _says_mm(_says(of, of.pairs[index], setting), width)


def _has_room(room: Box, way: tuple[int, int], width: float, height: float) -> bool:
    """Tell whether views that take so much room each fit in so many columns and rows."""
    columns, rows = way
    is_wide = room.width_mm <= (width - (columns - 1) * _GAP_MM) / columns
    return is_wide and rows * (_heading_mm(way == _BESIDE) + room.height_mm) <= height


def _heading_mm(beside: bool) -> float:
    return 8.9 if beside else 6.0


def _around(view: View, scale: int, drawn: Box) -> Box:
    """Return the box around an outline with its key and all that is drawn, as wide to the left as to the right."""
    width, height = (side * scale + 2 * (KEY_MM + 0.5) for side in view.outline_mm)
    half = max(width / 2, -drawn.x_mm, drawn.right_mm)
    top, bottom = min(-height / 2, drawn.y_mm) - 1, max(height / 2, drawn.bottom_mm) + 1.6
    return Box(-half, top, 2 * half, bottom - top)


def _numbers_alone(
    of: ViewsOf, width: float, height: float, ways: Sequence[tuple[int, int]], *, outside: bool
) -> _Fit | None:
    """Return the least scale at which numbers alone keep clear, or with those at the ends of rows beside it."""
    index = len(of.pairs) - 1
    for scale in _SCALES:
        setting = Setting(scale, SMALL_MM, SMALL_MM, None, outside)
        drawn = of.drawn(index, setting)
        left_mm = height - _below_mm(of, index, setting, ways, width)
        way = next((way for way in ways if _has_room(drawn.room, way, width, left_mm)), None)
        if way is not None and drawn.legible:
            return _Fit(index, drawn, way)
    return None


def _dots(of: ViewsOf, width: float, height: float) -> _Fit:
    """Return contacts as dots true to size, where no number can be read."""
    index = len(of.pairs) - 1
    setting = Setting(1, SMALL_MM, SMALL_MM, None, True, row_ends=False)
    drawn = of.drawn(index, setting)
    left_mm = height - _below_mm(of, index, setting, (_BELOW,), width)
    return _Fit(index, drawn, _BELOW if _has_room(drawn.room, _BELOW, width, left_mm) else _APART)


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
