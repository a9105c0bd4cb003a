"""The smallest example by hand, from the design's formula and the parts of the built-in list."""

from __future__ import annotations

import math
import shutil
from collections import defaultdict

import pytest
from resolved import known

from docgen.basics.shipped import shipped_folder
from docgen.harness.model.circuits import CutLead
from docgen.harness.model.harness import Harness
from docgen.pipeline import check

# A contact's strip length and two reterminations of 10 mm (their number: FAA AC 43.13-1B 11-118; the rest is
# common practice, no source).
SERVO_END_MM = 2.5 + 2 * 10
POWER_END_MM = 3 + 2 * 10
BLOCK_END_MM = 4 + 2 * 10

# The helix unrolled. Three wires of 1.6 mm lie on a circle of 2/√3 × 1.6 mm, sqrt(1 + (π × 1.8475 / 25)²) =
# 1.02660; two of 1.8 mm on one of 1.8 mm, sqrt(1 + (π × 1.8 / 25)²) = 1.02526.
SERVO_TWIST = math.sqrt(1 + (math.pi * 2 / math.sqrt(3) * 1.6 / 25) ** 2)
POWER_TWIST = math.sqrt(1 + (math.pi * 1.8 / 25) ** 2)

# Each lead: run, 3 % slack, reach and loop, both ends, then the twist; and the next multiple of 5 mm.
BY_HAND_MM = {
    "supply A": ((260 * 1.03 + 2 * POWER_END_MM) * POWER_TWIST, 325),  # 321.7
    "left-aileron A": ((235 * 1.03 + SERVO_END_MM + BLOCK_END_MM) * SERVO_TWIST, 300),  # 296.2
    "left-aileron B": ((745 * 1.03 + 120 + 80 + BLOCK_END_MM + SERVO_END_MM) * SERVO_TWIST, 1045),  # 1040.8
    "right-aileron A": ((235 * 1.03 + SERVO_END_MM + BLOCK_END_MM) * SERVO_TWIST, 300),
    "right-aileron B": ((745 * 1.03 + 120 + 80 + BLOCK_END_MM + SERVO_END_MM) * SERVO_TWIST, 1045),
    "rudder A": ((1140 * 1.03 + 80 + 2 * SERVO_END_MM) * SERVO_TWIST, 1335),  # 1333.8
}

# Negative, then what is not negative in the order of the lead's wires (positive, signal).
MARKS = {
    "supply A": ["P1A20N", "P1A20"],
    "left-aileron A": ["C1A22N", "C1A22", "C2A22"],
    "left-aileron B": ["C1B22N", "C1B22", "C2B22"],
    "right-aileron A": ["C3A22N", "C3A22", "C4A22"],
    "right-aileron B": ["C3B22N", "C3B22", "C4B22"],
    "rudder A": ["C5A22N", "C5A22", "C6A22"],
}


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> Harness:
    folder = tmp_path_factory.mktemp("aircraft") / "wren"
    shutil.copytree(shipped_folder("examples") / "wren", folder)
    checked = check(folder)
    assert checked.findings == []
    assert checked.harness is not None
    return checked.harness


def lead(harness: Harness, name: str) -> CutLead:
    return next(lead for lead in harness.cut_leads() if lead.name == name)


def pieces(harness: Harness) -> dict[tuple[str, str], list[float]]:
    found: dict[tuple[str, str], list[float]] = defaultdict(list)
    for piece in harness.cut_leads():
        for wire in piece.wires:
            found[wire.kind.gauge.text, wire.colour].append(known(piece.cut_length_mm))
    return found


def test_wren_has_these_leads_and_no_others(wren: Harness) -> None:
    assert [piece.name for piece in wren.leads()] == list(BY_HAND_MM)


@pytest.mark.parametrize("name", BY_HAND_MM)
def test_the_hand_calculation_rounds_up_to_the_length_in_the_design(name: str) -> None:
    needed_mm, cut_mm = BY_HAND_MM[name]
    assert math.ceil(needed_mm / 5) * 5 == cut_mm


@pytest.mark.parametrize("name", BY_HAND_MM)
def test_a_lead_is_cut_to_the_length_of_the_hand_calculation(wren: Harness, name: str) -> None:
    assert lead(wren, name).cut_length_mm == BY_HAND_MM[name][1]


@pytest.mark.parametrize(
    ("name", "run_mm"),
    [("supply A", 260), ("left-aileron A", 235), ("left-aileron B", 745), ("rudder A", 1140)],
)
def test_a_lead_lies_along_the_measured_run(wren: Harness, name: str, run_mm: float) -> None:
    assert lead(wren, name).route.length_mm == run_mm


@pytest.mark.parametrize("colour", ["BK", "RD", "WH"])
def test_4025_mm_of_22_gauge_in_five_pieces_of_each_colour(wren: Harness, colour: str) -> None:
    # 2 × 300 + 2 × 1045 + 1335 = 4025
    assert sorted(pieces(wren)["22 AWG", colour]) == [300, 300, 1045, 1045, 1335]
    assert sum(pieces(wren)["22 AWG", colour]) == 4025


@pytest.mark.parametrize("colour", ["BK", "RD"])
def test_325_mm_of_20_gauge_in_one_piece_of_each_colour(wren: Harness, colour: str) -> None:
    assert pieces(wren)["20 AWG", colour] == [325]


def test_no_other_wire_is_cut(wren: Harness) -> None:
    assert set(pieces(wren)) == {("22 AWG", "BK"), ("22 AWG", "RD"), ("22 AWG", "WH")} | {
        ("20 AWG", "BK"),
        ("20 AWG", "RD"),
    }


@pytest.mark.parametrize("name", MARKS)
def test_a_lead_bears_the_marks_of_the_design(wren: Harness, name: str) -> None:
    assert [wire.mark for wire in lead(wren, name).wires] == MARKS[name]


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_first_circuit_gets_the_first_contacts_with_the_roles_in_order(wren: Harness, side: str) -> None:
    used = wren.disconnects[f"{side}-root"].uses
    assert {contact: use.wires["fixed"].role for contact, use in used.items()} == {
        "1": "negative",
        "2": "positive",
        "3": "signal",
    }
    assert wren.disconnects[f"{side}-root"].spares == ("4", "5", "6")
