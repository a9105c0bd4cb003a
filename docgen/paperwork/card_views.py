"""Draw both views of a half: what meets the eye at the mating face, and from the wires."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from docgen.paperwork.flow import Flow
from docgen.paperwork.imprint import FOOT_MM, PLAIN_MM, SMALL_MM, line_pitch_mm
from docgen.paperwork.marks import BLACK, MIDDLE_MM, THIN_MM, Box, Circle, Line, Mark, Shape, Text, rectangle
from docgen.paperwork.typeface import width_mm, wrapped
from docgen.paperwork.views import View

_SCALES = (1, 2, 3, 4)
_KEY_MM = 1.6
_AROUND_MM = 13.0  # heading, key and space of one view
_HEADINGS = (
    ("Mating face", "into the contacts, as it comes at you"),
    ("Wire side", "from the wires, as you push them in"),
)


@dataclass(frozen=True)
class ViewContact:
    """What is written at one contact: its number and its wire's colour letters."""

    number: str
    colour: str
    first: bool


@dataclass(frozen=True)
class _Fit:
    """How the views are set: scale, side by side or one above the other, height of letters."""

    scale: int
    beside: bool
    letters_mm: float


def add_views(flow: Flow, mating: View, wire_side: View, contacts: dict[str, ViewContact], turned: bool) -> None:
    """Set both views below each other's headings at the least whole scale at which their letters are read."""
    gap = 4.0
    fit = _fit(mating, contacts, flow.width_mm, gap, flow.room_mm)
    column = (flow.width_mm - gap) / 2 if fit.beside else flow.width_mm
    top = flow.y_mm
    for index, view in enumerate((mating, wire_side)):
        if not fit.beside:
            flow.need(mating.outline_mm[1] * fit.scale + 14)
        x = flow.x_mm + index * (column + gap) if fit.beside else flow.x_mm
        y = top if fit.beside or index == 0 else flow.y_mm
        height = _add_view(flow, view, contacts, fit, Box(x, y, column, 0), index)
        flow.y_mm = max(flow.y_mm, y + height)
    size = "true to size" if fit.scale == 1 else f"drawn {fit.scale} : 1"
    way = "key as it sits in the hatch" if turned else "not turned to the hatch"
    flow.paragraph(f"{size} · square: contact {next(iter(contacts))} · {way}", FOOT_MM)
    flow.space(1)


def _fit(view: View, contacts: dict[str, ViewContact], width: float, gap: float, height: float) -> _Fit:
    """Choose the arrangement: side by side with letters of 2.5 mm, else 1.8; else one above the other."""
    tries = [
        _Fit(scale, beside, letters)
        for beside in (True, False)
        for letters in (PLAIN_MM, SMALL_MM)
        for scale in _SCALES
    ]
    for fit in tries:
        room = (width - gap) / 2 if fit.beside else width
        views = 1 if fit.beside else 2
        tall = views * (view.outline_mm[1] * fit.scale + _AROUND_MM) <= height
        if view.outline_mm[0] * fit.scale <= room and tall and _legible(view, contacts, fit):
            return fit
    scale = max((s for s in _SCALES if view.outline_mm[0] * s <= width), default=1)
    return _Fit(scale, False, SMALL_MM)


def _legible(view: View, contacts: dict[str, ViewContact], fit: _Fit) -> bool:
    """Tell whether numbers and letters of neighbours keep clear of each other at a scale."""
    across, down = _pitches(view)
    letters = fit.letters_mm
    widest = max(width_mm(part, letters, True) for c in contacts.values() for part in (c.number, *_pairs(c.colour)))
    lines = 1 if _rows(view) <= 2 else 3
    return across * fit.scale >= widest + 0.8 and down * fit.scale >= lines * (letters + 0.8) + 0.8


def _rows(view: View) -> int:
    return len({round(up, 3) for _, up in view.at_mm.values()})


def _pairs(colour: str) -> list[str]:
    """Return colour letters in lines: a striped wire's base above its stripe."""
    return [colour[:2], colour[2:]] if len(colour) > 2 else [colour]


def _pitches(view: View) -> tuple[float, float]:
    """Return how far apart contacts of one row, and rows, are."""
    rows = sorted({round(up, 3) for _, up in view.at_mm.values()})
    down = min((b - a for a, b in pairwise(rows)), default=view.outline_mm[1])
    across = view.outline_mm[0]
    for row in rows:
        columns = sorted(right for right, up in view.at_mm.values() if round(up, 3) == row)
        across = min([across] + [b - a for a, b in pairwise(columns)])
    return across, down


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
    width, height = (side * fit.scale for side in view.outline_mm)
    space = _KEY_MM + 1.0
    body = Box(box.x_mm + (box.width_mm - width) / 2, box.y_mm + head + space, width, height)
    flow.page.add(rectangle(body, MIDDLE_MM), *_key(view, body))
    two_rows = _rows(view) == 2
    for contact, (right, up) in view.at_mm.items():
        x = body.x_mm + width / 2 + right * fit.scale
        y = body.y_mm + height / 2 - up * fit.scale
        flow.page.add(*_contact(contacts[contact], x, y, fit.letters_mm, two_rows and up > 0))
    return head + space + height + space


def _contact(contact: ViewContact, x: float, y: float, letters: float, above: bool) -> list[Mark]:
    """Write the number on a contact and its colour letters outward of it; contact 1 has a square around it."""
    base = y + letters / 2
    marks: list[Mark] = [Text(x, base, contact.number, letters, True, "centre")]
    pitch = letters + 0.8
    lines = _pairs(contact.colour)
    first = base - pitch * len(lines) - 0.2 if above else base + pitch + 0.2
    for i, line in enumerate(lines):
        if line:
            marks.append(Text(x, first + i * pitch, line, letters, False, "centre"))
    if not contact.colour:
        out = -pitch if above else pitch
        marks.append(Circle(x, y + out, letters / 4, THIN_MM))
    if contact.first:
        half = max(width_mm(contact.number, letters, True) / 2 + 0.5, letters / 2 + 0.4)
        marks.append(rectangle(Box(x - half, y - letters / 2 - 0.4, 2 * half, letters + 0.8), MIDDLE_MM))
    return marks


def _key(view: View, body: Box) -> list[Mark]:
    """Draw the key solid black, a tooth outside the outline."""
    if view.key is None:
        return []
    middle_x, middle_y = body.x_mm + body.width_mm / 2, body.y_mm + body.height_mm / 2
    tooth = {
        "up": Box(middle_x - 2, body.y_mm - _KEY_MM, 4, _KEY_MM),
        "down": Box(middle_x - 2, body.bottom_mm, 4, _KEY_MM),
        "left": Box(body.x_mm - _KEY_MM, middle_y - 2, _KEY_MM, 4),
        "right": Box(body.right_mm, middle_y - 2, _KEY_MM, 4),
    }[view.key]
    return [rectangle(tooth, THIN_MM, BLACK)]


def _eye(x: float, y: float) -> list[Mark]:
    """Draw an eye that looks along an arrow."""
    return [
        Shape(((x, y), (x + 1.5, y - 1.1), (x + 3, y), (x + 1.5, y + 1.1)), MIDDLE_MM),
        Circle(x + 1.5, y, 0.5, fill=BLACK, colour=None),
        Line(x + 3.4, y, x + 6, y, MIDDLE_MM),
        Shape(((x + 7, y), (x + 5.6, y - 0.8), (x + 5.6, y + 0.8)), fill=BLACK, colour=None),
    ]
