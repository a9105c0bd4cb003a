"""Take texts, and values to write in them; return lines of plain text, wrapped and indented."""

from __future__ import annotations

import textwrap

from docgen.basics.units import decimal

COLUMNS = 72
_NAME, _CELL = 17, 11  # of a table


class Lines:
    """Lines of text, wrapped, with what belongs below a line indented."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def add(self, *said: str, depth: int = 0) -> None:
        """Add what is said as one text, wrapped; nothing of what is empty."""
        indent, text = "  " * depth, joined(*said)
        if 0 < len(text) <= COLUMNS - len(indent) and text == " ".join(text.split()):
            self.lines.append(indent + text)  # as most are, and wrapping takes its time
            return
        wrapper = textwrap.TextWrapper(COLUMNS, indent, indent + "    ", break_on_hyphens=False)
        self.lines += wrapper.wrap(text)

    def row(self, name: str, *cells: str) -> None:
        """Add a row of a table: a name, in a line of its own if it is long, and cells that end below each other."""
        if len(name) > _NAME:
            self.add(name)
            name = ""
        self.lines.append(name.ljust(_NAME) + "".join(cell.rjust(_CELL) for cell in cells))

    def heading(self, text: str) -> None:
        """Add a heading; the first is the title."""
        self.lines += ["", text, "-" * min(len(text), COLUMNS)] if self.lines else [text, "=" * len(text)]

    def text(self) -> str:
        """Return all of it."""
        return "\n".join(self.lines) + "\n"


def joined(*said: str) -> str:
    """Write texts as a list, without those that are empty."""
    return ", ".join(filter(None, said))


def named(name: str, said: str | int | None) -> str:
    """Write what is said after its name; nothing where nothing is."""
    return f"{name} {said}" if said else ""


def quantity(value: float | None, unit: str, decimals: int | None = None, times: float = 1) -> str:
    """Write a value, `times` as large, with its unit: as it is or to so many decimals; nothing where there is none."""
    if value is None:
        return ""
    return f"{decimal(times * value) if decimals is None else f'{times * value:.{decimals}f}'} {unit}"


def measured(value: float | None, unit: str, decimals: int | None = None, times: float = 1) -> str:
    """Write a value with its unit, or that it is not measured."""
    return quantity(value, unit, decimals, times) or "not measured"


def length(length_mm: float | None) -> str:
    """Write a length to a tenth of a mm, or that it is not measured."""
    return measured(None if length_mm is None else round(length_mm, 1), "mm")


def percent(share: float | None, decimals: int | None = None) -> str:
    """Write a share."""
    return quantity(share, "%", decimals, times=100)
