"""Write a set of files so that all of the old ones or all of the new ones are there, whatever stops it in between."""

from __future__ import annotations

import contextlib
import errno
import os
import platform
import re
import secrets
import signal
import threading
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

from docgen.basics.doing import wrote
from docgen.basics.findings import printable

LOCK = ".being-written"
_MOST_SAID = 100  # letters of who holds it
# What stops a run; a closed terminal raises the third, a closed console of Windows the fourth.
STOPS = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK") if hasattr(signal, name)]
_PART = re.compile(r"\.(.+)\.[0-9a-f]{8}\.part")


class Prepared:
    """Files written beside their places under names of their own, to be put there all together, or dropped."""

    def __init__(self, files: Mapping[Path, bytes]) -> None:
        """Write them; raises OSError, which names the file, with nothing left."""
        self._beside: dict[Path, Path] = {}
        try:
            for path, content in files.items():
                with _about(path):
                    if path.is_dir():
                        raise IsADirectoryError(errno.EISDIR, "a folder is in its place", str(path))
                    make_folder(path.parent)
                    self._beside[path] = _written_beside(path, content)
        except BaseException:
            self.drop()
            raise

    def put(self) -> None:
        """Put all in their places; raises OSError, which names the file, with all as it was. A stop has to wait."""
        done: dict[Path, bytes | None] = {}
        with _unstopped():
            try:
                for path, beside in self._beside.items():
                    with _about(path):
                        before = path.read_bytes() if path.is_file() else None
                        os.replace(beside, path)  # noqa: PTH105 - says what it does
                        done[path] = before
            except BaseException:
                for path, before in done.items():
                    if before is None:
                        path.unlink()
                    else:
                        os.replace(_written_beside(path, before), path)  # noqa: PTH105 - says what it does
                raise
            finally:
                self.drop()

    def drop(self) -> None:
        """Take away what is not in its place."""
        for beside in self._beside.values():
            with contextlib.suppress(OSError):
                beside.unlink()


def write_files(files: Mapping[Path, bytes]) -> None:
    """Write all files or none; raises OSError, which names the file."""
    Prepared(files).put()
    wrote(", ".join(map(str, files)))


def make_folder(folder: Path) -> None:
    """Make a folder and those above it; raises OSError, which names what is in the way."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        for each in (folder, *folder.parents):
            if os.path.lexists(each) and not each.is_dir():
                what = "a link that leads nowhere" if each.is_symlink() else "a file"
                says = f"{each} is {what}, where a folder should be"
                raise NotADirectoryError(errno.ENOTDIR, says, str(folder)) from error
        raise OSError(error.errno, error.strerror, str(folder)) from error


@contextlib.contextmanager
def held(folder: Path) -> Iterator[None]:
    """Let nobody else write to a folder meanwhile; raises BlockingIOError, which says who does."""
    make_folder(folder)
    lock = folder / LOCK
    with _about(lock):
        try:
            write_new(lock, f"{os.getpid()} {platform.node()}".encode())
        except FileExistsError:
            if not _is_left_over(lock):
                raise BlockingIOError(errno.EWOULDBLOCK, _says(lock), str(folder)) from None
            lock.unlink(missing_ok=True)
            write_new(lock, f"{os.getpid()} {platform.node()}".encode())
    try:
        yield
    finally:
        with contextlib.suppress(OSError):  # all is done; the next run says what to do about the lock
            lock.unlink()


def clear_left_over(folder: Path, names: Collection[str]) -> None:
    """Take away what a run that was killed left beside files of these names, in a folder that is held."""
    for path in folder.glob(".*.part"):
        match = _PART.fullmatch(path.name)
        if match and match[1] in names:
            with contextlib.suppress(OSError):
                path.unlink()


def _holder(lock: Path) -> tuple[str, str]:
    process, _, host = lock.read_text("utf-8", "replace").partition(" ")
    return process, host


def _says(lock: Path) -> str:
    process, host = _holder(lock)
    who = printable(f"process {process} on {host}")[:_MOST_SAID]
    return f"another run writes there ({who}); if it does no more, delete {lock}"


def _is_left_over(lock: Path) -> bool:
    """Tell whether the run that made a lock is gone; where that can't be asked, it counts as there."""
    process, host = _holder(lock)
    if os.name != "posix" or host != platform.node() or not process.isdecimal():
        return False
    try:
        os.kill(int(process), 0)
    except ProcessLookupError:
        return True
    except (OSError, OverflowError):
        return False
    return False


def _written_beside(path: Path, content: bytes) -> Path:
    beside = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
    write_new(beside, content)
    return beside


def write_new(path: Path, content: bytes) -> None:
    """Write a file that is not there yet, not even as a link, and have it on the disk; or leave nothing."""
    stream = path.open("xb")
    try:
        with stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
    except BaseException:
        path.unlink(missing_ok=True)
        raise


@contextlib.contextmanager
def _about(path: Path) -> Iterator[None]:
    """Let an error name the file that the builder knows, and what may hold it."""
    try:
        yield
    except (BlockingIOError, NotADirectoryError):
        raise
    except OSError as error:
        held_open = isinstance(error, PermissionError) and path.is_file()
        says = f"{error.strerror}; it may be open in a viewer" if held_open else error.strerror
        raise OSError(error.errno, says, str(path)) from error


@contextlib.contextmanager
def _unstopped() -> Iterator[None]:
    """Let a stop from the keyboard, or from whoever ends the program, wait until it is over."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    stopped: list[int] = []
    before = {number: signal.signal(number, lambda number, _: stopped.append(number)) for number in STOPS}
    try:
        yield
    finally:
        for stop, handler in before.items():
            signal.signal(stop, handler)
        for number in stopped:
            signal.raise_signal(number)
