"""A sheet that carries strips of flat shrink tube of any size, taped on, one across each row."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import ClassVar

from docgen.basics.findings import Finding
from docgen.basics.units import at_least, at_most, decimal
from docgen.harness.bundling.tubes import GRIPS, TO_SPARE, Need, flat_width_mm, shrink_of_type
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelContent, LabelItem
from docgen.paperwork.stocks.findings import STOCK, TUBE
from docgen.paperwork.stocks.fitting import Place, too_hot
from docgen.paperwork.stocks.guides import outline
from docgen.paperwork.stocks.rows import RowStock
from docgen.paperwork.stocks.stock import TUBE_OUTCOME, TUBE_WARNS


class Carrier(RowStock):
    """A plain sheet that is printed twice: on paper, then on the tube that is taped over its rows."""

    what: ClassVar[str] = "plain sheet that carries strips of tube, cut to labels of {length} mm"
    warns: ClassVar[str] = TUBE_WARNS
    use: ClassVar[str] = (
        "First pass on paper alone; tape a strip of flat tube of the size named over each row; the second pass prints "
        "on it. Cut along the outlines and slide on {slid_on}"
    )
    outcome: ClassVar[str] = TUBE_OUTCOME

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the length and the most height of the part of a label that is printed on."""
        return self.label.length, self.most_mm

    def tubes(self, items: LabelContent) -> Mapping[Need, TubePart]:
        """Return the tubes to print on."""
        return items.printed_tubes()

    def places(self, item: LabelItem, tubes: Mapping[Need, TubePart]) -> Iterator[Place | Finding]:
        """Place a label on its piece of tube, pressed flat; nowhere if that does not pass a plug that is on already."""
        tube = tubes.get(item.need)
        if tube is None:
            if not item.plug_is_on:
                yield _no_tube(item)
            return
        length, flat = self.label.length, flat_width_mm(tube.expanded_mm)
        if flat > self.most_mm:
            sentence = f"{item.named}: {tube.name} is {flat:.1f} mm flat, the stock holds {decimal(self.most_mm)} mm."
            yield item.finding(STOCK, sentence, "Print it on another stock.")
            return
        zone = self.zone(length, flat, shrink_of_type(tube.expanded_mm, item.grips_mm))
        guides = (outline(length, flat),)
        size = tube.expanded_mm, tube.name
        says = f"{tube.name} · {decimal(length)} mm"
        yield Place(zone, ((0.0, 0.0),), says, guides, too_hot(item, tube, "tube"), size, flat)


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
