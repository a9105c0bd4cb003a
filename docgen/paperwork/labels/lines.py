"""Arrange the texts of one label in lines so that its type is as large as it can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import pairwise
from typing import NamedTuple

from docgen.paperwork.typesetting.ink import Box
from docgen.paperwork.typesetting.typeface import KEPT, Extent, extent, overhang_mm, width_mm

GAP_MM = 1.2
# Space between two lines over the height of what is small: where type at its least has no more room, so that lines
# don't seem to touch, and at most.
_TIGHT, _BETWEEN, _APART = 0.12, 0.2, 0.5
_FOLDED = 0.2  # space between the two lines of a folded function over its height
_LEADS = 1.4  # function over what is small, where that is more than it must be: a step of ISO 3098
_LARGEST_MM = 7.0
_TOLD = 0.03  # by less two heights of type look alike
_ROUNDING = 1e-9
_TINY = 1 - _ROUNDING  # against rounding, where what just fits is measured again

Group = tuple[int, ...]
"""What stands in one line, as numbers of the small texts."""
Lines = tuple[Group, tuple[Group, ...]]
"""What stands beside the function, and each line below it."""


@dataclass(frozen=True, slots=True)
class SetText:
    """A text at its place on the label, from the left end and from the upper edge of the flat tube."""

    x_mm: float
    base_mm: float
    text: str
    height_mm: float
    bold: bool
    align: str = "left"


class _Line(NamedTuple):
    """How long texts in one line are, and how far they reach above and below it, at a height of 1."""

    width: float
    above: float
    below: float


class _Heights(NamedTuple):
    """How high what is small, and the function, can be in one arrangement."""

    small_mm: float
    function_mm: float

    def beats(self, other: _Heights) -> bool:
        """Tell whether its type is larger, by what an eye can tell: first what is small, then the function."""
        if abs(self.small_mm - other.small_mm) > _TOLD * other.small_mm:
            return self.small_mm > other.small_mm
        return self.function_mm > (1 + 2 * _TOLD) * other.function_mm


def arrange(function: str, small: Sequence[str], room: Box, least_mm: float) -> list[SetText] | None:
    """Return a function and what is said in small type set in a room, as large as it can be; nothing if under a least.

    The function comes first, folded once at a blank if one line is too short for it; what is small beside it and in
    lines below it, in reading order.
    """
    long, high = room.width_mm / least_mm, room.height_mm / least_mm
    folded = _folded(function, long)
    head = _stacked(folded)
    if head.width > long or head.above + head.below > high:
        return None
    measured = [_measured(text) for text in small]
    most = _most_below(head, measured, long, high)
    if most is None:
        return None
    joined = {group: _joined(small, measured, group) for group in _groups(len(small))}
    too_wide = {group for group, line in joined.items() if line.width > long}
    best: tuple[_Heights, Lines] | None = None
    for lines in _arrangements(len(small)):
        beside, below = lines
        if len(below) > most or not too_wide.isdisjoint(below):
            continue
        heights = _heights(head, joined[beside], [joined[group] for group in below], room, least_mm)
        if heights is not None and (best is None or heights.beats(best[0])):
            best = heights, lines
    return list(_placed(folded, head, small, *best, room)) if best is not None else None


def _folded(function: str, room: float) -> tuple[str, ...]:
    """Return a function in one line, or in the two that are shortest if it is longer than the room at a height of 1."""
    if " " not in function or _measured(function, bold=True).width <= room:
        return (function,)
    blanks = (i for i, character in enumerate(function) if character == " ")
    ways = [(function[:i], function[i + 1 :]) for i in blanks]
    return min(ways, key=lambda lines: max(_measured(line, bold=True).width for line in lines))


def _stacked(folded: Sequence[str]) -> _Line:
    """Return the measures of a function in one or two lines, from the base line of the last."""
    *first, last = (_measured(line, bold=True) for line in folded)
    above = last.above + sum(line.above + line.below + _FOLDED for line in first)
    return _Line(max(line.width for line in (*first, last)), above, last.below)


def _most_below(head: _Line, measured: Sequence[_Line], long: float, high: float) -> int | None:
    """Return how many lines there is room for below the function at a height of 1; nothing if they hold too little.

    That is a bound, quickly told, for most labels have no room for all that could be said.
    """
    low = min((line.above + line.below for line in measured), default=0.0) + _TIGHT
    most = int((high - head.above - head.below) / low + _ROUNDING)
    widths = [line.width for line in measured]
    if sum(widths) > most * long + long - head.width or max(widths, default=0.0) > long:
        return None
    return most


@cache
def _groups(count: int) -> tuple[Group, ...]:
    """Return what can stand in one line."""
    return tuple(dict.fromkeys(group for beside, below in _arrangements(count) for group in (beside, *below)))


@cache
def _arrangements(count: int) -> tuple[Lines, ...]:
    """Return all ways to part texts into those beside the function and lines below, the last beside it in some.

    First come those that keep the first two together, where this end goes and where the other is, in few lines.
    """
    ways = list(_parted(count))
    ways += [((count - 1,), below) for beside, below in _parted(count - 1) if not beside] if count else []
    together = {way for way in ways if any({0, 1} <= {*group} for group in (way[0], *way[1]))}
    return tuple(sorted(dict.fromkeys(ways), key=lambda way: (way not in together, len(way[1]))))


def _parted(count: int) -> Iterator[Lines]:
    """Walk all ways to part texts in reading order: any of them may begin a line."""
    for cut in range(1 << count):  # a bit for each text that begins a line
        edges = [0, *(i for i in range(count) if cut >> i & 1), count]
        beside, *below = (tuple(range(*line)) for line in pairwise(edges))
        yield beside, tuple(below)


@lru_cache(KEPT)
def _measured(text: str, *, bold: bool = False) -> _Line:
    reach = extent(text, 1, bold)
    return _Line(width_mm(text, 1, bold) + sum(overhang_mm(text, 1, bold)), reach.above_mm, reach.below_mm)


def _between(text: str) -> str:
    """Return what stands before a text that follows another in a line; an arrow says enough."""
    return " " if text[:1] in "→—" else " · "


def _joined(small: Sequence[str], measured: Sequence[_Line], group: Group) -> _Line:
    if not group:
        return _Line(0.0, 0.0, 0.0)
    width, above, below = measured[group[0]]
    for i in group[1:]:
        line = measured[i]
        width += line.width + width_mm(_between(small[i]), 1)
        above, below = max(above, line.above), max(below, line.below)
    return _Line(width, above, below)


def _heights(head: _Line, beside: _Line, below: Sequence[_Line], room: Box, least: float) -> _Heights | None:
    """Return the largest heights of one arrangement: of what is small first, as long as the function leads.

    What is small gives way first, then the function, both to the least; at last the space between lines.
    """
    width = room.width_mm - (2 * GAP_MM if beside.width else 0)
    widest = low = 0.0
    for line in below:
        widest, low = max(widest, line.width), low + line.above + line.below
    apart, tight = low + _BETWEEN * len(below), low + _TIGHT * len(below)
    first = max(_LEADS * head.above, beside.above) + max(_LEADS * head.below, beside.below)
    small = min(
        _part(width, _LEADS * head.width + beside.width),
        _part(room.width_mm, widest),
        _part(room.height_mm, first + apart),
        _LARGEST_MM / _LEADS,
    )
    small = max(small, least)
    longest = _part(width - small * beside.width, head.width)
    if small * widest > room.width_mm or longest < least:
        return None
    for used in (apart, tight):
        high = room.height_mm - small * used
        function = min(
            longest,
            _part(high, head.above + head.below),
            _part(high - small * beside.below, head.above),
            _part(high - small * beside.above, head.below),
            _LARGEST_MM,
        )
        if function >= least and small * (beside.above + beside.below) <= high:
            return _Heights(small, function)
    return None


def _part(room: float, unit: float) -> float:
    """Return the height at which what takes `unit` at a height of 1 fits; it may take nothing."""
    return room / unit * _TINY if unit > 0 else _LARGEST_MM


def _placed(
    folded: Sequence[str], unit: _Line, small: Sequence[str], heights: _Heights, lines: Lines, room: Box
) -> Iterator[SetText]:
    """Set an arrangement in the middle of the room; a last text that stands beside the function ends at the right."""
    height, s = heights.function_mm, heights.small_mm
    head = Extent(height * unit.above, height * unit.below)
    texts = [_said(small, group) for group in (lines[0], *lines[1])]
    reaches = [extent(text, s) for text in texts]
    above, below = max(head.above_mm, reaches[0].above_mm), max(head.below_mm, reaches[0].below_mm)
    used = above + below + sum(reach.above_mm + reach.below_mm for reach in reaches[1:])
    between = min((room.height_mm - used) / max(len(reaches) - 1, 1), _APART * s)
    base = room.y_mm + (room.height_mm - used - between * (len(reaches) - 1)) / 2 + above
    for line in folded[:-1]:
        down = height * (unit.above - _measured(line, bold=True).above)
        yield _from(room.x_mm, base - down, line, height, bold=True)
    yield _from(room.x_mm, base, folded[-1], height, bold=True)
    at_right = lines[0][:1] > (0,)
    if texts[0] and not at_right:
        after = room.x_mm + height * unit.width + 2 * GAP_MM
        yield _from(after, base, texts[0], s)
    edge = base + below
    for text, reach in zip(texts[1:], reaches[1:], strict=True):
        yield _from(room.x_mm, edge + between + reach.above_mm, text, s)
        edge += between + reach.above_mm + reach.below_mm
    if at_right:
        yield SetText(room.right_mm - overhang_mm(texts[0], s)[1], base, texts[0], s, bold=False, align="right")


def _from(left_mm: float, base_mm: float, text: str, height_mm: float, *, bold: bool = False) -> SetText:
    """Set a text so that its ink begins no further left than told."""
    return SetText(left_mm + overhang_mm(text, height_mm, bold)[0], base_mm, text, height_mm, bold)


def _said(small: Sequence[str], group: Group) -> str:
    return "".join((_between(small[i]) if i != group[0] else "") + small[i] for i in group)
