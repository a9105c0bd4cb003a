"""What an earlier print left in the output folder, and this one does not make."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

_PART = re.compile(r"(disconnect|equipment|assembly)-(.+)\.txt")
_HEAD = 4096  # characters; the longest names take a tenth of that


def clear_earlier(target: Path, made: Collection[Path]) -> list[str]:
    """Remove parts of the record that are made no more, where one is made; say so, and that old values stay."""
    notes = []
    values = target / "cut-list.csv"
    if target / "cut-list.pdf" in made and values not in made and values.exists():
        notes.append(f"{values} is from an earlier print; print with --csv to renew it, or delete it.")
    for path in sorted((target / "record").glob("*.txt")) if target / "record.txt" in made else ():
        if path not in made and _is_part(path):
            path.unlink()
            notes.append(f"{path} is removed: it was part of an earlier record.")
    return notes


def _is_part(path: Path) -> bool:
    """Tell whether a file begins as a part of the record does, whose title may be broken into lines."""
    match = _PART.fullmatch(path.name)
    if match is None or path.is_symlink() or not path.is_file():
        return False
    try:
        with path.open(encoding="utf-8", errors="replace") as stream:
            title, since, _ = stream.read(_HEAD).partition("\nsince: ")
    except OSError:
        return False
    return bool(since) and "".join(title.split()).endswith("".join(match.groups()))
