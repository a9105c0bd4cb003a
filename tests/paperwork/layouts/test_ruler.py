"""`docgen ruler` and the printer's file that comes of it."""

from __future__ import annotations

import re
from itertools import product
from pathlib import Path

import pytest
from click.testing import CliRunner
from measured import printed_pages, read
from printed_labels import WREN, Run

from docgen.cli import docgen

WITHIN_MM = 0.1


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
    ("turned", "documents"), [([], {"hangar-card"}), (["--turned"], {"cut-list", "pinout-cards"})], ids=["", "turned"]
)
def test_pages_that_lie_the_other_way_than_the_one_measured_are_named(
    run: Run, turned: list[str], documents: set[str]
) -> None:
    # 101 % across and 100 % down: 15.15 and 15 + 1.01 × the route between the crosses.
    width = 297 if turned else 210
    measured = f"15.15,{15.15 + 1.01 * (width - 30):.2f},15,{(210 if turned else 297) - 15}"
    assert run("ruler", *turned, "--measured", measured, "--to", "printer.yaml").exit_code == 0
    wanted = ("hangar-card", "cut-list", "pinout-cards")
    ran = run("print", WREN, *wanted, "--printer", "printer.yaml")
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


# Measured on the page


@pytest.mark.parametrize(("paper", "size"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
def test_the_crosses_of_the_ruler_page_are_15_mm_from_the_edges(
    tmp_path: Path, paper: str, size: tuple[float, float]
) -> None:
    assert CliRunner().invoke(docgen, ["ruler", "--paper", paper, "--to", str(tmp_path / "r.pdf")]).exit_code == 0
    [page] = printed_pages(tmp_path / "r.pdf")
    assert (page.width_mm, page.height_mm) == pytest.approx(size, abs=0.01)
    columns, rows = ((15, side / 2, side - 15) for side in size)
    for x, y in product(columns, rows):
        # Between the middle and the end of an arm of 4 mm there is nothing else.
        across, down = page.upright_line_mm(x, y - 3, y - 1), page.level_line_mm(y, x - 3, x - 1)
        assert (across, down) == pytest.approx((x, y), abs=WITHIN_MM)


def test_the_rulers_measure_true(tmp_path: Path) -> None:
    assert CliRunner().invoke(docgen, ["ruler", "--to", str(tmp_path / "r.pdf")]).exit_code == 0
    [page] = printed_pages(tmp_path / "r.pdf")
    # The ruler along the top is 8 mm below its crosses: a tick of 3 mm at each 10 mm from the left cross on.
    for tick in range(10, 180, 10):
        at = page.upright_line_mm(15 + tick, 15 + 8 + 2.1, 15 + 8 + 2.9)
        assert at == pytest.approx(15 + tick, abs=WITHIN_MM)
    # Of the others those at each 5 mm reach 2 mm, the rest 1.2 mm.
    reaching = [tick for tick in range(10, 60) if page.upright_line_mm(15 + tick, 15 + 8 + 1.4, 15 + 8 + 1.8)]
    assert reaching == [*range(10, 60, 5)]


@pytest.mark.parametrize(
    ("measured", "paper", "scale", "shift"),
    # A4 by hand: (195.4 − 15.2) / (210 − 30) = 180.2 / 180 = 1.001111, 15.2 − 15 × 1.001111 = 0.1833 mm;
    # (282.3 − 14.8) / (297 − 30) = 267.5 / 267 = 1.001873, 14.8 − 15 × 1.001873 = −0.2281 mm.
    # Letter: (201.9 − 14) / 185.9 = 1.010758, 14 − 15.1614 = −1.1614 mm;
    # (262.4 − 16) / 249.4 = 0.987971, 16 − 14.8196 = 1.1804 mm.
    [
        ("15.2,195.4,14.8,282.3", "a4", (100.1111, 100.1873), (0.1833, -0.2281)),
        ("15,195,15,282", "a4", (100, 100), (0, 0)),
        ("14, 201.9, 16 mm, 262.4 mm", "letter", (101.0758, 98.7971), (-1.1614, 1.1804)),
    ],
)
def test_what_was_measured_on_the_ruler_page_is_turned_into_scale_and_shift(
    measured: str, paper: str, scale: tuple[float, float], shift: tuple[float, float], tmp_path: Path
) -> None:
    target = tmp_path / "printer.yaml"
    ran = CliRunner().invoke(docgen, ["ruler", "--paper", paper, "--measured", measured, "--to", str(target)])
    assert ran.exit_code == 0
    form = read(target)
    assert form["kind"] == "printer"
    assert [float(value.removesuffix(" %")) for value in form["scale"]] == pytest.approx(scale, abs=1e-4)
    assert [float(value.removesuffix(" mm")) for value in form["shift"]] == pytest.approx(shift, abs=1e-4)


@pytest.mark.parametrize("measured", ["15,195,15", "15,195,15,x", "15,250,15,282", "40,220,15,282"])
def test_what_can_not_be_measured_is_wrong_use(measured: str) -> None:
    # Too few, no length, a scale of 131 %, a shift of 25 mm.
    assert CliRunner().invoke(docgen, ["ruler", "--measured", measured]).exit_code == 2
