"""Write files, all or none; tell and clear away what an earlier print left in the output folder."""

from __future__ import annotations

import errno
import os
import re
from collections.abc import Collection
from pathlib import Path

_PART = re.compile(r"(disconnect|equipment|assembly)-(.+)\.txt")
_HEAD = 4096  # characters; the longest names take a tenth of that


def write_files(files: dict[Path, bytes]) -> None:
    """Write all files under temporary names, then rename them; raises OSError with nothing half-written."""
    written: list[tuple[Path, Path]] = []
    try:
        for path, content in files.items():
            if path.is_dir():
                raise IsADirectoryError(errno.EISDIR, "a folder is in its place", str(path))
            path.parent.mkdir(parents=True, exist_ok=True)
            temporary = path.with_name(f".{path.name}.part")
            written.append((temporary, path))
            _write(temporary, content, path)
        for temporary, path in written:
            os.replace(temporary, path)  # noqa: PTH105 - says what it does
    finally:
        for temporary, _ in written:
            temporary.unlink(missing_ok=True)


def _write(temporary: Path, content: bytes, path: Path) -> None:
    try:
        temporary.write_bytes(content)
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def has_paper(target: Path) -> bool:
    """Tell whether an earlier print left documents."""
    return any(target.glob("*.pdf")) or (target / "record.txt").exists()


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
