"""Take a kind of finding and return what a builder reads of it on a terminal."""

from __future__ import annotations

import re
import textwrap

from docgen.basics.findings import Kind

_COLUMNS = 80
# What stays on one line, so that it can be copied: an example, and a number with its unit.
_TOGETHER = re.compile(r"`[^`]*`|\d [%°A-Za-z]")
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


def _wrap(text: str, first: str) -> list[str]:
    held = _TOGETHER.sub(lambda match: match[0].replace(" ", _NO_BREAK), text)
    lines = textwrap.wrap(held, _COLUMNS, initial_indent=first, subsequent_indent="  ", break_on_hyphens=False)
    return [line.replace(_NO_BREAK, " ") for line in lines]
