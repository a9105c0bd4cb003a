"""Take what a document holds; return the hash by which it is told whether that has changed."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from functools import cache
from typing import Any

from docgen.basics.findings import Position

# What is no part of the content that is compared: a thing's own revision, and where it was typed.
_NOT_CONTENT = frozenset({"since", "position"})


@cache
def _names(kind: type) -> list[str] | None:
    """Return the names of what is compared of a class of values; nothing of any other class."""
    if not dataclasses.is_dataclass(kind):
        return None
    return [field.name for field in dataclasses.fields(kind) if field.name not in _NOT_CONTENT]


def _plain(item: Any) -> Any:
    names = _names(item.__class__)
    if names is not None:
        return {name: _plain(getattr(item, name)) for name in names}
    if isinstance(item, Position):
        return None
    if isinstance(item, tuple | list):
        return [_plain(part) for part in item]
    if isinstance(item, dict):
        return {str(key): _plain(value) for key, value in item.items()}
    return item


def digest(item: Any) -> str:
    """Return the hash of an item's content."""
    return short_hash(json.dumps(_plain(item), ensure_ascii=False, sort_keys=True, separators=(",", ":")))


def short_hash(text: str) -> str:
    """Return the first 8 characters of the SHA-256 of a text."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]
