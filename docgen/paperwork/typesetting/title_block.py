"""What every sheet and card carries: whose it is, which state, page n of m, a bar, and cautions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field

from docgen.basics.frozen import frozen
from docgen.paperwork.typesetting.codes import MODULE_MM, QUIET_MODULES, code_rows, code_side_mm
from docgen.paperwork.typesetting.ink import (
    MIDDLE_MM,
    Box,
    Code,
    Ink,
    Line,
    Page,
    Text,
)
from docgen.paperwork.typesetting.signs import caution_ink
from docgen.paperwork.typesetting.typeface import FOOT_MM, SMALL_MM, line_pitch_mm, width_mm, wrapped

BAR_MM, BAR_SAYS = 50.0, "print at 100 %; this bar is 50 mm"
MODELS_ONLY = (
    "For model aircraft only, never for aircraft that carry people. You decide: makers' instructions, the "
    "club's and the country's rules come first, and a qualified person where one is needed. Results are "
    "estimates to be checked on the bench."
)


@frozen
class TitleBlock:
    """The aircraft, and where the paper stands; `record` is where the record stands on the web, if it does.

    `issue` is that in which the content changed last, with its `date`, or that it is a draft, with none; for parts that
    stand for themselves, such as cards, `parts` says both. `corrected` tells that what a printer does to the page is
    undone.
    """

    aircraft: str
    marks: str
    issue: str
    date: str
    record: str | None
    content_hash: str
    parts: Mapping[str, str] = field(default_factory=dict)
    corrected: bool = False

    @property
    def state(self) -> str:
        """Say where the paper stands."""
        return " · ".join(filter(None, (self.issue, self.date)))

    def link(self, path: str) -> str | None:
        """Return the web address of a path inside the output folder."""
        return f"{self.record.rstrip('/')}/{path}" if self.record else None


NO_TITLE = TitleBlock("", "", "", "", None, "")


@frozen
class Corner:
    """The code in a page's lower right corner and what is said under it."""

    text: str
    caption: str


@frozen
class Foot:
    """What stands at the foot of a document's pages."""

    title_block: TitleBlock
    caution: str
    state: str
    content_hash: str


def record_foot(title_block: TitleBlock, caution: str) -> Foot:
    """Return the foot of a document that shows the whole harness: its issue, and its hash."""
    return Foot(title_block, caution, title_block.state, title_block.content_hash)


def foot_height_mm(foot: Foot, width: float) -> float:
    """Return how much of a page's height the foot takes."""
    return _set(foot, width, _COUNT).height_mm


def number_pages(pages: Sequence[Page], foot: Foot, margin_mm: float) -> None:
    """Put its foot on each page, now that their number is known."""
    for number, page in enumerate(pages, 1):
        width = page.width_mm - 2 * margin_mm
        top = page.height_mm - margin_mm - _set(foot, width, _COUNT).height_mm
        as_set = _set(foot, width, f"{number} of {len(pages)}")
        page.add(*_foot_ink(as_set, Box(margin_mm, top, width, as_set.height_mm)))


_COUNT = "9 of 9"  # as wide as most, where pages are not counted yet


@frozen
class _SetFoot:
    """The foot of one page: its texts in lines, and how much room they take."""

    caution: list[str]
    says: list[str]
    bar_beside: bool
    caution_mm: float
    says_mm: float

    @property
    def height_mm(self) -> float:
        """Return its height."""
        return self.caution_mm + 1.5 + self.says_mm


def _set(foot: Foot, width: float, count: str) -> _SetFoot:
    """Break a foot's texts into lines, and measure them."""
    bar_beside = width > BAR_MM + 4 + width_mm(BAR_SAYS, FOOT_MM)
    title_block = foot.title_block
    parts = [title_block.aircraft, title_block.marks, foot.state, f"page {count}", foot.content_hash]
    line = " · ".join(filter(None, [*parts, "corrected for one printer" if title_block.corrected else ""]))
    caution = wrapped(foot.caution, width - 10, SMALL_MM)
    caution_mm = max(len(caution) * line_pitch_mm(SMALL_MM) + 2.6, 7.0)
    says = [*wrapped(MODELS_ONLY, width, FOOT_MM), *wrapped(line, width, FOOT_MM)]
    says_mm = len(says) * line_pitch_mm(FOOT_MM) + (4.2 if bar_beside else 6.2)
    return _SetFoot(caution, says, bar_beside, caution_mm, says_mm)


def _foot_ink(foot: _SetFoot, at: Box) -> list[Ink]:
    """Return the ink of a foot in its box."""
    ink = caution_ink(foot.caution, Box(at.x_mm, at.y_mm, at.width_mm, foot.caution_mm))
    cell = Box(at.x_mm, at.y_mm + foot.caution_mm + 1.5, at.width_mm, foot.says_mm)
    for i, text in enumerate(foot.says):
        base = cell.bottom_mm - (len(foot.says) - 1 - i) * line_pitch_mm(FOOT_MM) - 0.55
        ink.append(Text(at.x_mm, base, text, FOOT_MM, cell=cell))
    return ink + _bar(at.x_mm, cell.y_mm + 2.2, foot.bar_beside)


def _bar(x: float, y: float, beside: bool) -> list[Ink]:
    ink: list[Ink] = [Line(x, y, x + BAR_MM, y, MIDDLE_MM)]
    for i in range(6):
        half = 1.2 if i in (0, 5) else 0.7
        ink.append(Line(x + 10 * i, y - half, x + 10 * i, y + half, MIDDLE_MM))
    at = (x + BAR_MM + 2, y + FOOT_MM / 2) if beside else (x, y + 3.3)
    ink.append(Text(at[0], at[1], BAR_SAYS, FOOT_MM))
    return ink


def corner_size(corner: Corner | None) -> tuple[float, float]:
    """Return width and height of the code with its quiet zone and its caption."""
    if corner is None:
        return 0.0, 0.0
    side = code_side_mm(code_rows(corner.text))
    return side, side + len(wrapped(corner.caption, side, FOOT_MM)) * line_pitch_mm(FOOT_MM)


def corner_ink(corner: Corner, x: float, y: float) -> list[Ink]:
    """Return the code from its quiet zone's top left corner, its caption in the middle below."""
    rows = code_rows(corner.text)
    side, quiet = code_side_mm(rows), QUIET_MODULES * MODULE_MM
    ink: list[Ink] = [Code(x + quiet, y + quiet, MODULE_MM, rows, corner.text)]
    for i, line in enumerate(wrapped(corner.caption, side, FOOT_MM)):
        base = y + side + FOOT_MM + i * line_pitch_mm(FOOT_MM)
        ink.append(Text(x + side / 2, base, line, FOOT_MM, align="centre"))
    return ink
