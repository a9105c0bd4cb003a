"""What equipment came with is offered where it reaches without a lead that is cut, and only there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from came_along import came_along

from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

STRAIGHT = " Or leave `lead:` out: the own lead of `rudder` reaches `receiver 4` by itself."
HALF = " Or say `B: own` at `lead:`: the own lead of `rudder` reaches `fin` by itself."
TAIL = "at: {aft: 1540 mm, up: 40 mm}, access: tail hatch}"
NO_CLIP = (
    "plugs: {servo-3: {contacts: {1: negative, 2: positive, 3: signal}, equipment: sockets, size: [8 mm, 3 mm], "
    "contact: {rating: 3 A, resistance: 10 mohm}}}\n"
)
LIMITS = "limits: {drop_stalled: 1 %, margin: 2 V}\n"
CIRCUITS = "circuits:\n"


def own_lead_of(length: str, *more: tuple[str, str]) -> Changes:
    """Return Wren with a rudder servo whose lead is so long, behind a cover that nobody opens."""
    return {
        "aircraft.yaml": [(TAIL, TAIL.replace(", access: tail hatch", ""))],
        "parts.yaml": NO_CLIP,
        "harness.yaml": [("lead: 300 mm\n", f"lead: {length}\n"), (CIRCUITS, LIMITS + CIRCUITS), *more],
    }


def behind_a_fin(way: str, fin: str, half: str = "sockets") -> Changes:
    """Return Wren with a fin that comes off, its rudder on a lead that is cut there, behind a cover of no access."""
    loose = f"    loose: {{place: fin-root, contacts: {half}, reach: 60 mm}}\n"
    joint = f"  fin:\n    shell: servo-3\n    fixed: {{place: tail-post}}\n{loose}"
    rudder = "    from: receiver 4\n    to: rudder\n    through: [fin]\n    lead: servo-22\n"
    changes = came_along(fin=joint + fin, rudder=rudder, way=way)
    aircraft = changes["aircraft.yaml"]
    assert isinstance(aircraft, list)
    return {**changes, "aircraft.yaml": [(old, new.replace(", access: servo cover", "")) for old, new in aircraft]}


def said(aircraft_folder: AircraftFolder, changes: Changes, name: str, about: str) -> str:
    findings = check(aircraft_folder(changes)).findings
    return next(finding.do for finding in findings if finding.name == name and finding.subject[1] == about)


# The tail lies 1140 mm from the receiver along the runs, 80 mm are to lie coiled.
@pytest.mark.parametrize(("length", "offered"), [("1220 mm", True), ("1219 mm", False)])
@pytest.mark.parametrize(
    ("name", "about"), [("access", "tail-post"), ("drop", "rudder"), ("volts", "rudder"), ("loose-plug", "rudder")]
)
def test_an_own_lead_that_reaches_a_port_is_offered(
    length: str, offered: bool, name: str, about: str, aircraft_folder: AircraftFolder
) -> None:
    assert said(aircraft_folder, own_lead_of(length), name, about).endswith(STRAIGHT) is offered


@pytest.mark.parametrize(("length", "offered"), [("1220 mm", True), ("1219 mm", False)])
def test_the_way_of_an_own_lead_to_its_plug_counts(length: str, offered: bool, aircraft_folder: AircraftFolder) -> None:
    changes = own_lead_of(length, ("place: tail-post\n", "place: tail-post\n    plug_at: spine\n"))
    aircraft = [
        ("  tail-post:  ", "  spine: {assembly: fuselage}\n  tail-post:  "),
        (
            "{between: [radio-tray, tail-post],   length: 1140 mm,",
            "{between: [tail-post, spine], length: 40 mm}\n  - {between: [radio-tray, spine], length: 1100 mm,",
        ),
    ]
    assert (
        said(aircraft_folder, {**changes, "aircraft.yaml": aircraft}, "access", "spine").endswith(STRAIGHT) is offered
    )


@pytest.mark.parametrize(("length", "offered"), [("1220 mm", 1), ("1219 mm", 0)])
def test_an_own_lead_is_offered_where_what_is_cut_bears_no_label(
    length: str, offered: int, aircraft_folder: AircraftFolder
) -> None:
    lead = "    to: rudder\n    lead: servo-22\n"
    folder = aircraft_folder(own_lead_of(length, (lead, f"{lead}    lengths: {{A: 20 mm}}\n")))
    short = [finding.do for finding in check(folder).findings if finding.name == "short"]
    assert [do.endswith(STRAIGHT) for do in short].count(True) == offered


def test_a_port_of_another_plug_takes_none(aircraft_folder: AircraftFolder) -> None:
    changes = own_lead_of("1220 mm", ("{plug: servo-3, names: 1..4,", "{plug: other-3, names: 1..4,"))
    other = {**changes, "parts.yaml": NO_CLIP.replace("servo-3", "other-3")}
    assert not said(aircraft_folder, other, "access", "tail-post").endswith(STRAIGHT)


# 300 mm of lead, for 300 mm of way.
@pytest.mark.parametrize(
    ("way", "commons", "half", "offered"),
    [
        ("300 mm", "", "sockets", True),
        ("301 mm", "", "sockets", False),
        ("300 mm", "", "pins", False),
        ("300 mm", "    commons: {back: {role: negative, contacts: [1], circuits: [rudder]}}\n", "sockets", False),
        ("300 mm", "    commons: {rudder: {role: negative, contacts: [1], circuits: [rudder]}}\n", "sockets", False),
    ],
    ids=["reaches", "too short", "the other half", "commons", "a common named as the circuit"],
)
def test_an_own_lead_that_reaches_a_plain_joint_is_offered(
    way: str, commons: str, half: str, offered: bool, aircraft_folder: AircraftFolder
) -> None:
    assert said(aircraft_folder, behind_a_fin(way, commons, half), "access", "fin-servo").endswith(HALF) is offered


@pytest.mark.parametrize(("through", "offered"), [("", True), ("through: [fin], ", False)])
def test_a_joint_that_another_circuit_passes_is_offered_to_none(
    through: str, offered: bool, aircraft_folder: AircraftFolder
) -> None:
    place = "fin-servo" if through else "tail-post"
    sensor = f"  sensor: {{kind: sensor, place: {place}, lead: 90 mm, plug: servo-3}}\n"
    circuit = f"  sensor: {{from: receiver 3, to: sensor, {through}lead: lone-26}}\n"
    changes = behind_a_fin("300 mm", "")
    harness = changes["harness.yaml"]
    assert isinstance(harness, list)
    supply = [(old, new.replace("    to: rudder\n", "    to: rudder\n    omit: [signal]\n")) for old, new in harness]
    more = [("equipment:\n", f"equipment:\n{sensor}"), ("circuits:\n", f"circuits:\n{circuit}")]
    both = {**changes, "harness.yaml": [*supply, *more]}
    assert (HALF in said(aircraft_folder, both, "access", "fin-servo")) is offered
