"""What stands above a sheet's labels: when and where they go on."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from measured import PrintedPage, printed_pages
from printed_labels import FULMAR, WREN, Run, each, own, said_on

if TYPE_CHECKING:
    from conftest import AircraftFolder


@pytest.mark.parametrize("stock", ["carrier-a4", "carrier-4.8", "strips-a4", "wraps-letter", "flags-a4"])
def test_how_far_behind_the_plug_is_said_once_on_a_sheet(labels: Callable[..., list[PrintedPage]], stock: str) -> None:
    pages = labels(WREN, "--stock", stock)
    assert [said_on([page]).replace("\n", " ").count("25 mm behind") for page in pages] == [1] * len(pages)


@pytest.mark.parametrize("fit", ["before", "after"])
def test_what_a_page_of_tape_has_no_room_for_is_said_on_the_terminal_once(
    run: Run, aircraft_folder: AircraftFolder, fit: str
) -> None:
    folder = each(aircraft_folder(), f"lead, fit: {fit}, behind_plug: 40 mm")
    ran = run("print", folder, "wire-labels", "--stock", "tape-9", "--only", "left-aileron")
    assert ran.exit_code == 0
    assert ran.stderr.count("near edge 40 mm behind it") == 1
    assert ran.stderr.count(f"Slide on {fit} crimping") == 1
    assert ran.stderr.count("A heat gun's air and fresh tube burn") == 1


# A contact of the joint passes tubes for the lead as it is, and these for a wire of 1.6 mm.
FINE = """tubes:
  fine: {expanded: 3 mm, recovered: 1 mm, wall: 0.5 mm}
  fine-clear: {expanded: 3 mm, recovered: 1 mm, wall: 0.5 mm, clear: yes}
"""


@pytest.mark.parametrize(
    ("rules", "stock", "says"),
    [
        *(("fit: before", stock, "before crimping") for stock in ("carrier-a4", "carrier-4.8", "strips-a4")),
        *(("fit: after", stock, "over the plug") for stock in ("carrier-a4", "carrier-4.8", "strips-a4")),
        *(("fit: after, each: wire", stock, "over the contact") for stock in ("carrier-a4", "strips-a4")),
        ("fit: after, each: both", "carrier-a4", "over the plug"),
    ],
)
def test_a_sheet_says_when_its_labels_go_on_and_over_what(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, stock: str, rules: str, says: str
) -> None:
    folder = aircraft_folder({"parts.yaml": FINE})
    harness = folder / "harness.yaml"
    harness.write_text(f"{harness.read_text('utf-8')}labels: {{{rules}, least_type: 1 mm}}\n", "utf-8")
    [page] = labels(folder, "--stock", stock, "--only-place", "left-root")
    said = said_on([page]).replace("\n", " ")
    assert said.count(says) == 1
    assert ("before crimping" in said) == (rules == "fit: before")
    assert ("after crimping" in said) == (rules != "fit: before")
    assert said.count("near edge 25 mm behind it") == 1
    assert ("shrink last" in said) == (stock != "strips-a4")


# A small sheet: what its kind needs beside paper, margin and cells.
KINDS = {
    "sheet": "tube: {expanded: 4.8 mm, recovered: 2.4 mm}\nlabel: {length: 16 mm, width: 8 mm}\nprinter: tape\n",
    "strips": "label: {length: 16 mm}\nprinter: any\nlimit: 210 °C\n",
    "carrier": "label: {length: 16 mm}\nprinter: thermal transfer\n",
    "wraps": "label: {length: 16 mm, printed: 8 mm, cover: 20 mm}\nprinter: sheet\nlimit: 210 °C\n",
    "flags": "label: {length: 16 mm, width: 8 mm, wrap: 12 mm}\nprinter: sheet\nlimit: 210 °C\n",
}


@pytest.mark.parametrize("width_mm", [60, 110, 148])
@pytest.mark.parametrize("kind", KINDS)
def test_a_small_sheet_says_all_or_what_must_be_said_or_it_is_said_on_the_terminal(
    run: Run, aircraft_folder: AircraftFolder, kind: str, width_mm: int
) -> None:
    stock = f"kind: label {kind}\npaper: [{width_mm} mm, 200 mm]\nmargin: 6 mm\n{KINDS[kind]}"
    stock += "cells: {across: 1, down: 2, first: [7 mm, 36 mm], pitch: [30 mm, 34 mm]}\n"
    stock += "clear: {ends: 0.1 mm, edges: 0.1 mm}\n"
    folder = each(aircraft_folder(), "lead, least_type: 0.7 mm")
    ran = run("print", folder, "wire-labels", "--only", "rudder", "--stock", own(stock), "--to", "paper")
    assert ran.exit_code == 0, ran.stderr
    [page] = printed_pages(Path("paper/wire-labels.pdf"))
    said = said_on([page]).replace("\n", " ")
    assert "…" not in said
    told = ran.stderr.count("so it says here what belongs on it")
    assert said.count("near edge 25 mm behind it") + told == 1
    if "no room above its labels" not in ran.stderr and not told:
        assert "before crimping" in said or kind in ("wraps", "flags")
    for text in page.texts:
        assert text.box.right <= width_mm - 6


def test_how_far_behind_the_plug_follows_the_builder(labels: Callable[..., list[PrintedPage]]) -> None:
    said = said_on(labels(FULMAR, "--only", "rudder")).replace("\n", " ")
    assert said.count("30 mm behind") == 1
    assert "25 mm" not in said
