"""What the record says, held against what the builder wrote and what a hand works out, both typed here."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from resolved import harness_of

from docgen.basics.shipped import shipped_folder
from docgen.paperwork.record import record

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

Sections = dict[str, list[str]]


def sections_of(text: str) -> Sections:
    """Return the lines below each heading, what was wrapped as one line; its head is below ""."""
    found: Sections = {"": []}
    lines, depth = found[""], 0
    for line in text.split("\n"):
        indent = len(line) - len(line.lstrip())
        if re.fullmatch(r"[-=]+", line):
            lines = found.setdefault(lines.pop(), [])
        elif lines and indent >= depth + 4:
            lines[-1] += f" {line.strip()}"
        elif line:
            lines.append(line)
            depth = indent
    return found


def entry(lines: list[str], name: str) -> list[str]:
    """Return what is said of one thing: its line and those indented below it."""
    start = next(i for i, line in enumerate(lines) if line.startswith(f"{name}: "))
    end = next((i for i in range(start + 1, len(lines)) if not lines[i].startswith(" ")), len(lines))
    return [line.strip() for line in lines[start:end]]


def record_with(aircraft_folder: AircraftFolder, changes: Changes) -> Sections:
    """Return the record of the smallest example with changes."""
    return sections_of(record.content(harness_of(aircraft_folder(changes))).whole)


@pytest.fixture(scope="module")
def wren() -> Sections:
    return sections_of(record.content(harness_of(shipped_folder("examples") / "wren")).whole)


@pytest.fixture(scope="module")
def fulmar() -> Sections:
    return sections_of(record.content(harness_of(shipped_folder("examples") / "fulmar")).whole)


# Head, airframe


def test_it_says_which_aircraft_and_state_it_is_and_where_it_stands(wren: Sections, fulmar: Sections) -> None:
    assert wren[""] == [
        "Wren WR-7: record of the harness",
        "2.2 m high-wing trainer, two plug-in wing panels",
        "revision: A",
        "date: 2026-04-18",
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
        "aft-bay to tail-former: 655 mm, sharp edges, dressed with tube",
        "motor-bay to left-fan-bay: 330 mm, sharp edges, heat 130 °C",
        "left-leg-bay to left-wheel: 250 mm, hinge 25 mm",
        # The straight line between (640, 70) and (760, 150): the root of 120² + 80² = 144.2 mm.
        "radio-tray to spine-post: 144.2 mm, not measured",
    ):
        assert said in fulmar["Runs"]


# Equipment


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
        "on: plug it in with the key out; its lamp on the power unit comes on",
        "off: unplug it after the key is out",
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
        "on: put the key into the left sill; both lamps steady",
        "off: pull the key; both lamps go out after two seconds",
        "note: Takes all channels from either receiver over RX-A and RX-B; numbered as on its lid. "
        "WING gives supply only.",
    ):
        assert said in unit


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


# Disconnects, circuits, leads


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
        "to left-aileron (servo-3 pins, own lead 250 mm, lead-26 assumed) at left-aileron",
        "C1B22N: negative, BK black, pvc-22, left-root contact 1 to left-aileron contact 1",
        "C1B22: positive, RD red, pvc-22, left-root contact 2 to left-aileron contact 2",
        "C2B22: signal, WH white, pvc-22, left-root contact 3 to left-aileron contact 3",
    ]
    assert entry(wren["Leads"], "supply A") == [
        "supply A: RX BATT, cut 325 mm, power-20",
        "route 260 mm: battery-bay, radio-tray",
        "from pack (power-2 pins, own lead 120 mm, pvc-20) at battery-bay",
        "to receiver BATT (power-2 sockets) at radio-tray",
        "P1A20N: negative, BK black, pvc-20, pack contact 1 to receiver BATT contact 1",
        "P1A20: positive, RD red, pvc-20, pack contact 2 to receiver BATT contact 2",
    ]


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


# Results. Wren by hand, as beside the tables of `docgen check`: supply 0.0408 ohm, aileron 0.2587 ohm, rudder
# 0.2608 ohm, both poles; working 1.85 A, peak 7.35 A; the pack gives 6.4 V. By the parts list pvc-20 bears 5 A, lead-26
# 2 A; contacts of power plugs bear 10 A, of servo plugs 3 A, and for at most 10 s 15 A and 5 A.


def test_circuits_say_their_currents_drops_and_how_much_of_each_limit_they_use(wren: Sections) -> None:
    assert wren["Volts and currents, packs at empty"] == [
        "Worked out, not measured: to be checked on the bench.",
        # 1.85 x 0.0408 = 0.076 V, of 6.4 V 1.2 %; at peak 6.4 - 7.35 x 0.0408 = 6.10 V; of the wire 1.85 of 5 A, of the
        # contact 1.85 of 10 A, briefly 7.35 of 15 A.
        "supply: 325 mm of 20 AWG, working 1.85 A, own drop 0.08 V, 1.2 %, 6.10 V left (peak), "
        "of its limit wire 37 %, contact 18 %, contact briefly 49 %",
        # 0.6 x 0.2587 = 0.155 V, 2.4 %; 2.4 x 0.2587 = 0.621 V, 9.7 %; 6.4 - 3.65 x 0.0408 - 0.621 = 5.63 V; of the
        # thinnest wire on the way, the servo's own 26 AWG, 0.6 of 2 A; of the contact 0.6 of 3 A, briefly 2.4 of 5 A.
        *(
            f"{side}-aileron: 1345 mm of 22 AWG, working 0.60 A, stalled 2.40 A, own drop 0.16 V, 2.4 %, "
            "stalled 0.62 V, 9.7 %, 5.63 V left (stall), of its limit wire 30 %, contact 20 %, contact briefly 48 %"
            for side in ("left", "right")
        ),
        # 0.5 x 0.2608 = 0.130 V, 2.0 %; 2.4 x 0.2608 = 0.626 V, 9.8 %; 6.4 - 3.75 x 0.0408 - 0.626 = 5.62 V.
        "rudder: 1335 mm of 22 AWG, working 0.50 A, stalled 2.40 A, own drop 0.13 V, 2.0 %, "
        "stalled 0.63 V, 9.8 %, 5.62 V left (stall), of its limit wire 25 %, contact 17 %, contact briefly 48 %",
    ]


def test_a_supply_says_what_arrives_at_each_stage_working_and_at_peak(wren: Sections) -> None:
    assert wren["Supplies"] == [
        "pack: working 1.85 A, peak 7.35 A",
        "  pack: 6.40 V working, 6.40 V at peak",
        # 6.4 - 1.85 x 0.0408 and 6.4 - 7.35 x 0.0408.
        "  receiver: 6.32 V working, 6.10 V at peak, drop on the way to it 0.08 V",
        # Less 0.6 A and 2.4 A through 0.2587 ohm.
        "  left-aileron: 6.17 V working, 5.48 V at peak, drop on the way to it 0.16 V",
        "  right-aileron: 6.17 V working, 5.48 V at peak, drop on the way to it 0.16 V",
        # Less 0.5 A and 2.4 A through 0.2608 ohm.
        "  rudder: 6.19 V working, 5.47 V at peak, drop on the way to it 0.13 V",
        # 1.85 A for 9 min; 2600 mAh x 0.7 / 277.5 mAh.
        "  6.6 flights on a charge, 277.5 mAh each",
    ]


def test_packs_that_share_say_each_alone_and_how_much_of_its_rating_each_gives(fulmar: Sections) -> None:
    packs = entry(fulmar["Supplies"], "left-pack + right-pack")
    # Either carries all of the peak where the other is lost: 16.69 A of 40 A.
    assert packs[0].endswith(", peak 16.69 A")
    assert packs[1].endswith(", 42 % of its rating")
    assert [line.split(":")[0] for line in packs[-2:]] == ["left-pack alone", "right-pack alone"]
    # Of 3200 mAh 30 % stay in either: what is left is its flights times what each takes, 4.6 being rounded.
    for line in packs[-2:]:
        flights, each_mah = map(float, re.findall(r"([\d.]+) flights, ([\d.]+) mAh each", line)[0])
        assert flights * each_mah == pytest.approx(0.7 * 3200, rel=0.012)
    # A fan takes 32 A for 6 min and 0.1 A for 4 min: 3206.7 mAh; 5000 mAh x 0.7 / 3206.7 = 1.09; 62 A of 100 A.
    fan = entry(fulmar["Supplies"], "left-fan-pack")
    assert fan[1].endswith(", 62 % of its rating")
    assert fan[-1] == "1.1 flights on a charge, 3206.7 mAh each"


def test_bundles_say_how_thick_they_are_how_they_bend_and_what_protects_them(wren: Sections) -> None:
    # Three wires of 1.6 mm: 2.1547 x 1.6 = 3.45 mm, held 3 x 3.45 = 10 mm. The braid shortens by 2 % at 3 mm and 30 %
    # at 8 mm: 4.5 % at 3.4475 mm; (1140 - 85 - 5) mm / 0.955 = 1099.5, rounded up to 1100 mm.
    bundles = entry(wren["Bundles and sleeves"], "radio-tray to tail-post")
    assert bundles == [
        "radio-tray to tail-post: 3.45 mm thick, bend 10 mm at least where it lies held",
        "rudder A",
        "braid-4 (braided sleeve): cut 1100 mm to cover 1050 mm, 4.5 % shorter when fitted",
    ]
    # Two wires of 1.8 mm, on a run without sharp edges.
    supply = entry(wren["Bundles and sleeves"], "battery-bay to radio-tray")
    assert supply == ["battery-bay to radio-tray: 3.60 mm thick, bend 11 mm at least where it lies held", "supply A"]


def test_a_bundle_names_every_lead_in_it(fulmar: Sections) -> None:
    # The steering is led by the pack bay; to the nose leg that way is 295 + 115 mm, over the radio tray 140 + 330 mm.
    assert entry(fulmar["Bundles and sleeves"], "nose-former to pack-bay")[1] == "steering A, nose-leg A"


def test_where_wires_bend_in_use_the_radius_is_that_of_the_hinge(fulmar: Sections) -> None:
    (said, *_) = entry(fulmar["Bundles and sleeves"], "left-leg-bay to left-wheel")
    found = re.search(r": (\S+) mm thick, bend (\d+) mm at least at the hinge$", said)
    assert found is not None
    # Ten times its diameter where it flexes (US Army TM 1-1500-204-23-4 item 27).
    assert int(found[2]) == pytest.approx(10 * float(found[1]), abs=0.55)


def test_masses_and_moments_are_said_by_assembly_in_metres(wren: Sections) -> None:
    # Leads of the fuselage: 2 x 0.325 m of 7.4 g/m, and of 5.2 g/m 3 x (2 x 0.3 + 1.335) m: 4.8 + 30.2 = 35.0 g; braid
    # 2 x 0.125 + 1.1 = 1.35 m of 3 g/m: 4.1 g. Each at the middle of its run: 4.81 g at 300 mm, 2 x (4.68 + 0.375) g at
    # 510 mm, (20.83 + 3.3) g at 980 mm: 1443 + 5156 + 23644 = 30243 g mm.
    # A panel: 3 x 1.045 m of 5.2 g/m are 16.3 g, braid 0.775 m of 3 g/m 2.3 g, at 645 mm: 12.0 g m.
    panel = "19 g (leads 16 g, sleeves 2 g, equipment 0 g), moment 12.0 g m"
    assert wren["Mass and moment about the nose datum"] == [
        "fuselage: 39 g (leads 35 g, sleeves 4 g, equipment 0 g), moment 30.2 g m",
        "  no mass known of receiver, pack, rudder",
        f"left-panel: {panel}",
        "  no mass known of left-aileron",
        f"right-panel: {panel}",
        "  no mass known of right-aileron",
    ]


# Limits and findings


def test_limits_say_the_usual_ones_with_their_source(wren: Sections) -> None:
    assert wren["Limits"] == [
        "own drop, working: 3.57 % (FAA AC 43.13-1B table 11-6, continuous)",
        "own drop, stalled: 10 % (common practice)",
        "volts to spare: 0.3 V (common practice)",
        "loads that stall together: 4 (common practice: surfaces move in pairs)",
        "heat that wants a sleeve, over: 80 °C (common practice)",
        "contacts to spare: 2 up to 25 contacts, 4 up to 100, 6 above (FAA AC 43.13-1B 11-234)",
    ]


def test_limits_say_the_builders_own_each_at_its_place(aircraft_folder: AircraftFolder) -> None:
    own = "limits: {drop_working: 3 %, drop_stalled: 11 %, margin: 0.4 V, together: 5, spare_contacts: 1, hot: 75 °C}\n"
    limits = record_with(aircraft_folder, {"harness.yaml": [("equipment:\n", f"{own}equipment:\n")]})["Limits"]
    assert [line.split(" (")[0] for line in limits] == [
        "own drop, working: 3 %",
        "own drop, stalled: 11 %",
        "volts to spare: 0.4 V",
        "loads that stall together: 5",
        "heat that wants a sleeve, over: 75 °C",
        "contacts to spare: 1",
    ]


def test_a_finding_says_its_level_its_subject_and_why_it_is_accepted(fulmar: Sections) -> None:
    said = fulmar["Findings"]
    assert [line.split(":")[0] for line in said] == [
        "drop (note), circuits left-elevator",
        "drop (note), circuits right-elevator",
        "drop (note), circuits rudder",
        "endurance (caution), equipment left-fan-pack",
        "endurance (caution), equipment right-fan-pack",
        "unmeasured (note), run radio-tray to spine-post",
    ]
    for line in said[:2]:
        assert line.endswith(
            "; accepted: so much only against a stop; 5.3 V are left and these servos work from 4.8 V."
        )
    assert said[3].endswith("; accepted: one flight on a charge; both packs are changed after each landing.")
    assert said[5].endswith("; accepted: only the coax of one antenna lies here and has length to spare.")


def test_a_finding_that_nobody_accepted_says_nothing_of_it(aircraft_folder: AircraftFolder) -> None:
    changes: Changes = {"aircraft.yaml": [("[battery-bay, radio-tray], length: 260 mm", "[battery-bay, radio-tray]")]}
    (said,) = record_with(aircraft_folder, changes)["Findings"]
    assert said.startswith("unmeasured (note), run battery-bay to radio-tray: ")
    assert "accepted" not in said


# Parts


def test_a_part_says_what_is_in_hand_and_nothing_else() -> None:
    parts = record.content(harness_of(shipped_folder("examples") / "wren")).parts
    panel = sections_of(parts["record/assembly-left-panel.txt"])
    assert panel[""] == ["WR-7 assembly left-panel", "since: A"]
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
    assert joint.startswith("WR-7 disconnect left-root\nsince: A\nleft-root: block-6, 6 contacts\n")
    assert parts["record/equipment-receiver.txt"].startswith(
        "WR-7 equipment receiver\nsince: A\nreceiver: receiver at "
    )
