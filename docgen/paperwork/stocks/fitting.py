"""Take a label and where it goes on a stock; return it as printed, and what is found of its text, tube and wires."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from docgen.basics.findings import Finding, shown
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import GRIPS, TO_SPARE, choose_tube, fits
from docgen.harness.checks import heat
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.labels.text import SetLabel, Zone, set_label
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm, TemperatureC
from docgen.paperwork.stocks.findings import STOCK, TUBE, TYPE
from docgen.paperwork.typesetting.ink import Ink, moved

_LACKS = {
    "place": "has room for its {only} only, not for {here}.",
    "lead": "has room for its function and place only, not for which lead it is.",
    "revision": "has no room to say its revision.",
    "supply": "has no room to say its supply, {supply}.",
}
chosen_tube = lru_cache(64)(choose_tube)  # few thicknesses on many labels


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
    if label.lacks:
        text, do = item.text, "allow smaller type with `labels: {least_type: …}`."
        only = "function and mark" if text.of_wire else "function"
        says = _LACKS[label.lacks].format(only=only, here=shown(text.here), supply=shown(text.supply or ""))
        do = "print it on another stock." if label.lacks == "supply" else do
        yield item.finding(TYPE, f"{item.named} {says}", f"Use shorter names, or {do}")


def too_thick(item: LabelItem, room_mm: float, what: str) -> Finding | None:
    """Find that what goes round the wires does not reach round."""
    around = math.pi * item.grips_mm
    if around <= room_mm:
        return None
    sentence = f"{item.named}: it is {around:.1f} mm round its wires, {what} of the stock is {decimal(room_mm)} mm."
    return item.finding(STOCK, sentence, "Print it on a stock with more to wrap.")


class StockTube(LayoutForm):
    """The tube that a stock is made of: inside diameter as supplied and recovered, and the heat that it stands.

    Labels on a tube that stands less than their route are printed, with the caution `heat`.
    """

    expanded: LengthMm
    recovered: LengthMm
    limit: TemperatureC | None = None

    def unfit(self, item: LabelItem) -> Finding | None:
        """Find it too narrow for what a label slides over, or too wide for what it grips."""
        if fits(self.expanded, self.recovered, item.passes_mm, item.grips_mm):
            return None
        it = f"{item.named}: the stock's tube of {self.expanded:.1f} mm, {self.recovered:.1f} mm shrunk, is too"
        passes, grips = TO_SPARE * item.passes_mm, GRIPS * item.grips_mm
        if self.expanded >= passes:
            sentence = f"{it} wide to grip {item.grips_mm:.1f} mm; it would have to shrink to {grips:.1f} mm."
            return item.finding(TUBE, sentence, "Print it on a narrower stock, or on one that shrinks more.")
        sentence = f"{it} narrow to pass {item.passes_mm:.1f} mm; it would have to be of {passes:.1f} mm."
        before = ", or fit it before crimping (`labels: {fit: before}`)" if item.passes_mm > item.wires_mm else ""
        return item.finding(TUBE, sentence, f"Print it on a wider stock{before}.")

    def too_hot(self, item: LabelItem) -> tuple[Finding, ...]:
        """Find that the heat of a label's route is too much for it."""
        do = "Print it on another stock, or lead it by another route."
        return _too_hot(item, "the stock's tube", self.limit, ".", do)


def too_hot(item: LabelItem, tube: TubePart, what: str) -> tuple[Finding, ...]:
    """Find that the heat of a label's route is too much for a tube of the parts list, which is the best there is."""
    do = f"Add a {what} that stands it to `parts.yaml`, or lead it by another route."
    return _too_hot(item, shown(tube.name), tube.limit_c, f", and no {what} that fits stands more.", do)


def _too_hot(item: LabelItem, tube: str, limit_c: float | None, end: str, do: str) -> tuple[Finding, ...]:
    if item.heat_c is None or limit_c is None or limit_c >= item.heat_c:
        return ()
    sentence = f"{item.named} lies in {decimal(item.heat_c)} °C; {tube} stands {decimal(limit_c)} °C{end}"
    return (item.finding(heat.KIND, sentence, do),)
