"""Draw both views of a half: what meets the eye at the mating face, and from the wires."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from docgen.paperwork.card_letters import HEIGHTS, TIERS, Drawing, Setting, ViewContact, draw_contacts, is_legible
from docgen.paperwork.card_outline import KEY_MM, outline_marks
from docgen.paperwork.flow import Flow
from docgen.paperwork.imprint import FOOT_MM, PLAIN_MM, SMALL_MM, line_pitch_mm
from docgen.paperwork.marks import BLACK, MIDDLE_MM, Box, Circle, Line, Mark, Shape, Text, rectangle
from docgen.paperwork.typeface import width_mm, wrapped
from docgen.paperwork.views import View

_SCALES = (1, 2, 3, 4)
_SAYS_MM = 5.0  # the lines that state the scale
_GAP_MM = 4.0
_HEADINGS = (
    ("Mating face", "into the contacts, as it comes at you"),
    ("Wire side", "from the wires, as you push them in"),
)


@dataclass(frozen=True)
class _Fit:
    """How a pair of views is set: beside each other or not, and what is drawn on the first."""

    setting: Setting
    beside: bool
    room: Box  # around all that is drawn, from the middle of a view


def add_views(
    flow: Flow, views: Sequence[tuple[View, View]], contacts: dict[str, ViewContact], way: str, also: str = ""
) -> None:
    """Set the mating face and the wire side at the least whole scale at which their letters are read.

    Args:
        flow: the pages.
        views: pairs of views, the first that can be legible is taken: as the half sits in the hatch, else upright.
        contacts: what is written at each contact.
        way: how the first pair stands, in words.
        also: what else is said below them.

    """
    pair, fit = views[-1], _numbers_only(views[-1][0], contacts, flow.width_mm)
    for tried in views:
        found = _fit(tried[0], contacts, flow.width_mm, flow.room_mm - _SAYS_MM)
        if found is not None:
            pair, fit = tried, found
            break
    size = "true to size" if fit.setting.scale == 1 else f"drawn {fit.setting.scale} : 1"
    turned = way if pair == views[0] else "too tall to be turned as it sits in the hatch"
    colours = "" if fit.setting.tiers is not None else " · too tight for colours: see the table"
    first = next(contact.number for contact in contacts.values() if contact.first)
    says = f"{size} · square: contact {first} · {turned}{also}{colours}"
    column = (flow.width_mm - _GAP_MM) / 2 if fit.beside else flow.width_mm
    top = flow.y_mm
    for index, view in enumerate(pair):
        if not fit.beside and flow.room_mm < _heading_mm(fit) + fit.room.height_mm + _SAYS_MM:
            if index == 1:
                flow.paragraph(says, FOOT_MM)
            flow.new_page()
        x = flow.x_mm + index * (column + _GAP_MM) if fit.beside else flow.x_mm
        y = top if fit.beside else flow.y_mm
        flow.y_mm = max(flow.y_mm, y + _add_view(flow, view, contacts, fit, Box(x, y, column, 0), index))
    flow.paragraph(says, FOOT_MM)
    flow.space(1)


def _fit(view: View, contacts: dict[str, ViewContact], width: float, height: float) -> _Fit | None:
    """Choose how the views are set: true to size if that can be read, else at the least whole scale.

    Side by side, else one above the other; at no scale, on two pages. The larger type first, letters inside the
    outline before letters outside it, then close together; numbers outside too where they are not read at any scale.
    """
    usual = [Setting(scale, *heights, tiers) for scale, heights, tiers in product(_SCALES, HEIGHTS, TIERS)]
    close = [Setting(scale, SMALL_MM, SMALL_MM, 0, away_mm=0.4, stripe_mm=0.25) for scale in _SCALES]
    tight = [Setting(scale, SMALL_MM, SMALL_MM, tiers, True) for scale, tiers in product(_SCALES, TIERS[1:])]
    together, apart = ((True, 1), (False, 2)), ((False, 1),)
    for ways, settings in product((together, apart), (usual, close, tight)):
        drawn = [(setting, room) for setting in settings if (room := _drawn(view, contacts, setting)) is not None]
        for scale, (beside, views) in product(_SCALES, ways):
            column = (width - _GAP_MM) / 2 if beside else width
            for setting, around in drawn:
                fit = _Fit(setting, beside, around)
                tall = _heading_mm(fit) + around.height_mm
                if setting.scale == scale and around.width_mm <= column and views * tall <= height:
                    return fit
    return None


def _drawn(view: View, contacts: dict[str, ViewContact], setting: Setting) -> Box | None:
    """Return the room that a view takes around its middle, if it can be read."""
    if setting.tiers is not None and _is_across(view) and setting.number_mm != setting.letters_mm:
        return None  # beside each other they share a base line
    drawing = draw_contacts(view, contacts, setting)
    return _around(view, drawing, setting) if is_legible(view, drawing, setting.scale) else None


def _is_across(view: View) -> bool:
    """Tell whether letters stand left and right of their numbers."""
    rows, columns = (len({round(at[axis], 3) for at in view.at_mm.values()}) for axis in (1, 0))
    return view.shape != "round" and rows > 2 >= columns


def _around(view: View, drawing: Drawing, setting: Setting) -> Box:
    """Return the box around an outline with its key and all that is drawn, as wide to the left as to the right."""
    width, height = (side * setting.scale + 2 * (KEY_MM + 0.5) for side in view.outline_mm)
    drawn = drawing.extent
    half = max(width / 2, -drawn.x_mm, drawn.right_mm)
    top, bottom = min(-height / 2, drawn.y_mm) - 1, max(height / 2, drawn.bottom_mm) + 1
    return Box(-half, top, 2 * half, bottom - top)


def _heading_mm(fit: _Fit) -> float:
    return 11.5 if fit.beside else 6.0


def _numbers_only(view: View, contacts: dict[str, ViewContact], width: float) -> _Fit:
    """Return the least scale at which numbers alone keep clear, for a shell on which letters would not be read."""

    def fits() -> Iterator[tuple[bool, _Fit]]:
        for scale in _SCALES:
            setting = Setting(scale, SMALL_MM, SMALL_MM, None)
            drawing = draw_contacts(view, contacts, setting)
            fit = _Fit(setting, False, _around(view, drawing, setting))
            yield is_legible(view, drawing, scale), fit

    found = [(legible, fit) for legible, fit in fits() if fit.room.width_mm <= width or fit.setting.scale == 1]
    return next((fit for legible, fit in found if legible), found[-1][1])


def _add_view(flow: Flow, view: View, contacts: dict[str, ViewContact], fit: _Fit, box: Box, index: int) -> float:
    """Draw one view below its heading in a column and return the height that it took."""
    title, says = _HEADINGS[index]
    beside = width_mm(title, PLAIN_MM, True) + 2 if not fit.beside else 0.0
    lines = wrapped(says, box.width_mm - 9 - beside, SMALL_MM)
    under = len(lines) * line_pitch_mm(SMALL_MM) if fit.beside else 0.8
    head = 2.0 + PLAIN_MM + under + 0.6
    if index == 0:
        flow.page.add(rectangle(Box(box.x_mm, box.y_mm, box.width_mm, head), MIDDLE_MM))
    flow.page.add(*_eye(box.x_mm + 1.2, box.y_mm + head / 2))
    flow.page.add(Text(box.x_mm + 9, box.y_mm + 1.2 + PLAIN_MM, title, PLAIN_MM, True))
    for i, line in enumerate(lines):
        base = box.y_mm + 1.2 + PLAIN_MM + ((i + 1) * line_pitch_mm(SMALL_MM) + 0.2 if fit.beside else 0)
        flow.page.add(Text(box.x_mm + 9 + beside, base, line, SMALL_MM))
    x, y = box.x_mm + box.width_mm / 2, box.y_mm + head + 0.6 - fit.room.y_mm
    width, height = (length * fit.setting.scale for length in view.outline_mm)
    drawn = draw_contacts(view, contacts, fit.setting, in_mirror=index == 1)
    flow.page.add(*outline_marks(view, Box(x - width / 2, y - height / 2, width, height)))
    flow.page.add(*(_moved(mark, x, y) for mark in drawn.marks))
    return head + 0.6 + fit.room.height_mm


def _moved(mark: Mark, x: float, y: float) -> Mark:
    """Return a mark moved right and down."""
    if isinstance(mark, Shape):
        return replace(mark, points_mm=tuple((across + x, down + y) for across, down in mark.points_mm))
    if isinstance(mark, Line):
        ends = mark.x1_mm + x, mark.y1_mm + y, mark.x2_mm + x, mark.y2_mm + y
        return replace(mark, x1_mm=ends[0], y1_mm=ends[1], x2_mm=ends[2], y2_mm=ends[3])
    return replace(mark, x_mm=mark.x_mm + x, y_mm=mark.y_mm + y)


def _eye(x: float, y: float) -> list[Mark]:
    """Draw an eye that looks along an arrow."""
    return [
        Shape(((x, y), (x + 1.5, y - 1.1), (x + 3, y), (x + 1.5, y + 1.1)), MIDDLE_MM),
        Circle(x + 1.5, y, 0.5, fill=BLACK, colour=None),
        Line(x + 3.4, y, x + 6, y, MIDDLE_MM),
        Shape(((x + 7, y), (x + 5.6, y - 0.8), (x + 5.6, y + 0.8)), fill=BLACK, colour=None),
    ]
