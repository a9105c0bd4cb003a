"""A sheet of pieces of one flat shrink tube, in cells."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import ClassVar

from docgen.basics.findings import Finding, Refused
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import Need, flat_width_mm, shrink_of_type
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm
from docgen.paperwork.stocks.cells import CellStock
from docgen.paperwork.stocks.fitting import Place, StockTube
from docgen.paperwork.stocks.guides import outline
from docgen.paperwork.stocks.stock import TUBE_OUTCOME, TUBE_WARNS, misfit


class PieceSize(LayoutForm):
    """A label's length along the wire, and the widest piece that a cell holds."""

    length: LengthMm
    width: LengthMm


class Pieces(CellStock):
    """A sheet of pieces; every label that they fit is printed, the others are found."""

    warns: ClassVar[str] = TUBE_WARNS
    use: ClassVar[str] = "Slide on {slid_on}"
    outcome: ClassVar[str] = TUBE_OUTCOME
    label: PieceSize
    tube: StockTube

    @property
    def what(self) -> str:
        """Say what its labels are, with the names of their sizes in braces."""
        return f"pieces of tube of {decimal(self.tube.expanded)} mm, {{length}} mm long"

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return how much of the sheet a label takes."""
        return self.label.length, self.label.width

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the length and height of the part of a label that is printed on."""
        return self.size_mm

    @property
    def stands_c(self) -> float | None:
        """Return the heat that it stands [°C]: that of its tube, where that is said."""
        return self.tube.stands_c

    def misfits(self) -> Iterator[Refused]:
        """Find cells and tube that do not go together."""
        yield from super().misfits()
        expanded, recovered, width = self.tube.expanded, self.tube.recovered, self.label.width
        if (flat := flat_width_mm(expanded)) > width + 1e-9:
            tube = f"a tube of {decimal(expanded)} mm, {flat:.1f} mm flat"
            sentence = f"{tube} is wider than its label of {decimal(width)} mm."
            do = "Make the labels wider, or take a narrower tube."
            yield misfit(sentence, do, ("tube", "expanded"))
        if recovered >= expanded:
            tube = f"a tube of {decimal(expanded)} mm that recovers to {decimal(recovered)} mm"
            yield misfit(f"{tube} does not shrink.", "Look at both diameters again.", ("tube", "recovered"))

    def places(self, item: LabelItem, tubes: Mapping[Need, TubePart]) -> Iterator[Place | Finding]:
        """Place a label on its piece of tube, pressed flat; nowhere if that does not pass a plug that is on already."""
        del tubes
        unfit, expanded, length = self.tube.unfit(item), self.tube.expanded, self.label.length
        if unfit is not None:
            if not item.plug_is_on:
                yield unfit
            return
        flat = flat_width_mm(expanded)
        guides = (outline(length, flat),)
        zone = self.zone(length, flat, shrink_of_type(expanded, item.grips_mm))
        yield Place(zone, guides=guides, findings=self.tube.too_hot(item))
