"""Take what a label says and the zone that it is printed in; return it set, saying as much as there is room for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from docgen.basics.frozen import frozen
from docgen.paperwork.typesetting.ink import BLACK, Box, Ink, Shape, Text
from docgen.paperwork.typesetting.typeface import KEPT, extent, overhang_mm, width_mm

STEP = 2**0.5  # from one height of type to the next: the series of ISO 3098
ARROW_MM, _GAP_MM = 1.6, 0.8
_TIGHT, _BETWEEN, _APART = 0.12, 0.2, 0.5  # space between lines over the height of what is small: least, good, most
_APART_RUNS = 0.8  # space between texts of unlike height or weight in a line, over that height
_LARGEST_MM = 7.5
_MANY = 4  # blanks that fall away at the ends of lines, and lines lower than capitals, are less
_ROUNDING = 1e-9


@frozen(slots=True)
class LabelText:
    """What a label says: function; where this end goes and the other; marks, if it bears any.

    `lead` is the letter of the lead at a joint where its circuit has several, so that the two halves are told apart.
    One in the `middle` of a lead says so: `here` is then the end that its arrow faces. What names a single wire is its
    mark: on a label `of_wire` it is kept longest.
    """

    function: str
    here: str
    far: str
    mark: str
    lead: str = ""
    of_wire: bool = False
    middle: bool = False

    @property
    def said_here(self) -> str:
        """Say this end."""
        return f"{MIDDLE}: {self.here}" if self.middle else self.here

    @property
    def said_far(self) -> str:
        """Say the other end."""
        return f"— {self.far}" if self.middle else f"→ {self.far}"

    @property
    def ways(self) -> Iterator[Way]:
        """Walk what can be said, less and less of it.

        First goes the letter of the lead in words, then other marks, the far end, and last of what is small the mark;
        without that a label at a joint says the letter again, which may be shorter.
        """
        here, far, mark = self.said_here, self.said_far, self.mark.split(" ")[0]
        lead = (f"lead {self.lead}",) if self.lead else ()
        small = [(far, self.mark, *lead), (far, self.mark), (far, mark), (self.mark,), (mark,)]
        if not self.of_wire:
            small += [lead, ()]
        yield from (Way(here, said) for said in dict.fromkeys(tuple(filter(None, said)) for said in small))
        yield Way(MIDDLE if self.middle else "", (mark,) if self.of_wire else (), lacks_place=True)


MIDDLE = "middle"


class Way(NamedTuple):
    """What is said beside the function: this end, and what stands in small type; that it lacks where this end goes."""

    here: str
    small: tuple[str, ...]
    lacks_place: bool = False


@frozen(slots=True)
class Zone:
    """What a label is printed on: its least and most length, its height, what of both stays free of ink.

    `shrinks_to` is how much of the height of its type is left in use; `arrow` is whether one stands at the end that
    faces the plug.
    """

    lengths_mm: tuple[float, float]
    height_mm: float
    ends_mm: float
    edges_mm: float
    shrinks_to: float = 1.0
    arrow: bool = True

    @property
    def before_mm(self) -> float:
        """Return where type begins, from the end that faces the plug."""
        return self.ends_mm + (ARROW_MM + _GAP_MM if self.arrow else 0.0)

    @property
    def room(self) -> Box:
        """Return where type may stand on the longest label."""
        width = self.lengths_mm[1] - self.ends_mm - self.before_mm
        return Box(self.before_mm, self.edges_mm, width, self.height_mm - 2 * self.edges_mm)


class SetText(NamedTuple):
    """A text at its place on the label, from the left end and from its upper edge."""

    x_mm: float
    base_mm: float
    text: str
    height_mm: float
    bold: bool


@frozen(slots=True)
class SetLabel:
    """A label as set: its zone and how long it is there, and its texts."""

    zone: Zone
    length_mm: float
    texts: tuple[SetText, ...]

    def ink(self, x_mm: float, y_mm: float) -> Iterator[Ink]:
        """Place it: its texts, and a solid arrowhead at the end that faces the plug, if it has one."""
        zone, left, top = self.zone, x_mm + self.zone.ends_mm, y_mm + self.zone.edges_mm
        cell = Box(left, top, self.length_mm - 2 * zone.ends_mm, zone.room.height_mm)
        if zone.arrow:
            middle, half = top + cell.height_mm / 2, min(cell.height_mm / 2, ARROW_MM)
            corners = ((left, middle), (left + ARROW_MM, middle - half), (left + ARROW_MM, middle + half))
            yield Shape(corners, fill=BLACK, colour=None)
        for text in self.texts:
            yield Text(x_mm + text.x_mm, y_mm + text.base_mm, text.text, text.height_mm, text.bold, cell=cell)


class _Run(NamedTuple):
    """A text of one height and weight in a line; `leads` tells whether it is of the function."""

    text: str
    leads: bool
    bold: bool


_Line = tuple[_Run, ...]


@frozen(slots=True)
class Fitted:
    """What a label says in its zone, with type of which heights: that of what is small, and of the function at most."""

    zone: Zone
    function: str
    way: Way
    small_mm: float
    function_mm: float


def fitted(text: LabelText, zone: Zone, small_mm: float) -> Fitted | None:
    """Return what a label can say with small type of a height; nothing if not even its function fits.

    The letter of a lead in words is said where the function is as large with it.
    """
    ways = (found for way in text.ways if (found := fitted_way(text.function, way, zone, small_mm)))
    first = next(ways, None)
    if first is None or not text.lead or first.way != next(text.ways):
        return first
    other = next(ways)
    return other if other.function_mm > first.function_mm else first


def fitted_way(function: str, way: Way, zone: Zone, small_mm: float) -> Fitted | None:
    """Return one way to say it with small type of a height, or nothing if it does not fit."""
    if _is_hopeless(function, zone, small_mm):
        return None
    found, height = None, small_mm
    arranged = list(_arranged(function, way, zone, small_mm))
    while height <= max(_LARGEST_MM, small_mm) and any(_fits(lines, zone, small_mm, height) for lines in arranged):
        found, height = height, height * STEP
    return Fitted(zone, function, way, small_mm, found) if found is not None else None


def _is_hopeless(function: str, zone: Zone, small_mm: float) -> bool:
    """Tell whether a function is several times as long as all lines that there could be, so that none need be tried."""
    lines = zone.room.height_mm / small_mm + 1
    return _measured(function, True)[0] * small_mm > _MANY * lines * zone.room.width_mm


def set_label(of: Fitted, function_mm: float) -> SetLabel:
    """Set a label, no longer than its text needs, with its function in type of a height that it can have."""
    zone, room, small_mm = of.zone, of.zone.room, of.small_mm
    arranged = _arranged(of.function, of.way, zone, small_mm)
    lines = next(lines for lines in arranged if _fits(lines, zone, small_mm, function_mm))
    reaches = [_reach(line, small_mm, function_mm) for line in lines]
    used = sum(above + below for above, below in reaches)
    between = min((room.height_mm - used) / max(len(lines) - 1, 1), _APART * small_mm)
    edge = room.y_mm + (room.height_mm - used - between * (len(lines) - 1)) / 2
    texts: list[SetText] = []
    for line, (above, below) in zip(lines, reaches, strict=True):
        left = room.x_mm
        for run in line:
            height = function_mm if run.leads else small_mm
            x = left + overhang_mm(run.text, height, run.bold)[0]
            texts.append(SetText(x, edge + above, run.text, height, run.bold))
            left += _measured(run.text, run.bold)[0] * height + _APART_RUNS * small_mm
        edge += above + below + between
    needed = room.x_mm + max(_width(line, small_mm, function_mm) for line in lines) + zone.ends_mm + 0.1
    return SetLabel(zone, min(max(needed, zone.lengths_mm[0]), zone.lengths_mm[1]), tuple(texts))


def _arranged(function: str, way: Way, zone: Zone, small_mm: float) -> Iterator[tuple[_Line, ...]]:
    """Walk ways to part what is said into lines: function and this end first, then what is small in one line.

    Then each of them alone; then whatever fills lines in reading order, both parted at their blanks.
    """
    head, here = (_Run(function, True, True),), (_Run(way.here, False, True),) * bool(way.here)
    small = (_Run(" · ".join(way.small), False, False),) * bool(way.small)
    yield tuple(filter(None, ((*head, *here), small)))
    if here:
        yield tuple(filter(None, (head, here, small)))
        yield (head, here, *((_Run(text, False, False),) for text in way.small))
    every = (
        *(_Run(word, True, True) for word in function.split()),
        *(_Run(word, False, True) for word in way.here.split()),
    )
    yield tuple(_filled((*every, *(_Run(text, False, False) for text in way.small)), zone.room.width_mm, small_mm))


def _filled(runs: Sequence[_Run], room_mm: float, small_mm: float) -> Iterator[_Line]:
    """Walk lines, each filled as far as it goes with type of the least height."""
    line: _Line = ()
    for run in runs:
        longer = (*line, run)
        if line and line[-1][1:] == run[1:]:  # alike, so one text
            between = " " if run.bold else " · "
            longer = (*line[:-1], run._replace(text=f"{line[-1].text}{between}{run.text}"))
        if line and _width(longer, small_mm, small_mm) > room_mm:
            yield line
            longer = (run,)
        line = longer
    yield line


def _fits(lines: Sequence[_Line], zone: Zone, small_mm: float, function_mm: float) -> bool:
    """Tell whether an arrangement has room; lines come nearer to each other only with all type at one height."""
    room = zone.room
    between = _BETWEEN if function_mm > small_mm else _TIGHT
    high = sum(sum(_reach(line, small_mm, function_mm)) for line in lines) + between * small_mm * (len(lines) - 1)
    return high <= room.height_mm + _ROUNDING and all(
        _width(line, small_mm, function_mm) <= room.width_mm + _ROUNDING for line in lines
    )


@lru_cache(KEPT)
def _measured(text: str, bold: bool) -> tuple[float, float, float]:
    """Return how wide a text is, and how far it reaches above and below its line, at a height of 1."""
    reach = extent(text, 1, bold)
    return width_mm(text, 1, bold) + sum(overhang_mm(text, 1, bold)), reach.above_mm, reach.below_mm


@lru_cache(KEPT)
def _width(line: _Line, small_mm: float, function_mm: float) -> float:
    """Return how long a line is."""
    widths = (_measured(run.text, run.bold)[0] * (function_mm if run.leads else small_mm) for run in line)
    return sum(widths) + _APART_RUNS * small_mm * (len(line) - 1)


@lru_cache(KEPT)
def _reach(line: _Line, small_mm: float, function_mm: float) -> tuple[float, float]:
    """Return how far a line reaches above and below its base."""
    reaches = [
        (up * height, down * height)
        for height, (_, up, down) in (
            (function_mm if run.leads else small_mm, _measured(run.text, run.bold)) for run in line
        )
    ]
    return max(above for above, _ in reaches), max(below for _, below in reaches)
