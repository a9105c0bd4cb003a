"""Which tube is chosen, how wide it lies flat and how its type shrinks: tables and worked examples."""

from __future__ import annotations

import pytest
from reference.heat_shrink import (
    FLAT_WIDTHS_MM,
    OVER_MM,
    PRINT_AFTER_MM,
    PRINTED_MM,
    PRINTED_ON_MM,
    THIN_WALL_MM,
)
from typed_parts import tube

from docgen.harness.bundling.tubes import (
    LABEL_MM,
    Need,
    fewest_tubes,
    flat_width_mm,
    girth_diameter_mm,
    shrink_of_type,
    takes_label,
)

TABLE = [tube(f"{expanded}", expanded, recovered, wall) for expanded, (recovered, wall) in THIN_WALL_MM.items()]


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
    assert Need(passes, grips).fitting(TABLE)[0].expanded_mm == expanded


def test_two_wires_of_22_gauge_find_no_tube_of_two_to_one() -> None:
    # 1.1 × 3.2 = 3.52 mm wants 4.8/2.4, but 0.9 × 2.62 = 2.36 mm is under what that recovers to.
    assert Need(3.2, 2.62).fitting(TABLE) == []


def test_dark_and_clear_tubes_take_no_label() -> None:
    dark = tube("dark", 4.8, 2.4, 0.5, colour="BK")
    clear = tube("clear", 4.8, 2.4, 0.5, clear="yes")
    assert [takes_label(tube) for tube in (dark, clear, TABLE[0])] == [False, False, True]


def test_a_flexible_tube_passes_a_flat_plug_by_its_girth() -> None:
    # 2 × (8.0 + 2.9) = 21.8 mm around, as a circle of 6.94 mm is.
    assert girth_diameter_mm((8.0, 2.9)) == pytest.approx(6.94, abs=0.005)


# Of tubes that fit the narrowest that stands the heat is taken, of equal ones that which shrinks least.
# Three wires of 1.6 mm: 3.45 mm to pass with a tenth to spare, 3.79 mm; 0.9 of 3.13 mm, 2.82 mm, to grip.
LINED, PLAIN, WIDE = (
    tube("lined", 4.8, 1.5, 0.5, limit="140 C"),
    tube("plain", 4.8, 2.4, 0.5, limit="125 C"),
    tube("wide", 6.4, 2.7, 0.5, limit="200 C"),
)


@pytest.mark.parametrize(
    ("heat_c", "name"),
    [(None, "plain"), (125, "plain"), (126, "lined"), (140, "lined"), (141, "wide"), (200, "wide"), (201, "plain")],
)
def test_the_first_that_stands_the_heat_is_taken(heat_c: float | None, name: str) -> None:
    assert Need(3.45, 3.13, heat_c).fitting([WIDE, LINED, PLAIN])[0].name == name


def test_paper_thickens_wires_by_half_a_millimetre_and_its_tube_is_cut_longer() -> None:
    # Three wires of 1.6 mm; with a plug of 6.94 mm, that is passed. (32 + 10) / 0.9 = 46.7 mm.
    assert Need.under_paper(3.45, 3.13, None) == pytest.approx((3.95, 3.63, None))
    assert Need.under_paper(3.45, 3.13, 90.0, 6.94) == pytest.approx((6.94, 3.63, 90))
    assert LABEL_MM == 47


# By hand, 1.1 × and 0.9 ×: 4.0/2.0 does for the first two, 4.8/2.4 for the last, 4.4/2.2 and 9.0/1.0 for all three.
FEW = [tube("narrow", 4.0, 2.0, 0.5), tube("middle", 4.4, 2.2, 0.5), tube("broad", 4.8, 2.4, 0.5)]
FEW += [tube("lined", 9.0, 1.0, 0.5)]
THREE = [Need(3.0, 2.5), Need(3.5, 2.5), Need(3.7, 2.8)]


def test_the_fewest_sizes_are_used_and_not_the_narrowest_for_each() -> None:
    assert {found.name for found in fewest_tubes(THREE, FEW).values()} == {"middle"}


def test_what_the_shelf_has_comes_first() -> None:
    found = fewest_tubes(THREE, FEW, shelf=["broad"])
    assert [found[need].name for need in THREE] == ["narrow", "narrow", "broad"]


def test_tube_that_shrinks_more_is_for_where_plain_tube_does_not_do() -> None:
    over_plug = Need(7.0, 3.0)
    found = fewest_tubes([*THREE, over_plug, Need(9.0, 3.0)], FEW)
    assert {need: tube.name for need, tube in found.items()} == {**dict.fromkeys(THREE, "middle"), over_plug: "lined"}
