"""What is aboard by the kinds of equipment, and what first power-up and the fault finder make of it."""

from __future__ import annotations

from dataclasses import asdict, replace
from typing import TYPE_CHECKING

import pytest
from beginning.begun import written
from printed_tables import document_of
from resolved import EXAMPLES, harness_of

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import fault_content, hangar_content, power_content
from docgen.paperwork.field.aboard import aboard

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder, Replacements

    from docgen.harness.model.harness import Harness

KINDS = {
    "engine unit": {"engine"},
    "ignition": {"engine"},
    "speed controller": {"motor"},
    "motor": {"motor"},
    "gear leg": {"gear"},
    "gear controller": {"gear"},
    "brake": {"brakes"},
    "smoke": {"smoke"},
    "gyro": {"gyro"},
    "receiver": {"receiver"},
    "servo": set[str](),
}


def of_kinds(*kinds: str) -> Harness:
    """Return the smallest example with equipment of these kinds and no other."""
    harness = harness_of(EXAMPLES / "wren")
    one = harness.equipment["rudder"]
    return replace(harness, equipment={kind: replace(one, name=kind, kind=kind) for kind in kinds})


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_aboard_by_itself(kind: str) -> None:
    assert {name for name, there in asdict(aboard(of_kinds(kind))).items() if there} == KINDS[kind]


def test_a_motor_beside_an_engine_s_unit_is_its_starter_unless_a_speed_controller_drives_one() -> None:
    assert not aboard(of_kinds("motor", "engine unit")).motor
    assert aboard(of_kinds("motor", "engine unit", "speed controller")).motor


def changed(aircraft_folder: AircraftFolder, changes: Replacements) -> Harness:
    return harness_of(aircraft_folder({"harness.yaml": changes}))


def steps(harness: Harness, title: str) -> list[tuple[str, str, str]]:
    """Return the steps of the part whose title begins so; none where it is not there."""
    parts = [part for part in power_content.content(harness).parts if part.title.startswith(title)]
    return [(step.name, step.does, step.should) for part in parts for step in part.steps]


def test_of_one_receiver_nothing_is_asked_alone_and_signals_ask_for_no_second_supply() -> None:
    wren = harness_of(EXAMPLES / "wren")
    assert steps(wren, "Each receiver alone") == steps(wren, "Signals to units") == []
    # Nothing is to be off while the range is paced out.
    assert steps(wren, "Range") == [("range", "as the maker of the radio says", "m")]
    fail_safe = next(part for part in power_content.content(wren).parts if part.title.startswith("Fail-safe"))
    assert fail_safe.says == "Each does what is said."
    # The builder wrote none, so that it is as set at the radio.
    assert [(step.name, step.does, step.boxes) for step in fail_safe.steps] == [
        (name, "as you set it", ("receiver",)) for name in ("AIL L", "AIL R", "RUD")
    ]


KEY = "  key: {kind: key, place: tail-post, lead: 90 mm, plug: servo-3, out: %s}\n"


@pytest.mark.parametrize(
    ("out", "does"), [("on", "its lead pulled out: all stays on"), ("off", "pulled: what it switches is off")]
)
def test_a_key_is_pulled_and_what_it_does_is_what_its_builder_wrote(
    out: str, does: str, aircraft_folder: AircraftFolder
) -> None:
    changes: Replacements = [
        ("equipment:\n", f"equipment:\n{KEY % out}"),
        ("circuits:\n", "circuits:\n  pulled: {label: KEY, from: receiver 3, to: key, lead: signal-24}\n"),
    ]
    harness = changed(aircraft_folder, changes)
    assert steps(harness, "Joints and keys")[-1] == ("key", does, "")
    (of,) = (step.of for part in power_content.content(harness).parts for step in part.steps if step.name == "key")
    assert of == ("circuit pulled",)
    assert steps(harness, "Signals to units") == []
    locks = {lock.names: (lock.locked, lock.opens) for lock in hangar_content.content(harness).locks}
    assert locks["key",] == (("out for flight" if out == "on" else "in for flight, home"), "")


TWO_FEEDS: Replacements = [
    (
        "equipment:\n",
        "equipment:\n"
        "  spare: {kind: battery, place: battery-bay, lead: 120 mm, lead_wire: pvc-20, plug: power-2,\n"
        "    battery: {cells: 2, capacity: 900 mAh, full: 8.7 V, empty: 6 V}}\n",
    ),
    ("names: [BATT], contacts: pins}\n", "names: [BATT, MORE], contacts: pins}\n    isolates: yes\n"),
    ("circuits:\n", "circuits:\n  more: {label: SPARE, from: spare, to: receiver MORE, lead: power-20}\n"),
]


def test_equipment_of_two_feeds_is_read_at_the_one_that_gives_most(aircraft_folder: AircraftFolder) -> None:
    faults = fault_content.content(changed(aircraft_folder, TWO_FEEDS)).faults
    assert {fault.name: fault.reads for fault in faults if "receiver" in fault.name} == {"receiver": "6.0 to 8.7 V"}


SPLIT: Replacements = [
    (
        "equipment:\n",
        "equipment:\n  hub:\n    kind: power unit\n    place: battery-bay\n    fed_by: [IN]\n    ports:\n"
        "      - {plug: power-2, names: [IN], contacts: pins}\n      - {plug: servo-3, names: 1..3, contacts: pins}\n"
        "  tab: {kind: servo, place: tail-post, lead: 90 mm, plug: servo-3, current: {working: 0.1 A}}\n",
    ),
    ("names: [BATT], contacts: pins}\n", "names: [BATT, OUT], contacts: pins}\n"),
    (
        "circuits:\n",
        "circuits:\n"
        "  hub: {label: HUB, from: pack, to: [receiver BATT, hub IN], split: {place: battery-bay, loop: 20 mm},\n"
        "    lead: power-20}\n"
        "  tab: {label: TAB, from: hub 1, to: tab, lead: servo-22}\n",
    ),
    ("  supply:\n    label: RX BATT\n    from: pack\n    to: receiver BATT\n    lead: power-20\n", ""),
]


def test_a_supply_that_divides_is_read_at_both_its_ends_and_its_splice_is_tested_where_it_lies(
    aircraft_folder: AircraftFolder,
) -> None:
    harness = changed(aircraft_folder, SPLIT)
    faults = {fault.name: fault for fault in fault_content.content(harness).faults}
    splice = faults["splice HUB"]
    assert (splice.cover, splice.contacts, splice.reads) == ("nose hatch", "stem to each branch", "rings")
    assert (faults["hub"].cover, faults["hub"].contacts, faults["hub"].reads) == (
        "nose hatch",
        "outlet 1: 2 (+) to 1 (−)",
        "6.4 to 8.4 V",
    )
    ((_, does, should),) = (step for step in steps(harness, "Bare wiring") if step[0] == "HUB")
    assert does.startswith("receiver BATT 2+ 1−; hub IN 2+ 1−")
    assert should == "7.4 V"


def test_a_joint_is_tested_behind_the_cover_of_the_half_that_stays(aircraft_folder: AircraftFolder) -> None:
    root = "<side>: 80 mm, up: 90 mm}, access: "
    harness = harness_of(aircraft_folder({"aircraft.yaml": [(f"{root}wing off", f"{root}root fairing")]}))
    faults = {fault.name: fault.cover for fault in fault_content.content(harness).faults}
    assert (faults["left-root"], faults["right-root"]) == ("root fairing", "root fairing")
    assert "; root fairing: left-root 1–3" in document_of(harness, "fault-finder").said


def test_without_packs_or_anything_to_lose_there_is_no_fault_finder_and_no_first_power_up(
    aircraft_folder: AircraftFolder,
) -> None:
    text = (EXAMPLES / "wren" / "harness.yaml").read_text("utf-8")
    bare = text.partition("equipment:")[0] + "equipment: {}\ncircuits: {}\n"
    harness = harness_of(aircraft_folder({"harness.yaml": bare}))
    made = make_paperwork(harness, Choice(stems=("fault-finder", "first-power", "ring-out-sheet", "order-of-work")))
    assert made.files == {}
    assert len([note for note in made.notes if "nothing to show" in note]) == 4


def test_a_pack_that_feeds_the_motor_alone_is_not_stirred_and_one_that_feeds_the_radio_too_is(
    tmp_path: Path,
) -> None:
    own = harness_of(written(tmp_path / "own", {"drive": "motor,own-regulator", "packs": "no-pack"}))
    apart = harness_of(written(tmp_path / "apart", {"drive": "motor,receiver-pack"}))
    stirred = [[name for name, *_ in steps(harness, "Packs, charged")] for harness in (own, apart)]
    assert stirred == [["motor-pack"], ["pack"]]
