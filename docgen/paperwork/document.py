"""What a kind of document is, and how one is composed and drawn: content in, files out."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import field
from pathlib import Path
from typing import Any, NamedTuple

from docgen.basics.doing import doing
from docgen.basics.findings import Finding
from docgen.basics.frozen import frozen
from docgen.basics.units import counted
from docgen.harness.checks.accept import with_reasons
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.items import Item, item
from docgen.paperwork.labels.selection import Selection
from docgen.paperwork.layouts.forms import Layout, Printer
from docgen.paperwork.standing import SHEETS, Standing
from docgen.paperwork.typesetting.composed import Laid
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.title_block import NO_TITLE, TitleBlock


@frozen
class Choice:
    """What to print: stems (none: all), paper, which labels on which stock, and what a printer does to pages.

    `stock` is the name of a layout or a file; `flat_mm` is the measured flat width of a tape; `order` are the
    colours that come first in the cut list, which `csv` writes as values too; a `brief` ring-out sheet asks for no
    millivolts. Of one `assembly` only what belongs to it is printed.
    """

    stems: tuple[str, ...] = ()
    paper: str = "a4"
    stock: str | Path | None = None
    flat_mm: float | None = None
    labels: Selection = field(default=Selection())
    order: tuple[str, ...] = ()
    csv: bool = False
    brief: bool = False
    printer: Printer | None = None
    assembly: str | None = None

    def has(self, stem: str) -> bool:
        """Tell whether a document is wanted."""
        return not self.stems or stem in self.stems


@frozen
class _Laying:
    """What was laid out, and on what."""

    items: Any
    layout: Layout
    laid: Laid

    def holds(self, items: Any, layout: Layout) -> bool:
        """Tell whether it is that."""
        return bool(self.items == items and self.layout == layout)


@frozen
class Document:
    """One kind of document: its stem, title, what it is for, what it holds, how that is laid out, and on what.

    `wanted` is what of it is printed as the builder asked, and what he is told of that; `values` are it as
    comma-separated values, with the name of their file; `pieces` are what of it is compared with what was issued,
    beside the whole if it `has_sheet`; `named` are cards of which it says where they stand. One that is not `kept` is
    in no state; unasked it is printed where there is a `reason`. One that `parts` can be printed for an assembly alone.
    """

    stem: str
    title: str
    use: str
    content: Callable[[Harness], Any]
    compose: Callable[[Any, Any], Laid]
    layout: Callable[[Choice], tuple[Layout | None, list[Finding]]]
    wanted: Callable[[Any, Choice], tuple[Any, list[str]]] = lambda items, _: (items, [])
    values: tuple[str, Callable[[Any], str]] | None = None
    pieces: Callable[[Any], list[Item]] = lambda _: []
    has_sheet: bool = True
    named: Callable[[Any], list[Item]] = lambda _: []
    kept: bool = True
    reason: Callable[[Harness], bool] = lambda _: True
    parts: bool = True

    def is_wanted(self, harness: Harness, choice: Choice) -> bool:
        """Tell whether it is printed."""
        asked = self.stem in choice.stems
        return choice.has(self.stem) and (self.parts or choice.assembly is None) and (asked or self.reason(harness))

    def usual(self, content: Any) -> _Laying:
        """Lay out the whole as it usually is."""
        layout, _ = self.layout(Choice())
        assert layout is not None
        return _Laying(content, layout, self.compose(content, layout))

    def sheet(self, usual: _Laying) -> Item:
        """Return the whole, as it is usually laid, as it is compared: the lines of its pages, without feet."""
        return item((self.stem,), usual.laid(NO_TITLE).lines)


class Output(NamedTuple):
    """What came out: its path, how much of it there is, and what it is for."""

    path: str
    extent: str
    use: str

    def below(self, folder: Path) -> Output:
        """Return it with its path from where the command was given."""
        return self._replace(path=f"{folder.as_posix()}/{self.path}")


@frozen
class Paperwork:
    """Files by path inside the output folder, what was found, what the builder is told, and what there is to use."""

    files: dict[str, bytes] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    outputs: list[Output] = field(default_factory=list)


def make_documents(
    harness: Harness,
    contents: Iterable[tuple[Document, Any]],
    choice: Choice,
    standing: Standing,
    shown: Harness | None = None,
) -> Paperwork:
    """Compose and draw documents of what they are to hold, or that of it which belongs to a part that is `shown`."""
    made = Paperwork()
    for document, content in contents:
        doing(f"{harness.aircraft.name}: {document.title}")
        usual = document.usual(content) if document.has_sheet else None
        title_block = _title_block(harness, document, content, usual, standing, choice)
        items = content if shown is None else document.content(shown)
        one = _make(document, items, choice, title_block, usual)
        made.files.update(one.files)
        made.findings.extend(with_reasons(one.findings, harness.acceptances))
        made.notes.extend(f"{document.stem}: {note}" for note in one.notes)
        made.outputs.extend(one.outputs)
    return made


def _make(document: Document, items: Any, choice: Choice, title_block: TitleBlock, usual: _Laying | None) -> Paperwork:
    """Compose and draw what one document holds, as it was asked for."""
    layout, findings = document.layout(choice)
    if layout is None:
        return Paperwork({}, findings, ["not printed; what is there is from an earlier state."])
    layout, notes = (layout, []) if choice.printer is None else layout.corrected(choice.printer)
    items, said = document.wanted(items, choice)
    laid = usual.laid if usual is not None and usual.holds(items, layout) else document.compose(items, layout)
    composed = laid(title_block)
    made = Paperwork({}, findings + composed.findings, notes + said + composed.notes)
    if document.values is not None and choice.csv:
        values, written = document.values
        made.files[values] = written(items).encode()
        made.outputs.append(Output(values, "1 file", "open in a spreadsheet"))
    if not composed.pages:
        made.notes.append("there is nothing to show, so it is not printed.")
        return made
    if choice.printer is not None and layout.on_sheets:
        made.notes.extend(choice.printer.other_way(composed.pages[0].width_mm, composed.pages[0].height_mm))
    correction = choice.printer.correction if choice.printer is not None else None
    title = f"{document.title} · {title_block.aircraft} {title_block.marks}"
    subject = title_block.state
    pdf = f"{document.stem}.pdf"
    made.files[pdf] = draw_pdf(composed.pages, title, subject, correction)
    extent = counted(len(composed.pages), "sheet" if layout.on_sheets else "page")
    made.outputs.insert(0, Output(pdf, extent, document.use))
    return made


def _title_block(
    harness: Harness, document: Document, content: Any, usual: _Laying | None, standing: Standing, choice: Choice
) -> TitleBlock:
    """Return what a document says of itself: a whole where it stands and its hash, one of parts that of each."""
    aircraft, pieces = harness.aircraft, document.pieces(content)
    sheet = document.sheet(usual) if usual is not None else None
    stamp = standing.of(SHEETS, sheet) if sheet else standing.of_all(document.stem, pieces)
    named = {" ".join(card.key): standing.of(pinout_cards.STEM, card).since for card in document.named(content)}
    return TitleBlock(
        aircraft.name,
        aircraft.marks,
        stamp.issue,
        stamp.date,
        aircraft.record,
        sheet.content_hash if sheet else "",
        named if sheet else {" ".join(piece.key): standing.of(document.stem, piece).text for piece in pieces},
        choice.printer is not None,
    )
