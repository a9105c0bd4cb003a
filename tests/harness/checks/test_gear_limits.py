"""Limits and stops of gear legs: common practice, no source, by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.harness.checks.gear_limit import (
    is_far_over,
    is_missed_by_stall,
    is_tripped_by_working,
    leave_no_room,
    suggested_limit_s,
)


@pytest.mark.parametrize(
    ("stroke_s", "limit_s"),
    # The larger of 1.1 × and 1 s more, up to a whole second: 14.74 and 14.4; 8.8 and 9.0; 11.0 and 11.0;
    # 22.0 and 21.0; 22.11 and 21.1; 2.2 and 3.0; 6.6 and 7.0.
    [(13.4, 15), (8.0, 9), (10.0, 11), (20.0, 22), (20.1, 23), (2.0, 3), (6.0, 7)],
)
def test_the_suggested_limit_is_the_next_whole_second_over_the_stroke(stroke_s: float, limit_s: int) -> None:
    assert suggested_limit_s(stroke_s) == limit_s


@given(st.floats(0, 1000))
def test_no_suggestion_is_under_the_stroke_or_far_over_itself(stroke_s: float) -> None:
    limit_s = suggested_limit_s(stroke_s)
    assert limit_s >= stroke_s + 1 - 1e-6
    assert not is_far_over(limit_s, limit_s)


@pytest.mark.parametrize(
    ("limit_s", "suggested_s", "far"),
    # A quarter of 15 s is 3.75 s, of 4 s 1 s: there the two seconds count.
    [(15, 15, False), (18.75, 15, False), (19, 15, True), (6, 4, False), (6.5, 4, True), (12, 15, False)],
)
def test_a_limit_is_far_over_by_two_seconds_and_a_quarter(limit_s: float, suggested_s: float, far: bool) -> None:
    assert is_far_over(limit_s, suggested_s) == far


@pytest.mark.parametrize(
    ("stop_a", "tripped", "missed"),
    # Working 1 A, stall 4 A: from 1.3 A to 3.2 A.
    [(1.2, True, False), (1.3, False, False), (2.5, False, False), (3.2, False, False), (3.3, False, True)],
)
def test_a_stop_lies_between_working_and_stall(stop_a: float, tripped: bool, missed: bool) -> None:
    assert is_tripped_by_working(stop_a, 1, 4) == tripped
    assert is_missed_by_stall(stop_a, 1, 4) == missed


@pytest.mark.parametrize(
    ("stop_a", "tripped", "missed"),
    # Working 2 A, stall 3 A: 2.6 A and 2.4 A leave no room, so that all between 2 A and 3 A will do.
    [(2, True, False), (2.1, False, False), (2.9, False, False), (3, False, True)],
)
def test_a_stop_with_little_room_lies_anywhere_between(stop_a: float, tripped: bool, missed: bool) -> None:
    assert leave_no_room(2, 3)
    assert is_tripped_by_working(stop_a, 2, 3) == tripped
    assert is_missed_by_stall(stop_a, 2, 3) == missed


def test_what_is_unsaid_bounds_no_stop() -> None:
    assert not is_tripped_by_working(0.1, None, 4)
    assert not is_missed_by_stall(100, 1, None)
