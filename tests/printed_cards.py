"""Read printed cards from outside: views, tables and lines as they stand in the PDF, in mm from the top left."""

from __future__ import annotations

import ctypes
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from resolved import files_of_example

from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork

if TYPE_CHECKING:
    from numpy.typing import NDArray

MM_PER_POINT = 25.4 / 72
COLOURS = frozenset(["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"])  # IEC 60757
CAPITALS = 0.66  # their height over the size: sCapHeight in the typeface's table OS/2
VIEWS = ("Mating face", "Wire side")


class Box(NamedTuple):
    """A rectangle on the paper [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> tuple[float, float]:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    @property
    def size(self) -> tuple[float, float]:
        return self.right - self.left, self.bottom - self.top

    def holds(self, point: tuple[float, float]) -> bool:
        return self.left < point[0] < self.right and self.top < point[1] < self.bottom

    def overlaps(self, other: Box) -> bool:
        across = min(self.right, other.right) - max(self.left, other.left)
        return across > 0 and min(self.bottom, other.bottom) - max(self.top, other.top) > 0


class Printed(NamedTuple):
    """A text: ink, where it begins, base line, its middle as type is set (and of capitals), height of capitals."""

    text: str
    ink: Box
    x_mm: float
    base_mm: float
    bold: bool
    middle: tuple[float, float]
    capital_mm: float


class Drawn(NamedTuple):
    """A line or shape: the box round its middle line, its width, the colour that fills it, and its corners."""

    box: Box
    line_mm: float
    stroked: bool
    fill: tuple[int, int, int] | None
    corners: tuple[tuple[float, float], ...]


class CardPage:
    """One page of cards."""

    def __init__(self, page: Any) -> None:
        self._page = page
        self.width_mm, self.height_mm = (float(side) * MM_PER_POINT for side in page.get_size())
        self._textpage = page.get_textpage()
        self._pixels: dict[tuple[float, bool], NDArray[np.uint8]] = {}

    def pixels(self, dots_per_inch: float, *, grey: bool = True) -> NDArray[np.uint8]:
        """Return it rendered, rows from the top; three colours (blue, green, red) unless grey."""
        if (dots_per_inch, grey) not in self._pixels:
            bitmap = self._page.render(scale=dots_per_inch / 72, grayscale=grey)
            pixels = np.array(bitmap.to_numpy())
            pixels = pixels.reshape(bitmap.height, bitmap.width) if grey else pixels[:, :, :3]
            self._pixels[dots_per_inch, grey] = pixels
        return self._pixels[dots_per_inch, grey]

    @cached_property
    def texts(self) -> list[Printed]:
        """Return the texts in the order in which they are printed."""
        found = []
        for piece in self._page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT], textpage=self._textpage):
            ink, matrix = self._box(piece.get_bounds()), piece.get_matrix().get()
            bold = "Semibold" in piece.get_font().get_base_name()
            # A hyphen at the end of a line is read as a soft one.
            text = piece.extract().strip().replace("\x02", "-")
            x, base = matrix[4] * MM_PER_POINT, self.height_mm - matrix[5] * MM_PER_POINT
            capital = piece.get_font_size() * matrix[3] * CAPITALS * MM_PER_POINT
            across = self._across(ink) if len(text) < 6 else ink.middle[0]
            found.append(Printed(text, ink, x, base, bold, (across, base - capital / 2), capital))
        return found

    def _across(self, ink: Box) -> float:
        """Return the middle between the edges of a text's first and last character, as type is set."""
        y = (self.height_mm - ink.middle[1]) / MM_PER_POINT
        edges = []
        for side, x in ((0, ink.left + 0.05), (2, ink.right - 0.05)):
            index = self._textpage.get_index(x / MM_PER_POINT, y, 2, 2)
            assert index is not None
            edges.append(self._textpage.get_charbox(index, loose=True)[side] * MM_PER_POINT)
        return float(sum(edges) / 2)

    @cached_property
    def drawn(self) -> list[Drawn]:
        """Return the lines and shapes."""
        found = []
        for path in self._page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH]):
            mode, stroke, line = ctypes.c_int(), ctypes.c_int(), ctypes.c_float()
            pdfium.FPDFPath_GetDrawMode(path, mode, stroke)
            pdfium.FPDFPageObj_GetStrokeWidth(path, line)
            colour = [ctypes.c_uint() for _ in range(4)]
            pdfium.FPDFPageObj_GetFillColor(path, *colour)
            fill = (colour[0].value, colour[1].value, colour[2].value) if mode.value else None
            corners = self._corners(path)
            x, y = ([corner[axis] for corner in corners] for axis in (0, 1))
            found.append(Drawn(Box(min(x), min(y), max(x), max(y)), line.value, bool(stroke.value), fill, corners))
        return found

    def _corners(self, path: Any) -> tuple[tuple[float, float], ...]:
        a, b, c, d, e, f = path.get_matrix().get()
        corners = []
        for i in range(pdfium.FPDFPath_CountSegments(path)):
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(path, i), x, y)
            across, up = a * x.value + c * y.value + e, b * x.value + d * y.value + f
            corners.append((across * MM_PER_POINT, self.height_mm - up * MM_PER_POINT))
        return tuple(corners)

    def _box(self, bounds: Sequence[float]) -> Box:
        left, bottom, right, top = (side * MM_PER_POINT for side in bounds)
        return Box(left, self.height_mm - top, right, self.height_mm - bottom)

    def dots_in(self, box: Box) -> list[tuple[float, float]]:
        """Return the middles of the black dots in a box."""
        round_ones = [d.box for d in self.drawn if d.fill == (0, 0, 0) and not d.stroked and len(d.corners) > 5]
        return [dot.middle for dot in round_ones if dot.size[0] < 1 and box.holds(dot.middle)]

    def text_beginning(self, words: str) -> Printed:
        """Return the only text that begins so."""
        [found] = [text for text in self.texts if text.text.startswith(words)]
        return found


@dataclass
class PrintedView:
    """One view: contacts by name, right and up from the middle of the outline [mm on paper]."""

    page: CardPage
    outline: Drawn
    numbers: dict[str, Printed]
    letters: dict[str, list[Printed]] = field(default_factory=dict)
    dotted: bool = False

    def add_dotted(self, dot: tuple[float, float]) -> None:
        """Take number and letters at the outer end of the line that leads away from a contact's dot."""
        x, y = dot
        lines = [d.box for d in self.page.drawn if d.stroked and len(d.corners) == 2]
        [line] = [
            box
            for box in lines
            if (
                box.size[0] < 0.01 and abs(box.left - x) < 0.01 and 0 < min(abs(box.top - y), abs(box.bottom - y)) < 1.5
            )
            or (box.size[1] < 0.01 and abs(box.top - y) < 0.01 and 0 < min(abs(box.left - x), abs(box.right - x)) < 1.5)
        ]
        upright = line.size[0] < 0.01
        far = max(
            (line.top, line.bottom) if upright else (line.left, line.right), key=lambda end: abs(end - dot[upright])
        )
        reach = 8 if far > dot[upright] else -8
        room = sorted((far, far + reach))
        words = []
        for text in self.page.texts:
            along, across = text.ink.middle[::-1] if upright else text.ink.middle
            in_line = room[0] < along < room[1] and abs(across - (x if upright else y)) < 0.35
            if in_line and re.fullmatch(r"\d+( ([A-Z]{2}){1,2})?|([A-Z]{2}){1,2}", text.text):
                words += [text._replace(text=word) for word in text.text.split(" ")]
        [number] = [word for word in words if not word.text.isalpha()]
        self.dotted = True
        self.numbers[number.text] = number._replace(middle=dot)
        self.letters |= {number.text: letters} if (letters := [word for word in words if word is not number]) else {}

    def contact_ink(self, name: str) -> Box:
        """Return the box of what marks a contact's place: its dot, else its number."""
        number = self.numbers[name]
        x, y = number.middle
        return Box(x - 0.35, y - 0.35, x + 0.35, y + 0.35) if self.dotted else number.ink

    def from_middle(self, point: tuple[float, float]) -> tuple[float, float]:
        x, y = self.outline.box.middle
        return point[0] - x, y - point[1]

    @property
    def at_mm(self) -> dict[str, tuple[float, float]]:
        """Return where the number of each contact stands."""
        return {name: self.from_middle(text.middle) for name, text in self.numbers.items()}

    @property
    def colours(self) -> dict[str, str]:
        """Return the colour letters at each contact, a striped wire's base first."""
        return {
            name: "".join(text.text for text in sorted(texts, key=lambda t: t.base_mm))
            for name, texts in self.letters.items()
        }

    @property
    def rings(self) -> list[tuple[float, float]]:
        """Return the middles of the rings in line with a number of this view."""
        found = [d.box.middle for d in self.page.drawn if len(d.corners) > 5 and d.box.size[0] < 2]
        box = self.outline.box
        near = Box(box.left - 1, box.top - 12, box.right + 1, box.bottom + 12)
        return [middle for middle in found if near.holds(middle)]

    @property
    def key(self) -> Drawn:
        """Return the key: solid black, touching the outline."""
        box = self.outline.box
        near = Box(box.left - 2.5, box.top - 2.5, box.right + 2.5, box.bottom + 2.5)
        [found] = [d for d in self._black if near.holds(d.box.middle) and not self._inside(d.box)]
        return found

    @property
    def keys(self) -> int:
        """Return how many keys there are."""
        box = self.outline.box
        near = Box(box.left - 2.5, box.top - 2.5, box.right + 2.5, box.bottom + 2.5)
        return sum(near.holds(d.box.middle) and not self._inside(d.box) for d in self._black)

    @property
    def _black(self) -> list[Drawn]:
        # The eye and arrow of the heading are filled but have no outline of their own.
        return [d for d in self.page.drawn if d.fill == (0, 0, 0) and d.stroked]

    def _inside(self, box: Box) -> bool:
        own = self.outline.box
        return own.left + 0.1 < box.middle[0] < own.right - 0.1 and own.top + 0.1 < box.middle[1] < own.bottom - 0.1

    @property
    def key_side(self) -> str:
        """Say at which side of the outline the key is."""
        right, up = self.from_middle(self.key.box.middle)
        width, height = self.outline.box.size
        sides = {"up": up / height, "down": -up / height, "right": right / width, "left": -right / width}
        return max(sides, key=lambda side: sides[side])

    @property
    def squares(self) -> list[Drawn]:
        """Return the shapes round single contacts."""
        texts = list(self.numbers.values())
        return [
            d
            for d in self.page.drawn
            if d.stroked and d.fill is None and sum(d.box.holds(text.middle) for text in texts) == 1
        ]

    @property
    def first(self) -> set[str]:
        """Return the contacts with a square round them."""
        return {
            name for name, text in self.numbers.items() if any(square.box.holds(text.middle) for square in self.squares)
        }


Row = dict[str, str]


@dataclass
class PrintedCard:
    """One card: all its parts, of a folded one both sides."""

    pages: list[CardPart]

    @property
    def texts(self) -> list[str]:
        return [text.text for page in self.pages for text in page.texts]

    @property
    def said(self) -> str:
        """Return all texts, so that what is broken into lines reads on."""
        return " ".join(self.texts)

    @property
    def title(self) -> str:
        return self.texts[0]

    @property
    def hash8(self) -> str:
        """Return the hash in its last line, which is whole."""
        [found] = {t.text for page in self.pages for t in page.texts if re.search(r"· [0-9a-f]{8}$", t.text)}
        return found[-8:]

    @property
    def scale(self) -> int:
        """Return the stated scale; it is said once on each page with views."""
        [found] = set(re.findall(r"true to size|drawn (\d) : 1", self.said))
        return int(found or 1)

    def views(self, contacts: Iterable[str]) -> tuple[PrintedView, PrintedView]:
        """Return mating face and wire side, told by their headings."""
        names = list(contacts)
        found: dict[str, PrintedView] = {}
        for page in self.pages:
            headings = [text for text in page.texts if text.bold and text.text in VIEWS]
            for outline in page.drawn:
                inside = [t for t in page.texts if t.bold and t.text in names and outline.box.holds(t.ink.middle)]
                dots = page.dots_in(outline.box)
                dotted = not inside and len(dots) == len(names)
                if not outline.stroked or (sorted(t.text for t in inside) != sorted(names) and not dotted):
                    continue
                above = [h for h in headings if h.base_mm < outline.box.top]
                if not above:
                    continue
                last = max(h.base_mm for h in above)
                heading = min(
                    (h for h in above if h.base_mm > last - 0.1),
                    key=lambda h: abs(h.ink.left - outline.box.middle[0]),
                )
                old = found.get(heading.text)
                if old is None or outline.box.size < old.outline.box.size:
                    found[heading.text] = PrintedView(page, outline, {t.text: t for t in inside})
                    for dot in dots if dotted else []:
                        found[heading.text].add_dotted(dot)
        assert set(found) == set(VIEWS)
        for view in found.values():
            if not view.dotted:
                self._add_letters(view, [v for v in found.values() if v.page is view.page])
        return found[VIEWS[0]], found[VIEWS[1]]

    @staticmethod
    def _add_letters(view: PrintedView, beside: Sequence[PrintedView]) -> None:
        """Give each pair of colour letters to the contact that it stands nearest in line with."""
        ends = [t.base_mm for t in view.page.texts if re.match("true to size|drawn ", t.text)]
        for text in view.page.texts:
            if text.bold or (text.text not in COLOURS and not re.fullmatch("(?:[A-Z]{2}){2}", text.text)):
                continue
            if ends and text.base_mm > ends[0]:
                continue
            lined: list[tuple[float, PrintedView, str]] = []
            for other in beside:
                for name, number in other.numbers.items():
                    across = abs(text.middle[0] - number.middle[0])
                    down = abs(text.base_mm - number.base_mm)
                    if across < 0.3:
                        lined.append((down, other, name))
                    elif down < 0.3:
                        lined.append((across, other, name))
            _, owner, name = min(lined, key=lambda one: one[0])
            if owner is view:
                view.letters.setdefault(name, []).append(text)

    def rows(self, keys: Iterable[str]) -> dict[str, Row]:
        """Return the table's rows by contact or port; headings name the columns."""
        names = list(keys)
        found: dict[str, Row] = {}
        for page in self.pages:
            heads = {t.text: t for t in page.texts if t.text in _HEADINGS and not t.bold}
            if "function" not in heads:
                continue
            top, first = heads["function"].base_mm, min(h.ink.left for name, h in heads.items() if name != "port")
            lines = [t for t in page.texts if t.bold and t.base_mm > top and t.ink.right < first and t.text in names]
            if not lines:
                continue
            steps = [(b.base_mm - a.base_mm) / 2 for a, b in pairwise(lines)]
            for key, before, after in zip(lines, [2.0, *steps], [*steps, 2.0], strict=True):
                assert key.text not in found
                cells = {"base": f"{key.base_mm:.3f}"}
                for text in sorted(page.texts, key=lambda t: t.base_mm):
                    if text is key or not -before < text.base_mm - key.base_mm < after:
                        continue
                    column = _column(text, heads)
                    said = cells.get(column, "")
                    cells[column] = said + (" " if said and not said.endswith("-") else "") + text.text
                found[key.text] = cells
        return found


_GAUGES = ("AWG", "mm²", "gauge")
_HEADINGS = ("port", "colour", *_GAUGES, "function", "goes to", "mark", "other end", "channel", "fail-safe")


def _column(text: Printed, heads: dict[str, Printed]) -> str:
    for name, head in heads.items():
        begins = head.x_mm + (0.8 if name == "colour" else 0)
        if name in (*_GAUGES, "channel"):
            if abs(text.ink.right - head.ink.right) < 0.4:
                return name
        elif abs(text.x_mm - begins) < 0.02:
            return name
    raise AssertionError(f"{text.text} stands in no column")


def printed_files(harness: Harness, *stems: str) -> dict[str, bytes]:
    """Print documents."""
    return make_paperwork(harness, Choice(stems=stems)).files


CARD_MM, TOP_MM = (93.0, 124.0), 10.0


class CardPart(CardPage):
    """One card of a sheet, or one side of a card that is folded; where things are is measured on the sheet."""

    def __init__(self, sheet: CardPage, region: Box) -> None:
        self.sheet, self.region = sheet, region
        self.width_mm, self.height_mm = region.size

    def pixels(self, dots_per_inch: float, *, grey: bool = True) -> NDArray[np.uint8]:
        """Return its sheet rendered."""
        return self.sheet.pixels(dots_per_inch, grey=grey)

    @cached_property
    def texts(self) -> list[Printed]:
        """Return the texts on it."""
        return [text for text in self.sheet.texts if self.region.holds(text.ink.middle)]

    @cached_property
    def drawn(self) -> list[Drawn]:
        """Return the lines and shapes on it, but for the ticks at its edges."""
        return [drawn for drawn in self.sheet.drawn if self.region.holds(drawn.box.middle)]


def parts_of(sheet: CardPage) -> list[list[CardPart]]:
    """Cut a sheet into cards at the known places: a thin tick shows a fold, thick ones half way down two halves."""
    found = []
    left = (sheet.width_mm - 2 * CARD_MM[0]) / 2
    lines = [d for d in sheet.drawn if d.stroked and len(d.corners) == 2]
    for top in (TOP_MM, TOP_MM + CARD_MM[1]):
        middle, half = left + CARD_MM[0], top + CARD_MM[1] / 2
        is_double = any(d.line_mm < 0.6 and d.box == _close(middle, top, middle, top + 4) for d in lines)
        sides = []
        for x in (left, middle):
            two = any(d.box == _close(x, half, x + 3, half) for d in lines)
            edges = [(top, half), (half, top + CARD_MM[1])] if two else [(top, top + CARD_MM[1])]
            sides.append([CardPart(sheet, Box(x, start, x + CARD_MM[0], end)) for start, end in edges])
        found += [[*sides[0], *sides[1]]] if is_double else [[part] for side in sides for part in side]
    return [[part for part in parts if part.texts] for parts in found if any(part.texts for part in parts)]


def _close(left: float, top: float, right: float, bottom: float) -> Any:
    return pytest.approx((left, top, right, bottom), abs=0.01)


def sheets_in(pdf: bytes) -> list[CardPage]:
    """Return the sheets in a PDF."""
    return [CardPage(page) for page in pypdfium2.PdfDocument(pdf)]


def read_cards(pdf: bytes) -> list[PrintedCard]:
    """Return the cards in a PDF, in the order in which they lie; one that is said to be continued goes on."""
    cards: list[PrintedCard] = []
    for parts in (parts for sheet in sheets_in(pdf) for parts in parts_of(sheet)):
        if parts[0].texts[0].text.endswith(", continued"):
            cards[-1].pages += parts
        else:
            cards.append(PrintedCard([*parts]))
    return cards


def cards_of(harness: Harness) -> list[PrintedCard]:
    """Print the cards of a harness and read them."""
    return read_cards(printed_files(harness, "pinout-cards")["pinout-cards.pdf"])


def halves_of(harness: Harness, cards: list[PrintedCard] | None = None) -> list[PrintedCard]:
    """Return the cards of halves in the order in which the harness has them."""
    found = {(card.title, card.texts[1].split()[0]): card for card in cards or cards_of(harness)}
    return [found[joint.name, half.name] for joint in harness.disconnects.values() for half in joint.halves]


def cards_of_example(name: str) -> list[PrintedCard]:
    """Read the cards of an example; not kept, as they keep every page that was rendered."""
    return read_cards(files_of_example(name)["pinout-cards.pdf"])
