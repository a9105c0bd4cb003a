"""What a document holds, piece by piece, as it is compared with what was issued: labels, cards, rows, whole sheets."""

from __future__ import annotations

from collections.abc import Iterable

from docgen.basics.frozen import frozen
from docgen.paperwork.hashes import digest


@frozen
class Item:
    """One label, card, row or sheet: its key, and what it says.

    The first of its `key` is the circuit, disconnect or equipment that it is of, or the sheet. `work` is what of it is
    cut, crimped or inserted, all else is `text`.
    """

    key: tuple[str, ...]
    text: tuple[str, ...]
    work: tuple[str, ...]
    content_hash: str


def item(key: Iterable[str], text: Iterable[str], work: Iterable[str] = (), content_hash: str = "") -> Item:
    """Return an item of texts as they read in one line, empty ones left out; its hash is that of them, if not given."""
    said, done = (tuple(line for part in some if (line := " ".join(part.split()))) for some in (text, work))
    return Item(tuple(key), said, done, content_hash or digest((said, done)))
