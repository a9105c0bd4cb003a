"""What no builder would write must be refused with a finding too, and some day: what grows with it grows evenly."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import WREN, AircraftFolder, Changes

from docgen.basics.findings import Finding
from docgen.harness.wiring.contacts import Demand, give_contacts
from docgen.pipeline import check

ErrorsIn = Callable[[Path], list[Finding]]

RUDDER = "    to: rudder\n    lead: servo-22\n"
TINY = "0." + "0" * 320 + "1 mm"
PLUG = "plugs:\n  servo-3: {{contacts: {}, equipment: sockets, size: [8 mm, 3 mm], contact: {}}}\n"
CONTACT = "{rating: 3 A, resistance: 10 mohm}"
SERVO_LEAD = "leads:\n  servo-22: {{wires: {{negative: pvc-22 BK, positive: pvc-22 RD, signal: pvc-22 WH}}, lay: {}}}\n"
WORDS = [
    "x",
    "[]",
    "{}",
    "[a, b]",
    "{a: b}",
    "[[x]]",
    "<side>",
    "1..3",
    "0 mm",
    "-5 mm",
    "'  '",
    "left-root",
    "receiver",
    "receiver 1",
    "pack",
    "positive",
    "{left: a, right: b}",
    "{A: servo-22}",
    "9" * 400 + " mm",
]


def rudder(new: str) -> Changes:
    return {"harness.yaml": [(RUDDER, new)]}


REFUSED: dict[str, Changes] = {
    "no end": rudder(RUDDER.replace("to: rudder", "to: []")),
    "no end of a split": rudder(RUDDER.replace("to: rudder", "to: []\n    split: {place: tail-post}")),
    "no beginning": {"harness.yaml": [("from: receiver 4", "from: []")]},
    "no leads": rudder(RUDDER.replace("servo-22", "{}")),
    "a disconnect many times": rudder(RUDDER + f"    through: [{', '.join(['left-root'] * 800)}]\n"),
    "a port at both ends": rudder("    to: receiver 4\n    lead: signal-26\n"),
    "a step too small to count in": {
        "harness.yaml": [("circuits:\n", f"allowances: {{round_up_to: {TINY}}}\ncircuits:\n")]
    },
    "a lay too short to twist": {"parts.yaml": SERVO_LEAD.format(TINY)},
    "a plug without contacts": {"parts.yaml": PLUG.format("{}", CONTACT)},
    "lists for keys": {"aircraft.yaml": "aircraft: [a]\nplaces: [b]\nruns: {c: d}\nflight: [e]\n"},
    "texts for keys": {"harness.yaml": "equipment: a\ndisconnects: b\ncircuits: c\nlabels: d\n"},
    "a list for a file": {"aircraft.yaml": "- a\n- b\n"},
    "a text for a file": {"harness.yaml": "hello\n"},
    "nothing in a file": {"harness.yaml": ""},
    "an unknown key many times over": {
        "harness.yaml": [("circuits:\n", "".join(f"k{i}: a\n" for i in range(2000)) + "circuits:\n")]
    },
    "an unknown name many times over": rudder(RUDDER + f"    by: [{', '.join(f'p{i}' for i in range(2000))}]\n"),
    "choices in choices": {
        "harness.yaml": [("circuits:\n", "circuits:\n  <side>-x: " + "{left: " * 17 + "x" + ", right: y}" * 17 + "\n")]
    },
    "sides in sides": {"harness.yaml": [("circuits:\n", f"circuits:\n  x: {{note: {'<side>' * 50_000}}}\n")]},
}


@pytest.mark.parametrize("changes", REFUSED.values(), ids=REFUSED)
def test_it_is_refused(changes: Changes, aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    assert errors_in(aircraft_folder(changes))


@pytest.mark.parametrize("folder", ["a" * 300, "none", "\udce9"], ids=["long", "none", "undecodable"])
def test_a_folder_that_can_not_be_is_a_finding(folder: str, tmp_path: Path) -> None:
    assert {finding.name for finding in check(tmp_path / folder).findings} == {"file"}


def test_many_circuits_through_one_shell_get_their_contacts() -> None:
    contacts = [str(number) for number in range(1, 1001)]
    given, unfit = give_contacts(contacts, [Demand(f"c{number}", 1) for number in range(1000)])
    assert (len(given), unfit) == (1000, [])


@pytest.mark.parametrize("seed", [1, *(pytest.param(seed, marks=pytest.mark.long) for seed in (2, 3, 4))])
@pytest.mark.parametrize("file", ["aircraft.yaml", "harness.yaml", "stores.yaml"])
def test_any_value_in_place_of_another_is_a_finding_or_taken(
    file: str, seed: int, aircraft_folder: AircraftFolder
) -> None:
    lines = (WREN / file).read_text("utf-8").split("\n")
    chosen = random.Random(seed)
    for _ in range(40):
        number = chosen.choice([index for index, line in enumerate(lines) if ": " in line])
        starts = [index for index in range(len(lines[number])) if lines[number].startswith(": ", index)]
        start = chosen.choice(starts) + 2
        rest = lines[number][start:]
        ends = [index for index, character in enumerate(rest) if character in ",}"] or [len(rest)]
        changed = lines[number][:start] + chosen.choice(WORDS) + rest[ends[0] :]
        checked = check(aircraft_folder({file: "\n".join([*lines[:number], changed, *lines[number + 1 :]])}))
        assert checked.harness is not None or checked.findings
