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
from docgen.definition.harness import Equipment
from docgen.definition.load import load_definition
from docgen.definition.model import Definition
from docgen.harness.supply import Feed, check_supplies
from docgen.pipeline import check


@pytest.fixture(scope="module")
def wren() -> Definition:
    definition, _ = load_definition(shipped_folder("examples") / "wren")
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
def test_without_circles_unfed_is_what_has_no_battery_among_its_ancestors(
    wren: Definition, seed: int
) -> None:
    feeds = random_feeds(seed)
    batteries = {"unit-0", "unit-1"}
    graph = graph_of(feeds)
    dead = {
        one.circuit for one in feeds if not batteries & (networkx.ancestors(graph, one.source) | {one.source})
    }
    found = {finding.subject[1] for finding in supplies(wren, feeds, batteries) if finding.name == "unfed"}
    # What hangs on an unfed circuit need not be said again, but a circuit with a battery never is.
    assert found >= {one.circuit for one in feeds if one.circuit in dead and not graph.pred[one.source]}
    assert bool(found) >= bool(dead)


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


# In whole definitions: a second receiver on the first one's port.

SECOND_RECEIVER = """
  second:
    kind: receiver
    place: radio-tray
    FED_BY
    ports:
      - {plug: servo-3, names: [1, DATA], contacts: pins}

# Where the harness comes apart"""
THERE_AND_BACK = """
  there:
    from: receiver 3
    to: second DATA
    lead: servo-22
    OMIT_THERE
  back:
    from: second 1
    to: receiver 2
    lead: servo-22
    OMIT_BACK
"""
RIGHT_AILERON = ("from: {left: receiver 1, right: receiver 2}", "from: {left: receiver 1, right: receiver 4}")
RUDDER = "  rudder:\n    label: RUD\n    from: receiver 4\n    to: rudder\n    lead: servo-22\n"


@pytest.fixture
def names_found(aircraft_folder: Callable[..., Path]) -> Callable[..., set[str]]:
    """Return the names of what is found where two receivers are joined both ways."""

    def names(there: str = "", back: str = "", fed_by: str = "", first_fed_by: str = "") -> set[str]:
        circuits = THERE_AND_BACK.replace("OMIT_THERE", there).replace("OMIT_BACK", back)
        kind = "    kind: receiver\n    place: radio-tray\n"
        changes = [
            ("\n# Where the harness comes apart", SECOND_RECEIVER.replace("FED_BY", fed_by)),
            (kind, kind + first_fed_by),
            RIGHT_AILERON,
            (RUDDER + "    loop: 80 mm\n    channel: 4\n    throw: 40 mm each way\n", circuits),
        ]
        return {finding.name for finding in check(aircraft_folder({"harness.yaml": changes})).findings}

    return names


def test_two_receivers_that_feed_each_other_are_a_circle(names_found: Callable[..., set[str]]) -> None:
    assert "circle" in names_found()


@pytest.mark.parametrize("which", ["there", "back"])
def test_leaving_the_positive_out_breaks_the_circle(names_found: Callable[..., set[str]], which: str) -> None:
    names = names_found(**{which: "omit: [positive]"})
    assert "circle" not in names


def test_only_what_is_left_without_a_battery_is_unfed(names_found: Callable[..., set[str]]) -> None:
    assert "unfed" in names_found(there="omit: [positive]")
    assert "unfed" not in names_found(back="omit: [positive]")


def test_naming_the_port_that_feeds_breaks_the_circle(names_found: Callable[..., set[str]]) -> None:
    assert not {"circle", "unfed"} & names_found(first_fed_by="    fed_by: [BATT]\n")


def test_a_signal_needs_no_supply(aircraft_folder: Callable[..., Path]) -> None:
    supply = "  supply:\n    label: RX BATT\n    from: pack\n    to: receiver BATT\n    lead: power-20\n"
    text = [(supply, ""), ("circuits:\n", "circuits:\n")]
    names = {f.name for f in check(aircraft_folder({"harness.yaml": text})).findings}
    assert "unfed" in names
    omitted = [(supply, ""), ("    channel: {left: 1, right: 2}", "    omit: [positive]")]
    omitted += [("    channel: 4\n", "    omit: [positive]\n")]
    names = {f.name for f in check(aircraft_folder({"harness.yaml": omitted})).findings}
    assert "unfed" not in names


@pytest.mark.parametrize(
    ("wires", "unfed"),
    [
        ("{one: pvc-22 YE, other: pvc-22 BU}, reverses: yes", True),
        ("{feed: pvc-22 YE, return: pvc-22 BU}, supplies: yes", True),
        ("{negative: pvc-22 BK, data: pvc-22 WH}", False),
    ],
    ids=["reverses", "supplies", "data"],
)
def test_a_pair_that_carries_a_load_s_current_needs_a_supply(
    aircraft_folder: Callable[..., Path], wires: str, unfed: bool
) -> None:
    roles = re.findall(r"(\w+): pvc", wires)
    plug = f"pair: {{contacts: {{1: {roles[0]}, 2: {roles[1]}}}, equipment: sockets, size: [6 mm, 3 mm], CONTACT}}"
    plug = plug.replace("CONTACT", "contact: {rating: 3 A, resistance: 10 mohm}")
    parts = f"leads:\n  pair: {{wires: {wires}}}\nplugs:\n  {plug}\n"
    aircraft = "places:\n  bench: {assembly: fuselage, access: canopy}\n"
    harness = """
equipment:
  controller: {kind: other, place: bench, plug: pair, lead: 100 mm}
  motor: {kind: motor, place: bench, plug: pair, lead: 100 mm}
circuits:
  motor: {from: controller, to: motor, lead: pair}
"""
    head = "aircraft: {name: A, description: B, marks: C, revision: A, date: 2026-01-01}\n"
    folder = aircraft_folder(
        {"aircraft.yaml": head + aircraft, "harness.yaml": harness, "parts.yaml": parts, "stores.yaml": None}
    )
    assert ["unfed"] * unfed == [finding.name for finding in check(folder).findings]
