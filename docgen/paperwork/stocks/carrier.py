"""Carrier sheets for pieces of flat shrink tube."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.findings import Finding, Refused
from docgen.basics.units import at_least, at_most, decimal
from docgen.harness.bundling.tubes import GRIPS, TO_SPARE, flat_width_mm, shrink_of_type
from docgen.paperwork.labels.content import LabelContent, LabelItem
from docgen.paperwork.stocks.findings import STOCK, TUBE
from docgen.paperwork.stocks.fitting import Place, StockTube, chosen_tube, too_hot
from docgen.paperwork.stocks.pieces import PieceStock
from docgen.paperwork.stocks.stock import misfit
from docgen.paperwork.typesetting.ink import FAINT, THIN_MM, Box, rectangle


class Carrier(PieceStock):
    """A sheet that carries pieces of flat tube: of one tube, or, as the usual sheet, of those that are taped on.

    On a carrier of one tube every label that it fits is printed; the others are found.
    """

    tube: StockTube | None = None

    @property
    def what(self) -> str:
        """Say what its labels are, with the names of their sizes in braces."""
        tube = "any tube up to {width} mm flat" if self.tube is None else f"tube of {decimal(self.tube.expanded)} mm"
        return f"carrier sheet for {tube}, {{length}} mm long"

    @property
    def use(self) -> str:
        """Say what is done with its labels, and when they are `{slid_on}`."""
        tape = "Tape flat tube of the size named over each outline. " if self.tube is None else ""
        return f"{tape}Slide on {{slid_on}}"

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the least length and height of the part of a label that is printed on."""
        return super().printed_mm if self.tube is None else self.size_mm

    def misfits(self) -> Iterator[Refused]:
        """Find cells and tube that do not go together."""
        yield from super().misfits()
        if self.tube is None:
            return
        expanded, recovered, width = self.tube.expanded, self.tube.recovered, self.label.width
        if (flat := flat_width_mm(expanded)) > width + 1e-9:
            tube = f"a tube of {decimal(expanded)} mm, {flat:.1f} mm flat"
            sentence = f"{tube} is wider than its label of {decimal(width)} mm."
            do = "Make the labels wider, or take a narrower tube."
            yield misfit(sentence, do, ("tube", "expanded"))
        if recovered >= expanded:
            tube = f"a tube of {decimal(expanded)} mm that recovers to {decimal(recovered)} mm"
            yield misfit(f"{tube} does not shrink.", "Look at both diameters again.", ("tube", "recovered"))

    def place(self, item: LabelItem, items: LabelContent) -> Place | Finding:
        """Place a label on its piece of tube, pressed flat: that of the stock, or one of the parts list."""
        if self.tube is not None:
            expanded = self.tube.expanded
            return self.tube.unfit(item) or self._on(item, expanded, f"{expanded:.1f} mm", self.tube.too_hot(item))
        tube = chosen_tube(item.passes_mm, item.grips_mm, items.tubes, item.heat_c)
        if tube is None:
            return _no_tube(item)
        if (flat := flat_width_mm(tube.expanded_mm)) > self.room_mm:
            room = f"the stock holds {decimal(self.room_mm)} mm"
            sentence = f"{item.named}: {tube.name} is {flat:.1f} mm flat, {room}."
            return item.finding(STOCK, sentence, "Print it on a wider stock.")
        # What the tube over a lead's wires alone stands has been looked at with the lead.
        judged = items.rules.fit == "before" and not item.text.of_wire
        return self._on(item, tube.expanded_mm, tube.name, () if judged else too_hot(item, tube, "tube"))

    def _on(self, item: LabelItem, expanded_mm: float, tube: str, findings: tuple[Finding, ...]) -> Place:
        length, flat = self.label.length, flat_width_mm(expanded_mm)
        zone = self.zone(length, flat, shrink_of_type(expanded_mm, item.grips_mm))
        outline = rectangle(Box(0, 0, length, flat), THIN_MM, colour=FAINT)
        return Place(zone, beside=f"{tube} · {decimal(length)} mm", guides=(outline,), findings=findings)


def _no_tube(item: LabelItem) -> Finding:
    """Say why no tube does: mostly a plug is to be passed that is too wide for a tube that grips the wires."""
    sentence = f"{item.named}: no tube passes {item.passes_mm:.1f} mm and grips {item.grips_mm:.1f} mm"
    passes, grips = TO_SPARE * item.passes_mm, GRIPS * item.grips_mm
    needs = f"one of {at_least(passes, 1)} mm that shrinks to {at_most(grips, 1)} mm"
    if item.passes_mm <= item.wires_mm:
        return item.finding(TUBE, f"{sentence}.", f"Add a tube to `parts.yaml`: {needs}.")
    over = "contact" if item.text.of_wire else "plug"
    do = f"or add a {math.ceil(passes / grips)}:1 tube to `parts.yaml`, {needs}."
    return item.finding(
        TUBE,
        f"{sentence}: what passes the {over} is too wide to grip the wires.",
        f"Fit it before crimping (`labels: {{fit: before}}`), {do}",
    )
