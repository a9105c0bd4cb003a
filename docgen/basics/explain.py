"""Take a kind of finding and return what a builder reads of it on a terminal."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable

from docgen.basics.findings import Kind, Level
from docgen.basics.units import counted

_COLUMNS = 80
# What stays on one line, so that it can be copied: an example, and a number with its unit.
_TOGETHER = re.compile(r"`[^`]*`|\d [%°A-Za-z]")
_LEVELS = {
    Level.ERROR: "nothing is printed until it is put right.",
    Level.CAUTION: "it is printed; put it right, or accept it with a reason.",
    Level.NOTE: "worth knowing.",
}
_NO_BREAK = "\N{NO-BREAK SPACE}"


def explain(kind: Kind) -> str:
    """Return what is shown of one kind of finding, in lines of 80 columns."""
    lines = _wrap(f"{kind.name} ({kind.level}, stands on {kind.stands_on}): {kind.meaning}", first="")
    for title, text in (
        ("When", kind.when),
        ("Why it matters", kind.why),
        ("How to remedy it", kind.remedy),
        ("Source", kind.source),
    ):
        lines += ["", title, *_wrap(text, first="  ")]
    return "\n".join(lines)


def list_kinds(kinds: Iterable[Kind]) -> str:
    """Return all kinds of findings with what they mean, those of each level together, by name."""
    every = sorted(kinds, key=lambda kind: kind.name)
    width = max(len(kind.name) for kind in every)
    lines: list[str] = []
    for level in Level:
        of = [kind for kind in every if kind.level is level]
        lines += [f"{counted(len(of), level)}: {_LEVELS[level]}", *(f"  {k.name:{width}}  {k.meaning}" for k in of), ""]
    return "\n".join([*lines, "`docgen explain NAME` tells more of one."])


def _wrap(text: str, first: str) -> list[str]:
    held = _TOGETHER.sub(lambda match: match[0].replace(" ", _NO_BREAK), text)
    lines = textwrap.wrap(held, _COLUMNS, initial_indent=first, subsequent_indent="  ", break_on_hyphens=False)
    return [line.replace(_NO_BREAK, " ") for line in lines]
