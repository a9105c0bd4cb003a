"""`docgen ruler` and the printer's file that comes of it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from measured import printed_pages, read
from printed_labels import WREN, Run


def test_the_ruler_page_is_written_for_each_paper(run: Run) -> None:
    sizes = {"a4": (210, 297), "letter": (215.9, 279.4), "a4 --turned": (297, 210), "letter --turned": (279.4, 215.9)}
    for paper, size in sizes.items():
        assert run("ruler", "--paper", *paper.split()).exit_code == 0
        [page] = printed_pages(Path("out/ruler.pdf"))
        assert (page.width_mm, page.height_mm) == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize("paper", ["a4", "letter", "a4 --turned", "letter --turned"])
def test_the_command_on_the_ruler_page_is_for_its_paper(run: Run, paper: str) -> None:
    # Measured as drawn, the printer is true.
    assert run("ruler", "--paper", *paper.split()).exit_code == 0
    [page] = printed_pages(Path("out/ruler.pdf"))
    [command] = [text.text for text in page.texts if "--measured" in text.text]
    assert run(*command.split()[1:]).exit_code == 0
    form = read(Path("printer.yaml"))
    assert form["scale"] == ["100.0000 %"] * 2
    assert form["shift"] == ["0.0000 mm"] * 2


@pytest.mark.parametrize("paper", ["a4", "letter", "a4 --turned", "letter --turned"])
def test_no_figure_of_a_ruler_lies_on_another_ruler_or_a_cross(run: Run, paper: str) -> None:
    assert run("ruler", "--paper", *paper.split()).exit_code == 0
    [page] = printed_pages(Path("out/ruler.pdf"))
    figures = [text for text in page.texts if text.text.isdigit() and text.capital_mm < 2]
    assert len(figures) > 60
    for figure in figures:
        around = figure.box.grown(0.5)
        inside = page.cut(around).copy()
        x, y = page.per_mm
        inside[round(0.4 * y) : -round(0.4 * y), round(0.4 * x) : -round(0.4 * x)] = 255
        assert inside.min() > 110, figure


def test_what_was_measured_goes_to_standard_output_or_a_file_that_print_takes(run: Run) -> None:
    shown = run("ruler", "--measured", "15.2,195.4,14.8,282.3")
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert run("ruler", "--measured", "15.2,195.4,14.8,282.3", "--to", "printer.yaml").exit_code == 0
    assert Path("printer.yaml").read_text("utf-8") == shown.stdout
    assert run("print", WREN, "wire-labels", "--printer", "printer.yaml").exit_code == 0


@pytest.mark.parametrize(
    ("turned", "documents"), [([], {"wire-labels"}), (["--turned"], {"cut-list", "pinout-cards"})], ids=["", "turned"]
)
def test_pages_that_lie_the_other_way_than_the_one_measured_are_named(
    run: Run, turned: list[str], documents: set[str]
) -> None:
    # 101 % across and 100 % down: 15.15 and 15 + 1.01 × the route between the crosses.
    width = 297 if turned else 210
    measured = f"15.15,{15.15 + 1.01 * (width - 30):.2f},15,{(210 if turned else 297) - 15}"
    assert run("ruler", *turned, "--measured", measured, "--to", "printer.yaml").exit_code == 0
    ran = run("print", WREN, "wire-labels", "cut-list", "pinout-cards", "--printer", "printer.yaml")
    assert ran.exit_code == 0
    assert set(re.findall(r"([a-z-]+): its pages lie the other way", ran.stderr)) == documents


def test_a_ruler_measured_on_another_paper_is_refused(run: Run) -> None:
    # A Letter page measured without saying so.
    ran = run("ruler", "--measured", "15,200.9,15,264.4")
    assert ran.exit_code == 2
    assert "--paper" in ran.stderr


@pytest.mark.parametrize(
    ("text", "line", "name"),
    [
        ("kind: printer\nscale: [101 %, 100 %]\nshift: [1, 2 mm]\n", 3, "unit"),
        ("kind: printer\nscale: [101 %, 50 %]\nshift: [1 mm, 2 mm]\n", 2, "value"),
        ("kind: printer\nscale: [101 %]\nshift: [1 mm, 2 mm]\n", 2, "value"),
        ("kind: printer\nscale: [101 %, 100 %]\nshift: [1 mm, 2 mm]\nname: mine\n", 4, "key"),
        ("kind: page\nscale: [101 %, 100 %]\nshift: [1 mm, 2 mm]\n", 1, "value"),
        ("scale: [101 %, 100 %]\nshift: [1 mm, 2 mm]\n", 1, "missing"),
        ("kind: printer\nscale: [101 %, 100 %\n", 3, "syntax"),
        ("", 1, "value"),
    ],
)
def test_an_error_in_a_printer_s_file_says_its_line_and_nothing_is_written(
    run: Run, text: str, line: int, name: str
) -> None:
    Path("printer.yaml").write_text(text, "utf-8")
    ran = run("print", WREN, "wire-labels", "--printer", "printer.yaml")
    assert ran.exit_code == 1
    told = re.findall(r"printer\.yaml:(\d+):\d+: error (\w+)", ran.stderr)
    assert told, ran.stderr
    assert told[0][1] == name or not text
    assert int(told[0][0]) == line or name == "syntax"
    assert not Path("out").exists()


def test_a_printer_s_file_that_is_not_there_is_wrong_use(run: Run) -> None:
    assert run("print", WREN, "--printer", "none.yaml").exit_code == 2
