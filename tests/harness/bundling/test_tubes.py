"""Tubes and bundles against tables and worked examples (tests/reference)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference.circle_packing import SMALLEST_CIRCLE
from reference.heat_shrink import (
    FLAT_WIDTHS_MM,
    OVER_MM,
    PRINT_AFTER_MM,
    PRINTED_MM,
    PRINTED_ON_MM,
    THIN_WALL_MM,
)
from typed_parts import tube

from docgen.harness.bundling.diameters import gripped_diameter_mm, outside_diameter_mm
from docgen.harness.bundling.tubes import choose_tube, flat_width_mm, girth_diameter_mm, shrink_of_type

TABLE = [tube(f"{expanded}", expanded, recovered, wall) for expanded, (recovered, wall) in THIN_WALL_MM.items()]
DIAMETERS = st.floats(min_value=0.8, max_value=4.0)


@pytest.mark.parametrize("count", sorted(SMALLEST_CIRCLE))
def test_equal_wires_lie_in_the_smallest_circle(count: int) -> None:
    assert outside_diameter_mm([1.0] * count) == pytest.approx(SMALLEST_CIRCLE[count], abs=6e-4)


@pytest.mark.parametrize(("count", "gripped"), [(1, 1.0), (2, 1.637), (3, 1.955), (4, 2.273)])
def test_a_band_around_wires_is_as_long_as_by_hand(count: int, gripped: float) -> None:
    # π d around the corners and one d for each straight side: (π + n) d, two straights for two wires.
    straights = {1: 0, 2: 2, 3: 3, 4: 4}[count]
    assert gripped_diameter_mm([1.0] * count) == pytest.approx(1 + straights / math.pi, abs=1e-4)
    assert gripped_diameter_mm([1.0] * count) == pytest.approx(gripped, abs=6e-4)


@given(st.lists(DIAMETERS, min_size=1, max_size=7))
def test_a_mixed_bundle_is_no_thinner_than_its_copper_or_its_thickest_two(diameters: list[float]) -> None:
    outside = outside_diameter_mm(diameters)
    assert outside >= math.sqrt(sum(d * d for d in diameters)) - 1e-9
    assert outside >= sum(sorted(diameters)[-2:]) - 1e-9


@given(st.lists(DIAMETERS, min_size=1, max_size=7))
def test_a_band_is_no_longer_than_around_the_circle(diameters: list[float]) -> None:
    assert gripped_diameter_mm(diameters) <= outside_diameter_mm(diameters) * 1.001


@pytest.mark.parametrize(("inside", "flat"), FLAT_WIDTHS_MM)
def test_flat_width_is_half_the_circumference(inside: float, flat: float) -> None:
    assert flat_width_mm(inside) == pytest.approx(flat, abs=0.01)


def test_type_shrinks_with_the_tube() -> None:
    assert PRINTED_MM * shrink_of_type(PRINTED_ON_MM, OVER_MM) == pytest.approx(PRINT_AFTER_MM, abs=0.01)


@pytest.mark.parametrize(
    ("passes", "grips", "expanded"),
    # A tenth to spare and nine tenths gripped, by hand from the table: 1.1 × 3.45 = 3.79 and 0.9 × 3.13 = 2.82
    # take 4.8/2.4; 1.1 × 2.0 = 2.2 and 0.9 × 1.64 = 1.47 take 2.4/1.2; 1.1 × 4.8 = 5.28, 0.9 × 3.93 = 3.54
    # take 6.4/3.2.
    [(3.45, 3.13, 4.8), (2.0, 1.64, 2.4), (4.8, 3.93, 6.4)],
)
def test_the_narrowest_tube_that_passes_and_grips_is_chosen(passes: float, grips: float, expanded: float) -> None:
    tube = choose_tube(passes, grips, TABLE)
    assert tube is not None
    assert tube.expanded_mm == expanded


def test_two_wires_of_22_gauge_find_no_tube_of_two_to_one() -> None:
    # 1.1 × 3.2 = 3.52 mm wants 4.8/2.4, but 0.9 × 2.62 = 2.36 mm is under what that recovers to.
    assert choose_tube(3.2, 2.62, TABLE) is None


def test_dark_and_clear_tubes_take_no_label() -> None:
    dark = tube("dark", 4.8, 2.4, 0.5, colour="BK")
    clear = tube("clear", 4.8, 2.4, 0.5, clear="yes")
    assert choose_tube(3.45, 3.13, [dark, clear]) is None


def test_a_flexible_tube_passes_a_flat_plug_by_its_girth() -> None:
    assert girth_diameter_mm((8.0, 2.9)) == pytest.approx(2 * (8.0 + 2.9) / math.pi)
