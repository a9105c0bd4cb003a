"""What every sheet and card carries: whose it is, which state, page n of m, a bar, and cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.paperwork.typesetting.codes import MODULE_MM, QUIET_MODULES, code_rows, code_side_mm
from docgen.paperwork.typesetting.ink import (
    BLACK,
    MIDDLE_MM,
    THICK_MM,
    Box,
    Circle,
    Code,
    Ink,
    Line,
    Page,
    Shape,
    Text,
    rectangle,
)
from docgen.paperwork.typesetting.typeface import FOOT_MM, SMALL_MM, line_pitch_mm, width_mm, wrapped

BAR_MM = 50.0
MODELS_ONLY = (
    "For model aircraft only, never for aircraft that carry people. You decide: makers' instructions, the "
    "club's and the country's rules come first, and a qualified person where one is needed. Results are "
    "estimates to be checked on the bench."
)


@dataclass(frozen=True)
class TitleBlock:
    """The aircraft and the state printed; `record` is where the record stands on the web, if it does.

    `corrected` tells that what a printer does to the page is undone.
    """

    aircraft: str
    marks: str
    revision: str
    date: str
    record: str | None
    record_hash: str
    corrected: bool = False

    def link(self, path: str) -> str | None:
        """Return the web address of a path inside the output folder."""
        return f"{self.record.rstrip('/')}/{path}" if self.record else None


@dataclass(frozen=True)
class Corner:
    """The code in a page's lower right corner and what is said under it."""

    text: str
    caption: str


@dataclass(frozen=True)
class Foot:
    """What stands at the foot of a page; `beside` are notes set at the left of the code."""

    title_block: TitleBlock
    caution: str
    state: str
    content_hash: str
    corner: Corner | None = None
    beside: tuple[str, ...] = ()


def caution_lines(text: str, room_mm: float) -> list[str]:
    """Return a caution in the lines that its frame holds."""
    return wrapped(text, room_mm - 10, SMALL_MM)


def caution_frame(text: str, x_mm: float, y_mm: float, width: float) -> tuple[list[Ink], float]:
    """Return a framed caution with the general warning triangle (ISO 7010 W001), and its height."""
    lines = caution_lines(text, width)
    height = max(len(lines) * line_pitch_mm(SMALL_MM) + 2.6, 7.0)
    box = Box(x_mm, y_mm, width, height)
    ink: list[Ink] = [rectangle(box, THICK_MM)]
    middle = y_mm + height / 2
    left = x_mm + 1.6
    ink.append(Shape(((left, middle + 2.1), (left + 5, middle + 2.1), (left + 2.5, middle - 2.3)), THICK_MM))
    ink.append(Line(left + 2.5, middle - 0.9, left + 2.5, middle + 0.7, 0.6))
    ink.append(Circle(left + 2.5, middle + 1.45, 0.33, fill=BLACK, colour=None))
    first = middle - (len(lines) - 1) / 2 * line_pitch_mm(SMALL_MM) + SMALL_MM / 2
    for i, line in enumerate(lines):
        y = first + i * line_pitch_mm(SMALL_MM)
        ink.append(Text(x_mm + 8.2, y, line, SMALL_MM, cell=box))
    return ink, height


def foot_height_mm(foot: Foot, width: float) -> float:
    """Return how much of a page's height its foot takes."""
    return _build(foot, 0, 0, width, "9 of 9")[1]


def add_foot(page: Page, foot: Foot, margin_mm: float, number: int, total: int) -> None:
    """Put the foot on a page."""
    width = page.width_mm - 2 * margin_mm
    height = foot_height_mm(foot, width)
    top = page.height_mm - margin_mm - height
    ink, _ = _build(foot, margin_mm, top, width, f"{number} of {total}")
    page.add(*ink)


def _build(foot: Foot, x: float, y: float, width: float, count: str) -> tuple[list[Ink], float]:
    """Return the ink of a foot whose top left corner is given, and its height."""
    ink, caution = caution_frame(foot.caution, x, y, width)
    code_width, code_height = _corner_size(foot.corner)
    room = width - code_width - (3 if code_width else 0)
    texts = _foot_lines(foot, room, count)
    beside = _bar_beside(room)
    text_height = len(texts) * line_pitch_mm(FOOT_MM) + (4.2 if beside else 6.2)
    notes = [line for note in foot.beside for line in wrapped(note, room, SMALL_MM)]
    notes_height = len(notes) * line_pitch_mm(SMALL_MM) + (1.5 if notes else 0)
    below = max(text_height + notes_height, code_height)
    top = y + caution + 1.5
    bottom = top + below
    for i, note in enumerate(notes):
        base = top + SMALL_MM + i * line_pitch_mm(SMALL_MM)
        ink.append(Text(x, base, note, SMALL_MM, cell=Box(x, top, room, below)))
    for i, text in enumerate(texts):
        base = bottom - (len(texts) - 1 - i) * line_pitch_mm(FOOT_MM) - 0.55
        ink.append(Text(x, base, text, FOOT_MM, cell=Box(x, top, room, below)))
    ink += _bar(x, bottom - text_height + 2.2, beside)
    ink += _corner_ink(foot.corner, x + width - code_width, bottom - code_height)
    return ink, caution + 1.5 + below


def _bar_beside(room: float) -> bool:
    return room > BAR_MM + 4 + width_mm(_BAR_SAYS, FOOT_MM)


_BAR_SAYS = "print at 100 %; this bar is 50 mm"


def _bar(x: float, y: float, beside: bool) -> list[Ink]:
    ink: list[Ink] = [Line(x, y, x + BAR_MM, y, MIDDLE_MM)]
    for i in range(6):
        half = 1.2 if i in (0, 5) else 0.7
        ink.append(Line(x + 10 * i, y - half, x + 10 * i, y + half, MIDDLE_MM))
    at = (x + BAR_MM + 2, y + FOOT_MM / 2) if beside else (x, y + 3.3)
    ink.append(Text(at[0], at[1], _BAR_SAYS, FOOT_MM))
    return ink


def _foot_lines(foot: Foot, room: float, count: str) -> list[str]:
    title_block = foot.title_block
    says = f"{title_block.aircraft} · {title_block.marks} · {foot.state} · page {count} · {foot.content_hash}"
    says += " · corrected for one printer" if title_block.corrected else ""
    return [*wrapped(MODELS_ONLY, room, FOOT_MM), *wrapped(says, room, FOOT_MM)]


def _corner_size(corner: Corner | None) -> tuple[float, float]:
    """Return width and height of the code with its quiet zone and its caption."""
    if corner is None:
        return 0.0, 0.0
    side = code_side_mm(code_rows(corner.text))
    return side, side + len(wrapped(corner.caption, side, FOOT_MM)) * line_pitch_mm(FOOT_MM)


def _corner_ink(corner: Corner | None, x: float, y: float) -> list[Ink]:
    """Return the code from its quiet zone's top left corner, its caption in the middle below."""
    if corner is None:
        return []
    rows = code_rows(corner.text)
    side, quiet = code_side_mm(rows), QUIET_MODULES * MODULE_MM
    ink: list[Ink] = [Code(x + quiet, y + quiet, MODULE_MM, rows, corner.text)]
    for i, line in enumerate(wrapped(corner.caption, side, FOOT_MM)):
        base = y + side + FOOT_MM + i * line_pitch_mm(FOOT_MM)
        ink.append(Text(x + side / 2, base, line, FOOT_MM, align="centre"))
    return ink


def state_of(title_block: TitleBlock) -> str:
    """Say which state a list or sheet shows."""
    return f"revision {title_block.revision} · {title_block.date}"


def number_pages(pages: Sequence[Page], feet: Sequence[Foot], margin_mm: float) -> None:
    """Put a foot on each page, now that their number is known."""
    for i, (page, foot) in enumerate(zip(pages, feet, strict=True)):
        add_foot(page, foot, margin_mm, i + 1, len(pages))
