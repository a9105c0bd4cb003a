"""What composing a document returns."""

from __future__ import annotations

from dataclasses import dataclass, field

from docgen.basics.findings import Finding
from docgen.paperwork.typesetting.ink import Page


@dataclass(frozen=True)
class Composed:
    """A document's pages, what was found while it was composed, and what the builder is told."""

    pages: list[Page]
    findings: list[Finding] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
