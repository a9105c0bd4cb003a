"""What every kind of stock answers, and how labels are laid out on any: labels in, pages and findings out."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator, Mapping, Sequence
from typing import ClassVar, Literal, Self

from docgen.basics.findings import Finding, Refused
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import Need
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelContent, LabelItem
from docgen.paperwork.labels.text import Zone
from docgen.paperwork.layouts.forms import Layout, LayoutForm, LengthMm, TemperatureC
from docgen.paperwork.stocks.findings import STOCK
from docgen.paperwork.stocks.fitting import Piece, Place, fit_all
from docgen.paperwork.typesetting.composed import Composed, Laid
from docgen.paperwork.typesetting.ink import Page
from docgen.paperwork.typesetting.title_block import TitleBlock

FUSER_C = 200.0  # the heat at which a laser printer fuses print: common practice, no source
# What prints on a stock, and how that is said.
PRINTERS = {
    "any": "any printer that takes sheets",
    "sheet": "ink or laser printer",
    "thermal transfer": "thermal transfer printer",
    "tape": "tape printer",
    "hand": "by hand",
}
_FUSING = ("any", "sheet")
TUBE_WARNS = "Thermal transfer only, not through a laser printer: the tube shrinks there. Ink does not hold on it."
TUBE_OUTCOME = "Survives the heat that its tube stands, and fuel as far as the ribbon's print does."
_NEVER_TUBE = "Tube shrinks there: say `printer: thermal transfer` or `printer: tape`."


class Clear(LayoutForm):
    """What stays free of ink at a label's ends and edges."""

    ends: LengthMm
    edges: LengthMm


def misfit(sentence: str, do: str, path: tuple[str | int, ...] = ()) -> Refused:
    """Return what in a stock does not go together, and where in its file."""
    return Refused(STOCK.name, sentence, do, path)


class LabelStock(Layout):
    """A stock for labels: what prints on it, and the heat that it stands, as its maker says.

    `slides` tells whether its labels are tube, slid on over an end and shrunk there; others go round the wires, also of
    leads whose plugs are on already. `facing` is what on a label faces the plug.
    """

    slides: ClassVar[bool] = True
    facing: ClassVar[str] = "Arrow"
    # What to know before it is printed, and what becomes of its labels: common practice, no source.
    warns: ClassVar[str]
    outcome: ClassVar[str]
    printer: Literal["any", "sheet", "thermal transfer", "tape", "hand"]
    limit: TemperatureC | None = None
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
    def stands_c(self) -> float | None:
        """Return the heat that it stands as it is printed [°C], if that is said: tube shrinks long before it melts."""
        return self.limit

    @property
    def count(self) -> int:
        """Return how many labels a page has."""
        return 1

    @property
    @abstractmethod
    def printed_mm(self) -> tuple[float, float]:
        """Return the least length and height of the part of a label that is printed on."""

    def tubes(self, items: LabelContent) -> Mapping[Need, TubePart]:
        """Return the tubes of the parts list that labels on it take."""
        del items
        return {}

    @abstractmethod
    def places(self, item: LabelItem, tubes: Mapping[Need, TubePart]) -> Iterator[Place | Finding]:
        """Walk where a label may go on it, the best first, or why it does not; nothing where a plug keeps it off."""

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

    def burns(self) -> Refused | None:
        """Say that it goes through a printer that fuses print, and does not stand that heat or does not say so."""
        if self.printer not in _FUSING or (self.stands_c is not None and self.stands_c >= FUSER_C):
            return None
        stands = "nothing says what it stands" if self.stands_c is None else f"it stands {decimal(self.stands_c)} °C"
        sentence = f"a laser printer fuses print at about {decimal(FUSER_C)} °C, and {stands}."
        do = "Say what its maker says that it stands, `limit: 210 °C`, or another `printer:`."
        return misfit(sentence, _NEVER_TUBE if self.slides else do, ("printer",))

    def measured(self, flat_mm: float) -> Self:
        """Return it with another flat width of its tube, as measured by the builder; raises Refused."""
        del flat_mm
        raise misfit("`--flat` is said of a stock that is no tape.", "Leave it out.")

    def zone(self, length_mm: float, height_mm: float, shrinks_to: float = 1.0, *, arrow: bool = True) -> Zone:
        """Return the zone of a label that is always as long."""
        return Zone((length_mm, length_mm), height_mm, self.clear.ends, self.clear.edges, shrinks_to, arrow)

    def said(self, items: LabelContent) -> str:
        """Say how labels are used."""
        return f"{self.use.format(slid_on=items.slid_on)}. {self.least_said(items)}"

    def least_said(self, items: LabelContent) -> str:
        """Say what must be said of labels: how they lie, and where."""
        last = "; shrink last." if self.slides else "."
        middle = ", those in the middle halfway" if any(item.text.middle for item in items.labels) else ""
        near = decimal(items.rules.behind_plug_mm)
        return f"{self.facing} towards the plug, near edge {near} mm behind it{middle}{last}"


def printed(items: LabelContent, stock: LabelStock) -> tuple[list[Piece], list[Finding], list[LabelItem]]:
    """Return labels as they are printed on a stock, what is found, and those that their plugs keep off it."""
    tubes = stock.tubes(items)
    places = [(item, list(stock.places(item, tubes))) for item in items.labels]
    pieces, findings = fit_all([of for of in places if of[1]], items.rules.least_type_mm)
    return pieces, findings, [item for item, some in places if not some]


def compose(items: LabelContent, stock: LabelStock) -> Laid:
    """Lay out the pages of labels on a stock; what does not fit it is found and left out."""
    pieces, findings, left_out = printed(items, stock)
    copies = [piece for piece in pieces for _ in range(items.copies)]
    notes = []
    if left_out:
        named = ", ".join(_end(item) for item in left_out)
        notes.append(f"left out, no tube of it passes their plugs, which are on already: {named}.")
    for why in dict.fromkeys(of.place.why for of in pieces if of.place.why):
        some = (f"{_end(of.item)} ({of.place.instead})" for of in pieces if of.place.why == why)
        notes.append(f"{why}: {', '.join(some)}.")
    catching = [_end(of.item) for of in pieces if of.place.instead == "flag" and of.item.goes_through]
    if catching:
        notes.append(
            f"flags catch, and these go through an opening; print them on another stock: {', '.join(catching)}."
        )

    def laid(title_block: TitleBlock) -> Composed:
        pages, said = stock.pages(copies, items, title_block)
        return Composed(pages, findings, notes + said)

    return laid


def _end(item: LabelItem) -> str:
    return f"{item.text.function} at {item.text.here}"
