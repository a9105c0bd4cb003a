"""Set the text of one label in the largest type that fits its flat tube."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.paperwork.labels.lines import GAP_MM, SetText, arrange
from docgen.paperwork.stocks.layouts import Clear
from docgen.paperwork.typesetting.ink import BLACK, Box, Ink, Shape, Text
from docgen.paperwork.typesetting.typeface import overhang_mm, width_mm

BAR_MM = 2.0


@dataclass(frozen=True, slots=True)
class LabelText:
    """What a label says: function; where this end goes and the other; mark; revision it last changed in.

    `supply` is said where the lead feeds a receiver or a unit: the packs behind it. `lead` is the letter of the lead
    at a joint where its circuit has several, so that the two halves are told apart. One in the `middle` of a wire says
    so: `here` is then the end that its bar faces. What names a single wire is its mark: on a label `of_wire` it is
    kept longest.
    """

    function: str
    here: str
    far: str
    mark: str
    since: str
    supply: str | None = None
    lead: str = ""
    of_wire: bool = False
    middle: bool = False


@dataclass(frozen=True, slots=True)
class SetLabel:
    """A label as set: size of the flat tube, its texts, and what it must say but has no room for.

    That is nothing, the `supply`, the `revision`, the `lead` too, or even the `place` where this end goes.
    """

    length_mm: float
    flat_mm: float
    clear: Clear
    pieces: tuple[SetText, ...]
    lacks: str
    bar: bool

    @property
    def printable(self) -> Box:
        """Return where ink may stand, from the label's own corner."""
        ends, edges = self.clear.ends, self.clear.edges
        return Box(ends, edges, self.length_mm - 2 * ends, self.flat_mm - 2 * edges)

    def ink(self, x_mm: float, y_mm: float) -> Iterator[Ink]:
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
        text: what it says; to fit, first the mark is left out, then the far end, the supply, the revision,
            which lead it is, at last all but the function; of a single wire first the far end, then which lead it
            is in words, the revision, at last all but function and mark.
        lengths_mm: least and most length; the label is as long as its text needs.
        flat_mm: height of what is printed on, as of flat tube.
        clear: what stays free of ink.
        least_mm: least height of capitals as printed, so that they are legible when shrunk.
        bar: whether it has a bar at the end that faces the plug.

    """
    before = BAR_MM + GAP_MM if bar else 0.0
    room = Box(clear.ends + before, clear.edges, lengths_mm[1] - 2 * clear.ends - before, flat_mm - 2 * clear.edges)
    for small, lacks in _ways(text):
        pieces = arrange(text.function, small, room, least_mm)
        if pieces is not None:
            pieces, length = _trimmed(pieces, lengths_mm, clear)
            return SetLabel(
                length,
                flat_mm,
                clear,
                tuple(pieces),
                lacks=lacks,
                bar=bar,
            )
    return None


def _ways(text: LabelText) -> list[tuple[tuple[str, ...], str]]:
    """Return what is said beside and below the function, less and less of it, and what is then missed."""
    if text.of_wire:
        return _ways_of_wire(text)
    here, far = text.here, f"→ {text.far}"
    with_far, alone = _supply(text)
    rev = f"rev {text.since}"
    lead = f"lead {text.lead}" if text.lead else ""
    lead_rev = f"{lead} · {rev}" if lead else rev
    ways = [
        ((here, far, *with_far, f"{text.mark} · {rev}"), ""),
        ((here, far, *with_far, lead_rev), ""),
        *([((here, far, *with_far, rev), "")] if lead else []),
        ((here, *alone, lead_rev), ""),
        *([((here, lead_rev), "supply")] if alone else []),
        *([((here, lead), "revision")] if lead else []),
        ((here,), "lead" if lead else "revision"),
    ]
    return [*ways, ((), "place")]


def _ways_of_wire(text: LabelText) -> list[tuple[tuple[str, ...], str]]:
    here, far, mark = text.here, text.far, text.mark
    here, far = (f"middle: {here}", f"— {far}") if text.middle else (here, f"→ {far}")
    with_far, alone = _supply(text)
    mark_rev = f"{mark} · rev {text.since}"
    ways = [
        ((here, far, *with_far, mark_rev), ""),
        *([((here, *alone, f"lead {text.lead} · {mark_rev}"), "")] if text.lead else []),
        ((here, *alone, mark_rev), ""),
        *([((here, mark_rev), "supply")] if alone else []),
        ((here, mark), "revision"),
        *([(("middle", mark), "place")] if text.middle else []),
    ]
    return [*ways, ((mark,), "place")]


def _supply(text: LabelText) -> tuple[list[str], list[str]]:
    """Return what is said of the supply beside both ends and beside this one, where neither says it itself.

    What stands after this end is read as the far end: the packs alone may stand there only where they are that.
    """
    if text.supply is None:
        return [], []
    packs = text.supply
    here, far = (packs == end.split()[0] for end in (text.here, text.far))
    if here:
        return [], []
    return ([], [packs]) if far else ([f"from {packs}"],) * 2


def _trimmed(pieces: list[SetText], lengths_mm: tuple[float, float], clear: Clear) -> tuple[list[SetText], float]:
    """Return the pieces on a label no longer than it needs to be."""
    if lengths_mm[0] == lengths_mm[1]:
        return pieces, lengths_mm[1]
    left = [piece for piece in pieces if piece.align == "left"]
    tail = [piece for piece in pieces if piece.align == "right"]
    first = [piece for piece in left if tail and piece.base_mm == tail[0].base_mm]
    needed = max(_end_mm(piece) for piece in left)
    for piece in tail:
        beside = max((_end_mm(p) for p in first), default=0.0)
        needed = max(needed, beside + 2 * GAP_MM + width_mm(piece.text, piece.height_mm))
    length = min(max(needed + clear.ends + 0.1, lengths_mm[0]), lengths_mm[1])
    moved = [
        SetText(length - clear.ends, p.base_mm, p.text, p.height_mm, p.bold, p.align) if p in tail else p
        for p in pieces
    ]
    return moved, length


def _end_mm(piece: SetText) -> float:
    """Return where a text that is set from the left ends."""
    right = overhang_mm(piece.text, piece.height_mm, piece.bold)[1]
    return piece.x_mm + width_mm(piece.text, piece.height_mm, piece.bold) + right
