"""Every supply followed back to its battery: what feeds nothing, what feeds itself."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import networkx
import pytest

from docgen.basics.findings import Finding
from docgen.basics.shipped import shipped_folder
from docgen.definition.equipment import Equipment
from docgen.definition.load import load_definition
from docgen.definition.model import Definition
from docgen.harness.wiring.feeds import Feed
from docgen.harness.wiring.supply import check_supplies
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.pipeline import check


@pytest.fixture(scope="module")
def wren() -> Definition:
    definition, _ = load_definition(shipped_folder("examples") / "wren", ACCEPTABLE)
    assert definition is not None
    return definition


def supplies(wren: Definition, feeds: Sequence[Feed], batteries: set[str]) -> list[Finding]:
    """Return what is found of feeds between equipment of which some are batteries."""
    names = {name for feed in feeds for name in (feed.source, feed.load)}
    equipment = {
        name: Equipment.model_construct(kind="battery" if name in batteries else "power switch", place="x")
        for name in names
    }
    return check_supplies(replace(wren, equipment=equipment), feeds)


def feed(source: str, load: str) -> Feed:
    return Feed(f"{source}-{load}", source, load, "")


def random_feeds(seed: int) -> list[Feed]:
    """Return feeds between up to ten pieces of equipment; where the seed is even, without a circle."""
    chance = random.Random(seed)
    names = [f"unit-{i}" for i in range(chance.randint(2, 10))]
    feeds = []
    for _ in range(chance.randint(1, 14)):
        one, other = sorted(chance.sample(range(len(names)), 2))
        if seed % 2 and chance.random() < 0.3:
            one, other = other, one
        feeds.append(feed(names[one], names[other]))
    return list(dict.fromkeys(feeds))


def graph_of(feeds: Sequence[Feed]) -> networkx.DiGraph:
    return networkx.DiGraph([(one.source, one.load) for one in feeds])


def has_circle(graph: networkx.DiGraph) -> bool:
    try:
        networkx.find_cycle(graph)
    except networkx.NetworkXNoCycle:
        return False
    return True


@pytest.mark.parametrize("seed", range(200))
def test_a_circle_is_found_where_a_graph_library_finds_one(wren: Definition, seed: int) -> None:
    feeds = random_feeds(seed)
    graph = graph_of(feeds)
    circles = [finding for finding in supplies(wren, feeds, {"unit-0"}) if finding.name == "circle"]
    assert bool(circles) == has_circle(graph)
    for finding in circles:
        loop = re.search(r": (.*)\.$", finding.sentence)
        assert loop is not None
        names = loop.group(1).split(" → ")
        assert names[0] == names[-1]
        assert networkx.is_simple_path(graph, names[:-1])
        assert graph.has_edge(names[-2], names[-1])


@pytest.mark.parametrize("seed", range(0, 200, 2))
def test_without_circles_unfed_is_what_has_no_battery_among_its_ancestors(wren: Definition, seed: int) -> None:
    feeds = random_feeds(seed)
    batteries = {"unit-0", "unit-1"}
    graph = graph_of(feeds)
    dead = {one.circuit for one in feeds if not batteries & (networkx.ancestors(graph, one.source) | {one.source})}
    found = {finding.subject[1] for finding in supplies(wren, feeds, batteries) if finding.name == "unfed"}
    # What hangs on an unfed circuit need not be said again.
    assert found <= dead
    assert found >= {one.circuit for one in feeds if one.circuit in dead and not graph.pred[one.source]}


def test_each_step_of_a_chain_from_a_battery_is_fed(wren: Definition) -> None:
    feeds = [feed("pack", "switch"), feed("switch", "unit"), feed("unit", "receiver")]
    assert supplies(wren, feeds, {"pack"}) == []


def test_a_chain_without_a_battery_is_unfed_where_it_begins(wren: Definition) -> None:
    found = supplies(wren, [feed("switch", "unit"), feed("unit", "receiver")], set())
    assert [(finding.name, finding.subject[1]) for finding in found] == [("unfed", "switch-unit")]


def test_two_supplies_of_one_unit_are_no_circle(wren: Definition) -> None:
    feeds = [feed("left-pack", "unit"), feed("right-pack", "unit"), feed("unit", "receiver")]
    assert supplies(wren, feeds, {"left-pack", "right-pack"}) == []


def test_a_circle_hides_no_unfed_circuit_elsewhere(wren: Definition) -> None:
    feeds = [feed("one", "other"), feed("other", "one"), feed("apart", "lamp")]
    assert [finding.name for finding in supplies(wren, feeds, set())] == ["circle", "unfed"]


def test_a_long_chain_is_followed_without_end(wren: Definition) -> None:
    feeds = [feed(f"unit-{i}", f"unit-{i + 1}") for i in range(5000)]
    assert supplies(wren, feeds, {"unit-0"}) == []


# In whole definitions: two receivers on one bench, joined both ways; a pack feeds the first.

AIRCRAFT = """
aircraft: {name: A, description: B, marks: C, revision: A, date: 2026-01-01}
places: {bench: {assembly: fuselage, access: canopy, across: 0 mm}}
"""
TWO_RECEIVERS = """
equipment:
  pack:
    {kind: battery, place: bench, lead: 90 mm, lead_wire: pvc-20, plug: power-2, battery: CELLS, on: plug it in}
  first:
    kind: receiver
    place: bench
    fed_by: FED_BY
    ports:
      - {plug: servo-3, names: [1, DATA], contacts: pins}
      - {plug: power-2, names: [BATT], contacts: pins}
  second: {kind: receiver, place: bench, ports: {plug: servo-3, names: [1, DATA], contacts: pins}}
circuits:
  supply: {from: pack, to: first BATT, lead: power-20}
  there: {from: first 1, to: second DATA, lead: servo-22, omit: THERE}
  back: {from: second 1, to: first DATA, lead: servo-22, omit: BACK}
"""
CELLS = "{cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}"


@pytest.fixture
def found_in(aircraft_folder: Callable[..., Path]) -> Callable[..., list[tuple[str, str]]]:
    """Return name and circuit of what is found between the two receivers."""

    def found(there: str = "[]", back: str = "[]", fed_by: str = "[BATT, DATA]") -> list[tuple[str, str]]:
        text = TWO_RECEIVERS.replace("THERE", there).replace("BACK", back)
        text = text.replace("FED_BY", fed_by).replace("CELLS", CELLS)
        texts = {"aircraft.yaml": AIRCRAFT, "harness.yaml": text, "stores.yaml": None}
        findings = check(aircraft_folder(texts)).findings
        return [(finding.name, finding.subject[1]) for finding in findings]

    return found


def test_two_receivers_that_feed_each_other_are_a_circle(found_in: Callable[..., object]) -> None:
    assert found_in() in ([("circle", "there")], [("circle", "back")])


def test_leaving_the_positive_out_of_one_lead_breaks_the_circle(found_in: Callable[..., object]) -> None:
    assert found_in(back="[positive]") == []


def test_leaving_the_positive_out_of_the_wrong_lead_leaves_the_other_unfed(
    found_in: Callable[..., object],
) -> None:
    assert found_in(there="[positive]") == [("unfed", "back")]


def test_naming_the_port_that_feeds_breaks_the_circle(found_in: Callable[..., object]) -> None:
    assert found_in(fed_by="[BATT]") == []


def test_a_signal_needs_no_supply(found_in: Callable[..., object]) -> None:
    assert found_in(there="[positive]", back="[positive]") == []


@pytest.mark.parametrize(
    ("lead", "names"),
    [
        ("{one: pvc-22 YE, other: pvc-22 BU}, reverses: yes", ["unfed"]),
        ("{feed: pvc-22 YE, return: pvc-22 BU}, supplies: yes", ["unfed"]),
        ("{negative: pvc-22 BK, positive: pvc-22 RD}", ["unfed"]),
        ("{negative: pvc-22 BK, data: pvc-22 WH}", []),
    ],
    ids=["reverses", "supplies", "positive", "data"],
)
def test_a_lead_that_carries_a_load_s_current_needs_a_supply(
    aircraft_folder: Callable[..., Path], lead: str, names: list[str]
) -> None:
    first, second = re.findall(r"(\w+): pvc", lead)
    contact = "contact: {rating: 3 A, resistance: 10 mohm}"
    plug = f"{{contacts: {{1: {first}, 2: {second}}}, equipment: sockets, size: [6 mm, 3 mm], {contact}}}"
    harness = """
equipment:
  controller: {kind: other, place: bench, plug: pair, lead: 100 mm}
  motor: {kind: motor, place: bench, plug: pair, lead: 100 mm}
circuits:
  motor: {from: controller, to: motor, lead: pair}
"""
    parts = f"leads:\n  pair: {{wires: {lead}}}\nplugs:\n  pair: {plug}\n"
    texts = {"aircraft.yaml": AIRCRAFT, "harness.yaml": harness, "parts.yaml": parts, "stores.yaml": None}
    assert [finding.name for finding in check(aircraft_folder(texts)).findings] == names
