"""Write numbers and colour letters on a view of a half.

Letters stand inside the outline beside their number, or outside it on a leader line, in as many tiers as it takes;
always in line with their number, so that nobody has to guess, and nearer to it than to any other.
"""

from __future__ import annotations

from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.paperwork.cards.view_drawing import APART_MM, Drawing
from docgen.paperwork.cards.view_outline import KEY_MM
from docgen.paperwork.cards.views import MIRRORED, View
from docgen.paperwork.typesetting.ink import BLACK, FAINT, MIDDLE_MM, THIN_MM, Box, Circle, Line, Text, rectangle
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM, width_mm

HEIGHTS = ((PLAIN_MM, PLAIN_MM), (SMALL_MM, PLAIN_MM), (SMALL_MM, SMALL_MM))
TIERS = (0, 1, 2, 3)
_BEARING = 0.06  # of a text's height, blank at either side of its ink
_OFF_MM = 0.7  # from the outline, or its key, to letters outside it, and from tier to tier
_BESIDE = 0.4  # of their height, more between texts side by side, so that two are not read as one
_NEARER = 1.5  # how much farther letters inside are from another contact than from their own, over that
_DOT_MM = 0.35
_SAME_MM = 0.01


@frozen
class ViewContact:
    """What is written at one contact: its number and its wire's colour letters."""

    number: str
    colour: str
    first: bool


@frozen
class Setting:
    """How a view is set: scale, heights of numbers and of letters, and in how many tiers letters stand outside.

    Without tiers they stand inside; with `tiers` None only numbers are shown, and the table tells the colours.
    With `numbers_outside` numbers stand with the letters, and a dot on the contact; without letters only the numbers
    at the ends of each row, or without `row_ends` none. `away_mm` is the way from a number to its letters, the square
    around contact 1 between them, `stripe_mm` that between a striped wire's pairs.
    """

    scale: int
    number_mm: float
    letters_mm: float
    tiers: int | None
    numbers_outside: bool = False
    away_mm: float = 0.7
    stripe_mm: float = 0.5
    row_ends: bool = True


@frozen
class Beside:
    """Where letters stand: on which side of their contact, and in which tier outside the outline, if not inside."""

    side: str
    tier: int | None

    @property
    def is_across(self) -> bool:
        """Tell whether they stand left or right."""
        return self.side in ("left", "right")


def places_of_letters(view: View, setting: Setting) -> dict[str, Beside]:
    """Return where the letters of each contact stand: up and down of two rows, across of two columns, else below.

    Outside they stand in tiers by turns along each side.
    """
    sides = _sides(view)
    tiers: dict[str, int] = {}
    count = setting.tiers or 0
    for side in dict.fromkeys(sides.values()) if count else ():
        along = 0 if side in ("up", "down") else 1
        names = sorted((name for name in sides if sides[name] == side), key=lambda name: view.at_mm[name][along])
        tiers |= {name: index % count for index, name in enumerate(names)}
    return {name: Beside(side, tiers.get(name)) for name, side in sides.items()}


def _sides(view: View) -> dict[str, str]:
    rows, _ = view.rows_and_columns
    if not view.has_outer_sides:
        return dict.fromkeys(view.at_mm, "down")
    right, up = ((min(along) + max(along)) / 2 + _SAME_MM for along in zip(*view.at_mm.values(), strict=True))
    if rows <= 2:
        return {name: "up" if at[1] > up else "down" for name, at in view.at_mm.items()}
    return {name: "right" if at[0] > right else "left" for name, at in view.at_mm.items()}


def stand_across(view: View) -> bool:
    """Tell whether letters stand left and right of their contacts."""
    return not {"left", "right"}.isdisjoint(_sides(view).values())


def in_a_mirror(places: dict[str, Beside]) -> dict[str, Beside]:
    """Return where letters stand on the other view."""
    return {name: replace(beside, side=MIRRORED.get(beside.side, beside.side)) for name, beside in places.items()}


def draw_contacts(view: View, contacts: dict[str, ViewContact], setting: Setting, places: dict[str, Beside]) -> Drawing:
    """Write every number on its contact, and its colour letters in their places, or a ring where there are none."""
    drawing = Drawing()
    for name, (right, up) in view.at_mm.items():
        x, y = right * setting.scale, -up * setting.scale
        if setting.numbers_outside:
            _dot(drawing, contacts[name], x, y)
        else:
            _number(drawing, contacts[name], x, y, setting)
        if setting.tiers is not None:
            _letters(drawing, view, contacts[name], (x, y), places[name], setting)
    if setting.numbers_outside and setting.tiers is None and setting.row_ends:
        _row_ends(drawing, view, contacts, setting)
    return drawing


def _number(drawing: Drawing, contact: ViewContact, x: float, y: float, setting: Setting) -> None:
    """Write a number in the middle of its contact; contact 1 has a square around it."""
    height = setting.number_mm
    drawing.ink.append(Text(x, y + height / 2, contact.number, height, True, "centre"))
    half, tall = _number_half_mm(contact, setting)
    if contact.first:
        drawing.ink.append(rectangle(Box(x - half, y - tall, 2 * half, 2 * tall), MIDDLE_MM))
    half += _BESIDE * height / 2
    box = Box(x - half, y - tall, 2 * half, 2 * tall)
    drawing.keep_clear(contact.number, box, inside=box)


def _dot(drawing: Drawing, contact: ViewContact, x: float, y: float) -> None:
    """Mark a contact whose number stands outside."""
    drawing.ink.append(Circle(x, y, _DOT_MM, fill=BLACK, colour=None))
    half = 2 * _DOT_MM if contact.first else _DOT_MM
    box = Box(x - half, y - half, 2 * half, 2 * half)
    if contact.first:
        drawing.ink.append(rectangle(box, MIDDLE_MM))
    drawing.keep_clear(contact.number, box, inside=box)


def _letters(
    drawing: Drawing, view: View, contact: ViewContact, at: tuple[float, float], place: Beside, setting: Setting
) -> None:
    """Write a contact's letters beside its number, or outside the outline in their tier on a leader line."""
    across = place.is_across
    lines = _lines(contact, across, setting)
    height = setting.letters_mm
    wide = max((_ink_width_mm(line, height, bold) for line, bold in lines), default=2 * height / 3)
    tall = len(lines) * (height + setting.stripe_mm) - setting.stripe_mm if lines else 2 * height / 3
    own = _own_half_mm(contact, setting, across)
    if place.tier is None:
        away = own + setting.away_mm
    else:
        longest = _longest_mm(setting, across)
        away = _to_outside_mm(view, place.side, setting.scale, at) + place.tier * (longest + _OFF_MM)
        _leader(drawing, contact, at, place, (own + 0.3, away - 0.3))
    before = place.side in ("left", "up")
    start = (at[0] if across else at[1]) + (-away - (wide if across else tall) if before else away)
    box = Box(start, at[1] - tall / 2, wide, tall) if across else Box(at[0] - wide / 2, start, wide, tall)
    x, base = box.x_mm + wide / 2, box.y_mm + height
    if not lines:
        drawing.ink.append(Circle(x, box.y_mm + tall / 2, height / 3, THIN_MM))
    for index, (line, bold) in enumerate(lines):
        drawing.ink.append(Text(x, base + index * (height + setting.stripe_mm), line, height, bold, "centre"))
    if not across:
        beside = _BESIDE * height
        box = Box(box.x_mm - beside / 2, box.y_mm, wide + beside, tall)
    nearer = _NEARER * setting.away_mm - APART_MM[1] if place.tier is None and not view.has_outer_sides else 0.0
    clear = box._replace(height_mm=box.height_mm + nearer)
    drawing.keep_clear(contact.number, clear, inside=box if place.tier is None else None)


def _row_ends(drawing: Drawing, view: View, contacts: dict[str, ViewContact], setting: Setting) -> None:
    """Write the numbers at both ends of each row beside the outline."""
    rows: dict[float, list[str]] = {}
    for name, (_, up) in view.at_mm.items():
        rows.setdefault(round(up, 1), []).append(name)
    half_mm = view.outline_mm[0] * setting.scale / 2 + (KEY_MM if view.key in ("left", "right") else 0.0) + _OFF_MM
    height = setting.number_mm
    for up, names in rows.items():
        names.sort(key=lambda name: view.at_mm[name][0])
        base = -up * setting.scale + height / 2
        for name, sign in ((names[0], -1), (names[-1], 1)) if len(names) > 1 else ((names[0], -1),):
            number = contacts[name].number
            wide = width_mm(number, height, True)
            drawing.ink.append(Text(sign * (half_mm + wide / 2), base, number, height, True, "centre"))
            box = Box(sign * (half_mm + wide / 2) - wide / 2, base - height, wide, height)
            drawing.keep_clear(f"{number} of its row", box)


def _lines(contact: ViewContact, across: bool, setting: Setting) -> list[tuple[str, bool]]:
    """Return what is written beside a contact, and what of it is bold: its letters, below its number if outside."""
    number = [(contact.number, True)] if setting.numbers_outside else []
    if not contact.colour:
        return number
    if across:
        return [(f"{contact.number} {contact.colour}", False)] if number else [(contact.colour, False)]
    pairs = [contact.colour[:2], contact.colour[2:]] if len(contact.colour) > 2 else [contact.colour]
    return number + [(pair, False) for pair in pairs]


def _longest_mm(setting: Setting, across: bool) -> float:
    """Return the room of a striped wire's letters away from the outline, so that tiers are even."""
    height = setting.letters_mm
    if across:
        return (8 if setting.numbers_outside else 5) * height
    return (3 if setting.numbers_outside else 2) * (height + setting.stripe_mm) - setting.stripe_mm


def _ink_width_mm(text: str, height: float, bold: bool) -> float:
    return width_mm(text, height, bold) - 2 * _BEARING * height


def _number_half_mm(contact: ViewContact, setting: Setting) -> tuple[float, float]:
    """Return how far a number reaches from its middle, across and down, or the square around it."""
    half, tall = _ink_width_mm(contact.number, setting.number_mm, True) / 2, setting.number_mm / 2
    if not contact.first:
        return half, tall
    tall += 0.4 * setting.away_mm
    return max(half + 0.5, tall), tall


def _own_half_mm(contact: ViewContact, setting: Setting, across: bool) -> float:
    """Return how far what is on a contact reaches from its middle, across or down."""
    if setting.numbers_outside:
        return 2 * _DOT_MM
    return _number_half_mm(contact, setting)[0] if across else setting.number_mm / 2


def _to_outside_mm(view: View, side: str, scale: int, at: tuple[float, float]) -> float:
    """Return the way from a contact to beyond the outline, and beyond the key where that is on its side."""
    width, height = (length * scale / 2 for length in view.outline_mm)
    key = KEY_MM if view.key == side else 0.0
    rim = {"up": height + at[1], "down": height - at[1], "left": width + at[0], "right": width - at[0]}[side]
    return rim + key + _OFF_MM


def _leader(
    drawing: Drawing, contact: ViewContact, at: tuple[float, float], place: Beside, reach: tuple[float, float]
) -> None:
    """Draw the line that leads from a number to its letters outside."""
    x, y = at
    sign = 1 if place.side in ("right", "down") else -1
    first, last = sorted(sign * length for length in reach)
    line = Box(x + first, y, last - first, 0) if place.is_across else Box(x, y + first, 0, last - first)
    drawing.ink.append(Line(line.x_mm, line.y_mm, line.right_mm, line.bottom_mm, THIN_MM, FAINT))
    drawing.leaders.append((contact.number, line))
