"""Tails lie at their half: they are chosen for its heat, judged by it, and carry less in it."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import (
    PARTS,
    Case,
    Check,
    Definition,
    about,
    definition,
    findings_in,
    heavy,
    keys,
    servo,
    shared,
    through_wing,
)

from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]
PAIRS = {"soft": "silicone-16", "thick": "pvc-16", "thin": "pvc-22"}
LEADS = {name: {"wires": {"negative": f"{w} BK", "positive": f"{w} RD"}} for name, w in PAIRS.items()}
FLUORO = {"A": "lone-24", "B": "servo-fluoro-22"}


@pytest.fixture
def findings_of(written_folder: WrittenFolder) -> Check:
    return lambda said: findings_in(written_folder, said)


def hot(place: str, heat_c: int, pair: str, working: str = "0.3 A", contacts: int = 2) -> Definition:
    """Return two servos behind a heavy pair, with one half of the joint in heat."""
    names = [str(number) for number in range(1, 2 * contacts + 1)]
    said = definition(
        {name: servo("3 A", working, wire="lead-22") for name in ("ail", "flap")},
        heavy(pair) | {name: through_wing(f"unit {i}", name, FLUORO) for i, name in enumerate(("ail", "flap"), 1)},
        shared("ail", "flap", positive=names[:contacts], negative=names[contacts:]),
    )
    said["aircraft"]["places"][place]["heat"] = f"{heat_c} °C"
    said["parts"] = {**PARTS, "leads": PARTS["leads"] | LEADS}
    return said


# A block takes 24 to 18 AWG of at most 2.2 mm, so no 16 AWG: of PVC, 80 °C, the heaviest that it takes is 18 AWG; of
# silicone, 200 °C, 20 AWG, as 18 AWG is 2.3 mm thick. Thin fluoropolymer stands 150 °C.
CHOSEN = {
    "at no heat, the heaviest of that limit that is taken": (hot("tip", 60, "thick"), "pvc-18"),
    "in heat that this stands": (hot("root", 100, "soft"), "silicone-20"),
    "in heat that this does not stand, as heavy": (hot("root", 100, "thick"), "fluoro-18"),
    "in heat that nothing as heavy stands, the heaviest that does": (hot("root", 160, "thick"), "silicone-20"),
    "at no heat, of the arriving wire": (hot("tip", 60, "thin"), "pvc-22"),
    "in heat that the arriving wire does not stand, as heavy": (hot("root", 100, "thin"), "fluoro-22"),
    "in heat that nothing stands, of the arriving wire": (hot("root", 300, "thin"), "pvc-22"),
}


@pytest.mark.parametrize(("said", "wire"), CHOSEN.values(), ids=CHOSEN)
def test_tails_are_of_a_wire_that_stands_the_heat_of_their_half(
    said: Definition, wire: str, written_folder: WrittenFolder
) -> None:
    texts = {f"{name}.yaml": json.dumps(text, ensure_ascii=False) for name, text in said.items()}
    harness = check(written_folder(texts)).harness
    assert harness is not None
    tails = harness.disconnects["wing"].commons["p"].halves[0].tails
    assert {tail.kind.name for tail in tails} == {wire}


def test_tails_that_no_wire_stands_the_heat_for_are_found(findings_of: Check) -> None:
    found = about(findings_of(hot("root", 300, "thin")), Case("heat", "wing p", {}))
    assert "300 °C" in found.sentence
    assert "80 °C" in found.sentence


def test_tails_that_stand_the_heat_are_not(findings_of: Check) -> None:
    found = keys(findings_of(hot("root", 100, "thick")), "heat")
    assert [about for _, about in found if about[0] == "commons"] == []


# Fluoropolymer of 22 AWG bears 5 A (FAA AC 43.13-1B table 11-9, 150 °C), at 130 °C 5 × √((150 − 130) / (150 − 70)) =
# 2.5 A (the form of 11-66d(6)); two servos of 1.8 A on one tail are 3.6 A, on two 1.8 A each.
def test_a_tail_carries_less_in_heat(findings_of: Check) -> None:
    found = about(findings_of(hot("panel", 130, "thick", "1.8 A", 1)), Case("wire-current", "wing p", {}))
    assert "carries 3.60 A working; `fluoro-22` may carry 2.5 A at 130 °C" in found.sentence


def test_two_tails_carry_it(findings_of: Check) -> None:
    found = keys(findings_of(hot("panel", 130, "thick", "1.8 A", 2)), "wire-current")
    assert ("wire-current", ("commons", "wing p")) not in found
