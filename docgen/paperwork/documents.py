"""All documents, in the order in which they are used; take a harness and return the files to write."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

from docgen.basics.findings import Finding
from docgen.basics.units import counted
from docgen.harness.checks.accept import with_reasons
from docgen.harness.model.harness import Harness
from docgen.paperwork.bench import ring_out_content, ring_out_pages, work_content, work_pages
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.cut_list import content as cut_content
from docgen.paperwork.cut_list import pages as cut_pages
from docgen.paperwork.cut_list.spreadsheet import as_csv
from docgen.paperwork.field import (
    fault_content,
    fault_pages,
    hangar_content,
    hangar_pages,
    power_content,
    power_pages,
)
from docgen.paperwork.items import Item, item
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.selection import Selection
from docgen.paperwork.layouts.forms import Layout, Printer
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.record import record
from docgen.paperwork.record.record import Record
from docgen.paperwork.standing import DRAFT, SHEETS, Standing
from docgen.paperwork.stocks import label_list, stock
from docgen.paperwork.stocks.reading import read_stock
from docgen.paperwork.stocks.stock import LabelStock
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.title_block import TitleBlock

# Printed only where they are named.
_ON_REQUEST = (label_list.STEM,)


@dataclass(frozen=True)
class Choice:
    """What to print: stems (none: all), paper, which labels on which stock, and what a printer does to pages.

    `stock` is the name of a layout or a file; `flat_mm` is the measured flat width of a tape; `order` are the
    colours that come first in the cut list, which `csv` writes as values too; a `brief` ring-out sheet asks for no
    millivolts.
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

    def has(self, stem: str) -> bool:
        """Tell whether a document is wanted."""
        return stem in self.stems if self.stems else stem not in _ON_REQUEST


def on_paper(name: str) -> Callable[[Choice], tuple[Layout, list[Finding]]]:
    """Return how the usual layout of a paper is read, for one with the paper in its name."""
    return lambda choice: (read_page(name.format(paper=choice.paper)), [])


def _label_stock(choice: Choice) -> tuple[LabelStock | None, list[Finding]]:
    """Return the label stock that was chosen, which has its own paper, else the usual one of the paper."""
    return read_stock(choice.stock or f"strips-{choice.paper}", choice.flat_mm)


_NO_TITLE = TitleBlock("", "", "", "", None, "")


@dataclass(frozen=True)
class Document:
    """One kind of document: its stem, title, what it is for, what it holds, how that is laid out, and on what.

    `wanted` is what of it is printed as the builder asked, and what he is told of that; `values` are it as
    comma-separated values, with the name of their file; `pieces` are what of it is compared with what was issued,
    beside the whole if it `has_sheet`; `named` are cards of which it says where they stand.
    """

    stem: str
    title: str
    use: str
    content: Callable[[Harness], Any]
    compose: Callable[[Any, Any, TitleBlock], Composed]
    layout: Callable[[Choice], tuple[Layout | None, list[Finding]]]
    wanted: Callable[[Any, Choice], tuple[Any, list[str]]] = lambda items, _: (items, [])
    values: tuple[str, Callable[[Any], str]] | None = None
    pieces: Callable[[Any], list[Item]] = lambda _: []
    has_sheet: bool = True
    named: Callable[[Any], list[Item]] = lambda _: []

    def sheet(self, content: Any) -> Item:
        """Return the whole as it is compared: the lines of its pages as they are usually laid, without feet."""
        layout, _ = self.layout(Choice())
        return item((self.stem,), self.compose(content, layout, _NO_TITLE).lines)


def _sheets(title: str, use: str, content: ModuleType, pages: ModuleType, **more: Any) -> Document:
    """Return a document on usual sheets: what its module of content holds, laid out by its module of pages."""
    return Document(pages.STEM, title, use, content.content, pages.compose, on_paper("list-{paper}"), **more)


DOCUMENTS = (
    _sheets(
        "Cut list",
        "get everything out and cut it",
        cut_content,
        cut_pages,
        wanted=lambda items, choice: (cut_content.ordered(items, choice.order), []),
        values=("cut-list.csv", as_csv),
        pieces=cut_content.items,
    ),
    Document(
        wire_labels.STEM,
        "Wire labels",
        "stick on and shrink before crimping",
        wire_labels.content,
        stock.compose,
        _label_stock,
        lambda items, choice: choice.labels.wanted(items),
        values=("wire-labels.csv", label_list.as_csv),
        pieces=wire_labels.items,
        has_sheet=False,
    ),
    _sheets(
        "Label list",
        "write labels by hand, or type them",
        wire_labels,
        label_list,
        wanted=lambda items, choice: choice.labels.wanted(items),
        values=("wire-labels.csv", label_list.as_csv),
        has_sheet=False,
    ),
    _sheets("Order of work", "make each assembly at the bench", work_content, work_pages),
    _sheets(
        "Ring-out sheet",
        "measure before anything is plugged in",
        ring_out_content,
        ring_out_pages,
        wanted=lambda items, choice: (replace(items, brief=choice.brief), []),
    ),
    _sheets(
        "Pin-out cards",
        "tape up inside hatches and beside equipment",
        pinout_cards,
        pinout_cards,
        wanted=lambda items, choice: (items.only(choice.labels.circuits), []),
        pieces=pinout_cards.items,
        has_sheet=False,
    ),
    _sheets("First power-up", "switch on for the first time, step by step", power_content, power_pages),
    _sheets("Hangar card", "keep with the aircraft", hangar_content, hangar_pages, named=lambda items: items.named),
    _sheets("Fault finder", "keep with the aircraft: when something is dead", fault_content, fault_pages),
)
STEMS = (*(document.stem for document in DOCUMENTS), record.STEM)


class Output(NamedTuple):
    """What came out: its path, how much of it there is, and what it is for."""

    path: str
    extent: str
    use: str


@dataclass(frozen=True)
class Paperwork:
    """Files by path inside the output folder, what was found, what the builder is told, and what there is to use."""

    files: dict[str, bytes] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    outputs: list[Output] = field(default_factory=list)


def wrong_use(choice: Choice, harnesses: Sequence[Harness]) -> list[str]:
    """Say what was asked for of labels that is not there: circuits and places, and a first label beyond the sheet."""
    said = choice.labels.unknown(harnesses)
    sheet, _ = _label_stock(choice)
    if choice.has(wire_labels.STEM) and sheet is not None and choice.labels.first > sheet.count:
        has = counted(sheet.count, "label")
        said.append(f"--first {choice.labels.first} is beyond the sheet, which has {has}.")
    return said


def contents_of(harness: Harness) -> dict[str, Any]:
    """Return what each document holds, by its stem."""
    return {document.stem: document.content(harness) for document in DOCUMENTS}


def make_paperwork(harness: Harness, choice: Choice, standing: Standing = DRAFT) -> Paperwork:
    """Compose and draw every document that is wanted, with where it stands."""
    wanted = [document for document in DOCUMENTS if choice.has(document.stem)]
    contents = {document.stem: document.content(harness) for document in wanted}
    kept = record_of(harness, contents) if choice.has(record.STEM) else None
    made = make_documents(harness, [(document, contents[document.stem]) for document in wanted], choice, standing)
    if kept is not None:
        made.files.update({path: text.encode() for path, text in kept.files(standing).items()})
        made.outputs.append(Output(f"{record.STEM}.txt", "1 file", "keep: the whole harness as text"))
        parts = counted(len(kept.parts), "file")
        made.outputs.append(Output(f"{record.STEM}/", parts, "keep: each joint, equipment and assembly as text"))
    return made


def make_documents(
    harness: Harness, contents: Iterable[tuple[Document, Any]], choice: Choice, standing: Standing
) -> Paperwork:
    """Compose and draw documents of what they are to hold."""
    made = Paperwork()
    for document, content in contents:
        one = _make(document, content, choice, _title_block(harness, document, content, standing, choice))
        made.files.update(one.files)
        made.findings.extend(with_reasons(one.findings, harness.acceptances))
        made.notes.extend(f"{document.stem}: {note}" for note in one.notes)
        made.outputs.extend(one.outputs)
    return made


def record_of(harness: Harness, contents: Mapping[str, Any]) -> Record:
    """Return the record, which names the hashes of the cards."""
    cards = contents.get(pinout_cards.STEM) or pinout_cards.content(harness)
    return record.content(harness, cards.hashes)


def _make(document: Document, items: Any, choice: Choice, title_block: TitleBlock) -> Paperwork:
    """Compose and draw what one document holds, as it was asked for."""
    layout, findings = document.layout(choice)
    if layout is None:
        return Paperwork({}, findings, ["not printed; what is there is from an earlier state."])
    layout, notes = (layout, []) if choice.printer is None else layout.corrected(choice.printer)
    items, said = document.wanted(items, choice)
    composed = document.compose(items, layout, title_block)
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


def _title_block(harness: Harness, document: Document, content: Any, standing: Standing, choice: Choice) -> TitleBlock:
    """Return what a document says of itself: a whole where it stands and its hash, one of parts that of each."""
    aircraft, pieces = harness.aircraft, document.pieces(content)
    sheet = document.sheet(content) if document.has_sheet else None
    stamp = standing.of(SHEETS, sheet) if sheet else standing.of_all(document.stem, pieces)
    named = {" ".join(card.key): standing.of(pinout_cards.STEM, card).issue for card in document.named(content)}
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
