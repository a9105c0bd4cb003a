"""Labels on every stock as they come out of the printer: measured on pages of 600 dpi against the layouts' figures."""

from __future__ import annotations

import math
import random
import re
from collections import Counter
from functools import cache
from itertools import pairwise, product
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from click.testing import CliRunner
from measured import Box, PrintedPage, cells, mm, printed_pages, read
from printed_labels import EXAMPLES, FLAG_MM, LAP_MM, LAYOUTS, Label, labels_on, printed_on
from resolved import harness_of

from docgen.cli import docgen

PARTS = read(Path(__file__).parents[3] / "docgen" / "definition" / "parts.yaml")
STOCKS = sorted(path.stem for path in LAYOUTS.glob("*.yaml") if str(read(path)["kind"]).startswith("label"))
WITHIN_MM = 0.1
# What equipment came with and its wires, of the circuits that plug straight in.
OWN_LEADS = {"GYRO": ("lead-28", 3), "LIGHTS": ("lead-28", 2), "FAN L": ("silicone-12", 3), "FAN R": ("silicone-12", 3)}
QUICK = [("wren", "strips-a4"), ("wren", "carrier-a4"), ("wren", "tape-9"), ("wren", "wraps-letter")]
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
    if lead == "own":  # the one of the large example is a servo's, of which the wire is not said
        return wires(mm(PARTS["wires"]["lead-26"]["diameter"]), 3 - omitted)
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


def function_of(example: str, label: Label) -> str:
    """Return which function a label names: the longest of the example with which it begins."""
    return max((name for name in wires_by_function(example) if f"{label.bold} ".startswith(f"{name} ")), key=len)


@cache
def label_counts(example: str) -> Counter[str]:
    """Return how many labels each function has by the example's own text: ends of segments, plugs of own leads."""
    counts: Counter[str] = Counter()
    for circuit in read(EXAMPLES / example / "harness.yaml")["circuits"].values():
        label = circuit["label"]
        for function in label.values() if isinstance(label, dict) else [label]:
            if "lead" in circuit:
                counts[function] += 2 * (1 + len(circuit.get("through", [])))
                # The plug of an own lead lies at its joint, and nothing is plugged in where it hangs on its equipment.
                leads = circuit["lead"].values() if isinstance(circuit["lead"], dict) else ()
                counts[function] -= sum(lead == "own" for lead in leads)
            else:  # a fan and its controller came with a lead each, a receiver with none
                counts[function] += 2 if function.startswith("FAN") else 1
    return counts


def tube_mm(stock: str, label: Label) -> float | None:
    """Return the diameter of the tube that a label is printed on, by what stands beside it or in its layout."""
    layout = read(LAYOUTS / f"{stock}.yaml")
    if layout["kind"] == "label tape":
        return 2 * label.page.height_mm / math.pi
    if layout["kind"] == "label carrier":
        return mm(PARTS["tubes"][label.beside.split(" · ")[0]]["expanded"])
    return mm(layout["tube"]["expanded"]) if "tube" in layout else None


def quick_and_every(pairs: list[tuple[str, str]], quick: list[tuple[str, str]] = QUICK) -> pytest.MarkDecorator:
    return pytest.mark.parametrize(
        ("example", "stock"), [pytest.param(*pair, marks=[] if pair in quick else [pytest.mark.long]) for pair in pairs]
    )


@quick_and_every([pair for pair in EVERY if "tape" not in pair[1]])
def test_every_outline_is_as_large_as_its_wires_or_tube_are(on_stock: Any, example: str, stock: str) -> None:
    layout, wrong = read(LAYOUTS / f"{stock}.yaml"), []
    for label in printed_on(on_stock(example, stock).pages, stock):
        high, length = label.outline.bottom - label.outline.top, label.outline.right - label.outline.left
        leads = wires_by_function(example)[function_of(example, label)]
        size = {key: mm(side) for key, side in layout["label"].items()}
        wanted = {
            "label strips": [11.0] if length > FLAG_MM - 1 else [math.pi * lead.grips + LAP_MM for lead in leads],
            "label wraps": [size.get("printed", 0) + size.get("cover", 0)],
            "label flags": [size.get("width", 0)],
        }.get(layout["kind"]) or [math.pi * (tube_mm(stock, label) or 0) / 2]
        on_paper = label.page.off_outline_mm(label.outline) <= WITHIN_MM
        if not on_paper or min(abs(high - each) for each in wanted) > WITHIN_MM:
            wrong.append(label.bold)
    assert wrong == []


@quick_and_every([pair for pair in EVERY if pair[1].startswith(("wraps", "flags", "carrier-1", "carrier-2"))])
def test_labels_in_cells_stand_where_the_layout_says(on_stock: Any, example: str, stock: str) -> None:
    layout = read(LAYOUTS / f"{stock}.yaml")
    corners = list(cells(layout))
    for page in on_stock(example, stock).pages:
        found = [(label.outline.left, label.outline.top) for label in labels_on([page], layout)]
        assert len(found) == len(corners)
        assert all(at == pytest.approx(corner, abs=0.02) for at, corner in zip(found, corners, strict=True))


@quick_and_every([pair for pair in EVERY if "tape" in pair[1]])
def test_a_page_of_tape_is_as_wide_as_the_tape_and_as_long_as_a_label(on_stock: Any, example: str, stock: str) -> None:
    layout = read(LAYOUTS / f"{stock}.yaml")
    least, most = (mm(length) for length in layout["length"])
    for page in on_stock(example, stock).pages:
        assert page.height_mm == pytest.approx(mm(layout["width"]), abs=WITHIN_MM)
        assert least - WITHIN_MM <= page.width_mm <= most + WITHIN_MM


@quick_and_every(EVERY)
def test_all_ink_stays_in_the_printable_zone(on_stock: Any, example: str, stock: str) -> None:
    assert_ink_in_zones(on_stock(example, stock).pages, stock)


def assert_ink_in_zones(pages: list[PrintedPage], stock: str) -> None:
    for page in pages:
        labels = printed_on([page], stock)
        assert labels
        for label in labels:
            allowed = [zone.grown(1 / page.per_mm[0]) for zone in label.zones]
            if len(label.zones) == 2 and label.zones[1].left > label.zones[0].right:
                # Where a flag lies round the wires, the arrow to the plug stands.
                left, right = label.zones[0].right + 2, label.zones[1].left - 2
                allowed.append(label.outline._replace(left=left, right=right))
            # Inside the faint line along which it is cut.
            assert page.ink_outside(label.outline.grown(-0.15), allowed) == [], label.bold


@quick_and_every(EVERY)
def test_capitals_are_as_high_as_the_text_says(on_stock: Any, example: str, stock: str) -> None:
    result, measured = on_stock(example, stock), 0
    for label in printed_on(result.pages, stock):
        height = label.page.capital_height_mm(label.function)
        if height is not None:
            assert height == pytest.approx(label.function.capital_mm, abs=WITHIN_MM), label.bold
            measured += 1
    assert measured > 0 or not result.pages


@cache
def least_mm(example: str) -> float:
    return mm(read(EXAMPLES / example / "harness.yaml").get("labels", {}).get("least_type", "1.6 mm"))


def shrinks_to(example: str, stock: str, label: Label) -> list[float]:
    """Return by how much a label's type may shrink, one for each kind of segment that its tube passes.

    Type round a tube shrinks with it: printed × gripped / expanded. What is not shrunk keeps its height.
    """
    tube = tube_mm(stock, label)
    if tube is None:
        return [1.0]
    leads = wires_by_function(example)[function_of(example, label)]
    # Those that the tube passes with a tenth to spare.
    passed = [lead for lead in leads if 1.1 * lead.passes <= tube + 1e-9]
    assert passed, f"{label.bold} does not pass {tube} mm"
    return [lead.grips / tube for lead in passed]


@quick_and_every(EVERY)
def test_no_type_is_under_the_least_height_when_shrunk(on_stock: Any, example: str, stock: str) -> None:
    for label in printed_on(on_stock(example, stock).pages, stock):
        least = min(text.capital_mm for text in label.texts) * max(shrinks_to(example, stock, label))
        assert least >= least_mm(example) - 1e-3, label.bold


@quick_and_every(EVERY)
def test_the_function_is_no_smaller_than_anything_else_and_comes_first(on_stock: Any, example: str, stock: str) -> None:
    for label in printed_on(on_stock(example, stock).pages, stock):
        for copy in label.copies:
            assert copy[0].bold
            assert copy[0].capital_mm >= max(text.capital_mm for text in copy) - 1e-3


@quick_and_every(EVERY)
def test_a_sheet_has_three_heights_of_type_at_most(on_stock: Any, example: str, stock: str) -> None:
    for page in on_stock(example, stock).pages:
        heights = {round(t.capital_mm, 2) for label in printed_on([page], stock) for t in label.texts}
        assert 1 <= len(heights) <= 3


@quick_and_every(EVERY)
def test_lines_of_a_label_keep_apart(on_stock: Any, example: str, stock: str) -> None:
    # By eye: what is nearer than a tenth of the height of what is small seems to touch.
    for label in printed_on(on_stock(example, stock).pages, stock):
        for copy in label.copies:
            lines: dict[float, list[float]] = {}
            for text in copy:
                lines.setdefault(round(text.base_mm, 2), []).extend((text.box.top, text.box.bottom))
            small = min(text.capital_mm for text in copy)
            for above, below in pairwise(lines[base] for base in sorted(lines)):
                assert min(below) - max(above) >= 0.1 * small, label.bold


@quick_and_every(EVERY)
def test_every_label_is_printed_or_there_is_a_finding_that_names_it(on_stock: Any, example: str, stock: str) -> None:
    result, asked = on_stock(example, stock), label_counts(example)
    done = Counter(function_of(example, label) for label in printed_on(result.pages, stock))
    found = set(re.findall(r"caution (?:tube|stock|type): the label `([^`]*)`", result.said))
    circuits = harness_of(EXAMPLES / example).circuits  # of a twin it is said once
    also = [name for names in re.findall(r"also: (.*)", result.said) for name in re.split(r", | and ", names)]
    found |= {circuits[name].label for name in also if name in circuits}
    left_out = re.findall(r"left out, .*: (.*)", result.said)
    found |= {end.split(" at ")[0] for ends in left_out for end in ends.split(", ")}
    assert done <= asked
    assert set(asked - done) <= found


@quick_and_every([("wren", "strips-a4"), ("fulmar", "strips-a4"), ("fulmar", "strips-letter")], EVERY)
@pytest.mark.long
def test_on_the_usual_stock_every_end_has_one_label_and_no_two_read_alike(
    on_stock: Any, example: str, stock: str
) -> None:
    result = on_stock(example, stock)
    labels = printed_on(result.pages, stock)
    assert Counter(function_of(example, label) for label in labels) == label_counts(example)
    assert "caution type" not in result.said
    assert "caution tube" not in result.said
    # But for the two halves of one joint: there both leads of a circuit go to the same contacts.
    alike = Counter(f"{label.bold} {label.small}" for label in labels)
    joints = read(EXAMPLES / example / "harness.yaml")["disconnects"]
    names = {name.replace("<side>", side) for name in joints for side in ("left", "right")}
    twice = {said for said, times in alike.items() if times > 1}
    assert {said for said in twice if not any(f" {name}" in said for name in names)} == set()
    assert max(alike.values()) <= 2
    # The whole text stands twice.
    assert all(joined_copy(label, 0) == joined_copy(label, 1) for label in labels)


def joined_copy(label: Label, which: int) -> list[str]:
    return [text.text for text in label.copies[which]]


def test_the_labels_of_the_largest_example_take_three_sheets(on_stock: Any) -> None:
    assert len(on_stock("fulmar", "strips-a4").pages) == len(on_stock("fulmar", "strips-letter").pages) == 3


def test_own_leads_that_no_tube_passes_are_wraps_on_the_same_sheet_and_named(on_stock: Any) -> None:
    # A servo plug of 8.0 × 2.9 mm is passed by 1.1 × 21.8 / π = 7.63 mm. Three wires of 0.9 mm and paper are gripped as
    # 1.76 + 0.5 = 2.26 mm, of which 0.9 are 2.03: no 3:1 tube shrinks from 7.63 to that. A fan's plugs are passed.
    result = on_stock("fulmar", "strips-a4")
    labels = {function_of("fulmar", label): label for label in printed_on(result.pages, "strips-a4")}
    for name in ("GYRO", "LIGHTS"):
        assert labels[name].beside == "no tube: clear tape over it"
    assert "GYRO at receiver-a 6 (wrap), LIGHTS at receiver-b 3 (wrap)" in result.said
    assert labels["FAN L"].beside.startswith("clear")


# Random bundles


@pytest.mark.longest
@pytest.mark.parametrize("stock", ["strips-a4", "carrier-a4", "wraps-a4", "flags-a4", "tape-12"])
def test_labels_of_500_random_bundles_stay_in_their_zones_in_type_that_can_be_read(stock: str, tmp_path: Path) -> None:
    chance = random.Random(500)
    kinds = {f"w{i}": chance.uniform(0.9, 4.5) for i in range(40)}
    leads = {f"l{i}": (chance.choice(list(kinds)), chance.randint(1, 12)) for i in range(500)}
    roles = [f"r{i}" for i in range(12)]
    lines = ["wires:", *(f"  {n}: {{gauge: 22 AWG, diameter: {d} mm, resistance: 5 ohm/km}}" for n, d in kinds.items())]
    lines.append("leads:")
    lines += [
        f"  {name}: {{wires: {{{', '.join(f'{role}: {wire} WH' for role in roles[:count])}}}}}"
        for name, (wire, count) in leads.items()
    ]
    numbers = ", ".join(f"{i + 1}: {role}" for i, role in enumerate(roles))
    lines.append(f"plugs: {{many: {{contacts: {{{numbers}}}, equipment: pins, size: [9 mm, 4 mm],")
    lines.append("  contact: {rating: 3 A, resistance: 10 mohm, over: 5 mm}}}")
    (tmp_path / "parts.yaml").write_text("\n".join(lines) + "\n", "utf-8")
    (tmp_path / "aircraft.yaml").write_text(
        "aircraft: {name: Test, description: many bundles, marks: T-1, revision: A, date: 2026-01-01}\n"
        "places: {tray: {assembly: fuselage, access: hatch}, tail: {assembly: fuselage, access: hatch}}\n"
        "runs: [{between: [tray, tail], length: 500 mm}]\n",
        "utf-8",
    )
    ports = "ports: [{plug: many, names: [1..200, 201..400, 401..500], contacts: pins}]"
    units = [f"  {name}: {{kind: other, place: {place}, {ports}}}" for name, place in (("u", "tray"), ("v", "tail"))]
    circuits = [
        f"  c{i}: {{label: F{i}, from: u {i + 1}, to: v {i + 1}, lead: {name}}}" for i, name in enumerate(leads)
    ]
    text = "\n".join(["equipment:", *units, "circuits:", *circuits])
    (tmp_path / "harness.yaml").write_text(text + "\n", "utf-8")
    result = printed(tmp_path / "paper", str(tmp_path), "--stock", stock)
    labels = printed_on(result.pages, stock)
    found = Counter(re.findall(r"caution (?:tube|stock|type): the label `([^`]*)` .*", result.said))
    done = Counter(label.bold.split()[0] for label in labels)
    assert all(done[f"F{i}"] == 2 or found[f"F{i}"] for i in range(500))
    assert stock != "strips-a4" or (sum(done.values()) == 1000 and not found)
    assert_ink_in_zones(result.pages, stock)
    for label in labels:
        wire, count = leads[list(leads)[int(label.bold.split()[0][1:])]]
        # What is gripped is no less than one wire and, laid flat, no more than the band round all.
        tube = tube_mm(stock, label)
        most = kinds[wire] * (1 + 2 * (count - 1) / math.pi)
        keeps = 1.0 if tube is None else most / tube
        assert min(text.capital_mm for text in label.texts) * keeps >= 1.6 - 1e-3
        height = label.page.capital_height_mm(label.function)
        assert height is None or height == pytest.approx(label.function.capital_mm, abs=WITHIN_MM)


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
    length, most = (mm(layout["label"][side]) for side in ("length", "width"))
    for i, (x, y) in enumerate(cells(layout)):
        height = math.pi * 4.8 / 2 if i < 12 else most
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
