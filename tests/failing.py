"""Operations on files that fail, the N-th in a folder: opening, making, renaming, removing, bringing to the disk."""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

_EVENTS = {"open", "os.mkdir", "os.rename", "os.remove", "os.rmdir"}


class _Counter:
    """Counts operations in a folder, and raises at one of them; of no folder it counts none."""

    def __init__(self) -> None:
        self.folder, self.left, self.failed = "", 0, False

    def count(self, path: object) -> None:
        if self.folder and str(path).startswith(self.folder):
            self.left -= 1
            if self.left == 0:
                self.failed = True
                raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))


_counter = _Counter()
_fsync = os.fsync


def _hook(event: str, arguments: tuple[object, ...]) -> None:
    # What is opened by its number is open already.
    if event in _EVENTS and not isinstance(arguments[0], int):
        _counter.count(os.fsdecode(arguments[0]) if isinstance(arguments[0], bytes) else arguments[0])


def _failing_fsync(number: Any) -> None:
    _counter.count(_counter.folder)
    _fsync(number)


sys.addaudithook(_hook)


@contextmanager
def nth_fails(number: int, folder: Path) -> Iterator[_Counter]:
    """Let the N-th operation on files in a folder fail; the counter tells whether one did."""
    _counter.folder, _counter.left, _counter.failed = str(folder), number, False
    os.fsync = _failing_fsync  # type: ignore[assignment]
    try:
        yield _counter
    finally:
        _counter.folder = ""
        os.fsync = _fsync
