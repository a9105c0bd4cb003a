"""Set the text of one label in the largest type that fits its flat tube."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.findings import Said
from docgen.paperwork.layouts import Clear
from docgen.paperwork.marks import BLACK, Box, Mark, Shape, Text
from docgen.paperwork.typeface import extent, width_mm

BAR_MM = 2.0
_GAP_MM = 1.2
_BETWEEN = 0.12  # space between two lines over the lower one's height
_LARGEST_MM = 7.0
_STEP_MM = 0.05


@dataclass(frozen=True)
class LabelText:
    """What a label says: function; where this end goes and the other; mark; revision it last changed in.

    `supply` is said where the lead feeds a receiver or a unit: the packs behind it. `lead` is the letter of the lead
    where its circuit has several, so that the two halves of a joint are told apart. One in the `middle` of a wire says
    so: `here` is then the end that its bar faces.
    """

    function: Said
    here: Said
    far: Said
    mark: Said
    since: str
    supply: Said | None = None
    lead: str = ""
    middle: bool = False


@dataclass(frozen=True)
class _Piece:
    """A text at its place on the label, from the left end and from the upper edge of the flat tube."""

    x_mm: float
    base_mm: float
    text: str
    height_mm: float
    bold: bool
    align: str = "left"


@dataclass(frozen=True)
class SetLabel:
    """A label as set: size of the flat tube, its texts, and the tube it is for."""

    length_mm: float
    flat_mm: float
    clear: Clear
    pieces: tuple[_Piece, ...]
    function_only: bool
    lacks_supply: bool
    bar: bool

    @property
    def printable(self) -> Box:
        """Return where ink may stand, from the label's own corner."""
        ends, edges = self.clear.ends, self.clear.edges
        return Box(ends, edges, self.length_mm - 2 * ends, self.flat_mm - 2 * edges)

    def marks(self, x_mm: float, y_mm: float) -> Iterator[Mark]:
        """Place it: its texts, and a solid bar with an arrow at the end that faces the plug, if it has one."""
        zone = self.printable
        left, top = x_mm + zone.x_mm, y_mm + zone.y_mm
        if self.bar:
            middle, bottom = top + zone.height_mm / 2, top + zone.height_mm
            tip = min(BAR_MM, zone.height_mm / 2)
            edge = left + BAR_MM
            arrow = ((left, middle), (left + tip, top), (edge, top), (edge, bottom), (left + tip, bottom))
            yield Shape(arrow, fill=BLACK, colour=None)
        cell = Box(left, top, zone.width_mm, zone.height_mm)
        for piece in self.pieces:
            yield Text(
                x_mm + piece.x_mm,
                y_mm + piece.base_mm,
                piece.text,
                piece.height_mm,
                piece.bold,
                piece.align,
                cell=cell,
            )


def set_label(
    text: LabelText, lengths_mm: tuple[float, float], flat_mm: float, clear: Clear, least_mm: float, *, bar: bool
) -> SetLabel | None:
    """Set a label, or return nothing if its text does not fit.

    Args:
        text: what it says; to fit, first the mark is left out, then the far end, at last all but the function.
        lengths_mm: least and most length; the label is as long as its text needs.
        flat_mm: height of what is printed on, as of flat tube.
        clear: what stays free of ink.
        least_mm: least height of capitals as printed, so that they are legible when shrunk.
        bar: whether it has a bar at the end that faces the plug.

    """
    before = BAR_MM + _GAP_MM if bar else 0.0
    room = Box(clear.ends + before, clear.edges, lengths_mm[1] - 2 * clear.ends - before, flat_mm - 2 * clear.edges)
    ways = _ways(text)
    for lines, tail in ways:
        pieces = _set(text.function.text, lines, tail, room, least_mm)
        if pieces is not None:
            pieces, length = _trimmed(pieces, lengths_mm, clear)
            return SetLabel(
                length,
                flat_mm,
                clear,
                tuple(pieces),
                function_only=not lines,
                lacks_supply=_lacks_supply(text, lines, tail),
                bar=bar,
            )
    return None


def _lacks_supply(text: LabelText, lines: tuple[str, ...], tail: str) -> bool:
    return text.supply is not None and not any(text.supply.text in said for said in (*lines, tail))


def _set(function: str, lines: tuple[str, ...], tail: str, room: Box, least: float) -> list[_Piece] | None:
    """Set a label on as many lines as give the largest type, and of these the largest function."""
    found = [_one_line(function, " ".join(lines), tail, room, least)]
    if lines:
        ways = dict.fromkeys(((" ".join(lines),), lines))
        found += [_several_lines(function, some, tail, room, least) for some in ways]
    fitting = [some for some in found if some is not None]
    return max(fitting, key=lambda some: (min(p.height_mm for p in some), some[0].height_mm), default=None)


def _ways(text: LabelText) -> list[tuple[tuple[str, ...], str]]:
    """Return what is said below the function and beside it, less and less of it; the supply is left out last."""
    supply = text.supply.text if text.supply is not None else ""
    here, far = text.here.text, text.far.text
    said_here, said_far = (f"middle: {here}", f"— {far}") if text.middle else (here, f"→ {far}")
    rev = f"{text.lead} rev {text.since}".strip()
    with_far = f"{supply} · " if supply and supply not in (here, far) else ""
    alone = f"{supply} · " if supply and supply != here else ""
    both = (said_here, said_far)
    ways: list[tuple[tuple[str, ...], str]] = [
        (both, f"{with_far}{text.mark.text} · rev {text.since}"),
        (both, with_far + rev),
        ((said_here,), alone + rev),
    ]
    if alone:
        ways += [((said_here, supply), rev), ((said_here,), rev)]
    return [*ways, ((), "middle" if text.middle else "")]


def _trimmed(pieces: list[_Piece], lengths_mm: tuple[float, float], clear: Clear) -> tuple[list[_Piece], float]:
    """Return the pieces on a label no longer than it needs to be."""
    if lengths_mm[0] == lengths_mm[1]:
        return pieces, lengths_mm[1]
    left = [piece for piece in pieces if piece.align == "left"]
    tail = [piece for piece in pieces if piece.align == "right"]
    first = [piece for piece in left if tail and piece.base_mm == tail[0].base_mm]
    needed = max(piece.x_mm + width_mm(piece.text, piece.height_mm, piece.bold) for piece in left)
    for piece in tail:
        beside = max(p.x_mm + width_mm(p.text, p.height_mm, p.bold) for p in first) if first else 0
        needed = max(needed, beside + 2 * _GAP_MM + width_mm(piece.text, piece.height_mm))
    length = min(max(needed + clear.ends + 0.1, lengths_mm[0]), lengths_mm[1])
    moved = [
        _Piece(length - clear.ends, p.base_mm, p.text, p.height_mm, p.bold, p.align) if p in tail else p for p in pieces
    ]
    return moved, length


def _one_line(function: str, detail: str, tail: str, room: Box, least: float) -> list[_Piece] | None:
    """Set all on one line: the function as large as it can be, the rest at the least height."""
    rest = " · ".join(said for said in (detail, tail) if said)
    for_function = room.width_mm - width_mm(rest, least) - 2 * _GAP_MM
    reach = extent(rest, least)
    unit = extent(function, 1, True)
    height = min(
        _highest(function, True, for_function, room.height_mm),
        _height_in(room.height_mm - reach.below_mm, unit.above_mm),
        _height_in(room.height_mm - reach.above_mm, unit.below_mm),
    )
    if height < least or reach.above_mm + reach.below_mm > room.height_mm:
        return None
    above, below = max(height * unit.above_mm, reach.above_mm), max(height * unit.below_mm, reach.below_mm)
    base = room.y_mm + (room.height_mm - above - below) / 2 + above
    after = room.x_mm + width_mm(function, height, True) + 2 * _GAP_MM
    pieces = [_Piece(room.x_mm, base, function, height, True), _Piece(after, base, rest, least, False)]
    return pieces if rest else pieces[:1]


def _several_lines(function: str, details: tuple[str, ...], tail: str, room: Box, least: float) -> list[_Piece] | None:
    """Set the function above with the tail at its right, the details below; all grow while the function leads."""
    best = None
    small = least
    while True:
        pieces = _lines_at(function, details, tail, room, small, least)
        if pieces is None or (best is not None and pieces[0].height_mm < 1.4 * small):
            return best
        best = pieces
        small += _STEP_MM


def _lines_at(
    function: str, details: tuple[str, ...], tail: str, room: Box, small: float, least: float
) -> list[_Piece] | None:
    lows, gap = [extent(detail, small) for detail in details], _BETWEEN * small
    above_mm = room.height_mm - sum(low.above_mm + low.below_mm + gap for low in lows)
    for_function = room.width_mm - width_mm(tail, small) - 2 * _GAP_MM
    side = extent(tail, small)
    unit = extent(function, 1, True)
    height = min(_highest(function, True, for_function, above_mm), _height_in(above_mm - side.below_mm, unit.above_mm))
    if height < max(small, least) or any(width_mm(detail, small) > room.width_mm for detail in details):
        return None
    high = extent(function, height, True)
    above, below = max(high.above_mm, side.above_mm), max(high.below_mm, side.below_mm)
    if above + below > above_mm + 1e-9:
        return None
    base = room.y_mm + (above_mm - above - below) / 2 + above
    pieces = [_Piece(room.x_mm, base, function, height, True)]
    low_edge = base + below
    for detail, low in zip(details, lows, strict=True):
        pieces.append(_Piece(room.x_mm, low_edge + gap + low.above_mm, detail, small, False))
        low_edge += gap + low.above_mm + low.below_mm
    return [*pieces, _Piece(room.right_mm, base, tail, small, False, "right")]


def _highest(text: str, bold: bool, width: float, height: float) -> float:
    """Return the largest capital height at which a text fits a width and a height."""
    unit = extent(text, 1, bold)
    return min(_height_in(width, width_mm(text, 1, bold)), _height_in(height, unit.above_mm + unit.below_mm))


def _height_in(room: float, unit: float) -> float:
    """Return the largest capital height at which what takes `unit` at a height of 1 fits; it may take nothing."""
    return min(room / unit - 1e-9, _LARGEST_MM) if unit > 0 else _LARGEST_MM
