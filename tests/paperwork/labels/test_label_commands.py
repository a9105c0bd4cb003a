"""Labels from the command line: half-used sheets, selections, stocks of one's own, printers, and what labels say."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner, Result
from measured import Box, PrintedPage, cells, mm, printed_pages, read

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen
from docgen.paperwork.labels import wire_labels
from docgen.paperwork.labels.pieces import fit
from docgen.paperwork.stocks.files import read_layout_file
from docgen.paperwork.stocks.layouts import PageLayout
from docgen.paperwork.stocks.reading import read_layout
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder

EXAMPLES, LAYOUTS = shipped_folder("examples"), shipped_folder("layouts")
WREN, FULMAR = EXAMPLES / "wren", EXAMPLES / "fulmar"

Run = Callable[..., Result]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run a command in an empty folder."""
    bench = tmp_path / "bench"
    bench.mkdir()
    monkeypatch.chdir(bench)
    return lambda *words: CliRunner().invoke(docgen, [str(word) for word in words])


@pytest.fixture
def labels(run: Run) -> Callable[..., list[PrintedPage]]:
    """Print wire labels and return their pages."""

    def pages(folder: Path, *words: str | Path) -> list[PrintedPage]:
        ran = run("print", folder, "wire-labels", "--to", "paper", *words)
        assert ran.exit_code == 0, ran.stderr
        pdf = Path("paper/wire-labels.pdf")
        return printed_pages(pdf) if pdf.is_file() else []

    return pages


def functions(pages: list[PrintedPage], stock: str) -> list[str | None]:
    """Return the function on each cell of a shipped stock, page by page; nothing for an unused cell."""
    layout = read(LAYOUTS / f"{stock}.yaml")
    length, width = mm(layout["label"]["length"]), mm(layout["label"].get("width", layout["label"].get("printed")))
    found: list[str | None] = []
    for page in pages:
        for x, y in cells(layout):
            within = [t for t in page.texts if x <= t.box.left < x + length and y <= t.base_mm < y + width]
            found.append(next((text.text for text in within if text.bold), None))
    return found


def said_on(pages: list[PrintedPage]) -> str:
    return "\n".join(text.text for page in pages for text in page.texts)


# Half-used sheets


# Bench order: fuselage, then the panels; in each the circuits as written, both ends side by side.
BENCH = ["RX BATT", "RX BATT", "AIL L", "AIL L", "AIL R", "AIL R", "RUD", "RUD", "AIL L", "AIL L", "AIL R", "AIL R"]


def test_labels_come_in_the_order_of_the_bench(labels: Callable[..., list[PrintedPage]]) -> None:
    assert [name for name in functions(labels(WREN), "carrier-a4") if name] == BENCH


def test_the_first_label_goes_into_the_cell_told_and_others_are_drawn_faint(
    labels: Callable[..., list[PrintedPage]],
) -> None:
    [page] = labels(WREN, "--first", "6")
    assert functions([page], "carrier-a4") == [*[None] * 5, *BENCH, *[None] * 11]
    layout = read(LAYOUTS / "carrier-a4.yaml")
    corners = list(cells(layout))
    for i in (*range(5), *range(17, 28)):
        x, y = corners[i]
        outline = Box(x, y, x + mm(layout["label"]["length"]), y + mm(layout["label"]["width"]))
        assert page.off_outline_mm(outline) < 0.1, f"cell {i + 1}"
        inner = page.cut(outline.grown(-0.5))
        assert (inner == 255).all()
        # Faint: seen, and far from black.
        assert 110 < page.cut(outline._replace(bottom=y + 0.2)).min() < 220


@pytest.mark.parametrize("stock", ["flags-a4", "wraps-a4", "strips-a4", "carrier-4.8"])
def test_all_of_an_unused_label_is_faint(labels: Callable[..., list[PrintedPage]], stock: str) -> None:
    [page] = labels(WREN, "--first", "2", "--only", "rudder", "--stock", stock)
    layout = read(LAYOUTS / f"{stock}.yaml")
    length, height = layout_size(layout)
    for i, (x, y) in enumerate(cells(layout)):
        darkest = page.cut(Box(x - 0.5, y - 0.1, x + length + 0.5, y + height)).min()
        assert (darkest < 60) == (i in (1, 2)), f"cell {i + 1}"
        assert darkest < 220


def layout_size(layout: dict[str, Any]) -> tuple[float, float]:
    """Return how much of a sheet a label takes."""
    size = {name: mm(side) for name, side in layout["label"].items()}
    across = 2 * size["length"] + size["wrap"] if "wrap" in size else size["length"]
    return across, size.get("width") or size["printed"] + size["cover"]


def test_a_sheet_that_is_begun_late_goes_on_on_the_next(labels: Callable[..., list[PrintedPage]]) -> None:
    pages = labels(WREN, "--first", "25")
    assert len(pages) == 2
    assert functions(pages, "carrier-a4") == [*[None] * 24, *BENCH, *[None] * 20]


@pytest.mark.parametrize(
    ("stock", "count"),
    # Across times down, as listed by `docgen stock`.
    [("carrier-a4", "28 labels"), ("strips-letter", "60 labels"), ("wraps-a4", "15 labels"), ("tape-9", "1 label")],
)
def test_a_first_label_beyond_the_sheet_is_wrong_use(run: Run, stock: str, count: str) -> None:
    last = int(count.split(maxsplit=1)[0])
    assert run("print", WREN, "wire-labels", "--stock", stock, "--first", last).exit_code == 0
    Path("out/wren/wire-labels.pdf").unlink()
    ran = run("print", WREN, "wire-labels", "--stock", stock, "--first", last + 1)
    assert ran.exit_code == 2
    assert f"--first {last + 1}" in ran.stderr
    assert f"has {count}." in ran.stderr
    assert not Path("out/wren/wire-labels.pdf").exists()


def test_copies_of_a_label_stand_side_by_side(labels: Callable[..., list[PrintedPage]]) -> None:
    found = [name for name in functions(labels(WREN, "--copies", "3"), "carrier-a4") if name]
    assert found == [name for name in BENCH for _ in range(3)]


def test_copies_on_tape_are_pages(labels: Callable[..., list[PrintedPage]]) -> None:
    # The tape's tube of 5.73 mm shrinks to 1.91 mm: it grips all leads of wren, the thinnest 2.95 mm.
    assert len(labels(WREN, "--stock", "tape-9", "--copies", "2")) == 2 * 12


# Selections


@pytest.mark.parametrize(
    ("words", "printed"),
    [
        (["--only", "rudder"], {"RUD": 2}),
        (["--only", "rudder", "--only", "left-aileron"], {"RUD": 2, "AIL L": 4}),
        # At the tray: supply, two ailerons and the rudder end at the receiver.
        (["--only-place", "radio-tray"], {"RX BATT": 1, "AIL L": 1, "AIL R": 1, "RUD": 1}),
        (["--only-place", "left-root", "--only-place", "tail-post"], {"AIL L": 1, "RUD": 1}),
        (["--only", "left-aileron", "--only-place", "left-panel-root"], {"AIL L": 1}),
    ],
)
def test_only_the_labels_asked_for_are_printed(
    labels: Callable[..., list[PrintedPage]], words: list[str], printed: dict[str, int]
) -> None:
    assert Counter(name for name in functions(labels(WREN, *words), "carrier-a4") if name) == printed


def test_a_selection_that_holds_nothing_is_no_error(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--only", "rudder", "--only-place", "left-root")
    assert ran.exit_code == 0
    assert "no label is of rudder and at left-root" in ran.stderr
    assert "nothing to show" in ran.stderr


@pytest.mark.parametrize(
    ("option", "name", "offered"),
    [
        ("--only", "ruder", "rudder"),
        ("--only", "left-ailerons", "left-aileron"),
        ("--only-place", "tailpost", "tail-post"),
        ("--only-place", "radio-try", "radio-tray"),
    ],
)
def test_an_unknown_name_is_wrong_use_and_the_nearest_is_offered(
    run: Run, option: str, name: str, offered: str
) -> None:
    ran = run("print", WREN, "wire-labels", option, name)
    assert ran.exit_code == 2
    assert f"'{name}'" in ran.stderr
    assert f"'{offered}'" in ran.stderr
    assert list(Path().iterdir()) == []


@pytest.mark.parametrize("words", [["--first", "0"], ["--copies", "0"], ["--copies", "two"]])
def test_what_is_no_count_is_wrong_use(run: Run, words: list[str]) -> None:
    assert run("print", WREN, "wire-labels", *words).exit_code == 2


@pytest.mark.parametrize("function", [f"ĵ{'n' * 24}ď", f"j{'n' * 24}ř"])
def test_ink_that_reaches_out_of_its_letter_stays_in_the_zone(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, function: str
) -> None:
    folder = each(
        aircraft_folder({"harness.yaml": [("label: RX BATT", f"label: {function}")]}), "lead, least_type: 1 mm"
    )
    [page] = labels(folder, "--only", "supply")
    corners = list(cells(read(LAYOUTS / "carrier-a4.yaml")))
    for x, y in corners[:2]:
        [text] = [text for text in page.texts if text.bold and x <= text.box.left < x + 60 and text.base_mm > y]
        # Clear are 2 mm, at the left the bar and its space of 3.2 mm too. So long a function fills its line.
        assert x + 5.2 - 0.03 <= text.box.left
        assert x + 60 - 2 - 0.5 <= text.box.right <= x + 60 - 2 + 0.03


# Tapes


def test_the_measured_flat_width_is_what_is_printed_on(labels: Callable[..., list[PrintedPage]]) -> None:
    # A tube of 8 mm in a tape of 9 mm lies in its middle: 0.5 mm free on either side, and 0.8 mm clear.
    for page in labels(WREN, "--stock", "tape-9", "--flat", "8mm"):
        assert page.height_mm == pytest.approx(9, abs=0.01)
        zone = Box(2, 0.5 + 0.8, page.width_mm - 2, 9 - 0.5 - 0.8)
        assert page.ink_outside(Box(0, 0, page.width_mm, 9), [zone.grown(0.05)]) == []


def test_a_narrower_tube_has_to_fit_the_wires_too(run: Run) -> None:
    # 5.5 mm flat is 2 × 5.5 / π = 3.50 mm round; three wires of 1.6 mm need 1.1 × 3.448 = 3.79 mm.
    ran = run("print", WREN, "wire-labels", "--only", "rudder", "--stock", "tape-6", "--flat", "5.5mm")
    assert "tube of 3.5 mm, 1.2 mm shrunk, is too narrow to pass 3.4 mm; it would have to be of 3.8 mm." in ran.stderr
    assert "Print it on a wider stock." in ran.stderr
    assert "nothing to show" in ran.stderr


def test_a_wider_tube_has_to_grip_the_wires_too(run: Run) -> None:
    # 18 mm flat is 2 × 18 / π = 11.46 mm round, a third of it 3.8 mm; three wires of 1.6 mm want 0.9 × 3.128 = 2.8 mm.
    ran = run("print", WREN, "wire-labels", "--only", "rudder", "--stock", "tape-18")
    assert "tube of 11.5 mm, 3.8 mm shrunk, is too wide to grip 3.1 mm; it would have to shrink to 2.8" in ran.stderr
    assert "narrower stock" in ran.stderr


def test_a_stock_that_a_plug_does_not_pass_may_go_on_before_crimping(run: Run, aircraft_folder: AircraftFolder) -> None:
    # The girth of the servo plug, 21.8 mm, is as long as that of 6.94 mm round; the tape's tube is 5.7 mm.
    folder = each(aircraft_folder(), "lead, fit: after")
    ran = run("print", folder, "wire-labels", "--only", "rudder", "--stock", "tape-9")
    assert "too narrow to pass 6.9 mm; it would have to be of 7.6 mm." in ran.stderr
    assert "fit it before crimping (`labels: {fit: before}`)" in ran.stderr


@pytest.mark.parametrize("flat", ["8", "wide", "-3mm"])
def test_a_flat_width_that_is_none_is_wrong_use(run: Run, flat: str) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", "tape-9", "--flat", flat)
    assert ran.exit_code == 2
    assert "--flat" in ran.stderr


def test_a_flat_width_over_the_tape_s_is_refused_or_found(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", "tape-9", "--flat", "12mm")
    assert ran.exit_code == 2 or "12 mm" in ran.stderr


@pytest.mark.parametrize(
    ("scale", "shift"), [((1.0, 1.0), (1.0, 1.0)), ((1.015, 0.985), (-1.0, -1.0)), ((0.98, 1.03), (2.0, -0.5))]
)
@pytest.mark.parametrize("flat", [9.0, 8.0])
def test_on_tape_nothing_is_cut_that_is_corrected_for_a_printer(
    run: Run, scale: tuple[float, float], shift: tuple[float, float], flat: float
) -> None:
    across, down = (f"{100 * side:g} %" for side in scale)
    Path("printer.yaml").write_text(
        f"kind: printer\nscale: [{across}, {down}]\nshift: [{shift[0]} mm, {shift[1]} mm]\n"
    )
    # In small type, so that what is left of a narrow tape has room for it.
    folder = each(copied(WREN), "lead, least_type: 0.7 mm")
    words = ["wire-labels", "--stock", "tape-9", "--flat", f"{flat}mm", "--printer", "printer.yaml", "--to", "paper"]
    ran = run("print", folder, *words)
    assert ran.exit_code == 0
    pages = printed_pages(Path("paper/wire-labels.pdf"))
    assert len(pages) == 12
    for page in pages:
        zone = Box(2, (9 - flat) / 2 + 0.8, page.width_mm - 2, (9 + flat) / 2 - 0.8)
        assert page.ink_outside(Box(0, 0, page.width_mm, 9), [zone.grown(0.05)]) == []
        assert {text.text for text in page.texts if text.bold} <= set(BENCH)
        # The printer puts a point at scale × point + shift: there it is in the zone as well.
        for text in page.texts:
            left, right = (scale[0] * side + shift[0] for side in (text.box.left, text.box.right))
            top, bottom = (scale[1] * side + shift[1] for side in (text.box.top, text.box.bottom))
            assert zone.holds(Box(left, top, right, bottom), slack_mm=0.05)


def test_a_shift_that_leaves_a_tape_no_room_is_found(run: Run) -> None:
    Path("printer.yaml").write_text("kind: printer\nscale: [100 %, 100 %]\nshift: [0 mm, 4 mm]\n")
    ran = run("print", WREN, "wire-labels", "--stock", "tape-6", "--printer", "printer.yaml", "--to", "paper")
    assert ran.exit_code == 0
    assert len(re.findall("caution (?:type|tube): the label", ran.stderr)) == 12
    assert "4.8 mm at its edges" in ran.stderr
    assert not Path("paper/wire-labels.pdf").exists()


def copied(folder: Path) -> Path:
    return Path(shutil.copytree(folder, "copied"))


# A stock of one's own

OWN = """# Pieces of tube on half a sheet.
kind: label sheet
paper: [148 mm, 210 mm]
margin: 8 mm
tube: {expanded: 4.8 mm, recovered: 2.4 mm}
cells: {across: 2, down: 8, first: [12 mm, 20 mm], pitch: [64 mm, 12 mm]}
label: {length: 55 mm, width: 7.6 mm}
clear: {ends: 2 mm, edges: 0.4 mm}
"""


def own(text: str) -> Path:
    path = Path("own.yaml")
    path.write_text(text, "utf-8")
    return path


def test_a_stock_of_one_s_own_is_printed_where_it_says(labels: Callable[..., list[PrintedPage]]) -> None:
    [page] = labels(WREN, "--stock", own(OWN))
    assert (page.width_mm, page.height_mm) == pytest.approx((148, 210), abs=0.01)
    for i, (x, y) in enumerate(cells(read(Path("own.yaml")))):
        # Ten of twelve labels fit the tube, π × 4.8 / 2 = 7.54 mm flat; the other cells are as large as told.
        height = 7.54 if i < 10 else 7.6
        assert page.off_outline_mm(Box(x, y, x + 55, y + height)) < 0.1


@pytest.mark.parametrize(
    ("old", "new", "line", "name"),
    [
        ("margin: 8 mm", "margin: 8", 4, "unit"),
        ("margin: 8 mm\n", "", 2, "missing"),
        ("across: 2", "across: two", 6, "value"),
        ("label: {length", "label: {colour: RD, length", 7, "key"),
        ("kind: label sheet", "kind: label", 2, "value"),
        ("first: [12 mm, 20 mm]", "first: [12 mm]", 6, "value"),
        ("edges: 0.4 mm}", "edges: 0.4 mm", 9, "syntax"),
        ("recovered: 2.4 mm", "recovered: thin", 5, "value"),
    ],
)
def test_an_error_in_a_stock_says_its_line(run: Run, old: str, new: str, line: int, name: str) -> None:
    assert old in OWN
    ran = run("print", WREN, "wire-labels", "--stock", own(OWN.replace(old, new)))
    assert ran.exit_code == 1
    told = [(int(at), found) for at, found in re.findall(r"own\.yaml:(\d+):\d+: error (\w+)", ran.stderr)]
    if name == "missing":  # what is missing has no line of its own
        assert [found for _, found in told] == [name]
    elif name == "syntax":  # told where the file ends in the middle, or before it
        assert told[0][1] == name
        assert told[0][0] >= 8
    else:
        assert told[0][1] in (name, "unit")
        assert told[0][0] == line
    assert not Path("out").exists()


@pytest.mark.parametrize(
    ("old", "new", "line", "says"),
    [
        # 12 + 64 + 80 = 156 mm on a paper of 148 mm, and 80 mm at a pitch of 64 mm.
        ("length: 55 mm", "length: 80 mm", 6, "8.0 mm over the paper's edge across"),
        ("length: 55 mm", "length: 80 mm", 6, "run into each other"),
        # 20 + 19 × 12 + 7.6 = 255.6 mm of 210 mm.
        ("down: 8", "down: 20", 6, "45.6 mm over the paper's edge down"),
        ("pitch: [64 mm, 12 mm]", "pitch: [64 mm, 7 mm]", 6, "run into each other"),
        ("ends: 2 mm", "ends: 27.5 mm", 8, "nothing of a label is left"),
        # π × 19.1 / 2 = 30.0 mm flat on 7.6 mm of carrier: two and a half rows of 12 mm.
        ("expanded: 4.8 mm", "expanded: 19.1 mm", 5, "30.0 mm flat is wider than its label of 7.6 mm"),
        ("recovered: 2.4 mm", "recovered: 4.9 mm", 5, "does not shrink"),
    ],
)
def test_sizes_that_do_not_fit_are_found_on_their_line(run: Run, old: str, new: str, line: int, says: str) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", own(OWN.replace(old, new)))
    told = re.findall(r"own\.yaml:(\d+):\d+: caution stock: (.*)", ran.stderr)
    assert any(int(at) == line and says in sentence for at, sentence in told), ran.stderr
    assert not Path("out/wren/wire-labels.pdf").exists()


# Plain carriers and strips, whose cells follow each other without a gap or with the one that is told.
CLOSE = OWN.replace("tube: {expanded: 4.8 mm, recovered: 2.4 mm}\n", "")
CLOSE = CLOSE.replace("pitch: [64 mm, 12 mm]", "pitch: [55 mm, 12 mm]")
STRIPS = CLOSE.replace("label sheet", "label strips")


@pytest.mark.parametrize("width", ["12 mm", "10.2 mm", "11.5 mm", "9.8 mm", "9.7 mm", "9.5 mm"])
@pytest.mark.parametrize("stock", [CLOSE, STRIPS])
@pytest.mark.parametrize("first", ["20 mm", "14 mm", "12 mm", "7 mm"])
def test_labels_close_to_each_other_keep_their_marks_to_themselves(
    labels: Callable[..., list[PrintedPage]], stock: str, width: str, first: str
) -> None:
    text = stock.replace("width: 7.6 mm", f"width: {width}").replace("[12 mm, 20 mm]", f"[12 mm, {first}]")
    [page] = labels(WREN, "--stock", own(text), "--only", "rudder", "--only", "left-aileron")
    texts = [text for text in page.texts if text.box.top < 120]
    overlapping = [(a.text, b.text) for a, b in combinations(texts, 2) if a.box.overlaps(b.box, by_mm=0.02)]
    assert overlapping == []
    assert sum("shrink-" in text.text or "clear-" in text.text for text in texts) == 6
    # No mark reaches into the label beside: a strip's 0.3 mm at its outline apart, its clear ends are free of ink.
    for x, y in cells(read(Path("own.yaml"))):
        ends = [Box(x + 0.3, y + 0.3, x + 1.7, y + 9), Box(x + 53.3, y + 0.3, x + 54.7, y + 9)]
        ink = [page.ink_outside(end, [text.box.grown(0.1) for text in page.texts]) for end in ends]
        assert ink == [[], []]


def test_a_wrap_without_room_for_print_is_found_on_its_line(run: Run) -> None:
    wrap = OWN.replace("label sheet", "label wraps").replace("tube: {expanded: 4.8 mm, recovered: 2.4 mm}\n", "")
    wrap = wrap.replace("{length: 55 mm, width: 7.6 mm}", "{length: 55 mm, printed: 4 mm, cover: 6 mm}")
    ran = run("print", WREN, "wire-labels", "--stock", own(wrap.replace("edges: 0.4 mm", "edges: 2 mm")))
    assert "own.yaml:7:" in ran.stderr


# The 65-up set of reference sheets: 38.1 × 21.2 mm from 4.75 and 10.7 mm, to within 11 mm of the foot.
FULL = """kind: label sheet
paper: [210 mm, 297 mm]
margin: 4 mm
cells: {across: 5, down: 13, first: [4.75 mm, 10.7 mm], pitch: [40.6 mm, 21.2 mm]}
label: {length: 38.1 mm, width: 21.2 mm}
clear: {ends: 2 mm, edges: 1 mm}
"""


def test_head_and_foot_keep_off_the_labels(labels: Callable[..., list[PrintedPage]]) -> None:
    [page] = labels(WREN, "--stock", own(FULL))
    corners = list(cells(read(Path("own.yaml"))))
    unused = [Box(x, y, x + 38.1, y + 21.2).grown(-0.5) for x, y in corners[12:]]
    assert [box for box in unused if (page.cut(box) < 255).any()] == []


def test_a_file_that_is_no_stock_is_told(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--stock", LAYOUTS / "card-a5.yaml")
    assert ran.exit_code == 1
    assert "no stock" in ran.stderr
    assert run("print", WREN, "wire-labels", "--stock", "carier-a4").exit_code == 2


# Wraps


@pytest.mark.parametrize(("circuit", "around"), [("rudder", 9.83), ("supply", 9.25)])
@pytest.mark.parametrize("printed", [8, 12, 16, 18])
def test_only_clear_film_comes_to_lie_over_the_type_of_a_wrap(
    labels: Callable[..., list[PrintedPage]], circuit: str, around: float, printed: int
) -> None:
    # Round the wires by hand: π × 1.955 × 1.6 mm and π × 1.637 × 1.8 mm, once to a turn. What is printed is wrapped on
    # first, so all of it but the last turn has print over it; of that turn type takes half, seen from one side.
    wrap = OWN.replace("label sheet", "label wraps").replace("tube: {expanded: 4.8 mm, recovered: 2.4 mm}\n", "")
    wrap = wrap.replace("{length: 55 mm, width: 7.6 mm}", f"{{length: 55 mm, printed: {printed} mm, cover: 20 mm}}")
    wrap = wrap.replace("down: 8", "down: 3").replace("12 mm]}", "40 mm]}")
    [page] = labels(WREN, "--stock", own(wrap), "--only", circuit)
    begins = 20 + max(printed - around, 0)
    texts = [text for text in page.texts if 20 < text.base_mm < 60]
    assert len(texts) >= 4
    for text in texts:
        assert begins + 0.4 - 0.05 <= text.box.top
        assert text.box.bottom <= min(begins + around / 2, 20 + printed) - 0.4 + 0.05


# Heat

AFT = "- {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}"
HOT_CLEAR = "tubes: {hot-clear: {expanded: 6 mm, recovered: 1.5 mm, wall: 0.5 mm, clear: yes, limit: 200 °C}}\n"
TUBE_LIMIT = OWN.replace("recovered: 2.4 mm}", "recovered: 2.4 mm, limit: 125 °C}")
TAPE = "kind: label tape\nwidth: 9 mm\nshrinks: 3:1\nlength: [30 mm, 80 mm]\nclear: {ends: 2 mm, edges: 0.8 mm}\n"


@pytest.mark.parametrize(
    ("heat", "stock", "parts", "told"),
    [
        # The clear tubes of the parts list stand 135 °C.
        (135, "strips-a4", None, None),
        (136, "strips-a4", None, "`clear-4.8` stands 135 °C, and no clear tube that fits stands more."),
        (136, "strips-a4", HOT_CLEAR, None),
        (125, TUBE_LIMIT, None, None),
        (126, TUBE_LIMIT, None, "the stock's tube stands 125 °C."),
        (126, f"{TAPE}limit: 125 °C\n", None, "the stock's tube stands 125 °C."),
        (126, TAPE, None, None),
    ],
)
def test_the_heat_of_its_way_counts_for_every_tube(
    run: Run, aircraft_folder: AircraftFolder, heat: int, stock: str, parts: str | None, told: str | None
) -> None:
    changes: dict[str, Any] = {"aircraft.yaml": [(AFT, f"{AFT[:-1]}, heat: {heat} °C}}")]}
    folder = aircraft_folder(changes | ({"parts.yaml": parts} if parts else {}))
    ran = run("print", folder, "wire-labels", "--only", "rudder", "--stock", stock if "\n" not in stock else own(stock))
    assert ran.exit_code == 0
    found = re.findall(r"caution heat: (the label .*)", ran.stderr)
    assert len(found) == (2 if told else 0), ran.stderr
    assert all(f"lies in {heat} °C; {told}" in sentence for sentence in found)
    assert Path("out/wren/wire-labels.pdf").is_file()


# docgen stock


def test_all_stocks_are_listed_with_what_they_are(run: Run) -> None:
    listed = run("stock")
    assert (listed.exit_code, listed.stderr) == (0, "")
    lines = {line.split()[0]: line for line in listed.stdout.splitlines()}
    assert lines.keys() == {path.stem for path in LAYOUTS.glob("*.yaml") if "label" in str(read(path)["kind"])}
    for name, line in lines.items():
        layout = read(LAYOUTS / f"{name}.yaml")
        if "cells" in layout:
            assert f"{layout['cells']['across']} × {layout['cells']['down']} on " in line
        else:
            assert f"{mm(layout['width']):g} mm" in line


def test_the_usual_stocks_are_there() -> None:
    every = [read(path) for path in LAYOUTS.glob("*.yaml")]
    tapes = {mm(layout["width"]) for layout in every if layout["kind"] == "label tape"}
    assert tapes == {6, 9, 12, 18, 24}
    for kind in ("label sheet", "label strips", "label wraps", "label flags"):
        papers = {tuple(sorted(mm(side) for side in layout["paper"])) for layout in every if layout["kind"] == kind}
        # Letter is 8.5 × 11 in.
        assert {tuple(round(side, 2) for side in paper) for paper in papers} == {(210, 297), (215.9, 279.4)}


def test_the_sizes_of_every_stock_go_together() -> None:
    read_again = {path.name: read_layout_file(path, path.name) for path in LAYOUTS.glob("*.yaml")}
    assert [name for name, (layout, found) in read_again.items() if layout is None or found] == []


# docgen ruler


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


def test_a_flat_width_without_a_tape_is_refused(run: Run) -> None:
    ran = run("print", WREN, "wire-labels", "--flat", "8.6mm")
    assert ran.exit_code == 2
    assert "--stock" in ran.stderr


# Wrong printers


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


# What labels say


def each(folder: Path, mode: str) -> Path:
    harness = folder / "harness.yaml"
    harness.write_text(harness.read_text("utf-8") + f"\nlabels: {{each: {mode}}}\n", "utf-8")
    return folder


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
    built = check(example).harness
    assert built is not None
    items = wire_labels.content(replace(built, labels=built.labels.model_copy(update={"each": "wire"})))
    layout, _ = read_layout("carrier-a4")
    assert layout is not None
    assert not isinstance(layout, PageLayout)
    wires: dict[str, str] = {}
    for item in items.labels:
        if not item.text.of_wire:
            continue
        mark = item.text.mark
        assert wires.setdefault(mark, " ".join(item.key[:3])) == " ".join(item.key[:3])
        piece, findings = fit(item, items, layout)
        said = [text.text for text in piece.label.pieces] if piece is not None else []
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


@pytest.mark.parametrize(("stock", "count"), [("flags-a4", 1), ("wraps-letter", 1)])
def test_own_leads_are_printed_to_be_wrapped(labels: Callable[..., list[PrintedPage]], stock: str, count: int) -> None:
    found = functions(labels(FULMAR, "--only", "gyro", "--stock", stock), stock)
    assert [name for name in found if name] == ["GYRO"] * count


@pytest.mark.parametrize("stock", ["carrier-a4", "tape-9", "strips-letter"])
def test_own_leads_are_left_out_and_named_on_tube(run: Run, stock: str) -> None:
    ran = run("print", FULMAR, "wire-labels", "--only", "gyro", "--stock", stock)
    assert ran.exit_code == 0
    assert "GYRO at receiver-a 6" in ran.stderr
    assert not Path("out/fulmar/wire-labels.pdf").exists()


@pytest.mark.parametrize(("stock", "times"), [("flags-a4", 2), ("wraps-a4", 1), ("carrier-a4", 1)])
def test_both_ends_of_a_lead_that_feeds_a_receiver_or_a_unit_say_which_supply(
    labels: Callable[..., list[PrintedPage]], stock: str, times: int
) -> None:
    words = ["left-pack", "receiver-a-data", "receiver-a-supply", "receiver-b-data"]
    said = said_on(labels(FULMAR, *(word for name in words for word in ("--only", name)), "--stock", stock))
    # Two ends of four leads have the left pack behind them, all but the first the right one too; flags say all twice.
    assert len(re.findall(r"\bleft-pack\b", said)) == 8 * times
    assert len(re.findall(r"\bright-pack\b", said)) == 6 * times


@pytest.mark.parametrize(("mode", "ends"), [("lead", 2), ("wire", 2 * 2)])
def test_the_supply_is_never_taken_for_the_far_end(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, mode: str, ends: int
) -> None:
    # A unit between pack and receiver, so that no end of the lead to the receiver is at the pack; it has two wires,
    # long enough for labels at both ends.
    unit = "  unit: {kind: power unit, place: radio-tray, ports: [{plug: power-2, names: [IN, OUT], contacts: pins}]}\n"
    feed = "  feed: {from: unit OUT, to: receiver BATT, lead: power-20, lengths: {A: 200 mm}}\n"
    harness = [("equipment:\n", f"equipment:\n{unit}"), ("to: receiver BATT", "to: unit IN")]
    folder = aircraft_folder({"harness.yaml": [*harness, ("circuits:\n", f"circuits:\n{feed}")]})
    pages = labels(each(folder, f"{mode}, least_type: 1 mm"), "--only", "feed", "--stock", "flags-a4")
    said = said_on(pages).replace("\n", " ")
    assert said.count("from pack") == len(re.findall(r"\bpack\b", said)) == 2 * ends  # flags say all twice


# In each panel a receiver that a pack of its own feeds over commons of the joint, and an engine unit that the radio's
# receiver commands and the same commons feed.
UNITS = """  <side>-wing-pack:
    {kind: battery, place: radio-tray, lead: 120 mm, lead_wire: pvc-20, plug: power-2,
     battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}}
  <side>-far-receiver:
    {kind: receiver, place: <side>-aileron, ports: [{plug: power-2, names: [BATT], contacts: pins}]}
  <side>-engine: {kind: engine unit, place: <side>-aileron, lead: 250 mm, plug: servo-3}
"""
FED_OVER_COMMONS = """  <side>-feed:
    {label: FEED, from: <side>-wing-pack, to: <side>-root far-positive far-negative, lead: power-20}
  <side>-far-receiver: {label: FAR, from: <side>-root far-positive far-negative, to: <side>-far-receiver BATT,
    lead: power-20}
  <side>-engine:
    label: ENG
    from: {left: receiver 5, right: receiver 6}
    to: <side>-engine
    through: [<side>-root]
    lead: {A: signal-only, B: servo-22}
"""
COMMONS = """    shell: block-8
    commons:
      far-positive: {role: positive, contacts: [5], circuits: [<side>-engine]}
      far-negative: {role: negative, contacts: [6], circuits: [<side>-engine]}
"""


def test_a_lead_behind_commons_says_the_supply_that_comes_over_them(aircraft_folder: AircraftFolder) -> None:
    harness = [("equipment:\n", f"equipment:\n{UNITS}"), ("circuits:\n", f"circuits:\n{FED_OVER_COMMONS}")]
    harness += [("names: 1..4", "names: 1..6"), ("    shell: block-6\n", COMMONS)]
    parts = "leads: {signal-only: {wires: {signal: pvc-24 WH}}}\n"
    built = check(aircraft_folder({"harness.yaml": harness, "parts.yaml": parts})).harness
    assert built is not None
    said = {label.key: label.text.supply for label in wire_labels.content(built).labels}
    for side in ("left", "right"):
        feeding = [(f"{side}-feed", "A"), (f"{side}-far-receiver", "A"), (f"{side}-engine", "B")]
        for key in ((*lead, end) for lead in feeding for end in ("from", "to")):
            supply = said[key]
            assert supply is not None, key
            assert supply == f"{side}-wing-pack"
        # Signal alone passes the fuselage, and servos are no units.
        assert said[f"{side}-engine", "A", "from"] is None
        assert said[f"{side}-aileron", "A", "from"] is None


def test_a_lead_says_only_the_packs_behind_itself(aircraft_folder: AircraftFolder) -> None:
    # A second pack straight to the receiver makes both one supply; each lead brings that of its own pack.
    second = "  second: {kind: battery, place: radio-tray, lead: 120 mm, lead_wire: pvc-20, plug: power-2,\n    "
    second += "battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}}\n"
    unit = "  unit: {kind: power unit, place: radio-tray, ports: [{plug: power-2, names: [IN, OUT], contacts: pins}]}\n"
    circuits = "  one: {from: second, to: unit IN, lead: power-20}\n"
    circuits += "  two: {from: unit OUT, to: receiver AUX, lead: power-20}\n"
    harness = [("equipment:\n", f"equipment:\n{second}{unit}"), ("circuits:\n", f"circuits:\n{circuits}")]
    built = check(aircraft_folder({"harness.yaml": [*harness, ("names: [BATT]", "names: [BATT, AUX]")]})).harness
    assert built is not None
    supplies = {(label.key[0], label.text.supply) for label in wire_labels.content(built).labels}
    said = {circuit: supply for circuit, supply in supplies if supply is not None}
    assert said == {"supply": "pack", "one": "second", "two": "second"}


def test_the_supply_is_said_or_missed_where_the_far_end_is_left_out(run: Run, aircraft_folder: AircraftFolder) -> None:
    name = "pack-below-the-nose-hatch"
    changes = [("  pack:\n", f"  {name}:\n"), ("from: pack\n", f"from: {name}\n")]
    ran = run("print", aircraft_folder({"harness.yaml": changes}), "wire-labels", "--only", "supply")
    assert f"the label `RX BATT` at receiver BATT has no room to say its supply, `{name}`." in ran.stderr


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
