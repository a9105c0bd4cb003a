"""Two whole aircraft against what a builder would write by hand: a sailplane and a jet."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from beginning.begun import as_typed, definition_in, written
from click.testing import CliRunner

from docgen.basics.findings import Level
from docgen.cli import docgen
from docgen.definition.model import Definition
from docgen.pipeline import check

# A 2.6 m scale sailplane: flaps, V-tail that plugs in, one receiver pack through a switch, no motor.
SAILPLANE = {"surfaces": "ailerons,flaps", "tail": "v-tail,plug-in", "drive": "none"}
# From, to, joints on the way, lead.
SAILPLANE_CIRCUITS = """
pack-supply: pack > switch IN, power-20
supply: switch OUT > receiver BATT, power-20
left-aileron: receiver 1 > left-aileron, servo-22, left-wing
right-aileron: receiver 2 > right-aileron, servo-22, right-wing
left-v-tail: receiver 3 > left-v-tail, servo-22, tail
right-v-tail: receiver 4 > right-v-tail, servo-22, tail
left-flap: receiver 5 > left-flap, servo-22, left-wing
right-flap: receiver 6 > right-flap, servo-22, right-wing
"""
# Two servos are 6 contacts, and two to spare: 8.
SAILPLANE_SHELLS = {"left-wing": "block-8", "right-wing": "block-8", "tail": "block-8"}

# A 2 m turbine jet: three retracts with doors, brakes and steering, two receivers on a power unit, a key, smoke.
JET = {
    "surfaces": "ailerons,flaps",
    "tail": "two-elevators,rudder",
    "gear": "three-retracts,doors,brakes,steering",
    "drive": "turbine",
    "receivers": "two",
    "packs": "two-packs,power-unit",
    "switch": "key",
    "extras": "smoke",
}
JET_CIRCUITS = """
pack-a-supply: pack-a > power-unit PACK-A, power-16
pack-b-supply: pack-b > power-unit PACK-B, power-16
receiver-a-data: power-unit RX-A > receiver-a DATA, servo-22
receiver-b-data: power-unit RX-B > receiver-b DATA, servo-22
key: power-unit KEY > key, signal-24
left-aileron: power-unit 1 > left-aileron, servo-22, left-wing-a
right-aileron: power-unit 2 > right-aileron, servo-22, right-wing-a
left-elevator: power-unit 3 > left-elevator, servo-22
right-elevator: power-unit 4 > right-elevator, servo-22
rudder: power-unit 5 > rudder, servo-22
left-flap: power-unit 6 > left-flap, servo-22, left-wing-b
right-flap: power-unit 7 > right-flap, servo-22, right-wing-b
engine-supply: engine-pack > engine-unit BATT
throttle: power-unit 8 > engine-unit RX, signal-24
service-supply: service-pack > service-switch IN, power-16
steering: power-unit 9 > steering, servo-22
gear-supply: service-switch GEAR > gear-unit POWER, power-16
gear-signal: power-unit 10 > gear-unit GEAR, signal-24
nose-leg: gear-unit LEG-N > nose-leg, motor-22
nose-door: gear-unit DOOR-N > nose-door, servo-22
left-leg: gear-unit LEG-L > left-leg, motor-22, left-wing-a
right-leg: gear-unit LEG-R > right-leg, motor-22, right-wing-a
left-door: gear-unit DOOR-L > left-door, servo-22, left-wing-b
right-door: gear-unit DOOR-R > right-door, servo-22, right-wing-b
brake-signal: power-unit 11 > gear-unit BRAKE, signal-24
left-brake: gear-unit BRAKE-L > left-brake, brake-24, left-wing-a
right-brake: gear-unit BRAKE-R > right-brake, brake-24, right-wing-a
smoke-supply: service-switch SMOKE > smoke-pump POWER, power-20
smoke-signal: power-unit 12 > smoke-pump RX, signal-24
"""
# 3 + 3 + 2 + 3 + 2 = 13 contacts are more than 14 less two to spare: two joints, of 7 and 6 contacts.
JET_SHELLS = {
    "left-wing-a": "block-10",
    "right-wing-a": "block-10",
    "left-wing-b": "block-8",
    "right-wing-b": "block-8",
}
JET_CHANNELS = {
    "left-aileron": (1, "hold"),
    "right-aileron": (2, "hold"),
    "left-elevator": (3, "hold"),
    "right-elevator": (4, "hold"),
    "rudder": (5, "hold"),
    "left-flap": (6, "hold"),
    "right-flap": (7, "hold"),
    "throttle": (8, "off"),
    "steering": (9, "centre"),
    "gear-signal": (10, "hold"),
    "brake-signal": (11, "off"),
    "smoke-signal": (12, "off"),
}


@pytest.fixture
def sailplane(tmp_path: Path) -> Path:
    return written(tmp_path / "sailplane", SAILPLANE)


@pytest.fixture
def jet(tmp_path: Path) -> Path:
    return written(tmp_path / "jet", JET)


def circuits_of(definition: Definition) -> list[str]:
    """Write circuits as they are written by hand above."""
    return [
        ", ".join(filter(None, (f"{name}: {said(form.start)} > {said(form.to)}", str(form.lead or ""), *form.through)))
        for name, form in definition.circuits.items()
    ]


def said(ends: tuple[tuple[str, ...], ...]) -> str:
    return " ".join(ends[0])


def test_the_circuits_of_a_sailplane_are_those_that_a_builder_would_write(sailplane: Path) -> None:
    assert circuits_of(definition_in(sailplane)) == SAILPLANE_CIRCUITS.strip().splitlines()


def test_the_circuits_of_a_jet_are_those_that_a_builder_would_write(jet: Path) -> None:
    assert circuits_of(definition_in(jet)) == JET_CIRCUITS.strip().splitlines()


def test_their_joints_are_the_shells_that_a_builder_would_count(sailplane: Path, jet: Path) -> None:
    for folder, shells in ((sailplane, SAILPLANE_SHELLS), (jet, JET_SHELLS)):
        joints = definition_in(folder).disconnects
        assert {name: joint.shell for name, joint in joints.items()} == shells
        for joint in joints.values():
            assert [half.contacts for half in joint.both] == ["sockets", "pins"]


def test_joints_of_one_shell_are_lettered_apart(sailplane: Path, jet: Path) -> None:
    for folder in (sailplane, jet):
        made = [(joint.shell, joint.keyed) for joint in definition_in(folder).disconnects.values()]
        assert len(set(made)) == len(made)


def test_channels_and_fail_safes_of_a_jet_are_as_they_must_be(jet: Path) -> None:
    """Throttle and smoke off, as the club's rules and the national ones have it: see the finding `failsafe`."""
    circuits = definition_in(jet).circuits
    set_to = {name: (form.channel, form.failsafe) for name, form in circuits.items() if form.channel is not None}
    assert set_to == JET_CHANNELS


def test_what_drives_says_how_it_is_stopped_and_what_is_switched_how_it_goes_on(jet: Path) -> None:
    equipment = definition_in(jet).equipment
    assert "lowest" in equipment["engine-unit"].stop
    assert "cooled down" in equipment["engine-unit"].stopped
    assert "last" in equipment["engine-pack"].on
    for entry in equipment.values():
        if entry.kind in ("battery", "power switch"):
            assert entry.on
            assert entry.off
    assert equipment["key"].out == "on"


def test_no_length_stands_in_the_files_and_every_place_has_a_way_for_the_hand(sailplane: Path, jet: Path) -> None:
    for folder in (sailplane, jet):
        typed = as_typed(folder)
        assert all(set(run) <= {"between", "edges"} for run in typed["runs"])
        assert all(set(place) == {"assembly", "access"} for place in typed["places"].values())
        assert not any({"lead", "mass"} & set(entry) for entry in typed["equipment"].values())
        assert not any({"lengths", "loop"} & set(circuit) for circuit in typed["circuits"].values())
        assert not any("reach" in joint["loose"] for joint in typed["disconnects"].values())


def test_measured_as_such_aircraft_are_they_have_nothing_worse_than_notes(sailplane: Path, jet: Path) -> None:
    """A servo lead of 250 mm, runs of a quarter of a metre, a tail a metre away: leads bear that."""
    for folder in (sailplane, jet):
        frame, harness = ((folder / name).read_text("utf-8") for name in ("aircraft.yaml", "harness.yaml"))
        measured = re.sub(r"(between: \[[^]]*\])", r"\1, length: 250 mm", frame).replace(
            "[radio-tray, tail-former], length: 250 mm", "[radio-tray, tail-former], length: 1 m"
        )
        (folder / "aircraft.yaml").write_text(f"{measured}flight: {{time: 8 min, reserve: 30 %}}\n", "utf-8")
        harness = re.sub(r"(loose: \{[^}]*)", r"\1, reach: 120 mm", harness)
        harness = re.sub(r"(?m)^(    plug: .*)$", r"\1\n    lead: 250 mm", harness)
        (folder / "harness.yaml").write_text(harness, "utf-8")
        found = [one for one in check(folder).findings if not one.accepted]
        assert {one.name for one in found} <= {"typical", "drop", "one-loss"}
        assert {one.level for one in found} == {Level.NOTE}


def test_brakes_on_fixed_legs_have_the_service_pack_too(tmp_path: Path) -> None:
    equipment = definition_in(written(tmp_path / "gull", {"gear": "fixed,brakes"})).equipment
    assert {"service-pack", "service-switch", "gear-unit", "left-brake", "right-brake"} <= equipment.keys()


@pytest.mark.parametrize(("volts", "most_v"), [("straight", 8.4), ("regulated", 6.5)])
def test_servos_bear_what_they_get_and_little_more(tmp_path: Path, volts: str, most_v: float) -> None:
    """Two full cells give 8.4 V; of 6 V a servo for 6 V has half a volt to spare (common practice, no source)."""
    servo = definition_in(written(tmp_path / "gull", {"packs": f"one-pack,{volts}"})).equipment["rudder"]
    assert servo.volts is not None
    assert servo.volts.most == most_v


def test_each_concern_has_its_heading_once_in_equipment_and_circuits(jet: Path) -> None:
    lines = (jet / "harness.yaml").read_text("utf-8").splitlines()
    assert [lines.count(f"  # {title}") for title in ("Surfaces and tail.", "Gear.", "Lights and smoke.")] == [2, 2, 2]


def test_what_is_begun_can_be_issued_and_nothing_differs_then(sailplane: Path, tmp_path: Path) -> None:
    runner = CliRunner()
    assert runner.invoke(docgen, ["issue", str(sailplane), "--to", str(tmp_path / "paper")]).exit_code == 0
    assert runner.invoke(docgen, ["compare", str(sailplane)]).stdout == "nothing differs from A.\n"


def test_every_current_is_marked_as_typical_and_says_so_beside(jet: Path) -> None:
    currents = [entry["current"] for entry in as_typed(jet)["equipment"].values() if "current" in entry]
    assert all(current["typical"] == "yes" for current in currents)
    lines = [line for line in (jet / "harness.yaml").read_text("utf-8").splitlines() if "    current:" in line]
    assert len(lines) == len(currents)
    assert all("# typical, put yours" in line for line in lines)
