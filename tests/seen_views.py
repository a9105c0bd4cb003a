"""Views of a half as they are drawn of shells made by chance, taken apart by contact: what a test looks at as ink."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cached_property
from random import Random
from typing import NamedTuple

import pytest

from docgen.paperwork.cards.view_letters import ViewContact
from docgen.paperwork.cards.view_pair import ViewsOf, views_blocks
from docgen.paperwork.cards.views import View
from docgen.paperwork.typesetting.ink import BLACK, Box, Circle, Ink, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import width_mm

WIDTH_MM = 85.0
AT = Box(7, 11, WIDTH_MM, 0)
COLOURS = ("", "", "BK", "RD", "WH", "GNYE", "WHRD")
KEYS = ("up", "down", "left", "right")
MIRRORED = {"left": "right", "right": "left"}

Point = tuple[float, float]


class Case(NamedTuple):
    """A shell as it is seen, what its contacts carry, the height that a card has left, those of blocks, and the ink."""

    name: str
    view: View
    colours: dict[str, str]
    height_mm: float
    blocks_mm: tuple[float, ...]
    ink: list[Ink]

    @property
    def below(self) -> list[Text]:
        """Return the lines below both views."""
        texts = [ink for ink in self.ink if isinstance(ink, Text)]
        last = max(i for i, text in enumerate(texts) if text.align == "centre")
        return texts[last + 1 :]

    @property
    def said(self) -> str:
        return " ".join(text.text for text in self.below)

    @property
    def scale(self) -> int:
        """Return the stated scale."""
        return 1 if "true to size" in self.said else int(self.said.partition("drawn ")[2][0])


class Seen:
    """One view: where contacts should be, the box of its outline, its key and all ink, the outline first."""

    def __init__(self, case: Case, at: dict[str, Point], key: str | None, ink: list[Ink]) -> None:
        self.case, self.at, self.key, self.ink = case, at, key, ink
        self.outline = box_of(ink[0])

    @property
    def middle(self) -> Point:
        return self.outline.x_mm + self.outline.width_mm / 2, self.outline.y_mm + self.outline.height_mm / 2

    @cached_property
    def places(self) -> dict[str, Point]:
        """Return where each contact should be."""
        scale, (x, y) = self.case.scale, self.middle
        return {name: (x + right * scale, y - up * scale) for name, (right, up) in self.at.items()}

    @cached_property
    def dots(self) -> list[Circle]:
        """Return the dots of contacts whose numbers stand outside."""
        return [ink for ink in self.ink[1:] if isinstance(ink, Circle) and ink.fill == BLACK]

    @cached_property
    def of_contacts(self) -> list[tuple[str, Ink]]:
        """Return texts, rings, dots, leaders and the square, each with the contact whose number or dot came last."""
        found: list[tuple[str, Ink]] = []
        names = list(self.at)
        current = -1
        for ink in self.ink[1:]:
            if isinstance(ink, Shape) and ink.fill is not None:
                continue
            is_number = isinstance(ink, Text) and ink.text[0].isdigit()
            current += ink in self.dots if self.dots else is_number
            found.append((names[min(current, len(names) - 1)], ink))
        return found

    @property
    def numbers(self) -> dict[str, Text]:
        return {ink.text.split(" ")[0]: ink for ink in self.ink if isinstance(ink, Text) and ink.text[0].isdigit()}

    @property
    def square(self) -> Box:
        """Return the only square round a contact; the outline comes first, a key is filled."""
        [square] = [box_of(ink) for ink in self.ink[1:] if isinstance(ink, Shape) and ink.fill is None]
        return square

    @property
    def keys(self) -> list[Box]:
        return [box_of(ink) for ink in self.ink[1:] if isinstance(ink, Shape) and ink.fill == BLACK]

    def texts_at(self, name: str) -> list[Text]:
        """Return what is written at a contact, in the order of writing."""
        return [ink for contact, ink in self.of_contacts if contact == name and isinstance(ink, Text)]

    def boxes(self) -> list[tuple[str, Box]]:
        """Return the boxes of what is at contacts, leaders left out."""
        return [(name, box_of(ink)) for name, ink in self.of_contacts if not isinstance(ink, Line)]


def box_of(ink: Ink) -> Box:
    """Return the box of ink, of a text from the height of its capitals to its base line."""
    if isinstance(ink, Text):
        wide = width_mm(ink.text, ink.height_mm, ink.bold)
        left = ink.x_mm - {"left": 0, "centre": wide / 2, "right": wide}[ink.align]
        return Box(left, ink.y_mm - ink.height_mm, wide, ink.height_mm)
    if isinstance(ink, Circle):
        return Box(ink.x_mm - ink.radius_mm, ink.y_mm - ink.radius_mm, 2 * ink.radius_mm, 2 * ink.radius_mm)
    assert isinstance(ink, Line | Shape)
    points = ink.points_mm if isinstance(ink, Shape) else ((ink.x1_mm, ink.y1_mm), (ink.x2_mm, ink.y2_mm))
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def apart_mm(one: Box, other: Box) -> Point:
    """Return how much is clear between two boxes, across and down; less than nothing where they share that."""
    across = max(one.x_mm, other.x_mm) - min(one.right_mm, other.right_mm)
    return across, max(one.y_mm, other.y_mm) - min(one.bottom_mm, other.bottom_mm)


def views_of(case: Case) -> Iterator[Seen]:
    """Walk the two views: what follows the heading of each, up to what is said below."""
    headings = [
        i for i, ink in enumerate(case.ink) if isinstance(ink, Text) and ink.text in ("Mating face", "Wire side")
    ]
    ends = headings[1] - 4, len(case.ink) - len(case.below)  # before the second heading stands an eye
    key = case.view.key
    sides = (case.view.at_mm, key), (mirrored(case.view.at_mm), MIRRORED.get(key or "", key))
    for begin, end, (at, key_there) in zip(headings, ends, sides, strict=True):
        ink = case.ink[begin:end]
        first = next(i for i, one in enumerate(ink) if isinstance(one, Shape | Circle))
        view = Seen(case, at, key_there, ink[first:])
        stated = [side * case.scale for side in case.view.outline_mm]
        assert [view.outline.width_mm, view.outline.height_mm] == pytest.approx(stated)
        yield view


def views_of_all(cases: Sequence[Case]) -> list[Seen]:
    return [view for case in cases for view in views_of(case)]


def view_by_chance(dice: Random) -> View:
    """Return rows of contacts, some of them left out or shifted, on an outline that has room for them."""
    rows, columns = dice.choice([(1, 3), (2, 3), (2, 7), (3, 4), (4, 2), (6, 1), (2, 12), (3, 8), (1, 9)])
    across, down = dice.choice([2.5, 2.77, 4.0, 5.0, 8.0]), dice.choice([2.84, 4.0, 5.0, 8.0])
    shift = dice.choice([0.0, across / 2])
    names = iter(range(1, 100))
    at = {
        str(next(names)): (column * across + shift * (row % 2), -row * down)
        for row in range(rows)
        for column in range(columns - (row % 2 if shift else 0))
    }
    right, up = ([place[axis] for place in at.values()] for axis in (0, 1))
    off = dice.choice([0.0, 1.5]), dice.choice([0.0, 1.5])  # contacts stand in no shell's middle of necessity
    middle = (min(right) + max(right)) / 2 + off[0], (min(up) + max(up)) / 2 + off[1]
    at = {name: (x - middle[0], y - middle[1]) for name, (x, y) in at.items()}
    rim = dice.choice([0.0, 0.0, 9.0])
    outline = max(right) - min(right) + across + 2 * off[0] + rim, max(up) - min(up) + down + 2 * off[1] + rim
    shape = dice.choice(["rectangle", "rectangle", "D", "round"])
    if shape == "round":
        outline = (math.hypot(*outline),) * 2
    if outline[0] > WIDTH_MM - 5 or outline[1] > 60:  # what fits no card is refused
        return view_by_chance(dice)
    return View(at, outline, dice.choice(KEYS) if shape != "rectangle" else dice.choice([*KEYS, None]), shape)


def case_by_chance(seed: int) -> Case:
    dice = Random(seed)
    view = view_by_chance(dice)
    colours = {name: dice.choice(COLOURS) for name in view.at_mm}
    # A card has room for an outline, its heading and what is clear around it, if not for letters.
    height_mm = max(dice.choice([60.0, 80.0, 110.0]), view.outline_mm[1] + 15)
    return case_of(f"seed {seed}", view, colours, height_mm)


def case_of(name: str, view: View, colours: dict[str, str], height_mm: float) -> Case:
    contacts = {number: ViewContact(number, colour, number == "1") for number, colour in colours.items()}
    wires = View(mirrored(view.at_mm), view.outline_mm, MIRRORED.get(view.key or "", view.key), view.shape)
    blocks = views_blocks(ViewsOf([(view, wires)] * 2, contacts, "the way", True), WIDTH_MM, height_mm, anyhow=True)
    ink: list[Ink] = []
    y = AT.y_mm
    for block in blocks:
        ink += block.draw(AT._replace(y_mm=y, height_mm=block.height_mm))
        y += block.height_mm
    return Case(name, view, colours, height_mm, tuple(block.height_mm for block in blocks), ink)


def lopsided(side: float) -> Case:
    """Return two columns at the ends of a wide outline: long letters beside one of them, rings beside the other."""
    at = {str(1 + row): (15.0 * side, 5.0 - 5.0 * row) for row in range(3)}
    at |= {str(4 + row): (-15.0 * side, 5.0 - 5.0 * row) for row in range(3)}
    return case_of(
        f"lopsided {side}", View(at, (34.0, 16.0), None), dict.fromkeys("123", "GNYE") | dict.fromkeys("456", ""), 110.0
    )


def roomy(rows: int, columns: int) -> Case:
    """Return rows and columns 8 mm apart with as much around them, so that letters stand beside their numbers."""
    at = {
        str(row * columns + column + 1): (8.0 * column - 4.0 * (columns - 1), 4.0 * (rows - 1) - 8.0 * row)
        for row in range(rows)
        for column in range(columns)
    }
    outline = 8.0 * columns + 12, 8.0 * rows + 12
    colours = {name: COLOURS[1 + int(name) % 6] for name in at}
    return case_of(f"roomy {rows} {columns}", View(at, outline, "up"), colours, 110.0)


def mirrored(at: dict[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    return {name: (-right, up) for name, (right, up) in at.items()}
