"""The sheets of the order of work as printed: how many, how high the type is, and that nothing meets or is struck."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from page_facts import (
    Sheet,
    heights_off,
    pages_half_empty,
    sheets_of,
    texts_near_an_edge,
    texts_struck,
    texts_that_meet,
)
from printed_steps import printed_sheet, ring, sheets_on
from resolved import EXAMPLES, harness_of

from docgen.paperwork.documents import Choice, make_paperwork

NAMES = ("receiver", "pack", "rudder", "<side>-aileron", "<side>-root", "<side>-panel-root", "radio-tray", "tail-post")
LABELS = ("AIL L", "AIL R", "RX BATT", "RUD")


def printed(folder: Path, paper: str = "a4") -> list[Sheet]:
    choice = Choice(stems=("order-of-work",), paper=paper)
    return sheets_of(make_paperwork(harness_of(folder), choice).files["order-of-work.pdf"])


def doubled(folder: Path) -> Path:
    """Write the smallest example with names and labels twice as long."""
    for path in (EXAMPLES / "wren").glob("*.yaml"):
        text = path.read_text("utf-8")
        for name in NAMES:
            text = re.sub(rf"(?<![\w>-])(?<!kind: ){re.escape(name)}(?![\w-])", f"{name}-{name}", text)
        for label in LABELS:
            text = text.replace(label, f"{label} {label}")
        (folder / path.name).write_text(text, "utf-8")
    return folder


@pytest.fixture(scope="module", params=["wren", "fulmar", "doubled"])
def sheets(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> list[Sheet]:
    if request.param == "doubled":
        return printed(doubled(tmp_path_factory.mktemp("doubled")))
    return printed(EXAMPLES / request.param)


@pytest.mark.parametrize(("name", "paper", "most"), [("wren", "a4", 2), ("wren", "letter", 2), ("fulmar", "letter", 6)])
def test_it_takes_few_sheets(name: str, paper: str, most: int) -> None:
    assert len(printed(EXAMPLES / name, paper)) <= most


def test_six_sheets_do_for_the_large_example(sheets: list[Sheet]) -> None:
    assert len(sheets) <= 6


def test_type_has_the_heights_of_the_series(sheets: list[Sheet]) -> None:
    assert heights_off(sheets) == set()


def test_no_text_meets_another_or_is_struck_by_a_line_or_clipped(sheets: list[Sheet]) -> None:
    assert texts_that_meet(sheets) == []
    assert texts_struck(sheets) == []
    assert texts_near_an_edge(sheets) == []


def test_no_sheet_but_the_last_is_over_half_empty(sheets: list[Sheet]) -> None:
    assert pages_half_empty(sheets) == []


def test_nothing_is_shortened(sheets: list[Sheet]) -> None:
    assert [text.text for sheet in sheets for text in sheet.texts if "…" in text.text] == []


def test_texts_stay_in_their_columns(sheets: list[Sheet]) -> None:
    """The ink of a text ends before the next text or box of its row begins, and before the end of the area."""
    for sheet in sheets:
        for text in sheet.texts:
            beside = [box for box in sheet.ticks if box.top < text.base_mm < box.bottom and box.left > text.box.left]
            assert text.box.right < min([box.left for box in beside], default=sheet.width_mm - 9.9), text


def test_names_twice_as_long_are_said_whole(tmp_path: Path) -> None:
    rows = sheets_on(printed(doubled(tmp_path)))["fuselage"].lines
    assert [row.title for row in rows] == ["RX BATT RX BATT A", "AIL L AIL L A", "AIL R AIL R A", "RUD RUD A"]
    assert rows[1].cells[4].over == "receiver-receiver 1 · servo-3 sockets"
    assert rows[1].cells[8].over == "left-root-left-root · block-6 sockets"
    assert {row.cells[4].text for row in rows} == {"1 BK, 2 RD · 3 mm", "1 BK, 2 RD, 3 WH · 2.5 mm"}


def test_the_caution_of_heat_stands_on_each_sheet_where_something_is_shrunk(sheets: list[Sheet]) -> None:
    for number, sheet in enumerate(sheets):
        said = [text.text for text in sheet.texts]
        cautions = sum("A heat gun's air" in text for text in said)
        assert cautions == said.count("12 shrink") + (number == 0)


def test_long_steps_are_parted_when_all_is_sleeved() -> None:
    said = [text.text for sheet in printed(EXAMPLES / "fulmar") for text in sheet.texts if text.bold]
    first, again = said.index("fuselage, all leads"), said.index("fuselage, all leads, continued")
    steps = {text.split()[0] for text in said[first + 1 : again] if text[0].isdigit()}
    assert steps == {"5", "6"}
    assert "9 splice" in said[again + 1 : again + 3]


def test_more_sleeves_than_a_page_holds_stand_on_several(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    texts = ring({f"lead-{number}": ("tray", f"bay-{number}") for number in range(60)})
    aircraft, harness = (json.loads(texts[file]) for file in ("aircraft.yaml", "harness.yaml"))
    for number in range(60):
        aircraft["places"][f"bay-{number}"] = {"assembly": "hull", "access": "hatch"}
        aircraft["runs"].append({"between": ["tray", f"bay-{number}"], "length": "300 mm", "edges": "sharp"})
        del harness["circuits"][f"lead-{number}"]["by"]
    harness["equipment"]["box-tray"]["ports"][0]["names"] = "1..60"
    folder = written_folder({"aircraft.yaml": json.dumps(aircraft), "harness.yaml": json.dumps(harness)})
    pages = printed_sheet(harness_of(folder), tmp_path)
    assert all(text.base_mm < page.height_mm - 10 for page in pages for text in page.texts if text.capital_mm > 1.7)
    steps = sheets_on(pages)["hull"].steps
    assert sum(step.number == 6 for step in steps) == 60
    assert [step.number for step in steps] == sorted(step.number for step in steps)


@pytest.mark.parametrize(("name", "whole"), [("wren", {"left-panel", "right-panel"}), ("fulmar", {"tail", "nose"})])
def test_a_small_assembly_stands_on_one_sheet(name: str, whole: set[str]) -> None:
    on = [{text.text.removesuffix(", continued") for text in sheet.texts} for sheet in printed(EXAMPLES / name)]
    for assembly in whole:
        assert [{assembly, f"{assembly}, all leads"} <= said for said in on].count(True) == 1
        assert sum(assembly in said or f"{assembly}, all leads" in said for said in on) == 1


PARTS = """\
wires:
  thin-034: {gauge: 0.34 mm², diameter: 1.45 mm, resistance: 55.2 ohm/km, mass: 4.7 g/m, limit: 105 °C, current: 3.5 A}
  thin-025: {gauge: 0.25 mm², diameter: 1.3 mm, resistance: 73 ohm/km, mass: 3.6 g/m, limit: 105 °C, current: 2.5 A}
leads:
  thin: {wires: {negative: thin-034 BN, positive: thin-034 RD, signal: thin-025 OG}, lay: 30 mm}
"""


def test_a_figure_and_its_unit_and_a_contact_and_its_colour_stand_in_one_line(tmp_path: Path) -> None:
    folder = doubled(tmp_path)
    harness = (folder / "harness.yaml").read_text("utf-8")
    # A long label leaves the columns of both ends a third of the room each, about 35 mm.
    harness = harness.replace("lead: servo-22", "lead: thin").replace("AIL L AIL L", "LEFT OUTER WING AILERON")
    (folder / "harness.yaml").write_text(harness, "utf-8")
    (folder / "parts.yaml").write_text(PARTS, "utf-8")
    lines = [text.text for sheet in printed(folder) for text in sheet.texts]
    # Too long for one line of its column, the end at the receiver is broken before how much is stripped there.
    receiver = lines.index("1 BN, 2 RD, 3 OG ·")
    assert lines[receiver + 1] == "2.5 mm"
    assert not {"mm", "BN", "RD", "OG", "BN,", "RD,", "OG ·"} & set(lines)
    # Of two sizes with one unit that is said once.
    assert "0.34/0.25 mm²" in lines
