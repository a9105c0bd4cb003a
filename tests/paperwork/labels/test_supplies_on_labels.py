"""Labels of leads that feed a receiver or a unit say which packs are behind them."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from printed_labels import FULMAR, Run, each, said_on

from docgen.paperwork.labels import content as wire_labels
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder
    from measured import PrintedPage


@pytest.mark.parametrize(("stock", "times"), [("flags-a4", 2), ("wraps-a4", 1), ("carrier-a4", 1)])
def test_both_ends_of_a_lead_that_feeds_a_receiver_or_a_unit_say_which_supply(
    labels: Callable[..., list[PrintedPage]], stock: str, times: int
) -> None:
    words = ["left-pack", "receiver-a-data", "receiver-a-supply", "receiver-b-data"]
    said = said_on(labels(FULMAR, *(word for name in words for word in ("--only", name)), "--stock", stock))
    # Two ends of four leads have the left pack behind them, all but the first the right one too; flags say all twice.
    assert len(re.findall(r"\bleft-pack\b", said)) == 8 * times
    assert len(re.findall(r"\bright-pack\b", said)) == 6 * times


@pytest.mark.parametrize(("mode", "ends"), [("lead", 2), ("wire", 2 * 2)])
def test_the_supply_is_never_taken_for_the_far_end(
    labels: Callable[..., list[PrintedPage]], aircraft_folder: AircraftFolder, mode: str, ends: int
) -> None:
    # A unit between pack and receiver, so that no end of the lead to the receiver is at the pack; it has two wires,
    # long enough for labels at both ends.
    unit = "  unit: {kind: power unit, place: radio-tray, ports: [{plug: power-2, names: [IN, OUT], contacts: pins}]}\n"
    feed = "  feed: {from: unit OUT, to: receiver BATT, lead: power-20, lengths: {A: 200 mm}}\n"
    harness = [("equipment:\n", f"equipment:\n{unit}"), ("to: receiver BATT", "to: unit IN")]
    folder = aircraft_folder({"harness.yaml": [*harness, ("circuits:\n", f"circuits:\n{feed}")]})
    pages = labels(each(folder, f"{mode}, least_type: 1 mm"), "--only", "feed", "--stock", "flags-a4")
    said = said_on(pages).replace("\n", " ")
    assert said.count("from pack") == len(re.findall(r"\bpack\b", said)) == 2 * ends  # flags say all twice


# In each panel a receiver that a pack of its own feeds over commons of the joint, and an engine unit that the radio's
# receiver commands and the same commons feed.
UNITS = """  <side>-wing-pack:
    {kind: battery, place: radio-tray, lead: 120 mm, lead_wire: pvc-20, plug: power-2,
     battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}}
  <side>-far-receiver:
    {kind: receiver, place: <side>-aileron, ports: [{plug: power-2, names: [BATT], contacts: pins}]}
  <side>-engine: {kind: engine unit, place: <side>-aileron, lead: 250 mm, plug: servo-3}
"""
FED_OVER_COMMONS = """  <side>-feed:
    {label: FEED, from: <side>-wing-pack, to: <side>-root far-positive far-negative, lead: power-20}
  <side>-far-receiver: {label: FAR, from: <side>-root far-positive far-negative, to: <side>-far-receiver BATT,
    lead: power-20}
  <side>-engine:
    label: ENG
    from: {left: receiver 5, right: receiver 6}
    to: <side>-engine
    through: [<side>-root]
    lead: {A: signal-only, B: servo-22}
"""
COMMONS = """    shell: block-8
    commons:
      far-positive: {role: positive, contacts: [5], circuits: [<side>-engine]}
      far-negative: {role: negative, contacts: [6], circuits: [<side>-engine]}
"""


def test_a_lead_behind_commons_says_the_supply_that_comes_over_them(aircraft_folder: AircraftFolder) -> None:
    harness = [("equipment:\n", f"equipment:\n{UNITS}"), ("circuits:\n", f"circuits:\n{FED_OVER_COMMONS}")]
    harness += [("names: 1..4", "names: 1..6"), ("    shell: block-6\n", COMMONS)]
    parts = "leads: {signal-only: {wires: {signal: pvc-24 WH}}}\n"
    built = check(aircraft_folder({"harness.yaml": harness, "parts.yaml": parts})).harness
    assert built is not None
    said = {label.key: label.text.supply for label in wire_labels.content(built).labels}
    for side in ("left", "right"):
        feeding = [(f"{side}-feed", "A"), (f"{side}-far-receiver", "A"), (f"{side}-engine", "B")]
        for key in ((*lead, end) for lead in feeding for end in ("from", "to")):
            supply = said[key]
            assert supply is not None, key
            assert supply == f"{side}-wing-pack"
        # Signal alone passes the fuselage, and servos are no units.
        assert said[f"{side}-engine", "A", "from"] is None
        assert said[f"{side}-aileron", "A", "from"] is None


def test_a_lead_says_only_the_packs_behind_itself(aircraft_folder: AircraftFolder) -> None:
    # A second pack straight to the receiver makes both one supply; each lead brings that of its own pack.
    second = "  second: {kind: battery, place: radio-tray, lead: 120 mm, lead_wire: pvc-20, plug: power-2,\n    "
    second += "battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}}\n"
    unit = "  unit: {kind: power unit, place: radio-tray, ports: [{plug: power-2, names: [IN, OUT], contacts: pins}]}\n"
    circuits = "  one: {from: second, to: unit IN, lead: power-20}\n"
    circuits += "  two: {from: unit OUT, to: receiver AUX, lead: power-20}\n"
    harness = [("equipment:\n", f"equipment:\n{second}{unit}"), ("circuits:\n", f"circuits:\n{circuits}")]
    built = check(aircraft_folder({"harness.yaml": [*harness, ("names: [BATT]", "names: [BATT, AUX]")]})).harness
    assert built is not None
    supplies = {(label.key[0], label.text.supply) for label in wire_labels.content(built).labels}
    said = {circuit: supply for circuit, supply in supplies if supply is not None}
    assert said == {"supply": "pack", "one": "second", "two": "second"}


def test_the_supply_is_said_or_missed_where_the_far_end_is_left_out(run: Run, aircraft_folder: AircraftFolder) -> None:
    name = "pack-below-the-nose-hatch"
    changes = [("  pack:\n", f"  {name}:\n"), ("from: pack\n", f"from: {name}\n")]
    ran = run("print", aircraft_folder({"harness.yaml": changes}), "wire-labels", "--only", "supply")
    assert f"the label `RX BATT` at receiver BATT has no room to say its supply, `{name}`." in ran.stderr
