"""Labels on every stock as they come out of the printer: measured on pages of 600 dpi against the layouts' figures."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from itertools import pairwise, product
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from click.testing import CliRunner
from measured import Box, PrintedPage, PrintedText, cells, mm, printed_pages, read

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen

EXAMPLES, LAYOUTS = shipped_folder("examples"), shipped_folder("layouts")
PARTS = read(Path(__file__).parents[3] / "docgen" / "definition" / "parts.yaml")
STOCKS = sorted(path.stem for path in LAYOUTS.glob("*.yaml") if str(read(path)["kind"]).startswith("label"))
WITHIN_MM = 0.1
# Beside a label, outside its outline: the tube's name above it, cut marks beyond its corners.
NAME_MM, CUT_MARK_MM = 3.0, 1.7
# What equipment came with and its wires, of the circuits that plug straight in.
OWN_LEADS = {"GYRO": ("lead-28", 3), "LIGHTS": ("lead-28", 2), "FAN L": ("silicone-12", 3), "FAN R": ("silicone-12", 3)}
QUICK = [("wren", "carrier-4.8"), ("wren", "tape-9"), ("wren", "wraps-letter"), ("wren", "strips-a4")]
EVERY = list(product(("wren", "fulmar"), STOCKS))


class Printed(NamedTuple):
    """What a command wrote and said."""

    pages: list[PrintedPage]
    said: str


def printed(folder: Path, *words: str) -> Printed:
    ran = CliRunner().invoke(docgen, ["print", *words, "--to", str(folder), "wire-labels"])
    assert ran.exit_code == 0, ran.stderr
    pdf = folder / "wire-labels.pdf"
    assert pdf.is_file() or "there is nothing to show" in ran.stderr
    return Printed(printed_pages(pdf) if pdf.is_file() else [], ran.stderr)


@pytest.fixture(scope="module")
def on_stock(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """Print an example's labels on a stock, once for all tests."""

    @cache
    def on(example: str, stock: str) -> Printed:
        return printed(tmp_path_factory.mktemp(stock), str(EXAMPLES / example), "--stock", stock)

    return on


class Wires(NamedTuple):
    """The circle around wires and what a tube grips of them [mm]."""

    passes: float
    grips: float


def wires(diameter: float, count: int) -> Wires:
    """Return them for equal wires by hand: circles in contact, and a band of π d and one d for each straight side."""
    circle = {1: 1.0, 2: 2.0, 3: 1 + 2 / math.sqrt(3), 4: 1 + math.sqrt(2)}[count]
    return Wires(circle * diameter, diameter * (1 + (count / math.pi if count > 1 else 0)))


def wires_of(lead: str, omitted: int) -> Wires:
    form = PARTS["leads"][lead]
    if "diameter" in form:  # a jacket
        return Wires(mm(form["diameter"]), mm(form["diameter"]))
    kinds = [kind.split()[0] for kind in form["wires"].values()]
    assert len(set(kinds)) == 1
    return wires(mm(PARTS["wires"][kinds[0]]["diameter"]), len(kinds) - omitted)


@cache
def wires_by_function(example: str) -> dict[str, list[Wires]]:
    """Return what the labels of each function lie round, by the example's own text: one for each kind of segment."""
    found: dict[str, list[Wires]] = {}
    for circuit in read(EXAMPLES / example / "harness.yaml")["circuits"].values():
        label = circuit["label"]
        for function in label.values() if isinstance(label, dict) else [label]:
            if "lead" not in circuit:
                name, count = OWN_LEADS[function]
                found[function] = [wires(mm(PARTS["wires"][name]["diameter"]), count)]
                continue
            leads = circuit["lead"] if isinstance(circuit["lead"], dict) else {"A": circuit["lead"]}
            found[function] = [wires_of(lead, len(circuit.get("omit", []))) for lead in leads.values()]
    return found


@cache
def label_counts(example: str, stock: str) -> Counter[str]:
    """Return how many labels of each function a stock is asked for, by the example's own text.

    Both ends of each segment; of own leads, only where they are wrapped, those ends that are leads.
    """
    counts: Counter[str] = Counter()
    for circuit in read(EXAMPLES / example / "harness.yaml")["circuits"].values():
        label = circuit["label"]
        for function in label.values() if isinstance(label, dict) else [label]:
            if "lead" in circuit:
                counts[function] += 2 * (1 + len(circuit.get("through", [])))
            elif stock.startswith(("wraps", "flags")):
                # A fan and its controller came with a lead each, a receiver with none.
                counts[function] += 2 if function.startswith("FAN") else 1
    return counts


class Label(NamedTuple):
    """A label as found on a page: its outline by the layout, zones for ink, texts in it, how far type shrinks."""

    page: PrintedPage
    outline: Box
    zones: list[Box]
    texts: list[PrintedText]
    tube_mm: float | None

    @property
    def function(self) -> PrintedText:
        return next(text for text in self.texts if text.bold)


def inside(page: PrintedPage, box: Box) -> list[PrintedText]:
    return [t for t in page.texts if box.left <= t.box.left < box.right and box.top <= t.base_mm < box.bottom]


def zone(outline: Box, clear: dict[str, str]) -> Box:
    ends, edges = mm(clear["ends"]), mm(clear["edges"])
    return Box(outline.left + ends, outline.top + edges, outline.right - ends, outline.bottom - edges)


def size_mm(layout: dict[str, Any]) -> tuple[float, float]:
    """Return how much of a sheet each label takes."""
    size = {key: mm(value) for key, value in layout["label"].items()}
    if layout["kind"] == "label flags":
        return 2 * size["length"] + size["wrap"], size["width"]
    return size["length"], size["width"] if "width" in size else size["printed"] + size["cover"]


def labels_on_sheets(example: str, stock: str, pages: list[PrintedPage]) -> Iterator[Label]:
    layout = read(LAYOUTS / f"{stock}.yaml")
    for page, (x, y) in product(pages, cells(layout)):
        length, most = size_mm(layout)
        texts = inside(page, Box(x, y, x + length, y + most))
        if not any(text.bold for text in texts):
            yield Label(page, Box(x, y, x + length, y + most), [], texts, None)
            continue
        outline, tube = Box(x, y, x + length, y + most), None
        if layout["kind"] == "label sheet":
            beside = next(t.text for t in page.texts if abs(t.box.left - x) < 1 and 0 < y - t.base_mm < 1.5)
            tube = mm(layout["tube"]["expanded"]) if "tube" in layout else tube_named(beside)
            outline = outline._replace(bottom=y + math.pi * tube / 2)
        if layout["kind"] == "label strips":
            function = next(text.text for text in texts if text.bold)
            rounds = [math.pi * lead.grips / 2 for lead in wires_by_function(example)[function]]
            # With several kinds of segment, that whose strip is there.
            heights = sorted(min(most, half) for half in rounds)
            outline = min((outline._replace(bottom=y + height) for height in heights), key=page.off_outline_mm)
        yield Label(page, outline, zones(layout, outline), texts, tube)


def tube_named(beside: str) -> float:
    """Return the diameter of the tube whose name stands beside a label, and see that its length is said."""
    name, length = beside.split(" · ")
    assert length == "60 mm"
    return mm(PARTS["tubes"][name]["expanded"])


def zones(layout: dict[str, Any], outline: Box) -> list[Box]:
    clear = layout["clear"]
    if layout["kind"] == "label wraps":
        return [zone(outline._replace(bottom=outline.top + mm(layout["label"]["printed"])), clear)]
    if layout["kind"] == "label flags":
        half = mm(layout["label"]["length"])
        halves = outline._replace(right=outline.left + half), outline._replace(left=outline.right - half)
        return [zone(each, clear) for each in halves]
    return [zone(outline, clear)]


def labels_on(example: str, stock: str, pages: list[PrintedPage]) -> list[Label]:
    """Return every label on the pages, unused cells without zones."""
    if not stock.startswith("tape"):
        return list(labels_on_sheets(example, stock, pages))
    layout = read(LAYOUTS / f"{stock}.yaml")
    found = []
    for page in pages:
        outline = Box(0, 0, page.width_mm, page.height_mm)
        found.append(Label(page, outline, [zone(outline, layout["clear"])], page.texts, 2 * page.height_mm / math.pi))
    return found


def quick_and_every(pairs: list[tuple[str, str]], quick: list[tuple[str, str]] = QUICK) -> pytest.MarkDecorator:
    return pytest.mark.parametrize(
        ("example", "stock"), [pytest.param(*pair, marks=[] if pair in quick else [pytest.mark.long]) for pair in pairs]
    )


@quick_and_every([pair for pair in EVERY if "tape" not in pair[1]])
def test_every_outline_is_where_the_layout_says(on_stock: Any, example: str, stock: str) -> None:
    labels = labels_on(example, stock, on_stock(example, stock).pages)
    assert [label.outline for label in labels if label.page.off_outline_mm(label.outline) > WITHIN_MM] == []


@quick_and_every([pair for pair in EVERY if "tape" in pair[1]])
def test_a_page_of_tape_is_as_wide_as_the_tape_and_as_long_as_a_label(on_stock: Any, example: str, stock: str) -> None:
    layout = read(LAYOUTS / f"{stock}.yaml")
    least, most = (mm(length) for length in layout["length"])
    for page in on_stock(example, stock).pages:
        assert page.height_mm == pytest.approx(mm(layout["width"]), abs=WITHIN_MM)
        assert least - WITHIN_MM <= page.width_mm <= most + WITHIN_MM


@quick_and_every(EVERY)
def test_all_ink_stays_in_the_printable_zone(on_stock: Any, example: str, stock: str) -> None:
    layout = read(LAYOUTS / f"{stock}.yaml")
    for page in on_stock(example, stock).pages:
        labels = [label for label in labels_on(example, stock, [page]) if label.zones]
        allowed = [box.grown(1 / page.per_mm[0]) for label in labels for box in label.zones]
        assert labels
        if layout["kind"] == "label tape":
            assert page.ink_outside(Box(0, 0, page.width_mm, page.height_mm), allowed) == []
            continue
        allowed += [box for label in labels for box in exempt(layout, label.outline)]
        every = [(x, y) for x, y in cells(layout)]
        if layout["kind"] == "label flags":
            allowed += [fold_arrow(layout, label.outline.left, label.outline.top) for label in labels]
        region = Box(
            every[0][0] - 2, every[0][1] - 0.5, every[-1][0] + size_mm(layout)[0] + 2, every[-1][1] + size_mm(layout)[1]
        )
        assert page.ink_outside(region, allowed) == []


def exempt(layout: dict[str, Any], outline: Box) -> list[Box]:
    """Return where a tube's name and cut marks may stand, outside the outline."""
    boxes = []
    if layout["kind"] in ("label sheet", "label strips"):
        boxes.append(Box(outline.left, outline.top - NAME_MM, outline.right, outline.top - 0.2))
    if layout["kind"] == "label strips":
        for y in (outline.top, outline.bottom):
            boxes.append(Box(outline.left - CUT_MARK_MM, y - 0.15, outline.left - 0.2, y + 0.15))
            boxes.append(Box(outline.right + 0.2, y - 0.15, outline.right + CUT_MARK_MM, y + 0.15))
    return boxes


def fold_arrow(layout: dict[str, Any], x: float, y: float) -> Box:
    """Return the part of a flag that lies round the wire, where the arrow to the plug stands."""
    half, width = mm(layout["label"]["length"]), mm(layout["label"]["width"])
    return Box(x + half + 1, y + 1, x + half + mm(layout["label"]["wrap"]) - 1, y + width - 1)


@quick_and_every(EVERY)
def test_capitals_are_as_high_as_the_text_says(on_stock: Any, example: str, stock: str) -> None:
    result, measured = on_stock(example, stock), 0
    for label in labels_on(example, stock, result.pages):
        if not label.zones:
            continue
        height = label.page.capital_height_mm(label.function)
        if height is not None:
            assert height == pytest.approx(label.function.capital_mm, abs=WITHIN_MM), label.function.text
            measured += 1
    assert measured > 0 or not result.pages


@cache
def least_mm(example: str) -> float:
    return mm(read(EXAMPLES / example / "harness.yaml").get("labels", {}).get("least_type", "1.6 mm"))


def shrinks_to(example: str, label: Label) -> list[float]:
    """Return by how much a label's type may shrink, one for each kind of segment that its tube passes.

    Type round a tube shrinks with it: printed × gripped / expanded. What is not shrunk keeps its height.
    """
    if label.tube_mm is None:
        return [1.0]
    leads = wires_by_function(example)[label.function.text]
    # Those that the tube passes with a tenth to spare.
    passed = [lead for lead in leads if 1.1 * lead.passes <= label.tube_mm + 1e-9]
    assert passed, f"{label.function.text} does not pass {label.tube_mm} mm"
    return [lead.grips / label.tube_mm for lead in passed]


@quick_and_every(EVERY)
def test_no_type_is_under_the_least_height_when_shrunk(on_stock: Any, example: str, stock: str) -> None:
    for label in labels_on(example, stock, on_stock(example, stock).pages):
        if label.zones:
            least = min(text.capital_mm for text in label.texts) * max(shrinks_to(example, label))
            assert least >= least_mm(example) - 1e-3, label.function.text


@quick_and_every(EVERY, [("wren", "carrier-a4"), ("fulmar", "carrier-a4")])
def test_the_function_leads_wherever_what_is_small_can_give_way(on_stock: Any, example: str, stock: str) -> None:
    # Read first, `pages.md`: a fifth over what is small, which shrinks to its least height before they come nearer.
    checked = 0
    for label in labels_on(example, stock, on_stock(example, stock).pages):
        small = [text.capital_mm for text in label.texts if not text.bold]
        if not label.zones or not small:
            continue
        least = [least_mm(example) / keeps for keeps in shrinks_to(example, label)]
        at_least = any(max(small) == pytest.approx(height, abs=1e-3) for height in least)
        assert at_least or label.function.capital_mm >= 1.2 * max(small) - 1e-3, label.function.text
        checked += not at_least
    assert checked > 0 or stock != "carrier-a4"


def lines_of(label: Label, function_mm: float) -> list[tuple[float, float]]:
    """Return where the ink of each line of a label would begin and end, from above, with its function so high."""
    found: dict[float, tuple[float, float]] = {}
    for text in label.texts:
        base, part = round(text.base_mm, 2), function_mm / text.capital_mm if text.bold else 1.0
        top, bottom = found.get(base, (math.inf, -math.inf))
        inked = (base + part * (side - text.base_mm) for side in (text.box.top, text.box.bottom))
        found[base] = min(top, next(inked)), max(bottom, next(inked))
    return [found[base] for base in sorted(found)]


def room_mm(example: str, stock: str, label: Label) -> float:
    """Return how high type may stand on a label: on a wrap on half of what it lies round at most."""
    layout, zone = read(LAYOUTS / f"{stock}.yaml"), label.zones[0]
    if layout["kind"] != "label wraps":
        return zone.bottom - zone.top
    around = min(math.pi * lead.grips / 2 for lead in wires_by_function(example)[label.function.text])
    return min(around, mm(layout["label"]["printed"])) - 2 * mm(layout["clear"]["edges"])


@quick_and_every(EVERY, [("wren", "strips-a4"), ("fulmar", "wraps-a4")])
def test_lines_keep_apart_unless_type_at_its_least_has_no_room(on_stock: Any, example: str, stock: str) -> None:
    # By eye: what is nearer than a fifth of the height of what is small seems to touch.
    for label in labels_on(example, stock, on_stock(example, stock).pages):
        small = max((text.capital_mm for text in label.texts if not text.bold), default=0.0)
        if not label.zones or not small:
            continue
        lines = lines_of(label, label.function.capital_mm)
        gaps = [below[0] - above[1] for above, below in pairwise(lines)]
        if min(gaps, default=1.0) < 0.2 * small - 0.01:
            least = lines_of(label, least_mm(example) / max(shrinks_to(example, label)))
            inked = sum(bottom - top for top, bottom in least)
            assert inked + 0.2 * small * len(gaps) > room_mm(example, stock, label) - 0.02, label.function.text
            assert min(gaps) >= 0.12 * small - 0.01


@quick_and_every(EVERY)
def test_every_label_is_printed_or_there_is_a_finding_that_names_it(on_stock: Any, example: str, stock: str) -> None:
    result = on_stock(example, stock)
    done = Counter(label.function.text for label in labels_on(example, stock, result.pages) if label.zones)
    asked = label_counts(example, stock)
    found = set(re.findall(r"caution (?:tube|stock|type): the label `([^`]*)`", result.said))
    assert done <= asked
    assert set(asked - done) <= found


@quick_and_every([("fulmar", stock) for stock in STOCKS if stock.startswith(("carrier", "strips", "tape"))])
def test_own_leads_are_named_where_their_plugs_keep_tube_off(on_stock: Any, example: str, stock: str) -> None:
    said = on_stock(example, stock).said
    named = next(line for line in said.splitlines() if "left out on tube" in line)
    ends = named.split(": ", 2)[2].split(", ")
    # A gyro and a light controller came with one lead each, a fan and its controller with one on either side.
    functions = sorted(end.split(" at ")[0] for end in ends)
    assert functions == ["FAN L", "FAN L", "FAN R", "FAN R", "GYRO", "LIGHTS"]


@pytest.mark.long
@pytest.mark.parametrize(("one", "other"), [("PACK L", "PACK R"), ("LEG L", "LEG R")])
def test_the_shorter_of_two_like_texts_is_set_no_smaller(on_stock: Any, one: str, other: str) -> None:
    # The same said of the left and of the right side: `left` is the shorter word, and tubes and wires are alike.
    labels = [label for label in labels_on("fulmar", "strips-a4", on_stock("fulmar", "strips-a4").pages) if label.zones]
    heights = {name: [x.function.capital_mm for x in labels if x.function.text == name] for name in (one, other)}
    assert [a for a, b in zip(heights[one], heights[other], strict=True) if a < b - WITHIN_MM] == []


@pytest.mark.long
def test_no_two_labels_read_alike_unless_a_finding_says_how_little_room_there_is(on_stock: Any) -> None:
    # Both halves of a joint have the same contacts: what tells two such labels apart on the bench is the far end.
    alike = []
    for stock in STOCKS:
        result = on_stock("fulmar", stock)
        short = re.findall(r"label `([^`]*)` at .* has room for", result.said)
        labels = [label for label in labels_on("fulmar", stock, result.pages) if label.zones]
        said = Counter(frozenset(t.text for t in x.texts) for x in labels if x.function.text not in short)
        alike += [(stock, sorted(texts)) for texts, times in said.items() if times > 1]
    assert alike == []


# Printer correction


SCALE, SHIFT_MM = (1.015, 0.985), (1.0, -1.0)


def corrected(x: float, y: float) -> tuple[float, float]:
    """Return where a point is drawn so that it lands right: the printer makes scale × point + shift of it."""
    return (x - SHIFT_MM[0]) / SCALE[0], (y - SHIFT_MM[1]) / SCALE[1]


@pytest.fixture(scope="module")
def corrected_page(tmp_path_factory: pytest.TempPathFactory) -> PrintedPage:
    folder = tmp_path_factory.mktemp("corrected")
    printer = folder / "printer.yaml"
    printer.write_text("kind: printer\nscale: [101.5 %, 98.5 %]\nshift: [1 mm, -1 mm]\n")
    words = [str(EXAMPLES / "wren"), "--stock", "carrier-4.8", "--printer", str(printer)]
    return printed(folder / "paper", *words).pages[0]


def test_with_a_printer_correction_every_outline_is_off_by_just_that(corrected_page: PrintedPage) -> None:
    layout = read(LAYOUTS / "carrier-4.8.yaml")
    length, most = size_mm(layout)
    for i, (x, y) in enumerate(cells(layout)):
        height = math.pi * 4.8 / 2 if i < 10 else most  # two of the twelve labels do not fit this tube
        box = Box(*corrected(x, y), *corrected(x + length, y + height))
        assert corrected_page.off_outline_mm(box) <= WITHIN_MM, f"cell {i + 1}"


def test_the_paper_keeps_its_size_and_says_that_it_is_corrected(corrected_page: PrintedPage) -> None:
    assert (corrected_page.width_mm, corrected_page.height_mm) == pytest.approx((210, 297), abs=WITHIN_MM)
    assert any("corrected for one printer" in text.text for text in corrected_page.texts)


@pytest.mark.long
@pytest.mark.parametrize("stem", ["wire-labels", "pinout-cards", "cut-list", "hangar-card"])
def test_every_page_to_be_printed_at_full_size_says_that_it_is_corrected(tmp_path: Path, stem: str) -> None:
    printer = tmp_path / "printer.yaml"
    printer.write_text("kind: printer\nscale: [101.5 %, 100 %]\nshift: [0 mm, 0 mm]\n")
    words = ["print", str(EXAMPLES / "wren"), stem, "--printer", str(printer), "--to", str(tmp_path / "paper")]
    assert CliRunner().invoke(docgen, words).exit_code == 0
    for page in printed_pages(tmp_path / "paper" / f"{stem}.pdf"):
        assert any("corrected" in text.text for text in page.texts)
