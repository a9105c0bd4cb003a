"""All documents, in the order in which they are used; take a harness and return the files to write."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from docgen.basics.findings import Finding, Position
from docgen.basics.units import decimal
from docgen.harness.checks.accept import with_reasons
from docgen.harness.model.harness import Harness
from docgen.paperwork.bench import ring_out_content, ring_out_pages, work_content, work_pages
from docgen.paperwork.cards import pinout_cards as cards
from docgen.paperwork.cut_list import content as cut_content
from docgen.paperwork.cut_list import pages as cut_pages
from docgen.paperwork.cut_list.spreadsheet import as_csv
from docgen.paperwork.hangar import content as hangar_content
from docgen.paperwork.hangar import hangar_card
from docgen.paperwork.labels import sheets as label_pages
from docgen.paperwork.labels import wire_labels
from docgen.paperwork.labels.wire_labels import Selection
from docgen.paperwork.record import record
from docgen.paperwork.stocks.files import STOCK, read_layout_file
from docgen.paperwork.stocks.layouts import LabelTape, Layout, PageLayout, Printer
from docgen.paperwork.stocks.reading import read_layout
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.ink import Page
from docgen.paperwork.typesetting.title_block import TitleBlock


@dataclass(frozen=True)
class Document:
    """One kind of document: its stem, title, what it holds, how it is laid out, and on which layout."""

    stem: str
    title: str
    content: Callable[[Harness], Any]
    compose: Callable[..., Any]
    layout: dict[str, str]


DOCUMENTS = (
    Document(
        wire_labels.STEM,
        "Wire labels",
        wire_labels.content,
        label_pages.compose,
        {"a4": "carrier-a4", "letter": "carrier-letter"},
    ),
    Document(
        cards.STEM,
        "Pin-out cards",
        cards.content,
        cards.compose,
        {"a4": "card-a6", "letter": "card-a6"},
    ),
    Document(
        cut_pages.STEM,
        "Cut list",
        cut_content.content,
        cut_pages.compose,
        {"a4": "list-a4", "letter": "list-letter"},
    ),
    Document(
        work_pages.STEM,
        "Order of work",
        work_content.content,
        work_pages.compose,
        {"a4": "list-a4", "letter": "list-letter"},
    ),
    Document(
        ring_out_pages.STEM,
        "Ring-out sheet",
        ring_out_content.content,
        ring_out_pages.compose,
        {"a4": "list-a4", "letter": "list-letter"},
    ),
    Document(
        hangar_card.STEM,
        "Hangar card",
        hangar_content.content,
        hangar_card.compose,
        {"a4": "card-a5", "letter": "card-a5"},
    ),
)
STEMS = (*(document.stem for document in DOCUMENTS), record.STEM)


@dataclass(frozen=True)
class Choice:
    """What to print: stems (none: all), paper, which labels on which stock, and what a printer does to pages.

    `stock` is the name of a layout or a file; `flat_mm` is the measured flat width of a tape; `order` are the
    colours that come first in the cut list, which `csv` writes as values too.
    """

    stems: tuple[str, ...] = ()
    paper: str = "a4"
    stock: str | Path | None = None
    flat_mm: float | None = None
    labels: Selection = field(default=Selection())
    order: tuple[str, ...] = ()
    csv: bool = False
    printer: Printer | None = None

    def has(self, stem: str) -> bool:
        """Tell whether a document is wanted."""
        return not self.stems or stem in self.stems


@dataclass(frozen=True)
class Paperwork:
    """Files by path inside the output folder, what was found, and what the builder is told."""

    files: dict[str, bytes]
    findings: list[Finding]
    notes: list[str]


def wrong_use(choice: Choice, harnesses: Sequence[Harness]) -> list[str]:
    """Say what was asked for of labels that is not there: circuits and places, and a first label beyond the sheet."""
    said = choice.labels.unknown(harnesses)
    layout, _ = _layout(DOCUMENTS[0], choice)
    if choice.has(wire_labels.STEM) and layout is not None and not isinstance(layout, PageLayout):
        count = 1 if isinstance(layout, LabelTape) else layout.cells.across * layout.cells.down
        if choice.labels.first > count:
            has = f"{count} label{'s' if count > 1 else ''}"
            said.append(f"--first {choice.labels.first} is beyond the sheet, which has {has}.")
    return said


def make_paperwork(harness: Harness, choice: Choice) -> Paperwork:
    """Compose and draw every document that is wanted."""
    wanted = [each for each in DOCUMENTS if choice.has(each.stem) or each.stem == cards.STEM]
    contents = {each.stem: each.content(harness) for each in wanted}
    kept = record.content(harness, contents[cards.STEM].hashes)
    title_block = _title_block(harness, kept.content_hash, choice)
    correction = choice.printer.correction if choice.printer is not None else None
    files: dict[str, bytes] = {}
    findings: list[Finding] = []
    notes: list[str] = []
    for document in DOCUMENTS:
        if not choice.has(document.stem):
            continue
        layout, found = _layout(document, choice)
        findings += found
        if layout is None:
            notes.append(f"{document.stem}: not printed; what is there is from an earlier state.")
            continue
        if isinstance(layout, LabelTape) and choice.printer is not None:
            layout = layout.corrected(choice.printer)
            notes.append(_corrected_says(layout))
        items = contents[document.stem]
        if document.stem == wire_labels.STEM:
            items = choice.labels.of(items)
            notes += [f"{document.stem}: no label is {choice.labels.says}."] if not items.labels else []
        if document.stem == cut_pages.STEM:
            items = cut_content.ordered(items, choice.order)
            files.update({"cut-list.csv": as_csv(items).encode()} if choice.csv else {})
        composed = document.compose(items, layout, title_block)
        findings += with_reasons(composed.findings, harness.acceptances)
        notes += [f"{document.stem}: {note}" for note in composed.notes]
        if not composed.pages:
            notes.append(f"{document.stem}: there is nothing to show, so it is not printed.")
            continue
        if choice.printer is not None and not isinstance(layout, LabelTape):
            notes += [f"{document.stem}: {says}" for says in _other_way(choice.printer, composed.pages[0])]
        title = f"{document.title} · {title_block.aircraft} {title_block.marks}"
        subject = f"revision {title_block.revision} · {title_block.date}"
        files[f"{document.stem}.pdf"] = draw_pdf(composed.pages, title, subject, correction)
    if choice.has(record.STEM):
        files.update({path: text.encode() for path, text in kept.files().items()})
    return Paperwork(files, findings, notes)


def _title_block(harness: Harness, record_hash: str, choice: Choice) -> TitleBlock:
    aircraft = harness.aircraft
    return TitleBlock(
        aircraft.name,
        aircraft.marks,
        aircraft.revision,
        aircraft.date,
        aircraft.record,
        record_hash,
        choice.printer is not None,
    )


def _other_way(printer: Printer, page: Page) -> list[str]:
    """Say so where a page lies the other way than that on which a printer was measured."""
    if printer.is_of(page.width_mm, page.height_mm):
        return []
    says = "its pages lie the other way than the one that was measured, so directions are mixed up"
    return [f"{says}. Measure `docgen ruler{'' if printer.turned == 'yes' else ' --turned'}` for them."]


def _corrected_says(tape: LabelTape) -> str:
    room = f"{tape.clear.edges:.1f} mm at its edges and {tape.clear.ends:.1f} mm at its ends"
    says = "corrected for one printer, which a tape has no room to say; so that nothing is cut"
    return f"{wire_labels.STEM}: {says}, {room} are clear."


def _layout(document: Document, choice: Choice) -> tuple[Layout | None, list[Finding]]:
    """Return the layout of a document: the usual one of the paper, or the label stock that was chosen."""
    if document.stem != wire_labels.STEM or choice.stock is None:
        return read_layout(document.layout[choice.paper])
    if isinstance(choice.stock, str):
        layout, findings = read_layout(choice.stock)
    else:
        layout, findings = read_layout_file(choice.stock, str(choice.stock))
    if isinstance(layout, PageLayout):
        sentence = "this layout is no stock for labels."
        return None, [Finding(Position(str(choice.stock), 1, 1), "value", sentence, "Name a label stock.")]
    if choice.flat_mm is not None and layout is not None:
        at = Position(str(choice.stock), 1, 1)
        if not isinstance(layout, LabelTape):
            return None, [STOCK.at(at, "`--flat` is said of a stock that is no tape.", "Leave it out.")]
        if choice.flat_mm > layout.width:
            sentence = (
                f"a flat tube of {decimal(choice.flat_mm)} mm is wider than its tape of {decimal(layout.width)} mm."
            )
            return None, [STOCK.at(at, sentence, "Measure the flat tube again, or name another tape.")]
        layout = layout.measured(choice.flat_mm)
    return layout, findings
