"""Labels of leads, of single wires or of both: how many, and what each says."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from measured import PrintedPage, cells, read
from printed_labels import FULMAR, LAYOUTS, WREN, each, functions, said_on
from resolved import harness_of

from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.reading import KINDS
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder


@pytest.mark.parametrize(
    ("mode", "count"),
    # Leads of wren: supply (2 wires), rudder (3), two ailerons in the fuselage (3), one in each panel (3), none under
    # 7 in. Ends: 2 × 6. Wires: 2 × (2 + 5 × 3).
    [("lead", 12), ("wire", 34), ("both", 46)],
)
def test_leads_wires_or_both_are_labelled(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, mode: str, count: int
) -> None:
    pages = labels(each(aircraft_folder(), mode))
    assert sum(1 for name in functions(pages, "carrier-a4") if name) == count


def test_a_wire_s_label_says_its_contact_and_its_own_mark(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder
) -> None:
    # In small type, so that nothing has to be left out.
    folder = each(aircraft_folder(), "wire, least_type: 1 mm")
    said = said_on(labels(folder, "--only", "rudder"))
    # The rudder's wires are negative, positive and signal on contacts 1, 2 and 3 of the plug at either end.
    for mark, contact in (("C5A22N", "1"), ("C5A22", "2"), ("C6A22", "3")):
        assert re.search(rf"{mark}\b", said)
        assert re.search(rf"receiver 4 contact {contact}\b", said)
        assert re.search(rf"rudder {contact}\b", said)


@pytest.mark.parametrize(
    ("length", "wires", "leads"),
    # AC 43.13-1B 11-208: under 3 in (76.2 mm) none, 3 to 7 in (177.8 mm) one, else both ends; of three wires.
    [("75 mm", 0, 2), ("77 mm", 3, 2), ("177 mm", 3, 2), ("179 mm", 6, 2)],
)
def test_short_wires_are_labelled_once_or_not_and_lead_ends_always(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, length: str, wires: int, leads: int
) -> None:
    changes = {"harness.yaml": [("    channel: 4\n", f"    channel: 4\n    lengths: {{A: {length}}}\n")]}
    for mode, count in (("wire", wires), ("lead", leads), ("both", wires + leads)):
        Path("paper/wire-labels.pdf").unlink(missing_ok=True)
        pages = labels(each(aircraft_folder(changes), mode), "--only", "rudder")
        assert sum(1 for name in functions(pages, "carrier-a4") if name) == count


@pytest.mark.parametrize(("length", "middle"), [("177 mm", True), ("179 mm", False)])
@pytest.mark.parametrize("least", ["1 mm", "1.6 mm"])
def test_a_label_in_the_middle_of_a_wire_says_so(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, length: str, middle: bool, least: str
) -> None:
    changes = {"harness.yaml": [("    channel: 4\n", f"    channel: 4\n    lengths: {{A: {length}}}\n")]}
    folder = each(aircraft_folder(changes), f"wire, least_type: {least}")
    [page] = labels(folder, "--only", "rudder")
    said = said_on([page])
    # Once on each of three wires, and once on the sheet, that says where such labels lie.
    assert len(re.findall(r"\bmiddle\b", said)) == (4 if middle else 0)
    assert said.count("those in the middle halfway") == middle


def test_labels_of_wires_say_which_of_their_circuit_s_leads_it_is(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder
) -> None:
    # Type so large that the marks are left out, by which the leads of an aileron could be told apart too.
    folder = each(aircraft_folder(), "both, least_type: 1.2 mm")
    layout = read(LAYOUTS / "carrier-a4.yaml")
    pages = labels(folder, "--only", "left-aileron", "--only", "rudder")
    said = []
    for page in pages:
        for x, y in cells(layout):
            within = [t.text for t in page.texts if x <= t.box.left < x + 60 and y <= t.base_mm < y + 20]
            said += [" ".join(within)] if within else []
    assert len(said) == 2 * (2 + 1) + 2 * (6 + 3)
    for text in said:
        letters = re.findall(r"(?<=\s)([AB])(?: ·)? rev A", text) + re.findall(r"\bC\d+([AB])22", text)
        assert set(letters) == ({"A"} if "RUD" in text and letters else set(letters))
        assert letters or "AIL L" not in text, text


@pytest.mark.parametrize("example", [WREN, FULMAR])
def test_every_label_of_a_wire_says_its_mark_on_the_usual_stock(example: Path) -> None:
    # A mark names one wire, AC 43.13-1B 11-208: labels that say theirs are never taken for those of another.
    built = harness_of(example)
    items = wire_labels.content(replace(built, labels=built.labels.model_copy(update={"each": "wire"})))
    stock = read_shipped("carrier-a4", KINDS)
    wires: dict[str, str] = {}
    for item in items.labels:
        if not item.text.of_wire:
            continue
        mark = item.text.mark
        assert wires.setdefault(mark, " ".join(item.key[:3])) == " ".join(item.key[:3])
        piece, findings = stock.fit(item, items)
        said = [text.text for text in piece.label.texts] if piece is not None else []
        assert any(mark in text.split(" · ") for text in said) or (piece is None and findings), item.key
    assert len(wires) > 16


def test_two_figures_that_meet_say_what_they_are(aircraft_folder: AircraftFolder) -> None:
    changes = [
        ("  receiver:", "  receiver-1:"),
        ("to: receiver", "to: receiver-1"),
        ("from: receiver", "from: receiver-1"),
    ]
    changes += [("{left: receiver 1, right: receiver 2}", "{left: receiver-1 1, right: receiver-1 2}")]
    changes += [("  <side>-root:\n    shell", "  <side>-root-2:\n    shell"), ("[<side>-root]", "[<side>-root-2]")]
    built = check(each(aircraft_folder({"harness.yaml": changes}), "both")).harness
    assert built is not None
    said = {label.text.here for label in wire_labels.content(built).labels}
    assert {"receiver-1 port 1", "receiver-1 port 4 contact 3", "receiver-1 BATT", "left-root-2 contacts 1–3"} <= said
    assert {"left-root-2 contact 1", "rudder 3", "pack 1"} <= said
