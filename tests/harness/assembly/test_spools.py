"""Spool plans: against an independent solver, on published instances, and piece by piece."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

import pytest
from ortools.sat.python import cp_model
from reference import bin_packing

from docgen.harness.assembly.spools import ShelfSpool, SpoolPlan, plan_spools

# Wren's five white pieces: two root leads of 300 mm, two panel leads of 1045 mm, the rudder's of 1335 mm (method.md).
WREN_WHITE_MM = (1335.0, 1045.0, 1045.0, 300.0, 300.0)
QUICK = 36
ALL = 300


@dataclass(frozen=True)
class Group:
    """What one plan is made of."""

    pieces_mm: Sequence[float]
    shelf: Sequence[ShelfSpool]
    sold_mm: Sequence[float]

    def plan(self) -> SpoolPlan:
        return plan_spools(self.pieces_mm, self.shelf, self.sold_mm, 150)


def random_group(seed: int) -> Group:
    """Return pieces of a harness, up to 20 in two of three groups, and a shelf that holds half to twice as much."""
    chance = random.Random(seed)
    number = chance.randint(1, 20) if seed % 3 else chance.randint(21, 36)
    step, longest = chance.choice(((5, 2500), (5, 1200), (1, 2500), (0.1, 1500)))
    pieces_mm = [round(step * chance.randint(int(250 / step), int(longest / step)), 1) for _ in range(number)]
    wanted_mm = sum(pieces_mm) * chance.uniform(0.5, 2)
    shelf: list[ShelfSpool] = []
    while len(shelf) < 7 and sum(spool.length_mm for spool in shelf) < wanted_mm:
        length_mm = chance.choice((chance.randint(4, 60) * 100.0, 5000.0, 10000.0))
        shelf.append(ShelfSpool(len(shelf) + 1, length_mm, length_mm >= 5000 and chance.random() < 0.7))
    return Group(pieces_mm, shelf, chance.choice(((5000.0, 10000.0), (5000.0, 10000.0, 25000.0), (3000.0,))))


def numbers_of(plan: SpoolPlan) -> tuple[int, float, int, int]:
    """Return bought spools, bought length, sealed spools and part-used spools."""
    bought = [cut for cut in plan.cuts if cut.bought]
    sealed = [cut for cut in plan.cuts if cut.sealed]
    return len(bought), plan.bought_mm, len(sealed), len(plan.cuts) - len(bought) - len(sealed)


def assert_exact(group: Group, plan: SpoolPlan) -> None:
    """Each piece is on one spool, no spool holds more than its length, rests and numbers are right."""
    placed = sorted([index for cut in plan.cuts for index in cut.pieces] + list(plan.too_long))
    assert placed == list(range(len(group.pieces_mm)))
    stocks = {spool.number: spool for spool in group.shelf}
    for cut in plan.cuts:
        taken = sum(round(group.pieces_mm[index] * 10) for index in cut.pieces)
        assert cut.pieces
        assert round(cut.rest_mm * 10) == round(cut.length_mm * 10) - taken >= 0
        if cut.bought:
            assert cut.length_mm in group.sold_mm or (not group.sold_mm and cut.rest_mm == 0)
        else:
            assert (cut.length_mm, cut.sealed) == (stocks[cut.number].length_mm, stocks[cut.number].sealed)
    numbers = [cut.number for cut in plan.cuts]
    bought = [cut.length_mm for cut in plan.cuts if cut.bought]
    on_shelf = numbers[: len(numbers) - len(bought)]
    assert len(on_shelf) == len(set(on_shelf))
    assert numbers[len(on_shelf) :] == list(range(1, len(bought) + 1))
    assert plan.bought_mm == pytest.approx(sum(bought))
    assert plan.least <= len(plan.cuts)
    assert plan.proved is (plan.least == len(plan.cuts))


def solve(group: Group, buyable: int) -> tuple[int, float, int, int]:
    """Return the same numbers as the independent solver finds them, one after the other.

    Up to 20 pieces it proves each; above, it may end with the best that it has found.
    """
    model = cp_model.CpModel()
    pieces = [round(length * 10) for length in group.pieces_mm]
    spools = [(round(spool.length_mm * 10), "sealed" if spool.sealed else "part") for spool in group.shelf]
    spools += [(round(sold * 10), "bought") for sold in group.sold_mm for _ in range(buyable)]
    used = [model.new_bool_var("") for _ in spools]
    lengths = sorted(set(pieces))
    numbers = [[model.new_int_var(0, pieces.count(length), "") for length in lengths] for _ in spools]
    for at, (room, _) in enumerate(spools):
        model.add(sum(n * length for n, length in zip(numbers[at], lengths, strict=True)) <= room * used[at])
        if at and spools[at - 1] == spools[at]:
            model.add_implication(used[at], used[at - 1])
    for of, length in enumerate(lengths):
        model.add(sum(each[of] for each in numbers) == pieces.count(length))
    model.add(sum(room * one for one, (room, _) in zip(used, spools, strict=True)) >= sum(pieces))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    if len(pieces) > 20:
        solver.parameters.max_deterministic_time = 0.3
    found = []
    for kind, weighs in (("bought", False), ("bought", True), ("sealed", False), ("part", False)):
        terms = [(room if weighs else 1) * one for one, (room, each) in zip(used, spools, strict=True) if each == kind]
        model.minimize(sum(terms))
        status = solver.solve(model)
        assert status == cp_model.OPTIMAL or (status == cp_model.FEASIBLE and len(pieces) > 20)
        found.append(round(solver.objective_value))
        model.proto.clear_solution_hint()
        for variable in (*used, *(number for each in numbers for number in each)):
            model.add_hint(variable, solver.value(variable))
        model.add(sum(terms) <= found[-1])
    return found[0], found[1] / 10, found[2], found[3]


def assert_as_good(group: Group) -> None:
    plan = group.plan()
    assert_exact(group, plan)
    assert plan.too_long == ()
    bought, bought_mm, sealed, part = ours = numbers_of(plan)
    best = solve(group, bought if len(group.pieces_mm) <= 20 else bought + 2)
    if len(group.pieces_mm) <= 20:
        assert ours == best
        assert plan.proved
    elif plan.proved:
        assert ours <= best
    else:
        assert bought <= best[0] + 1
        if (bought, bought_mm) == best[:2]:
            assert sealed + part <= best[2] + best[3] + 1


def most_from_shelf_mm(group: Group) -> float:
    """Return the greatest length of whole pieces that the shelf gives, as the independent solver finds it."""
    model = cp_model.CpModel()
    pieces = [round(length * 10) for length in group.pieces_mm]
    rooms = [round(spool.length_mm * 10) for spool in group.shelf]
    on = [[model.new_bool_var("") for _ in rooms] for _ in pieces]
    for each in on:
        model.add_at_most_one(each)
    for at, room in enumerate(rooms):
        model.add(sum(piece * each[at] for piece, each in zip(pieces, on, strict=True)) <= room)
    model.maximize(sum(piece * one for piece, each in zip(pieces, on, strict=True) for one in each))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value) / 10


@pytest.mark.parametrize("seed", range(QUICK))
@pytest.mark.long
def test_takes_as_few_spools_as_an_independent_solver(seed: int) -> None:
    assert_as_good(random_group(seed))


@pytest.mark.long
@pytest.mark.parametrize("seed", range(QUICK, ALL))
def test_takes_as_few_spools_as_an_independent_solver_in_many_groups(seed: int) -> None:
    assert_as_good(random_group(seed))


@pytest.mark.parametrize("seed", range(1, 30, 3))
def test_buys_by_length_only_what_the_shelf_can_not_give(seed: int) -> None:
    made = random_group(seed)
    group = Group(made.pieces_mm[:12], made.shelf[:2], ())
    plan = group.plan()
    assert_exact(group, plan)
    assert plan.too_long == ()
    assert plan.bought_mm == pytest.approx(sum(group.pieces_mm) - most_from_shelf_mm(group), abs=0.01)


@pytest.mark.parametrize(
    "instance",
    [
        bin_packing.MARTELLO_TOTH,
        bin_packing.GRAHAM,
        bin_packing.GRAHAM_ONE_LESS,
        bin_packing.johnson(1),
        bin_packing.johnson(2),
        *(pytest.param(bin_packing.triplets(20, seed), marks=pytest.mark.long) for seed in range(1, 4)),
        *(pytest.param(bin_packing.triplets(40, seed), marks=pytest.mark.long) for seed in range(1, 3)),
    ],
    ids=lambda instance: instance.name,
)
def test_published_instances_take_at_most_one_spool_more(instance: bin_packing.Instance) -> None:
    group = Group(instance.pieces, (), (instance.spool,))
    plan = group.plan()
    print(f"{instance.name}: {len(plan.cuts)} spools, at least {plan.least}, known {instance.optimum}")  # noqa: T201
    assert_exact(group, plan)
    assert plan.least <= instance.optimum <= len(plan.cuts) <= instance.optimum + 1


@pytest.mark.long
@pytest.mark.parametrize("pieces", [60, 120, 250])
@pytest.mark.parametrize("seed", range(1, 3))
def test_published_uniform_instances_take_at_most_one_spool_more_than_the_bound(pieces: int, seed: int) -> None:
    instance = bin_packing.uniform(pieces, seed)
    group = Group(instance.pieces, (), (instance.spool,))
    plan = group.plan()
    print(f"{instance.name}: {len(plan.cuts)} spools, at least {plan.least}")  # noqa: T201
    assert_exact(group, plan)
    assert len(plan.cuts) <= plan.least + 1


@pytest.mark.parametrize(
    "instance", [bin_packing.MARTELLO_TOTH, bin_packing.johnson(1)], ids=lambda instance: instance.name
)
def test_optima_of_published_instances_are_as_an_independent_solver_finds_them(instance: bin_packing.Instance) -> None:
    group = Group(instance.pieces, (), (instance.spool,))
    assert solve(group, instance.optimum)[0] == instance.optimum


@pytest.mark.parametrize("instance", [bin_packing.GRAHAM, bin_packing.johnson(2), bin_packing.triplets(20, 1)])
def test_optima_of_published_instances_fill_their_spools(instance: bin_packing.Instance) -> None:
    assert sum(instance.pieces) == instance.optimum * instance.spool


def test_wrens_two_part_used_white_spools_do_for_its_white_pieces() -> None:
    # 1335 + 1045 + 1045 + 300 + 300 = 4025 mm of 4400 mm. The 1.9 m takes 1335 and 300 (265 mm left) or 1045, 300
    # and 300 (255 mm left), the 2.5 m the others (110 or 120 mm left): 265 mm is the longest end.
    plan = plan_spools(WREN_WHITE_MM, (ShelfSpool(3, 2500, False), ShelfSpool(4, 1900, False)), (5000, 25000), 150)
    assert [(cut.number, cut.rest_mm) for cut in plan.cuts] == [(3, 110), (4, 265)]
    assert [cut.pieces for cut in plan.cuts] == [(1, 2, 3), (0, 4)]
    assert (plan.least, plan.proved, plan.bought_mm) == (2, True, 0)


def test_with_the_shorter_at_less_wren_buys_the_smallest_spool_that_does() -> None:
    # 4025 mm of 4100 mm, but no pieces fill 1600 mm to 75 mm (1335, or 1045 and 300), so one is bought; it does alone.
    plan = plan_spools(WREN_WHITE_MM, (ShelfSpool(3, 2500, False), ShelfSpool(4, 1600, False)), (5000, 25000), 150)
    assert [(cut.number, cut.length_mm) for cut in plan.cuts if cut.bought] == [(1, 5000)]
    assert (plan.bought_mm, plan.least, plan.proved) == (5000, 1, True)


def test_where_no_size_is_sold_the_least_length_is_bought() -> None:
    # As above one piece at least is left over, and 300 mm is the shortest: 1045 + 1045 + 300 and 1335 fit.
    plan = plan_spools(WREN_WHITE_MM, (ShelfSpool(3, 2500, False), ShelfSpool(4, 1600, False)), (), 150)
    assert [(cut.number, cut.length_mm, cut.pieces) for cut in plan.cuts if cut.bought] == [(1, 300, (4,))]
    assert plan.proved


def test_part_used_spools_are_opened_before_a_sealed_one_that_would_do_alone() -> None:
    shelf = (ShelfSpool(1, 5000, True), ShelfSpool(2, 1000, False), ShelfSpool(3, 1000, False))
    assert [cut.number for cut in plan_spools((900, 800), shelf, (5000,), 150).cuts] == [2, 3]


def test_a_sealed_spool_is_opened_before_one_is_bought() -> None:
    shelf = (ShelfSpool(1, 5000, True), ShelfSpool(2, 1000, False))
    assert [cut.number for cut in plan_spools((900, 800), shelf, (2000,), 150).cuts] == [1]


def test_of_mixtures_as_long_the_one_is_bought_that_opens_fewer_sealed_spools() -> None:
    # 20 m are needed, one spool of 15 m and the sealed one won't do: 4900 mm there leave 15.1 m. 10 m and 10 m do;
    # 5 m and 15 m hold 4900 and 10 200 mm and take the sealed one for the last.
    plan = plan_spools((5100, 4900, 5100, 4900), (ShelfSpool(1, 5000, True),), (5000, 10000, 15000), 150)
    assert [(cut.bought, cut.length_mm) for cut in plan.cuts] == [(True, 10000), (True, 10000)]


def test_the_longest_usable_end_is_left() -> None:
    # The longest first, each where it leaves the least: ends of 100 and 200 mm. 500 + 200 + 200 fill one spool and
    # leave 300 mm, all that 1800 − 1500 mm can, on the other.
    plan = plan_spools((500, 300, 300, 200, 200), (ShelfSpool(1, 900, False), ShelfSpool(2, 900, False)), (), 150)
    assert sorted(cut.rest_mm for cut in plan.cuts) == [0, 300]


def test_a_piece_longer_than_any_spool_is_named_and_left_out() -> None:
    plan = plan_spools((6000, 400), (ShelfSpool(1, 1000, False),), (5000,), 150)
    assert plan.too_long == (0,)
    assert [cut.pieces for cut in plan.cuts] == [(1,)]


def test_no_pieces_take_no_spools() -> None:
    plan = plan_spools((), (ShelfSpool(1, 1000, False),), (5000,), 150)
    assert plan == SpoolPlan((), 0, True, (), 0)


def test_a_tenth_of_a_millimetre_too_much_does_not_fit() -> None:
    shelf = (ShelfSpool(1, 1000, False),)
    assert plan_spools((700, 300), shelf, (5000,), 0).bought_mm == 0
    assert plan_spools((700, 300.1), shelf, (5000,), 0).bought_mm == 5000


def test_a_length_between_tenths_is_never_cut_short() -> None:
    # 39.37 in are 999.998 mm: a piece of 1000 mm does not fit.
    assert plan_spools((1000,), (ShelfSpool(1, 999.998, False),), (5000,), 0).bought_mm == 5000
    assert plan_spools((1000.02,), (ShelfSpool(1, 1000, False),), (5000,), 0).bought_mm == 5000


def test_same_group_gives_the_same_plan() -> None:
    assert random_group(18).plan() == random_group(18).plan()
