"""Which documents there are, in the order in which they are used, and what is printed of what was asked for."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pypdf
import pytest
from resolved import EXAMPLES, harness_of

from docgen.basics.findings import Finding
from docgen.paperwork.documents import (
    DOCUMENTS,
    STEMS,
    Choice,
    Output,
    Paperwork,
    contents_of,
    make_paperwork,
    record_of,
    wrong_use,
)
from docgen.paperwork.items import item
from docgen.paperwork.labels.selection import Selection
from docgen.paperwork.layouts.reading import read_printer
from docgen.paperwork.standing import NOT_ISSUED, SHEETS, Stamp, Standing

if TYPE_CHECKING:
    from docgen.paperwork.document import Document

# As the README lists them, with what each is for.
USES = {
    "measuring-sheet": ("Measuring sheet", "measure at the airframe"),
    "cut-list": ("Cut list", "get everything out and cut it"),
    "wire-labels": ("Wire labels", "stick on and shrink before crimping"),
    "label-list": ("Label list", "write labels by hand, or type them"),
    "order-of-work": ("Order of work", "make each assembly at the bench"),
    "ring-out-sheet": ("Ring-out sheet", "measure before anything is plugged in"),
    "pinout-cards": ("Pin-out cards", "tape up inside hatches and beside equipment"),
    "first-power": ("First power-up", "switch on for the first time, step by step"),
    "hangar-card": ("Hangar card", "keep with the aircraft"),
    "fault-finder": ("Fault finder", "keep with the aircraft: when something is dead"),
}
# Unasked no list of labels, and the measuring sheet only where something is not measured.
USUAL = [stem for stem in USES if stem not in ("measuring-sheet", "label-list")]
WHOLE_AIRCRAFT = {"first-power", "hangar-card", "fault-finder"}


def made(*stems: str, **more: object) -> Paperwork:
    return make_paperwork(harness_of(EXAMPLES / "wren"), Choice(stems=stems, **more))  # type: ignore[arg-type]


def test_documents_have_their_titles_and_uses_in_the_order_in_which_they_are_used() -> None:
    assert {document.stem: (document.title, document.use) for document in DOCUMENTS} == USES
    assert [*STEMS] == [*USES, "record"]


@cache
def whole() -> Paperwork:
    return made()


def test_all_of_an_aircraft_is_its_documents_then_the_record_and_the_page_that_leads_to_it() -> None:
    outputs = [output.path for output in whole().outputs]
    assert outputs == [*(f"{stem}.pdf" for stem in USUAL), "record.txt", "record/", "index.html"]
    uses = {output.path: output.use for output in whole().outputs}
    assert {stem: uses[f"{stem}.pdf"] for stem in USUAL} == {stem: USES[stem][1] for stem in USUAL}
    assert (uses["record.txt"], uses["record/"], uses["index.html"]) == (
        "keep: the whole harness as text",
        "keep: each joint, equipment and assembly as text",
        "put on the web with them: leads to the record",
    )
    extents = {output.path: output.extent for output in whole().outputs}
    # Two joints, a receiver and three assemblies.
    assert (extents["record.txt"], extents["record/"], extents["index.html"]) == ("1 file", "6 files", "1 file")
    for stem in USUAL:
        pages = len(pypdf.PdfReader(io.BytesIO(whole().files[f"{stem}.pdf"])).pages)
        assert extents[f"{stem}.pdf"] == f"{pages} sheet{'s' if pages > 1 else ''}"
    assert whole().notes == []


@pytest.mark.parametrize("stem", [*USES, "record"])
def test_a_document_that_is_asked_for_is_printed_alone(stem: str) -> None:
    files = made(stem).files
    if stem == "record":
        assert {path.partition("/")[0] for path in files} == {"record.txt", "record", "index.html"}
    else:
        assert list(files) == [f"{stem}.pdf"]


def test_what_a_pdf_calls_itself_names_document_aircraft_and_where_it_stands() -> None:
    for stem in ("cut-list", "pinout-cards"):
        info = pypdf.PdfReader(io.BytesIO(whole().files[f"{stem}.pdf"])).metadata
        assert info is not None
        assert info.title == f"{USES[stem][0]} · Wren WR-7"
        assert info.subject == "draft"


def test_values_stand_beside_what_they_are_of_where_they_are_asked_for() -> None:
    both = made("cut-list", "wire-labels", "order-of-work", csv=True)
    assert [(output.path, output.extent, output.use) for output in both.outputs if output.path.endswith("csv")] == [
        ("cut-list.csv", "1 file", "open in a spreadsheet"),
        ("wire-labels.csv", "1 file", "open in a spreadsheet"),
    ]
    assert [output.path for output in both.outputs] == [
        *("cut-list.pdf", "cut-list.csv", "wire-labels.pdf", "wire-labels.csv", "order-of-work.pdf")
    ]
    assert not any(path.endswith("csv") for path in whole().files)


def test_of_an_assembly_only_what_can_be_parted_is_printed_below_its_name() -> None:
    part = made(*USES, "record", assembly="left-panel")
    stems = [stem for stem in USES if stem not in WHOLE_AIRCRAFT]
    assert [output.path for output in part.outputs] == [f"left-panel/{stem}.pdf" for stem in stems]
    assert sorted(part.files) == sorted(f"left-panel/{stem}.pdf" for stem in stems)
    none = made("cut-list", assembly="tail")
    assert (none.files, none.notes) == ({}, ["there is no assembly tail."])


def test_labels_of_a_stock_that_is_wrong_are_not_printed_and_all_else_is(tmp_path: Path) -> None:
    stock = tmp_path / "own.yaml"
    stock.write_text("kind: label strips\n", "utf-8")
    found = made("cut-list", "wire-labels", stock=stock)
    assert list(found.files) == ["cut-list.pdf"]
    assert found.findings
    assert found.notes == ["wire-labels: not printed; what is there is from an earlier state."]


def test_a_printer_is_told_of_pages_that_lie_the_other_way(tmp_path: Path) -> None:
    path = tmp_path / "printer.yaml"
    path.write_text("kind: printer\nscale: [101 %, 99 %]\nshift: [1 mm, 0 mm]\n", "utf-8")
    printer, _ = read_printer(path)
    told = made("cut-list", "hangar-card", printer=printer).notes
    assert len(told) == 1
    assert told[0].startswith("hangar-card: its pages lie the other way than the one that was measured")
    assert made("cut-list", "hangar-card").notes == []


def test_wrong_use_is_said_of_assemblies_and_first_labels() -> None:
    wren = harness_of(EXAMPLES / "wren")
    assert wrong_use(Choice(), [wren]) == []
    assert wrong_use(Choice(assembly="left-panel"), [wren]) == []
    (said,) = wrong_use(Choice(assembly="tail"), [wren, wren])
    assert said == "there is no assembly 'tail' (known: fuselage, left-panel, right-panel)."
    # Five cells across, 39 down.
    for first, beyond in ((195, False), (196, True)):
        choice = Choice(labels=Selection(first=first))
        told = wrong_use(choice, [wren])
        assert told == [f"--first {first} is beyond the sheet, which has 195 labels."] * beyond
        assert wrong_use(replace(choice, stems=("cut-list",)), [wren]) == []


def test_a_state_keeps_what_all_documents_hold_but_for_what_is_to_be_measured() -> None:
    assert list(contents_of(harness_of(EXAMPLES / "wren"))) == [stem for stem in USES if stem != "measuring-sheet"]


def test_the_record_names_the_cards_whether_they_are_printed_or_not() -> None:
    harness = harness_of(EXAMPLES / "wren")
    alone, beside = record_of(harness, {}), record_of(harness, contents_of(harness))
    assert alone == beside
    assert alone.whole.count("card ") >= 5


def test_an_output_below_a_folder_has_its_path_from_there() -> None:
    below = Output("record/", "6 files", "keep").below(Path("out/wren"))
    assert below == ("out/wren/record/", "6 files", "keep")


A, B = item(("cut-list",), ["one"]), item(("cut-list",), ["two"])
LAST = Stamp("B", "2026-05-30", built=True)


def test_what_has_the_hash_that_was_issued_stands_at_its_issue_and_all_else_is_a_draft() -> None:
    standing = Standing(NOT_ISSUED, LAST, {(SHEETS, "cut-list"): (A.content_hash, Stamp("A", "2026-01-02"))})
    assert standing.of(SHEETS, A).text == "issue A · 2026-01-02"
    assert standing.of(SHEETS, B) == standing.of("cut-list", A) == NOT_ISSUED
    assert (LAST.issue, LAST.text) == ("issue B, built", "issue B, built · 2026-05-30")
    assert (NOT_ISSUED.issue, NOT_ISSUED.text) == ("draft", "draft")


def test_parts_stand_at_the_last_issue_together_where_that_holds_just_them() -> None:
    one, other = item(("rudder", "A"), ["one"]), item(("rudder", "B"), ["two"])
    kept = {
        ("wire-labels", "rudder A"): (one.content_hash, LAST),
        ("wire-labels", "rudder B"): (other.content_hash, LAST),
    }
    standing = Standing(NOT_ISSUED, LAST, {**kept, ("pinout-cards", "rudder"): ("0", LAST)})
    assert standing.of_all("wire-labels", [one, other]) == LAST
    assert standing.of_all("wire-labels", [one]) == NOT_ISSUED
    assert standing.of_all("wire-labels", [one, other, A]) == NOT_ISSUED
    assert standing.of_all("wire-labels", [one, replace(other, content_hash="0")]) == NOT_ISSUED


def test_items_are_texts_in_one_line_each_and_empty_ones_are_none() -> None:
    found = item(["rudder", "A"], ["one\n two", "", " "], ["cut  3"])
    assert (found.key, found.text, found.work) == (("rudder", "A"), ("one two",), ("cut 3",))
    # What is cut and what is said are told apart; a hash that is given is kept.
    hashes = {item(["x"], text, work).content_hash for text, work in ((["a"], []), ([], ["a"]), (["a"], ["a"]))}
    assert len(hashes) == 3
    assert item(["x"], ["a"]).content_hash == item(["y"], ["a"]).content_hash
    assert item(["x"], ["a"], content_hash="0123abcd").content_hash == "0123abcd"


def test_a_title_block_says_whose_paper_it_is_and_where_each_sheet_or_part_stands() -> None:
    document: dict[str, Document] = {one.stem: one for one in DOCUMENTS}
    harness = harness_of(EXAMPLES / "wren")
    content = document["cut-list"].content(harness)
    sheet = document["cut-list"].sheet(document["cut-list"].usual(content))
    standing = Standing(NOT_ISSUED, LAST, {(SHEETS, "cut-list"): (sheet.content_hash, Stamp("A", "2026-01-02"))})
    paper = make_paperwork(harness, Choice(stems=("cut-list", "order-of-work")), standing)
    feet = {stem: _foot(paper.files[f"{stem}.pdf"]) for stem in ("cut-list", "order-of-work")}
    assert feet["cut-list"].startswith(f"Wren · WR-7 · issue A · 2026-01-02 · page 1 of 1 · {sheet.content_hash}")
    assert feet["order-of-work"].startswith("Wren · WR-7 · draft · page 1 of 2 · ")


def _foot(content: bytes) -> str:
    lines = pypdf.PdfReader(io.BytesIO(content)).pages[0].extract_text().split("\n")
    return next(line for line in lines if "page 1 of" in line)


def test_findings_of_labels_are_told_with_why_they_are_accepted() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    accepted = replace(harness, acceptances={("circuits", "left-fan-supply"): {"tube": "wrapped by hand"}})
    found = make_paperwork(accepted, Choice(stems=("wire-labels",), stock="tape-9")).findings
    reasons = {one.subject[1]: one.accepted for one in found if isinstance(one, Finding) and one.name == "tube"}
    assert reasons["left-fan-supply"] == "wrapped by hand"
    assert reasons["right-fan-supply"] == ""
