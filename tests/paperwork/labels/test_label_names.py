"""Labels with names in the letters of all Latin-script languages: readable by the rules, or found; never clipped."""

from __future__ import annotations

import random
import re
import unicodedata
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import NamedTuple

import pytest
from click.testing import CliRunner
from measured import PrintedPage, face_file, mm, printed_pages, read
from printed_labels import Label, printed_on
from reportlab.pdfbase.ttfonts import TTFont

from docgen.cli import docgen

pytestmark = pytest.mark.longest

NAMES, LONGEST = 1000, 40
PORTS = 200  # of each unit
AIRCRAFT = """aircraft: {name: Test, description: many names, marks: T-1, revision: A, date: 2026-01-01}
places: {tray: {assembly: fuselage, access: hatch}, tail: {assembly: fuselage, access: hatch}}
runs: [{between: [tray, tail], length: 500 mm}]
"""
# Leads of 2 wires: 1.4 mm singly, in a jacket of 4 mm, and of 3 mm; what a tube grips of them: 1.637 × 1.4 and × 3 mm.
LEADS = {"signal-24": 2.292, "jacket": 4.0, "thick": 4.910}
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


class Names(NamedTuple):
    """What was written, what came out, and what was said, by line."""

    circuits: list[Circuit]
    pages: list[PrintedPage]
    labels: list[tuple[Circuit, Label]]
    stock: str
    findings: dict[int, list[str]]


def written(folder: Path) -> list[Circuit]:
    chance = random.Random(1000)
    every, small = letters(), "abcdefghijklmnopqrstuvwxyz"
    functions: dict[str, str] = {}  # by itself without blanks, so that each is told from the others on a page
    while len(functions) < NAMES:
        drawn = "".join(chance.choice(every + " " * 40) for _ in range(chance.randint(1, LONGEST)))
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


@pytest.fixture(scope="module", params=["strips-a4", "carrier-a4"])
def names(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Names:
    folder, stock = tmp_path_factory.mktemp("names"), request.param
    circuits = written(folder)
    words = ["print", str(folder), "wire-labels", "--stock", stock, "--to", str(folder / "paper")]
    ran = CliRunner().invoke(docgen, words)
    assert ran.exit_code == 0, ran.stderr[:500]
    findings: dict[int, list[str]] = {}
    for line, told in re.findall(r"harness\.yaml:(\d+):\d+: (.*)", ran.stderr):
        findings.setdefault(int(line), []).append(told)
    pages = printed_pages(folder / "paper" / "wire-labels.pdf")
    return Names(circuits, pages, [(circuit_of(circuits, of), of) for of in printed_on(pages, stock)], stock, findings)


@cache
def known(circuits: tuple[Circuit, ...]) -> dict[str, Circuit]:
    """Return circuits by all that the upper part of a label may say of them: function, alone or with either end."""
    return {squeezed(circuit.function + end): circuit for circuit in circuits for end in ("", *ends_of(circuit))}


def ends_of(circuit: Circuit) -> list[str]:
    """Return how its ends are said: where a unit's and its port's figures would meet, that a port follows."""
    return [circuit.here.replace(" ", "port"), circuit.far]


def circuit_of(circuits: list[Circuit], label: Label) -> Circuit:
    """Return which circuit a label is of; a clipped function would be of none."""
    return known(tuple(circuits))[squeezed(label.bold)]


def test_the_letters_are_those_of_many_languages() -> None:
    found = letters()
    # Some that only one language has: Icelandic, Maltese, Turkish, Welsh, Vietnamese, Latvian, Romanian, Hungarian.
    assert set("þħğŵộģșű") <= set(found)
    assert len(found) > 400


def test_every_end_is_printed_whole_or_found(names: Names) -> None:
    printed: dict[int, int] = {}
    for circuit, _ in names.labels:
        printed[circuit.line] = printed.get(circuit.line, 0) + 1
    for circuit in names.circuits:
        lost = 2 - printed.get(circuit.line, 0)
        found = [told for told in names.findings.get(circuit.line, []) if "can't be set" in told]
        assert len(found) == lost, circuit
        assert all(told.startswith("caution type: ") for told in found)


def test_most_are_printed(names: Names) -> None:
    # A test of nothing would pass where everything is found.
    assert len(names.labels) > NAMES


def test_all_type_is_as_high_as_can_be_read_when_shrunk(names: Names) -> None:
    parts = read(Path(__file__).parents[3] / "docgen" / "definition" / "parts.yaml")
    for circuit, label in names.labels:
        keeps = 1.0
        if names.stock == "carrier-a4":
            keeps = LEADS[circuit.lead] / mm(parts["tubes"][label.beside.split(" · ")[0]]["expanded"])
        assert min(text.capital_mm for text in label.texts) * keeps >= LEAST_MM - 1e-3, circuit


def test_all_text_stays_in_the_printable_zone(names: Names) -> None:
    outside = [
        (circuit.function, text.text)
        for circuit, label in names.labels
        for zone, copy in zip(label.zones, label.copies, strict=True)
        for text in copy
        if not zone.holds(text.box, slack_mm=0.03)
    ]
    assert outside == []


def test_no_text_overlaps_another(names: Names) -> None:
    for page in names.pages:
        ordered = sorted(page.texts, key=lambda text: text.box.top)
        for one, other in combinations(ordered, 2):
            assert not one.box.overlaps(other.box, by_mm=0.02), (one.text, other.text)


def test_the_far_end_goes_first_then_the_mark_then_there_is_a_finding(names: Names) -> None:
    seen = set()
    for circuit, label in names.labels:
        small = squeezed(label.small)
        ends = [squeezed(end) for end in ends_of(circuit)]
        mark = re.search(r"C\d+A\d+", small) is not None
        far = any(f"→{end}" in small for end in ends)
        here = squeezed(label.bold) != squeezed(circuit.function)
        assert (far, mark, here) in {(True, True, True), (False, True, True), (False, False, True), (False,) * 3}
        told = any("has room for its function only" in told for told in names.findings.get(circuit.line, []))
        assert here or told, circuit
        seen.add((far, mark, here))
    assert len(seen) >= 3, "ways to say less come up"
