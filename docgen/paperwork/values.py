"""Write rows as comma-separated values."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def comma_separated(rows: Iterable[Sequence[str]]) -> str:
    """Return rows as comma-separated values (RFC 4180).

    No cell begins as a formula of a spreadsheet does: one that would gets an apostrophe before it.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerows([f"'{cell}" if cell[:1] in _FORMULA else cell for cell in row] for row in rows)
    return text.getvalue()
