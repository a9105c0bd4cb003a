"""What a caution says, word for word, with each figure worked out by hand: beside it here or beside its case."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from docgen.definition.load import load_definition
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.pipeline import check

from . import test_cautions_electrical as electrical
from . import test_cautions_of_equipment as equipment
from . import test_cautions_of_joints as joints
from . import test_cautions_of_runs as runs

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder, Case, Changes

CASES: dict[str, Case] = joints.ALL | equipment.ALL | runs.ALL | electrical.ALL

# Gauges in mm² by the law of AWG, π/4 (0.127 mm × 92^((36 − n)/39))²: 16 AWG 1.309, 18 AWG 0.823, 20 AWG 0.518, 22 AWG
# 0.326, 24 AWG 0.205, 26 AWG 0.129. What takes 22 AWG takes its metric twin of 0.34 mm²: 0.518 − 0.34 = 0.18;
# 1.309 − 0.823 = 0.49, 0.205 − 0.129 = 0.076 mm².
SAID_OF_JOINTS = {
    "single-contact: the pole of two servos": (
        "one contact of `left-root` carries the negative of 2 servos.",
        "Give the common a second contact, so that one bad contact does not lose them all.",
    ),
    "crimp-fit: too thick for the plug": (
        "segment A of `rudder` does not fit at `receiver 4`: the wires `negative`, `positive`, `signal` are `pvc-20` "
        "of "
        "20 AWG, by 0.18 mm² heavier than 22 AWG and 1.8 mm thick, 0.1 mm over the 1.7 mm that go in; the contacts of "
        "`servo-3` take 28 AWG to 22 AWG.",
        "Instead of `pvc-20` take 0.34 mm² like `pvc-034`, or choose contacts that take 20 AWG, 1.8 mm thick.",
    ),
    "crimp-fit: too thin for the joint": (
        "segment B of `left-aileron` does not fit at the loose half of `left-root`: the wires `negative`, `positive`, "
        "`signal` are `pvc-26` of 26 AWG, by 0.076 mm² lighter than 24 AWG; the contacts of `block-6` take 24 AWG to "
        "18 AWG.",
        "Instead of `pvc-26` take 24 AWG like `pvc-24`, or choose contacts that take 26 AWG, 1.3 mm thick.",
    ),
    "crimp-fit: a heavy pair that goes straight in": (
        "segment A of `left-wing` does not fit at the fixed half of `left-root`: the wire `positive` is `pvc-16` of "
        "16 AWG, by 0.49 mm² heavier than 18 AWG and 2.4 mm thick, 0.2 mm over the 2.2 mm that go in; the contacts of "
        "`block-8` take 24 AWG to 18 AWG.",
        "Instead of `pvc-16` take 18 AWG like `pvc-18`, or choose contacts that take 16 AWG, 2.4 mm thick.",
    ),
    "swap: keyed alike": (
        "the loose half of `left-root` mates with the fixed half of `right-root` too: both are `block-6` keyed `A`, "
        "170 mm apart in a straight line, and its tail reaches 175 mm.",
        "Fit shells that can't be mated with each other, and say so: `keyed: A` at `left-root`, `keyed: B` at "
        "`right-root`; or keep that tail under 170 mm.",
    ),
    "swap: two loose halves, both reaches": (
        "the loose half of `left-root` mates with the loose half of `right-root` too: both are `block-6`, 180 mm apart "
        "in a straight line, and both tails together reach 190 mm.",
        "Fit shells that can't be mated with each other, and say so: `keyed: A` at `left-root`, `keyed: B` at "
        "`right-root`; or keep both tails together under 180 mm.",
    ),
    "live-pins: the first of two free halves": (
        "`left-aileron` brings supply to the fuselage half of `left-root`, which carries pins: once parted they are "
        "live and bare (contacts 1, 2).",
        "Give its fuselage half sockets and its left-panel half pins (`contacts:`).",
    ),
    "live-pins: both halves are fed": (
        "`supply-2` brings supply to the loose half of `left-root`, which carries pins: once parted they are live and "
        "bare (contacts 1, 2); its other half is fed too.",
        "Bring supply to one half only, and give that one sockets; the other circuits take another disconnect.",
    ),
    "live-pins: a pack's plug": (
        "the plug `power-2` of the pack `pack` carries pins, always live.",
        "Fit the pack with sockets, and say `contacts: sockets` for its port.",
    ),
    "live-pins: a pack's plug by its kind": (
        "the plug `mine` of the pack `pack` carries pins, always live.",
        "Fit the pack with sockets, and choose a plug whose `equipment:` is sockets.",
    ),
    # 5 of 6 and 23 of 26 are in use: 5 + 2 = 7, and 23 + 4 = 27 or more.
    "spare-contacts: one of six": (
        "`left-root` has 1 of 6 contacts to spare, 2 are wanted (AC 43.13-1B 11-234): 1 too few.",
        "Choose a shell with at least 7 contacts, or take circuits out of this one.",
    ),
    "spare-contacts: three of 26": (
        "`left-root` has 3 of 26 contacts to spare, 4 are wanted (AC 43.13-1B 11-234): 1 too few.",
        "Choose a shell with at least 27 contacts, or take circuits out of this one.",
    ),
}

# A stroke and a tenth of it, up to a whole second: 9.9 → 10 s, 4.4 → 5 s (common practice). A stop between 1.3 × 1 A of
# working and 0.8 × 4 A of stall.
SAID_OF_EQUIPMENT = {
    "failsafe: an engine that is held": (
        "nothing says off or idle for `engine` (engine unit) when the radio is lost; `throttle` says hold.",
        "Say `failsafe: off` or `failsafe: idle` at `throttle`, and set it in every receiver.",
    ),
    "failsafe: one of its circuits is enough": (
        "nothing says off or idle for `pump` (smoke) when the radio is lost.",
        "Say `failsafe: off` at `pump-supply` or `pump-signal`, and set it in every receiver.",
    ),
    "failsafe: that of its channel is asked for": (
        "nothing says off or idle for `pump` (smoke) when the radio is lost.",
        "Say `failsafe: off` at `pump-signal`, and set it in every receiver.",
    ),
    "gear-limit: neither limit nor stop": (
        "the motor of `nose-leg` has neither a limit nor a stop: jammed, it is fed until it burns.",
        "Set the controller to 10 s for its stroke of 9 s, and say `limit:`.",
    ),
    "gear-limit: nothing at all": (
        "the motor of `nose-leg` has neither a limit nor a stop: jammed, it is fed until it burns.",
        "Time its strokes at the lowest pack volts with wheels on, and say `gear: {up: …, down: …, limit: …}`.",
    ),
    "gear-limit: under the longer stroke down": (
        "the limit of `nose-leg` is 8.9 s, its longer stroke takes 9 s: 0.1 s short, so it stops half-way.",
        "Set the controller to 10 s for this leg, and say `limit: 10 s`.",
    ),
    "gear-limit: a quarter and no 2 s over": (
        "the limit of `nose-leg` is 7.1 s, 2.1 s over the 5 s that its longer stroke of 4 s wants: a jammed motor "
        "cooks "
        "for that long.",
        "Set the controller to 5 s for this leg, and say `limit: 5 s`.",
    ),
    "gear-limit: more than 2 s and no quarter over": (
        "the limit of `nose-leg` is 12.604 s, 2.6 s over the 10 s that its longer stroke of 9 s wants: a jammed motor "
        "cooks for that long.",
        "Set the controller to 10 s for this leg, and say `limit: 10 s`.",
    ),
    "gear-limit: a stop that working trips": (
        "the stop of `nose-leg` is 1.2 A, 0.1 A under 1.3 times the 1 A that it works at: working trips it.",
        "Set it between 1.3 A and 3.2 A.",
    ),
    "gear-limit: a stop that a stall does not trip": (
        "the stop of `nose-leg` is 3.3 A, 0.1 A over 0.8 times the 4 A that it stalls at: a stall may not trip it.",
        "Set it between 1.3 A and 3.2 A.",
    ),
    "gear-limit: a stop that working trips, of what is not known to stall": (
        "the stop of `nose-leg` is 1.2 A, 0.1 A under 1.3 times the 1 A that it works at: working trips it.",
        "Set it to 1.3 A or more.",
    ),
    "gear-limit: a stop that a stall does not trip, of what is not known to work": (
        "the stop of `nose-leg` is 3.3 A, 0.1 A over 0.8 times the 4 A that it stalls at: a stall may not trip it.",
        "Set it to 3.2 A or less.",
    ),
    "gear-limit: a stop without room, at what it works at": (
        "the stop of `nose-leg` is 2 A, no more than the 2 A that it works at: working trips it.",
        "Set it between 2 A and 3 A.",
    ),
    "gear-limit: a stop without room, at what it stalls at": (
        "the stop of `nose-leg` is 3 A, no less than the 3 A that it stalls at: a stall may not trip it.",
        "Set it between 2 A and 3 A.",
    ),
    "gear-limit: a stop of what stalls at no more than it works at": (
        "the stop of `nose-leg` is 2 A, no more than the 2 A that it works at: working trips it.",
        "Measure again what it works and stalls at: nothing lies between.",
    ),
    "antennas: a pair that crosses alike": (
        "antenna `B` of `receiver` lies crosswise, as `A` lies too: they are deaf the same way.",
        "Lay it lengthwise or upright, at right angles to the other.",
    ),
    "antennas: two receivers on two axes": (
        "the antennas of `receiver` and `receiver-b` all lie lengthwise or crosswise: 1 short of three axes.",
        "Lay one of those of `receiver-b` upright.",
    ),
    "heat: a pack in more heat than it bears": (
        "`pack` stands in 60 °C at `battery-bay` and bears 59 °C: 1 °C too much.",
        "Put it where it is cooler, or lead air over it and measure again.",
    ),
    "antennas: too short a lead": (
        "the lead of antenna `B` of `receiver` is 199 mm, its place lies 200 mm away along the runs: 1 mm short.",
        "Fit one with a lead of 200 mm at least, or let it lie nearer.",
    ),
}

SAID_OF_RUNS = {
    "reach: an own lead at the load": (
        "the own lead of `rudder` is 300 mm, its plug lies 301 mm away along the runs: 1 mm short.",
        "Give it a lead of 301 mm at least, or let its plug lie nearer (`plug_at:`) and wire the rest.",
    ),
    "reach: plugged straight in, both leads": (
        "the own leads are 120 mm (`receiver 3`) and 139 mm (`gyro`), 259 mm together; `receiver 3` and `gyro` lie "
        "260 mm apart along the runs: 1 mm short.",
        "Give it leads of 260 mm together at least, or wire the circuit with a `lead:`.",
    ),
    "reach: plugged straight in with a loop": (
        "the own lead of `gyro` is 300 mm; `receiver 3` and `gyro` lie 260 mm apart along the runs and 41 mm are to "
        "lie "
        "coiled: 1 mm short.",
        "Give it a lead of 301 mm at least, or wire the circuit with a `lead:`.",
    ),
    "access: where a lead plugs into a port": (
        "`radio-tray` has no access, but `receiver BATT`, `receiver 1`, `receiver 2`, `receiver 4` plug in there.",
        "Say how a hand gets there (`access:`), or let the plugs lie where one does (`plug_at:`).",
    ),
    "heat: a wire in a hot run": (
        "segment A of `rudder` lies in 80 °C between `radio-tray` and `tail-post`; `pvc-22` stands just 80 °C.",
        "Use a wire that stands it, such as `fluoro-22`, `silicone-22`, or lead it by another route.",
    ),
    "heat: an own lead in a hot run": (
        "rudder's own lead lies in 90 °C between `tail-hatch` and `tail-post`; `lead-26` stands 80 °C, 10 °C too "
        "little.",
        "Use a wire that stands it, such as `fluoro-26`, `silicone-26`, or lead it by another route.",
    ),
    # Three wires of 1.3 mm with paper: 1.1 × (2.155 × 1.3 + 0.5) = 3.63 mm wants a tube of 4 mm.
    "heat: a label's tube": (
        "labels of segment A of `rudder` lie in 140 °C between `radio-tray` and `tail-post`; `clear-4` stands "
        "135 °C, and no clear tube that fits stands more.",
        "Add a clear tube that stands 140 °C to `parts.yaml`, or lead it by another route.",
    ),
    "unsleeved: sharp, and no sleeve is small enough": (
        "the run between `radio-tray` and `spine` is sharp; no sleeve fits its 0.30 mm of wires.",
        "Add a sleeve that fits 0.3 mm to 0.3 mm to `parts.yaml`, or dress its edges and say so (`dressed:`).",
    ),
    "unsleeved: sharp and too hot for any sleeve": (
        "the run between `radio-tray` and `tail-post` is sharp and 265 °C hot, 185 °C over the 80 °C that go without "
        "(common practice); no sleeve fits its 3.45 mm of wires and stands 265 °C.",
        "Add a sleeve that fits 3.4 mm to 3.5 mm and stands 265 °C to `parts.yaml`, or lead its wires by another "
        "route.",
    ),
    "bend: a lead": (
        "the hinge between `battery-bay` and `radio-tray` bends 3.6 mm of wires round 35 mm; they want 36 mm (10 times "
        "the outside diameter), 1 mm more.",
        "Lay them round 36 mm or more, or in a loop that twists and does not bend.",
    ),
    "bend: a coax": (
        "the hinge between `radio-tray` and `spine` bends 3 mm of wires round 17 mm; they want 18 mm (what their coax "
        "bears), 1 mm more.",
        "Lay them round 18 mm or more, or in a loop that twists and does not bend.",
    ),
}

# Figures without a calculation here have theirs beside the case.
SAID_OF_CURRENTS = {
    "volts: at peak": (
        "6.10 V are left at `receiver` at peak (4 stall together; common practice: surfaces move in pairs); it needs "
        "5.81 V and 0.3 V to spare (common practice): 0.01 V short.",
        "",
    ),
    "volts: behind an output that keeps some back": (
        "5.03 V are left at `left-aileron` with it stalled; it needs 4.8 V and 0.3 V to spare (common practice): "
        "0.07 V short.",
        "",
    ),
    "overvolts: a full pack at the receiver": (
        "the full pack `pack` gives `receiver` 8.4 V, it bears 6 V: 2.4 V too much.",
        "Put a regulator of at most 6 V before it (`output:`), or one that bears 8.4 V.",
    ),
    "overvolts: an output": (
        "the output of `receiver` gives `rudder` 6.6 V, it bears 6 V: 0.6 V too much.",
        "Put a regulator of at most 6 V before it (`output:`), or one that bears 6.6 V.",
    ),
    "joined-supplies: two packs at a receiver": (
        "the positives of several supplies meet at `receiver`: pack, pack-2.",
        "Leave the positive out of one lead (`omit: [positive]`; supply-2, supply), or say `isolates: yes` if it is "
        "so.",
    ),
    "joined-supplies: six packs at a receiver": (
        "the positives of several supplies meet at `receiver`: pack, pack-2, pack-3, pack-4, pack-5, pack-6.",
        "Leave the positive out of one lead (`omit: [positive]`; supply-3, supply-5, supply-2, supply-6, supply-4, "
        "supply), or say `isolates: yes` if it is so.",
    ),
    "joined-supplies: a lead to an outlet that is regulated": (
        "the positives of several supplies meet at `receiver`: pack-2, receiver's regulated outlets 1.",
        "Leave the positive out of one lead (`omit: [positive]`; back), or accept it where that port is kept apart.",
    ),
    "joined-supplies: a common negative": (
        "the negative common `all` joins several supplies: pack, pack-2.",
        "Give each supply a common of its own.",
    ),
    "wire-current: its own figure": (
        "positive and negative of rudder A: each carries 3.10 A working; `pvc-22` may carry 3 A (its own `current:`), "
        "0.1 A over.",
        "Wire rudder with `servo-fluoro-22`.",
    ),
    "wire-current: nothing says what it may carry": (
        "nothing says what `mine` may carry; rudder A carries 0.50 A.",
        "Give it a `current:` in `parts.yaml`.",
    ),
    # 3 A × √((80 − 75) / (80 − 70)) = 2.121 A, of 2.2 A 0.079 A too few.
    "wire-current: less above 70 °C": (
        "positive and negative of rudder A: each carries 2.20 A working; `pvc-22` may carry 2.12 A at 75 °C (its own "
        "`current:`), 0.079 A over.",
        "Wire rudder with `servo-fluoro-22`.",
    ),
    # 5 A × √((150 − 110) / (150 − 70)) = 3.536 A, of 3.6 A 0.064 A too few.
    "wire-current: less of the column above 70 °C": (
        "positive and negative of rudder A: each carries 3.60 A working; `mine` may carry 3.53 A at 110 °C (FAA AC "
        "43.13-1B table 11-9), 0.064 A over.",
        "Wire rudder with `servo-silicone-22`.",
    ),
    "wire-current: the tails of a common": (
        "positive of each tail of servo-positive behind the loose half of left-root: the wire carries 3.20 A working; "
        "`pvc-22` may carry 3 A (its own `current:`), 0.2 A over.",
        "That takes 2 contacts, each with a tail, and left-root has too few to spare (2, of which 2 are to stay "
        "spare): "
        "choose a shell with more contacts or whose contacts take heavier wire, or lead some circuits elsewhere.",
    ),
    "contact-current: stalled": (
        "positive and negative at receiver 4: each carries 5.10 A for a short while and is rated 5 A (`brief:`), "
        "0.1 A over.",
        "No plug of the parts list with its roles bears that: give it a supply of its own on `power-2`, and this plug "
        "the signal alone; or add a heavier one to `parts.yaml`.",
    ),
    "contact-current: a leg that may stay jammed for long, at its stop": (
        "one and other at gear-unit LEG: each carries 5.10 A with gear legs jammed and is rated 5 A (`rating:`), "
        "0.1 A over.",
        "No plug of the parts list that takes its wire bears that: add a heavier one to `parts.yaml`. Or stop the leg "
        "at 5 A, `gear: {stop: …}`.",
    ),
    "contact-current: a common": (
        "positive at left-root, common servo-positive: the contact carries 1.20 A working and is rated 1 A "
        "(`rating:`), "
        "0.2 A over.",
        "Use a heavier shell: `block-8`, `block-10`, `block-14`: it takes 2 contacts, and left-root has too few to "
        "spare "
        "(2, of which 2 are to stay spare).",
    ),
    # 3 × 2.4 A stalled of 4 that may; a tenth of an ampere up: 7.4 A for the pack's 7.35 A.
    "supply-current: a group of ports": (
        "`receiver` 1, 2, 3, 4 together give 7.20 A at peak (4 stall together; common practice: surfaces move in "
        "pairs) "
        "and may give 7.1 A (`rating:`): 0.1 A over.",
        "Use one that may give 7.2 A, or hang some loads elsewhere.",
    ),
    "supply-current: a pack": (
        "`pack` gives 7.35 A at peak (4 stall together; common practice: surfaces move in pairs) and may give 7.3 A "
        "(`rating:`): 0.05 A over.",
        "Use one that may give 7.4 A, or hang some loads elsewhere.",
    ),
    # 1.85 A for 9 min are 277.5 mAh.
    "one-pack: it can't finish a flight": (
        "`pack-2` alone can't finish a flight: one takes 278 mAh.",
        "Use packs of 278 mAh at least.",
    ),
    # 6.4 − 7.35 × 0.34085 = 3.8948 V of 3.9 V.
    "one-pack: it can't keep the volts at peak": (
        "`pack-2` alone leaves 3.89 V at `receiver` at peak (4 stall together; common practice: surfaces move in "
        "pairs), 0.0052 V less than it needs with 0.3 V to spare (common practice).",
        "",
    ),
    # One flight of 277.5 mAh / 0.7 = 396.4 mAh; seven 2775 mAh; 396 × 0.7 / 277.5 = 0.9989, 2600 × 0.7 / 277.5 = 6.558.
    "endurance: one flight and the reserve": (
        "`pack` does 0.99 flights on a charge with 30 % left; 1 is wanted.",
        "That takes 397 mAh in all; or fly less on a charge (`flights:`, `time:`).",
    ),
    "endurance: several flights": (
        "`pack` does 6.55 flights on a charge with 30 % left; 7 are wanted.",
        "That takes 2775 mAh in all; or fly less on a charge (`flights:`, `time:`).",
    ),
    "endurance: like packs on one unit are counted together": (
        "`pack-2` with `pack` does 0.99 flights on a charge with 30 % left; 1 is wanted.",
        "That takes 397 mAh in all; or fly less on a charge (`flights:`, `time:`).",
    ),
}

SAID = SAID_OF_JOINTS | SAID_OF_EQUIPMENT | SAID_OF_RUNS | SAID_OF_CURRENTS


# The rudder way needs 1333.8 mm and is cut 1335 mm (test_lengths.py). From a panel's root to its aileron it is 90 mm
# aft, 720 mm out and 20 mm up, √526 900 = 725.88 mm; from bay to tray 240 mm aft and 10 mm up, √57 700 = 240.2 mm.
RUDDER = "    to: rudder\n    lead: servo-22\n"
SHORT_SPOOLS = "".join(f"  - {{wire: pvc-22, colour: {colour}, length: 1 m}}\n" for colour in ("BK", "RD", "WH"))
PVC_22 = "{gauge: 22 AWG, diameter: 1.6 mm, resistance: 16.2 ohm/1000ft, limit: 80 °C, current: 3 A, sold: [0.9 m]}"
SAID_OF_LENGTHS: dict[str, tuple[Changes, str, str]] = {
    "short": (
        {"harness.yaml": [(RUDDER, f"{RUDDER}    lengths: {{A: 1333 mm}}\n")]},
        "segment A is pinned to 1333 mm, its route needs 1334 mm.",
        "Pin it to 1335 mm at least, or leave it to be worked out.",
    ),
    "straight": (
        {"aircraft.yaml": [("length: 745 mm", "length: 700 mm")]},
        "700 mm between `left-panel-root` and `left-aileron` is under the straight line of 725.9 mm.",
        "Measure it again, or correct `at`.",
    ),
    "unmeasured": (
        {"aircraft.yaml": [("[battery-bay, radio-tray], length: 260 mm}", "[battery-bay, radio-tray]}")]},
        "the run between `battery-bay` and `radio-tray` is not measured; 240 mm is the straight line.",
        "Measure it along the structure.",
    ),
    "unused": (
        {"harness.yaml": [("  pack:\n", "  lamp: {kind: light, place: tail-post}\n  pack:\n")]},
        "no circuit reaches `lamp`.",
        "Add its circuit, or delete it; if it is meant, accept this.",
    ),
    "spool": (
        {"stores.yaml": f"spools:\n{SHORT_SPOOLS}", "parts.yaml": f"wires: {{pvc-22: {PVC_22}}}\n"},
        "segment A of `rudder` is cut 1335 mm from `pvc-22` BK, whose longest spool is 1000 mm.",
        "Get a spool of 1.4 m at least (`spools:`, or `sold:` of the wire).",
    ),
}


@pytest.mark.parametrize(
    ("name", "changes", "sentence", "do"), [(name, *said) for name, said in SAID_OF_LENGTHS.items()]
)
def test_what_is_found_of_lengths_says_this(
    name: str, changes: Changes, sentence: str, do: str, aircraft_folder: AircraftFolder
) -> None:
    found = [finding for finding in check(aircraft_folder(changes)).findings if finding.name == name]
    assert (sentence, do) in [(finding.sentence, finding.do) for finding in found]


@pytest.mark.parametrize(("about", "sentence", "do"), [(about, *said) for about, said in SAID.items()], ids=SAID)
def test_a_caution_says_this_of_something_that_was_typed(
    about: str, sentence: str, do: str, aircraft_folder: AircraftFolder
) -> None:
    case = CASES[about]
    folder = aircraft_folder(case.wrong)
    [found, *_] = [finding for finding in check(folder).findings if finding.name == case.name]
    assert found.sentence == sentence
    assert found.do == do or not do
    assert stands_on_something(folder, *found.subject)


INSIDE = {"commons": "disconnects", "antennas": "equipment"}


def stands_on_something(folder: Path, section: str, name: str) -> bool:
    """Tell whether an entry was typed; a run is told by its number, a common or an antenna with what it belongs to."""
    definition, _ = load_definition(folder, ACCEPTABLE)
    nodes = definition.where.sections
    if section in INSIDE:
        owner, name = name.split()
        return name in dict(dict(dict(nodes[INSIDE[section]].items())[owner].items())[section].items())
    entries = nodes[section].value
    return int(name) < len(entries) if isinstance(entries, list) else name in entries


# What is named in words is also there as values.
REMEDIES = {
    "single-contact: the pole of two servos": {"disconnect": "left-root", "common": "all", "contacts": 2},
    "wire-current: its own figure": {"circuit": "rudder", "lead": "servo-fluoro-22"},
    "wire-current: an own lead": {"equipment": "rudder", "lead_wire": "silicone-26"},
    "wire-current: the tails of a common": None,
    "contact-current: working": None,
    "volts: at peak": {"circuit": "supply", "lead": "power-075"},
    "drop: by segment": {"circuit": "left-aileron", "lead": "servo-22"},
    "drop: plugged straight in": {"equipment": "gyro", "lead_wire": "lead-26"},
    "one-pack: it can't keep the volts at peak": {"circuit": "supply-2", "lead": "power-075"},
}


@pytest.mark.parametrize(("about", "remedy"), REMEDIES.items(), ids=REMEDIES)
def test_a_caution_carries_what_it_names_as_values(
    about: str, remedy: dict[str, str | int] | None, aircraft_folder: AircraftFolder
) -> None:
    case = CASES[about]
    [found, *_] = [finding for finding in check(aircraft_folder(case.wrong)).findings if finding.name == case.name]
    assert found.remedy == remedy
