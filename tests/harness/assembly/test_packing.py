"""When pieces are known not to fit their spools without a search."""

from __future__ import annotations

import pytest

from docgen.harness.assembly.packing import is_ruled_out

# Counted by hand; spools are sorted up, pieces down.
RULED_OUT = {
    "longer together than all spools": ((6, 5), (4, 6), True),
    "as long together as all spools": ((6, 4), (4, 6), False),
    "one longer than the longest": ((7,), (3, 6), True),
    "one as long as the longest": ((6,), (3, 6), False),
    "one goes on the shorter, two on the longer": ((4, 4, 4, 4), (7, 11), True),
    "three where three go": ((4, 4, 4), (7, 11), False),
    "two of the long ones, with one short piece beside each": ((5, 5, 4, 4), (9, 9), False),
    "no two that leave less than the third's length": ((7, 7, 4), (10, 10), True),
    "no pieces": ((), (), False),
}


@pytest.mark.parametrize(("pieces", "spools", "ruled_out"), RULED_OUT.values(), ids=RULED_OUT)
def test_what_can_t_fit_by_number_or_by_sum_is_not_searched(
    pieces: tuple[int, ...], spools: tuple[int, ...], ruled_out: bool
) -> None:
    assert is_ruled_out(pieces, spools) is ruled_out
