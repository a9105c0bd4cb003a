"""What documents hold: walk the texts of an item, and tell whether its content has changed."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Iterator
from typing import Any

from docgen.basics.findings import Finding, Position, Said, shown
from docgen.paperwork.typeface import missing_characters

# What is no part of the content that is compared: a thing's own revision, and where it was typed.
_NOT_CONTENT = frozenset({"since", "position"})


def said_in(item: Any) -> Iterator[Said]:
    """Walk every text with a position in an item."""
    if isinstance(item, Said):
        yield item
    elif dataclasses.is_dataclass(item):
        for field in dataclasses.fields(item):
            yield from said_in(getattr(item, field.name))
    elif isinstance(item, tuple | list):
        for part in item:
            yield from said_in(part)
    elif isinstance(item, dict):
        yield from said_in(list(item.values()))


def texts_in(items: Any) -> Iterator[str]:
    """Walk every text in items, with a position or without; what several of them share is walked once."""
    rest, walked = [items], set()
    while rest:
        item = rest.pop()
        if isinstance(item, str):
            yield item
        elif id(item) not in walked:
            walked.add(id(item))
            if dataclasses.is_dataclass(item):
                rest.extend(getattr(item, field.name) for field in dataclasses.fields(item))
            elif isinstance(item, tuple | list):
                rest.extend(item)
            elif isinstance(item, dict):
                rest.extend(item.values())


def _plain(item: Any) -> Any:
    if isinstance(item, Said):
        return item.text
    if dataclasses.is_dataclass(item):
        fields = (field.name for field in dataclasses.fields(item))
        return {name: _plain(getattr(item, name)) for name in fields if name not in _NOT_CONTENT}
    if isinstance(item, Position):
        return None
    if isinstance(item, tuple | list):
        return [_plain(part) for part in item]
    if isinstance(item, dict):
        return {str(key): _plain(value) for key, value in item.items()}
    return item


def digest(item: Any) -> str:
    """Return the first 8 characters of the SHA-256 of an item's content."""
    text = json.dumps(_plain(item), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def check_characters(items: Any) -> list[Finding]:
    """Return an error for each text that the typeface can't show."""
    findings = []
    for said in said_in(items):
        missing = missing_characters([said.text]) if not said.text.isascii() or not said.text.isprintable() else ""
        if missing:
            names = ", ".join(f"{shown(c)} (U+{ord(c):04X})" for c in missing[:5])
            sentence = f"{shown(said.text)} holds {names}, which the typeface can't set."
            findings.append(Finding(said.position, "character", sentence, "Write it in other characters."))
    return findings
