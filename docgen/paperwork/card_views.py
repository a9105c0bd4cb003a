"""Draw both views of a half: what meets the eye at the mating face, and from the wires."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, product

from docgen.paperwork.card_outline import KEY_MM, outline_marks
from docgen.paperwork.flow import Flow
from docgen.paperwork.imprint import FOOT_MM, PLAIN_MM, SMALL_MM, line_pitch_mm
from docgen.paperwork.marks import BLACK, FAINT, MIDDLE_MM, THIN_MM, Box, Circle, Line, Mark, Shape, Text, rectangle
from docgen.paperwork.typeface import width_mm, wrapped
from docgen.paperwork.views import View

_SCALES = (1, 2, 3, 4)
_SAYS_MM = 2.5  # the line that states the scale
# Colour letters inside the outline with room to spare, else outside it, else inside with little room [mm].
_WAYS_OF_LETTERS = ((False, 1.0), (True, 0.4), (False, 0.4))
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
    """How the views are set: scale, side by side or not, height of letters, whether and how they stand outside.

    Without `letters` only the numbers are shown, and the table tells the colours.
    """

    scale: int
    beside: bool
    letters_mm: float
    outside: bool
    lines: int
    between_mm: float
    letters: bool = True

    @property
    def pitch_mm(self) -> float:
        """Return the distance of base lines of letters one below the other."""
        return self.letters_mm + self.between_mm


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
    gap = 4.0
    pair, fit = views[-1], _numbers_only(views[-1][0], contacts, flow.width_mm)
    for tried in views:
        found = _fit(tried[0], contacts, flow.width_mm, gap, flow.room_mm - _SAYS_MM)
        if found is not None:
            pair, fit = tried, found
            break
    size = "true to size" if fit.scale == 1 else f"drawn {fit.scale} : 1"
    turned = way if pair == views[0] else "too tall to be turned as it sits in the hatch"
    colours = "" if fit.letters else " · too tight for colours: see the table"
    says = f"{size} · square: contact {next(iter(contacts))} · {turned}{also}{colours}"
    column = (flow.width_mm - gap) / 2 if fit.beside else flow.width_mm
    top = flow.y_mm
    for index, view in enumerate(pair):
        tall = _body_mm(view, fit)[1]
        if not fit.beside and index == 1 and flow.room_mm < tall + _SAYS_MM:
            flow.paragraph(says, FOOT_MM)
            flow.new_page()
        x = flow.x_mm + index * (column + gap) if fit.beside else flow.x_mm
        y = top if fit.beside else flow.y_mm
        flow.y_mm = max(flow.y_mm, y + _add_view(flow, view, contacts, fit, Box(x, y, column, 0), index))
    flow.paragraph(says, FOOT_MM)
    flow.space(1)


def _fit(view: View, contacts: dict[str, ViewContact], width: float, gap: float, height: float) -> _Fit | None:
    """Choose how the views are set.

    Side by side, else one above the other, else on two pages; colour letters inside the outline, else outside;
    of 2.5 mm, else 1.8; at the least whole scale at which they keep clear of each other.
    """
    lines = max(len(_pairs(contact.colour)) for contact in contacts.values())
    arrangements = ((True, 1), (False, 2), (False, 1))
    for (beside, views), (outside, between), letters, scale in product(
        arrangements, _WAYS_OF_LETTERS, (PLAIN_MM, SMALL_MM), _SCALES
    ):
        room = (width - gap) / 2 if beside else width
        fit = _Fit(scale, beside, letters, outside, lines, between)
        wide, tall = _body_mm(view, fit)
        if wide <= room and views * tall <= height and _legible(view, contacts, fit):
            return fit
    return None


def _around_mm(view: View, fit: _Fit) -> tuple[float, float]:
    """Return the room at the sides of an outline, and above and below it: for the key, and letters outside."""
    least = KEY_MM + 1.0
    if not fit.outside:
        return 0.0, least
    if _outward(view) == "across":
        return KEY_MM + 1.0 + 3 * fit.letters_mm, least
    return 0.0, least + fit.lines * fit.pitch_mm


def _body_mm(view: View, fit: _Fit) -> tuple[float, float]:
    """Return width and height of one view with its heading."""
    width, height = (side * fit.scale for side in view.outline_mm)
    side, above = _around_mm(view, fit)
    heading = 11.5 if fit.beside else 6.0
    return width + 2 * side, heading + height + 2 * above


def _legible(view: View, contacts: dict[str, ViewContact], fit: _Fit) -> bool:
    """Tell whether numbers and letters of neighbours keep clear of each other, and letters of the outline."""
    across, down = (pitch * fit.scale for pitch in _pitches(view))
    letters = fit.letters_mm
    numbers = max(width_mm(c.number, letters, True) for c in contacts.values()) + 0.8
    colours = max(width_mm(pair, letters) for c in contacts.values() for pair in _pairs(c.colour)) + 0.8
    way = _outward(view)
    if way == "below":
        return not fit.outside and _apart(view, contacts, fit)
    side, rim = (
        (view.outline_mm[axis] / 2 - max(abs(at[axis]) for at in view.at_mm.values())) * fit.scale for axis in (0, 1)
    )
    if way == "across":
        whole = max(width_mm(c.colour, letters) for c in contacts.values())
        inside = side >= numbers / 2 + 1.4 + whole
        return across >= numbers + 0.4 and down >= letters + 0.8 and (inside or fit.outside)
    lines = 1 if way == "up and down" else 1 + fit.lines
    clear = across >= max(numbers, colours) and down >= lines * fit.pitch_mm + 0.8
    return clear and (fit.outside or rim >= letters / 2 + fit.lines * fit.pitch_mm + 0.1)


def _apart(view: View, contacts: dict[str, ViewContact], fit: _Fit) -> bool:
    """Tell whether each number with its letters below keeps clear of all others and of the outline."""
    boxes = []
    for name, (right, up) in view.at_mm.items():
        contact, height = contacts[name], fit.letters_mm
        texts = [width_mm(contact.number, height, True), *(width_mm(pair, height) for pair in _pairs(contact.colour))]
        half, low = max(texts if fit.letters else texts[:1]) / 2 + 0.5, height / 2 + 0.4
        low += len(_pairs(contact.colour)) * fit.pitch_mm if fit.letters else 0
        x, y = right * fit.scale, -up * fit.scale
        boxes.append(Box(x - half, y - height / 2 - 0.4, 2 * half, height / 2 + 0.4 + low))
    inside = all(_inside(view, box, fit.scale) for box in boxes)
    return inside and not any(_overlap(one, other) for one, other in combinations(boxes, 2))


def _inside(view: View, box: Box, scale: int) -> bool:
    """Tell whether a box from the middle of a view is inside its outline."""
    half_width, half_height = (side * scale / 2 for side in view.outline_mm)
    corners = [(x, y) for x in (box.x_mm, box.right_mm) for y in (box.y_mm, box.bottom_mm)]
    if view.shape == "round":
        return all(math.hypot(x, y) < min(half_width, half_height) - 0.2 for x, y in corners)
    return all(abs(x) < half_width - 0.2 and abs(y) < half_height - 0.2 for x, y in corners)


def _overlap(one: Box, other: Box) -> bool:
    across = min(one.right_mm, other.right_mm) - max(one.x_mm, other.x_mm)
    return across > 0 and min(one.bottom_mm, other.bottom_mm) - max(one.y_mm, other.y_mm) > 0


def _numbers_only(view: View, contacts: dict[str, ViewContact], width: float) -> _Fit:
    """Return the least scale at which numbers alone keep clear, for a shell on which letters would not be read."""
    fits = [_Fit(scale, False, SMALL_MM, False, 1, 0.4, letters=False) for scale in _SCALES]
    fitting = [fit for fit in fits if _body_mm(view, fit)[0] <= width] or fits[:1]
    return next((fit for fit in fitting if _apart(view, contacts, fit)), fitting[-1])


def _outward(view: View) -> str:
    """Say where colour letters stand: up and down of two rows, across of two columns, else below each."""
    if view.shape == "round":
        return "below"
    rows, columns = (len({round(at[axis], 3) for at in view.at_mm.values()}) for axis in (1, 0))
    return "up and down" if rows <= 2 else "across" if columns <= 2 else "below"


def _pairs(colour: str) -> list[str]:
    """Return colour letters in lines: a striped wire's base above its stripe."""
    return [colour[:2], colour[2:]] if len(colour) > 2 else [colour]


def _pitches(view: View) -> tuple[float, float]:
    """Return how far apart contacts of one row, and rows, are."""
    if _outward(view) == "across":
        columns = sorted({round(right, 3) for right, _ in view.at_mm.values()})
        rows = sorted({round(up, 3) for _, up in view.at_mm.values()})
        across = min((b - a for a, b in pairwise(columns)), default=view.outline_mm[0])
        return across, min((b - a for a, b in pairwise(rows)), default=view.outline_mm[1])
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
    width, height = (length * fit.scale for length in view.outline_mm)
    space = _around_mm(view, fit)[1]
    body = Box(box.x_mm + (box.width_mm - width) / 2, box.y_mm + head + space, width, height)
    flow.page.add(*outline_marks(view, body))
    for contact, (right, up) in view.at_mm.items():
        x = body.x_mm + width / 2 + right * fit.scale
        y = body.y_mm + height / 2 - up * fit.scale
        side = _side(_outward(view), right, up)
        flow.page.add(*_contact(contacts[contact], x, y, fit, side, body))
    return head + 2 * space + height


def _side(way: str, right: float, up: float) -> str:
    if way == "across":
        return "right" if right > 0 else "left"
    return "above" if way == "up and down" and up > 0 else "below"


def _contact(contact: ViewContact, x: float, y: float, fit: _Fit, side: str, body: Box) -> list[Mark]:
    """Write the number on a contact and its colour letters outward of it; contact 1 has a square around it."""
    letters = fit.letters_mm
    base = y + letters / 2
    marks: list[Mark] = [Text(x, base, contact.number, letters, True, "centre")]
    lines = [contact.colour] if side in ("left", "right") else _pairs(contact.colour)
    for at, line_base, align, line in _letters_at(x, base, fit, side, body, lines) if fit.letters else ():
        if contact.colour:
            marks.append(Text(at, line_base, line, letters, False, align))
        else:
            marks.append(Circle(at, line_base - letters / 2, letters / 3, THIN_MM))
    if fit.outside and side in ("left", "right"):
        edge = body.right_mm + KEY_MM if side == "right" else body.x_mm - KEY_MM
        start = x + 1.8 if side == "right" else x - 1.8
        marks.append(Line(start, y, edge, y, THIN_MM, FAINT))
    if contact.first:
        half = max(width_mm(contact.number, letters, True) / 2 + 0.5, letters / 2 + 0.4)
        over = min(0.3, fit.between_mm - MIDDLE_MM)  # clear of the letters above or below
        marks.append(rectangle(Box(x - half, y - letters / 2 - over, 2 * half, letters + 2 * over), MIDDLE_MM))
    return marks


def _letters_at(
    x: float, base: float, fit: _Fit, side: str, body: Box, lines: list[str]
) -> list[tuple[float, float, str, str]]:
    """Return where each line of a contact's colour letters stands: x, base line, alignment, text."""
    if side in ("left", "right"):
        away = fit.letters_mm / 2 + 1.4
        at = x + away if side == "right" else x - away
        if fit.outside:
            at = body.right_mm + KEY_MM + 0.6 if side == "right" else body.x_mm - KEY_MM - 0.6
        return [(at, base, "left" if side == "right" else "right", line) for line in lines]
    pitch = fit.pitch_mm
    if side == "above":
        first = (body.y_mm - KEY_MM - 0.4 if fit.outside else base - pitch) - pitch * (len(lines) - 1)
    else:
        first = body.bottom_mm + KEY_MM + 0.4 + fit.letters_mm if fit.outside else base + pitch
    return [(x, first + i * pitch, "centre", line) for i, line in enumerate(lines)]


def _eye(x: float, y: float) -> list[Mark]:
    """Draw an eye that looks along an arrow."""
    return [
        Shape(((x, y), (x + 1.5, y - 1.1), (x + 3, y), (x + 1.5, y + 1.1)), MIDDLE_MM),
        Circle(x + 1.5, y, 0.5, fill=BLACK, colour=None),
        Line(x + 3.4, y, x + 6, y, MIDDLE_MM),
        Shape(((x + 7, y), (x + 5.6, y - 0.8), (x + 5.6, y + 0.8)), fill=BLACK, colour=None),
    ]
