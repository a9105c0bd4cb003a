"""What the rework sheet and the labels and cards with it say, read from the PDF, held to what was written by hand."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import pypdf
import pytest
from page_facts import heights_off, sheets_of, texts_near_an_edge, texts_struck, texts_that_meet
from printed_rework import Line, sections
from reissue.altered import CHANGES, changed_folder, each_change, state_before
from resolved import check_once, state_of

from docgen.paperwork.documents import Choice, Paperwork
from docgen.paperwork.standing import DRAFT
from docgen.reissue.rework import rework

if TYPE_CHECKING:
    from reissue.by_hand import Change

# Where the leads of the changes begin and end: of a pair that plugs straight in, where its one label is.
ENDS = {
    "rudder B": {"from": "tail loose", "to": "rudder"},
    "strobe A": {"from": "power-unit SOFT-2", "to": "tail fixed"},
    "strobe B": {"from": "tail loose", "to": "strobe"},
    "tail-light A": {"from": "lamp-unit TAIL", "to": "tail fixed"},
    "tail-light B": {"from": "tail loose", "to": "tail-light"},
    "rear-light A": {"from": "lamp-unit TAIL", "to": "tail fixed"},
    "rear-light B": {"from": "tail loose", "to": "tail-light"},
    "left-elevator A": {"from": "power-unit 8", "to": "tail fixed"},
    "right-elevator A": {"from": "power-unit 7", "to": "tail fixed"},
    "gyro A": {"to": "receiver-a 6"},
}
ABOARD = ("hangar-card", "fault-finder")
CHECKS = {
    "volts unplugged": "volts",
    "idle current": "idle",
    "gyro against tilt": "gyro",
    "limit set, timed": "limit",
}


_PRINTED: dict[str, Paperwork] = {}


def reworked(tmp_path: Path, name: str) -> Paperwork:
    """Return what is printed when a change is issued, worked out once; labels are flags, which need no tube."""
    if name not in _PRINTED:
        change = CHANGES[name]
        folder = changed_folder(tmp_path, change)
        harness = check_once(folder).harness
        assert harness is not None
        before, now = state_before(tmp_path, change), state_of(folder, "B")
        _PRINTED[name] = rework(before, now, harness, Choice(stock="flags-a4"), DRAFT)
    return _PRINTED[name]


def colour(mark: str) -> str:
    """Return the colour of a wire of the changes: of a negative, a signal, a positive."""
    is_signal = mark.startswith(("C14", "C16", "C18", "M7", "M9"))
    return "BK" if mark.endswith("N") else "WH" if is_signal else "RD"


def by_end(said: Sequence[str]) -> set[str]:
    """Return wires at contacts, said by their marks, by their colours."""
    return {f"{at} {colour(mark)}" for at, mark in (each.rsplit(" ", 1) for each in said)}


def of_heading(lines: Sequence[Line], heading: str) -> set[str]:
    """Return the wires at contacts that stand under a heading, the place before each."""
    cells = [(line.large("at"), line.large(heading)) for line in lines]
    return {f"{at} {each}" for at, cell in cells if cell[:1].isdigit() for each in cell.split(", ")}


def under_covers(found: dict[str, list[Line]]) -> list[Line]:
    """Return what is done under covers, before and after leads are through sleeves and openings."""
    return [*found.get("Under the covers", []), *found.get("Ends that were free, once through", [])]


def labels(lines: Sequence[Line], does: str) -> set[tuple[str, str]]:
    """Return the leads and ends at which labels come off, or go on."""
    has = [line for line in lines if any(text.startswith(f"{does} ") for text in line.small("label"))]
    return {(" ".join(line.small("lead")), line.large("at")) for line in has}


def ends(keys: Sequence[str], change: Change) -> set[tuple[str, str]]:
    """Return leads and ends of the keys of labels, what is renamed by the name that it has."""
    renamed = {old: new for _, old, new in (same.split(" ") for same in change.same)}
    found = set()
    for circuit, letter, end in (key.split(" ") for key in keys):
        name = renamed.get(circuit, circuit) if circuit in ("tail-light", "rear-light") else circuit
        at = ENDS[f"{name} {letter}"][end]
        found.add((f"{name} {letter}", renamed.get(at, at) if at == "rudder" else at))
    return found


def rung(lines: Sequence[Line]) -> Iterator[str]:
    """Walk the leads that are rung out: in bold type at the left edge of their rows."""
    for line in lines:
        texts = [
            text for of in line.cells.values() for text in of if text.bold and re.fullmatch(r"\S+ [A-Z]", text.text)
        ]
        yield from (text.text for text in texts)


def checked(lines: Sequence[Line]) -> Iterator[tuple[str, set[str]]]:
    for line in lines:
        texts = [text for of in line.cells.values() for text in of]
        left = min((text.box.left for text in texts), default=0)
        names = [text.text for text in texts if text.capital_mm < 2 and text.box.left < left + 1]
        if line.ticked:
            yield names[0], {CHECKS.get(check, check) for check in line.ticked}


@each_change
def test_the_sheet_says_what_was_written_by_hand(tmp_path: Path, name: str) -> None:
    change = CHANGES[name]
    files = reworked(tmp_path, name).files
    found = sections(files["rework-sheet.pdf"])
    covers, cards = under_covers(found), found.get("Cards", [])
    cut = [line for line in found.get("At the bench: cut", []) if line.cells]
    assert sorted(" ".join(line.large("mm") for line in cut).split()) == sorted(map(str, change.cut.values()))
    assert all(line.ticked for line in cut)
    marks = {mark for line in cut for mark in line.large("mark").split()}
    assert marks == ({each.rsplit(" ", 1)[1] for each in change.into} if change.cut else set())
    assert of_heading(covers, "take out") == by_end(change.out)
    assert of_heading(covers, "put in") == by_end(change.into)
    assert {line.large("at") for line in covers if "dead: cap it" in line.small("take out")} == set(change.capped)
    plugs = {(*each.split(" ", 2)[:2],) for each in change.replugged}
    assert {
        (*" ".join(line.small("lead")).split(" "),) for line in covers if line.large("put in") == "plug in"
    } == plugs
    assert labels(covers, "off") == ends(change.stripped, change)
    assert labels(covers, "on") == ends(change.put_on, change)
    assert {line.text("card") for line in cards} - {*ABOARD, ""} == set(change.cards)
    assert set(rung(found.get("Ring out, packs still out", []))) == set(change.rung_out)
    assert len([line for line in found.get("No longer holds", []) if line.cells]) == len(change.no_longer)
    assert dict(checked(found.get("Packs in: check again", []))) == {
        circuit: set(checks.split()) for circuit, checks in change.checks.items()
    }
    sleeves = {f"{way} {line.text('sleeve')}" for line in found.get("Sleeves", []) for way in line.ticked}
    assert sleeves == set(change.sleeves)
    assert [line for line in found["Done"] if line.ticked]


@each_change
def test_only_labels_and_cards_that_are_others_are_printed(tmp_path: Path, name: str) -> None:
    """Each card bears the hash that the sheet says goes in; a card ends with its hash."""
    change = CHANGES[name]
    files = reworked(tmp_path, name).files
    assert ("wire-labels.pdf" in files) == bool(change.put_on)
    assert ("pinout-cards.pdf" in files) == bool(change.cards)
    cards = sections(files["rework-sheet.pdf"]).get("Cards", [])
    wanted = {line.text("put in") for line in cards if line.text("card") not in (*ABOARD, "")}
    pdf = files.get("pinout-cards.pdf")
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages if pdf else []
    printed = " ".join(page.extract_text() for page in pages)
    assert set(re.findall(r"\b[0-9a-f]{8}\b", printed)) == wanted


@pytest.mark.parametrize("name", ["ADDED_FIRST", "OTHER_ORDER"])
@pytest.mark.long
def test_the_sheet_is_set_as_other_bench_sheets_are(tmp_path: Path, name: str) -> None:
    pages = sheets_of(reworked(tmp_path, name).files["rework-sheet.pdf"])
    assert heights_off(pages) == set()
    assert texts_that_meet(pages) == []
    assert texts_struck(pages) == []
    assert texts_near_an_edge(pages) == []


@pytest.mark.long
def test_where_contacts_are_put_on_the_sheet_names_the_housing(tmp_path: Path) -> None:
    """By hand: the servo's plug carries sockets, so the harness's carries pins."""
    found = sections(reworked(tmp_path, "OTHER_PLUG").files["rework-sheet.pdf"])
    assert [line.small("put in")[0] for line in found["Under the covers"] if line.cells] == ["servo-3-small pins"]


def test_a_new_servo_is_tried_with_its_linkage_off(tmp_path: Path) -> None:
    """Its arm may run to an end, or the other way (common practice, no source)."""
    pdf = reworked(tmp_path, "OTHER_PLUG").files["rework-sheet.pdf"]
    said = pypdf.PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
    assert "Linkages off until direction and centre are right" in " ".join(said.split())
