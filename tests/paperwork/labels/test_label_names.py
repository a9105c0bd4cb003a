"""Labels with names in the letters of all Latin-script languages: readable by the rules, or found; never clipped."""

from __future__ import annotations

import random
import re
import unicodedata
from itertools import combinations
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from click.testing import CliRunner
from measured import Box, PrintedPage, PrintedText, cells, face_file, mm, printed_pages, read
from reportlab.pdfbase.ttfonts import TTFont

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen

pytestmark = pytest.mark.long

NAMES, LONGEST = 1000, 40
PORTS = 200  # of each unit
AIRCRAFT = """aircraft: {name: Test, description: many names, marks: T-1, revision: A, date: 2026-01-01}
places: {tray: {assembly: fuselage, access: hatch}, tail: {assembly: fuselage, access: hatch}}
runs: [{between: [tray, tail], length: 500 mm}]
"""
# Leads of 2 wires: 1.4 mm singly, in a jacket of 4 mm, and of 3 mm. By hand, with a tenth to spare and nine tenths
# gripped: 3.08 and 0.9 × 1.4 × 1.637 = 2.06 take 3.2/1.6; 4.4 and 3.6 take 4.8/2.4; 6.6 and 0.9 × 3 × 1.637 = 4.42
# take 9.5/3.0. Tube and what it grips:
LEADS = {"signal-24": (3.2, 2.292), "jacket": (4.8, 4.0), "thick": (9.5, 4.910)}
PARTS = """wires: {fat: {gauge: 12 AWG, diameter: 3 mm, resistance: 5 ohm/km}}
leads:
  jacket: {wires: {negative: pvc-24 BK, signal: pvc-24 WH}, bought: cable, diameter: 4 mm}
  thick: {wires: {negative: fat BK, signal: fat WH}}
"""
LEAST_MM = 1.6


def letters() -> str:
    """Return the Latin letters of Unicode that both weights of the face have, up to Latin Extended Additional."""
    known = [TTFont(f"letters-{bold}", str(face_file(bold))).face.charToGlyph.keys() for bold in (False, True)]
    every = (code for code in range(0x20, 0x1F00) if code in known[0] and code in known[1])
    return "".join(c for c in map(chr, every) if c.isalpha() and unicodedata.name(c, "").startswith("LATIN"))


class Circuit(NamedTuple):
    """What was written of a circuit, and the line it stands on."""

    function: str
    here: str
    far: str
    lead: str
    line: int


class Label(NamedTuple):
    """One label of a circuit: its cell, all texts in it."""

    circuit: Circuit
    page: PrintedPage
    zone: Box
    texts: list[PrintedText]


class Names(NamedTuple):
    """What was written, what came out, and what was said, by line."""

    circuits: list[Circuit]
    pages: list[PrintedPage]
    labels: list[Label]
    findings: dict[int, list[str]]


def written(folder: Path) -> list[Circuit]:
    chance = random.Random(1000)
    known, small = letters(), "abcdefghijklmnopqrstuvwxyz"
    functions: dict[str, str] = {}  # by itself without blanks, so that each is told from the others on a page
    while len(functions) < NAMES:
        drawn = "".join(chance.choice(known + " " * 40) for _ in range(chance.randint(1, LONGEST)))
        name = " ".join(drawn.split())
        if name:
            functions.setdefault(squeezed(name), name)
    equipment = ["equipment:"]
    for unit in range(NAMES // PORTS):
        ports = f"{{plug: servo-3, names: 1..{PORTS}, contacts: pins}}"
        equipment.append(f"  u{unit}: {{kind: other, place: tray, ports: [{ports}]}}")
    lines, circuits = ["circuits:"], []
    for i, function in enumerate(functions.values()):
        far = "".join(chance.choice(small) for _ in range(chance.randint(1, LONGEST - 4))) + str(i)
        equipment.append(f"  {far}: {{kind: servo, place: tail, lead: 200 mm, plug: servo-3}}")
        here, lead = f"u{i // PORTS} {i % PORTS + 1}", list(LEADS)[i % len(LEADS)]
        lines.append(f'  c{i}: {{label: "{function}", from: {here}, to: {far}, lead: {lead}}}')
        circuits.append(Circuit(function, here, far, lead, len(lines)))
    (folder / "aircraft.yaml").write_text(AIRCRAFT, "utf-8")
    (folder / "parts.yaml").write_text(PARTS, "utf-8")
    (folder / "harness.yaml").write_text("\n".join([*equipment, *lines]) + "\n", "utf-8")
    return [circuit._replace(line=circuit.line + len(equipment)) for circuit in circuits]


def squeezed(text: str) -> str:
    return "".join(text.split())


@pytest.fixture(scope="module")
def names(tmp_path_factory: pytest.TempPathFactory) -> Names:
    folder = tmp_path_factory.mktemp("names")
    circuits = written(folder)
    ran = CliRunner().invoke(docgen, ["print", str(folder), "wire-labels", "--to", str(folder / "paper")])
    assert ran.exit_code == 0, ran.stderr[:500]
    findings: dict[int, list[str]] = {}
    for line, told in re.findall(r"harness\.yaml:(\d+):\d+: (.*)", ran.stderr):
        findings.setdefault(int(line), []).append(told)
    pages = printed_pages(folder / "paper" / "wire-labels.pdf")
    return Names(circuits, pages, list(labels_on(pages, circuits)), findings)


def labels_on(pages: list[PrintedPage], circuits: list[Circuit]) -> Any:
    layout = read(shipped_folder("layouts") / "carrier-a4.yaml")
    ends, edges, length = mm(layout["clear"]["ends"]), mm(layout["clear"]["edges"]), mm(layout["label"]["length"])
    by_function = {squeezed(circuit.function): circuit for circuit in circuits}
    for page in pages:
        for x, y in cells(layout):
            within = Box(x, y, x + length, y + mm(layout["label"]["width"]))
            texts = [t for t in page.texts if within.left <= t.box.left < within.right]
            texts = [t for t in texts if within.top <= t.base_mm < within.bottom]
            bold = [t for t in texts if t.bold]
            if not bold:
                continue
            # In one line or two; a clipped one would not be there.
            circuit = by_function[squeezed("".join(text.text for text in bold))]
            flat = 3.14159265 * LEADS[circuit.lead][0] / 2
            zone = Box(x + ends, y + edges, x + length - ends, y + flat - edges)
            yield Label(circuit, page, zone, texts)


def test_the_letters_are_those_of_many_languages() -> None:
    known = letters()
    # Some that only one language has: Icelandic, Maltese, Turkish, Welsh, Vietnamese, Latvian, Romanian, Hungarian.
    assert set("þħğŵộģșű") <= set(known)
    assert len(known) > 400


def test_every_end_is_printed_whole_or_found(names: Names) -> None:
    printed: dict[int, int] = {}
    for label in names.labels:
        printed[label.circuit.line] = printed.get(label.circuit.line, 0) + 1
    for circuit in names.circuits:
        lost = 2 - printed.get(circuit.line, 0)
        found = [told for told in names.findings.get(circuit.line, []) if "can't be set" in told]
        assert len(found) == lost, circuit
        assert all(told.startswith("caution type: ") for told in found)


def test_most_are_printed(names: Names) -> None:
    # A test of nothing would pass where everything is found.
    assert len(names.labels) > NAMES


def test_all_type_is_as_high_as_can_be_read_when_shrunk(names: Names) -> None:
    for label in names.labels:
        expanded, gripped = LEADS[label.circuit.lead]
        assert min(text.capital_mm for text in label.texts) * gripped / expanded >= LEAST_MM - 1e-3, label.circuit


def test_all_text_stays_in_the_printable_zone(names: Names) -> None:
    outside = [
        (label.circuit.function, text.text)
        for label in names.labels
        for text in label.texts
        if not label.zone.holds(text.box, slack_mm=0.03)
    ]
    assert outside == []


def test_no_text_overlaps_another(names: Names) -> None:
    for page in names.pages:
        ordered = sorted(page.texts, key=lambda text: text.box.top)
        for one, other in combinations(ordered, 2):
            assert not one.box.overlaps(other.box, by_mm=0.02), (one.text, other.text)


def test_the_mark_goes_first_then_the_far_end_then_there_is_a_finding(names: Names) -> None:
    seen = set()
    for label in names.labels:
        circuit = label.circuit
        rest = squeezed(" ".join(text.text for text in label.texts if not text.bold))
        # Units and their ports end and begin in a figure, so that it is said that a port follows.
        ends = [squeezed(circuit.here.replace(" ", "port")), squeezed(circuit.far)]
        mark = re.search(r"C\d+A\d+", rest) is not None
        far = any(f"→{end}" in rest for end in ends)
        here = any(end in rest.split("→", maxsplit=1)[0] for end in ends)
        assert (mark, far, here) in {(True, True, True), (False, True, True), (False, False, True), (False,) * 3}
        told = any("has room for its function only" in told for told in names.findings.get(circuit.line, []))
        assert here or told, circuit
        seen.add((mark, far, here))
    assert len(seen) == 4, "each way to say less comes up"
