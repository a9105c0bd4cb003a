"""`docgen ruler` and the printer's file that comes of it."""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations, pairwise, product
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner
from measured import Box, PrintedPage, printed_pages, read
from printed_labels import WREN, Run

from docgen.cli import docgen

WITHIN_MM = 0.1
# ISO 216, and 8.5 × 11 in.
SIZES_MM = {"a4": (210, 297), "letter": (215.9, 279.4), "a4 --turned": (297, 210), "letter --turned": (279.4, 215.9)}


def test_the_ruler_page_is_written_for_each_paper(run: Run) -> None:
    for paper, size in SIZES_MM.items():
        assert run("ruler", "--paper", *paper.split()).exit_code == 0
        [page] = printed_pages(Path("out/ruler.pdf"))
        assert (page.width_mm, page.height_mm) == pytest.approx(size, abs=0.01)


def test_the_ruler_page_says_what_it_is_and_of_which_paper(run: Run) -> None:
    assert run("ruler", "--paper", "letter").exit_code == 0
    said = pypdf.PdfReader("out/ruler.pdf").metadata
    assert said is not None
    assert (said.title, said.subject) == ("Ruler", "letter")


@pytest.mark.parametrize("paper", SIZES_MM)
def test_the_command_on_the_ruler_page_is_for_its_paper(run: Run, paper: str) -> None:
    # Measured as drawn, the printer is true.
    assert run("ruler", "--paper", *paper.split()).exit_code == 0
    [page] = printed_pages(Path("out/ruler.pdf"))
    [command] = [text.text for text in page.texts if "--measured" in text.text]
    assert run(*command.split()[1:]).exit_code == 0
    form = read(Path("printer.yaml"))
    assert form["scale"] == ["100.0000 %"] * 2
    assert form["shift"] == ["0.0000 mm"] * 2


@pytest.mark.parametrize("paper", SIZES_MM)
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
    # (200.9 − 15) / 180 and (264.4 − 15) / 267.
    assert "103.3 % across and 93.4 % down are too far apart" in ran.stderr


def measured(scale: tuple[float, float], shift_mm: tuple[float, float]) -> str:
    """Return what is measured of an A4 page of which a printer makes scale × point + shift."""
    sides = zip(scale, shift_mm, (210, 297), strict=True)
    return ",".join(f"{made * at + by:.4f}" for made, by, side in sides for at in (15, side - 15))


def test_a_shift_of_nearly_nothing_is_none_and_has_no_sign(run: Run) -> None:
    # 15 − 15 × 180.00012 / 180 is −0.00001.
    assert "shift: [0.0000 mm, 0.0000 mm]" in run("ruler", "--measured", "15,195.00012,15,282").stdout


@pytest.mark.parametrize(
    ("scale", "shift", "refused"),
    [
        # A tenth more or less, 20 mm either way, and 3 % between the two directions are the most.
        ((1.099, 1.099), (0, 0), ""),
        ((1.101, 1.09), (0, 0), "a scale of 110.1 % and a shift of"),
        ((1.09, 1.101), (0, 0), "a scale of 110.1 % and a shift of"),
        ((0.901, 0.901), (0, 0), ""),
        ((0.899, 0.91), (0, 0), "a scale of 89.9 % and a shift of"),
        ((1.0, 1.0), (19.9, -19.9), ""),
        ((1.0, 1.0), (20.1, 0), "a scale of 100.0 % and a shift of 20.1 mm are too much."),
        ((1.0, 1.0), (0, -20.1), "a scale of 100.0 % and a shift of -20.1 mm are too much."),
        ((1.01, 0.981), (0, 0), ""),
        ((1.01, 0.979), (0, 0), "101.0 % across and 97.9 % down are too far apart"),
        ((0.979, 1.01), (0, 0), "97.9 % across and 101.0 % down are too far apart"),
    ],
)
def test_what_no_printer_does_is_refused_with_what_was_measured(
    scale: tuple[float, float], shift: tuple[float, float], refused: str, run: Run
) -> None:
    ran = run("ruler", "--measured", measured(scale, shift))
    assert ran.exit_code == (2 if refused else 0)
    assert refused in " ".join(ran.stderr.split())


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


Line = tuple[float, float, float, float]


def lines_of(page: PrintedPage) -> Counter[Line]:
    """Return left, top, right and bottom of each line, along its middle, to a hundredth of a mm."""
    found: Counter[Line] = Counter()
    for left, top, right, bottom in page.outlines:
        # Both widths of line are drawn; half of the thinner side is the middle of either.
        half = min(right - left, bottom - top) / 2
        upright = right - left < bottom - top
        ends = (left + half, top + half, right - half, bottom - half)
        found[tuple(round(side + 0.0, 2) for side in ends)] += 1  # type: ignore[index]
        assert (ends[0] == pytest.approx(ends[2])) == upright
    return found


@pytest.mark.parametrize("paper", SIZES_MM)
def test_all_lines_of_the_page_are_its_crosses_and_the_millimetres_of_four_rulers(run: Run, paper: str) -> None:
    """Zero of each ruler is in line with a cross; they lie 8 mm inside the crosses above and left, 12 mm elsewhere."""
    assert run("ruler", "--paper", *paper.split()).exit_code == 0
    [page] = printed_pages(Path("out/ruler.pdf"))
    width, height = SIZES_MM[paper]
    expected: list[Line] = []
    for x, y in product((15, width / 2, width - 15), (15, height / 2, height - 15)):
        expected += [(x - 4, y, x + 4, y), (x, y - 4, x, y + 4)]
    for at in (23, height - 27):
        expected.append((15, at, width - 15, at))
        expected += [(15 + i, at, 15 + i, at + tick_mm(i)) for i in range(int(width - 30) + 1)]
    for at in (23, width - 27):
        expected.append((at, 15, at, height - 15))
        expected += [(at, 15 + i, at + tick_mm(i), 15 + i) for i in range(int(height - 30) + 1)]
    found = sorted(lines_of(page).elements())
    rounded = sorted(tuple(round(side, 2) for side in line) for line in expected)
    assert len(found) == len(rounded)
    assert all(line == pytest.approx(other, abs=0.03) for line, other in zip(found, rounded, strict=True))


@pytest.mark.parametrize("paper", SIZES_MM)
def test_each_ruler_names_its_tens_but_near_its_ends_where_others_cross_it(run: Run, paper: str) -> None:
    assert run("ruler", "--paper", *paper.split()).exit_code == 0
    [page] = printed_pages(Path("out/ruler.pdf"))
    width, height = SIZES_MM[paper]
    # A figure is 3.6 mm from its ruler, clear of ticks of 3 mm: below one that lies, right of one that stands.
    expected = [(ten, 15.0 + ten, at + 3.6 + 1.8) for at in (23, height - 27) for ten in tens(width)]
    beside = [(ten, at + 3.6, 15.0 + ten + 1.8 / 2) for at in (23, width - 27) for ten in tens(height)]
    figures = [text for text in page.texts if text.text.isdigit() and text.capital_mm < 2]
    found = Counter(
        (int(figure.text), place)
        for figure in figures
        for place, at in enumerate([*expected, *beside])
        if abs(figure.base_mm - at[2]) < 0.05
        # A figure's ink begins up to 0.2 mm right of its place.
        and abs(middle_mm(figure.box) - at[1] if place < len(expected) else figure.box.left - 0.1 - at[1]) < 0.15
    )
    assert found == Counter((ten, place) for place, (ten, _, _) in enumerate([*expected, *beside]))
    assert len(figures) == len(expected) + len(beside)


def tens(side_mm: float) -> range:
    """Return the tens of a ruler along a side of the paper that are clear of those that cross it."""
    return range(20, int(side_mm - 30 - 16), 10)


def middle_mm(box: Box) -> float:
    return (box.left + box.right) / 2


def tick_mm(i: int) -> float:
    return 3.0 if i % 10 == 0 else 2.0 if i % 5 == 0 else 1.2


@pytest.mark.parametrize("paper", SIZES_MM)
def test_steps_are_numbered_in_their_order_beside_their_words_and_end_with_the_size_of_the_paper(
    run: Run, paper: str
) -> None:
    assert run("ruler", "--paper", *paper.split()).exit_code == 0
    [page] = printed_pages(Path("out/ruler.pdf"))
    width, height = SIZES_MM[paper]
    title, *texts, size = [text for text in page.texts if text.capital_mm > 2]
    assert (title.text, round(title.capital_mm, 1)) == ("What does your printer do to a page?", 5)
    assert (size.text, round(size.capital_mm, 1)) == (f"{width:g} × {height:g} mm", 3.5)
    numbers = [text for text in texts if text.text.isdigit() and text.box.left < 38]
    assert [text.text for text in numbers] == list("123456")
    steps: list[str] = []
    for text in (text for text in texts if text not in numbers):
        assert text.box.left == pytest.approx(15 + 22 + 5, abs=0.4)
        assert text.box.right < width - 27
        begins = any(abs(number.base_mm - text.base_mm) < 0.01 for number in numbers)
        steps += [text.text] if begins else []
        steps[-1] += "" if begins else f" {text.text}"
    right, low = f"{width - 15:g} mm", f"{height - 15:g} mm"
    assert steps[1].endswith(
        f"the middle cross at the left (15 mm if all is true) and to the one at the right ({right})."
    )
    assert steps[2].endswith(f"the middle cross at the top (15 mm) and to the one at the foot ({low}).")
    options = {"a4": "", "letter": " --paper letter", "a4 --turned": " --turned"}.get(paper, f" --paper {paper}")
    assert f"docgen ruler{options} --measured 15,{right[:-3]},15,{low[:-3]} --to printer.yaml" in steps[3]
    assert steps[4].endswith("docgen print DIR --printer printer.yaml")
    # From the title down, each begins where it should and none is nearer to the one above than lines of running text.
    assert all(text.box.left == pytest.approx(15 + 22, abs=0.4) for text in (title, *numbers, size))
    bases = list(dict.fromkeys(round(text.base_mm, 3) for text in (title, *texts, size)))
    steps_mm = [below - above for above, below in pairwise(bases)]
    assert all(1.5 * 2.5 < step < 12 for step in steps_mm)
    # Lines are 1.55 heights of capitals apart; 1.5 mm more lie between steps.
    begin = {round(number.base_mm, 3) for number in numbers[1:]}
    between = [step for step, base in zip(steps_mm, bases[1:], strict=True) if base in begin]
    assert between == pytest.approx([1.55 * 2.5 + 1.5] * 5, abs=0.01)
    assert pytest.approx(bases[0], abs=0.01) == 15 + 34
    assert bases[-1] < height - 27 - 6
    meeting = [(one.text, two.text) for one, two in combinations(page.texts, 2) if one.box.overlaps(two.box, 0.01)]
    assert meeting == []


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
