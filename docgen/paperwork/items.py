"""What documents hold: whether texts can be set, and whether an item's content has changed."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Iterable
from typing import Any

from docgen.basics.findings import Finding, Position, shown
from docgen.paperwork.typesetting.typeface import missing_characters

# What is no part of the content that is compared: a thing's own revision, and where it was typed.
_NOT_CONTENT = frozenset({"since", "position"})


def _plain(item: Any) -> Any:
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


def check_characters(texts: Iterable[tuple[str, Position]]) -> list[Finding]:
    """Return an error for each text, with its position, that the typeface can't show."""
    findings = []
    for text, position in texts:
        missing = missing_characters([text]) if not text.isascii() or not text.isprintable() else ""
        if missing:
            names = ", ".join(f"{shown(c)} (U+{ord(c):04X})" for c in missing[:5])
            sentence = f"{shown(text)} holds {names}, which the typeface can't set."
            findings.append(Finding(position, "character", sentence, "Write it in other characters."))
    return findings
