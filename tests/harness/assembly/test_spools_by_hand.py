"""Small shelves, cut by hand."""

from __future__ import annotations

import tracemalloc

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.assembly import packing, spools
from docgen.harness.assembly.shelf import shelf_of
from docgen.harness.assembly.spools import ShelfSpool, SpoolPlan, plan_spools


def cuts_of(plan: SpoolPlan) -> list[tuple[int, tuple[int, ...], float]]:
    return [(cut.number, cut.pieces, cut.rest_mm) for cut in plan.cuts]


def test_a_piece_that_only_a_spool_on_the_shelf_is_long_enough_for_comes_off_it() -> None:
    plan = plan_spools([3000], [ShelfSpool(1, 4000, sealed=False)], [2000], 150)
    assert (plan.too_long, cuts_of(plan)) == ((), [(1, (0,), 1000)])


def test_a_piece_longer_than_all_is_on_none() -> None:
    plan = plan_spools([3000, 500], [ShelfSpool(1, 2500, sealed=False)], [2000], 150)
    assert (plan.too_long, cuts_of(plan)) == ((0,), [(1, (1,), 2000)])


def test_part_used_ones_come_first_then_sealed_ones_then_what_is_bought() -> None:
    # 2 × 900 and 1900 mm: the shelf holds the short ones, so the shortest spool for 1900 mm is bought.
    shelf = [ShelfSpool(1, 950, sealed=True), ShelfSpool(2, 960, sealed=False)]
    plan = plan_spools([1900, 900, 900], shelf, [1000, 2000, 5000], 150)
    assert [(cut.number, cut.rest_mm, cut.sealed, cut.bought) for cut in plan.cuts] == [
        (2, 60, False, False),
        (1, 50, True, False),
        (1, 100, False, True),
    ]
    assert plan.bought_mm == 2000


def test_nothing_is_bought_where_the_shelf_does() -> None:
    plan = plan_spools([900], [ShelfSpool(1, 950, sealed=False)], [1000], 150)
    assert (plan.bought_mm, [cut.bought for cut in plan.cuts]) == (0, [False])


def test_where_no_size_is_sold_what_is_bought_leaves_nothing() -> None:
    plan = plan_spools([900, 700], [ShelfSpool(1, 800, sealed=False)], [], 150)
    assert cuts_of(plan) == [(1, (1,), 100), (1, (0,), 0)]
    assert plan.bought_mm == 900


@pytest.mark.parametrize(
    ("piece_mm", "spool_mm", "fits"), [(1000, 1000, True), (1000.04, 1000, False), (1000, 999.99, False)]
)
def test_a_piece_is_never_cut_short(piece_mm: float, spool_mm: float, fits: bool) -> None:
    plan = plan_spools([piece_mm], [ShelfSpool(1, spool_mm, sealed=False)], [500], 150)
    assert plan.too_long == (() if fits else (0,))


def test_of_part_used_spools_the_longest_is_taken_where_one_does() -> None:
    plan = plan_spools([400], [ShelfSpool(1, 500, sealed=False), ShelfSpool(2, 900, sealed=False)], [1000], 150)
    assert [cut.number for cut in plan.cuts] == [2]


def test_what_is_left_is_one_long_end() -> None:
    # 600 + 300 and 500 + 400 leave 100 and 100; 600 + 400 and 500 + 300 leave 0 and 200, which is over 150 mm.
    shelf = [ShelfSpool(1, 1000, sealed=False), ShelfSpool(2, 1000, sealed=False)]
    plan = plan_spools([600, 500, 400, 300], shelf, [2000], 150)
    assert sorted(cut.rest_mm for cut in plan.cuts) == [0, 200]


# 24 pieces are 80 m, eight spools of 10 m: 5 + 5 twice, 4 + 4 + 2 four times, 3 + 3 + 2 + 2 twice. Put where they leave
# the least, the longest first, they need nine: 5 + 5 twice, 4 + 4 four times, 3 + 3 + 3 and 3 + 2 + 2 + 2, which leave
# 1 m, with 2 m beside each 4 + 4: one of 2 m is left over.
HARD = [length * 1000.0 for length in (*[5] * 4, *[4] * 8, *[3] * 4, *[2] * 8)]
SPOOL_MM = 10_000.0


@pytest.fixture
def no_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a search that may be ended take no step."""
    for module in (packing, spools):
        monkeypatch.setattr(module, "SEARCH_STEPS", 0)


@pytest.mark.usefixtures("no_search")
@pytest.mark.parametrize(
    ("shelf", "sold"), [([], [SPOOL_MM]), ([ShelfSpool(i, SPOOL_MM, sealed=True) for i in range(1, 10)], [])]
)
def test_where_the_search_ends_early_the_bound_says_how_few_could_do(
    shelf: list[ShelfSpool], sold: list[float]
) -> None:
    plan = plan_spools(HARD, shelf, sold, 150)
    assert (len(plan.cuts), plan.least, plan.proved) == (9, 8, False)


def test_a_search_to_its_end_finds_the_fewest() -> None:
    plan = plan_spools(HARD, [], [SPOOL_MM], 150)
    assert (len(plan.cuts), plan.least, plan.proved) == (8, 8, True)


@pytest.mark.usefixtures("no_search")
def test_up_to_twenty_pieces_are_searched_to_the_end_however_long_it_takes() -> None:
    # 5 + 3 + 2 and 4 + 4 + 2; put where they leave the least, 5 + 4 and 4 + 3 + 2 leave one of 2 m over.
    plan = plan_spools([length * 1000.0 for length in (5, 4, 4, 3, 2, 2)], [], [SPOOL_MM], 150)
    assert (len(plan.cuts), plan.least, plan.proved) == (2, 2, True)


def test_lengths_whose_sums_would_fill_the_memory_are_not_searched() -> None:
    # As above, ten thousand kilometres long and one piece a tenth of a millimetre longer, so that nothing divides all.
    pieces = [length * 10**9 + (length == 5) for length in (5, 4, 4, 3, 2, 2)]
    tracemalloc.start()
    answer = packing.Packer(pieces).fit([10**10 + 1] * 2)
    _, most_bytes = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert (answer.fillings, answer.sure) == (None, False)
    assert most_bytes < 10**6


def test_pieces_come_off_spools_of_their_own_wire_and_colour() -> None:
    # As written in stores: of black 22 AWG the first, of red the second, of white the third and fourth.
    harness = harness_of(EXAMPLES / "wren")
    numbers = {
        (part, colour): [spool.number for spool in shelf_of(harness, part, colour)]
        for part in ("pvc-20", "pvc-22")
        for colour in ("BK", "RD", "WH")
    }
    assert {key: found for key, found in numbers.items() if found} == {
        ("pvc-22", "BK"): [1],
        ("pvc-22", "RD"): [2],
        ("pvc-22", "WH"): [3, 4],
    }
