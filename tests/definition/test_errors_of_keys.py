"""Files that can't be read, and keys that are wrong or missing: found where they were typed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Case, Place
from wren_changed import BARE_AIRCRAFT, SHELL, SIDES, WIRE, aircraft, harness, parts, rudder, sides, stores

from docgen.basics.findings import Finding

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]

JOINT_HEAD = "  <side>-root:\n    shell: block-6\n"
FIXED = "    fixed: {place: <side>-root,       contacts: sockets, key: up}\n"
LOOSE = "    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}\n"
AILERON = (
    "  <side>-aileron:\n    label: {left: AIL L, right: AIL R}\n    from: {left: receiver 1, right: receiver 2}\n"
    "    to: <side>-aileron\n"
)

SYNTAX = {
    "alias": Case("syntax", rudder("receiver 4", "▶*there"), rudder("receiver 4", '"receiver 4"')),
    "anchor": Case("syntax", rudder("servo-22", "▶&it servo-22"), rudder("servo-22", '"servo-22"')),
    "tag": Case("syntax", rudder("RUD", "▶!!str RUD"), rudder("RUD", "'!!str RUD'")),
    "merge": Case("syntax", aircraft("{time:", "{▶<<: {flights: 3}, time:"), aircraft("{time:", "{flights: 3, time:")),
    "second document": Case(
        "syntax",
        harness("# Where the harness", "▶---\n# Where the harness"),
        harness("equipment:\n", "---\nequipment:\n"),
    ),
    "colon in a text": Case("syntax", harness("light comes", "light▶: comes"), harness("light comes", "light:comes")),
    "control character": Case("syntax", rudder("RUD", '"R▶\x07UD"'), rudder("RUD", '"R UD"')),
}
KEY = {
    "section": Case("key", harness("circuits:\n", "▶circiuts: {a: b}\ncircuits:\n"), {}, "circuits"),
    "of an entry": Case(
        "key",
        rudder("    to:", "    ▶lop: 80 mm\n    to:"),
        rudder("    to:", "    note: 80 mm\n    to:"),
        "loop",
    ),
    "inside an entry": Case(
        "key",
        harness("{least: 3.6 V,", "{▶last: 3 V, least: 3.6 V,"),
        harness("{least: 3.6 V,", "{least: 3 V,"),
        "least",
    ),
    "of a list item": Case(
        "key", aircraft("radio-tray], length: 260", "radio-tray], ▶lenght: 1 mm, length: 260"), {}, "length"
    ),
    "of a file's only entry": Case(
        "key", aircraft("{time:", "{▶flight: 3, time:"), aircraft("{time:", "{flights: 3, time:"), "flights"
    ),
    "in a group of ports": Case(
        "key", harness("{plug: servo-3, names", "{▶plugs: servo-3, plug: servo-3, names"), {}, "plug"
    ),
    "of an antenna": Case(
        "key", harness("A: {place", "A: {▶lays: x, place"), harness("A: {place", "A: {note: x, place"), "lies"
    ),
    "of a half": Case("key", harness("key: up}", "▶kee: down, key: up}"), harness("key: up}", "key: down}"), "key"),
    "of a place's coordinates": Case(
        "key",
        aircraft("{aft: 180 mm}", "{aft: 180 mm, ▶rigth: 5 mm}"),
        aircraft("{aft: 180 mm}", "{aft: 180 mm, right: 5 mm}"),
        "right",
    ),
    "of stores": Case("key", stores("offcut", "▶ofcut: 1 mm\noffcut"), {}, "offcut"),
    "of a spool": Case(
        "key",
        stores("length: 2.5 m", "▶colr: BK, length: 2.5 m"),
        stores("length: 2.5 m", "sealed: yes, length: 2.5 m"),
        "colour",
    ),
    "of parts": Case("key", parts("▶wire: {a: b}\n" + WIRE), parts(WIRE), "wires"),
    "of a part": Case(
        "key",
        parts(WIRE.replace("{gauge", "{▶gage: 1, gauge")),
        parts(WIRE.replace("{gauge", "{mass: 5 g/m, gauge")),
        "gauge",
    ),
    "doubled": Case(
        "key",
        rudder("    to:", "    ▶label: RUDDER\n    to:"),
        rudder("    to:", "    note: RUDDER\n    to:"),
    ),
    "doubled entry": Case(
        "key",
        harness("  rudder:\n    label", "  ▶supply:\n    label"),
        harness("  rudder:\n    label", "  supply-2:\n    label"),
    ),
    "doubled section": Case("key", aircraft("flight:", "▶places: {a: b}\nflight:"), {}),
    "doubled by a side": Case(
        "key",
        aircraft("  <side>-root: ", "  left-root: {assembly: fuselage}\n  ▶<side>-root: "),
        aircraft("  <side>-root: ", "  left-roof: {assembly: fuselage}\n  <side>-root: "),
    ),
}
MISSING = {
    "section": Case("missing", {"aircraft.yaml": "▶" + BARE_AIRCRAFT}, {}),
    "of the aircraft": Case("missing", aircraft("aircraft:\n  name: Wren", "▶aircraft:\n  contact: Wren"), {}, "name"),
    "of a place": Case(
        "missing",
        aircraft("  tail-post:         {assembly: fuselage,", "  ▶tail-post:         {"),
        {},
        "assembly",
    ),
    "why a run goes without a sleeve": Case(
        "missing",
        aircraft("- {between: [battery-bay, radio-tray], ", "- ▶{sleeve: none, between: [battery-bay, radio-tray], "),
        aircraft(
            "- {between: [battery-bay, radio-tray], ",
            "- {sleeve: none, note: dry, between: [battery-bay, radio-tray], ",
        ),
        "note",
    ),
    "of a run": Case("missing", aircraft("- {between: [battery-bay, radio-tray], ", "- ▶{"), {}, "between"),
    "of the flight": Case("missing", aircraft("flight: {time: 9 min, ", "▶flight: {"), {}, "time"),
    "of equipment": Case("missing", harness("  pack:\n    kind: battery\n", "  ▶pack:\n    mass: 9 g\n"), {}, "kind"),
    "of a group inside": Case("missing", harness("battery: {cells: 2, ", "▶battery: {"), {}, "cells"),
    "the plug of a lead": Case(
        "missing",
        harness(
            "  rudder:\n    kind: servo\n    place: tail-post\n    lead: 300 mm\n    plug: servo-3\n",
            "  ▶rudder:\n    kind: servo\n    place: tail-post\n    lead: 300 mm\n",
        ),
        harness("    place: tail-post\n    lead: 300 mm\n", "    place: tail-post\n"),
        "plug",
    ),
    "the cells of a battery": Case(
        "missing",
        harness("  rudder:\n    kind: servo", "  ▶rudder:\n    kind: battery"),
        harness("  rudder:\n    kind: servo", "  rudder:\n    kind: gyro"),
        "battery",
    ),
    "a half": Case("missing", harness(JOINT_HEAD + FIXED, JOINT_HEAD.replace("<side>", "▶<side>", 1)), {}, "fixed"),
    "pins or sockets": Case(
        "missing",
        harness(
            JOINT_HEAD + FIXED + LOOSE,
            (JOINT_HEAD + FIXED + LOOSE)
            .replace("<side>", "▶<side>", 1)
            .replace(" contacts: sockets,", "")
            .replace(" contacts: pins,", ""),
        ),
        harness("contacts: sockets, key: up", "key: up"),
        "contacts",
    ),
    "the end of a circuit": Case(
        "missing",
        harness("  rudder:\n    label: RUD\n    from: receiver 4\n", "  ▶rudder:\n    label: RUD\n"),
        {},
        "from",
    ),
    "which port": Case("missing", rudder("receiver 4", "▶receiver"), {}, "4"),
    "a lead to go through": Case(
        "missing",
        harness(AILERON + SIDES, AILERON.replace("<side>", "▶<side>", 1) + "    through: [<side>-root]\n"),
        {},
        "lead",
    ),
    "a lead of a segment": Case(
        "missing",
        sides("lead: servo-22", "▶lead: {A: servo-22}"),
        sides("lead: servo-22", "lead: {A: servo-22, B: servo-22}"),
        "B",
    ),
    "of a spool": Case(
        "missing",
        stores("- {wire: pvc-22, colour: WH, length: 2.5 m}", "- ▶{wire: pvc-22, colour: WH}"),
        {},
        "length",
    ),
    "the colour of a spool": Case(
        "missing",
        stores("- {wire: pvc-22, colour: WH, length: 2.5 m}", "- ▶{wire: pvc-22, length: 2.5 m}"),
        {},
        "colour",
    ),
    "of a part": Case("missing", parts(WIRE.replace("w: {gauge: 22 AWG, ", "▶w: {")), parts(WIRE), "gauge"),
    "the pitch of rows": Case(
        "missing",
        parts(SHELL.replace("pitch: {across: 5 mm, down: 5 mm}, ", "").replace("  s:", "  ▶s:")),
        parts(SHELL),
        "pitch",
    ),
}
ALL = {f"{case.name}: {about}": case for table in (SYNTAX, KEY, MISSING) for about, case in table.items()}
TOLD = {about: case for about, case in ALL.items() if case.told}


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_an_error_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(aircraft_folder(case.wrong))
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_nearly_equal_definition_has_no_such_error(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    assert case.name not in {finding.name for finding in errors_in(aircraft_folder(case.right))}


@pytest.mark.parametrize("case", TOLD.values(), ids=TOLD)
def test_an_error_offers_what_would_do(case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    finding = errors_in(aircraft_folder(case.wrong))[0]
    assert case.told in f"{finding.sentence} {finding.do}"
