"""First power-up: everything has its step once, after all that it depends on; what it reads; what is not aboard."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
import pytest
from beginning.begun import written
from page_facts import heights_off, pages_half_empty, sheets_of, texts_near_an_edge, texts_struck, texts_that_meet
from printed_tables import document_of
from reached import by_removal
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import power_content
from docgen.paperwork.field.power_parts import Step, limit_a

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder

    from docgen.harness.model.harness import Harness

STEM = "first-power"
SIDES = ("left", "right")
FAN_PACKS = ("left-fan-", "right-fan-")
METER_OHM = 1e7  # common practice, no source


@cache
def steps_of(name: str) -> list[Step]:
    return [step for part in power_content.content(harness_of(EXAMPLES / name)).parts for step in part.steps]


def places(name: str) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for number, step in enumerate(steps_of(name)):
        for of in step.of:
            found.setdefault(of, []).append(number)
    return found


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_every_circuit_pack_load_and_regulator_has_its_step_once(name: str) -> None:
    harness, found = harness_of(EXAMPLES / name), places(name)
    motors = {c for c, circuit in harness.circuits.items() if "fan" in c and not circuit.cut_leads}
    for circuit in harness.circuits.keys() - motors:
        assert len(found[f"circuit {circuit}"]) == 1, circuit
    for pack in (entry.name for entry in harness.equipment.values() if entry.battery is not None):
        assert all(len(found[f"{what} {pack}"]) == 1 for what in ("resistance", "pack", "charge"))
    for function in harness.losses.functions:
        assert len(found[f"load {function.load}"]) == 1
    for joint in harness.disconnects:
        assert len(found[f"joint {joint}"]) == 1
    regulators = [of for of in found if of.startswith("regulator ")]
    assert regulators == (["regulator power-unit SOFT-1, SOFT-2"] if name == "fulmar" else [])


def test_each_step_comes_after_all_that_it_depends_on() -> None:
    """By hand from harness.yaml: what feeds what, and what each load needs before it can move."""
    at = {of: numbers[0] for of, numbers in places("fulmar").items()}
    for before, after in (
        ("resistance left-pack", "pack left-pack"),
        ("pack left-pack", "circuit left-pack"),
        ("circuit left-pack", "unit power-unit"),
        ("circuit right-pack", "unit power-unit"),
        ("unit power-unit", "circuit receiver-a-data"),
        ("circuit receiver-a-data", "unit receiver-a"),
        ("circuit receiver-b-data", "unit receiver-b"),
        ("unit receiver-a", "circuit steering"),
        ("unit power-unit", "circuit left-wing-supply"),
        ("circuit left-wing-supply", "circuit left-beacon"),
        ("circuit service-pack", "unit service-switch"),
        ("unit service-switch", "circuit gear-supply"),
        ("circuit gear-supply", "unit gear-unit"),
        ("unit gear-unit", "circuit left-leg"),
        ("unit receiver-b", "circuit gear-signal"),
        ("circuit gear-signal", "circuit left-leg"),  # an outlet gives volts when its signal drives it
        ("circuit light-signal", "circuit left-landing-light"),
        ("circuit gear-signal", "load left-leg"),
        ("circuit left-leg", "load left-leg"),
        ("load left-leg", "stroke left-leg"),
        ("load bay-door", "regulator power-unit SOFT-1, SOFT-2"),
        ("circuit left-throttle", "load left-fan"),
        ("failsafe left-throttle", "load left-fan"),
        ("joint left-wing-a", "load left-fan"),
        ("circuit key", "load left-fan"),
        ("alone left-pack", "lowest left-pack"),
    ):
        assert at[before] < at[after], (before, after)


def nodal_v(harness: Harness, circuit: str) -> float:
    """Return what a meter reads at the end of a circuit: a bench supply midway between empty and full, by nodes.

    Only wires and the meter: all resistances on the way in series with it, out and back; 6 V where that is regulated.
    """
    ohms = 2 * sum(
        (lead.length_mm or 0.0) / 1000 * max(wire.kind.resistance_ohm_per_m for wire in lead.wires)
        for lead in harness.circuits[circuit].leads
    )
    packs = {"service": (9.9 + 12.6) / 2, "fan": (20.4 + 25.2) / 2, "radio": (6.6 + 8.4) / 2, "soft": 6.0}
    of_service = ("service", "gear-", "light-", "smoke-supply", "camera", "nose-leg", "left-leg", "right-leg")
    of_lamps = ("brake", "position", "landing", "tail-light")
    supply = "radio"
    if circuit.startswith(of_service) or any(word in circuit for word in of_lamps):
        supply = "service"
    elif "fan" in circuit:
        supply = "fan"
    elif circuit == "bay-door":
        supply = "soft"
    conductances = np.array([[1 / ohms + 1e9, -1 / ohms], [-1 / ohms, 1 / ohms + 1 / METER_OHM]])
    return float(np.linalg.solve(conductances, np.array([packs[supply] * 1e9, 0.0]))[1])


def test_the_volts_of_each_end_plug_are_those_of_a_nodal_solve() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    read = {
        step.of[0].split()[1]: float(step.should.split()[0])
        for step in steps_of("fulmar")
        if step.of and step.of[0].startswith("circuit ") and step.should.endswith("V")
    }
    assert len(read) > 35
    for circuit, volts in read.items():
        assert volts == pytest.approx(nodal_v(harness, circuit), abs=0.0501), circuit


def test_limits_are_idle_times_one_and_a_half_and_at_least_half_an_ampere_or_idle_and_the_own_most() -> None:
    """By hand: of the radio 0.09 + 2 x 0.12 + 0.06 + 0.03 + 9 x 0.03 + 2 x 0.02 + 2 x 0.12 = 0.97 A; 2.8 A stall."""
    assert limit_a(0.15) == 0.5
    assert limit_a(0.8) == pytest.approx(1.2)
    steps = {step.name: step.does for step in steps_of("fulmar") if step.of and step.of[0].startswith("load ")}
    assert steps["AIL L IN"] == "16 mm up, 10 mm down, channel 1, limit 3.8 A"
    # Of the service pack 0.01 + 0.06 + 0.04 + 3 lights of 0.15, 0.15 and 0.10 A + camera 0.5 A = 1.01 A; stop 2.2 A.
    assert steps["LEG L"] == "up, down, way clear, limit 3.3 A"


def test_what_a_motors_regulator_gives_is_read_before_the_radio_hangs_on_it(tmp_path: Path) -> None:
    """By hand: the controller feeds the receiver 6 V over the lead of its throttle."""
    folder = written(tmp_path / "gull", {"drive": "motor,own-regulator", "packs": "no-pack", "switch": "plug-in"})
    parts = power_content.content(harness_of(folder)).parts
    steps = [step for part in parts for step in part.steps]
    at = {of: number for number, step in enumerate(steps) for of in step.of}
    (part,) = (part for part in parts if any("unit motor-control" in step.of for step in part.steps))
    assert part.caution == "Propeller off or motor leads unplugged."
    assert at["unit motor-control"] < at["circuit throttle"] < at["unit receiver"] < at["circuit rudder"]
    assert steps[at["circuit throttle"]].should == "6.0 V"
    assert "circuit motor" not in at


def test_a_suggested_limit_stands_beside_what_is_set(aircraft_folder: AircraftFolder) -> None:
    """13.1 s up and 13.6 s down: 1.1 x 13.6 = 14.96 and 13.6 + 1 = 14.6, so 15 s."""
    leg = (
        "  leg:\n    kind: gear leg\n    place: radio-tray\n    lead: 100 mm\n    plug: servo-3\n"
        "    current: {idle: 0 A, working: 1 A, stall: 4 A, runs: 30 s}\n"
        "    gear: {up: 13.1 s, down: 13.6 s, limit: 16 s, stop: 2 A}\n"
    )
    changes = [
        ("  rudder:\n    kind", f"{leg}  rudder:\n    kind"),
        ("  rudder:\n    label", "  leg: {label: LEG, from: receiver 3, to: leg}\n  rudder:\n    label"),
    ]
    said = document_of(harness_of(aircraft_folder({"harness.yaml": changes})), STEM).said
    assert "limit suggested 15 s, set 16 s" in said
    assert "leg up, then down, timed 13.1 s 13.6 s" in said
    assert "Hands clear of legs and doors" in said


ENGINE = """  engine-pack:
    {kind: battery, place: radio-tray, lead: 90 mm, lead_wire: pvc-20, plug: power-2,
    battery: {cells: 3, capacity: 2000 mAh, full: 12.6 V, empty: 9.9 V}, on: plug it in, off: unplug it}
  engine:
    kind: engine unit
    place: radio-tray
    ports:
      - {plug: power-2, names: [POWER], contacts: pins}
      - {plug: power-2, names: [PUMP], contacts: sockets}
    fed_by: [POWER]
  fuel-pump: {kind: pump, place: tail-post, lead: 90 mm, plug: power-2, current: {working: 2 A}}
"""
ENGINE_CIRCUITS = """  engine-supply: {from: engine-pack, to: engine POWER}
  fuel: {label: FUEL, from: engine PUMP, to: fuel-pump, lead: power-20}
"""


def parts_of(folder: Path) -> dict[str, list[tuple[str, str]]]:
    """Return the steps of each part: name and what is done."""
    parts = power_content.content(harness_of(folder)).parts
    return {part.title: [(step.name, step.does) for step in part.steps] for part in parts}


def said_of(folder: Path, title: str) -> list[tuple[str, str, str]]:
    """Return the steps of the part whose title begins so: name, what is done, what it should read."""
    (part,) = (part for part in power_content.content(harness_of(folder)).parts if part.title.startswith(title))
    return [(step.name, step.does, step.should) for step in part.steps]


# By hand from harness.yaml. A limit is a tenth or a second over the longer stroke, to a second: 6.4 + 1, 9.6 + 1, 9.8
# + 1 s. Fans take 62 A held on the ground; in a flight 32 A for 6 min and 0.1 A for 4 min, 3206.7 mAh.
JAM = "held by a block of wood: the controller stops it"
RUN = "turns the right way, runs up, stops"


@pytest.mark.parametrize(
    ("title", "steps"),
    [
        ("Resistance", [(f"{pack}pack", "", "open") for pack in ("left-", "right-", "service-", *FAN_PACKS)]),
        (
            "Gear, timed",
            [
                ("nose-leg", "up, then down, timed", "6.4 s 5.8 s"),
                ("limit", "suggested 8 s, set 8 s", ""),
                ("jam", JAM, "2 A"),
                ("left-leg", "up, then down, timed", "9.6 s 8.1 s"),
                ("limit", "suggested 11 s, set 11 s", ""),
                ("jam", JAM, "2.2 A"),
                ("right-leg", "up, then down, timed", "9.8 s 8 s"),
                ("limit", "suggested 11 s, set 11 s", ""),
                ("jam", JAM, "2.2 A"),
            ],
        ),
        (
            "Joints and keys, all on",
            [
                *((f"{side}-wing-{which}", "shaken: nothing twitches", "") for which in "ab" for side in SIDES),
                *((name, "shaken: nothing twitches", "") for name in ("tail", "nose", "hatch-joint")),
                ("key", "its lead pulled out: all stays on", ""),
            ],
        ),
        (
            "Linkages",
            [
                ("linkages on", "centre, then both ends: nothing binds, current back to idle", ""),
                ("gyro", "aircraft tilted, turned each way: surfaces move against it", ""),
            ],
        ),
        ("Range", [("range", "as the maker of the radio says, motor off", "m")]),
        ("First run, held", [("FAN L", RUN, "≤ 62.0 A"), ("FAN R", RUN, "≤ 62.0 A")]),
        (
            "Running, held",
            [
                ("range, running", "as before, aircraft held", "m"),
                ("fail-safe, running", "transmitter off: it stops or idles", ""),
            ],
        ),
    ],
)
def test_what_is_done_is_what_the_builder_wrote(title: str, steps: list[tuple[str, str, str]]) -> None:
    assert said_of(EXAMPLES / "fulmar", title) == steps


def test_a_unit_shows_what_the_builder_wrote_behind_the_semicolon() -> None:
    """By hand: 0.09, 0.01 + 0.04 and 0.1 A at rest stay under the least limit of 0.5 A."""
    says = {name: does.partition(" (fault")[0] for name, does, _ in said_of(EXAMPLES / "fulmar", "Units and receivers")}
    assert says["power-unit"] == "7.5 V at the plug for left-pack, limit 0.50 A, both lamps steady"
    assert says["service-switch"] == "11.2 V at the plug for service-pack, limit 0.50 A, green lamp"
    assert says["receiver-a"] == "limit 0.50 A"


def test_a_regulator_is_read_at_its_own_volts_beside_what_is_lost_before_it() -> None:
    ((name, does, should),) = said_of(EXAMPLES / "fulmar", "Regulators")
    assert name == "power-unit SOFT-1, SOFT-2"
    lost = re.fullmatch(r"all on it working; drop before it (\d\.\d\d) V", does)
    assert lost is not None
    assert 0 < float(lost[1]) < 0.66
    # On 7.5 V, 5.46 A of the radio and 0.33 A for the door over 20 mohm and 0.4 V of headroom leave more than is set.
    assert 7.5 - 5.79 * 0.02 - float(lost[1]) - 0.4 > 6
    assert should == "6.00 V"


def test_after_the_first_flights_each_pack_gets_back_what_it_gave_and_each_regulator_is_felt() -> None:
    said = said_of(EXAMPLES / "fulmar", "After the first flights")
    packs = ["left-pack", "right-pack", "power-unit", "service-pack", "left-fan-pack", "right-fan-pack"]
    assert [name for name, _, _ in said] == packs
    charge = "charge put back a flight; plug not warm"
    assert [does for _, does, _ in said] == ["not hot" if name == "power-unit" else charge for name in packs]
    assert [should for name, _, should in said if "fan" in name] == ["3207 mAh"] * 2


def test_packs_that_feed_together_share_what_is_put_back(aircraft_folder: AircraftFolder) -> None:
    # 277.5 mAh a flight, as beside the tables of `docgen check`, of two alike: 138.75 mAh each.
    pack = "{kind: battery, place: battery-bay, lead: 120 mm, lead_wire: pvc-20, plug: power-2, "
    pack += "battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}}"
    changes = [
        ("  rudder:\n    kind", f"  other: {pack}\n  rudder:\n    kind"),
        ("names: [BATT], contacts: pins}\n", "names: [BATT, MORE], contacts: pins}\n    isolates: yes\n"),
        ("circuits:\n", "circuits:\n  more: {from: other, to: receiver MORE, lead: power-20}\n"),
    ]
    folder = aircraft_folder({"harness.yaml": changes})
    assert [should for _, _, should in said_of(folder, "After the first flights")] == ["139 mAh"] * 2
    assert [name for name, _, _ in said_of(folder, "Packs, charged")] == ["pack", "other", "both"]


def test_the_lowest_volts_of_packs_are_asked_for_where_they_come_last() -> None:
    """Volts fall along the way: most where three legs stall, and at the receiver that moves the nose wheel."""
    at = {name: said_of(EXAMPLES / name, "Packs, charged")[-1][2].split()[-1] for name in ("wren", "fulmar")}
    assert at == {"wren": "receiver", "fulmar": "gear-unit"}
    both = [should.split()[-1] for name, _, should in said_of(EXAMPLES / "fulmar", "Packs, charged") if "both" in name]
    assert both == ["receiver-a"]


@pytest.mark.long
def test_each_receiver_alone_moves_what_goes_on_without_the_others() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    labels = {function.load: function.label for function in harness.losses.functions}
    lost = by_removal(harness)
    said = {name: does for name, does, _ in said_of(EXAMPLES / "fulmar", "Each receiver alone")}
    for name, other in (("receiver-a", "receiver-b"), ("receiver-b", "receiver-a")):
        unplugged, _, moves = said[name].partition(": ")
        assert unplugged == f"{other} unplugged"
        assert set(moves.removesuffix(" still move").split(", ")) == {
            labels[load] for load in lost["receiver", other][1]
        }


def test_a_fail_safe_is_ticked_for_each_receiver_that_gives_its_signal() -> None:
    """The power unit passes on the channels of either receiver; what is plugged into one has no other."""
    boxes = {step.of[0]: step.boxes for step in steps_of("fulmar") if step.boxes}
    assert boxes["failsafe rudder"] == ("receiver-a", "receiver-b")
    assert boxes["failsafe steering"] == ("receiver-a",)
    assert boxes["failsafe gear-signal"] == ("receiver-b",)


def test_an_engine_is_run_last_though_its_unit_works_a_pump(aircraft_folder: AircraftFolder) -> None:
    changes = [
        ("  rudder:\n    kind", f"{ENGINE}  rudder:\n    kind"),
        ("circuits:\n", f"circuits:\n{ENGINE_CIRCUITS}"),
    ]
    parts = parts_of(aircraft_folder({"harness.yaml": changes}))
    assert parts["First run, held"] == [("engine", "with FUEL: starts, idles, runs up, stops")]
    assert sum("FUEL" in " ".join(step) for steps in parts.values() for step in steps) == 1
    packs = next(steps for title, steps in parts.items() if title.startswith("Packs, charged"))
    assert [name for name, _ in packs] == ["pack"]  # no stick stirs an engine's


def test_an_engine_with_nothing_but_an_ignition_is_run_too(aircraft_folder: AircraftFolder) -> None:
    petrol = [("  rudder:\n    kind: servo", "  rudder:\n    kind: ignition")]
    parts = parts_of(aircraft_folder({"harness.yaml": petrol}))
    assert parts["First run, held"] == [("RUD", "starts, idles, runs up, stops")]


def test_nothing_is_asked_of_what_is_not_aboard() -> None:
    said = document_of(harness_of(EXAMPLES / "wren"), STEM).said
    absent = r"gear|\blegs?\b|engine|motor|brake|\blights?\b|smoke|\bfan|propeller|fuel|throttle|gyro|\bkey|\bdoors?\b"
    assert re.findall(absent, said, re.IGNORECASE) == []


def test_before_packs_are_plugged_in_what_is_aboard_is_made_safe(aircraft_folder: AircraftFolder) -> None:
    """A petrol engine has no motor leads to unplug; an electric one no fuel (common practice, no source)."""
    petrol = [("  rudder:\n    kind: servo", "  rudder:\n    kind: ignition")]
    said = {
        "fuel": power_content.content(harness_of(aircraft_folder({"harness.yaml": petrol}))),
        "fan": power_content.content(harness_of(EXAMPLES / "fulmar")),
        "none": power_content.content(harness_of(EXAMPLES / "wren")),
    }
    for name, safe in {
        "fuel": "Fuel closed, igniter and starter unplugged.",
        "fan": "Propeller off or motor leads unplugged.",
        "none": "",
    }.items():
        cautions = {part.title.partition(",")[0]: part.caution for part in said[name].parts}
        fed = {title for title in ("Signals to units", "Fail-safe", "Packs") if title in cautions}
        assert {cautions[title] for title in fed} == {safe}
        assert len(fed) == (3 if name == "fan" else 2)


def test_legs_move_nowhere_without_the_caution_of_legs() -> None:
    moved = [
        part
        for part in power_content.content(harness_of(EXAMPLES / "fulmar")).parts
        if any(of in ("load left-leg", "stroke left-leg") for step in part.steps for of in step.of)
    ]
    assert len(moved) == 2
    assert all("Hands clear of legs and doors" in part.caution for part in moved)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_takes_at_most_three_sheets_and_is_set_as_pages_are(name: str, paper: str) -> None:
    choice = Choice(stems=(STEM,), paper=paper)
    pages = sheets_of(make_paperwork(harness_of(EXAMPLES / name), choice).files[f"{STEM}.pdf"])
    assert len(pages) <= (1 if name == "wren" else 3)
    assert heights_off(pages) == set()
    assert texts_that_meet(pages) == []
    assert texts_struck(pages) == []
    assert texts_near_an_edge(pages) == []
    assert pages_half_empty(pages) == []


def test_every_step_has_its_box_on_the_page_and_its_words() -> None:
    pages = sheets_of(files_of_example("fulmar")[f"{STEM}.pdf"])
    steps = steps_of("fulmar")
    boxes = sum(max(len(step.boxes), 1) for step in steps)
    assert sum(len(page.ticks) for page in pages) == boxes
    # Column by column, in the order printed.
    said = [
        " ".join(text.text for text in page.texts if (text.box.left < page.width_mm / 2) == left)
        for page in pages
        for left in (True, False)
    ]
    for text in (
        "On stands, legs free to move. Linkages off until direction and centre are right. Propeller off or motor",
        "No pack aboard meanwhile. Probe end plugs with a mating pin, neighbours covered",
        "its lead pulled out: all stays on",
        "transmitter off: it stops or idles",
        "Stop if it draws anything, or minus shows: off at once; see the fault finder's number.",
    ):
        assert any(text in column for column in said), text


def test_each_part_stands_below_its_number_with_what_holds_for_all_of_it_and_when_to_stop() -> None:
    titles = """1 Before; 2 Resistance, plus to minus of each supply; 3 Bare wiring, one supply after another
        4 Units and receivers, one after another; 5 Each circuit, one by one; 6 Fail-safe, transmitter off
        7 Packs, charged, one supply after another; 8 Joints, all on; 9 Linkages; 10 Range
        11 After the first flights"""
    (page,) = sheets_of(files_of_example("wren")[f"{STEM}.pdf"])
    in_order = sorted(page.texts, key=lambda text: (text.box.left > page.width_mm / 2, round(text.base_mm, 1)))
    printed = " ".join(text.text for text in in_order)
    at = -1
    for title, part in zip(
        re.split(r"; |\n +", titles), power_content.content(harness_of(EXAMPLES / "wren")).parts, strict=True
    ):
        for said in (title, part.says, part.caution, f"Stop if {part.stop}" if part.stop else ""):
            found = printed.find(said, at + 1) if said else at
            assert found >= at, said
            at = found


def test_a_channel_is_said_of_what_has_its_supply_and_its_signal_in_circuits_of_their_own() -> None:
    # The pump is fed by the service switch; channel 14 comes over its other circuit, as its builder wrote.
    (smoke,) = (step for step in steps_of("fulmar") if "load smoke-pump" in step.of)
    assert smoke.does.startswith("runs, channel 14, limit ")


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_no_line_begins_with_the_unit_of_a_figure_or_the_number_of_a_fault(name: str) -> None:
    lines = [text.text for page in sheets_of(files_of_example(name)[f"{STEM}.pdf"]) for text in page.texts]
    assert not [line for line in lines if re.match(r"(A|V|mm|s|degrees)\b|\d+\)", line)]


def test_a_joint_at_which_a_supply_is_read_is_mated_then_with_the_supply_off() -> None:
    """By hand: the wing's supply ends at its joint; the plug of the bay door is a half of a joint, and hangs there."""
    says = {name: does for name, does, _ in said_of(EXAMPLES / "fulmar", "Units and receivers")}
    for side in "LR":
        assert says[f"WING {side}"].endswith("; supply off, mate it")
    assert [name for name, does in says.items() if "mate" in does] == ["WING L", "WING R"]
