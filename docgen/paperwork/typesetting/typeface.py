"""The typeface: how wide, how high and how deep a text is when it is drawn.

Source Sans (SIL Open Font License), embedded in every document. Heights are of capitals, as in ISO 3098.
"""

from __future__ import annotations

import struct
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from importlib.util import find_spec
from itertools import pairwise, repeat
from pathlib import Path
from typing import Any, NamedTuple

from reportlab.pdfbase.ttfonts import TTFont

from docgen.basics.findings import Finding, Position, shown

FOOT_MM, SMALL_MM, PLAIN_MM, LARGE_MM, TITLE_MM, HUGE_MM = 1.5, 1.8, 2.5, 3.5, 5.0, 7.0  # capital heights
_LINE = 1.55  # line pitch over capital height
_FILES = {False: "SourceSansPro-Regular.ttf", True: "SourceSansPro-Semibold.ttf"}
_NO_GLYPH = 600  # thousandths of the size: how wide the box is that stands for what the face lacks
KEPT = 4096  # texts whose measures are kept: more than stand on a page, so that memory does not grow with pages
_KEEPS = "\u00a0"  # the blank at which no line ends
NAMES = {False: "Regular", True: "Semibold"}


class Extent(NamedTuple):
    """How far ink reaches above and below the base line [mm]."""

    above_mm: float
    below_mm: float


@cache
def _path(bold: bool) -> Path:
    package = find_spec("font_source_sans_pro")
    assert package is not None
    assert package.origin is not None
    return Path(package.origin).parent / "files" / _FILES[bold]


@cache
def font(bold: bool) -> Any:
    """Return one weight of the face, ready to be embedded."""
    return TTFont(NAMES[bold], str(_path(bold)))


@cache
def _face(bold: bool) -> tuple[float, dict[int, int], dict[int, int]]:
    """Return capital height, widths and glyphs, in thousandths of the size."""
    face = font(bold).face
    return face.capHeight, face.charWidths, face.charToGlyph


@cache
def _bounds(bold: bool) -> list[tuple[float, float, float, float]]:
    """Return the ink of every glyph, left, low, right, high, from the face's outlines (OpenType `glyf`)."""
    data = _path(bold).read_bytes()
    count = struct.unpack_from(">H", data, 4)[0]
    tables = {}
    for i in range(count):
        tag, _, offset, _ = struct.unpack_from(">4sIII", data, 12 + 16 * i)
        tables[tag] = offset
    units = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    long = struct.unpack_from(">h", data, tables[b"head"] + 50)[0]
    glyphs = struct.unpack_from(">H", data, tables[b"maxp"] + 4)[0]
    form, factor = (">%dI", 1) if long else (">%dH", 2)
    places = struct.unpack_from(form % (glyphs + 1), data, tables[b"loca"])
    bounds = []
    for start, end in pairwise(places):
        sides = struct.unpack_from(">2x4h", data, tables[b"glyf"] + start * factor) if start != end else (0, 0, 0, 0)
        left, low, right, high = (side * 1000 / units for side in sides)
        bounds.append((left, low, right, high))
    return bounds


@cache
def _ink(bold: bool) -> dict[str, tuple[float, float, float, float]]:
    """Return the ink of every character, left, low, right, high, in thousandths of the size."""
    _, _, glyphs = _face(bold)
    bounds = _bounds(bold)
    return {chr(code): bounds[glyph] for code, glyph in glyphs.items()}


def line_pitch_mm(height_mm: float) -> float:
    """Return the distance of base lines for running text."""
    return height_mm * _LINE


def size_mm(height_mm: float, bold: bool) -> float:
    """Return the size of the face [mm] whose capitals are that high."""
    return height_mm * 1000 / _face(bold)[0]


@cache
def _widths(bold: bool) -> dict[str, int]:
    """Return the widths of characters, in whole thousandths of the size."""
    return {chr(code): width for code, width in _face(bold)[1].items()}


@lru_cache(KEPT)
def _units(text: str, bold: bool) -> int:
    """Return the width of a text in thousandths of the size; those of its parts add up to it."""
    return sum(map(_widths(bold).get, text, repeat(_NO_GLYPH)))


def width_mm(text: str, height_mm: float, bold: bool = False) -> float:
    """Return the width of a text [mm] with capitals of that height."""
    return _units(text, bold) / _face(bold)[0] * height_mm


def _fitting(text: str, room_mm: float, height_mm: float, bold: bool) -> int:
    """Return how many characters of a text, from its start, are no wider than the room."""
    capital, widths, units = _face(bold)[0], _widths(bold), 0
    for count, character in enumerate(text):
        units += widths.get(character, _NO_GLYPH)
        if units / capital * height_mm > room_mm:
            return count
    return len(text)


@lru_cache(KEPT)
def _unit_extent(text: str, bold: bool) -> Extent:
    capital, ink = _face(bold)[0], _ink(bold)
    _, lows, _, highs = zip(*[ink[character] for character in text if character in ink] or [(0, 0, 0, 0)], strict=True)
    return Extent(max(*highs, 0) / capital, max(-min(lows), 0) / capital)


def extent(text: str, height_mm: float, bold: bool = False) -> Extent:
    """Return how far the ink of a text reaches above and below its base line [mm]."""
    unit = _unit_extent(text, bold)
    return Extent(unit.above_mm * height_mm, unit.below_mm * height_mm)


def overhang_mm(text: str, height_mm: float, bold: bool = False) -> tuple[float, float]:
    """Return how far the ink of a text reaches out of its width at the left and at the right [mm]."""
    capital, widths, _ = _face(bold)
    ink = _ink(bold)
    left, right = max(-ink[text[0]][0], 0.0), max(ink[text[-1]][2] - widths[ord(text[-1])], 0.0)
    return left / capital * height_mm, right / capital * height_mm


def missing_characters(texts: Iterable[str]) -> str:
    """Return the characters that either weight lacks, in order; it has no way to put an accent on a letter."""
    every = set().union(*texts)
    return "".join(sorted(c for c in every if ord(c) not in _known() or not c.isprintable()))


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


@cache
def _known() -> frozenset[int]:
    """Return the characters of both weights that take room of their own, as accents to be put on letters do not."""
    (_, widths, glyphs), (_, bold_widths, bold_glyphs) = _face(False), _face(True)
    return frozenset(c for c in glyphs.keys() & bold_glyphs.keys() if widths[c] > 0 and bold_widths[c] > 0)


def shortened(text: str, room_mm: float, height_mm: float, bold: bool = False) -> str:
    """Return the text, or as much of it from the start as fits with an ellipsis."""
    if width_mm(text, height_mm, bold) <= room_mm:
        return text
    cut = _fitting(text, room_mm, height_mm, bold)
    while cut > 0 and width_mm(text[:cut].rstrip() + "…", height_mm, bold) > room_mm:
        cut -= 1
    return text[:cut].rstrip() + "…"


def wrapped(text: str, room_mm: float, height_mm: float, bold: bool = False) -> list[str]:
    """Break a text into lines no wider than the room; a wider word is broken, behind a hyphen where it has one.

    What is `unbroken` stays in one line that has room for it.
    """
    lines: list[list[str]] = []
    capital, units = _face(bold)[0], 0  # of the last line, with a space after it
    for word in text.split() if _KEEPS not in text else _words(text, room_mm, height_mm, bold):
        wide = _units(word, bold)
        if lines and (units + wide) / capital * height_mm <= room_mm:
            lines[-1].append(word)
        else:
            fits = wide / capital * height_mm <= room_mm
            pieces = [word] if fits else list(_broken(word, room_mm, height_mm, bold))
            lines += [[piece] for piece in pieces]
            units, wide = 0, _units(pieces[-1], bold)
        units += wide + _units(" ", bold)
    return [" ".join(line) for line in lines]


def unbroken(text: str) -> str:
    """Return a text that `wrapped` sets in one line, such as a figure with its unit."""
    return text.replace(" ", _KEEPS)


def _words(text: str, room_mm: float, height_mm: float, bold: bool) -> Iterator[str]:
    """Walk words, and texts of several that stay together where the room is wide enough."""
    for kept in text.split(" "):
        word = kept.replace(_KEEPS, " ")
        yield from [word] if width_mm(word, height_mm, bold) <= room_mm else word.split()


def _broken(word: str, room_mm: float, height_mm: float, bold: bool) -> Iterator[str]:
    start = 0
    while start < len(word):
        count = max(_fitting(word[start:], room_mm, height_mm, bold), 1)
        hyphen = word.rfind("-", start + 1, start + count)
        count = hyphen + 1 - start if hyphen > start and start + count < len(word) else count
        yield word[start : start + count]
        start += count
