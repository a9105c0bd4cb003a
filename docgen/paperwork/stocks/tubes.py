"""Take a label and the tube that it goes on; return whether that passes and grips, and stands its heat."""

from __future__ import annotations

from functools import lru_cache

from docgen.basics.findings import Finding, shown
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import GRIPS, TO_SPARE, choose_tube, fits
from docgen.harness.checks import heat
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm, TemperatureC
from docgen.paperwork.stocks.findings import TUBE

chosen_tube = lru_cache(64)(choose_tube)  # few thicknesses on many labels


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
