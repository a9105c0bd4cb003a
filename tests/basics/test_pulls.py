"""Least pull of crimped samples against the published table."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from reference.workmanship import CRIMP_PULL_MILITARY_N, CRIMP_PULL_N

from docgen.basics.gauges import awg_diameter_mm
from docgen.basics.pulls import least_pull_n


def area_mm2(gauge: int) -> float:
    return math.pi / 4 * awg_diameter_mm(gauge) ** 2


@pytest.mark.parametrize("gauge", CRIMP_PULL_N)
def test_the_least_pull_is_that_of_the_table(gauge: int) -> None:
    assert least_pull_n(area_mm2(gauge)) == (CRIMP_PULL_N[gauge], CRIMP_PULL_MILITARY_N.get(gauge))


@pytest.mark.parametrize(("metric_mm2", "gauge"), [(0.14, 26), (0.25, 24), (0.5, 22), (0.75, 20), (1.5, 16), (6.0, 10)])
def test_a_metric_size_counts_as_the_next_thinner_one(metric_mm2: float, gauge: int) -> None:
    assert least_pull_n(metric_mm2) == (CRIMP_PULL_N[gauge], CRIMP_PULL_MILITARY_N.get(gauge))


def test_a_size_just_under_a_gauge_counts_as_the_next_thinner() -> None:
    for thinner, gauge in pairwise(sorted(CRIMP_PULL_N, reverse=True)):
        expected = CRIMP_PULL_N[thinner], CRIMP_PULL_MILITARY_N.get(thinner)
        assert least_pull_n(0.999 * area_mm2(gauge)) == expected, gauge


@pytest.mark.parametrize("gauge", [30, 8])
def test_beyond_the_table_there_is_none(gauge: int) -> None:
    assert least_pull_n(area_mm2(gauge)) is None
