"""What every sheet and card carries: whose it is, where it stands, a bar's length, a code in a corner."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from docgen.basics.frozen import frozen
from docgen.paperwork.typesetting.codes import MODULE_MM, QUIET_MODULES, code_rows, code_side_mm
from docgen.paperwork.typesetting.ink import Code, Ink, Text
from docgen.paperwork.typesetting.typeface import FOOT_MM, line_pitch_mm, wrapped

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
