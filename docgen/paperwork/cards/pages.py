"""What pin-out cards and equipment cards share: their codes, page by page, and the cut line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from docgen.paperwork.typesetting.ink import Page, cut_line
from docgen.paperwork.typesetting.title_block import Corner, Foot, foot_height_mm, number_pages
from docgen.paperwork.typesetting.typeface import SMALL_MM, line_pitch_mm, wrapped
from docgen.paperwork.typesetting.writer import PageWriter

_NOTES_MM = 4.0  # by which the notes beside the code may make the foot higher; longer ones stand below the table


def codes_of(link: str | None, linked: str, texts: Callable[[], Sequence[str]], card: str) -> list[Corner]:
    """Return the codes of a card: a link to its part of the record, or else the card itself as texts."""
    if link is not None:
        return [Corner(link, f"this {linked} in the record")]
    said = texts()
    count = len(said)
    return [
        Corner(text, f"this {card} as text" + (f", {number} of {count}" if count > 1 else ""))
        for number, text in enumerate(said, 1)
    ]


def with_notes_beside(feet: Sequence[Foot], notes: Sequence[str], width: float) -> tuple[list[Foot], Sequence[str]]:
    """Return the feet with those notes that make them hardly higher beside their codes, and the other notes."""

    def beside(count: int) -> list[Foot]:
        return [replace(foot, beside=tuple(notes[:count])) for foot in feet]

    def height(count: int) -> float:
        return max(foot_height_mm(foot, width) for foot in beside(count))

    most = height(0) + _NOTES_MM
    count = max(count for count in range(len(notes) + 1) if count == 0 or height(count) <= most)
    return beside(count), notes[count:]


def add_notes(writer: PageWriter, notes: Sequence[str]) -> None:
    """Set notes, each on one page where it has room on one."""
    for note in notes:
        writer.need(len(wrapped(note, writer.width_mm, SMALL_MM)) * line_pitch_mm(SMALL_MM))
        writer.paragraph(note, SMALL_MM)


def finish(writer: PageWriter, feet: Sequence[Foot], margin_mm: float) -> list[Page]:
    """Add pages until each code has one, then the foot of each page and the line along which a card is cut out."""
    writer.finish_page()
    while len(writer.pages) < len(feet):
        writer.new_page()
        writer.paragraph("The code below goes on from the one before.", SMALL_MM)
    number_pages(writer.pages, [*feet, *list(feet[-1:]) * (len(writer.pages) - len(feet))], margin_mm)
    for page in writer.pages:
        page.add(cut_line(page))
    return writer.pages
