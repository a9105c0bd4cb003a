"""Routes where some runs have no length: of several ways the one of fewest runs, else as ever."""

from __future__ import annotations

import itertools
import random
from collections.abc import Callable
from pathlib import Path

import networkx
import pytest
from conftest import Changes
from resolved import harness_of

from docgen.basics.findings import Finding
from docgen.harness.model.airframe import Route, Run
from docgen.harness.routing.routes import Routes
from docgen.pipeline import check

AircraftFolder = Callable[[Changes], Path]


def run(first: str, second: str, length_mm: float | None) -> Run:
    return Run((first, second), length_mm, length_mm is not None, False, None, None, None, "")


def ways(runs: list[Run], start: str, goal: str) -> list[tuple[int, ...]]:
    """Return every way that passes no place twice, as a graph library finds them, by the numbers of its runs."""
    graph = networkx.MultiGraph()
    graph.add_nodes_from([start, goal])
    for index, each in enumerate(runs):
        graph.add_edge(*each.between, index)
    return [tuple(key for *_, key in path) for path in networkx.all_simple_edge_paths(graph, start, goal)]


@pytest.mark.parametrize("seed", range(60))
def test_the_way_is_of_fewest_runs_where_any_holds_an_unknown_one_else_the_shortest(seed: int) -> None:
    chance = random.Random(seed)
    places = "abcdefg"
    pairs = chance.choices(list(itertools.combinations(places, 2)), k=8)
    runs = [run(*pair, chance.choice([None, *(chance.randint(1, 9) * 10.0 for _ in range(5))])) for pair in pairs]
    routes = Routes(runs)
    for start, goal in itertools.permutations(places, 2):
        every = ways(runs, start, goal)
        route = routes.shortest([start, goal])
        assert (route is None) == (not every)
        if route is None:
            continue
        assert route.runs in every
        lengths = [[runs[index].length_mm for index in way] for way in every]
        if any(None in some for some in lengths):
            assert len(route.runs) == min(map(len, every))
        else:
            assert route.length_mm == min(sum(length for length in some if length) for some in lengths)


def test_of_as_many_runs_the_first_written_is_taken() -> None:
    runs = [run("a", "b", 100), run("b", "d", 100), run("a", "c", None), run("c", "d", 10)]
    assert Routes(runs).shortest(["a", "d"]) == Route(("a", "b", "d"), (0, 1), 200)


def test_a_way_of_fewest_runs_that_holds_an_unknown_one_has_no_length() -> None:
    runs = [run("a", "b", 100), run("b", "d", 100), run("a", "d", None)]
    assert Routes(runs).shortest(["a", "d"]) == Route(("a", "d"), (2,), None)


def test_an_unknown_run_off_the_way_changes_nothing() -> None:
    runs = [run("a", "d", 500), run("a", "b", 100), run("b", "d", 100), run("d", "e", None), run("e", "f", 10)]
    assert Routes(runs).shortest(["a", "d"]) == Route(("a", "b", "d"), (1, 2), 200)


def test_how_far_places_lie_is_told_in_runs_where_a_length_is_not_known() -> None:
    runs = [run("a", "b", 100), run("b", "c", None), run("a", "d", 300)]
    assert Routes(runs).apart("a", ["b", "d"]) == {"b": 100, "d": 300}
    assert Routes(runs).apart("a", ["c", "d"]) == {"c": 2, "d": 1}


ON_THE_TRAY = [("    place: tail-post\n", "    place: radio-tray\n")]
RUDDER = ("  rudder:\n    label: RUD\n", "  rudder:\n    lengths: {A: 260 mm}\n    label: RUD\n")


def across(text: str) -> Changes:
    tray = "at: {aft: 420 mm, up: 10 mm}, access: canopy"
    return {"aircraft.yaml": [(tray, tray + text)], "harness.yaml": ON_THE_TRAY}


def shorts(folder: Path) -> list[Finding]:
    return [finding for finding in check(folder).findings if finding.name == "short"]


def test_a_lead_across_a_tray_is_as_long_as_that_is(aircraft_folder: AircraftFolder) -> None:
    # 120 mm × 1.03, 80 mm of loop, 2 × (4 + 2 × 10) mm: 251.6 mm; three wires of 1.6 mm with a lay of 25 mm, whose
    # centres lie on 2/√3 × 1.6 = 1.848 mm: × √(1 + (π × 1.848 / 25)²) = 1.0266 makes 258.3 mm, so 260 mm.
    harness = harness_of(aircraft_folder(across(", across: 120 mm")))
    rudder = harness.circuits["rudder"].leads[0]
    assert (rudder.route, rudder.length_mm) == (Route(("radio-tray",), (), 120), 260)


def test_two_things_on_a_place_that_has_no_across_are_told_once(aircraft_folder: AircraftFolder) -> None:
    [finding] = shorts(aircraft_folder(across("")))
    assert finding.subject == ("places", "radio-tray")
    assert "`rudder A`" in finding.sentence
    assert "across: 120 mm" in finding.do
    assert shorts(aircraft_folder(across(", across: 120 mm"))) == []


def test_a_pinned_lead_on_one_place_is_not_told_of(aircraft_folder: AircraftFolder) -> None:
    changes = across("")
    assert shorts(aircraft_folder({**changes, "harness.yaml": [*ON_THE_TRAY, RUDDER]})) == []


def test_what_plugs_straight_in_on_one_place_is_not_told_of(aircraft_folder: AircraftFolder) -> None:
    straight = ("    to: rudder\n    lead: servo-22\n", "    to: rudder\n")
    assert shorts(aircraft_folder({**across(""), "harness.yaml": [*ON_THE_TRAY, straight]})) == []


# 4 mm of strip and two reterminations of 10 mm at each end are 48 mm; 10 mm across is 10.3 mm, 58.3 mm, with the twist
# 59.9 mm: 60 mm, on which a label of 60 mm fits. Without reterminations 18.8 mm: 20 mm.
@pytest.mark.parametrize(("allowances", "told"), [("", 0), ("allowances: {reterminations: 0}\n", 1)])
def test_a_lead_on_which_not_even_one_label_fits_is_told_of(
    allowances: str, told: int, aircraft_folder: AircraftFolder
) -> None:
    changes = across(", across: 10 mm")
    loop = ("    to: rudder\n    lead: servo-22\n    loop: 80 mm\n", "    to: rudder\n    lead: servo-22\n")
    folder = aircraft_folder(
        {**changes, "harness.yaml": [*ON_THE_TRAY, loop, ("equipment:\n", f"{allowances}equipment:\n")]}
    )
    found = shorts(folder)
    assert [finding.subject for finding in found] == [("circuits", "rudder")] * told
