"""The plan from above: places where their coordinates say, and no mark over another, on many airframes."""

from __future__ import annotations

import pytest
from drawn_plans import airframe, hold_lines, hold_places


@pytest.mark.parametrize("seed", range(4, 50))
def test_each_place_is_where_its_coordinates_say_and_nothing_overlaps(seed: int) -> None:
    hold_places(airframe(seed))


@pytest.mark.parametrize("seed", range(4, 20))
def test_lines_and_stubs_are_whole_but_for_a_gap_around_marks(seed: int) -> None:
    hold_lines(airframe(seed))
