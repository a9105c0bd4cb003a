"""Read a text file that a builder wrote, and say plainly what it is where it is none."""

from __future__ import annotations

import codecs
import os
import re
from pathlib import Path

from docgen.basics.findings import Finding, Position, shown

MOST_BYTES = 1_000_000
_TOO_BIG = (
    "Take out what no page shows: long notes, and parts and spools that nothing is made of; what is on both sides can "
    "be one entry, `<side>`."
)
# What YAML 1.1 allows in a stream (section 5.1), less the byte order mark, and less what ends a line there unseen.
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
BREAKS = re.compile("\r\n|\r|\n")
_LINE_ENDS = {"\x85": "next line", "\u2028": "line separator", "\u2029": "paragraph separator"}
# YAML 1.2.2, section 5.2, tells encodings apart by the first bytes: a mark, or the noughts beside a first ASCII letter.
_OTHER_ENCODINGS = (
    (re.compile(rb"\0\0\xfe\xff|\xff\xfe\0\0|\0\0\0.|.\0\0\0", re.DOTALL), "UTF-32"),
    (re.compile(rb"\xfe\xff|\xff\xfe|\0.|.\0", re.DOTALL), "UTF-16"),
)


def place_after(text: str, name: str) -> Position:
    """Return where a text of a file ends."""
    lines = BREAKS.split(text)
    return Position(name, len(lines), len(lines[-1]) + 1)


def read_text(path: Path, name: str, most_bytes: int = MOST_BYTES) -> str | Finding:
    """Return the text of a file in UTF-8, or what is wrong with it; `name` is how the builder is shown it."""
    read = _read_bytes(path, name, most_bytes)
    if isinstance(read, Finding):
        return read
    raw = read.removeprefix(codecs.BOM_UTF8)
    for begins, encoding in _OTHER_ENCODINGS:
        if begins.match(raw):
            do = "Save it as UTF-8; editors offer that where they save."
            return Finding(place_after("", name), "file", f"the file is {encoding} text, not UTF-8.", do)
    try:
        text = raw.decode()
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode(errors="replace")
        return Finding(place_after(before, name), "file", "the file is not UTF-8 text.", "Save it as UTF-8.")
    bad = _UNPRINTABLE.search(text)
    if bad is None:
        return text
    what = _LINE_ENDS.get(bad.group())
    says = f", {what}, ends a line unseen" if what else " can't stand in a text file"
    sentence = f"the character {shown(bad.group())}{says}."
    return Finding(place_after(text[: bad.start()], name), "syntax", sentence, "Delete it.")


def _read_bytes(path: Path, name: str, most_bytes: int) -> bytes | Finding:
    def unreadable(sentence: str, do: str) -> Finding:
        return Finding(Position(name, 1, 1), "file", sentence, do)

    if os.path.exists(path) and not os.path.isfile(path):  # noqa: PTH110, PTH113 - no error for an odd path
        return unreadable("can't read it: it is not a file.", "Put a text file in its place.")
    try:
        with path.open("rb") as stream:
            raw = stream.read(most_bytes + 1)
    except OSError as error:
        reason = error.strerror or "it can't be read"
        return unreadable(f"can't read it: {reason}.", "See that it is there and is a file.")
    return unreadable("the file is over 1 MB.", _TOO_BIG) if len(raw) > most_bytes else raw
