"""Ways over the runs: shortest by a general library, forced, and where there is none."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import networkx
import pytest
from resolved import known

from docgen.harness.model.airframe import Route, Run
from docgen.harness.model.circuits import Lead
from docgen.harness.routing.routes import Routes
from docgen.pipeline import Checked, check


def run(first: str, second: str, length_mm: float) -> Run:
    return Run((first, second), length_mm, True, False, None, None, None, "")


def random_runs(seed: int) -> tuple[list[str], list[Run]]:
    """Return places and runs between them at random: parallel ones too, and not all connected."""
    chance = random.Random(seed)
    places = [f"place-{i}" for i in range(chance.randint(2, 12))]
    count = chance.randint(1, 2 * len(places))
    pairs = [chance.sample(places, 2) for _ in range(count)]
    return places, [run(first, second, chance.randint(1, 2000)) for first, second in pairs]


def graph_of(places: list[str], runs: list[Run]) -> networkx.MultiGraph:
    graph = networkx.MultiGraph()
    graph.add_nodes_from(places)
    for one in runs:
        graph.add_edge(*one.between, weight=one.length_mm)
    return graph


def assert_connected(route: Route, runs: list[Run]) -> None:
    """Check that each run leads from one place of the route to the next, and that the lengths add up."""
    assert len(route.runs) == len(route.places) - 1
    for index, number in enumerate(route.runs):
        assert set(runs[number].between) == {route.places[index], route.places[index + 1]}
    assert route.length_mm == pytest.approx(sum(known(runs[number].length_mm) for number in route.runs))


@pytest.mark.parametrize("seed", range(200))
def test_the_way_is_as_short_as_a_graph_library_finds_it(seed: int) -> None:
    places, runs = random_runs(seed)
    ways, graph = Routes(runs), graph_of(places, runs)
    for start in places:
        lengths = networkx.single_source_dijkstra_path_length(graph, start)
        for goal in places:
            route = ways.shortest([start, goal])
            assert (route is not None) == (goal in lengths)
            if route is not None:
                assert route.length_mm == pytest.approx(lengths[goal])
                assert (route.places[0], route.places[-1]) == (start, goal)
                assert_connected(route, runs)


@pytest.mark.parametrize("seed", range(0, 200, 10))
def test_a_way_over_a_stop_is_the_sum_of_its_shortest_legs(seed: int) -> None:
    places, runs = random_runs(seed)
    start, stop, goal = places[0], places[-1], places[len(places) // 2]
    graph = graph_of(places, runs)
    route = Routes(runs).shortest([start, stop, goal])
    if not (networkx.has_path(graph, start, stop) and networkx.has_path(graph, stop, goal)):
        assert route is None
        return
    assert route is not None
    legs = ((start, stop), (stop, goal))
    assert route.length_mm == sum(networkx.dijkstra_path_length(graph, one, two) for one, two in legs)
    assert_connected(route, runs)


def test_the_shorter_of_parallel_runs_is_taken() -> None:
    runs = [run("a", "b", 300), run("b", "a", 200), run("a", "b", 250)]
    assert Routes(runs).shortest(["a", "b"]) == Route(("a", "b"), (1,), 200)


def test_from_a_place_to_itself_there_is_nothing_to_lay() -> None:
    assert Routes([run("a", "b", 300)]).shortest(["a", "a"]) == Route(("a",), (), 0)


def test_there_is_no_way_to_a_place_without_runs() -> None:
    assert Routes([run("a", "b", 300)]).shortest(["a", "c"]) is None


def test_of_ways_as_short_one_is_taken_always() -> None:
    runs = [run("a", "b", 100), run("b", "d", 100), run("a", "c", 100), run("c", "d", 100)]
    assert len({Routes(runs).shortest(["a", "d"]) for _ in range(5)}) == 1


# A second, longer way to the tail, beside the runs of the smallest example.
DETOUR = """
  - {between: [left-root, tail-post], length: 1200 mm}
"""


@pytest.fixture
def wren_with_detour(aircraft_folder: Callable[..., Path]) -> Callable[..., Checked]:
    """Check the example with the longer way to the tail, and with one text of harness.yaml replaced."""

    def checked(old: str, new: str) -> Checked:
        return check(
            aircraft_folder(
                {
                    "aircraft.yaml": [("\nflight:", f"{DETOUR}\nflight:")],
                    "harness.yaml": [(old, new)],
                }
            )
        )

    return checked


def lead(checked: Checked, name: str) -> Lead:
    assert checked.harness is not None, checked.findings
    return next(lead for lead in checked.harness.leads() if lead.name == name)


def test_a_circuit_takes_the_shorter_way(wren_with_detour: Callable[..., Checked]) -> None:
    route = lead(wren_with_detour("channel: 4", "channel: 4"), "rudder A").route
    assert (route.places, route.length_mm) == (("radio-tray", "tail-post"), 1140)


def test_by_forces_the_way(wren_with_detour: Callable[..., Checked]) -> None:
    route = lead(wren_with_detour("channel: 4", "by: [left-root]"), "rudder A").route
    # 235 + 1200
    assert (route.places, route.length_mm) == (("radio-tray", "left-root", "tail-post"), 1435)


def test_by_forces_the_way_of_a_circuit_that_plugs_straight_in(
    wren_with_detour: Callable[..., Checked],
) -> None:
    straight = "    lead: servo-22\n    loop: 80 mm\n    channel: 4"
    route = lead(wren_with_detour(straight, "    by: [left-root]"), "rudder A").route
    assert route.places == ("radio-tray", "left-root", "tail-post")


@pytest.mark.parametrize("by", ["left-aileron", "left-panel-root, radio-tray"])
def test_by_can_name_no_place_that_the_way_does_not_pass(wren_with_detour: Callable[..., Checked], by: str) -> None:
    checked = wren_with_detour("channel: 4", f"by: [{by}]")
    assert [finding.name for finding in checked.findings] == ["route"]


def test_by_forces_each_segment_in_its_own_assembly(aircraft_folder: Callable[..., Path]) -> None:
    runs = """
  - {between: [left-panel-root, left-tip], length: 1000 mm}
  - {between: [left-tip, left-aileron], length: 400 mm}

flight:"""
    tip = "places:\n  left-tip: {assembly: left-panel, access: tip off}"
    folder = aircraft_folder(
        {
            "aircraft.yaml": [("places:", tip), ("\nflight:", runs)],
            "harness.yaml": [("    lead: servo-22\n    loop: 80 mm   ", "    by: [LEFT]\n    lead: servo-22\n    ")],
        }
    )
    text = (folder / "harness.yaml").read_text("utf-8")
    by = "{left: [radio-tray, left-tip], right: [right-panel-root]}"
    (folder / "harness.yaml").write_text(text.replace("[LEFT]", by), "utf-8")
    checked = check(folder)
    assert lead(checked, "left-aileron A").route.length_mm == 235
    assert lead(checked, "left-aileron B").route.length_mm == 1400  # 1000 + 400
    assert lead(checked, "right-aileron B").route.length_mm == 745


def without_the_tail_run(instead: str = "") -> tuple[str, str]:
    return "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n", instead


def test_a_missing_run_is_found_at_the_circuit(aircraft_folder: Callable[..., Path]) -> None:
    fin = ("places:\n", "places:\n  fin: {assembly: fuselage, access: tail hatch}\n")
    elsewhere = without_the_tail_run("  - {between: [tail-post, fin], length: 100 mm}\n")
    checked = check(aircraft_folder({"aircraft.yaml": [fin, elsewhere]}))
    assert [(finding.name, finding.subject) for finding in checked.findings] == [("route", ("circuits", "rudder"))]


def test_a_place_to_which_no_run_leads_yet_is_not_measured(aircraft_folder: Callable[..., Path]) -> None:
    checked = check(aircraft_folder({"aircraft.yaml": [without_the_tail_run()]}))
    assert [(finding.name, finding.subject) for finding in checked.findings] == [("unmeasured", ("circuits", "rudder"))]
    assert lead(checked, "rudder A").route == Route(("radio-tray", "tail-post"), (), None)
    assert lead(checked, "rudder A").length_mm is None
