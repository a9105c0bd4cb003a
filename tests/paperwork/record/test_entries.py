"""What the record says of each entry, held against what the builder wrote, typed here."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from recorded import Sections, entry, sections_of
from resolved import harness_of, record_of

from docgen.basics.shipped import shipped_folder

if TYPE_CHECKING:
    from conftest import AircraftFolder, Replacements


def test_it_says_which_aircraft_and_state_it_is_and_where_it_stands(wren: Sections, fulmar: Sections) -> None:
    assert wren[""] == [
        "Wren WR-7: record of the harness",
        "2.2 m high-wing trainer, two plug-in wing panels",
        "issue:",
        "record: https://hangar.example/wren",
        "For model aircraft only, never for aircraft that carry people.",
    ]
    assert "contact: Ansa Brook, Heron Lane field, telephone 555 0134" in fulmar[""]
    assert "note: No web address, so that the codes on the cards carry the text itself." in fulmar[""]


def test_a_flight_is_said_with_its_reserve_and_how_many_there_are(wren: Sections, fulmar: Sections) -> None:
    assert wren["Flight"] == ["time 9 min, reserve 30 %", "flights on a charge 1, on the ground 0 min"]
    assert fulmar["Flight"] == ["time 6 min, reserve 30 %", "flights on a charge 2, on the ground 4 min"]


def test_places_say_their_assembly_where_they_are_and_how_a_hand_gets_there(wren: Sections) -> None:
    assert wren["Places"] == [
        "radio-tray: fuselage, aft 420, middle, up 10 mm, access canopy",
        "battery-bay: fuselage, aft 180, middle, up 0 mm, access nose hatch",
        "tail-post: fuselage, aft 1540, middle, up 40 mm, access tail hatch",
        "left-root: fuselage, aft 600, left 80, up 90 mm, access wing off",
        "right-root: fuselage, aft 600, right 80, up 90 mm, access wing off",
        "left-panel-root: left-panel, aft 600, left 90, up 90 mm, access wing off",
        "right-panel-root: right-panel, aft 600, right 90, up 90 mm, access wing off",
        "left-aileron: left-panel, aft 690, left 810, up 110 mm, access servo cover",
        "right-aileron: right-panel, aft 690, right 810, up 110 mm, access servo cover",
    ]


def test_places_say_slack_heat_and_notes(fulmar: Sections) -> None:
    tray = "radio-tray: fuselage, aft 640, middle, up 70 mm, access top hatch, slack 60 mm"
    assert f"{tray}, note: Two screws at the front, two hooks behind." in fulmar["Places"]
    assert "lower-tray: fuselage, aft 700, middle, up -40 mm, access belly hatch, slack 40 mm" in fulmar["Places"]
    assert "left-fan: fuselage, aft 1080, left 150, up 60 mm, access fan cover, heat 70 °C" in fulmar["Places"]


def test_runs_say_their_length_and_what_lies_in_wait(wren: Sections, fulmar: Sections) -> None:
    assert wren["Runs"] == [
        "battery-bay to radio-tray: 260 mm",
        "radio-tray to left-root: 235 mm, sharp edges",
        "radio-tray to right-root: 235 mm, sharp edges",
        "radio-tray to tail-post: 1140 mm, sharp edges",
        "left-panel-root to left-aileron: 745 mm, sharp edges",
        "right-panel-root to right-aileron: 745 mm, sharp edges",
    ]
    for said in (
        "radio-tray to sill: 130 mm, sharp edges, dressed with grommet",
        "aft-bay to tail-former: 655 mm, sharp edges, dressed with tube, opening 20 mm, closed",
        "left-leg-bay to left-inner-aileron: 480 mm, sharp edges, opening 30 × 14 mm, closed",
        "motor-bay to left-fan-bay: 330 mm, sharp edges, heat 130 °C",
        "left-leg-bay to left-wheel: 250 mm, hinge 25 mm",
        # The straight line between (640, 70) and (760, 150): the root of 120² + 80² = 144.2 mm.
        "radio-tray to spine-post: 144.2 mm, not measured",
    ):
        assert said in fulmar["Runs"]


def test_a_receiver_says_what_it_draws_and_bears_and_what_each_port_leads_to(wren: Sections) -> None:
    assert entry(wren["Equipment"], "receiver")[:-1] == [
        "receiver: receiver at radio-tray, fuselage",
        "current working 0.15 A",
        "volts least 3.6 V, most 9 V",
        "antenna A: radio-tray, lengthwise, lead 150 mm, diameter 1.2 mm",
        "antenna B: radio-tray, crosswise, lead 150 mm, diameter 1.2 mm",
        "port 1, servo-3 pins: AIL L (left-aileron), other end left-aileron, channel 1",
        "port 2, servo-3 pins: AIL R (right-aileron), other end right-aileron, channel 2",
        "port 3, servo-3 pins: free",
        "port 4, servo-3 pins: RUD (rudder), other end rudder, channel 4",
        "port BATT, power-2 pins: RX BATT (supply), other end pack",
    ]


def test_a_pack_says_all_its_figures_and_how_it_is_switched(fulmar: Sections) -> None:
    assert entry(fulmar["Equipment"], "left-pack") == [
        "left-pack: battery at pack-bay, fuselage",
        "2 cells, 3200 mAh, full 8.4 V, empty 6.6 V",
        "resistance 20 mΩ",
        "rating 40 A",
        "mass 190 g",
        "port (own lead), power-2-heavy sockets: PACK L (left-pack), other end power-unit PACK-L",
        "on: plug it in with the key in; its lamp on the power unit comes on",
        "off: unplug it after the key is in",
    ]


def test_a_unit_says_its_outputs_its_feeds_and_the_ratings_and_failsafes_of_its_ports(fulmar: Sections) -> None:
    unit = entry(fulmar["Equipment"], "power-unit")
    for said in (
        "current working 0.09 A",
        "volts least 4.5 V, most 9 V",
        "output SOFT-1, SOFT-2: 6 V, headroom 0.4 V, rating 3 A, switching, 85 % efficient",
        "keeps its feeds apart",
        "fed by PACK-L, PACK-R",
        "mass 85 g",
        "port 7, servo-3 pins, rating 25 A: ELEV L (left-elevator), other end left-elevator, channel 7, "
        "fail-safe centre",
        "port WING-L, power-2 sockets, rating 30 A: WING L (left-wing-supply), other end left-wing-b",
        "on: pull the key out of the left sill; both lamps steady",
        "off: push the key into the left sill; both lamps go out after two seconds",
        "note: Takes all channels from either receiver over RX-A and RX-B; numbered as on its lid. "
        "WING gives supply only.",
    ):
        assert said in unit


def test_equipment_says_what_heat_it_bears_a_fuse_its_rating_and_an_antenna_its_band(
    aircraft_folder: AircraftFolder,
) -> None:
    antenna = "B: {place: radio-tray, lies: crosswise, lead: 150 mm"
    changes: Replacements = [
        (f"{antenna}}}", f"{antenna}, band: 900 MHz}}"),
        ("  pack:\n", "  holder: {kind: fuse, place: radio-tray, rating: 5 A, most_heat: 85 °C}\n  pack:\n"),
    ]
    said = sections_of(record_of(harness_of(aircraft_folder({"harness.yaml": changes}))).whole)["Equipment"]
    assert entry(said, "holder") == ["holder: fuse at radio-tray, fuselage", "rating 5 A", "bears heat up to 85 °C"]
    assert "antenna B: radio-tray, crosswise, 900 MHz, lead 150 mm, diameter 1.2 mm" in entry(said, "receiver")


def test_a_gear_leg_says_its_currents_and_strokes(fulmar: Sections) -> None:
    assert entry(fulmar["Equipment"], "left-leg") == [
        "left-leg: gear leg at left-leg-bay, left-panel",
        "current idle 0 A, working 1 A, stall 3.6 A, runs 20 s",
        "volts least 7 V, most 13 V",
        "gear up 9.6 s, down 8.1 s, limit 11 s, stop 2.2 A",
        "mass 210 g",
        "port (own lead), motor-2 sockets: LEG L (left-leg), other end gear-unit LEFT",
    ]


def test_an_antenna_that_lies_elsewhere_says_so(fulmar: Sections) -> None:
    said = "antenna B: spine-post, upright, lead 400 mm, diameter 1.4 mm, Taped to the post above the hatch."
    assert said in entry(fulmar["Equipment"], "receiver-b")


def test_a_joint_says_its_halves_and_each_contact_with_the_wires_behind_both(wren: Sections) -> None:
    said = [line for line in entry(wren["Disconnects"], "right-root") if not line.startswith("card ")]
    assert said == [
        "right-root: block-6, 6 contacts",
        "fixed half: sockets at right-root, fuselage, key up; "
        "mates with the loose half at right-panel-root (pins, reach 120 mm)",
        "loose half: pins at right-panel-root, right-panel; mates with the fixed half at right-root (sockets)",
        "1: AIL R, BK 22 AWG C3A22N / BK 22 AWG C3B22N, receiver 2 to right-aileron",
        "2: AIL R, RD 22 AWG C3A22 / RD 22 AWG C3B22, receiver 2 to right-aileron",
        "3: AIL R, WH 22 AWG C4A22 / WH 22 AWG C4B22, receiver 2 to right-aileron",
        "4: spare",
        "5: spare",
        "6: spare",
    ]


def test_a_joint_says_what_its_commons_are_how_it_is_locked_and_what_to_note(fulmar: Sections) -> None:
    joint = entry(fulmar["Disconnects"], "left-wing-b")
    assert joint[0] == "left-wing-b: block-14, 14 contacts, keyed A"
    assert "common wing-positive: positive on contacts 1, 2, fed by left-wing-supply" in joint
    # By hand: 40 mm of tail + 8 mm for the splice + 4 mm of strip + 2 x 10 mm = 72 mm, rounded up to 75 mm; the
    # heaviest that arrives from the panel is 22 AWG, which the contact takes.
    assert (
        "loose half: 2 tails RD pvc-22, cut 75 mm, spliced to "
        "left-outer-aileron B C5B22, left-flap B C9B22, left-beacon A L11A24"
    ) in joint
    assert joint[-2:] == [
        "lock: a latch at each end; press both, then pull the halves straight apart",
        "note: Longer tail than the signal joint, so plug this one first.",
    ]


def test_circuits_say_their_ends_and_what_the_radio_does_with_them(wren: Sections, fulmar: Sections) -> None:
    assert wren["Circuits"] == [
        "supply: RX BATT, pack to receiver BATT",
        "left-aileron: AIL L, receiver 1 to left-aileron",
        "  channel 1, throw 18 mm up, 12 mm down",
        "right-aileron: AIL R, receiver 2 to right-aileron",
        "  channel 2, throw 18 mm up, 12 mm down",
        "rudder: RUD, receiver 4 to rudder",
        "  channel 4, throw 40 mm each way",
    ]
    assert entry(fulmar["Circuits"], "left-elevator")[1:] == ["channel 7, throw 24 mm each way, fail-safe centre"]
    assert entry(fulmar["Circuits"], "key")[1:] == ["note: Only a switch line, no load runs through the key."]


def test_a_lead_says_its_cut_its_route_its_ends_and_where_each_wire_goes(wren: Sections) -> None:
    assert entry(wren["Leads"], "left-aileron B") == [
        "left-aileron B: AIL L, cut 1045 mm, servo-22",
        "route 745 mm: left-panel-root, left-aileron",
        "from left-root 1–3 (block-6 pins, loose half) at left-panel-root",
        "to left-aileron (servo-3 pins, into own lead 250 mm, lead-26 assumed) at left-aileron",
        "C1B22N: negative, BK black, pvc-22, left-root contact 1 to left-aileron contact 1",
        "C1B22: positive, RD red, pvc-22, left-root contact 2 to left-aileron contact 2",
        "C2B22: signal, WH white, pvc-22, left-root contact 3 to left-aileron contact 3",
    ]
    assert entry(wren["Leads"], "supply A") == [
        "supply A: RX BATT, cut 325 mm, power-20",
        "route 260 mm: battery-bay, radio-tray",
        "from pack (power-2 pins, into own lead 120 mm, pvc-20) at battery-bay",
        "to receiver BATT (power-2 sockets) at radio-tray",
        "P1A20N: negative, BK black, pvc-20, pack contact 1 to receiver BATT contact 1",
        "P1A20: positive, RD red, pvc-20, pack contact 2 to receiver BATT contact 2",
    ]


def test_what_plugs_straight_in_carries_at_the_lead_what_it_carries_at_its_equipment(fulmar: Sections) -> None:
    """By hand from its files: a receiver carries pins, a gyro's own lead sockets; a fan's pins go into sockets."""
    assert entry(fulmar["Leads"], "gyro A")[2:4] == [
        "from receiver-a 6 (servo-3 pins) at radio-tray",
        "to gyro (servo-3 sockets, own lead 90 mm, lead-28) at radio-tray",
    ]
    assert "port 6, servo-3 pins: GYRO (gyro), other end gyro" in entry(fulmar["Equipment"], "receiver-a")
    assert "port (own lead), servo-3 sockets: GYRO (gyro), other end receiver-a 6" in entry(fulmar["Equipment"], "gyro")
    start, goal = entry(fulmar["Leads"], "left-fan A")[2:4]
    assert "(bullet-3 sockets, own lead 70 mm" in start
    assert "(bullet-3 pins, own lead 120 mm" in goal


def test_leads_say_what_is_pinned_bought_or_plugged_straight_in_and_other_colours(fulmar: Sections) -> None:
    assert entry(fulmar["Leads"], "steering B")[0] == "steering B: STEER, cut 390 mm, pinned, servo-22"
    assert entry(fulmar["Leads"], "airspeed A")[0].endswith(", cable-24, bought cable")
    assert entry(fulmar["Leads"], "gyro A")[0] == "gyro A: GYRO, plugs straight in, nothing to cut"
    wires = entry(fulmar["Leads"], "left-inner-aileron B")[-3:]
    own = [re.search(r"left-inner-aileron's own is (\w+)$", wire) for wire in wires]
    assert [found and found[1] for found in own] == ["BN", "RD", "OG"]
    # The signal has the first contact that is free beside the commons, 5; on a servo's plug it is 3.
    assert entry(fulmar["Leads"], "left-outer-aileron B")[-1] == (
        "C6B22: signal, WH white, pvc-22, left-wing-b contact 5 to left-outer-aileron contact 3, "
        "left-outer-aileron's own is OG"
    )


def test_a_part_says_what_is_in_hand_and_nothing_else() -> None:
    parts = record_of(harness_of(shipped_folder("examples") / "wren")).parts
    panel = sections_of(parts["record/assembly-left-panel.txt"])
    assert panel[""] == ["WR-7 assembly left-panel", "since:"]
    names = {
        title: [line.split(":")[0] for line in lines if not line.startswith(" ")] for title, lines in panel.items()
    }
    assert (names["Places"], names["Equipment"], names["Leads"]) == (
        ["left-panel-root", "left-aileron"],
        ["left-aileron"],
        ["left-aileron B"],
    )
    fuselage = sections_of(parts["record/assembly-fuselage.txt"])
    assert [line.split(":")[0] for line in fuselage["Leads"] if not line.startswith(" ")] == [
        "supply A",
        "left-aileron A",
        "right-aileron A",
        "rudder A",
    ]
    joint = parts["record/disconnect-left-root.txt"]
    assert joint.startswith("WR-7 disconnect left-root\nsince:\nleft-root: block-6, 6 contacts\n")
    assert parts["record/equipment-receiver.txt"].startswith("WR-7 equipment receiver\nsince:\nreceiver: receiver at ")
