"""Currents, keys, fuses and returns: each finding where it was typed, and a nearly equal definition without it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding
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
        "`rudder` draws 0.4 A stall, less than the 0.5 A working.",
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
    "a pack": Case("switching", changed((PACK, "  ▶pack:\n"), (ON, "")), changed(), "how `pack` is switched on"),
    "a pack and a switch, in one line": Case(
        "switching",
        keyed(OUT_ON, RADIO, pack="▶second", on=("", "")),
        keyed(OUT_ON, RADIO),
        "how `second`, `switch` is switched on is not said.",
    ),
    "a key that is in while the radio is on": Case(
        "switching",
        keyed("▶key: {KEY}", RADIO),
        keyed(OUT_ON, RADIO),
        "`key` switches receivers off when it falls out.",
    ),
    "one that says so": Case("switching", keyed("key: {KEY, out: ▶off}", RADIO), keyed(OUT_OFF, MOTOR)),
    "a key that is out while a motor runs": Case(
        "switching",
        keyed("key: {KEY, out: ▶on}", MOTOR),
        keyed(OFF, MOTOR),
        "`key` switches a motor on when it falls out.",
    ),
    "a key of both": Case("switching", keyed("key: {KEY, out: ▶on}", RADIO + MOTOR), keyed(OUT_ON, RADIO)),
    "a turbine's": Case(
        "switching", keyed("key: {KEY, out: ▶on}", MOTOR, "engine unit"), keyed(OUT_ON, MOTOR, "light controller")
    ),
}

TABLES = (STALL, SWITCHING)
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
def test_a_finding_tells_the_figure(case: Case, aircraft_folder: AircraftFolder) -> None:
    finding = named(case.name, check(aircraft_folder(case.wrong)).findings)[0]
    assert case.told in f"{finding.sentence} {finding.do}"


def test_what_accepts_that_it_says_nothing_is_left_out_of_the_line(aircraft_folder: AircraftFolder) -> None:
    says = ", accept: {switching: a reason}"
    found = named("switching", check(aircraft_folder(keyed(OUT_ON, RADIO, on=(says, "")))).findings)
    assert [(finding.subject, finding.accepted) for finding in found] == [
        (("equipment", "second"), "a reason"),
        (("equipment", "switch"), ""),
    ]


# The entry that a finding stands on: a text in it, after which the acceptance is written.
ACCEPTED = {
    "stall": (STALL["stall under working"], "stall: 0.4 A}\n", "    ACCEPT\n"),
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
