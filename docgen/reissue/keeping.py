"""Keep issues in an aircraft's folder: each whole or not at all, whatever comes in between, and none written over.

All is written beside under another name, brought to the disk, and renamed as one.
"""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Mapping
from pathlib import Path

from docgen.basics.doing import wrote
from docgen.definition.issues import BUILT, ISSUED, built_text
from docgen.paperwork.file_set import write_new


def keep_issue(folder: Path, letter: str, files: Mapping[str, bytes]) -> None:
    """Keep the files of an issue; raises OSError with nothing of it there, or all."""
    kept = folder / ISSUED
    new = kept / f".{letter}.new"
    if kept.is_symlink():
        raise OSError(errno.ELOOP, "a link is in its place", str(kept))
    kept.mkdir(exist_ok=True)
    try:
        for left_over in kept.glob(".*.new"):
            shutil.rmtree(left_over)
        new.mkdir()
        for name, content in files.items():
            write_new(new / name, content)
        _sync(new)
        new.rename(kept / letter)
        wrote(f"issue {letter}")
    except BaseException:  # a stop too
        shutil.rmtree(new, ignore_errors=True)
        raise


def settle(folder: Path) -> None:
    """Bring to the disk that an issue is there; raises OSError with the issue kept all the same."""
    _sync(folder / ISSUED)
    _sync(folder)


def keep_built(folder: Path, letter: str) -> None:
    """Keep that an issue is built; raises OSError, and may be done again."""
    issue = folder / ISSUED / letter
    new = issue / f".{BUILT}.new"
    try:
        new.unlink(missing_ok=True)
        write_new(new, built_text(letter).encode())
        new.rename(issue / BUILT)
        wrote(f"that issue {letter} is built")
    except BaseException:  # a stop too
        new.unlink(missing_ok=True)
        raise
    _sync(issue)


def _sync(folder: Path) -> None:
    """Bring the names in a folder to the disk, where the system lets a folder be opened."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
