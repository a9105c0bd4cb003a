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
    assert [said_on([page]).count("25 mm behind") for page in pages] == [1] * len(pages)


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
    assert said.count("near edge 25 mm behind it; shrink last.") == 1


@pytest.mark.parametrize("width_mm", [60, 100, 148])
@pytest.mark.parametrize("kind", ["sheet", "strips", "wraps", "flags"])
def test_a_small_sheet_says_all_in_lines_or_what_must_be_said(
    run: Run, aircraft_folder: AircraftFolder, kind: str, width_mm: int
) -> None:
    sizes = {"wraps": "printed: 8 mm, cover: 20 mm", "flags": "width: 8 mm, wrap: 12 mm"}.get(kind, "width: 8 mm")
    stock = f"kind: label {kind}\npaper: [{width_mm} mm, 150 mm]\nmargin: 6 mm\nlabel: {{length: 16 mm, {sizes}}}\n"
    stock += "cells: {across: 1, down: 2, first: [7 mm, 21 mm], pitch: [30 mm, 30 mm]}\n"
    stock += "clear: {ends: 0.1 mm, edges: 0.1 mm}\n"
    folder = each(aircraft_folder(), "lead, least_type: 0.7 mm")
    ran = run("print", folder, "wire-labels", "--only", "rudder", "--stock", own(stock), "--to", "paper")
    assert ran.exit_code == 0
    [page] = printed_pages(Path("paper/wire-labels.pdf"))
    said = said_on([page]).replace("\n", " ")
    assert "…" not in said
    assert said.count("near edge 25 mm behind it") == 1
    if width_mm >= 100 or "no room above its labels to say all" not in ran.stderr:
        assert "before crimping" in said or kind in ("wraps", "flags")
    for text in page.texts:
        assert text.box.right <= width_mm - 6


def test_how_far_behind_the_plug_follows_the_builder(labels: Callable[..., list[PrintedPage]]) -> None:
    said = said_on(labels(FULMAR, "--only", "rudder"))
    assert said.count("30 mm behind") == 1
    assert "25 mm" not in said
