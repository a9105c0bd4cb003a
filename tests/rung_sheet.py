"""Read a printed ring-out sheet back: what is rung out of which lead, where, and what it should show."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

from measured import PrintedPage, PrintedText, printed_pages

LEAD_RIGHT_MM = 50.0  # contacts stand further right
_CONTACTS = re.compile(r"(\S+)(?: \((.+)\))? – (\S+)(?: \((.+)\))?")


class Rung(NamedTuple):
    """Two contacts to ring out: below which head, of which lead, what is said below its name, and the millivolts.

    What rings `too` stands after each of the contacts.
    """

    head: str
    lead: str
    where: str
    contacts: tuple[str, str]
    expected_mv: int | None
    bad_over_mv: int | None
    too: tuple[str, str] = ("", "")


def rung_in(file: Path) -> list[Rung]:
    """Return all rows of a printed sheet, in order."""
    found: list[Rung] = []
    head = ""
    for page in printed_pages(file):
        texts = sorted(page.texts, key=lambda text: (text.base_mm, text.box.left))
        heads = [(text.base_mm, text.text.removesuffix(", continued")) for text in texts if _is_head(page, text)]
        names = [text for text in texts if _is_name(page, text)]
        for text in texts:
            match = _CONTACTS.fullmatch(text.text)
            if match is None or not text.bold or text.box.left < LEAD_RIGHT_MM:
                continue
            above = [said for base, said in heads if base < text.base_mm]
            head = above[-1] if above else head
            name = [name for name in names if name.base_mm < text.base_mm + 1][-1]
            contacts, too = (match[1], match[3]), (match[2] or "", match[4] or "")
            found.append(Rung(head, name.text, _below(texts, name), contacts, *_millivolts(texts, text), too))
    return found


def _is_head(page: PrintedPage, text: PrintedText) -> bool:
    """Tell whether it is the name of an assembly or of what follows: bold, 2.5 mm, at the left."""
    return text.bold and abs(text.capital_mm - 2.5) < 0.05 and text.box.left < 20 and not _is_name(page, text)


def _is_name(page: PrintedPage, text: PrintedText) -> bool:
    """Tell whether it is the name of a lead, which has small print right below it and no black behind it."""
    below = [other for other in page.texts if 0 < other.base_mm - text.base_mm < 3.2 and not other.bold]
    return text.bold and text.box.left < 20 and any(abs(other.box.left - text.box.left) < 0.6 for other in below)


def _below(texts: list[PrintedText], name: PrintedText) -> str:
    lines = []
    base = name.base_mm
    for text in texts:
        if text.box.left < 20 and not text.bold and 0 < text.base_mm - base < 3.2:
            lines.append(text.text)
            base = text.base_mm
    return " ".join(lines)


def _millivolts(texts: list[PrintedText], contacts: PrintedText) -> tuple[int | None, int | None]:
    near = [
        text.text
        for text in texts
        if 0 < text.box.left - contacts.box.right < 20 and abs(text.base_mm - contacts.base_mm) < 3
    ]
    expected = [int(said) for said in near if said.isdigit()]
    bad = [int(said[1:]) for said in near if said.startswith("≤")]
    return (expected[0] if expected else None), (bad[0] if bad else None)
