"""Fail-safe, gear and antennas: each caution where it was typed, and a nearly equal definition without it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

EQUIPMENT, CIRCUITS = "equipment:\n", "circuits:\n"
TAIL_POST = "  tail-post:         {assembly: fuselage,     at: {aft: 1540 mm, up: 40 mm}, access: tail hatch}\n"
TAIL_RUN = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
ANTENNA_A = "A: {place: radio-tray, lies: lengthwise, lead: 150 mm}"
ANTENNA_B = "B: {place: radio-tray, lies: crosswise, lead: 150 mm}"


def changed(*harness: tuple[str, str], aircraft: Sequence[tuple[str, str]] = ()) -> Changes:
    files: dict[str, str | Replacements | None] = {"harness.yaml": list(harness), "aircraft.yaml": list(aircraft)}
    return files


def throttled(kind: str, failsafe: str, key: str = "engine", lead: str = "    lead: servo-22\n") -> Changes:
    """Return an engine, motor or smoke that one circuit leads to."""
    engine = f"  {key}:\n    kind: {kind}\n    place: radio-tray\n    lead: 200 mm\n    plug: servo-3\n"
    circuit = f"  throttle:\n    from: receiver 3\n    to: engine\n{lead}{failsafe}"
    return changed((EQUIPMENT, EQUIPMENT + engine), (CIRCUITS, CIRCUITS + circuit))


def from_a_motor(failsafe: str, key: str = "engine") -> Changes:
    """Return a speed controller whose one lead goes to the receiver, and to a buzzer beside it."""
    equipment = "".join(
        f"  {name}: {{kind: {kind}, place: radio-tray, ports: [{{plug: servo-3, names: [RX], contacts: pins}}]}}\n"
        for name, kind in ((key, "speed controller"), ("buzzer", "other"))
    )
    circuit = "  throttle:\n    from: engine RX\n    to: [receiver 3, buzzer RX]\n    lead: signal-26\n"
    circuit += f"    split: {{place: radio-tray}}\n{failsafe}"
    return changed((EQUIPMENT, EQUIPMENT + equipment), (CIRCUITS, CIRCUITS + circuit))


def smoke_pump(on_supply: str, on_signal: str, key: str = "pump") -> Changes:
    """Return a smoke pump with a supply and a signal, each of which may say a fail-safe."""
    pump = (
        f"  {key}:\n    kind: smoke\n    place: radio-tray\n    fed_by: [POWER]\n    ports:\n"
        "      - {plug: power-2, names: [POWER], contacts: pins}\n"
        "      - {plug: servo-3, names: [RX], contacts: pins}\n"
    )
    circuits = (
        f"  pump-supply: {{from: receiver PUMP, to: pump POWER, lead: power-20{on_supply}}}\n"
        f"  pump-signal: {{from: receiver 3, to: pump RX, lead: signal-26{on_signal}}}\n"
    )
    return changed(
        ("names: [BATT]", "names: [BATT, PUMP]"), (EQUIPMENT, EQUIPMENT + pump), (CIRCUITS, CIRCUITS + circuits)
    )


OFF, IDLE, HOLD, CENTRE = (f"    failsafe: {word}\n" for word in ("off", "idle", "hold", "centre"))

FAILSAFE = {
    "an engine, nothing said": Case(
        "failsafe", throttled("engine unit", "", "▶engine"), throttled("engine unit", IDLE)
    ),
    "an engine that is held": Case(
        "failsafe", throttled("engine unit", HOLD, "▶engine"), throttled("engine unit", OFF)
    ),
    "a motor": Case("failsafe", throttled("speed controller", CENTRE, "▶engine"), throttled("speed controller", OFF)),
    "smoke": Case("failsafe", throttled("smoke", "", "▶engine"), throttled("smoke", OFF)),
    "a motor plugged straight in": Case(
        "failsafe",
        throttled("speed controller", "", "▶engine", lead=""),
        throttled("speed controller", OFF, lead=""),
    ),
    "one of its circuits is enough": Case("failsafe", smoke_pump("", "", "▶pump"), smoke_pump("", ", failsafe: off")),
    "that of its channel is asked for": Case(
        "failsafe",
        smoke_pump("", ", channel: 7", "▶pump"),
        smoke_pump("", ", channel: 7, failsafe: off"),
        "at `pump-signal`,",
    ),
    "on a Y from its own lead to the receiver and to something else": Case(
        "failsafe", from_a_motor("", "▶engine"), from_a_motor(OFF)
    ),
    "a pump that is no smoke pump needs none": Case(
        "failsafe", throttled("speed controller", "", "▶engine"), throttled("pump", "")
    ),
}


def gear_leg(
    gear: str, of_controller: str = "", key: str = "nose-leg", draws: str = "working: 1 A, stall: 4 A"
) -> Changes:
    """Return a gear leg that works at 1 A and stalls at 4 A unless told otherwise."""
    controller = (
        f"  gear-unit:\n    kind: gear controller\n    place: radio-tray\n{of_controller}    ports:\n"
        "      - {plug: power-2, names: [POWER], contacts: pins}\n"
        "      - {plug: motor-2, names: [LEG], contacts: pins}\n"
    )
    leg = (
        f"  {key}:\n    kind: gear leg\n    place: tail-post\n    lead: 160 mm\n    lead_wire: pvc-22\n"
        f"    plug: motor-2\n    current: {{idle: 0 A, {draws}, runs: 20 s}}\n{gear}"
    )
    circuits = (
        "  gear-supply: {from: receiver GEAR, to: gear-unit POWER, lead: power-20}\n"
        "  leg: {from: gear-unit LEG, to: nose-leg, lead: motor-22}\n"
    )
    return changed(
        ("names: [BATT]", "names: [BATT, GEAR]"),
        (EQUIPMENT, EQUIPMENT + controller + leg),
        (CIRCUITS, CIRCUITS + circuits),
    )


def strokes(said: str, mark: str = "") -> str:
    return f"    gear: {mark}{{up: 9 s, down: 8 s{said}}}\n"


# The longer stroke is 9 s: 1.1 × 9 = 9.9 s and 9 + 1 = 10 s; the next whole second is 10 s. Far over it is more than
# 2 s and more than a quarter of it: over 12.5 s. For 4 s: 4.4 s and 5 s, so 5 s; far over 7 s, as a quarter is 1.25 s.
# A stop belongs between 1.3 × 1 A and 0.8 × 4 A. Common practice, no source.
GEAR_LIMIT = {
    "neither limit nor stop": Case(
        "gear-limit", gear_leg(strokes("", "▶")), gear_leg(strokes(", limit: 10 s")), "10 s"
    ),
    "a stop is enough": Case("gear-limit", gear_leg(strokes("", "▶")), gear_leg(strokes(", stop: 2 A"))),
    "nothing at all": Case("gear-limit", gear_leg("", key="▶nose-leg"), gear_leg("    gear: {limit: 10 s}\n")),
    "under the stroke": Case(
        "gear-limit", gear_leg(strokes(", limit: ▶8.9 s")), gear_leg(strokes(", limit: 9.1 s")), "10 s"
    ),
    "under the longer stroke down": Case(
        "gear-limit",
        gear_leg("    gear: {up: 8 s, down: 9 s, limit: ▶8.9 s}\n"),
        gear_leg("    gear: {up: 8 s, down: 9 s, limit: 10 s}\n"),
        "10 s",
    ),
    "far over": Case("gear-limit", gear_leg(strokes(", limit: ▶13 s")), gear_leg(strokes(", limit: 12 s")), "10 s"),
    "more than 2 s and no quarter over": Case(
        "gear-limit", gear_leg(strokes(", limit: ▶12.604 s")), gear_leg(strokes(", limit: 12.4 s"))
    ),
    "a quarter and no 2 s over": Case(
        "gear-limit",
        gear_leg("    gear: {up: 4 s, down: 4 s, limit: ▶7.1 s}\n"),
        gear_leg("    gear: {up: 4 s, down: 4 s, limit: 6.9 s}\n"),
        "5 s",
    ),
    "a stop that working trips": Case(
        "gear-limit", gear_leg(strokes(", stop: ▶1.2 A")), gear_leg(strokes(", stop: 1.4 A"))
    ),
    "a stop that a stall does not trip": Case(
        "gear-limit", gear_leg(strokes(", stop: ▶3.3 A")), gear_leg(strokes(", stop: 3.1 A"))
    ),
    "a stop that working trips, of what is not known to stall": Case(
        "gear-limit",
        gear_leg(strokes(", limit: 10 s, stop: ▶1.2 A"), draws="working: 1 A"),
        gear_leg(strokes(", limit: 10 s, stop: 1.4 A"), draws="working: 1 A"),
    ),
    "a stop that a stall does not trip, of what is not known to work": Case(
        "gear-limit",
        gear_leg(strokes(", limit: 10 s, stop: ▶3.3 A"), draws="stall: 4 A"),
        gear_leg(strokes(", limit: 10 s, stop: 3.1 A"), draws="stall: 4 A"),
    ),
    # Working 2 A and stall 3 A: 2.6 A and 2.4 A leave no room, so that all between 2 A and 3 A will do.
    "a stop without room, at what it works at": Case(
        "gear-limit",
        gear_leg(strokes(", stop: ▶2 A"), draws="working: 2 A, stall: 3 A"),
        gear_leg(strokes(", stop: 2.1 A"), draws="working: 2 A, stall: 3 A"),
    ),
    "a stop without room, at what it stalls at": Case(
        "gear-limit",
        gear_leg(strokes(", stop: ▶3 A"), draws="working: 2 A, stall: 3 A"),
        gear_leg(strokes(", stop: 2.9 A"), draws="working: 2 A, stall: 3 A"),
    ),
    "a stop of what stalls at no more than it works at": Case(
        "gear-limit",
        gear_leg(strokes(", stop: ▶2 A"), draws="working: 2 A, stall: 2 A"),
        gear_leg(strokes(", stop: 2.1 A"), draws="working: 2 A, stall: 3 A"),
    ),
    "the controller says too long a limit": Case(
        "gear-limit",
        gear_leg(strokes(""), "    gear: {limit: ▶13 s}\n"),
        gear_leg(strokes(""), "    gear: {limit: 11 s}\n"),
    ),
    "the controller says too low a stop": Case(
        "gear-limit",
        gear_leg(strokes(", limit: 10 s"), "    gear: {stop: ▶1.2 A}\n"),
        gear_leg(strokes(", limit: 10 s"), "    gear: {stop: 1.4 A}\n"),
    ),
    "the leg's own limit counts before the controller's": Case(
        "gear-limit",
        gear_leg(strokes(", limit: ▶13 s"), "    gear: {limit: 10 s}\n"),
        gear_leg(strokes(", limit: 10 s"), "    gear: {limit: 13 s}\n"),
    ),
}


def two_legs(of_controller: str, strokes: tuple[str, str], limit: str = "") -> Changes:
    """Return two legs on one controller, by how long each takes up, and what the first says besides."""
    legs = "".join(
        f"  {name}-leg:\n    kind: gear leg\n    place: tail-post\n    lead: 160 mm\n    lead_wire: pvc-22\n"
        f"    plug: motor-2\n    gear: {{up: {stroke}{more}}}\n"
        for name, stroke, more in (("nose", strokes[0], limit), ("main", strokes[1], ""))
    )
    controller = (
        f"  gear-unit:\n    kind: gear controller\n    place: radio-tray\n    gear: {of_controller}\n    ports:\n"
        "      - {plug: power-2, names: [POWER], contacts: pins}\n"
        "      - {plug: motor-2, names: [NOSE, MAIN], contacts: pins}\n"
    )
    circuits = "  gear-supply: {from: receiver GEAR, to: gear-unit POWER, lead: power-20}\n" + "".join(
        f"  {name}: {{from: gear-unit {name.upper()}, to: {name}-leg, lead: motor-22}}\n" for name in ("nose", "main")
    )
    return changed(
        ("names: [BATT]", "names: [BATT, GEAR]"),
        (EQUIPMENT, EQUIPMENT + controller + legs),
        (CIRCUITS, CIRCUITS + circuits),
    )


# One setting for both: 9 s and a tenth, or a second more, is 10 s; 4 s alone would want 5 s and be far over at 10 s.
GEAR_LIMIT |= {
    "a controller's limit, by its longest stroke": Case(
        "gear-limit",
        two_legs("{limit: ▶13 s}", ("4 s", "9 s")),
        two_legs("{limit: 10 s}", ("4 s", "9 s")),
        "the limit of `main-leg` is 13 s, 3 s over the 10 s that its longer stroke of 9 s wants: a jammed motor cooks "
        "for that long. Set the controller to 10 s, and say `limit: 10 s`.",
    ),
    "a controller's limit under one stroke": Case(
        "gear-limit",
        two_legs("{limit: ▶8 s}", ("4 s", "9 s")),
        two_legs("{limit: 9 s}", ("4 s", "9 s")),
        "`main-leg`",
    ),
    "a leg's own limit is judged for it alone": Case(
        "gear-limit",
        two_legs("{limit: 10 s}", ("4 s", "9 s"), ", limit: ▶10 s"),
        two_legs("{limit: 10 s}", ("4 s", "9 s"), ", limit: 5 s"),
        "Set the controller to 5 s for this leg",
    ),
}


def second_receiver(lies: tuple[str, str], mark: str = "", bands: tuple[str, str] = ("", "")) -> Changes:
    receiver = (
        "  receiver-b:\n    kind: receiver\n    place: radio-tray\n"
        "    ports: {plug: servo-3, names: [1, BATT], contacts: pins}\n"
        f"    antennas: {mark}{{A: {{place: radio-tray, lies: {lies[0]}, lead: 150 mm{bands[0]}}},"
        f" B: {{place: radio-tray, lies: {lies[1]}, lead: 150 mm{bands[1]}}}}}\n"
    )
    circuit = "  second: {from: receiver 3, to: receiver-b BATT, lead: servo-22}\n"
    return changed(("  pack:\n", receiver + "  pack:\n"), (CIRCUITS, CIRCUITS + circuit))


def antenna_b(text: str) -> Changes:
    """Return the second antenna at a spine, 200 mm behind the tray."""
    return changed(
        (ANTENNA_B, text),
        aircraft=[
            (TAIL_POST, TAIL_POST + "  spine: {assembly: fuselage}\n"),
            (TAIL_RUN, TAIL_RUN + "  - {between: [radio-tray, spine], length: 200 mm}\n"),
        ],
    )


ANTENNAS = {
    "a pair that lies alike": Case(
        "antennas",
        changed((ANTENNA_B, ANTENNA_B.replace("crosswise", "▶lengthwise"))),
        changed((ANTENNA_B, ANTENNA_B.replace("crosswise", "upright"))),
    ),
    "a pair that crosses alike": Case(
        "antennas",
        changed(
            (ANTENNA_A, ANTENNA_A.replace("lengthwise", "crosswise")), (ANTENNA_B, ANTENNA_B.replace("cross", "▶cross"))
        ),
        changed((ANTENNA_A, ANTENNA_A.replace("lengthwise", "upright"))),
    ),
    "two receivers on two axes": Case(
        "antennas",
        second_receiver(("lengthwise", "crosswise"), "▶"),
        second_receiver(("upright", "crosswise")),
    ),
    "two receivers on two axes in the other order": Case(
        "antennas",
        second_receiver(("crosswise", "lengthwise"), "▶"),
        second_receiver(("lengthwise", "upright")),
    ),
    "too short a lead": Case(
        "antennas",
        antenna_b("B: {place: spine, lies: crosswise, lead: ▶199 mm}"),
        antenna_b("B: {place: spine, lies: crosswise, lead: 201 mm}"),
        "200 mm",
    ),
}

LOW, HIGH = ", band: 900 MHz", ", band: 2.4 GHz"


def banded(*bands: str, lies: str = "lengthwise") -> Changes:
    """Return the two antennas of the receiver with a third, which lies lengthwise, each of a band."""
    third = f"C{ANTENNA_A[1:]}".replace("lengthwise", lies)
    a, b, c = (f"{antenna[:-1]}{band}}}" for antenna, band in zip((ANTENNA_A, ANTENNA_B, third), bands, strict=True))
    return changed((ANTENNA_A, a), (ANTENNA_B, f"{b}\n      {c}"))


ANTENNAS |= {
    "alike of one band": Case(
        "antennas", banded(LOW, HIGH, LOW, lies="▶lengthwise"), banded(HIGH, HIGH, LOW), "as `A` lies too"
    ),
    "alike of a band and of one unsaid": Case(
        "antennas", banded("", HIGH, LOW, lies="▶lengthwise"), banded(HIGH, HIGH, LOW)
    ),
    "two receivers on two axes, one of which says its band": Case(
        "antennas",
        second_receiver(("lengthwise", "crosswise"), "▶", (HIGH, HIGH)),
        second_receiver(("lengthwise", "crosswise"), "", (HIGH, LOW)),
        "the 2.4 GHz antennas of `receiver` and `receiver-b` all lie lengthwise or crosswise: 1 short",
    ),
}


def hot(most: str) -> Changes:
    return changed(
        ("    plug: power-2\n", f"    plug: power-2\n    most_heat: {most}\n"),
        aircraft=[("at: {aft: 180 mm}, access", "at: {aft: 180 mm}, heat: 60 °C, access")],
    )


HEAT = {
    "a pack in more heat than it bears": Case(
        "heat",
        hot("▶59 °C"),
        hot("60 °C"),
        "`pack` stands in 60 °C at `battery-bay` and bears 59 °C: 1 °C too much.",
    ),
}

TABLES = (FAILSAFE, GEAR_LIMIT, ANTENNAS, HEAT)
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
def test_a_caution_tells_the_figure(case: Case, aircraft_folder: AircraftFolder) -> None:
    finding = named(case.name, check(aircraft_folder(case.wrong)).findings)[0]
    assert case.told in f"{finding.sentence} {finding.do}"


# The entry that a finding stands on: a text in it, after which the acceptance is written.
ACCEPT = "    accept: {NAME: a reason}\n"
ACCEPTED = {
    "failsafe": (FAILSAFE["smoke"], "    kind: smoke\n", ACCEPT),
    "gear-limit of the leg": (GEAR_LIMIT["far over"], "    kind: gear leg\n", ACCEPT),
    "gear-limit, neither said": (GEAR_LIMIT["neither limit nor stop"], "    kind: gear leg\n", ACCEPT),
    "gear-limit of the controller": (
        GEAR_LIMIT["the controller says too long a limit"],
        "    kind: gear controller\n",
        ACCEPT,
    ),
    "antennas that lie alike": (ANTENNAS["a pair that lies alike"], "    current: {working: 150 mA}\n", ACCEPT),
    "antennas of two receivers": (ANTENNAS["two receivers on two axes"], "  receiver-b:\n    kind: receiver\n", ACCEPT),
    "gear-limit of a controller for all its legs": (
        GEAR_LIMIT["a controller's limit under one stroke"],
        "    kind: gear controller\n",
        ACCEPT,
    ),
    "heat": (HEAT["a pack in more heat than it bears"], "    kind: battery\n", ACCEPT),
    "antennas with a short lead": (ANTENNAS["too short a lead"], "lead: 199 mm", ", accept: {NAME: a reason}"),
}


@pytest.mark.parametrize(("case", "entry", "accept"), ACCEPTED.values(), ids=ACCEPTED)
def test_it_can_be_accepted_on_the_entry_it_stands_on(
    case: Case, entry: str, accept: str, aircraft_folder: AircraftFolder
) -> None:
    old = case.wrong["harness.yaml"]
    assert isinstance(old, list)
    plain = [(before, after.replace("▶", "")) for before, after in old]
    added = (entry, entry + accept.replace("NAME", case.name))
    findings = check(aircraft_folder({**case.wrong, "harness.yaml": [*plain, added]})).findings
    assert {finding.accepted for finding in named(case.name, findings)} == {"a reason"}
    assert named("accept", findings) == []
