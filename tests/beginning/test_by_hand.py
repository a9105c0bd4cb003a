"""What is begun against what a builder would type for the same answers: every entry, comment and run."""

from __future__ import annotations

import re
from typing import Any

import pytest
import yaml
from beginning.airframe_by_hand import JOINTS, TAIL_JOINT, joints_to, places, runs
from beginning.answer_sets import ANSWERS, Said, as_words, servos, sets_of_all_pairs
from beginning.begun import answers_to
from beginning.by_hand import Entries, Typed

from docgen.beginning import joints
from docgen.beginning.begin import begin

# All servos in a tail that plugs in, of a radio with two packs: one, two, three servos, and one that is elsewhere.
IN_THE_TAIL: Said = {name: words[0] for name, words in ANSWERS.items()} | {
    "plug-in": "1",
    "drive": "none",
    "packs": "two-packs",
    "power-unit": "1",
    "receivers": "two",
}
SETS = [
    *sets_of_all_pairs(),
    IN_THE_TAIL,
    IN_THE_TAIL | {"rudder": "1"},
    IN_THE_TAIL | {"rudder": "1", "packs": "one-pack", "receivers": "one"},
    IN_THE_TAIL | {"tail": "two-elevators", "rudder": "1"},
    IN_THE_TAIL | {"tail": "v-tail", "gear": "fixed", "steering": "1"},
]


Begun = list[tuple[Typed, dict[str, Any], dict[str, Any]]]
Texts = list[tuple[Typed, str, str]]


@pytest.fixture(scope="module")
def texts() -> Texts:
    """Return each aircraft as typed by hand, with the text of both files."""
    found = []
    for said in SETS:
        begun = begin("gull", answers_to(**as_words(said)))
        found.append((Typed(said), begun["aircraft.yaml"], begun["harness.yaml"]))
    return found


@pytest.fixture(scope="module")
def begun(texts: Texts) -> Begun:
    """Return the same with both files as a reader of YAML in general takes them."""
    return [
        (typed, *(yaml.load(text, getattr(yaml, "CBaseLoader", yaml.BaseLoader)) for text in both))
        for typed, *both in texts
    ]


def without(entries: Entries, *keys: str) -> list[tuple[str, dict[str, Any]]]:
    return [(name, {key: value for key, value in entry.items() if key not in keys}) for name, entry in entries.items()]


def test_equipment_is_what_a_builder_would_type_and_in_that_order(begun: Begun) -> None:
    for typed, _, harness in begun:
        expected = {**typed.feed, **typed.equipment}
        for name, entry in expected.items():
            assert harness["equipment"].get(name) == entry, (name, typed.said)
        assert list(harness["equipment"]) == list(expected), typed.said


def test_circuits_are_what_a_builder_would_type_and_in_that_order(begun: Begun) -> None:
    for typed, _, harness in begun:
        expected = {**typed.feed_circuits, **typed.circuits}
        assert without(harness["circuits"], "through") == list(expected.items()), typed.said


def test_places_have_their_assembly_and_the_way_for_the_hand(begun: Begun) -> None:
    for typed, frame, _ in begun:
        found = {name: (place["assembly"], place["access"]) for name, place in frame["places"].items()}
        assert found == places(typed), typed.said


def test_places_stand_by_assembly_from_the_fuselage_on(begun: Begun) -> None:
    for typed, frame, _ in begun:
        assemblies = list(dict.fromkeys(place["assembly"] for place in frame["places"].values()))
        order = ["fuselage", "centre", "wing", "<side>-panel", "tail"]
        assert assemblies == sorted(assemblies, key=order.index)
        assert list(frame["places"]) == sorted(
            frame["places"], key=lambda name: order.index(frame["places"][name]["assembly"])
        ), typed.said


def test_runs_lead_from_the_radio_on_outwards(begun: Begun) -> None:
    for typed, frame, _ in begun:
        found = [(*run["between"], run.get("edges") == "sharp") for run in frame["runs"]]
        assert found == runs(typed), typed.said


def bare(joint: str) -> str:
    """Return the name of a joint without side and letter."""
    return re.sub(r"^<side>-|-[a-z]$", "", joint)


def test_each_circuit_passes_the_joints_on_its_way_in_their_order(begun: Begun) -> None:
    for typed, _, harness in begun:
        place = {name: entry["place"] for name, entry in harness["equipment"].items()}
        for name, circuit in harness["circuits"].items():
            goal = circuit["to"].split()[0]
            start = circuit["from"] if isinstance(circuit["from"], str) else circuit["from"]["left"]
            within = joints_to(place[start.split()[0]], typed.said)  # a motor and what controls it, a leg and its wheel
            expected = [] if within else joints_to(place[goal], typed.said)
            assert [bare(joint) for joint in circuit.get("through", [])] == expected, (name, typed.said)


def test_joints_have_their_halves_where_assemblies_meet(begun: Begun) -> None:
    """Sockets on the side that supply comes from, so that nothing bare is live."""
    for typed, _, harness in begun:
        for name, joint in harness.get("disconnects", {}).items():
            fixed, _, loose, *_ = {**JOINTS[typed.said["wing"]], "tail": TAIL_JOINT}[bare(name)]
            assert joint["fixed"] == {"place": fixed, "contacts": "sockets"}, typed.said
            assert joint["loose"] == {"place": loose, "contacts": "pins"}, typed.said


def test_joints_of_one_shell_are_lettered_from_a_on(begun: Begun) -> None:
    for typed, _, harness in begun:
        joints = harness.get("disconnects", {})
        for shell in {joint["shell"] for joint in joints.values()}:
            alike = {name: joint for name, joint in joints.items() if joint["shell"] == shell}
            letters = [letter for name, joint in alike.items() for letter in keyed(name, joint)]
            alone = len(alike) == 1 and "<side>" not in next(iter(alike))
            expected = [] if alone else list("ABCDEFGHIJKLMNOP"[: len(letters)])
            assert letters == expected, typed.said
            assert alone or len(letters) == sum(1 + ("<side>" in name) for name in alike)


def keyed(name: str, joint: dict[str, Any]) -> list[str]:
    if "<side>" in name:
        return [joint["keyed"]["left"], joint["keyed"]["right"]]
    return [joint["keyed"]] if "keyed" in joint else []


def test_one_joint_that_carries_every_servo_of_a_radio_with_two_packs_says_why(texts: Texts, begun: Begun) -> None:
    accept = {"one-loss": "all servos are in the tail, and that comes off as one"}
    for (typed, _, text), (_, _, harness) in zip(texts, begun, strict=True):
        kept_apart = typed.said["packs"] == "two-packs" and servos(typed.said) > 1
        all_servos = {name for name, entry in typed.equipment.items() if entry["kind"] == "servo"}
        expected = {}
        for name in harness.get("disconnects", {}):
            through = {each for each, circuit in harness["circuits"].items() if name in circuit.get("through", [])}
            expected[name] = accept if kept_apart and all_servos <= through else None
        assert {name: joint.get("accept") for name, joint in harness.get("disconnects", {}).items()} == expected
        beside, _ = commented(text, "disconnects")
        said = {(name, "accept"): "or share them out over two" for name, accepted in expected.items() if accepted}
        assert beside == said, typed.said


def test_what_passes_one_place_is_shared_out_over_no_more_joints_than_it_needs(begun: Begun) -> None:
    """A joint takes what its largest shell holds less two contacts: 12 of a block of 14, 23 of a D of 25."""
    for typed, _, harness in begun:
        most = {"block": 12, "d-shell": 23}[typed.said["shells"]]
        wires = {"servo-22": 3, "motor-22": 2, "brake-24": 2, "light-24": 2, "signal-24": 2, "power-20": 2}
        passing: dict[str, dict[str, int]] = {}
        for name, circuit in harness["circuits"].items():
            for joint in circuit.get("through", []):
                passing.setdefault(bare(joint), {})[name] = wires[circuit["lead"]]
        for base, circuits in passing.items():
            of_sides = base == "panel" or (base == "wing" and typed.said["wing"] == "two-panels")
            both = sum(count * (1 + (not of_sides and "<side>" in name)) for name, count in circuits.items())
            each = both > most and all("<side>" in name for name in circuits)
            found = [name for name in harness["disconnects"] if bare(name) == base]
            assert {"<side>" in name for name in found} == {of_sides or each}, (base, typed.said)
            total = sum(circuits.values()) if each else both
            assert len(found) == -(-total // most), (base, typed.said)


# Comments

BESIDE_CURRENT = "typical, put yours"
BESIDE = {
    ("speed controller", "current"): "typical, put yours; stall is full throttle, held on the ground",
    ("battery", "battery"): "typical, put yours",
    ("motor", "lead_wire"): "as heavy as its current asks for",
    ("gear controller", "drives"): "which signal works which outlets",
    ("gear leg", "gear"): "what its unit is set to; time the strokes first, then add up: and down:",
    ("power unit", "isolates"): "it keeps its packs apart, if its maker says so",
    ("power unit", "accept"): "if that is not so in yours, delete this line",
    ("key", "out"): "a key that shakes out, or a broken lead, leaves the radio on",
}


def commented(text: str, section: str) -> tuple[dict[tuple[str, str], str], dict[str, str]]:
    """Return what stands beside each key of each entry of a section, and above each entry."""
    beside: dict[tuple[str, str], str] = {}
    above: dict[str, str] = {}
    name, waiting = "", []
    for line in text.partition(f"\n{section}:\n")[2].split("\n\n")[0].splitlines():
        if line.startswith("  # "):
            waiting.append(line[4:])
        elif entry := re.fullmatch(r"  (\S+):", line):
            name = entry[1]
            above |= {name: " ".join(waiting)} if waiting else {}
            waiting = []
        elif remark := re.fullmatch(r"    (\w+):(?: .*?)?  # (.*)", line):
            beside[name, remark[1]] = remark[2]
    return beside, above


def expected_beside(typed: Typed) -> dict[tuple[str, str], str]:
    every = {**typed.feed, **typed.equipment}
    return {
        (name, key): BESIDE.get((entry["kind"], key), BESIDE_CURRENT)
        for name, entry in every.items()
        for key in entry
        if key == "current" or (entry["kind"], key) in BESIDE
        if not (key == "lead_wire" and entry["kind"] != "motor")
    }


def test_beside_what_is_typical_or_easily_missed_a_comment_says_so(texts: Texts) -> None:
    for typed, _, harness in texts:
        beside, _ = commented(harness, "equipment")
        assert beside == expected_beside(typed), typed.said


# What is said above an entry instead of its concern's title, or beside that: of two alike above the first.
ABOVE = {
    "motor-pack": "Motor: pack, controller and motor plug together with their own leads.",
    "engine-pack": "Turbine: its maker's instructions come first. Pump, valves and igniter come with its unit and plug "
    "into that; add those whose leads you make.",
    "ignition-pack": "Piston engine: the ignition with what the radio turns it off by, as one unit, and a pack and a "
    "switch of its own. Keep it and its leads away from receivers and antennas.",
    "service-pack": "Gear, brakes, lights and smoke have a pack of their own, so that none of them takes the radio "
    "with it.",
}
THROTTLE = "Throttle one way, supply of the radio the other: `from` is where the supply comes from."


def test_each_concern_has_its_title_above_its_first_entry_or_what_must_be_said_of_that(texts: Texts) -> None:
    for typed, _, text in texts:
        first_receiver, *_ = typed.feed
        expected = {first_receiver: "Receivers and what feeds them.", **typed.heads[0]}
        for kind, says in ABOVE.items():
            alike = [name for name in typed.equipment if re.sub("<side>-|inner-|outer-", "", name) == kind]
            expected |= dict.fromkeys(alike[:1], says)
        assert commented(text, "equipment")[1] == expected, typed.said
        expected = dict.fromkeys(list(typed.feed_circuits)[:1], "Supply of the radio.") | typed.heads[1]
        expected |= {"throttle": THROTTLE} if typed.own else {}
        assert commented(text, "circuits")[1] == expected, typed.said


def test_what_a_turbine_or_a_lead_without_a_red_wire_asks_for_is_said_only_where_there_is_one(texts: Texts) -> None:
    for typed, *both in texts:
        frame, harness = (" ".join(re.sub(r"(?m)^# ", "", text).split()) for text in both)
        kinds = {entry["kind"] for entry in typed.equipment.values()}
        hot = "Near an exhaust or a turbine's pipe say `heat: 95 °C`: wire and sleeve are held to that."
        assert (hot in frame) == ("engine unit" in kinds), typed.said
        leads = {circuit.get("lead") for part in (typed.circuits, typed.feed_circuits) for circuit in part.values()}
        no_red = (
            "`signal-24` has no red wire, as what it goes to has a supply of its own; where the receiver is to feed "
        )
        assert (f"{no_red}it, write `servo-22`." in harness) == ("signal-24" in leads), typed.said


@pytest.mark.parametrize(
    ("counts", "most", "joints_"),
    [([3, 3, 3, 3], 12, 1), ([3, 3, 3, 3, 2], 12, 2), ([3] * 6 + [2] * 3, 12, 3), ([3, 2, 2], 12, 1), ([3] * 8, 12, 2)],
)
def test_circuits_are_shared_out_each_to_the_emptiest_joint_and_none_is_overfilled(
    counts: list[int], most: int, joints_: int
) -> None:
    """24 contacts fit into two of 12, but not where each circuit goes to the emptier: then there is one more."""
    circuits = [(f"c{number}", count) for number, count in enumerate(counts)]
    loads = joints._shared_out(circuits, most)
    assert len(loads) == joints_
    assert sorted(circuit for load in loads for circuit in load) == sorted(circuits)
    assert max(sum(count for _, count in load) for load in loads) <= most
