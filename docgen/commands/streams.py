"""Standard output and error that show what they can, and stop no command where they can't."""

from __future__ import annotations

import codecs
import os
import sys
import unicodedata
from typing import Any, TextIO

# What is shown of the program's own characters on a console that lacks them, where Unicode names nothing alike.
_INSTEAD = str.maketrans(
    {"–": "-", "—": "-", "−": "-", "·": "-", "×": "x", "°": "deg ", "Ω": "ohm", "µ": "u"}
    | {"π": "pi", "≤": "<=", "≥": ">=", "→": "->", "√": "root ", "Σ": "sum ", "ß": "ss"}
)
_PLAIN = "docgen-plain"


def _plain(error: UnicodeError) -> tuple[str, int]:
    """Return what stands for letters that an encoding lacks: plain ones, without accents, else their codes."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    said = (_plain_letter(letter) for letter in error.object[error.start : error.end])
    return "".join(said), error.end


def _plain_letter(letter: str) -> str:
    plain = unicodedata.normalize("NFKD", letter.translate(_INSTEAD))
    plain = "".join(c for c in plain if not unicodedata.combining(c)) or plain
    return plain if plain.isascii() else letter.encode("ascii", "backslashreplace").decode()


class _Patient:
    """A stream that goes on when what it writes to is full or gone, and tells that once.

    It has no `buffer`, so that nothing writes past it in another encoding.
    """

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str | bytes) -> int:
        """Write a text, if that goes; what a shell is to complete comes as bytes of one, never none."""
        try:
            return self._stream.write(text.decode() if isinstance(text, bytes) and text else text)  # type: ignore[arg-type]
        except OSError as error:
            self._give_up(error)
            return len(text)

    def flush(self) -> None:
        """Bring what was written on its way, if that goes."""
        try:
            self._stream.flush()
        except OSError as error:
            self._give_up(error)

    def __getattr__(self, name: str) -> Any:
        if name == "buffer":
            raise AttributeError(name)
        return getattr(self._stream, name)

    def _give_up(self, error: OSError) -> None:
        """Let what is still to be written go nowhere; https://docs.python.org/3/library/signal.html#note-on-sigpipe."""
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, self._stream.fileno())
        os.close(nowhere)
        if self._stream is sys.__stdout__ and sys.stderr is not None:
            sys.stderr.write(f"can't show the rest: {error.strerror}.\n")


def patient(stream: TextIO | None) -> Any:
    """Return a standard stream that shows what it can; none where a shell has closed it."""
    if stream is None:
        return None
    codecs.register_error(_PLAIN, _plain)
    stream.reconfigure(errors=_PLAIN)  # type: ignore[attr-defined]
    return _Patient(stream)
