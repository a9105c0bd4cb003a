"""Continuous flat tape of shrink tube, one label a page."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import ClassVar, Self

from docgen.basics.findings import Finding, Refused
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import Need, shrink_of_type
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import CAUTION, LabelContent, LabelItem
from docgen.paperwork.labels.text import Zone
from docgen.paperwork.layouts.forms import LengthMm, Pair, Printer, Ratio, TemperatureC
from docgen.paperwork.stocks.fitting import Piece, Place, StockTube
from docgen.paperwork.stocks.stock import TUBE_OUTCOME, LabelStock, misfit
from docgen.paperwork.typesetting.ink import Page
from docgen.paperwork.typesetting.title_block import TitleBlock


class Tape(LabelStock):
    """A tape; `flat` is the measured width of its tube where that is not the tape's.

    `length` is the least and the most of a label, which is as long as its text needs; `shrinks_at` is the heat at which
    it begins to shrink.
    """

    warns: ClassVar[str] = "For a tape printer that takes pages; never through a printer that fuses print."
    use: ClassVar[str] = "Slide on {slid_on}"
    outcome: ClassVar[str] = TUBE_OUTCOME
    on_sheets: ClassVar[bool] = False
    width: LengthMm
    flat: LengthMm | None = None
    shrinks: Ratio
    length: Pair
    shrinks_at: TemperatureC | None = None

    @property
    def flat_mm(self) -> float:
        """Return the width of the flat tube."""
        return self.width if self.flat is None else self.flat

    @property
    def _edge_mm(self) -> float:
        """Return what of the tape lies beside its tube, above and below."""
        return (self.width - self.flat_mm) / 2

    @property
    def tube(self) -> StockTube:
        """Return the tube: pressed flat, its width is half its circumference."""
        expanded = 2 * self.flat_mm / math.pi
        recovered = expanded / self.shrinks
        return StockTube.model_construct(
            expanded=expanded, recovered=recovered, limit=self.limit, shrinks_at=self.shrinks_at
        )

    @property
    def stands_c(self) -> float | None:
        """Return the heat that its tube stands as it is printed [°C], where that is said."""
        return self.tube.stands_c

    @property
    def says(self) -> str:
        """Describe it in a line."""
        return f"shrink tape {decimal(self.width)} mm wide, {decimal(self.shrinks)}:1, one label a page"

    @property
    def printed_mm(self) -> tuple[float, float]:
        """Return the least length and height of the part of a label that is printed on."""
        return self.length[0], self.flat_mm

    def misfits(self) -> Iterator[Refused]:
        """Find sizes that do not go together."""
        yield from super().misfits()
        if self.flat_mm > self.width:
            yield self._too_wide(self.flat_mm, "Measure the flat tube and the tape again.")
        if self.length[0] > self.length[1]:
            yield misfit("the least length is over the most.", "Write the shorter first.", ("length",))

    def _too_wide(self, flat_mm: float, do: str) -> Refused:
        flat, width = decimal(flat_mm), decimal(self.width)
        return misfit(f"a flat tube of {flat} mm is wider than its tape of {width} mm.", do, ("flat",))

    def measured(self, flat_mm: float) -> Self:
        """Return it with another flat width of its tube, as measured by the builder; raises Refused."""
        if flat_mm > self.width:
            raise self._too_wide(flat_mm, "Measure the flat tube again, or name another tape.")
        return self.model_copy(update={"flat": flat_mm})

    def corrected(self, printer: Printer) -> tuple[Self, list[str]]:
        """Return it with so much more clear that what is shifted and scaled for a printer stays in its zone too."""
        edge = self._edge_mm
        edges = printer.clear_mm(1, edge, edge + self.flat_mm, self.clear.edges)
        ends = max(printer.clear_mm(0, 0, length, self.clear.ends) for length in self.length)
        clear = self.clear.model_copy(update={"ends": ends, "edges": edges})
        says = "corrected for one printer, which a tape has no room to say; so that nothing is cut"
        room = f"{edges:.1f} mm at its edges and {ends:.1f} mm at its ends"
        return self.model_copy(update={"clear": clear}), [f"{says}, {room} are clear."]

    def places(self, item: LabelItem, tubes: Mapping[Need, TubePart]) -> Iterator[Place | Finding]:
        """Place a label on its piece of the tape; nowhere if that does not pass a plug that is on already."""
        del tubes
        tube, (least, most) = self.tube, self.length
        unfit = tube.unfit(item)
        if unfit is None:
            shrinks_to = shrink_of_type(tube.expanded, item.grips_mm)
            zone = Zone((least, most), self.flat_mm, self.clear.ends, self.clear.edges, shrinks_to)
            yield Place(zone, ((0.0, self._edge_mm),), findings=tube.too_hot(item))
        elif not item.plug_is_on:
            yield unfit

    def pages(self, pieces: Sequence[Piece], items: LabelContent, _: TitleBlock) -> tuple[list[Page], list[str]]:
        """Return a page for each label."""
        pages = [Page(piece.label.length_mm, self.width, piece.ink(0, 0)) for piece in pieces]
        says = f"a label of tape has no room for what belongs beside it: {self.warns} {self.said(items)} {CAUTION}"
        return pages, [says] if pages else []
