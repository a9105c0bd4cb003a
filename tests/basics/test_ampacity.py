"""What the circular's table allows a wire, row by row and column by column."""

from __future__ import annotations

import math

import pytest
from reference.wire_tables import SOLID_COPPER, TABLE_11_9_CURRENT_A

from docgen.basics.ampacity import derated_a, table_current_a

COLUMNS_C = (105, 150, 200)
# The gauge's nominal diameter from a published table [in], 8 AWG by hand: 0.1285 in.
DIAMETER_MM = {gauge: diameter * 25.4 for gauge, (diameter, *_) in SOLID_COPPER.items()} | {8: 0.1285 * 25.4}
ROWS = [
    (gauge, at, amps) for gauge, row in TABLE_11_9_CURRENT_A.items() for at, amps in zip(COLUMNS_C, row, strict=True)
]


def area_mm2(gauge: int) -> float:
    """Return a hair more than the nominal section, whatever the table of diameters was rounded to."""
    return 1.005 * math.pi / 4 * DIAMETER_MM[gauge] ** 2


@pytest.mark.parametrize(("gauge", "limit_c", "amps"), ROWS)
def test_every_size_has_the_current_of_its_row_and_column(gauge: int, limit_c: int, amps: float) -> None:
    assert table_current_a(area_mm2(gauge), limit_c) == amps


@pytest.mark.parametrize(("limit_c", "column_c"), [(125, 105), (149, 105), (180, 150), (260, 200)])
def test_insulation_between_two_columns_counts_as_the_lower(limit_c: int, column_c: int) -> None:
    assert (
        table_current_a(area_mm2(18), limit_c) == dict(zip(COLUMNS_C, TABLE_11_9_CURRENT_A[18], strict=True))[column_c]
    )


@pytest.mark.parametrize(("area", "limit_c"), [(area_mm2(26), 200), (area_mm2(18), 104), (area_mm2(18), None)])
def test_what_the_table_does_not_have_it_does_not_allow(area: float, limit_c: int | None) -> None:
    assert table_current_a(area, limit_c) is None


def test_a_section_between_two_rows_counts_as_the_thinner() -> None:
    # 1 mm² lies between 18 AWG (0.823 mm²) and 16 AWG (1.309 mm²).
    assert table_current_a(1.0, 200) == TABLE_11_9_CURRENT_A[18][2]


@pytest.mark.parametrize(
    ("heat_c", "left"), [(None, 12), (70, 12), (102.5, math.sqrt(0.75) * 12), (167.5, 6), (200, 0), (210, 0)]
)
def test_above_70_degrees_less_is_left(heat_c: float | None, left: float) -> None:
    # 200 °C: at 167.5 °C a quarter of the rise from 70 to 200 °C is left, of which the root is a half.
    assert derated_a(12, 200, heat_c) == pytest.approx(left)
