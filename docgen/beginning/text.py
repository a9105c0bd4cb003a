"""Entries as the commented text of a file that builders read and change."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from docgen.beginning.draft import Entry

_WIDTH = 116
_PLAIN = re.compile(r"[A-Za-z0-9<](?:[^#:]|:(?! |$)|(?<! )#)*")
_PLAIN_WITHIN = re.compile(r"[A-Za-z0-9<][^#:,\[\]{}]*")


def file_text(says: Iterable[str], sections: Iterable[str]) -> str:
    """Return the text of a file: what it says first, then its sections."""
    return "\n\n".join(["\n".join(_comment(says, "")), *sections]) + "\n"


def named_section(name: str, entries: Iterable[Entry], says: Iterable[str]) -> str:
    """Return a section of named entries, a key a line."""
    lines = [*_comment(says, ""), f"{name}:"]
    for entry in entries:
        lines += [*_comment([entry.says], "  "), f"  {entry.name}:"]
        for key, value in entry.fields.items():
            lines += _key_lines(key, value, entry.beside.get(key, ""))
    return "\n".join(lines)


def short_section(name: str, entries: Iterable[Entry], says: Iterable[str]) -> str:
    """Return a section of named entries, an entry a line, in columns."""
    every = list(entries)
    width = max(len(entry.name) for entry in every) + 1
    lines = [*_comment(says, ""), f"{name}:"]
    for entry in every:
        lines += [*_comment([entry.says], "  "), f"  {f'{entry.name}:'.ljust(width)} {_inline(entry.fields)}"]
    return "\n".join(lines)


def list_section(name: str, items: Iterable[Mapping[str, Any]], says: Iterable[str]) -> str:
    """Return a section of entries without names, a line each."""
    return "\n".join([*_comment(says, ""), f"{name}:", *(f"  - {_inline(item)}" for item in items)])


def one_section(name: str, fields: Mapping[str, str], beside: Mapping[str, str], says: Iterable[str]) -> str:
    """Return a section of keys alone."""
    lines = [*_comment(says, ""), f"{name}:"]
    lines += [f"  {key}: {_scalar(value, _PLAIN)}{_beside(beside.get(key, ''))}" for key, value in fields.items()]
    return "\n".join(lines)


def _key_lines(key: str, value: Any, beside: str) -> Iterator[str]:
    if any(isinstance(item, Mapping) for item in value):
        yield f"    {key}:{_beside(beside)}"
        yield from (f"      - {_inline(item)}" for item in value)
    else:
        text = _inline(value) if isinstance(value, (Mapping, list)) else _scalar(value, _PLAIN)
        yield f"    {key}: {text}{_beside(beside)}"


def _inline(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {_inline(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_inline, value)) + "]"
    return _scalar(value, _PLAIN_WITHIN)


def _scalar(text: str, plain: re.Pattern[str]) -> str:
    """Return a text as it can stand, in quotes where it must."""
    if plain.fullmatch(text) and text == text.strip():
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _comment(says: Iterable[str], before: str) -> Iterator[str]:
    for text in filter(None, says):
        yield from textwrap.wrap(
            text, _WIDTH, initial_indent=f"{before}# ", subsequent_indent=f"{before}# ", break_on_hyphens=False
        )


def _beside(text: str) -> str:
    return f"  # {text}" if text else ""
