"""Take a label and where it goes on a stock; return what is printed, and what is found of what it can't say."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.findings import Finding, shown
from docgen.basics.units import decimal
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.labels.text import SetLabel, Zone, set_label
from docgen.paperwork.stocks.findings import STOCK, TYPE
from docgen.paperwork.typesetting.ink import Ink, moved

_SHORTER = "Use shorter names, or allow smaller type with `labels: {least_type: …}`."


@dataclass(frozen=True, slots=True)
class Place:
    """Where a label goes on a piece of a stock: its zone, and the corners at which that is printed.

    `beside` is said beside it, `guides` help to cut or fold the piece, `findings` do not keep it from being printed.
    """

    zone: Zone
    corners_mm: tuple[tuple[float, float], ...] = ((0.0, 0.0),)
    beside: str = ""
    guides: tuple[Ink, ...] = ()
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """One label ready to print: its text, set once, and its place."""

    label: SetLabel
    place: Place

    def ink(self, x_mm: float, y_mm: float) -> list[Ink]:
        """Return its ink with its top left corner at a place."""
        texts = [ink for x, y in self.place.corners_mm for ink in self.label.ink(x_mm + x, y_mm + y)]
        return [*(moved(ink, x_mm, y_mm) for ink in self.place.guides), *texts]


def fit(item: LabelItem, place: Place, least_type_mm: float) -> tuple[Piece | None, list[Finding]]:
    """Return a label as printed at its place, unless it would be illegible, and what is found of it."""
    label = set_label(item.text, place.zone, least_type_mm)
    if label is None:
        return None, [_illegible(item, place.zone, least_type_mm)]
    return Piece(label, place), [*place.findings, *_lacks(item, label)]


def _illegible(item: LabelItem, zone: Zone, least_type_mm: float) -> Finding:
    sentence = f"{item.named} can't be set in type that is {decimal(least_type_mm)} mm high"
    sentence += " when shrunk." if zone.shrinks_to < 1 else "."
    what = "Print it on another stock"
    if zone.type_room_mm >= 1.5 * least_type_mm / zone.shrinks_to:
        what = "Give the circuit a shorter `label:`"
    return item.finding(TYPE, sentence, f"{what}, or allow smaller type with `labels: {{least_type: …}}`.")


def _lacks(item: LabelItem, label: SetLabel) -> Iterator[Finding]:
    """Find what a label must say and has no room for; it is printed all the same."""
    do = _SHORTER
    if label.lacks == "place":
        only = "function and mark" if item.text.of_wire else "function"
        says = f"has room for its {only} only, not for {shown(item.text.here)}."
    elif label.lacks == "lead":
        says = "has room for its function and place only, not for which lead it is."
    elif label.lacks == "revision":
        says = "has no room to say its revision."
    elif label.lacks == "supply" and item.text.supply is not None:
        says = f"has no room to say its supply, {shown(item.text.supply)}."
        do = "Use shorter names, or print it on another stock."
    else:
        return
    yield item.finding(TYPE, f"{item.named} {says}", do)


def too_thick(item: LabelItem, room_mm: float, what: str) -> Finding | None:
    """Find that what goes round the wires does not reach round."""
    around = math.pi * item.grips_mm
    if around <= room_mm:
        return None
    sentence = f"{item.named}: it is {around:.1f} mm round its wires, {what} of the stock is {decimal(room_mm)} mm."
    return item.finding(STOCK, sentence, "Print it on a stock with more to wrap.")
