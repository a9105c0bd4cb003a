"""Labels by hand: the list of what to write, and the same as values for a spreadsheet."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from measured import PrintedText, printed_pages
from printed_labels import FULMAR, WREN, Run
from resolved import harness_of

from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.stocks import label_list
from docgen.paperwork.typesetting.ink import Line, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder

# By hand: tube of 32 mm that shortens by up to a tenth, 32 / 0.9 = 35.6 mm. On Wren three wires of 1.6 mm pass
# 1.1 × 3.45 = 3.79 mm and two of 1.8 mm 3.96 mm, so that all take 4/2.
LENGTH_MM = "36"
ENDS = [
    ("RX BATT", "pack", "receiver BATT", "pack: battery-bay", "P1A20"),
    ("AIL L", "receiver 1", "left-root 1–3", "", "C1A22 C2A22"),
    ("AIL R", "receiver 2", "right-root 1–3", "", "C3A22 C4A22"),
    ("RUD", "receiver 4", "rudder", "", "C5A22 C6A22"),
    ("AIL L", "left-root 1–3", "left-aileron", "", "C1B22 C2B22"),
    ("AIL R", "right-root 1–3", "right-aileron", "", "C3B22 C4B22"),
]


def rows_on(pdf: Path) -> list[tuple[list[str], str]]:
    """Return the rows of the list, column by column: function and this end, and the tube."""
    found = []
    for page in printed_pages(pdf):
        middle = page.width_mm / 2
        for column in (0, 1):
            texts = [t for t in page.texts if (t.box.left >= middle) == bool(column)]
            lines: dict[float, list[PrintedText]] = {}
            for text in texts:
                near = next((base for base in lines if abs(base - text.base_mm) < 1.0), text.base_mm)
                lines.setdefault(near, []).append(text)
            for base in sorted(lines):
                said = [text.text for text in sorted(lines[base], key=lambda text: text.box.left)]
                if len(said) == 3 and (said[2].startswith("shrink") or said[2] == "no tube"):
                    found.append((said[:2], said[2]))
    return found


def printed(run: Run, folder: Path, *words: str) -> tuple[list[tuple[list[str], str]], list[list[str]]]:
    ran = run("print", folder, "label-list", "--csv", "--to", "paper", *words)
    assert ran.exit_code == 0, ran.stderr
    text = Path("paper/wire-labels.csv").read_bytes().decode()
    return rows_on(Path("paper/label-list.pdf")), list(csv.reader(io.StringIO(text, newline="")))


def test_the_list_has_every_label_in_the_order_of_fitting_with_its_tube(run: Run) -> None:
    rows, _ = printed(run, WREN)
    wanted = [[function, here] for function, one, other, *_ in ENDS for here in (one, other)]
    assert [said for said, _ in rows] == wanted
    assert {tube for _, tube in rows} == {"shrink-4"}
    said = " ".join(text.text for text in printed_pages(Path("paper/label-list.pdf"))[0].texts)
    assert f"tube, {LENGTH_MM} mm" in said


def test_the_list_of_the_largest_example_takes_two_sheets(run: Run) -> None:
    rows, values = printed(run, FULMAR)
    assert len(printed_pages(Path("paper/label-list.pdf"))) == 2
    assert len(rows) == len(values) - 1
    # Own leads with a servo plug on: what passes the plug (girth 21.8 mm, so 9.5 mm at least) grips no three wires of
    # 26 AWG or thinner, even of three to one.
    own = {"GYRO receiver-a 6", "LIGHTS receiver-b 3", "BAY DOOR hatch-joint"}
    assert {" ".join(said) for said, tube in rows if tube == "no tube"} == own


def test_the_values_give_the_texts_of_the_page_a_row_a_label(run: Run) -> None:
    rows, [head, *values] = printed(run, WREN)
    assert head == ["line_1", "line_2", "place", "tube", "length_mm", "mark"]
    assert [value[0] for value in values] == [" ".join(said) for said, _ in rows]
    assert [value[3] for value in values] == [tube for _, tube in rows]
    ways = [way for function, one, other, _, _ in ENDS for way in ((function, one, other), (function, other, one))]
    assert [value[:2] for value in values] == [[f"{function} {here}", f"→ {far}"] for function, here, far in ways]
    assert [value[5] for value in values] == [marks for *_, marks in ENDS for _ in (0, 1)]
    assert {value[4] for value in values} == {LENGTH_MM}
    assert values[0][2] == "battery-bay"


def test_two_readers_of_values_agree(run: Run) -> None:
    # RFC 4180: lines end in CR LF, fields with commas are quoted. A second reader: numpy's, of another library.
    _, values = printed(run, FULMAR)
    path = Path("paper/wire-labels.csv")
    assert path.read_bytes().count(b"\r\n") == len(values)
    again = np.loadtxt(path, dtype=str, delimiter=",", quotechar='"', encoding="utf-8", comments=None)
    assert again.tolist() == values
    assert any("," in value[0] for value in values)


@pytest.mark.parametrize("label", ["=1+1", "-1", "@x", "+A"])
def test_no_cell_is_a_formula(run: Run, aircraft_folder: AircraftFolder, label: str) -> None:
    folder = aircraft_folder({"harness.yaml": [("label: RX BATT", f'label: "{label}"')]})
    _, values = printed(run, folder, "--only", "supply")
    assert [value[0] for value in values[1:]] == [f"'{label} pack", f"'{label} receiver BATT"]


def test_the_list_is_printed_only_where_it_is_named_and_values_beside_labels_too(run: Run) -> None:
    assert run("print", WREN, "--to", "all", "--csv").exit_code == 0
    assert not Path("all/label-list.pdf").exists()
    assert Path("all/wire-labels.csv").is_file()
    assert Path("all/cut-list.csv").is_file()


def test_only_the_labels_asked_for_are_listed(run: Run) -> None:
    rows, values = printed(run, WREN, "--only", "rudder", "--only-place", "tail-post")
    assert [said for said, _ in rows] == [["RUD", "rudder"]]
    assert len(values) == 2


def test_a_hair_line_parts_leads_and_not_the_two_ends_of_one() -> None:
    items = wire_labels.content(harness_of(WREN))
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
    (page,) = label_list.compose(items, read_page("list-a4"))(block).pages
    ruled = [ink.y1_mm for ink in page.ink if isinstance(ink, Line) and ink.x2_mm - ink.x1_mm > 80]
    functions = [function for function, *_ in ENDS for _ in (0, 1)]
    tops = sorted({ink.cell.y_mm for ink in page.ink if isinstance(ink, Text) and ink.cell and ink.text in functions})
    assert len(tops) == len(functions)
    # Over every second row, the first left out: no lead stands before it.
    assert ruled == pytest.approx(tops[2::2])


@pytest.mark.parametrize(("fit", "says"), [("before", "before crimping"), ("after", "after crimping, over the plug")])
def test_the_list_says_when_tube_goes_on_and_what_to_do_where_none_does(fit: str, says: str) -> None:
    harness = harness_of(FULMAR)
    rules = harness.labels.model_copy(update={"fit": fit})
    items = wire_labels.content(replace(harness, labels=rules))
    block = TitleBlock("Fulmar", "FM-12", "A", "2026-01-01", None, "0123abcd")
    page = label_list.compose(items, read_page("list-a4"))(block).pages[0]
    said = " ".join(ink.text for ink in page.ink if isinstance(ink, Text))
    assert f"Slide tube on {says}" in said
    assert "near edge 30 mm behind the plug; shrink last." in said
    assert "Where no tube does, write on a flag of tape, never where it goes through an opening, nor by an arm." in said
