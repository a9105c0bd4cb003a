"""Labels of leads, of single wires or of both: how many, and what each says."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from printed_labels import FULMAR, WREN, each, functions, printed_on, said_on
from resolved import harness_of

from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.fitting import fit_all
from docgen.paperwork.stocks.reading import KINDS
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder
    from measured import PrintedPage


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
    assert len(functions(pages)) == count


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
    # AC 43.13-1B 11-208: under 3 in (76.2 mm) none, 3 to 7 in (177.8 mm) one, else both ends; of three wires. Two of a
    # lead want 2 × (25 + 47) = 144 mm.
    [("75 mm", 0, 1), ("77 mm", 3, 1), ("177 mm", 3, 2), ("179 mm", 6, 2)],
)
@pytest.mark.long
def test_short_wires_are_labelled_once_or_not_and_lead_ends_always(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, length: str, wires: int, leads: int
) -> None:
    changes = {"harness.yaml": [("    channel: 4\n", f"    channel: 4\n    lengths: {{A: {length}}}\n")]}
    for mode, count in (("wire", wires), ("lead", leads), ("both", wires + leads)):
        Path("paper/wire-labels.pdf").unlink(missing_ok=True)
        pages = labels(each(aircraft_folder(changes), mode), "--only", "rudder")
        assert len(functions(pages)) == count


@pytest.mark.parametrize(("length", "middle"), [("177 mm", True), ("179 mm", False)])
@pytest.mark.parametrize("least", ["1 mm", "1.6 mm"])
def test_a_label_in_the_middle_of_a_wire_says_so(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, length: str, middle: bool, least: str
) -> None:
    changes = {"harness.yaml": [("    channel: 4\n", f"    channel: 4\n    lengths: {{A: {length}}}\n")]}
    folder = each(aircraft_folder(changes), f"wire, least_type: {least}")
    [page] = labels(folder, "--only", "rudder")
    said = said_on([page])
    # Twice round each of three wires, and once on the sheet, that says where such labels lie.
    assert len(re.findall(r"\bmiddle\b", said)) == (7 if middle else 0)
    assert said.count("those in the middle halfway") == middle


def test_labels_of_wires_say_by_their_mark_which_of_their_circuit_s_leads_it_is(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder
) -> None:
    folder = each(aircraft_folder(), "wire, least_type: 1.2 mm")
    found = printed_on(labels(folder, "--only", "left-aileron"), "strips-a4")
    marks = Counter(mark for label in found for mark in re.findall(r"\bC\d[AB]22N?", label.small))
    # Negative, positive and signal of either lead, at both ends.
    wires = ("C1{}22N", "C1{}22", "C2{}22")
    assert marks == {wire.format(lead): 2 for lead in "AB" for wire in wires}


@pytest.mark.parametrize("example", [WREN, FULMAR])
def test_every_label_of_a_wire_says_its_mark_on_the_usual_stock(example: Path) -> None:
    # A mark names one wire, AC 43.13-1B 11-208: labels that say theirs are never taken for those of another.
    built = harness_of(example)
    items = wire_labels.content(replace(built, labels=built.labels.model_copy(update={"each": "wire"})))
    wires: dict[str, str] = {}
    stock = read_shipped("strips-a4", KINDS)
    tubes = stock.tubes(items)
    for item in items.labels:
        if not item.text.of_wire:
            continue
        mark = item.text.mark
        wire = " ".join((*item.key[:2], item.key.role))
        assert wires.setdefault(mark, wire) == wire
        [piece], findings = fit_all([(item, list(stock.places(item, tubes)))], 1.6)
        assert any(mark in text.text.split(" · ") for text in piece.label.texts), (item.key, findings)
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
