"""Volts, currents and charge: each caution where it was typed, and a nearly equal definition without it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

# The example by hand. Wire per metre: 16.20 Ω/1000 ft = 0.05315 Ω/m (22 AWG), 9.88: 0.03241 Ω/m (20 AWG; both
# FAA AC 43.13-1B table 11-9), 40.07: 0.13146 Ω/m (26 AWG, nominal); 1000 ft = 304.8 m. Cut lengths: test_wren.py.
#   supply:  2 × (0.325 + 0.120) m × 0.03241 + 4 × 3 mΩ = 0.04085 Ω
#   aileron: 2 × 1.345 m × 0.05315 + 2 × 0.250 m × 0.13146 + 2 × (10 + 5 + 10) mΩ = 0.25870 Ω
#   rudder:  2 × 1.335 m × 0.05315 + 2 × 0.300 m × 0.13146 + 4 × 10 mΩ = 0.26079 Ω
# Working 0.15 + 2 × 0.6 + 0.5 = 1.85 A; peak 0.15 + 3 × 2.4 = 7.35 A; the pack at 6.4 V.

CURRENT = "    current: {working: 150 mA}\n"
RECEIVER_VOLTS = "{least: 3.6 V, most: 9 V}"
AILERON_CURRENT = "working: 0.6 A, stall: 2.4 A}"
AILERON_VOLTS = "working: 0.6 A, stall: 2.4 A}\n    volts: {least: 4.8 V"
RUDDER_CURRENT = "working: 0.5 A, stall: 2.4 A}"
RUDDER_VOLTS = "working: 0.5 A, stall: 2.4 A}\n    volts: {least: 4.8 V, most: 8.4 V}"
RUDDER_OWN = "    place: tail-post\n    lead: 300 mm\n"
RUDDER_LEAD = "    to: rudder\n    lead: servo-22\n"
RUDDER_ENDS = "    from: receiver 4\n    to: rudder\n"
AILERON_LEAD = "    through: [<side>-root]\n    lead: servo-22\n"
SERVO_PORTS = "names: 1..4, contacts: pins}"
SUPPLY_ENDS = "    from: pack\n    to: receiver BATT\n"
SUPPLY_LEAD = "    lead: power-20\n"
PACK_WIRE = "    lead: 120 mm\n    lead_wire: pvc-20\n"
PACK = "capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}\n    on:"
TAIL_RUN = "length: 1140 mm, edges: sharp}"
FLIGHT = "time: 9 min, reserve: 30 %}"
EQUIPMENT, CIRCUITS, SHELL = "equipment:\n", "circuits:\n", "    shell: block-6\n"

# A supply that carries 10 A, so that what hangs on it is judged alone.
HEAVY_SUPPLY = [(PACK_WIRE, PACK_WIRE.replace("pvc-20", "pvc-16")), (SUPPLY_LEAD, "    lead: power-16\n")]
HEAVY_OWN_LEAD = (RUDDER_OWN, RUDDER_OWN + "    lead_wire: pvc-16\n")

SECOND_PACK = (
    "  pack-2:\n    kind: battery\n    place: battery-bay\n    lead: 120 mm\n    lead_wire: pvc-20\n"
    "    plug: power-2\n    battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}\n"
)
RECEIVER_B = (
    "  receiver-b:\n    kind: receiver\n    place: radio-tray\n    ports:\n"
    "      - {plug: servo-3, names: 3..6, contacts: pins}\n      - {plug: power-2, names: [B], contacts: pins}\n"
)
SUPPLY_B = "  supply-b: {from: pack-2, to: receiver-b B, lead: power-20}\n"
FROM_RECEIVER = "  supply-b: {from: receiver 5, to: receiver-b 4, lead: servo-22}\n"
APART = "    fed_by: [BATT, BATT-2]\n    isolates: yes\n"
PATCH = "  patch: {from: receiver 3, to: receiver-b 3, lead: servo-22}\n"
FLAPS = (
    "  <side>-flap:\n    kind: servo\n    place: <side>-aileron\n    lead: 250 mm\n    plug: servo-3\n"
    "    current: {idle: 20 mA, working: 0.6 A, stall: 2.4 A}\n"
)
FLAP_CIRCUITS = (
    "  <side>-flap:\n    from: {left: receiver 5, right: receiver 6}\n    to: <side>-flap\n"
    "    through: [<side>-root]\n    lead: LEAD\n"
)
WING_SUPPLY = (
    "  <side>-wing:\n    from: {left: receiver LEFT, right: receiver RIGHT}\n"
    "    to: <side>-root servo-positive servo-negative\n    lead: power-20\n"
)
SIGNAL_LEAD = "leads: {signal-only: {wires: {signal: pvc-24 WH}}}\n"


def changed(*harness: tuple[str, str], aircraft: Sequence[tuple[str, str]] = (), parts: str = "") -> Changes:
    files: dict[str, str | Replacements | None] = {"harness.yaml": list(harness), "aircraft.yaml": list(aircraft)}
    if parts:
        files["parts.yaml"] = parts
    return files


def rudder_needs(volts: str, *more: tuple[str, str], aircraft: Sequence[tuple[str, str]] = ()) -> Changes:
    return changed((RUDDER_VOLTS, RUDDER_VOLTS.replace("4.8 V", volts)), *more, aircraft=aircraft)


def rudder_draws(working: str, stall: str, *more: tuple[str, str]) -> Changes:
    return changed((RUDDER_CURRENT, f"working: {working}, stall: {stall}}}"), *more)


def receiver_needs(volts: str, *more: tuple[str, str]) -> Changes:
    return changed((RECEIVER_VOLTS, RECEIVER_VOLTS.replace("3.6 V", volts)), *more)


def regulated(output: str) -> tuple[str, str]:
    return SERVO_PORTS, SERVO_PORTS.replace("pins", f"pins, output: {output}")


def gyro(working: str, key: str) -> Changes:
    own = "  gyro: {kind: gyro, place: radio-tray, lead: 300 mm, lead_wire: lead-28, plug: servo-3,"
    return changed(
        (EQUIPMENT, f"{EQUIPMENT}{own} current: {{working: {working}}}}}\n"),
        (CIRCUITS, f"{CIRCUITS}  {key}:\n    from: receiver 3\n    to: gyro\n"),
    )


def two_packs(*more: tuple[str, str], second: str = SECOND_PACK, kept_apart: bool = True) -> Changes:
    return changed(
        ("names: [BATT]", "names: [BATT, BATT-2]"),
        (CURRENT, CURRENT + "    isolates: yes\n" if kept_apart else CURRENT),
        *more,
        (EQUIPMENT, EQUIPMENT + second),
        (CIRCUITS, CIRCUITS + "  supply-2: {from: pack-2, to: receiver BATT-2, lead: power-20}\n"),
    )


def lamp_on_the_second() -> Changes:
    """Return two packs, and a lamp on the second alone that wants nearly all its volts, which `volts` finds."""
    ports = "    ports: [{plug: power-2, names: [OUT, LAMP], contacts: sockets}]\n"
    second = SECOND_PACK.replace("    lead: 120 mm\n    lead_wire: pvc-20\n    plug: power-2\n", ports)
    lamp = (
        "  lamp: {kind: light, place: battery-bay, ports: [{plug: power-2, names: [IN], contacts: pins}],"
        " current: {working: 0.1 A}, volts: {least: 6.3 V, most: 9 V}}\n"
    )
    return changed(
        ("names: [BATT]", "names: [BATT, BATT-2]"),
        (CURRENT, CURRENT + "    isolates: yes\n"),
        (EQUIPMENT, EQUIPMENT + second + lamp),
        (
            CIRCUITS,
            CIRCUITS + "  supply-2: {from: pack-2 OUT, to: receiver BATT-2, lead: power-20}\n"
            "  lit: {from: pack-2 LAMP, to: lamp IN, lead: power-20}\n",
        ),
    )


def many_packs(numbers: Sequence[int], key: str) -> Changes:
    """Return more packs at the receiver, written in this order; what is written before counts after."""
    return changed(
        ("  receiver:\n", f"  {key}:\n"),
        ("names: [BATT]", f"names: [BATT, {', '.join(f'BATT-{number}' for number in numbers)}]"),
        (EQUIPMENT, EQUIPMENT + "".join(SECOND_PACK.replace("pack-2", f"pack-{number}") for number in numbers)),
        (
            CIRCUITS,
            CIRCUITS
            + "".join(
                f"  supply-{number}: {{from: pack-{number}, to: receiver BATT-{number}, lead: power-20}}\n"
                for number in numbers
            ),
        ),
    )


def two_receivers(patch: str, key: str = "receiver-b", of_second: str = "") -> Changes:
    receiver = RECEIVER_B.replace("receiver-b", key) + of_second
    return changed((EQUIPMENT, EQUIPMENT + receiver + SECOND_PACK), (CIRCUITS, CIRCUITS + SUPPLY_B + patch))


def patched_back(of_receiver: str, supply_b: str, key: str = "receiver", ports: str = "") -> Changes:
    """Return a lead from a second receiver back to a port of the first that does not feed it."""
    back = "  back: {from: receiver-b 3, to: receiver 3, lead: servo-22}\n"
    return changed(
        ("  receiver:\n", f"  {key}:\n"),
        (SERVO_PORTS, SERVO_PORTS.replace("1..4", "1..6").replace("pins", "pins" + ports)),
        ("names: [BATT]", "names: [BATT, BATT-2]"),
        (CURRENT, CURRENT + of_receiver),
        (EQUIPMENT, EQUIPMENT + RECEIVER_B + SECOND_PACK),
        (CIRCUITS, CIRCUITS + supply_b + back),
    )


def common_negative(source: str, members: str) -> Changes:
    common = f"    commons: {{all: {{role: negative, contacts: [1, 2], circuits: {members}}}}}\n"
    flaps = FLAP_CIRCUITS.replace("LEAD", "servo-22").replace("receiver", source)
    return changed(
        ("names: 1..4", "names: 1..6"),
        (SHELL, SHELL + common),
        (EQUIPMENT, EQUIPMENT + RECEIVER_B + SECOND_PACK + FLAPS),
        (CIRCUITS, CIRCUITS + SUPPLY_B + flaps),
    )


def wing(positive: str, negative: str, *more: tuple[str, str], working: str = "0.6 A", parts: str = "") -> Changes:
    members = "circuits: [<side>-aileron, <side>-flap]"
    commons = (
        f"    commons:\n      servo-positive: {{role: positive, contacts: {positive}, {members}}}\n"
        f"      servo-negative: {{role: negative, contacts: {negative}, {members}}}\n"
    )
    by_segment = "{A: signal-only, B: servo-22}"
    return changed(
        (AILERON_CURRENT, AILERON_CURRENT.replace("0.6 A", working)),
        *more,
        ("names: 1..4", "names: 1..8"),
        ("names: [BATT]", "names: [BATT, LEFT, RIGHT]"),
        (AILERON_LEAD, AILERON_LEAD.replace("servo-22", by_segment)),
        (SHELL, SHELL + commons),
        (EQUIPMENT, EQUIPMENT + FLAPS.replace("0.6 A", working)),
        (CIRCUITS, CIRCUITS + WING_SUPPLY + FLAP_CIRCUITS.replace("LEAD", by_segment)),
        parts=SIGNAL_LEAD + parts,
    )


def gear_leg(stall: str, gear: str, of_controller: str = "", ends: tuple[str, str] = ("", "")) -> Changes:
    controller = (
        f"  gear-unit:\n    kind: gear controller\n    place: radio-tray\n{of_controller}    ports:\n"
        "      - {plug: power-2, names: [POWER], contacts: pins}\n"
        "      - {plug: motor-2, names: [LEG], contacts: pins}\n"
    )
    leg = (
        "  nose-leg:\n    kind: gear leg\n    place: tail-post\n    lead: 160 mm\n    lead_wire: pvc-22\n"
        f"    plug: motor-2\n    current: {{idle: 0 A, working: 1 A, stall: {stall}, runs: 20 s}}\n    gear: {gear}\n"
    )
    circuits = (
        "  gear-supply: {from: receiver GEAR, to: gear-unit POWER, lead: power-20}\n"
        f"  leg: {{from: {ends[0]}gear-unit LEG, to: {ends[1]}nose-leg, lead: motor-22}}\n"
    )
    return changed(
        ("names: [BATT]", "names: [BATT, GEAR]"),
        (EQUIPMENT, EQUIPMENT + controller + leg),
        (CIRCUITS, CIRCUITS + circuits),
    )


MARKED = ("▶", "▶")

# Stalled, the rudder's supply carries 0.15 + 2 × 0.6 + 2.4 = 3.75 A: 6.4 − 3.75 × 0.04085 − 2.4 × 0.26079 = 5.621 V
# left, 0.3 V of it margin. The receiver has at peak 6.4 − 7.35 × 0.04085 = 6.100 V, working 6.4 − 1.85 × 0.04085 =
# 6.324 V. Behind an outlet of 6 V the rudder has 6 − 2.4 × 0.26079 = 5.374 V; one that keeps back 0.6 V gives, with
# the rudder stalled, 6.4 − 3.75 × 0.04085 − 0.6 = 5.647 V: 5.021 V left; one that keeps back 0.5 V 0.1 V more.
# With an aileron stalled (0.15 + 0.6 + 0.5 + 2.4 = 3.65 A) it has 5.651 − 2.4 × 0.25870 = 5.030 V left.
VOLTS = {
    "stalled": Case("volts", rudder_needs("▶5.33 V"), rudder_needs("5.31 V")),
    "at peak": Case("volts", receiver_needs("▶5.81 V"), receiver_needs("5.79 V")),
    "working": Case(
        "volts",
        receiver_needs("▶6.03 V", (CIRCUITS, "limits: {together: 0}\n" + CIRCUITS)),
        receiver_needs("6.02 V", (CIRCUITS, "limits: {together: 0}\n" + CIRCUITS)),
    ),
    "behind an output": Case(
        "volts",
        rudder_needs("▶5.09 V", regulated("{volts: 6 V}")),
        rudder_needs("5.06 V", regulated("{volts: 6 V}")),
    ),
    "behind an output that keeps some back": Case(
        "volts",
        rudder_needs(
            "▶4.8 V", (AILERON_VOLTS, AILERON_VOLTS.replace("4.8", "▶4.8")), regulated("{volts: 6 V, headroom: 0.6 V}")
        ),
        rudder_needs("4.8 V", regulated("{volts: 6 V, headroom: 0.5 V}")),
    ),
    "nothing is judged where nothing is needed": Case(
        "volts", rudder_needs("▶5.33 V"), changed((RUDDER_VOLTS, RUDDER_VOLTS.replace("least: 4.8 V, ", "")))
    ),
}

# Stalled: 10 % of 6.4 V are 0.640 V, 0.640 / 0.26079 = 2.454 A. Working: 6.4 / 28 = 0.2286 V, / 0.26079 = 0.876 A.
# With 24 AWG (25.38 Ω/1000 ft = 0.08327 Ω/m, nominal; 1.4 mm) in the wing: (745 × 1.03 + 120 + 80 + 24 + 22.5) ×
# sqrt(1 + (π × 2/√3 × 1.4 / 25)²) = 1034.6 → 1035 mm; 2 × 0.300 × 0.05315 + 2 × 1.035 × 0.08327 + 2 × 0.250 × 0.13146
# + 0.05 = 0.3200 Ω × 2.4 A = 0.768 V. The gyro's own lead, 28 AWG (67.69: 0.22208 Ω/m, nominal): 2 × 0.300 × 0.22208
# + 2 × 10 mΩ = 0.1532 Ω; 0.2286 V / 0.1532 = 1.492 A. A share of an outlet of 6 V is 0.600 V, of 6.5 V 0.650 V:
# stalled at 2.4 A an aileron drops 0.621 V, the rudder 0.626 V.
DROP = {
    "stalled": Case(
        "drop",
        rudder_draws("0.5 A", "2.46 A", (RUDDER_LEAD, RUDDER_LEAD.replace("serv", "▶serv"))),
        rudder_draws("0.5 A", "2.45 A"),
    ),
    "working": Case(
        "drop",
        rudder_draws("0.88 A", "2.4 A", (RUDDER_LEAD, RUDDER_LEAD.replace("serv", "▶serv"))),
        rudder_draws("0.87 A", "2.4 A"),
    ),
    "by segment": Case(
        "drop",
        changed((AILERON_LEAD, AILERON_LEAD.replace("servo-22", "{A: servo-22, B: ▶servo-24}"))),
        changed((AILERON_LEAD, AILERON_LEAD.replace("servo-22", "{A: servo-22, B: servo-22}"))),
    ),
    "plugged straight in": Case("drop", gyro("1.5 A", "▶gyro"), gyro("1.4 A", "gyro")),
    "a share of the outlet's volts": Case(
        "drop",
        changed(
            (PACK, PACK.replace("6.4 V", "7.4 V")),
            regulated("{volts: 6 V}"),
            (AILERON_LEAD, AILERON_LEAD.replace("servo-22", "▶servo-22")),
            (RUDDER_LEAD, RUDDER_LEAD.replace("servo-22", "▶servo-22")),
        ),
        changed((PACK, PACK.replace("6.4 V", "7.4 V")), regulated("{volts: 6.5 V}")),
    ),
}

OVERVOLTS = {
    "a full pack": Case(
        "overvolts",
        changed((RUDDER_VOLTS, RUDDER_VOLTS.replace("8.4 V", "▶8.3 V"))),
        changed((RUDDER_VOLTS, RUDDER_VOLTS)),
        "8.4 V",
    ),
    "a full pack at the receiver": Case(
        "overvolts",
        changed((RECEIVER_VOLTS, "{least: 3.6 V, most: ▶6 V}")),
        changed((RECEIVER_VOLTS, "{least: 3.6 V, most: 8.4 V}")),
    ),
    "an output": Case(
        "overvolts",
        changed((RUDDER_VOLTS, RUDDER_VOLTS.replace("8.4 V", "▶6 V")), regulated("{volts: 6.6 V}")),
        changed((RUDDER_VOLTS, RUDDER_VOLTS.replace("8.4 V", "6 V")), regulated("{volts: 6 V}")),
    ),
    "an output of the whole": Case(
        "overvolts",
        changed(
            (RUDDER_VOLTS, RUDDER_VOLTS.replace("8.4 V", "▶6 V")), (CURRENT, CURRENT + "    output: {volts: 6.6 V}\n")
        ),
        changed(
            (RUDDER_VOLTS, RUDDER_VOLTS.replace("8.4 V", "6 V")), (CURRENT, CURRENT + "    output: {volts: 6 V}\n")
        ),
    ),
}

JOINED = {
    "two packs at a receiver": Case(
        "joined-supplies",
        two_packs(("  receiver:\n", "  ▶receiver:\n"), kept_apart=False),
        two_packs(),
        "omit: [positive]",
    ),
    "six packs at a receiver": Case(
        "joined-supplies",
        many_packs((3, 5, 2, 6, 4), "▶receiver"),
        changed(),
        "omit: [positive]",
    ),
    "a patch lead": Case(
        "joined-supplies",
        two_receivers(PATCH, "▶receiver-b"),
        two_receivers(PATCH.replace("servo-22}", "servo-22, omit: [positive]}")),
        "omit: [positive]",
    ),
    "a patch lead to a port that does not feed": Case(
        "joined-supplies",
        two_receivers(PATCH, "▶receiver-b", "    fed_by: [B]\n"),
        two_receivers(PATCH.replace("servo-22}", "servo-22, omit: [positive]}"), of_second="    fed_by: [B]\n"),
        "Leave the positive out of one lead (`omit: [positive]`; patch)",
    ),
    "a lead to an outlet of what keeps its feeds apart": Case(
        "joined-supplies",
        patched_back(APART, SUPPLY_B, "▶receiver"),
        patched_back(APART, FROM_RECEIVER),
        "pack-2, receiver",
    ),
    "a lead to an outlet that is regulated": Case(
        "joined-supplies",
        patched_back("    fed_by: [BATT]\n", SUPPLY_B, "▶receiver", ", output: {volts: 6 V}"),
        patched_back("    fed_by: [BATT]\n", FROM_RECEIVER, ports=", output: {volts: 6 V}"),
    ),
    "a common negative": Case(
        "joined-supplies",
        common_negative("receiver-b", "▶[<side>-aileron, <side>-flap]"),
        common_negative("receiver", "[<side>-aileron, <side>-flap]"),
    ),
}


def own_wire(wire: str, working: str, mark: str = "") -> Changes:
    """Return the rudder wired with a wire of the builder's own."""
    parts = (
        f"wires:\n  mine: {{{wire}, diameter: 1.3 mm, resistance: 17 ohm/1000ft}}\n"
        "leads:\n  mine: {wires: {negative: mine BK, positive: mine RD, signal: mine WH}, lay: 25 mm}\n"
    )
    return changed(
        (RUDDER_CURRENT, f"working: {working}, stall: 6 A}}"),
        (RUDDER_LEAD, f"    to: rudder\n    lead: {mark}mine\n"),
        HEAVY_OWN_LEAD,
        *HEAVY_SUPPLY,
        parts=parts,
    )


def hot_rudder(heat: str, working: str, mark: str = "") -> Changes:
    lead = RUDDER_LEAD.replace("servo", f"{mark}servo")
    change = rudder_draws(working, "6 A", (RUDDER_LEAD, lead), HEAVY_OWN_LEAD, *HEAVY_SUPPLY)
    return {**change, "aircraft.yaml": [(TAIL_RUN, TAIL_RUN.replace("sharp", f"sharp, heat: {heat}"))]}


def hot_own_wire(wire: str, working: str, mark: str = "") -> Changes:
    hot = [(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, heat: 110 °C"))]
    return {**own_wire(wire, working, mark), "aircraft.yaml": hot}


NO_FIGURE = "wires: {mine: {gauge: 26 AWG, diameter: 1.3 mm, resistance: 40 ohm/1000ft, limit: 150 °C}}\n"
MIXED_LEAD = "leads: {mine: {wires: {negative: pvc-22 BK, positive: POSITIVE RD, signal: SIGNAL WH}, lay: 25 mm}}\n"
MINE = (RUDDER_LEAD, "    to: rudder\n    lead: mine\n")

# Columns of FAA AC 43.13-1B table 11-9: 24 AWG bears 2.5 A at 105 °C, 4 A at 150 °C, 5 A at 200 °C; 22 AWG 5 A at
# 150 °C. 0.25 mm² lies between 24 AWG (0.205 mm²) and 22 AWG (0.326 mm²). Above 70 °C: 3 A × √((80 − 75) / (80 − 70))
# = 2.121 A; 5 A × √((150 − 110) / (150 − 70)) = 3.536 A. Other figures: the built-in parts list.
WIRE_CURRENT = {
    "its own figure": Case(
        "wire-current",
        rudder_draws("3.1 A", "6 A", (RUDDER_LEAD, RUDDER_LEAD.replace("serv", "▶serv")), HEAVY_OWN_LEAD),
        rudder_draws("2.9 A", "6 A", HEAVY_OWN_LEAD),
        "3.1",
    ),
    "an own lead": Case(
        "wire-current",
        rudder_draws("2.1 A", "6 A", (RUDDER_ENDS, RUDDER_ENDS.replace("to: rudder", "to: ▶rudder"))),
        rudder_draws("1.9 A", "6 A"),
    ),
    # 0.15 + 2 × 0.6 + 1.8 = 3.15 A; + 1.6 = 2.95 A.
    "an own lead at the supply's end": Case(
        "wire-current",
        rudder_draws(
            "1.8 A",
            "6 A",
            (SUPPLY_ENDS, SUPPLY_ENDS.replace("pack", "▶pack")),
            (PACK_WIRE, PACK_WIRE.replace("pvc-20", "pvc-22")),
        ),
        rudder_draws("1.6 A", "6 A", (PACK_WIRE, PACK_WIRE.replace("pvc-20", "pvc-22"))),
    ),
    # The supply carries 0.15 + 2 × 0.6 + 3.7 = 5.05 A; 20 AWG bears 5 A.
    "what others draw too": Case(
        "wire-current",
        rudder_draws(
            "3.7 A",
            "6 A",
            (SUPPLY_LEAD, "    lead: ▶power-20\n"),
            (PACK_WIRE, PACK_WIRE.replace("pvc-20", "pvc-16")),
            HEAVY_OWN_LEAD,
            (RUDDER_LEAD, RUDDER_LEAD.replace("servo-22", "servo-20")),
        ),
        rudder_draws(
            "3.6 A",
            "6 A",
            (PACK_WIRE, PACK_WIRE.replace("pvc-20", "pvc-16")),
            HEAVY_OWN_LEAD,
            (RUDDER_LEAD, RUDDER_LEAD.replace("servo-22", "servo-20")),
        ),
    ),
    "the column of 105 °C": Case(
        "wire-current",
        own_wire("gauge: 24 AWG, limit: 149 °C", "2.6 A", "▶"),
        own_wire("gauge: 24 AWG, limit: 149 °C", "2.4 A"),
    ),
    "the column of 150 °C": Case(
        "wire-current",
        own_wire("gauge: 24 AWG, limit: 199 °C", "4.1 A", "▶"),
        own_wire("gauge: 24 AWG, limit: 150 °C", "3.9 A"),
    ),
    "the column of 200 °C": Case(
        "wire-current",
        own_wire("gauge: 24 AWG, limit: 200 °C", "5.1 A", "▶"),
        own_wire("gauge: 24 AWG, limit: 200 °C", "4.9 A"),
    ),
    "its own figure before the table's": Case(
        "wire-current",
        own_wire("gauge: 24 AWG, limit: 200 °C, current: 3 A", "3.1 A", "▶"),
        own_wire("gauge: 24 AWG, limit: 150 °C, current: 4.5 A", "4.4 A"),
    ),
    "a metric wire has the next smaller row": Case(
        "wire-current",
        own_wire("gauge: 0.25 mm², limit: 150 °C", "4.1 A", "▶"),
        own_wire("gauge: 0.25 mm², limit: 150 °C", "3.9 A"),
    ),
    "nothing says what it may carry": Case(
        "wire-current",
        changed(
            (RUDDER_LEAD, "    to: rudder\n    lead: ▶mine\n"),
            parts=NO_FIGURE + MIXED_LEAD.replace("POSITIVE", "mine").replace("SIGNAL", "pvc-22"),
        ),
        changed(MINE, parts=NO_FIGURE + MIXED_LEAD.replace("POSITIVE", "pvc-22").replace("SIGNAL", "mine")),
    ),
    "no column for a wire of 80 °C": Case(
        "wire-current",
        own_wire("gauge: 22 AWG, limit: 80 °C", "0.5 A", "▶"),
        own_wire("gauge: 22 AWG, limit: 105 °C", "0.5 A"),
    ),
    "less above 70 °C": Case("wire-current", hot_rudder("75 °C", "2.2 A", "▶"), hot_rudder("75 °C", "2.1 A")),
    "all of it up to 70 °C": Case("wire-current", hot_rudder("70 °C", "3.1 A", "▶"), hot_rudder("70 °C", "2.9 A")),
    "less of the column above 70 °C": Case(
        "wire-current",
        hot_own_wire("gauge: 22 AWG, limit: 150 °C", "3.6 A", "▶"),
        hot_own_wire("gauge: 22 AWG, limit: 150 °C", "3.5 A"),
    ),
    # At its limit it may carry nothing, which `heat` says.
    "only heat is said at the limit": Case("wire-current", hot_rudder("79 °C", "1 A", "▶"), hot_rudder("80 °C", "1 A")),
    # Behind the loose half only wires of 22 AWG arrive (3 A): 2 × 1.6 A on one tail, or 1.6 A on each of two.
    "the tails of a common": Case(
        "wire-current",
        wing("▶[1]", "▶[3]", *HEAVY_SUPPLY, working="1.6 A"),
        wing("[1, 2]", "[3, 4]", *HEAVY_SUPPLY, working="1.6 A"),
    ),
}


def through_a_shell(contact: str, item: str = "<side>-root") -> Changes:
    parts = (
        "shells:\n  small:\n    rows: [[1, 2, 3, 4, 5]]\n    pitch: {across: 5 mm, down: 5 mm}\n"
        f"    outline: [30 mm, 12 mm]\n    contact: {{{contact}, resistance: 5 mohm}}\n"
    )
    return changed(
        (SHELL, "    shell: small\n"), (AILERON_LEAD, AILERON_LEAD.replace("[<side>-root", f"[{item}")), parts=parts
    )


def plug_at_the_pack(brief: str, ends: str = SUPPLY_ENDS) -> Changes:
    parts = (
        "plugs:\n  power-2:\n    contacts: {1: negative, 2: positive}\n    equipment: sockets\n"
        "    size: [7.6 mm, 5 mm]\n"
        f"    contact: {{rating: 6 A, brief: {brief}, resistance: 3 mohm, strip: 3 mm}}\n"
    )
    return changed((SUPPLY_ENDS, ends), parts=parts)


def shell_of_1_a() -> str:
    return (
        "shells:\n  block-6:\n    rows: [[1, 2, 3], [4, 5, 6]]\n    pitch: {across: 5 mm, down: 5 mm}\n"
        "    outline: [20 mm, 12 mm]\n    contact: {rating: 1 A, brief: 20 A, resistance: 5 mohm}\n"
    )


BOTH_RUDDER_ENDS = (RUDDER_ENDS, "    from: ▶receiver 4\n    to: ▶rudder\n")
LONG = "{up: 9 s, down: 8 s, limit: 11 s, stop: STOP}"

# A servo plug bears 3 A, and 5 A for at most 10 s, a gear leg's plug 5 A and 8 A; blocks 10 A and 15 A.
CONTACT_CURRENT = {
    "working": Case("contact-current", rudder_draws("3.1 A", "4 A", BOTH_RUDDER_ENDS), rudder_draws("2.9 A", "4 A")),
    "stalled": Case(
        "contact-current", rudder_draws("0.5 A", "5.1 A", BOTH_RUDDER_ENDS), rudder_draws("0.5 A", "4.9 A")
    ),
    "working at a joint": Case(
        "contact-current",
        through_a_shell("rating: 0.5 A, brief: 3 A", "▶<side>-root"),
        through_a_shell("rating: 0.7 A, brief: 3 A"),
    ),
    "stalled at a joint": Case(
        "contact-current",
        through_a_shell("rating: 1 A, brief: 2.3 A", "▶<side>-root"),
        through_a_shell("rating: 1 A, brief: 2.5 A"),
    ),
    "at peak": Case(
        "contact-current",
        plug_at_the_pack("7.3 A", "    from: ▶pack\n    to: ▶receiver BATT\n"),
        plug_at_the_pack("7.4 A"),
    ),
    "a leg that may stay jammed for long, at its stop": Case(
        "contact-current",
        gear_leg("7 A", LONG.replace("STOP", "5.1 A"), ends=MARKED),
        gear_leg("7 A", LONG.replace("STOP", "4.9 A")),
    ),
    "the same for less than 10 s": Case(
        "contact-current",
        gear_leg("7 A", LONG.replace("STOP", "5.1 A"), ends=MARKED),
        gear_leg("7 A", LONG.replace("STOP", "5.1 A").replace("11 s", "10 s")),
    ),
    "a leg without a stop is judged at its stall": Case(
        "contact-current",
        gear_leg("5.1 A", "{up: 9 s, down: 8 s, limit: 11 s}", ends=MARKED),
        gear_leg("4.9 A", "{up: 9 s, down: 8 s, limit: 11 s}"),
    ),
    "the controller says the limit": Case(
        "contact-current",
        gear_leg("5.1 A", "{up: 9 s, down: 8 s}", "    gear: {limit: 11 s}\n", MARKED),
        gear_leg("5.1 A", "{up: 9 s, down: 8 s}", "    gear: {limit: 10 s}\n"),
    ),
    # 2 × 0.6 A on one contact, or 0.6 A on each of two.
    "a common": Case(
        "contact-current",
        wing("▶[1]", "▶[3]", parts=shell_of_1_a()),
        wing("[1, 2]", "[3, 4]", parts=shell_of_1_a()),
        "1.2",
    ),
}

# Three servos stalled: 7.2 A; with the receiver 7.35 A.
SUPPLY_CURRENT = {
    "a group of ports": Case(
        "supply-current",
        changed((SERVO_PORTS, SERVO_PORTS.replace("pins", "pins, rating: ▶7.1 A"))),
        changed((SERVO_PORTS, SERVO_PORTS.replace("pins", "pins, rating: 7.25 A"))),
        "7.2",
    ),
    "an output": Case(
        "supply-current",
        changed(regulated("{volts: 5 V, rating: ▶7.1 A}")),
        changed(regulated("{volts: 5 V, rating: 7.25 A}")),
    ),
    "a pack": Case(
        "supply-current",
        changed((PACK, PACK.replace("6.4 V", "6.4 V, rating: ▶7.3 A"))),
        changed((PACK, PACK.replace("6.4 V", "6.4 V, rating: 7.4 A"))),
    ),
}

# A flight: 1.85 A × 9 min = 277.5 mAh. The second pack alone at peak: 6.4 − 7.35 × (0.04085 + 0.30) = 3.895 V at the
# receiver, with 290 mΩ 3.968 V; it needs 3.6 + 0.3 = 3.9 V.
ONE_PACK = {
    "it can't finish a flight": Case(
        "one-pack",
        two_packs(second=SECOND_PACK.replace("2600", "▶277")),
        two_packs(second=SECOND_PACK.replace("2600", "278")),
    ),
    "it can't keep the volts at peak": Case(
        "one-pack",
        two_packs(second=SECOND_PACK.replace("empty: 6.4 V", "empty: ▶6.4 V, resistance: 300 mohm")),
        two_packs(second=SECOND_PACK.replace("empty: 6.4 V", "empty: 6.4 V, resistance: 290 mohm")),
    ),
    "what has one pack alone is no matter of several": Case(
        "one-pack", two_packs(second=SECOND_PACK.replace("2600", "▶277")), lamp_on_the_second()
    ),
    "the only pack is no one of several": Case(
        "one-pack",
        two_packs(second=SECOND_PACK.replace("2600", "▶277")),
        changed((PACK, PACK.replace("2600", "277"))),
    ),
}

# 2600 mAh × 0.7 / 277.5 = 6.56 flights; 396 mAh × 0.7 = 277.2, 397 mAh × 0.7 = 277.9; 2 × 198 mAh as 396 mAh. On the
# ground 0.15 + 3 × 0.02 = 0.21 A: 8 min 28 mAh, 1820 / 305.5 = 5.96 flights; 7 min 24.5 mAh, 1820 / 302.0 = 6.03.
# With the rudder working 30 s: 277.5 − 75 + 0.5 × 30 / 3.6 + 0.02 × 510 / 3.6 = 209.5 mAh, 8.69 flights.
ENDURANCE = {
    "one flight and the reserve": Case(
        "endurance", changed((PACK, PACK.replace("2600", "▶396"))), changed((PACK, PACK.replace("2600", "397")))
    ),
    "several flights": Case(
        "endurance",
        changed((PACK, PACK.replace("2600", "▶2600")), aircraft=[(FLIGHT, FLIGHT.replace("}", ", flights: 7}"))]),
        changed(aircraft=[(FLIGHT, FLIGHT.replace("}", ", flights: 6}"))]),
    ),
    "what it draws on the ground": Case(
        "endurance",
        changed(
            (PACK, PACK.replace("2600", "▶2600")),
            aircraft=[(FLIGHT, FLIGHT.replace("}", ", flights: 6, ground: 8 min}"))],
        ),
        changed(aircraft=[(FLIGHT, FLIGHT.replace("}", ", flights: 6, ground: 7 min}"))]),
    ),
    "how long a load works": Case(
        "endurance",
        changed((PACK, PACK.replace("2600", "▶2600")), aircraft=[(FLIGHT, FLIGHT.replace("}", ", flights: 8}"))]),
        {
            **rudder_draws("0.5 A", "2.4 A, runs: 30 s"),
            "aircraft.yaml": [(FLIGHT, FLIGHT.replace("}", ", flights: 8}"))],
        },
    ),
    "like packs on one unit are counted together": Case(
        "endurance",
        two_packs((PACK, PACK.replace("2600", "▶198")), second=SECOND_PACK.replace("2600", "▶198")),
        two_packs((PACK, PACK.replace("2600", "199")), second=SECOND_PACK.replace("2600", "199")),
    ),
}

TABLES = (VOLTS, DROP, OVERVOLTS, JOINED, WIRE_CURRENT, CONTACT_CURRENT, SUPPLY_CURRENT, ONE_PACK, ENDURANCE)
ALL = {f"{case.name}: {about}": case for table in TABLES for about, case in table.items()}
TOLD = {about: case for about, case in ALL.items() if case.told}


def named(name: str, findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.name == name]


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_caution_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, places_of: PlacesOf
) -> None:
    found = named(case.name, check(aircraft_folder(case.wrong)).findings)
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_nearly_equal_definition_has_none(case: Case, aircraft_folder: AircraftFolder) -> None:
    checked = check(aircraft_folder(case.right))
    assert checked.harness is not None, checked.findings
    assert named(case.name, checked.findings) == []


@pytest.mark.parametrize("case", TOLD.values(), ids=TOLD)
def test_a_caution_tells_how_much_or_what_would_do(case: Case, aircraft_folder: AircraftFolder) -> None:
    finding = named(case.name, check(aircraft_folder(case.wrong)).findings)[0]
    assert case.told in f"{finding.sentence} {finding.do}"


# The plug bears 5 A, 8 A briefly; a stop belongs at 1.3 times working or over (common practice, no source).
@pytest.mark.parametrize(
    ("working", "stall", "gear", "offered"),
    [
        ("1 A", "8.1 A", "{up: 9 s, limit: 10 s}", "at 8 A"),
        ("1 A", "8.1 A", "{up: 9 s, limit: 11 s}", "at 5 A"),
        ("3.9 A", "8.1 A", "{up: 9 s, limit: 11 s}", ""),
        ("5.1 A", "9 A", "{up: 9 s, limit: 10 s}", ""),
        ("5.1 A", "5.1 A", "{up: 9 s, limit: 10 s}", ""),
    ],
)
def test_a_stop_is_offered_that_spares_the_contacts_of_a_leg_and_lets_it_work(
    working: str, stall: str, gear: str, offered: str, aircraft_folder: AircraftFolder
) -> None:
    leg = gear_leg(stall, gear)["harness.yaml"]
    assert isinstance(leg, list)
    changes = changed(*((old, new.replace("working: 1 A", f"working: {working}")) for old, new in leg))
    found = named("contact-current", check(aircraft_folder(changes)).findings)
    of_leg = [finding.do for finding in found if finding.subject == ("circuits", "leg")]
    assert [do.partition(" Or stop the leg ")[2] for do in of_leg] == [
        f"{offered}, `gear: {{stop: …}}`." * bool(offered)
    ] * 2


RUDDER_PLACE = "  rudder:\n    kind: servo\n"
RUDDER_LABEL = "    label: RUD\n"
PACK_PLACE = "  pack:\n    kind: battery\n"

# The entry that a finding stands on: a text in it, after which the acceptance is written.
ACCEPTED = {
    "volts": (VOLTS["stalled"], RUDDER_PLACE),
    "drop": (DROP["stalled"], RUDDER_LABEL),
    "overvolts": (OVERVOLTS["a full pack"], RUDDER_PLACE),
    "joined-supplies": (JOINED["two packs at a receiver"], CURRENT),
    "joined-supplies by a patch": (JOINED["a patch lead"], "  receiver-b:\n    kind: receiver\n"),
    "wire-current": (WIRE_CURRENT["its own figure"], RUDDER_LABEL),
    "wire-current of an own lead": (WIRE_CURRENT["an own lead"], RUDDER_LABEL),
    "contact-current": (CONTACT_CURRENT["working"], RUDDER_LABEL),
    "supply-current of ports": (SUPPLY_CURRENT["a group of ports"], CURRENT),
    "supply-current of a pack": (SUPPLY_CURRENT["a pack"], PACK_PLACE),
    "one-pack": (ONE_PACK["it can't finish a flight"], "  pack-2:\n    kind: battery\n"),
    "one-pack at peak": (ONE_PACK["it can't keep the volts at peak"], "  pack-2:\n    kind: battery\n"),
    "endurance": (ENDURANCE["one flight and the reserve"], PACK_PLACE),
}
POSITIVE_COMMON, NEGATIVE_COMMON = "{role: positive, ", "{role: negative, "
ACCEPTED_COMMONS = {
    "joined-supplies": (JOINED["a common negative"], [NEGATIVE_COMMON]),
    "wire-current": (WIRE_CURRENT["the tails of a common"], [POSITIVE_COMMON, NEGATIVE_COMMON]),
    "contact-current": (CONTACT_CURRENT["a common"], [POSITIVE_COMMON, NEGATIVE_COMMON]),
}


def added(changes: Changes, *more: tuple[str, str]) -> Changes:
    old = changes["harness.yaml"]
    assert isinstance(old, list)
    plain = [(before, after.replace("▶", "")) for before, after in old]
    return {**changes, "harness.yaml": [*plain, *more]}


@pytest.mark.parametrize(("case", "entry"), ACCEPTED.values(), ids=ACCEPTED)
def test_it_can_be_accepted_on_the_entry_it_stands_on(case: Case, entry: str, aircraft_folder: AircraftFolder) -> None:
    accept = f"    accept: {{{case.name}: a reason}}\n"
    findings = check(aircraft_folder(added(case.wrong, (entry, entry + accept)))).findings
    assert {finding.accepted for finding in named(case.name, findings)} == {"a reason"}
    assert named("accept", findings) == []


@pytest.mark.parametrize(("case", "entries"), ACCEPTED_COMMONS.values(), ids=ACCEPTED_COMMONS)
def test_it_can_be_accepted_on_a_common(case: Case, entries: list[str], aircraft_folder: AircraftFolder) -> None:
    accept = f"accept: {{{case.name}: a reason}}, "
    findings = check(aircraft_folder(added(case.wrong, *((entry, entry + accept) for entry in entries)))).findings
    assert {finding.accepted for finding in named(case.name, findings)} == {"a reason"}
    assert named("accept", findings) == []


# Of a lead of unlike wires 3.5 A is 0.5 A too much for one and 1.4 A for the other, which tells more.
@pytest.mark.parametrize("thin", ["negative", "positive"])
def test_of_unlike_wires_that_carry_too_much_the_worst_is_named(thin: str, aircraft_folder: AircraftFolder) -> None:
    wires = {"negative": "pvc-22 BK", "positive": "pvc-22 RD", "signal": "pvc-22 WH"} | {thin: "mine YE"}
    lead = ", ".join(f"{role}: {wire}" for role, wire in wires.items())
    mine = NO_FIGURE.replace("150 °C", "105 °C, current: 2.1 A")
    parts = f"{mine}leads: {{mine: {{wires: {{{lead}}}, lay: 25 mm}}}}\n"
    changes = {**rudder_draws("3.5 A", "6 A", MINE, HEAVY_OWN_LEAD, *HEAVY_SUPPLY), "parts.yaml": parts}
    (finding,) = named("wire-current", check(aircraft_folder(changes)).findings)
    assert finding.sentence == (
        f"{thin} of rudder A: the wire carries 3.50 A working; `mine` may carry 2.1 A (its own `current:`), 1.4 A over."
    )


def test_at_its_limit_a_wire_is_said_to_be_hot_and_nothing_of_its_current(aircraft_folder: AircraftFolder) -> None:
    names = {finding.name for finding in check(aircraft_folder(hot_rudder("80 °C", "1 A"))).findings}
    assert "heat" in names
    assert "wire-current" not in names


def test_every_load_that_is_short_of_volts_is_named_once(aircraft_folder: AircraftFolder) -> None:
    found = named("volts", check(aircraft_folder(VOLTS["behind an output that keeps some back"].wrong)).findings)
    assert sorted(finding.subject[1] for finding in found) == ["left-aileron", "right-aileron", "rudder"]


def test_a_reserve_of_all_leaves_no_flight_whatever_the_pack(aircraft_folder: AircraftFolder) -> None:
    all_kept = [(FLIGHT, FLIGHT.replace("30 %", "100 %"))]
    (finding,) = named("endurance", check(aircraft_folder(changed(aircraft=all_kept))).findings)
    assert "does 0 flights on a charge with 100 % left" in finding.sentence
    assert finding.do.startswith("Keep less in reserve, or fly less")


# At peak the second pack alone leaves 6.4 − 7.35 × (0.04085 + 0.30) = 3.895 V at the receiver, and next to as much at a
# gyro of 1 mA on it. They need so much, and 0.3 V to spare.
@pytest.mark.parametrize(("of_receiver", "of_gyro", "worst"), [("3.7", "3.8", "gyro"), ("3.8", "3.7", "receiver")])
def test_of_what_one_pack_leaves_short_the_worst_is_named(
    of_receiver: str, of_gyro: str, worst: str, aircraft_folder: AircraftFolder
) -> None:
    on_it = (
        "  gyro: {kind: gyro, place: radio-tray, lead: 90 mm, plug: servo-3, current: {working: 1 mA}, "
        f"volts: {{least: {of_gyro} V}}}}\n"
    )
    second = SECOND_PACK.replace("empty: 6.4 V", "empty: 6.4 V, resistance: 300 mohm")
    changes = two_packs((RECEIVER_VOLTS, f"{{least: {of_receiver} V, most: 9 V}}"), second=on_it + second)
    harness = changes["harness.yaml"]
    assert isinstance(harness, list)
    feed = "  gyro: {from: receiver 3, to: gyro, lead: servo-22}\n"
    more = [(old, new.replace("circuits:\n", f"circuits:\n{feed}")) for old, new in harness]
    (finding,) = named("one-pack", check(aircraft_folder(changed(*more))).findings)
    assert f"V at `{worst}` at peak" in finding.sentence


# What keeps its feeds apart and gets supply at another port alone has nothing there that it could meet.
@pytest.mark.parametrize("isolates", ["isolates: yes, ", ""])
def test_supply_that_comes_to_another_port_alone_meets_nothing(isolates: str, aircraft_folder: AircraftFolder) -> None:
    box = (
        f"  box: {{kind: other, place: radio-tray, {isolates}fed_by: [A],\n"
        "    ports: {plug: servo-3, names: [A, B], contacts: pins}}\n"
    )
    feed = "  box: {from: receiver 3, to: box B, lead: servo-22}\n"
    findings = check(aircraft_folder(changed((EQUIPMENT, EQUIPMENT + box), (CIRCUITS, CIRCUITS + feed)))).findings
    assert named("joined-supplies", findings) == []


def test_what_a_receiver_gives_and_gets_back_is_no_further_supply(aircraft_folder: AircraftFolder) -> None:
    second = "  supply-2: {from: pack-2, to: receiver BATT-2, lead: power-20}\n"
    changes = patched_back("    fed_by: [BATT, BATT-2]\n", second + FROM_RECEIVER)
    (finding,) = named("joined-supplies", check(aircraft_folder(changes)).findings)
    assert finding.sentence == "the positives of several supplies meet at `receiver`: pack, pack-2."
    assert "(`omit: [positive]`; supply-2, supply)" in finding.do
