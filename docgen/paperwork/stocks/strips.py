"""Strips of self-adhesive paper that are stuck once round the wires and go under clear tube: the usual stock.

Where no tube does, or the plug is on already and none passes it, a strip is a wrap with clear tape over it; where a
strip has no room to say where its end goes, it is a flag; one that goes through an opening says less before it is one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import ClassVar

from docgen.basics.findings import Finding, Refused
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import LABEL_MM, PAPER_MM, Need
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelContent, LabelItem
from docgen.paperwork.stocks.fitting import Place, too_hot
from docgen.paperwork.stocks.guides import flag_guides, strip_guides
from docgen.paperwork.stocks.rows import RowStock
from docgen.paperwork.stocks.stock import misfit

# Common practice, no source: how far paper laps over its beginning, and a flag's two halves with what is between. The
# edges of a flag are cut on all sides of its text, those of a strip on none: between its texts, and beside the lap.
_LAP_MM, _ABOVE_MM = 3.0, 0.5  # of the lap, how much is above the text: scissors stray
_NO_TUBE = "no tube does for these, printed as said"
_TOO_LONG = (
    "under their tubes there is no room for where these go, so they are flags (shorter names, a shorter `label:` or "
    "another stock put them under tube)"
)
_TOO_HIGH = "strips for these are higher than the sheet, so they are flags"
_FLAG_HIGH_MM, _FLAG_ROUND_MM, _FLAG_COLUMNS, _FLAG_CLEAR_MM = 11.0, 16.0, 2, 0.8


class Strips(RowStock):
    """A sheet of strips, on uncut self-adhesive paper."""

    what: ClassVar[str] = "self-adhesive paper, not cut, for strips of {length} mm under clear tube"
    warns: ClassVar[str] = "For ink or laser; never on thermal paper, which blackens under the heat gun."
    use: ClassVar[str] = (
        "Cut strips out. Slide the clear tube named on {slid_on}; stick the strip round the wires, its blank edge "
        "first, the tube over it with as much beyond either end. In wet bays take tube lined with adhesive. Where none "
        "is named wind clear tape over it, or stick a flag's halves together round the wires, never where it goes "
        "through an opening, nor by an arm or linkage"
    )
    outcome: ClassVar[str] = (
        "Under its tube it survives fuel, oil and the heat that the tube stands; as wrap or flag only handling."
    )
    slides: ClassVar[bool] = False

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the length and the most height of the part of a label that is printed on."""
        return self.label.length, self.most_mm

    def misfits(self) -> Iterator[Refused]:
        """Find strips that would stiffen the loop behind a plug."""
        yield from super().misfits()
        if self.label.length > PAPER_MM:
            most = decimal(PAPER_MM)
            sentence = f"a strip of {decimal(self.label.length)} mm stiffens the wires; {most} mm are the most."
            yield misfit(sentence, f"Make it {most} mm long or shorter.", ("label", "length"))

    def tubes(self, items: LabelContent) -> Mapping[Need, TubePart]:
        """Return the clear tubes that labels take."""
        return items.clear_tubes()

    def places(self, item: LabelItem, tubes: Mapping[Need, TubePart]) -> Iterator[Place | Finding]:
        """Walk a strip with its text twice, half a turn apart, under its tube or clear tape; then a flag.

        A flag catches in an opening: a label that goes through one rather says less.
        """
        tube, length = tubes.get(item.need_over_paper), self.label.length
        half = math.pi * item.grips_mm / 2
        high, zone = 2 * half + _LAP_MM, self.zone(length, half)
        corners, guides = ((0.0, _ABOVE_MM), (0.0, _ABOVE_MM + half)), strip_guides(length, high, _LAP_MM - _ABOVE_MM)
        if high <= self.most_mm and tube is not None:
            size, says = (tube.expanded_mm, tube.name), f"{tube.name} · {decimal(LABEL_MM)} mm"
            yield Place(zone, corners, says, guides, too_hot(item, tube, "clear tube"), size, high)
        elif high <= self.most_mm:
            says = "no tube: clear tape over it"
            yield Place(zone, corners, says, guides, (), (math.inf, "wrap"), high, instead="wrap", why=_NO_TUBE)
        why = _TOO_HIGH if high > self.most_mm else _NO_TUBE if tube is None else _TOO_LONG
        yield replace(self._flag(why), at_worst=item.goes_through)

    def _flag(self, why: str) -> Place:
        whole = _FLAG_COLUMNS * self.cells.pitch[0] - (self.cells.pitch[0] - self.label.length)
        half = (whole - _FLAG_ROUND_MM) / 2
        zone = self.zone(half, _FLAG_HIGH_MM, arrow=False)
        zone = replace(zone, edges_mm=max(zone.edges_mm, _FLAG_CLEAR_MM))
        corners = (0.0, 0.0), (half + _FLAG_ROUND_MM, 0.0)
        guides = flag_guides(half, _FLAG_ROUND_MM, _FLAG_HIGH_MM)
        says = "flag: halves back to back round the wires"
        size = math.inf, "flag"
        return Place(zone, corners, says, guides, (), size, _FLAG_HIGH_MM, _FLAG_COLUMNS, instead="flag", why=why)
