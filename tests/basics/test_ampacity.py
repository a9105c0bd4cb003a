"""What a wire may carry against FAA AC 43.13-1B table 11-9 and 11-66d(6)."""

from __future__ import annotations

from itertools import pairwise

import pytest
from reference.wire_tables import TABLE_11_9_CURRENT_A

from docgen.basics.ampacity import derated_a, table_current_a
from docgen.basics.gauges import awg_area_mm2

EACH = [
    (gauge, limit_c, amps)
    for gauge, row in TABLE_11_9_CURRENT_A.items()
    for limit_c, amps in zip((105, 150, 200), row, strict=True)
]


@pytest.mark.parametrize(("gauge", "limit_c", "amps"), EACH)
def test_a_current_is_that_of_the_table(gauge: int, limit_c: float, amps: float) -> None:
    assert table_current_a(awg_area_mm2(gauge), limit_c) == amps


@pytest.mark.parametrize(("limit_c", "amps"), [(149.9, 3), (199.9, 5), (260, 6)])
def test_insulation_between_two_columns_counts_as_the_cooler(limit_c: float, amps: float) -> None:
    assert table_current_a(awg_area_mm2(22), limit_c) == amps


# mm² by the published diameters: 24 AWG 0.205, 22 AWG 0.326, 20 AWG 0.518, 18 AWG 0.823.
@pytest.mark.parametrize(("area_mm2", "amps"), [(0.25, 2.5), (0.34, 3), (0.5, 3), (0.75, 4)])
def test_a_metric_size_counts_as_the_next_thinner_gauge(area_mm2: float, amps: float) -> None:
    assert table_current_a(area_mm2, 105) == amps


def test_a_size_just_under_a_gauge_counts_as_the_next_thinner() -> None:
    gauges = sorted(TABLE_11_9_CURRENT_A, reverse=True)
    for thinner, gauge in pairwise(gauges):
        assert table_current_a(0.999 * awg_area_mm2(gauge), 105) == TABLE_11_9_CURRENT_A[thinner][0], gauge
    assert table_current_a(0.999 * awg_area_mm2(gauges[0]), 200) is None


@pytest.mark.parametrize(("area_mm2", "limit_c"), [(0.14, 200), (0.326, 80), (0.326, None)])
def test_beyond_the_table_there_is_no_current(area_mm2: float, limit_c: float | None) -> None:
    assert table_current_a(area_mm2, limit_c) is None


# By hand: sqrt((105 - 90) / (105 - 70)) = sqrt(15 / 35) = 0.65465; sqrt((150 - 130) / (150 - 70)) = sqrt(1 / 4).
@pytest.mark.parametrize(
    ("limit_c", "heat_c", "amps"), [(105, 90, 6.5465), (150, 130, 5), (105, 70, 10), (105, 20, 10)]
)
def test_heat_over_70_degrees_takes_from_a_current(limit_c: float, heat_c: float, amps: float) -> None:
    assert derated_a(10, limit_c, heat_c) == pytest.approx(amps, abs=5e-5)


@pytest.mark.parametrize("heat_c", [105, 120])
def test_at_its_limit_and_over_it_a_wire_carries_nothing(heat_c: float) -> None:
    assert derated_a(10, 105, heat_c) == 0


@pytest.mark.parametrize(("limit_c", "heat_c"), [(105, None), (None, 90), (None, None)])
def test_what_is_unknown_takes_nothing_from_a_current(limit_c: float | None, heat_c: float | None) -> None:
    assert derated_a(10, limit_c, heat_c) == 10
