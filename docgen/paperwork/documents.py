"""All documents, in the order in which they are used; take a harness and return the files to write."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from types import ModuleType
from typing import Any

from docgen.basics.findings import Finding, listed
from docgen.basics.units import counted
from docgen.harness.model.harness import Harness
from docgen.paperwork.bench import ring_out_content, ring_out_pages, work_content, work_pages
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.cut_list import content as cut_content
from docgen.paperwork.cut_list import pages as cut_pages
from docgen.paperwork.cut_list.spreadsheet import as_csv
from docgen.paperwork.document import Choice, Document, Output, Paperwork, make_documents
from docgen.paperwork.field import (
    fault_content,
    fault_pages,
    hangar_content,
    hangar_pages,
    power_content,
    power_pages,
)
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.forms import Layout
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.measuring import content as measuring_content
from docgen.paperwork.measuring import pages as measuring_pages
from docgen.paperwork.record import record
from docgen.paperwork.record.index import PATH, index_of
from docgen.paperwork.record.record import Record
from docgen.paperwork.standing import DRAFT, Standing
from docgen.paperwork.stocks import label_list, stock
from docgen.paperwork.stocks.reading import read_stock
from docgen.paperwork.stocks.stock import LabelStock

__all__ = ["Choice", "Document", "Output", "Paperwork", "make_documents"]  # what prints needs them too


def on_paper(name: str) -> Callable[[Choice], tuple[Layout, list[Finding]]]:
    """Return how the usual layout of a paper is read, for one with the paper in its name."""
    return lambda choice: (read_page(name.format(paper=choice.paper)), [])


def _label_stock(choice: Choice) -> tuple[LabelStock | None, list[Finding]]:
    """Return the label stock that was chosen, which has its own paper, else the usual one of the paper."""
    return read_stock(choice.stock or f"strips-{choice.paper}", choice.flat_mm)


def _sheets(title: str, use: str, content: ModuleType, pages: ModuleType, **more: Any) -> Document:
    """Return a document on usual sheets: what its module of content holds, laid out by its module of pages."""
    return Document(pages.STEM, title, use, content.content, pages.compose, on_paper("list-{paper}"), **more)


DOCUMENTS = (
    _sheets(
        "Measuring sheet",
        "measure at the airframe",
        measuring_content,
        measuring_pages,
        kept=False,
        reason=measuring_content.is_wanted,
    ),
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
        reason=lambda _: False,
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
    _sheets("First power-up", "switch on for the first time, step by step", power_content, power_pages, parts=False),
    _sheets(
        "Hangar card",
        "keep with the aircraft",
        hangar_content,
        hangar_pages,
        named=lambda items: items.named,
        parts=False,
    ),
    _sheets("Fault finder", "keep with the aircraft: when something is dead", fault_content, fault_pages, parts=False),
)
STEMS = (*(document.stem for document in DOCUMENTS), record.STEM)


def wrong_use(choice: Choice, harnesses: Sequence[Harness]) -> list[str]:
    """Say what was asked for of labels that is not there: circuits and places, and a first label beyond the sheet."""
    said = choice.labels.unknown(harnesses)
    assemblies = [name for harness in harnesses for name in harness.assemblies]
    if choice.assembly is not None and choice.assembly not in assemblies:
        said.append(f"there is no assembly '{choice.assembly}' (known: {listed(dict.fromkeys(assemblies))}).")
    sheet, _ = _label_stock(choice)
    if choice.has(wire_labels.STEM) and sheet is not None and choice.labels.first > sheet.count:
        has = counted(sheet.count, "label")
        said.append(f"--first {choice.labels.first} is beyond the sheet, which has {has}.")
    return said


def contents_of(harness: Harness) -> dict[str, Any]:
    """Return what each document holds that a state keeps, by its stem."""
    return {document.stem: document.content(harness) for document in DOCUMENTS if document.kept}


def make_paperwork(harness: Harness, choice: Choice, standing: Standing = DRAFT) -> Paperwork:
    """Compose and draw every document that is wanted, with where it stands; of an assembly below its name."""
    shown = harness if choice.assembly is None else harness.of_assembly(choice.assembly)
    wanted = [document for document in DOCUMENTS if document.is_wanted(shown, choice)]
    contents = {document.stem: document.content(harness) for document in wanted}
    if choice.assembly is not None:
        return _of_assembly(harness, [(document, contents[document.stem]) for document in wanted], choice, standing)
    kept = record_of(harness, contents) if choice.has(record.STEM) else None
    made = make_documents(harness, [(document, contents[document.stem]) for document in wanted], choice, standing)
    if kept is not None:
        title = f"{harness.aircraft.name} {harness.aircraft.marks}"
        texts = kept.files(standing) | {PATH: index_of(title, record.WHOLE, kept.parts)}
        made.files.update({path: text.encode() for path, text in texts.items()})
        made.outputs.append(Output(f"{record.STEM}.txt", "1 file", "keep: the whole harness as text"))
        parts = counted(len(kept.parts), "file")
        made.outputs.append(Output(f"{record.STEM}/", parts, "keep: each joint, equipment and assembly as text"))
        made.outputs.append(Output(PATH, "1 file", "put on the web with them: leads to the record"))
    return made


def _of_assembly(
    harness: Harness, contents: Iterable[tuple[Document, Any]], choice: Choice, standing: Standing
) -> Paperwork:
    """Compose and draw what belongs to one assembly, with marks, hashes and issues of the whole."""
    name = choice.assembly or ""
    if name not in harness.assemblies:
        return Paperwork(notes=[f"there is no assembly {name}."])
    made = make_documents(harness, contents, choice, standing, harness.of_assembly(name))
    files = {f"{name}/{path}": content for path, content in made.files.items()}
    outputs = [output._replace(path=f"{name}/{output.path}") for output in made.outputs]
    return replace(made, files=files, outputs=outputs)


def record_of(harness: Harness, contents: Mapping[str, Any]) -> Record:
    """Return the record, which names the hashes of the cards."""
    cards = contents.get(pinout_cards.STEM) or pinout_cards.content(harness)
    return record.content(harness, cards.hashes)
