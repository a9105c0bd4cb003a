"""Currents, keys, fuses and returns: each finding where it was typed, and a nearly equal definition without it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding, told_once
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

EQUIPMENT, CIRCUITS, PACK = "equipment:\n", "circuits:\n", "  pack:\n"
RUDDER_AMPS = "    current: {idle: 20 mA, working: 0.5 A, stall: 2.4 A}\n"
ON = "    on: plug the pack in through the nose hatch; the receiver's light comes on\n"


def changed(*harness: tuple[str, str]) -> Changes:
    files: dict[str, str | Replacements | None] = {"harness.yaml": list(harness)}
    return files


def draws(said: str) -> Changes:
    return changed((RUDDER_AMPS, f"    current: {{{said}}}\n"))


STALL = {
    "stall under working": Case(
        "stall",
        draws("working: 0.5 A, stall: ▶0.4 A"),
        draws("working: 0.5 A, stall: 0.5 A"),
        "the stall current of `rudder`, 0.4 A, is less than its working current, 0.5 A. Correct `stall:` or "
        "`working:`.",
    ),
    "working under idle": Case(
        "stall",
        draws("idle: 200 mA, working: ▶0.1 A, stall: 2.4 A"),
        draws("idle: 0.1 A, working: 0.1 A, stall: 2.4 A"),
    ),
}

SECOND = (
    "  NAME: {kind: battery, place: radio-tray, lead: 90 mm, plug: power-2SAYS, "
    "battery: {cells: 2, capacity: 1 Ah, full: 8.4 V, empty: 6.4 V}}\n"
)
SWITCH = (
    "  switch:\n    kind: power switch\n    place: radio-tray\nSAYS    ports:\n"
    "      - {plug: power-2, names: [IN], contacts: pins}\n"
    "      - {plug: power-2, names: [RADIO, MOTOR], contacts: sockets}\n"
    "      - {plug: servo-3, names: [KEY], contacts: pins}\n"
    "  motor:\n    kind: KIND\n    place: radio-tray\n    ports: {plug: power-2, names: [PACK], contacts: pins}\n"
)
SECOND_ON, SWITCH_ON = ", on: plug it in", "    on: slide it\n"
RADIO = "  radio: {from: switch RADIO, to: receiver BATT-2, lead: power-20}\n"
MOTOR = "  motor: {from: switch MOTOR, to: motor PACK, lead: power-20}\n"


def keyed(
    key: str,
    fed: str,
    kind: str = "speed controller",
    on: tuple[str, str] = (SECOND_ON, SWITCH_ON),
    pack: str = "second",
) -> Changes:
    """Return a switch with a key on a pack of its own, and what it feeds."""
    entries = SECOND.replace("NAME", pack).replace("SAYS", on[0]) + SWITCH.replace("SAYS", on[1]).replace("KIND", kind)
    entries += f"  {key.replace('KEY', 'kind: key, place: radio-tray, lead: 90 mm, plug: servo-3')}\n"
    circuits = "  second: {from: second, to: switch IN, lead: power-20}\n  keyed: {from: switch KEY, to: key}\n" + fed
    return changed((PACK, entries + PACK), ("names: [BATT]", "names: [BATT, BATT-2]"), (CIRCUITS, CIRCUITS + circuits))


OFF, OUT_OFF, OUT_ON = "key: {KEY}", "key: {KEY, out: off}", "key: {KEY, out: on}"

SWITCHING = {
    "a pack": Case("switching", changed((PACK, "  ▶pack:\n"), (ON, "")), changed()),
    "a pack and a switch, in one line": Case(
        "switching",
        keyed(OUT_ON, RADIO, pack="▶second", on=("", "")),
        keyed(OUT_ON, RADIO),
        "how `second`, `switch` is switched on is not said. Say it: `on:`.",
    ),
    "a key that is in while the radio is on": Case(
        "switching",
        keyed("▶key: {KEY}", RADIO),
        keyed(OUT_ON, RADIO),
        "`key` switches receivers off when it falls out. Take one that is out in flight (`out: on`), with a streamer "
        "on it.",
    ),
    "one that says so": Case("switching", keyed("key: {KEY, out: ▶off}", RADIO), keyed(OUT_OFF, MOTOR)),
    "a key that is out while a motor runs": Case(
        "switching",
        keyed("key: {KEY, out: ▶on}", MOTOR),
        keyed(OFF, MOTOR),
        "`key` switches a motor on when it falls out. Give the motor a key of its own that is in while it runs "
        "(`out: off`).",
    ),
    "a key of both": Case("switching", keyed("key: {KEY, out: ▶on}", RADIO + MOTOR), keyed(OUT_ON, RADIO)),
    "a turbine's": Case(
        "switching", keyed("key: {KEY, out: ▶on}", MOTOR, "engine unit"), keyed(OUT_ON, MOTOR, "light controller")
    ),
}

BATTERY = "full: 8.4 V, empty: 6.4 V}\n"


def lamp(
    rating: str, key: str = "pack", kind: str = "light", through: str = "", of_port: str = "", before: str = "power-12"
) -> Changes:
    """Return a lamp, with a lead of 5 A and 3 A of its own, on a pack that can give so much; a lead `before` a fuse."""
    load = f"  lamp: {{kind: {kind}, place: radio-tray, lead: 90 mm, lead_wire: pvc-22, plug: power-2}}\n"
    fuse = (
        f"  holder: {{kind: fuse, place: battery-bay{through}, ports: [{{plug: power-2, names: [IN], contacts: pins, "
        "lead: 60 mm, lead_wire: silicone-12}, {plug: power-2, names: [OUT], contacts: sockets}]}\n"
    )
    port = f"      - {{plug: power-2, names: [LAMP], contacts: sockets{of_port}}}\n"
    circuits = "  lamp: {from: receiver LAMP, to: lamp, lead: power-20}\n"
    if through:
        circuits = (
            f"  fused: {{from: receiver LAMP, to: holder IN, lead: {before}}}\n"
            "  lamp: {from: holder OUT, to: lamp, lead: power-20}\n"
        )
    return changed(
        (PACK, load + (fuse if through else "") + f"  {key}:\n"),
        (BATTERY, BATTERY.replace("}", f", rating: {rating}}}")),
        ("    current: {working: 150 mA}\n", port + "    current: {working: 150 mA}\n"),
        (CIRCUITS, CIRCUITS + circuits),
    )


def fused(rating: str, key: str, beside: str, swap: tuple[str, str], more: str = "") -> Changes:
    """Return a lamp behind a fuse, up to which goes a wire of 5 A, what is `beside` it and `more` circuits."""
    changes = lamp(rating, key, through=", rating: 3 A", before="power-20")["harness.yaml"]
    assert isinstance(changes, list)
    *others, (old, circuits) = changes
    every = [*others, (old, circuits + more)]
    return changed(
        *((before, new.replace("  lamp: {kind", beside + "  lamp: {kind").replace(*swap)) for before, new in every)
    )


def divided(rating: str, key: str = "pack") -> Changes:
    """Return a lead of 5 A that divides to a fuse, which a lamp is behind, and to another lamp."""
    bare = "  bare: {kind: light, place: battery-bay, lead: 90 mm, plug: power-2}\n"
    split = "to: [bare, holder IN], split: {place: battery-bay, loop: 20 mm}"
    return fused(rating, key, bare, ("to: holder IN", split))


def servo_beside(rating: str, key: str = "pack") -> Changes:
    """Return a fuse that a servo is behind too, with the lamp; up to it goes a wire of 5 A."""
    tail = "  tail: {kind: servo, place: radio-tray, lead: 90 mm, plug: power-2}\n"
    more = "  tail: {from: holder MORE, to: tail, lead: power-20}\n"
    return fused(rating, key, tail, ("names: [OUT]", "names: [MORE, OUT]"), more)


def by_two_ways(first: str, second: str, key: str = "pack") -> Changes:
    """Return a lamp on a hub that two leads feed, one over a fuse of 3 A; what else is said of either."""
    changes = lamp("40 A", key, through=", rating: 3 A")["harness.yaml"]
    assert isinstance(changes, list)
    hub = (
        "  hub: {kind: power unit, place: radio-tray, ports: [{plug: power-2, names: [A, B], contacts: pins}, "
        "{plug: power-2, names: [LAMP], contacts: sockets}]}\n"
    )
    circuits = (
        "  lamp: {from: hub LAMP, to: lamp, lead: power-20}\n"
        f"  first: {{from: holder OUT, to: hub A, lead: power-20{first}}}\n"
        f"  second: {{from: receiver MORE, to: hub B, lead: power-20{second}}}\n"
    )
    old = "  lamp: {from: holder OUT, to: lamp, lead: power-20}\n"
    news = [(was, new.replace(old, circuits).replace("names: [LAMP]", "names: [LAMP, MORE]")) for was, new in changes]
    return changed(*((was, new.replace("  lamp: {kind", f"{hub}  lamp: {{kind")) for was, new in news))


WITHOUT = ", omit: [positive]"

# PVC of 20 AWG bears 5 A, of 22 AWG 3 A, silicone of 12 AWG 45 A (common practice).
FUSE = {
    "a way around the fuse": Case("fuse", by_two_ways("", "", "▶pack"), by_two_ways("", WITHOUT)),
    "an own lead that bears less than the pack gives": Case(
        "fuse",
        lamp("3.1 A", "▶pack"),
        lamp("3 A"),
        "`pack` can give 3.1 A, and no fuse lies between that saves the wires of `lamp` (3 A). Put a fuse of no more "
        "than they bear near the pack, or accept it with what cuts off instead.",
    ),
    "a fuse that the wire does not bear": Case(
        "fuse", lamp("40 A", "▶pack", through=", rating: 3.1 A"), lamp("40 A", through=", rating: 3 A")
    ),
    # 260 mm of run are cut to 325 mm, as those of the example's supply are; 60 mm came with the fuse.
    "what lies before the fuse": Case(
        "fuse",
        lamp("40 A", "▶pack", through=", rating: 3 A", before="power-20"),
        lamp("5 A", through=", rating: 3 A", before="power-20"),
        "`pack` can give 40 A, and no fuse lies between that saves the wires of `fused` (5 A, 385 mm up to its fuse). "
        "Put a fuse of no more than they bear near the pack, or accept it with what cuts off instead.",
    ),
    "what lies before the fuse of a servo": Case(
        "fuse",
        lamp("40 A", "▶pack", through=", rating: 3 A", before="power-20"),
        lamp("40 A", kind="servo", through=", rating: 3 A", before="power-20"),
    ),
    # To one fuse and to a lamp besides, so that it is not known what a length up to a fuse would be.
    "what divides to a fuse and to a lamp": Case(
        "fuse",
        divided("40 A", "▶pack"),
        divided("5 A"),
        "`pack` can give 40 A, and no fuse lies between that saves the wires of `fused` (5 A). "
        "Put a fuse of no more than they bear near the pack, or accept it with what cuts off instead.",
    ),
    "what lies before the fuse of a lamp and of a servo": Case(
        "fuse", servo_beside("40 A", "▶pack"), servo_beside("5 A")
    ),
    "a regulator that gives more": Case(
        "fuse",
        lamp("40 A", "▶pack", of_port=", output: {volts: 5 V, rating: 3.1 A}"),
        lamp("40 A", of_port=", output: {volts: 5 V, rating: 3 A}"),
    ),
    "a rating does not cut off": Case("fuse", lamp("40 A", "▶pack", of_port=", rating: 3 A"), lamp("3 A")),
    "smoke": Case("fuse", lamp("40 A", "▶pack", "smoke"), lamp("40 A", kind="servo")),
    "a camera": Case("fuse", lamp("40 A", "▶pack", "other"), lamp("40 A", kind="power unit")),
}

FUSED_LAMP = "plug: power-2, current: {working: 2 A}}\n"


def blown(rating: str) -> Changes:
    changes = lamp("40 A", through=f", rating: {rating}")["harness.yaml"]
    assert isinstance(changes, list)
    return changed(*((old, new.replace("plug: power-2}\n", FUSED_LAMP)) for old, new in changes))


SUPPLY_CURRENT = {
    "a fuse that blows": Case(
        "supply-current",
        blown("▶1.9 A"),
        blown("2 A"),
        "`holder` gives 2.00 A at peak (4 stall together; common practice: surfaces move in pairs) and may give 1.9 A "
        "(`rating:`): 0.1 A over. Use one that may give 2 A, or hang some loads elsewhere.",
    ),
}

FLAP = "  <side>-flap: {kind: servo, place: <side>-aileron, lead: 250 mm, plug: servo-3, current: {working: FLAP}}\n"
COMMONS = (
    "    commons:\n      out: {role: positive, contacts: [1], circuits: [<side>-aileron, <side>-flap]}\n"
    "      back: {role: negative, contacts: [2], circuits: [<side>-aileron, <side>-flap]}\n"
)
HEAVY = (
    "  <side>-NAME: {from: {left: receiver LEFT, right: receiver RIGHT}, to: <side>-root out back, lead: power-20}\n"
)


def wing(
    aileron: str, flap: str, leads: tuple[str, str] = ("signal-24", "signal-24"), *, twice: bool = False
) -> Changes:
    """Return two servos of a wing with one heavy pair, by what they draw, and the signal leads beside it."""
    of_aileron, of_flap = (f"{{A: {lead}, B: servo-22}}" for lead in leads)
    flaps = "  <side>-flap: {from: RECEIVER, to: <side>-flap, through: [<side>-root], lead: LEAD}\n"
    flaps = flaps.replace("RECEIVER", "{left: receiver 5, right: receiver 6}")
    heavies = HEAVY.replace("NAME", "wing")
    if twice:
        heavies += HEAVY.replace("NAME", "wing-b").replace("LEFT", "L2").replace("RIGHT", "R2")
    through = "    through: [<side>-root]\n    lead: "
    files = changed(
        ("working: 0.6 A, stall: 2.4 A}", f"working: {aileron}, stall: 9 A}}"),
        ("names: 1..4", "names: 1..6"),
        ("names: [BATT]", "names: [BATT, LEFT, RIGHT, L2, R2]"),
        (f"{through}servo-22\n", f"{through}{of_aileron}\n"),
        ("    shell: block-6\n", f"    shell: block-6\n{COMMONS}"),
        (EQUIPMENT, EQUIPMENT + FLAP.replace("FLAP", flap)),
        (CIRCUITS, CIRCUITS + heavies + flaps.replace("LEAD", of_flap)),
    )
    parts = (
        "leads:\n  thick: {wires: {negative: silicone-22 BK, signal: silicone-22 WH}}\n"
        "  live: {wires: {positive: silicone-22 RD, signal: silicone-22 WH}}\n"
    )
    return {**files, "parts.yaml": parts}


# What the heavy pair brought back, shared by two: 2.6 A each. PVC of 24 AWG bears 2.5 A, fluoropolymer of 26 AWG 2 A,
# a servo's plug 3 A (common practice).
THIN, THICK = ("▶signal-24", "▶signal-24"), ("thick", "thick")
RETURN = {
    "a wire": Case(
        "return",
        wing("3 A", "2.2 A", THIN),
        wing("3 A", "1.9 A"),
        "without `left-wing`, 5.20 A of the common `back` come back over 2 signal leads, 2.60 A in this; its `pvc-24` "
        "bears 2.5 A. Bring a second heavy negative to the common, or wire the signal leads so that each bears 2.6 A.",
    ),
    "a thinner one": Case(
        "return",
        wing("2.1 A", "2 A", ("▶signal-26", "▶signal-26")),
        wing("2.1 A", "2 A"),
        "without `left-wing`, 4.10 A of the common `back` come back over 2 signal leads, 2.05 A in this; its "
        "`fluoro-26` bears 2 A. Bring a second heavy negative to the common, or wire the signal leads so that each "
        "bears 2.05 A.",
    ),
    "one of two": Case("return", wing("3 A", "2.2 A", ("▶signal-24", "thick")), wing("3 A", "2.2 A", THICK)),
    "the plug": Case(
        "return",
        wing("3.1 A", "3 A", ("▶thick", "▶thick")),
        wing("3 A", "3 A", THICK),
        "without `left-wing`, 6.10 A of the common `back` come back over 2 signal leads, 3.05 A in this; its `servo-3` "
        "bears 3 A. Bring a second heavy negative to the common, or wire the signal leads so that each bears 3.05 A.",
    ),
    "one alone": Case(
        "return",
        wing("1.4 A", "1.2 A", ("▶signal-24", "lone-26")),
        wing("1.3 A", "1.2 A", ("signal-24", "lone-26")),
        "without `left-wing`, 2.60 A of the common `back` come back over this signal lead; its `pvc-24` bears 2.5 A. "
        "Bring a second heavy negative to the common, or wire the signal leads so that each bears 2.6 A.",
    ),
    "nothing comes back over a lead without": Case(
        "return", wing("3 A", "2.2 A", THIN), wing("3 A", "2.2 A", ("lone-26", "lone-26"))
    ),
    "nor over a positive": Case("return", wing("3.1 A", "3.1 A", THIN), wing("3.1 A", "3.1 A", ("live", "live"))),
    # Each brings back 9 A, which shared by the other and both signal leads would be 3 A.
    "two heavy pairs": Case("return", wing("9 A", "9 A", THIN), wing("9 A", "9 A", twice=True)),
}

MOTOR_AT_THE_TAIL = (
    "  motor:\n    kind: KIND\n    place: PLACE\n    ports:\n"
    "      - {plug: power-2, names: [PACK], contacts: pins}\n"
    "      - {plug: servo-3, names: [RX], contacts: pins}\n    fed_by: [PACK]\n"
)


def beside(kind: str, place: str, key: str, lead: str = "signal-24", own: str = "90 mm") -> Changes:
    """Return what may make noise, fed from the nose, and a sensor at the tail."""
    motor = MOTOR_AT_THE_TAIL.replace("KIND", kind).replace("PLACE", place)
    sensor = f"  sensor: {{kind: sensor, place: tail-post, lead: {own}, plug: servo-3}}\n"
    circuits = (
        "  feed: {from: receiver MOTOR, to: motor PACK, lead: power-20}\n"
        f"  {key}: {{from: receiver 3, to: sensor, lead: {lead}}}\n"
    )
    return changed(
        (PACK, motor + sensor + PACK), ("names: [BATT]", "names: [BATT, MOTOR]"), (CIRCUITS, CIRCUITS + circuits)
    )


ANTENNA = "B: {place: radio-tray, lies: crosswise, lead: 150 mm}"


def antenna(place: str) -> Changes:
    changes = beside("motor", "tail-post", "speed", "servo-22")["harness.yaml"]
    assert isinstance(changes, list)
    return changed(
        *changes,
        (ANTENNA, ANTENNA.replace("radio-tray, lies: crosswise, lead: 150", place + ", lies: crosswise, lead: 1500")),
    )


NEAR = {
    "a signal beside a motor's supply": Case(
        "near",
        beside("speed controller", "tail-post", "▶speed"),
        beside("speed controller", "radio-tray", "speed"),
        "`speed` carries signal only and lies between `radio-tray` and `tail-post` beside `feed`. Go by another way "
        "(`by:`), apart from those.",
    ),
    "beside an ignition's": Case(
        "near", beside("ignition", "tail-post", "▶speed"), beside("pump", "tail-post", "speed")
    ),
    "with a supply it is no signal alone": Case(
        "near", beside("motor", "tail-post", "▶speed"), beside("motor", "tail-post", "speed", "servo-22")
    ),
    "a lead that earths alone": Case(
        "near",
        beside("motor", "tail-post", "▶speed"),
        {
            **beside("motor", "tail-post", "speed", "earth"),
            "parts.yaml": "leads: {earth: {wires: {negative: pvc-22 BK}}}\n",
        },
    ),
    "an own lead": Case(
        "near",
        beside("motor", "tail-post", "▶speed", own="90 mm, plug_at: radio-tray"),
        beside("motor", "radio-tray", "speed", own="90 mm, plug_at: radio-tray"),
    ),
    "an antenna": Case(
        "near",
        antenna("▶tail-post"),
        antenna("radio-tray"),
        "antenna `B` of `receiver` lies between `radio-tray` and `tail-post` beside `feed`. Give it a place that is "
        "reached by another way.",
    ),
}

TABLES = (STALL, SWITCHING, FUSE, SUPPLY_CURRENT, RETURN, NEAR)
ALL = {f"{case.name}: {about}": case for table in TABLES for about, case in table.items()}
TOLD = {about: case for about, case in ALL.items() if case.told}


def named(name: str, findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.name == name]


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_finding_stands_where_it_was_typed(case: Case, aircraft_folder: AircraftFolder, places_of: PlacesOf) -> None:
    found = named(case.name, check(aircraft_folder(case.wrong)).findings)
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_nearly_equal_definition_has_none(case: Case, aircraft_folder: AircraftFolder) -> None:
    checked = check(aircraft_folder(case.right))
    assert checked.harness is not None, checked.findings
    assert named(case.name, checked.findings) == []


@pytest.mark.parametrize("case", TOLD.values(), ids=TOLD)
def test_a_finding_says_this(case: Case, aircraft_folder: AircraftFolder) -> None:
    finding = named(case.name, check(aircraft_folder(case.wrong)).findings)[0]
    assert f"{finding.sentence} {finding.do}" == case.told


def test_what_accepts_that_it_says_nothing_is_left_out_of_the_line(aircraft_folder: AircraftFolder) -> None:
    says = ", accept: {switching: a reason}"
    found = named("switching", check(aircraft_folder(keyed(OUT_ON, RADIO, on=(says, "")))).findings)
    assert [(finding.subject, finding.accepted) for finding in found] == [
        (("equipment", "second"), "a reason"),
        (("equipment", "switch"), ""),
    ]


AILERON_AMPS = "current: {idle: 20 mA, working: 0.6 A, stall: 2.4 A}"
LEG = (
    "  <side>-leg: {kind: gear leg, place: <side>-aileron, gear: {up: {left: 9 s, right: 9.4 s}, limit: 8 s}}\n"
    "  pack:\n"
)
HOT = ("at: {aft: 690 mm, <side>: 810 mm, up: 110 mm},", "at: {aft: 690 mm, <side>: 810 mm, up: 110 mm}, heat: 60 °C,")
TWINS: dict[str, Changes] = {
    "stall": changed((AILERON_AMPS, "current: {working: {left: 2.5 A, right: 2.6 A}, stall: 2.4 A}")),
    "gear-limit": changed((PACK, LEG)),
    "return": wing("{left: 3 A, right: 3.2 A}", "2.2 A", ("signal-24", "thick")),
    "heat": {
        "aircraft.yaml": [HOT],
        "harness.yaml": [(AILERON_AMPS, f"{AILERON_AMPS}\n    most_heat: {{left: 50 °C, right: 40 °C}}")],
    },
}


@pytest.mark.parametrize("name", TWINS)
def test_of_left_and_right_the_worse_is_told(name: str, aircraft_folder: AircraftFolder) -> None:
    [told] = told_once(named(name, check(aircraft_folder(TWINS[name])).findings))
    assert "right" in told.finding.subject[1]
    assert [twin.replace("left", "right") for twin in told.twins] == [told.finding.subject[1]]


# The entry that a finding stands on: a text in it, after which the acceptance is written.
ACCEPTED = {
    "stall": (STALL["stall under working"], "stall: 0.4 A}\n", "    ACCEPT\n"),
    "fuse": (FUSE["a fuse that the wire does not bear"], ", rating: 40 A}\n", "    ACCEPT\n"),
    "return": (RETURN["one of two"], "{A: signal-24, B: servo-22}\n", "    ACCEPT\n"),
    "near": (NEAR["beside an ignition's"], "to: sensor, lead: signal-24", ", ACCEPT"),
    "near of an antenna": (NEAR["an antenna"], "lies: crosswise, lead: 1500 mm", ", ACCEPT"),
    "switching of a key": (SWITCHING["a key of both"], "plug: servo-3, out: on", ", ACCEPT"),
}


@pytest.mark.parametrize(("case", "entry", "accept"), ACCEPTED.values(), ids=ACCEPTED)
def test_it_can_be_accepted_on_the_entry_it_stands_on(
    case: Case, entry: str, accept: str, aircraft_folder: AircraftFolder
) -> None:
    old = case.wrong["harness.yaml"]
    assert isinstance(old, list)
    plain = [(before, after.replace("▶", "")) for before, after in old]
    added = (entry, entry + accept.replace("ACCEPT", f"accept: {{{case.name}: a reason}}"))
    findings = check(aircraft_folder({**case.wrong, "harness.yaml": [*plain, added]})).findings
    assert {finding.accepted for finding in named(case.name, findings)} == {"a reason"}
    assert named("accept", findings) == []


def test_how_long_it_is_up_to_a_fuse_is_said_only_if_that_is_known(aircraft_folder: AircraftFolder) -> None:
    changes = lamp("40 A", through=", rating: 3 A", before="power-20")["harness.yaml"]
    assert isinstance(changes, list)
    unmeasured: Replacements = [("radio-tray], length: 260 mm", "radio-tray]"), ("at: {aft: 180 mm}, access", "access")]
    folder = aircraft_folder({"harness.yaml": changes, "aircraft.yaml": unmeasured})
    (finding,) = named("fuse", check(folder).findings)
    assert "`fused` (5 A, up to its fuse)" in finding.sentence
