"""Commons and supplies that can't work are refused where they were typed; what is unknown stays unsaid."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from click.testing import CliRunner
from conftest import MARK, AircraftFolder, Place

from docgen.basics.findings import Finding
from docgen.cli import docgen
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards.halves import half_card
from docgen.pipeline import check

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]
Change = tuple[str, str]

AIRCRAFT = """\
aircraft: {name: Tern, description: a wing that comes off, marks: TE-1, revision: A, date: 2026-01-01}
places:
  tray: {assembly: fuselage, access: hatch, across: 0 mm}
  root: {assembly: fuselage, access: wing off}
  panel: {assembly: wing, access: wing off}
  tip: {assembly: wing, access: servo cover}
runs:
  - {between: [tray, root], length: 300 mm}
  - {between: [panel, tip], length: 700 mm}
flight: {time: 10 min, reserve: 30 %}
"""
PACK = "cells: 2, capacity: 2000 mAh, full: 8.4 V, empty: 6.4 V"
HARNESS = f"""\
equipment:
  pack:
    kind: battery
    place: tray
    lead: 100 mm
    lead_wire: pvc-16
    plug: power-2
    battery: {{{PACK}}}
    on: plug it in
  unit:
    kind: power unit
    place: tray
    ports:
      - {{plug: power-2, names: [IN, W], contacts: pins}}
      - {{plug: servo-3, names: 1..4, contacts: pins}}
  ail:
    kind: servo
    place: tip
    lead: 200 mm
    plug: servo-3
    current: {{working: 0.5 A, stall: 2 A}}
    volts: {{least: 4 V, most: 9 V}}
  flap:
    kind: servo
    place: tip
    lead: 200 mm
    plug: servo-3
    current: {{working: 0.5 A, stall: 2 A}}
disconnects:
  wing:
    shell: block-10
    fixed: {{place: root, contacts: sockets}}
    loose: {{place: panel, contacts: pins, reach: 100 mm}}
    commons:
      p: {{role: positive, contacts: [1, 2], circuits: [ail, flap]}}
      n: {{role: negative, contacts: [3, 4], circuits: [ail, flap]}}
circuits:
  supply: {{from: pack, to: unit IN, lead: power-16}}
  heavy: {{from: unit W, to: wing p n, lead: power-18}}
  ail: {{from: unit 1, to: ail, through: [wing], lead: {{A: lone-24, B: servo-22}}}}
  flap: {{from: unit 2, to: flap, through: [wing], lead: {{A: lone-24, B: servo-22}}}}
"""
PARTS = "leads: {lone-24: {wires: {signal: pvc-24 WH}}}\n"

EQUIPMENT, CIRCUITS = "equipment:\n", "circuits:\n"
HEAVY = "  heavy: {from: unit W, to: wing p n, lead: power-18}\n"
AIL = "  ail: {from: unit 1, to: ail, through: [wing], lead: {A: lone-24, B: servo-22}}\n"
POSITIVE = "p: {role: positive, contacts: [1, 2], circuits: [ail, flap]}"
NEGATIVE = "n: {role: negative, contacts: [3, 4], circuits: [ail, flap]}"
SECOND_POSITIVE = f"{POSITIVE}\n      p2: {{role: positive, contacts: [5, 6]}}"
SERVO_PORTS = "names: 1..4, contacts: pins}"
VOLTS = "volts: {least: 4 V, most: 9 V}"


def lamp(place: str = "tip", mark: str = "", words: str = "p n", more: str = "lead: light-24") -> list[Change]:
    """Return a lamp that hangs on commons alone."""
    own = f"  lamp: {{kind: light, place: {place}, lead: 100 mm, plug: light-2, current: {{working: 0.2 A}}}}\n"
    circuit = f"  lamp: {{from: {mark}wing {words}, to: lamp{', ' if more else ''}{more}}}\n"
    return [(EQUIPMENT, EQUIPMENT + own), (CIRCUITS, CIRCUITS + circuit)]


def second_pack(battery: str = PACK) -> list[Change]:
    """Return another pack and a receiver on it."""
    equipment = (
        "  pack-2: {kind: battery, place: tray, lead: 100 mm, lead_wire: pvc-16, plug: power-2,\n"
        f"    battery: {{{battery}}}}}\n"
        "  receiver:\n    kind: receiver\n    place: tray\n    ports:\n"
        "      - {plug: power-2, names: [BATT], contacts: pins}\n"
        "      - {plug: servo-3, names: 1..4, contacts: pins}\n"
    )
    return [
        (EQUIPMENT, EQUIPMENT + equipment),
        (CIRCUITS, CIRCUITS + "  supply-2: {from: pack-2, to: receiver BATT, lead: power-16}\n"),
    ]


class Tried(NamedTuple):
    """A finding at the marks in `wrong`, and a nearly equal definition without it; `told` is said to the builder."""

    name: str
    wrong: list[Change]
    right: list[Change]
    told: str = ""


@pytest.fixture
def tern(aircraft_folder: AircraftFolder) -> Callable[..., Path]:
    """Write the aircraft above with changes; the old text of each must be there once, the first of several counts."""

    def write(changes: list[Change], parts: str = PARTS, aircraft: str = AIRCRAFT) -> Path:
        text = HARNESS
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        return aircraft_folder.written({"aircraft.yaml": aircraft, "harness.yaml": text, "parts.yaml": parts})

    return write


@pytest.fixture
def built(tern: Callable[..., Path]) -> Callable[..., Harness]:
    def build(changes: list[Change], **more: str) -> Harness:
        checked = check(tern(changes, **more))
        assert checked.harness is not None, checked.findings
        return checked.harness

    return build


def data_of(folder: Path) -> Any:
    result = CliRunner().invoke(docgen, ["check", str(folder), "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def named(name: str, findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.name == name]


def test_the_aircraft_that_is_changed_has_no_error_and_no_caution(tern: Callable[..., Path]) -> None:
    assert check(tern([])).findings == []


NO_LEAD = HEAVY.replace(", lead: power-18", "")
UNLIKE = (AIL, AIL.replace("ail, through", f"{MARK}tail, through"))

# An end that names commons has no plug to go straight into; all its wires come from somewhere, so it has a lead.
WITHOUT_LEAD = {
    "a heavy pair": Tried("missing", [(HEAVY, NO_LEAD.replace("heavy", f"{MARK}heavy"))], []),
    "a circuit that begins at commons": Tried(
        "missing",
        [(old, new.replace("  lamp: {from", f"  {MARK}lamp: {{from")) for old, new in lamp(more="")],
        lamp(),
    ),
}

# Nothing can be computed with a pack or an outlet of 0 V, or with an efficiency of nothing (it is divided by).
VALUES = {
    "an empty pack of nothing": Tried("value", [("empty: 6.4 V", f"empty: {MARK}0 V")], [("6.4 V", "0.1 V")]),
    "a full pack of nothing": Tried("value", [("full: 8.4 V, empty: 6.4 V", f"full: {MARK}0 V, empty: {MARK}0 V")], []),
    "an outlet of nothing": Tried(
        "value",
        [(SERVO_PORTS, f"names: 1..4, contacts: pins, output: {{volts: {MARK}0 V}}}}")],
        [(SERVO_PORTS, "names: 1..4, contacts: pins, output: {volts: 0.1 V}}")],
    ),
    "an outlet of nothing of the whole": Tried(
        "value",
        [("kind: power unit\n", f"kind: power unit\n    output: {{volts: {MARK}0 V}}\n")],
        [("kind: power unit\n", "kind: power unit\n    output: {volts: 5 V}\n")],
    ),
    "an efficiency of nothing": Tried(
        "value",
        [(SERVO_PORTS, f"names: 1..4, contacts: pins, output: {{volts: 5 V, efficiency: {MARK}0 %}}}}")],
        [(SERVO_PORTS, "names: 1..4, contacts: pins, output: {volts: 5 V, efficiency: 1 %}}")],
    ),
    "a full pack under an empty one": Tried(
        "value", [("full: 8.4 V", f"full: {MARK}6.3 V")], [("full: 8.4 V", "full: 6.4 V")]
    ),
    "a load that bears less than it needs": Tried(
        "value", [("most: 9 V", f"most: {MARK}3.9 V")], [("most: 9 V", "most: 4 V")]
    ),
}

ENDS = {
    "a heavy pair that ends at two commons of one role": Tried(
        "value",
        [(POSITIVE, SECOND_POSITIVE), (HEAVY, HEAVY.replace("to: wing p n", f"to: {MARK}wing p p2 n"))],
        [(POSITIVE, SECOND_POSITIVE)],
    ),
    "a circuit that begins at two commons of one role": Tried(
        "value", [(POSITIVE, SECOND_POSITIVE), *lamp(mark=MARK, words="p p2 n")], [(POSITIVE, SECOND_POSITIVE), *lamp()]
    ),
    "a circuit that begins on the heavy pair's side": Tried("through", lamp("tray", MARK), lamp("tip")),
    "a heavy pair through the joint at which it ends": Tried(
        "through", [(HEAVY, HEAVY.replace("to: wing p n,", f"to: wing p n, through: [{MARK}wing],"))], []
    ),
}

GYRO = (
    EQUIPMENT,
    f"{EQUIPMENT}  gyro: {{kind: gyro, place: tip, lead: 200 mm, plug: servo-3}}\n",
)
SIGNAL_ALONE = (CIRCUITS, f"{CIRCUITS}  gyro: {{from: unit 3, to: gyro, through: [wing], lead: signal-24}}\n")
MEMBERS = {
    "a member without the role": Tried(
        "role",
        [GYRO, SIGNAL_ALONE, (POSITIVE, POSITIVE.replace("flap]", f"flap, {MARK}gyro]"))],
        [GYRO, SIGNAL_ALONE, (NEGATIVE, NEGATIVE.replace("flap]", "flap, gyro]"))],
    ),
    "a role that no lead has": Tried(
        "name",
        [(POSITIVE, f"{POSITIVE}\n      x: {{role: {MARK}postive, contacts: [5]}}")],
        [(POSITIVE, f"{POSITIVE}\n      x: {{role: positive, contacts: [5]}}")],
        "`positive`",
    ),
    "nothing follows from a heavy pair with an unknown lead": Tried(
        "name", [*lamp(), (HEAVY, HEAVY.replace("power-18", f"{MARK}powr-18"))], lamp(), "`power-18`"
    ),
}


def brakes(second: str, mark: str = "") -> list[Change]:
    """Return two brakes whose feeding wires share a common; the second hangs on `second`."""
    ports = "ports: [{plug: power-2, names: [IN], contacts: pins}, {plug: brake-2, names: [A, B], contacts: pins}]"
    equipment = "".join(f"  unit-{name}: {{kind: power unit, place: tray, {ports}}}\n" for name in "ab")
    equipment += "".join(
        f"  brake-{name}: {{kind: brake, place: tip, lead: 100 mm, plug: brake-2}}\n"
        f"  pack-{name}: {{kind: battery, place: tray, lead: 100 mm, lead_wire: pvc-16, plug: power-2,\n"
        f"    battery: {{{PACK}}}}}\n"
        for name in "ab"
    )
    circuits = "".join(f"  supply-{name}: {{from: pack-{name}, to: unit-{name} IN, lead: power-16}}\n" for name in "ab")
    circuits += "".join(
        f"  brake-{name}: {{from: {source}, to: brake-{name}, through: [wing], lead: brake-24}}\n"
        for name, source in (("a", "unit-a A"), ("b", second))
    )
    common = f"f: {{role: feed, contacts: [7, 8], circuits: {mark}[brake-a, brake-b]}}"
    return [
        (EQUIPMENT, EQUIPMENT + equipment),
        (CIRCUITS, CIRCUITS + circuits),
        ("    shell: block-10\n", "    shell: block-14\n"),
        (POSITIVE, f"{POSITIVE}\n      {common}"),
    ]


SUPPLIES = {
    "a common of feeding wires with names of their own": Tried(
        "supplies", brakes("unit-b A", MARK), brakes("unit-a B")
    ),
}

ERRORS = {**VALUES, **ENDS, **MEMBERS, **SUPPLIES}

MEMBERS_FEED = [(HEAVY, ""), (AIL, AIL.replace("{A: lone-24, B: servo-22}", "servo-22"))]
FEED_LAST = (
    "leads:\n  lone-24: {wires: {signal: pvc-24 WH}}\n"
    "  brake-24: {wires: {negative: pvc-24 GY, feed: pvc-24 VT}, supplies: yes}\n"
    "plugs:\n  brake-2:\n    contacts: {1: negative, 2: feed}\n    equipment: sockets\n    size: [5.6 mm, 4.2 mm]\n"
    "    contact: {rating: 3 A, brief: 5 A, resistance: 8 mohm, strip: 2.5 mm}\n"
)


def with_parts(tried: Tried, parts: str = PARTS) -> Any:
    return pytest.param(tried, parts)


MORE_ERRORS = {
    **{about: with_parts(tried) for about, tried in WITHOUT_LEAD.items()},
    "a circuit through the joint at which it begins": with_parts(
        Tried("through", lamp(more=f"through: [{MARK}wing], lead: light-24"), lamp()),
    ),
    "a circuit that begins on the side of the members that feed it": with_parts(
        Tried("through", [*MEMBERS_FEED, *lamp("tray", MARK)], [*MEMBERS_FEED, *lamp("tip")]),
    ),
    "a role that no lead has, where it is needed": with_parts(
        Tried("name", [(POSITIVE, POSITIVE.replace("positive", f"{MARK}postive"))], []),
    ),
    "a common of feeding wires whose lead names the negative first": with_parts(
        Tried("supplies", brakes("unit-b A", MARK), brakes("unit-a B")),
        FEED_LAST,
    ),
}


@pytest.mark.parametrize("tried", ERRORS.values(), ids=ERRORS)
def test_an_error_is_found_where_it_was_typed_and_nothing_else_is(
    tried: Tried, tern: Callable[..., Path], aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(tern(tried.wrong))
    assert places_of(found) == aircraft_folder.marked(tried.name)


@pytest.mark.parametrize("tried", ERRORS.values(), ids=ERRORS)
def test_a_nearly_equal_definition_has_no_error(tried: Tried, tern: Callable[..., Path], errors_in: ErrorsIn) -> None:
    assert errors_in(tern(tried.right)) == []


@pytest.mark.parametrize(("tried", "parts"), MORE_ERRORS.values(), ids=MORE_ERRORS)
def test_an_error_is_found_where_it_was_typed_elsewhere_too(
    tried: Tried,
    parts: str,
    tern: Callable[..., Path],
    aircraft_folder: AircraftFolder,
    errors_in: ErrorsIn,
    places_of: PlacesOf,
) -> None:
    found = errors_in(tern(tried.wrong, parts=parts))
    assert places_of(found) == aircraft_folder.marked(tried.name)


@pytest.mark.parametrize(("tried", "parts"), [one.values for one in MORE_ERRORS.values()], ids=MORE_ERRORS)
def test_a_definition_nearly_equal_to_it_has_no_error(
    tried: Tried, parts: str, tern: Callable[..., Path], errors_in: ErrorsIn
) -> None:
    assert errors_in(tern(tried.right, parts=parts)) == []


@pytest.mark.parametrize(
    "tried", [tried for tried in ERRORS.values() if tried.told], ids=[key for key in ERRORS if ERRORS[key].told]
)
def test_the_nearest_name_is_offered(tried: Tried, tern: Callable[..., Path], errors_in: ErrorsIn) -> None:
    assert tried.told in errors_in(tern(tried.wrong))[0].do


@pytest.mark.parametrize("key", WITHOUT_LEAD)
def test_other_errors_are_shown_beside_a_circuit_at_commons_without_a_lead(key: str, tern: Callable[..., Path]) -> None:
    folder = tern([*WITHOUT_LEAD[key].wrong, UNLIKE])
    result = CliRunner().invoke(docgen, ["check", str(folder)])
    assert isinstance(result.exception, SystemExit), result.exception
    assert "error missing:" in result.stderr
    assert "error name:" in result.stderr


def test_a_member_named_twice_is_an_error_at_one_of_its_names(
    tern: Callable[..., Path], aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(tern([(POSITIVE, POSITIVE.replace("[ail,", f"[{MARK}ail, {MARK}ail,"))]))
    assert len(found) == 1
    assert places_of(found) <= aircraft_folder.marked("value")


FROM_RECEIVER = AIL.replace("unit 1", "receiver 1")
OWN_NEGATIVE = FROM_RECEIVER.replace("A: lone-24", "A: signal-24")
WITHOUT_AIL = NEGATIVE.replace("[ail, flap]", "[flap]")
SIGNAL_SERVO = (AIL, AIL.replace("{A: lone-24, B: servo-22}", "signal-24"))
OUT_OF_COMMONS = [(POSITIVE, POSITIVE.replace("ail, ", "")), (NEGATIVE, WITHOUT_AIL), SIGNAL_SERVO]

CAUTIONS = {
    "a negative from equipment on another pack meets the common": Tried(
        "joined-supplies",
        [*second_pack(), (AIL, OWN_NEGATIVE), (NEGATIVE, NEGATIVE.replace("[ail", f"{MARK}[ail"))],
        [*second_pack(), (AIL, FROM_RECEIVER)],
    ),
    "a positive of one pack and a negative of another": Tried(
        "joined-supplies",
        [*second_pack(), (AIL, OWN_NEGATIVE), (NEGATIVE, WITHOUT_AIL), ("  ail:\n", f"  {MARK}ail:\n")],
        [*second_pack(), (AIL, OWN_NEGATIVE.replace("receiver", "unit")), (NEGATIVE, WITHOUT_AIL)],
    ),
    "a load that no circuit brings supply": Tried(
        "volts",
        [*OUT_OF_COMMONS, (VOLTS, VOLTS.replace("4 V", f"{MARK}4 V"))],
        [*OUT_OF_COMMONS[:2], (AIL, AIL.replace("{A: lone-24, B: servo-22}", "servo-22"))],
    ),
    "a load that draws nothing that is known": Tried(
        "volts",
        [*OUT_OF_COMMONS, (VOLTS, VOLTS.replace("4 V", f"{MARK}4 V"))],
        [*OUT_OF_COMMONS, ("    current: {working: 0.5 A, stall: 2 A}\n    volts", "    volts")],
    ),
}


@pytest.mark.parametrize("tried", CAUTIONS.values(), ids=CAUTIONS)
def test_a_caution_is_found_where_it_was_typed(
    tried: Tried, tern: Callable[..., Path], aircraft_folder: AircraftFolder, places_of: PlacesOf
) -> None:
    found = named(tried.name, check(tern(tried.wrong)).findings)
    assert places_of(found) == aircraft_folder.marked(tried.name)


@pytest.mark.parametrize("tried", CAUTIONS.values(), ids=CAUTIONS)
def test_a_nearly_equal_definition_has_no_such_caution(tried: Tried, tern: Callable[..., Path]) -> None:
    checked = check(tern(tried.right))
    assert checked.harness is not None, checked.findings
    assert named(tried.name, checked.findings) == []


# What is unsaid is not computed, and null as data.


@pytest.fixture
def supply_without_currents(tern: Callable[..., Path]) -> Mapping[str, Any]:
    draws = "    current: {working: 0.5 A, stall: 2 A}\n"
    [supply] = data_of(tern([(draws, ""), (draws, "")]))["supplies"]
    found: Mapping[str, Any] = supply
    return found


@pytest.mark.parametrize("key", ["working_a", "peak_a"])
def test_without_any_current_a_supply_gives_null(key: str, supply_without_currents: Mapping[str, Any]) -> None:
    assert supply_without_currents[key] is None


@pytest.mark.parametrize("key", ["working_v", "peak_v"])
def test_without_any_current_stages_have_null_volts(key: str, supply_without_currents: Mapping[str, Any]) -> None:
    stages = supply_without_currents["stages"]
    assert [stage["name"] for stage in stages[:1]] == ["pack"]
    assert {stage[key] for stage in stages} == {None}


# A switching outlet that a weak pack feeds.

SWITCHED_A, SET_V, HEADROOM_V, EFFICIENCY, PACK_OHM = 3, 6, 0.3, 0.9, 2
# Each pole from pack to unit: 16 AWG, 4.81 Ω/1000 ft (FAA AC 43.13-1B table 11-9), 0.100 m of its own lead and what
# is cut: 0 mm of run, (3 + 20) mm at each end, twisted: sqrt(1 + (π × 2.4 / 35)²) = 1.02294 × 46 = 47.1 → 50 mm; two
# contacts of 3 mΩ (common practice, no source).
SUPPLY_OHM = 2 * (0.150 * 4.81 / 304.8 + 2 * 0.003)


def switching(empty_v: float, headroom_v: float = HEADROOM_V) -> list[Change]:
    output = f"output: {{volts: {SET_V} V, headroom: {headroom_v} V, efficiency: 90 %}}"
    return [
        ("full: 8.4 V, empty: 6.4 V", f"full: 17 V, empty: {empty_v} V, resistance: {PACK_OHM} ohm"),
        (
            "names: [IN, W], contacts: pins}",
            f"names: [IN], contacts: pins}}\n      - {{plug: power-2, names: [W], contacts: pins, {output}}}",
        ),
        (
            "current: {working: 0.5 A, stall: 2 A}\n    volts: {least: 4 V, most: 9 V}",
            f"current: {{working: {SWITCHED_A} A}}",
        ),
        ("    current: {working: 0.5 A, stall: 2 A}\n", ""),
        ("equipment:\n", "limits: {drop_working: 100 %, drop_stalled: 100 %}\nequipment:\n"),  # no remedy is sought
    ]


def arriving_v(empty_v: float) -> float:
    """Solve what arrives at the outlet [V].

    Regulating it takes P = 6 V × 3 A / 0.9 = 20 W: v (E − v) / R = P, v² − E v + P R = 0, the upper root. Under
    6.3 V, or with no root, it gives v − 0.3 V: E − v = R × 3 A / 0.9 × (v − 0.3) / v, so v² − (E − R k) v − 0.3 R k = 0
    with k = 3 A / 0.9.
    """
    ohm, k = PACK_OHM + SUPPLY_OHM, SWITCHED_A / EFFICIENCY
    under_root = empty_v**2 / 4 - SET_V * k * ohm
    if under_root >= 0 and (regulating_v := empty_v / 2 + math.sqrt(under_root)) >= SET_V + HEADROOM_V:
        return regulating_v
    half = (empty_v - ohm * k) / 2
    return half + math.sqrt(half**2 + HEADROOM_V * ohm * k)


@pytest.mark.parametrize(
    "empty_v",
    [16, 14, 13, 12.75, 12.71, 12.6, 12, 10, 8],
)
def test_a_switching_outlet_settles_where_the_quadratic_says(empty_v: float, tern: Callable[..., Path]) -> None:
    [supply] = data_of(tern(switching(empty_v)))["supplies"]
    unit = next(stage for stage in supply["stages"] if stage["name"] == "unit")
    assert unit["working_v"] == pytest.approx(arriving_v(empty_v), abs=1e-4)


@pytest.mark.parametrize("empty_v", [14, 12.75, 12, 10])
def test_a_pack_gives_what_the_switching_outlet_takes(empty_v: float, tern: Callable[..., Path]) -> None:
    [supply] = data_of(tern(switching(empty_v)))["supplies"]
    assert supply["working_a"] == pytest.approx((empty_v - arriving_v(empty_v)) / (PACK_OHM + SUPPLY_OHM), abs=1e-4)


# Without headroom an outlet that gives what arrives takes 3 A / 0.9 = 3.33 A, over 2.01 Ω 6.7 V: of 6.4 V nothing is
# left. A short over 2.01 Ω draws 6.4 / 2.01 = 3.2 A.


@pytest.fixture
def collapsed(tern: Callable[..., Path]) -> Any:
    return data_of(tern(switching(6.4, 0)))


def test_past_collapse_the_load_has_no_volts_left(collapsed: Any) -> None:
    circuits = {circuit["name"]: circuit for circuit in collapsed["circuits"]}
    assert circuits["ail"]["volts_left_v"] == 0


def test_past_collapse_the_pack_gives_no_more_than_over_its_resistance(collapsed: Any) -> None:
    assert 0 <= collapsed["supplies"][0]["working_a"] <= 6.4 / (PACK_OHM + SUPPLY_OHM)


# Two packs on one unit that keeps them apart. A flight takes 2 × 0.5 A × 10 min = 167 mAh of whichever gives it; of
# 200 mAh 140 mAh count, of 2000 mAh 1400.
TWO_PACKS = [
    (
        EQUIPMENT,
        f"{EQUIPMENT}  weak:\n    kind: battery\n    place: tray\n    lead: 100 mm\n    lead_wire: pvc-16\n"
        f"    plug: power-2\n    battery: {{{PACK.replace('2000', f'{MARK}200')}}}\n",
    ),
    (CIRCUITS, f"{CIRCUITS}  supply-2: {{from: weak, to: unit IN-2, lead: power-16}}\n"),
    ("kind: power unit\n", "kind: power unit\n    isolates: yes\n"),
    ("[IN, W]", "[IN, IN-2, W]"),
]


def test_endurance_of_unlike_packs_stands_on_the_short_one_alone(
    tern: Callable[..., Path], aircraft_folder: AircraftFolder, places_of: PlacesOf
) -> None:
    found = named("endurance", check(tern(TWO_PACKS)).findings)
    assert places_of(found) == aircraft_folder.marked("endurance")


def test_with_all_kept_in_reserve_no_charge_is_named(tern: Callable[..., Path]) -> None:
    found = named("endurance", check(tern([], aircraft=AIRCRAFT.replace("30 %", "100 %"))).findings)
    assert len(found) == 1
    assert "mAh" not in found[0].do


def test_with_all_kept_in_reserve_no_flight_is_left(tern: Callable[..., Path]) -> None:
    found = named("endurance", check(tern([], aircraft=AIRCRAFT.replace("30 %", "100 %"))).findings)
    assert " 0 flights " in found[0].sentence


# Tails behind the fixed half of the positive, in contacts that take 24 to 18 AWG of 2.2 mm at most: what arrives, and
# what they are of: of silicone, 200 °C, 20 AWG is the heaviest that goes in. Members of 22 AWG in yellow bring the
# positive too.
HEAVY_14, HEAVY_18 = HEAVY.replace("power-18", "power-14"), HEAVY
BRINGS = AIL.replace("lone-24", "yellow-22")
YELLOW = "  yellow-22: {wires: {negative: pvc-22 BK, positive: pvc-22 YE, signal: pvc-22 WH}}\n"
ORANGE = "  orange-14: {wires: {negative: silicone-14 BK, positive: silicone-14 OG}}\n"
OWN_LEADS = f"leads:\n  lone-24: {{wires: {{signal: pvc-24 WH}}}}\n{YELLOW}{ORANGE}"
TAILS = {
    "the heaviest, which is taken": ([(HEAVY, HEAVY_18), (AIL, BRINGS)], ("pvc-18", "RD")),
    "the heaviest of its limit, beside a thinner wire": ([(HEAVY, HEAVY_14), (AIL, BRINGS)], ("silicone-20", "RD")),
    "the heaviest of its limit, in the heaviest's colour": (
        [(HEAVY, HEAVY.replace("power-18", "orange-14"))],
        ("silicone-20", "OG"),
    ),
}


@pytest.mark.parametrize(("changes", "of"), TAILS.values(), ids=TAILS)
def test_tails_are_of_the_heaviest_wire_that_the_contact_takes(
    changes: list[Change], of: tuple[str, str], built: Callable[..., Harness]
) -> None:
    common = built(changes, parts=OWN_LEADS).disconnects["wing"].commons["p"]
    assert {(tail.kind.name, tail.colour) for tail in common.halves[0].tails} == {of}


# The card of each half.

NOTED = [
    (POSITIVE, POSITIVE.replace("{", "{note: red band on the splice, ")),
    (HEAVY, HEAVY.replace("{", "{label: WING POWER, ")),
    (AIL, AIL.replace("{from", "{label: AIL, from")),
]


@pytest.mark.parametrize("half", [0, 1], ids=["fixed", "loose"])
@pytest.mark.parametrize("said", ["red band on the splice", "fed by WING POWER · for AIL, FLAP"])
def test_the_card_of_a_half_says_of_a_common(said: str, half: int, built: Callable[..., Harness]) -> None:
    harness = built(NOTED)
    card = half_card(harness, harness.disconnects["wing"], half)
    assert said in next(text for text in card.commons if text.startswith("p "))
