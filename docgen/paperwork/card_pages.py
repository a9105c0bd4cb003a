"""What pin-out cards and equipment cards share: their codes, page by page, and the cut line."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from docgen.paperwork.flow import Flow
from docgen.paperwork.imprint import SMALL_MM, Corner, Foot, number_pages
from docgen.paperwork.marks import Page, cut_line


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


def finish(flow: Flow, feet: Sequence[Foot], margin_mm: float) -> list[Page]:
    """Add pages until each code has one, then the foot of each page and the line along which a card is cut out."""
    flow.finish_page()
    while len(flow.pages) < len(feet):
        flow.new_page()
        flow.paragraph("The code below goes on from the one before.", SMALL_MM)
    number_pages(flow.pages, [*feet, *list(feet[-1:]) * (len(flow.pages) - len(feet))], margin_mm)
    for page in flow.pages:
        page.add(cut_line(page))
    return flow.pages
