"""What every kind of stock answers, and how labels are laid out on any: labels in, pages and findings out."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator, Sequence
from typing import ClassVar, Self

from docgen.basics.findings import Finding, Refused
from docgen.basics.units import decimal
from docgen.paperwork.labels.content import LabelContent, LabelItem
from docgen.paperwork.labels.text import Zone
from docgen.paperwork.layouts.forms import Layout, LayoutForm, LengthMm
from docgen.paperwork.stocks.findings import STOCK
from docgen.paperwork.stocks.fitting import Piece, Place, fit
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import Page
from docgen.paperwork.typesetting.title_block import TitleBlock


class Clear(LayoutForm):
    """What stays free of ink at a label's ends and edges."""

    ends: LengthMm
    edges: LengthMm


def misfit(sentence: str, do: str, path: tuple[str | int, ...] = ()) -> Refused:
    """Return what in a stock does not go together, and where in its file."""
    return Refused(STOCK.name, sentence, do, path)


class LabelStock(Layout):
    """A stock for labels.

    `slides` tells whether its labels are slid on over an end and shrunk there; others go round the wires, also of leads
    whose plugs are on already. `facing` is what on a label faces the plug.
    """

    slides: ClassVar[bool] = True
    facing: ClassVar[str] = "Bar"
    clear: Clear

    @property
    @abstractmethod
    def use(self) -> str:
        """Say what is done with its labels, and when they are `{slid_on}`."""

    @property
    @abstractmethod
    def says(self) -> str:
        """Describe it in a line: what it is, how many labels of which size."""

    @property
    def count(self) -> int:
        """Return how many labels a page has."""
        return 1

    @property
    @abstractmethod
    def printed_mm(self) -> tuple[float, float]:
        """Return the least length and height of the part of a label that is printed on."""

    @abstractmethod
    def place(self, item: LabelItem, items: LabelContent) -> Place | Finding:
        """Return where a label goes on it, or why it does not go there."""

    @abstractmethod
    def pages(
        self, pieces: Sequence[Piece], items: LabelContent, title_block: TitleBlock
    ) -> tuple[list[Page], list[str]]:
        """Return pages of labels, and what the builder is told of them."""

    def misfits(self) -> Iterator[Refused]:
        """Walk what in it does not go together: labels with no room for print."""
        length_mm, height_mm = self.printed_mm
        if length_mm <= 2 * self.clear.ends or height_mm <= 2 * self.clear.edges:
            do = "Leave less clear, or make labels larger."
            yield misfit("nothing of a label is left to print on.", do, ("clear",))

    def measured(self, flat_mm: float) -> Self:
        """Return it with another flat width of its tube, as measured by the builder; raises Refused."""
        del flat_mm
        raise misfit("`--flat` is said of a stock that is no tape.", "Leave it out.")

    def fit(self, item: LabelItem, items: LabelContent) -> tuple[Piece | None, list[Finding]]:
        """Return a label as printed on it, or what keeps it from that, and what else is found of it."""
        place = self.place(item, items)
        return (None, [place]) if isinstance(place, Finding) else fit(item, place, items.rules.least_type_mm)

    def zone(self, length_mm: float, height_mm: float, shrinks_to: float = 1.0, *, bar: bool = True) -> Zone:
        """Return the zone of a label that is always as long."""
        return Zone((length_mm, length_mm), height_mm, self.clear.ends, self.clear.edges, shrinks_to, bar)

    def said(self, items: LabelContent) -> str:
        """Say how labels are used."""
        least = self.least_said(items)
        return f"{self.use.format(slid_on=items.slid_on)}, {least[0].lower()}{least[1:]}"

    def least_said(self, items: LabelContent) -> str:
        """Say what must be said of labels: how they lie, and where."""
        last = "; shrink last." if self.slides else "."
        middle = ", those in the middle halfway" if any(item.text.middle for item in items.labels) else ""
        near = decimal(items.rules.behind_plug_mm)
        return f"{self.facing} towards the plug, near edge {near} mm behind it{middle}{last}"


def compose(items: LabelContent, stock: LabelStock, title_block: TitleBlock) -> Composed:
    """Return the pages of labels on a stock; what does not fit it is found and left out."""
    left_out = [item for item in items.labels if item.plug_is_on and stock.slides]
    pieces: list[Piece] = []
    findings: list[Finding] = []
    for item in items.labels:
        if item.plug_is_on and stock.slides:
            continue
        piece, found = stock.fit(item, items)
        findings += found
        pieces += [piece] * items.copies if piece is not None else []
    pages, notes = stock.pages(pieces, items, title_block)
    if left_out:
        named = ", ".join(f"{item.text.function} at {item.text.here}" for item in left_out)
        notes = [f"left out on tube, their plugs are on already: {named}.", *notes]
    return Composed(pages, findings, notes)
