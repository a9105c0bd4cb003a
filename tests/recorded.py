"""The record read again: the lines below each heading, and those of one entry."""

from __future__ import annotations

import re
from functools import cache

from resolved import EXAMPLES, harness_of, record_of

NAMES = ("wren", "fulmar", "wisp")

Sections = dict[str, list[str]]


def sections_of(text: str) -> Sections:
    """Return the lines below each heading, what was wrapped as one line; its head is below ""."""
    found: Sections = {"": []}
    lines, depth = found[""], 0
    for line in text.split("\n"):
        indent = len(line) - len(line.lstrip())
        if re.fullmatch(r"[-=]+", line):
            lines = found.setdefault(lines.pop(), [])
        elif lines and indent >= depth + 4:
            lines[-1] += f" {line.strip()}"
        elif line:
            lines.append(line)
            depth = indent
    return found


@cache
def recorded(name: str) -> Sections:
    """Return the record of an example."""
    return sections_of(record_of(harness_of(EXAMPLES / name)).whole)


def said(*parts: str) -> str:
    """Write parts that are there in one line."""
    return ", ".join(part for part in parts if part)


def entry(lines: list[str], name: str) -> list[str]:
    """Return what is said of one thing: its line and those indented below it."""
    start = next(i for i, line in enumerate(lines) if line.startswith(f"{name}: "))
    end = next((i for i in range(start + 1, len(lines)) if not lines[i].startswith(" ")), len(lines))
    return [line.strip() for line in lines[start:end]]
