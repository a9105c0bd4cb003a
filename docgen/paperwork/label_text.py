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
    """What a label says: function; where this end goes and the other; mark; revision it last changed in."""

    function: Said
    here: Said
    far: Said
    mark: Said
    since: str


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
    tube: str
    function_only: bool

    @property
    def printable(self) -> Box:
        """Return where ink may stand, from the label's own corner."""
        ends, edges = self.clear.ends, self.clear.edges
        return Box(ends, edges, self.length_mm - 2 * ends, self.flat_mm - 2 * edges)

    def marks(self, x_mm: float, y_mm: float) -> Iterator[Mark]:
        """Place it: a solid bar with an arrow at the end that faces the plug, and its texts."""
        zone = self.printable
        left, top = x_mm + zone.x_mm, y_mm + zone.y_mm
        middle, bottom = top + zone.height_mm / 2, top + zone.height_mm
        tip = min(BAR_MM, zone.height_mm / 2)
        yield Shape(
            (
                (left, middle),
                (left + tip, top),
                (left + BAR_MM, top),
                (left + BAR_MM, bottom),
                (left + tip, bottom),
            ),
            fill=BLACK,
            colour=None,
        )
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
    text: LabelText, lengths_mm: tuple[float, float], flat_mm: float, clear: Clear, least_mm: float, tube: str
) -> SetLabel | None:
    """Set a label, or return nothing if its text does not fit.

    Args:
        text: what it says; to fit, first the mark is left out, then the far end, at last all but the function.
        lengths_mm: least and most length; the label is as long as its text needs.
        flat_mm: width of the flat tube.
        clear: what stays free of ink.
        least_mm: least height of capitals as printed, so that they are legible when shrunk.
        tube: name of the tube, said beside the label.

    """
    far = f"→ {text.far.text}"
    rev = f"rev {text.since}"
    ways = (
        (f"{text.here.text} {far}", f"{text.mark.text} · {rev}"),
        (f"{text.here.text} {far}", rev),
        (text.here.text, rev),
        ("", ""),
    )
    room = Box(
        clear.ends + BAR_MM + _GAP_MM,
        clear.edges,
        lengths_mm[1] - 2 * clear.ends - BAR_MM - _GAP_MM,
        flat_mm - 2 * clear.edges,
    )
    for detail, tail in ways:
        for fit in (_one_line, _two_lines) if detail else (_one_line,):
            pieces = fit(text.function.text, detail, tail, room, least_mm)
            if pieces is not None:
                pieces, length = _trimmed(pieces, lengths_mm, clear)
                return SetLabel(length, flat_mm, clear, tuple(pieces), tube, function_only=not detail)
    return None


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
    rest = f"{detail} · {tail}" if detail else ""
    for_function = room.width_mm - width_mm(rest, least) - 2 * _GAP_MM
    height = min(_highest(function, True, for_function, room.height_mm), _LARGEST_MM)
    reach = extent(rest, least)
    if height < least or reach.above_mm + reach.below_mm > room.height_mm:
        return None
    above = max(extent(function, height, True).above_mm, reach.above_mm)
    below = max(extent(function, height, True).below_mm, reach.below_mm)
    if above + below > room.height_mm:
        height = least
        above = max(extent(function, height, True).above_mm, reach.above_mm)
        below = max(extent(function, height, True).below_mm, reach.below_mm)
        if above + below > room.height_mm:
            return None
    base = room.y_mm + (room.height_mm - above - below) / 2 + above
    after = room.x_mm + width_mm(function, height, True) + 2 * _GAP_MM
    pieces = [_Piece(room.x_mm, base, function, height, True), _Piece(after, base, rest, least, False)]
    return pieces if rest else pieces[:1]


def _two_lines(function: str, detail: str, tail: str, room: Box, least: float) -> list[_Piece] | None:
    """Set the function above with the tail at its right, the detail below; both grow while the function leads."""
    best = None
    small = least
    while True:
        pieces = _two_lines_at(function, detail, tail, room, small, least)
        if pieces is None or (best is not None and pieces[0].height_mm < 1.4 * small):
            return best
        best = pieces
        small += _STEP_MM


def _two_lines_at(function: str, detail: str, tail: str, room: Box, small: float, least: float) -> list[_Piece] | None:
    low = extent(detail, small)
    gap = _BETWEEN * small
    above_mm = room.height_mm - low.above_mm - low.below_mm - gap
    for_function = room.width_mm - width_mm(tail, small) - 2 * _GAP_MM
    side = extent(tail, small)
    height = min(_highest(function, True, for_function, above_mm), _LARGEST_MM)
    height = min(height, (above_mm - side.below_mm) / extent(function, 1, True).above_mm - 1e-9)
    if height < max(small, least) or width_mm(detail, small) > room.width_mm:
        return None
    high = extent(function, height, True)
    above, below = max(high.above_mm, side.above_mm), max(high.below_mm, side.below_mm)
    if above + below > above_mm + 1e-9:
        return None
    spare = above_mm - above - below
    first = room.y_mm + spare / 2 + above
    second = first + below + gap + low.above_mm
    return [
        _Piece(room.x_mm, first, function, height, True),
        _Piece(room.x_mm, second, detail, small, False),
        _Piece(room.right_mm, first, tail, small, False, "right"),
    ]


def _highest(text: str, bold: bool, width: float, height: float) -> float:
    """Return the largest capital height at which a text fits a width and a height."""
    unit = extent(text, 1, bold)
    return min(width / width_mm(text, 1, bold), height / (unit.above_mm + unit.below_mm)) - 1e-9
