"""In which order things are switched: after what feeds them, engines after the radio, off safe at each step."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import networkx
import pytest
from armed import armed
from grown_supplies import Grown
from resolved import EXAMPLES, harness_of

from docgen.harness.model.switching import Act, Switching

if TYPE_CHECKING:
    from conftest import AircraftFolder


def switching_of(folder: Path) -> Switching:
    return harness_of(folder).results.switching


def feeding(grown: Grown) -> networkx.DiGraph:
    """Return what feeds what as the builder wrote it: circuits that carry a positive."""
    graph = networkx.DiGraph()
    graph.add_nodes_from(grown.equipment)
    for circuit in grown.circuits.values():
        lead = circuit["lead"]
        carries = not str(lead).startswith(("signal", "lone")) and "positive" not in circuit.get("omit", ())
        if carries and circuit["to"].split()[0] in grown.equipment:
            graph.add_edge(circuit["from"].split()[0], circuit["to"].split()[0])
    return graph


def places(acts: tuple[Act, ...]) -> dict[str, int]:
    return {name: number for number, act in enumerate(acts) for name in act.names}


def told_of(grown: Grown) -> Grown:
    """Have something written of all that may be switched."""
    for name, entry in grown.equipment.items():
        if entry["kind"] in ("battery", "power switch", "power unit", "light controller", "speed controller"):
            entry |= {"on": f"{name} on; lamp", "off": f"{name} off"}
    return grown


@pytest.mark.parametrize("seed", range(25))
def test_nothing_is_switched_before_its_feed_nor_an_engine_before_the_radio(seed: int, tmp_path: Path) -> None:
    grown = told_of(Grown(seed))
    switching, feeds = switching_of(grown.written(tmp_path)), feeding(grown)
    on, off = places(switching.on), places(switching.off)
    assert set(on) == set(off) == {name for name, entry in grown.equipment.items() if "on" in entry or name == "key"}
    above = {name: networkx.ancestors(feeds, name) for name in feeds}
    for name in on.keys() - {"key"}:
        assert all(on[source] <= on[name] and off[source] >= off[name] for source in above[name] & on.keys()), name
    radio = {
        name for name in on if any(feeds.has_node(r) and name in above[r] for r in feeds if r.startswith("receiver"))
    }
    drive = {name for name in on if name == "control" or name in above.get("control", ())} - radio
    assert all(on[one] < on[other] and off[one] > off[other] for one in radio for other in drive)
    # What drives is stopped before anything is off, and its supply is the first to go.
    if "control" in feeds:
        assert [act.names for act in switching.stop] == [("control",)]
        assert set(switching.off[0].names) <= drive
    if "key" in on:
        assert on["key"] == on["unit"]


def test_an_act_is_what_stands_before_the_first_semicolon_and_like_acts_are_one() -> None:
    switching = switching_of(EXAMPLES / "fulmar")
    assert [(act.names, act.how, act.shows) for act in switching.on] == [
        (("left-pack", "right-pack"), "plug it in with the key in", "its lamp on the power unit comes on"),
        (("power-unit", "key"), "pull the key out of the left sill", "both lamps steady"),
        (("service-pack",), "plug it in with the service switch off", ""),
        (("service-switch",), "hold its button for two seconds", "green lamp"),
        (("gear-unit",), "comes on with the service switch", "nothing moves until the gear switch has been moved once"),
        (
            ("left-fan-pack", "right-fan-pack"),
            "plug it in, aircraft held, intakes clear",
            "its speed controller sounds twice",
        ),
    ]
    stop = "throttle to its lowest, and lock it", "the fan stands still"
    assert [(act.names, act.how, act.shows) for act in switching.stop] == [
        (("left-fan-control", "right-fan-control"), *stop)
    ]
    assert [act.names[0] for act in switching.off] == [
        "right-fan-pack",
        "service-switch",
        "service-pack",
        "power-unit",
        "right-pack",
    ]
    assert switching.carried == ("key",)


BEC: dict[str, list[tuple[str, str]]] = {
    "harness.yaml": [
        (
            "  receiver:\n    kind",
            "  control:\n    kind: speed controller\n    place: radio-tray\n    output: {volts: 5.5 V}\n    ports:\n"
            "      - {plug: power-2, names: [PACK, OUT], contacts: pins}\n"
            "      - {plug: servo-3, names: [RX], contacts: pins}\n    fed_by: [PACK]\n  receiver:\n    kind",
        ),
        ("    to: receiver BATT\n", "    to: control PACK\n"),
        (
            "circuits:\n",
            "circuits:\n  bec: {from: control OUT, to: receiver BATT, lead: power-20}\n"
            "  throttle: {from: receiver 3, to: control RX, lead: servo-22,"
            " omit: [positive], channel: 3, failsafe: off}\n",
        ),
    ]
}


def test_a_pack_that_feeds_motor_and_radio_comes_on_first_and_is_known_to_drive(
    aircraft_folder: AircraftFolder,
) -> None:
    switching = switching_of(aircraft_folder(BEC))
    assert [(act.names, act.stage, act.drives) for act in switching.on] == [(("pack",), 0, True)]
    assert [act.names for act in switching.stop] == [("control",)]
    assert [(act.names, act.how) for act in switching.off] == [(("pack",), "unplug it")]


PUSHED = "key\n    on: push it in; two beeps\n    off: pull it out"


@pytest.mark.parametrize(
    ("kind", "acts"),
    [("key", [("", ""), ("", "")]), (PUSHED, [("push it in", "two beeps"), ("pull it out", "")])],
)
def test_a_key_between_pack_and_load_is_an_act_of_its_own_between_theirs(
    kind: str, acts: list[tuple[str, str]], tmp_path: Path
) -> None:
    switching = switching_of(armed(tmp_path / "gull", kind))
    held = "plug it in last of all, aircraft held, nobody near the propeller", "the controller sounds"
    on, off = ([(act.names, act.how, act.shows) for act in some] for some in (switching.on, switching.off))
    assert on[-2:] == [(("motor-pack",), *held), (("arming",), *acts[0])]
    assert off[:2] == [(("arming",), *acts[1]), (("motor-pack",), "unplug it first of all", "")]


def test_a_pack_that_says_nothing_before_a_key_has_its_act_as_without_one(tmp_path: Path) -> None:
    path = armed(tmp_path / "gull", PUSHED) / "harness.yaml"
    lines = path.read_text("utf-8").splitlines(keepends=True)
    path.write_text("".join(line for line in lines if "last of all" not in line and "first of" not in line), "utf-8")
    switching = switching_of(path.parent)
    assert [(act.names, act.how) for act in switching.on[-2:]] == [(("motor-pack",), ""), (("arming",), "push it in")]
    assert [(act.names, act.how) for act in switching.off[:2]] == [(("arming",), "pull it out"), (("motor-pack",), "")]
