"""Fit a label to a stock: the piece it is printed on, where type may stand on it, and how it shrinks."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from docgen.basics.findings import Finding, Kind, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.harness.bundling.tubes import GRIPS, TO_SPARE, choose_tube, fits, flat_width_mm, shrink_of_type
from docgen.harness.checks import heat
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.kinds import TUBE, TYPE
from docgen.paperwork.labels.text import SetLabel, set_label
from docgen.paperwork.labels.wire_labels import LabelContent, LabelItem
from docgen.paperwork.stocks.files import STOCK
from docgen.paperwork.stocks.layouts import (
    Clear,
    LabelFlags,
    LabelSheet,
    LabelStock,
    LabelStrips,
    LabelTape,
    LabelWraps,
    StockTube,
)
from docgen.paperwork.typesetting.ink import BLACK, FAINT, THIN_MM, Box, Ink, Line, Shape, moved, rectangle

_tube = lru_cache(64)(choose_tube)  # few thicknesses on many labels
_PAPER_MM = 0.2  # by how much a strip of paper between wires and tube makes them thicker; common practice
_ARROW_MM = 4.0
_TICK_MM = 1.2


@dataclass(frozen=True, slots=True)
class Zone:
    """Where type may stand: its least and most length, height, what stays clear, and how much of its height is left."""

    lengths_mm: tuple[float, float]
    height_mm: float
    clear: Clear
    shrinks_to: float
    bar: bool = True


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a label goes on a stock: its zone, what is said beside it, and whether its tube stands too little."""

    zone: Zone
    says: str = ""
    too_hot: Finding | None = None


@dataclass(frozen=True, slots=True)
class Piece:
    """One label ready to print: its text set once, and each place on the piece where that goes.

    `length_mm` and `height_mm` are those of the piece; `says` is said beside it; `guides` help to cut or fold.
    """

    item: LabelItem
    label: SetLabel
    length_mm: float
    height_mm: float
    places_mm: tuple[tuple[float, float], ...]
    says: str
    guides: tuple[Ink, ...]

    def ink(self, x_mm: float, y_mm: float) -> list[Ink]:
        """Return its ink with its top left corner at a place."""
        texts = [ink for x, y in self.places_mm for ink in self.label.ink(x_mm + x, y_mm + y)]
        return [*(moved(ink, x_mm, y_mm) for ink in self.guides), *texts]


def fit(item: LabelItem, items: LabelContent, stock: LabelStock) -> tuple[Piece | None, list[Finding]]:
    """Return a label on its piece of a stock, or what keeps it from being printed there."""
    found = _place(item, items, stock)
    if isinstance(found, Finding):
        return None, [found]
    zone, findings = found.zone, [found.too_hot] if found.too_hot is not None else []
    least = items.least_type_mm / zone.shrinks_to
    label = set_label(item.text, zone.lengths_mm, zone.height_mm, zone.clear, least, bar=zone.bar)
    if label is None:
        return None, [_illegible(item, items, zone)]
    return _piece(item, label, stock, found.says), [*findings, *_lacks(item, label)]


def _illegible(item: LabelItem, items: LabelContent, zone: Zone) -> Finding:
    sentence = f"{_what(item)} can't be set in type that is {decimal(items.least_type_mm)} mm high"
    sentence += " when shrunk." if zone.shrinks_to < 1 else "."
    what = "Print it on another stock"
    if zone.height_mm - 2 * zone.clear.edges >= 1.5 * items.least_type_mm / zone.shrinks_to:
        what = "Give the circuit a shorter `label:`"
    do = f"{what}, or allow smaller type with `labels: {{least_type: …}}`."
    return _finding(item, TYPE, sentence, do)


def _lacks(item: LabelItem, label: SetLabel) -> Iterator[Finding]:
    """Find what a label must say and has no room for."""
    shorter = "Use shorter names, or allow smaller type with `labels: {least_type: …}`."
    if label.lacks == "place":
        only = "function and mark" if item.text.of_wire else "function"
        sentence = f"{_what(item)} has room for its {only} only, not for {shown(item.text.here)}."
        yield _finding(item, TYPE, sentence, shorter)
    elif label.lacks == "lead":
        sentence = f"{_what(item)} has room for its function and place only, not for which lead it is."
        yield _finding(item, TYPE, sentence, shorter)
    elif label.lacks == "revision":
        yield _finding(item, TYPE, f"{_what(item)} has no room to say its revision.", shorter)
    elif label.lacks == "supply" and item.text.supply is not None:
        sentence = f"{_what(item)} has no room to say its supply, {shown(item.text.supply)}."
        yield _finding(item, TYPE, sentence, "Use shorter names, or print it on another stock.")


def _what(item: LabelItem) -> str:
    lead = f" (lead {item.text.lead})" if item.text.lead else ""
    return f"the label {shown(item.text.function)} at {item.text.here}{lead}"


def _finding(item: LabelItem, kind: Kind, sentence: str, do: str) -> Finding:
    return kind.at(item.position, sentence, do, ("circuits", item.key[0]))


def _place(item: LabelItem, items: LabelContent, stock: LabelStock) -> _Place | Finding:
    """Return where a label goes on a stock, or why it does not go there."""
    if isinstance(stock, LabelTape):
        return _on_tube(item, stock.tube, (stock.length[0], stock.length[1]), stock.flat_mm, stock.clear)
    if isinstance(stock, LabelSheet):
        return _on_sheet(item, items, stock)
    if isinstance(stock, LabelStrips):
        return _under_clear(item, items, stock)
    return _round_wires(item, stock)


def _round_wires(item: LabelItem, stock: LabelWraps | LabelFlags) -> _Place | Finding:
    """Return the zone of a label that is wrapped: what goes round must reach round, and type stands on one side."""
    around, length = math.pi * item.grips_mm, (stock.label.length, stock.label.length)
    if isinstance(stock, LabelWraps):
        if around > stock.label.cover:
            return _too_thick(item, around, stock.label.cover, "the clear film")
        return _Place(Zone(length, min(stock.label.printed, around / 2), stock.clear, 1.0))
    if around > stock.label.wrap:
        return _too_thick(item, around, stock.label.wrap, "the part between the halves")
    return _Place(Zone(length, stock.label.width, stock.clear, 1.0, bar=False))


def _too_thick(item: LabelItem, around_mm: float, room_mm: float, what: str) -> Finding:
    sentence = f"{_what(item)}: it is {around_mm:.1f} mm round its wires, {what} of the stock is {decimal(room_mm)} mm."
    return _finding(item, STOCK, sentence, "Print it on a stock with more to wrap.")


def _on_tube(
    item: LabelItem, tube: StockTube, lengths: tuple[float, float], flat_mm: float, clear: Clear
) -> _Place | Finding:
    if not fits(tube.expanded, tube.recovered, item.passes_mm, item.grips_mm):
        return _unfit(item, tube)
    shrinks_to = shrink_of_type(tube.expanded, item.grips_mm)
    do = "Print it on another stock, or lead it by another route."
    too_hot = _too_hot(item, "the stock's tube", tube.limit, ".", do)
    return _Place(
        Zone(lengths, flat_mm, clear, shrinks_to), f"{tube.expanded:.1f} mm · {decimal(lengths[1])} mm", too_hot
    )


def _unfit(item: LabelItem, tube: StockTube) -> Finding:
    """Say whether a stock's tube is too narrow for what it slides over or too wide for what it grips."""
    it = f"{_what(item)}: the stock's tube of {tube.expanded:.1f} mm, {tube.recovered:.1f} mm shrunk, is too"
    passes, grips = TO_SPARE * item.passes_mm, GRIPS * item.grips_mm
    if tube.expanded >= passes:
        sentence = f"{it} wide to grip {item.grips_mm:.1f} mm; it would have to shrink to {grips:.1f} mm."
        return _finding(item, TUBE, sentence, "Print it on a narrower stock, or on one that shrinks more.")
    sentence = f"{it} narrow to pass {item.passes_mm:.1f} mm; it would have to be of {passes:.1f} mm."
    before = ", or fit it before crimping (`labels: {fit: before}`)" if item.passes_mm > item.wires_mm else ""
    return _finding(item, TUBE, sentence, f"Print it on a wider stock{before}.")


def _on_sheet(item: LabelItem, items: LabelContent, stock: LabelSheet) -> _Place | Finding:
    if stock.tube is not None:
        lengths = stock.label.length, stock.label.length
        return _on_tube(item, stock.tube, lengths, flat_width_mm(stock.tube.expanded), stock.clear)
    kind = _tube(item.passes_mm, item.grips_mm, items.tubes, item.heat_c)
    if kind is None:
        return _no_tube(item)
    flat = flat_width_mm(kind.expanded_mm)
    if flat > stock.room_mm:
        sentence = f"{_what(item)}: {kind.name} is {flat:.1f} mm flat, the stock holds {decimal(stock.room_mm)} mm."
        return _finding(item, STOCK, sentence, "Print it on a wider stock.")
    length = stock.label.length
    shrinks_to = shrink_of_type(kind.expanded_mm, item.grips_mm)
    # What the tube over a lead's wires alone stands has been looked at with the lead.
    judged = items.fit == "before" and not item.text.of_wire
    too_hot = None if judged else _tube_too_hot(item, kind, "tube")
    return _Place(Zone((length, length), flat, stock.clear, shrinks_to), f"{kind.name} · {decimal(length)} mm", too_hot)


def _no_tube(item: LabelItem) -> Finding:
    """Say why no tube does: mostly a plug is to be passed that is too wide for a tube that grips the wires."""
    sentence = f"{_what(item)}: no tube passes {item.passes_mm:.1f} mm and grips {item.grips_mm:.1f} mm."
    wide, shrunk = at_least(TO_SPARE * item.passes_mm, 1), at_most(GRIPS * item.grips_mm, 1)
    needs = f"one of {wide} mm that shrinks to {shrunk} mm"
    if item.passes_mm > item.wires_mm:
        over = "contact" if item.text.of_wire else "plug"
        times = math.ceil(TO_SPARE * item.passes_mm / (GRIPS * item.grips_mm))
        return _finding(
            item,
            TUBE,
            f"{sentence[:-1]}: what passes the {over} is too wide to grip the wires.",
            f"Fit it before crimping (`labels: {{fit: before}}`), or add a {times}:1 tube to `parts.yaml`, {needs}.",
        )
    return _finding(item, TUBE, sentence, f"Add a tube to `parts.yaml`: {needs}.")


def _under_clear(item: LabelItem, items: LabelContent, stock: LabelStrips) -> _Place | Finding:
    passes, grips = item.passes_mm + _PAPER_MM, item.grips_mm + _PAPER_MM
    kind = _tube(passes, grips, items.tubes, item.heat_c, clear=True)
    if kind is None:
        sentence = f"{_what(item)}: no clear tube passes {passes:.1f} mm and grips {grips:.1f} mm."
        return _finding(item, TUBE, sentence, "Add a clear tube to `parts.yaml`, or print it on another stock.")
    height = min(stock.room_mm, math.pi * item.grips_mm / 2)
    length = stock.label.length
    zone = Zone((length, length), height, stock.clear, 1.0)
    return _Place(zone, f"under {kind.name} · {decimal(length)} mm", _tube_too_hot(item, kind, "clear tube"))


def _tube_too_hot(item: LabelItem, kind: TubePart, what: str) -> Finding | None:
    do = f"Add a {what} that stands it to `parts.yaml`, or lead it by another route."
    return _too_hot(item, shown(kind.name), kind.limit_c, f", and no {what} that fits stands more.", do)


def _too_hot(item: LabelItem, tube: str, limit_c: float | None, end: str, do: str) -> Finding | None:
    """Find a tube that the heat of its lead's route is too much for."""
    if item.heat_c is None or limit_c is None or limit_c >= item.heat_c:
        return None
    sentence = f"{_what(item)} lies in {decimal(item.heat_c)} °C; {tube} stands {decimal(limit_c)} °C{end}"
    return _finding(item, heat.KIND, sentence, do)


def _piece(item: LabelItem, label: SetLabel, stock: LabelStock, says: str) -> Piece:
    if isinstance(stock, LabelTape):
        edge = (stock.width - label.flat_mm) / 2
        return Piece(item, label, label.length_mm, stock.width, ((0.0, edge),), says, ())
    if isinstance(stock, LabelSheet):
        box = Box(0, 0, label.length_mm, label.flat_mm)
        return Piece(
            item, label, box.width_mm, box.height_mm, ((0.0, 0.0),), says, (rectangle(box, THIN_MM, colour=FAINT),)
        )
    if isinstance(stock, LabelStrips):
        guides = _cut_ink(Box(0, 0, label.length_mm, label.flat_mm), beside=stock.gaps_mm[0] >= 2 * _TICK_MM)
        return Piece(item, label, label.length_mm, label.flat_mm, ((0.0, 0.0),), says, guides)
    length, height = stock.size_mm
    return Piece(item, label, length, height, _places(item, stock), says, blank_ink(stock, BLACK))


def _places(item: LabelItem, stock: LabelWraps | LabelFlags) -> tuple[tuple[float, float], ...]:
    """Return the corners at which the text of a label is set: of a wrap where only film comes to lie over it."""
    if isinstance(stock, LabelFlags):
        return (0.0, 0.0), (stock.label.length + stock.label.wrap, 0.0)
    return ((0.0, max(stock.label.printed - math.pi * item.grips_mm, 0.0)),)


def blank_ink(stock: LabelStock, arrow: str = FAINT) -> tuple[Ink, ...]:
    """Return the faint outline of an unused label, from its corner, with what divides it; its arrow in a colour."""
    if isinstance(stock, LabelTape):
        return ()
    length, height = stock.size_mm
    ink: list[Ink] = [rectangle(Box(0, 0, length, height), THIN_MM, colour=FAINT)]
    if isinstance(stock, LabelWraps):
        ink.append(Line(0, stock.label.printed, length, stock.label.printed, THIN_MM, FAINT))
    if isinstance(stock, LabelFlags):
        first, second = stock.label.length, stock.label.length + stock.label.wrap
        ink += [Line(x, 0, x, height, THIN_MM, FAINT) for x in (first, second)]
        ink.append(_arrow((first + second) / 2, height / 2, arrow))
    return tuple(ink)


def _arrow(x: float, y: float, colour: str) -> Shape:
    """Return an arrow up, along the wire, to the plug."""
    top = y - _ARROW_MM / 2
    points = ((x, top), (x + 1.6, top + 2), (x + 0.5, top + 2), (x + 0.5, top + _ARROW_MM), (x - 0.5, top + _ARROW_MM))
    return Shape((*points, (x - 0.5, top + 2), (x - 1.6, top + 2)), THIN_MM, colour, None)


def _cut_ink(box: Box, *, beside: bool) -> tuple[Ink, ...]:
    """Return the outline to cut along, with ticks beyond its corners if there is room for them."""
    ink: list[Ink] = [rectangle(box, THIN_MM, colour=FAINT)]
    if not beside:
        return tuple(ink)
    sides = ((box.x_mm - 0.3, -_TICK_MM), (box.right_mm + 0.3, _TICK_MM))
    ink += [Line(x, y, x + out, y, THIN_MM) for x, out in sides for y in (box.y_mm, box.bottom_mm)]
    return tuple(ink)
