"""What the record says in figures, of limits and findings, held against what a hand works out."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from recorded import Sections, entry, sections_of
from resolved import harness_of, record_of

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes


def record_with(aircraft_folder: AircraftFolder, changes: Changes) -> Sections:
    """Return the record of the smallest example with changes."""
    return sections_of(record_of(harness_of(aircraft_folder(changes))).whole)


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


def test_what_stops_is_everything_or_functions_by_their_labels(wren: Sections, fulmar: Sections) -> None:
    # All hangs on one pack and one receiver; a wing's joint carries its aileron alone.
    assert wren["What stops when one thing is lost"] == [
        "receiver receiver: everything stops",
        "battery pack: everything stops",
        "joint left-root: AIL L stops",
        "joint right-root: AIL R stops",
        "lead supply: everything stops",
    ]
    # The other of two packs, the power unit isolating them, feeds everything that it fed.
    assert "battery left-pack: nothing stops" in fulmar["What stops when one thing is lost"]


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
    # at 8 mm: 4.5 % at 3.4475 mm; (1140 - 72) mm / 0.955 = 1118.4, rounded up to 1120 mm.
    bundles = entry(wren["Bundles and sleeves"], "radio-tray to tail-post")
    assert bundles == [
        "radio-tray to tail-post: 3.45 mm thick, bend 10 mm at least where it lies held",
        "rudder A",
        "braid-4 (braided sleeve): cut 1120 mm to cover 1068 mm, 4.5 % shorter when fitted",
    ]
    # Two wires of 1.8 mm, on a run without sharp edges.
    supply = entry(wren["Bundles and sleeves"], "battery-bay to radio-tray")
    assert supply == ["battery-bay to radio-tray: 3.60 mm thick, bend 11 mm at least where it lies held", "supply A"]


def test_a_sleeve_over_several_runs_is_cut_at_its_first_and_goes_on_over_the_others(
    aircraft_folder: AircraftFolder,
) -> None:
    # The same way in two runs with the same lead: one piece, as long as where it is one run.
    places = "  tail-post:         {assembly: fuselage,     at: {aft: 1540 mm, up: 40 mm}, access: tail hatch}\n"
    run = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
    parted = (
        "  - {between: [radio-tray, former], length: 600 mm, edges: sharp}\n"
        "  - {between: [former, tail-post], length: 540 mm, edges: sharp}\n"
    )
    changes = [(places, f"{places}  former: {{assembly: fuselage, at: {{aft: 1010 mm}}}}\n"), (run, parted)]
    bundles = record_with(aircraft_folder, {"aircraft.yaml": changes})["Bundles and sleeves"]
    cut = "over 2 runs, cut 1120 mm to cover 1068 mm, 4.5 % shorter when fitted"
    assert entry(bundles, "radio-tray to former")[2] == f"braid-4 (braided sleeve): {cut}"
    assert entry(bundles, "former to tail-post")[2] == "braid-4 goes on over this run"


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
    # 2 x 0.125 + 1.12 = 1.37 m of 3 g/m: 4.1 g. Each at the middle of its run: 4.81 g at 300 mm, 2 x (4.68 + 0.375) g
    # at 510 mm, (20.83 + 3.36) g at 980 mm: 1443 + 5156 + 23702 = 30301 g mm.
    # A panel: 3 x 1.045 m of 5.2 g/m are 16.3 g, braid 0.785 m of 3 g/m 2.4 g, at 645 mm: 12.0 g m.
    # All: 30.301 + 2 x 18.66 x 0.645 = 54.37 g m.
    says, *rows = wren["Balance about the nose datum"]
    assert says.endswith("nose ballast is yours to add.")
    assert [" ".join(row.split()) for row in rows] == [
        "assembly leads g sleeves g others g all g g m",
        "fuselage 35 4 0 39 30.3",
        "left-panel 16 2 0 19 12.0",
        "right-panel 16 2 0 19 12.0",
        "all 68 9 0 76 54.4",
        "fuselage: no mass known of receiver, pack, rudder",
        "left-panel: no mass known of left-aileron",
        "right-panel: no mass known of right-aileron",
    ]


def test_switching_and_volts_at_rest_are_said_in_order(wren: Sections) -> None:
    assert wren["Order of switching"] == [
        "on 1: pack: plug the pack in through the nose hatch; the receiver's light comes on",
        "off 1: pack: unplug it",
    ]
    assert wren["At rest, packs empty to full"][0] == "supply: RX BATT, 6.4 to 8.4 V"


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
        "fuse (note), equipment left-pack",
        "fuse (note), equipment right-pack",
        "one-loss (caution), equipment power-unit",
        "cover (note), equipment left-flap",
        "cover (note), equipment right-flap",
        "cover (note), equipment rudder",
        "fuse (note), equipment service-pack",
        "endurance (caution), equipment left-fan-pack",
        "endurance (caution), equipment right-fan-pack",
        "unmeasured (note), run radio-tray to spine-post",
    ]
    for line in said[:2]:
        assert line.endswith(
            "; accepted: so much only against a stop; 5.3 V are left and these servos work from 4.8 V."
        )
    endurance, unmeasured = said[-2:]
    assert endurance.endswith("; accepted: one flight on a charge; both packs are changed after each landing.")
    assert unmeasured.endswith("; accepted: only the coax of one antenna lies here and has length to spare.")


def test_findings_of_a_section_stand_in_the_order_written(aircraft_folder: AircraftFolder) -> None:
    changes: Changes = {
        "aircraft.yaml": [
            ("[radio-tray, tail-post],   length: 1140 mm,", "[radio-tray, tail-post],"),
            ("[<side>-panel-root, <side>-aileron], length: 745 mm,", "[<side>-panel-root, <side>-aileron],"),
        ]
    }
    found = record_with(aircraft_folder, changes)["Findings"]
    assert [line.split(":")[0] for line in found if line.startswith("unmeasured")] == [
        "unmeasured (note), run radio-tray to tail-post",
        "unmeasured (note), run left-panel-root to left-aileron",
        "unmeasured (note), run right-panel-root to right-aileron",
    ]


def test_findings_stand_by_place_and_not_by_name(aircraft_folder: AircraftFolder) -> None:
    # 90 min in the air are too long for the pack, which is written after what no circuit reaches.
    changes: Changes = {
        "aircraft.yaml": [("time: 9 min", "time: 90 min")],
        "harness.yaml": [("equipment:\n", "equipment:\n  spare: {kind: light, place: tail-post}\n")],
    }
    found = record_with(aircraft_folder, changes)["Findings"]
    assert [line.split(":")[0] for line in found] == [
        "unused (note), equipment spare",
        "endurance (caution), equipment pack",
    ]


def test_a_finding_that_nobody_accepted_says_nothing_of_it(aircraft_folder: AircraftFolder) -> None:
    changes: Changes = {"aircraft.yaml": [("[battery-bay, radio-tray], length: 260 mm", "[battery-bay, radio-tray]")]}
    (said,) = record_with(aircraft_folder, changes)["Findings"]
    assert said.startswith("unmeasured (note), run battery-bay to radio-tray: ")
    assert "accepted" not in said
