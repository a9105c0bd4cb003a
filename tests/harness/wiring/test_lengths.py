"""Cut lengths: the twist against worked examples, the rest by laws."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference.conversions import FOOT_MM
from reference.twist import BY_HAND, PAIR_1500_MM, PRINTED, PRINTED_HUNDRED_FEET_FT, TwistExample
from resolved import known

from docgen.basics.units import round_up_to_step
from docgen.definition.defaults import Allowances
from docgen.harness.model.circuits import Lead
from docgen.harness.wiring.lengths import centres_circle_mm, needed_length_mm, twist_factor
from docgen.pipeline import Checked, check

NOTHING_ADDED = Allowances.model_validate(
    {"slack": "0 %", "strip": "0 mm", "reterminations": "0", "retermination": "0 mm"}
)
LENGTHS_MM = st.floats(0, 10_000)
NO_TWIST = 1.0


@pytest.fixture
def edited_wren(aircraft_folder: Callable[..., Path]) -> Callable[..., Checked]:
    """Check the example with one text of a file replaced, lengths rounded up to 0.01 mm only."""

    def edited(file: str = "harness.yaml", old: str = "", new: str = "", parts: str | None = None) -> Checked:
        folder = aircraft_folder({file: [(old, new)]} if old else {})
        with (folder / "harness.yaml").open("a", encoding="utf-8") as harness:
            harness.write("\nallowances: {round_up_to: 0.01 mm}\n")
        if parts is not None:
            (folder / "parts.yaml").write_text(parts, "utf-8")
        return check(folder)

    return edited


def lead(checked: Checked, name: str) -> Lead:
    assert checked.harness is not None, checked.findings
    return next(lead for lead in checked.harness.leads() if lead.name == name)


def cut_mm(checked: Checked, name: str) -> float:
    assert checked.harness is not None, checked.findings
    return next(known(lead.cut_length_mm) for lead in checked.harness.cut_leads() if lead.name == name)


@pytest.mark.parametrize("example", [PRINTED, *BY_HAND])
def test_the_twist_of_a_pair_is_that_of_the_worked_example(example: TwistExample) -> None:
    # The circle through the centres of a tight pair is as wide as one wire.
    diameters = [example.centres_circle] * 2
    assert twist_factor(diameters, example.pitch) == pytest.approx(example.factor, abs=example.tolerance)


def test_a_hundred_feet_of_the_printed_pair_take_the_printed_length_of_wire() -> None:
    factor = twist_factor([PRINTED.centres_circle] * 2, PRINTED.pitch)
    needed_mm = needed_length_mm(100 * FOOT_MM, 0, [], factor, NOTHING_ADDED)
    assert needed_mm / FOOT_MM == pytest.approx(PRINTED_HUNDRED_FEET_FT, abs=0.005)


def test_1500_mm_of_the_worked_pair_take_1519_9_mm_of_each_wire() -> None:
    needed_mm = needed_length_mm(1500, 0, [], twist_factor([1.3, 1.3], 25), NOTHING_ADDED)
    assert needed_mm == pytest.approx(PAIR_1500_MM, abs=0.1)


@pytest.mark.parametrize(
    ("count", "diameters"),
    # Centres of touching circles: two 1 apart; three an equilateral triangle, circle round it 2/√3; four a
    # square, its diagonal √2; six a hexagon, 2.
    [(2, 1.0), (3, 2 / math.sqrt(3)), (4, math.sqrt(2)), (6, 2.0)],
)
def test_the_circle_through_the_centres_is_that_of_the_polygon(count: int, diameters: float) -> None:
    assert centres_circle_mm([1.6] * count) == pytest.approx(diameters * 1.6)


def test_the_thickest_wire_decides_the_circle() -> None:
    assert centres_circle_mm([1.0, 1.8]) == pytest.approx(1.8)


def test_a_single_wire_and_one_without_lay_are_not_longer() -> None:
    assert twist_factor([1.6], 25) == 1
    assert twist_factor([1.6, 1.6, 1.6], None) == 1


@given(st.floats(0.5, 5), st.floats(5, 100), st.floats(1.1, 3))
def test_a_longer_lay_needs_less_wire(diameter_mm: float, lay_mm: float, longer: float) -> None:
    tight = twist_factor([diameter_mm] * 2, lay_mm)
    assert 1 <= twist_factor([diameter_mm] * 2, lay_mm * longer) < tight


@given(st.floats(1, 1.2))
def test_no_way_and_nothing_added_needs_no_wire(twist: float) -> None:
    assert needed_length_mm(0, 0, [None, None], twist, NOTHING_ADDED) == 0


@given(LENGTHS_MM, LENGTHS_MM, st.floats(1, 1.2))
def test_twice_the_way_adds_the_way_again(route_mm: float, extra_mm: float, twist: float) -> None:
    def needed_mm(way_mm: float) -> float:
        return needed_length_mm(way_mm, extra_mm, [2.5, None], twist, Allowances())

    added_mm = needed_mm(2 * route_mm) - needed_mm(route_mm)
    assert added_mm == pytest.approx(needed_mm(route_mm) - needed_mm(0), abs=1e-6)


def test_a_contact_that_says_no_strip_gets_the_default() -> None:
    # Two ends of 4 mm and 2 × 10 mm; one of 2.5 mm and 2 × 10 mm is 1.5 mm shorter.
    assert needed_length_mm(0, 0, [None, None], NO_TWIST, Allowances()) == pytest.approx(48)
    assert needed_length_mm(0, 0, [2.5, None], NO_TWIST, Allowances()) == pytest.approx(46.5)


@given(LENGTHS_MM, st.sampled_from([0.5, 1, 5, 6.35, 10, 25.4]))
def test_rounding_up_never_falls_short_and_never_adds_a_step(length_mm: float, step_mm: float) -> None:
    rounded_mm = round_up_to_step(length_mm, step_mm)
    assert -1e-6 <= rounded_mm - length_mm < step_mm + 1e-6
    assert rounded_mm / step_mm == pytest.approx(round(rounded_mm / step_mm), abs=1e-6)


@given(st.integers(0, 10_000))
def test_what_is_a_multiple_already_stays(steps: int) -> None:
    assert round_up_to_step(steps * 0.1, 0.1) == pytest.approx(steps * 0.1, abs=1e-9)


# A servo lead's twist, as in the hand calculation of the smallest example: 1.02660.
TWIST = math.sqrt(1 + (math.pi * 2 / math.sqrt(3) * 1.6 / 25) ** 2)


AIRCRAFT, HARNESS = "aircraft.yaml", "harness.yaml"


@pytest.mark.parametrize(
    ("edit", "name", "added_mm"),
    [
        ((AIRCRAFT, "access: tail hatch}", "access: tail hatch, slack: 60 mm}"), "rudder A", 60),
        ((AIRCRAFT, "access: canopy}", "access: canopy, slack: 60 mm}"), "rudder A", 60),
        ((AIRCRAFT, "access: canopy}", "access: canopy, slack: 60 mm}"), "left-aileron B", 0),
        ((HARNESS, "reach: 120 mm", "reach: 170 mm"), "left-aileron B", 50),
        ((HARNESS, "reach: 120 mm", "reach: 170 mm"), "left-aileron A", 0),
        ((HARNESS, "    throw: 40 mm each way", "    loop_from: 30 mm"), "rudder A", 30),
        ((HARNESS, "    throw: 18 mm up, 12 mm down", "    loop_from: 30 mm"), "left-aileron A", 30),
        ((HARNESS, "    throw: 18 mm up, 12 mm down", "    loop_from: 30 mm"), "left-aileron B", 0),
        ((AIRCRAFT, "length: 1140 mm", "length: 1240 mm"), "rudder A", 103),  # with 3 % slack
    ],
)
def test_what_is_added_at_a_place_counts_where_it_lies(
    edited_wren: Callable[..., Checked], edit: tuple[str, str, str], name: str, added_mm: float
) -> None:
    plain_mm = cut_mm(edited_wren(), name)
    assert cut_mm(edited_wren(*edit), name) - plain_mm == pytest.approx(added_mm * TWIST, abs=0.011)


def test_a_loop_lies_at_the_load(edited_wren: Callable[..., Checked]) -> None:
    checked = edited_wren(HARNESS, "    loop: 80 mm                          # coiled at", "    # coiled at")
    # Without the loop, by hand: (235 × 1.03 + 22.5 + 24) × twist and (745 × 1.03 + 120 + 24 + 22.5) × twist.
    assert cut_mm(checked, "left-aileron A") == pytest.approx(288.55 * TWIST, abs=0.011)
    assert cut_mm(checked, "left-aileron B") == pytest.approx(933.85 * TWIST, abs=0.011)


@pytest.mark.parametrize(
    ("made", "twist"), [("lay: 25 mm", TWIST), ("lay: 25 mm, bought: twisted", 1), ("bought: flat", 1)]
)
def test_only_a_lead_that_the_builder_twists_is_longer_for_it(
    edited_wren: Callable[..., Checked], made: str, twist: float
) -> None:
    wires = "{negative: pvc-22 BK, positive: pvc-22 RD, signal: pvc-22 WH}"
    checked = edited_wren(parts=f"leads: {{servo-22: {{wires: {wires}, {made}}}}}\n")
    # By hand: 1140 × 1.03 + 80 + 2 × 22.5 = 1299.2.
    assert cut_mm(checked, "rudder A") == pytest.approx(1299.2 * twist, abs=0.011)


@pytest.mark.parametrize(("pinned_mm", "names"), [(1333, ["short"]), (1334, []), (1500, [])])
def test_a_pinned_length_is_kept_and_is_a_caution_only_where_it_is_short(
    edited_wren: Callable[..., Checked], pinned_mm: float, names: list[str]
) -> None:
    # The rudder's way needs 1333.76 mm. What a longer lead drops is no matter here.
    checked = edited_wren(HARNESS, "    channel: 4", f"    channel: 4\n    lengths: {{A: {pinned_mm} mm}}")
    assert cut_mm(checked, "rudder A") == pinned_mm
    assert [finding.name for finding in checked.findings if finding.name != "drop"] == names
