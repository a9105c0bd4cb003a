"""What composing a document returns."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field

from docgen.basics.findings import Finding
from docgen.basics.frozen import frozen
from docgen.paperwork.typesetting.ink import Page, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import FOOT_MM

_ROW_MM = 10.0  # a row of a table is no higher


@frozen
class Composed:
    """A document's pages, what was found while it was composed, and what the builder is told."""

    pages: list[Page]
    findings: list[Finding] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    @property
    def lines(self) -> list[str]:
        """Return what its pages say, a line for what stands from left to right; their feet, in small type, left out."""
        lines: list[list[Text]] = []
        for page in self.pages:
            last = None
            for text in (ink for ink in page.ink if isinstance(ink, Text) and ink.height_mm > FOOT_MM):
                if last is None or text.x_mm <= last.x_mm or abs(text.y_mm - last.y_mm) > _ROW_MM:
                    lines.append([])
                lines[-1].append(text)
                last = text
        return [" ".join(text.text for text in line) for line in lines]


Laid = Callable[[TitleBlock], Composed]
"""What is laid out, and takes whose it is and where it stands."""
