"""What is so where a builder says nothing, and how far whole numbers and texts may go, in every form of the files."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from docgen.definition import aircraft, defaults, equipment, harness, parts, stores
from docgen.definition.fields import Form, Names

ENTRY = {"note": "", "accept": {}}
PART = {"note": "", "source": ""}
# By form what is so where nothing is said, but for what is then not known. Allowances and limits have their sources in
# the docstrings: two reterminations and a 28th by FAA AC 43.13-1B, 11-118 and table 11-6 (1 V of 28 V); all else is
# common practice, no source.
UNSAID: dict[type[Form], dict[str, Any]] = {
    aircraft.Aircraft: {**ENTRY, "contact": ""},
    aircraft.At: {"aft": 0, "up": 0},
    aircraft.Place: {**ENTRY, "access": "", "slack": 0},
    aircraft.Run: {**ENTRY, "closed": False},
    aircraft.Flight: {**ENTRY, "flights": 1, "ground": 0},
    equipment.Output: {"headroom": 0},
    equipment.PortGroup: {},
    equipment.Current: {"typical": False},
    equipment.Volts: {},
    equipment.Battery: {},
    equipment.Gear: {},
    equipment.Antenna: {**ENTRY, "diameter": 1.2, "band": ""},
    equipment.Equipment: {
        **ENTRY,
        "ports": [],
        "lead_colours": {},
        "fed_by": [],
        "isolates": False,
        "on": "",
        "off": "",
        "out": "off",
        "stop": "",
        "stopped": "",
        "drives": {},
        "antennas": {},
    },
    harness.Half: {},
    harness.Common: {**ENTRY, "circuits": [], "tail": 40},
    harness.Disconnect: {**ENTRY, "keyed": "", "commons": {}},
    harness.Split: {"loop": 0},
    harness.Circuit: {
        **ENTRY,
        "label": "",
        "through": [],
        "omit": [],
        "loop": 0,
        "loop_from": 0,
        "by": [],
        "throw": "",
        "planned": False,
        "left_in": False,
        "contacts": {},
        "lengths": {},
    },
    defaults.Allowances: {"slack": 0.03, "strip": 4, "reterminations": 2, "retermination": 10, "round_up_to": 5},
    defaults.Limits: {"drop_working": 1 / 28, "drop_stalled": 0.1, "margin": 0.3, "together": 4, "hot": 80},
    defaults.Labels: {"fit": "before", "each": "lead", "least_type": 1.6, "behind_plug": 25},
    defaults.Splices: {"join": "crimp", "strip": 8},
    defaults.Clips: {"every": 150},
    parts.WirePart: {**PART, "sold": ()},
    parts.LeadPart: {**PART, "reverses": False, "supplies": False},
    parts.ContactPart: {**PART, "join": "crimp"},
    parts.PlugPart: {**PART, "retainer": False, "lock": ""},
    parts.Pitch: {},
    parts.ShellPart: {**PART, "shape": "rectangle", "retainer": False, "lock": ""},
    parts.SleevePart: {**PART, "shortening": (0, 0), "splits": False},
    parts.TubePart: {**PART, "clear": False},
    stores.Spool: {**PART, "sealed": False},
}


@pytest.mark.parametrize("form", UNSAID, ids=lambda form: form.__name__)
def test_what_is_unsaid_is_as_the_readme_has_it_or_not_known(form: type[Form]) -> None:
    found = {field.alias or name: field.default for name, field in form.model_fields.items() if not field.is_required()}
    expected = UNSAID[form]
    assert {name: default for name, default in found.items() if default is not None} == expected


def read(form: type[Form], said: dict[str, Any]) -> Form:
    names: dict[str, dict[str, None]] = {"places": {"a": None}, "equipment": {"a": None}, "disconnects": {"j": None}}
    return form.model_validate(said, context=Names({**names, "leads": {"l": None}}))


BATTERY = {"capacity": "1 Ah", "full": "8 V", "empty": "6 V"}
CIRCUIT = {"from": "a 1", "to": "a 2"}
FLIGHT = {"time": "1 min", "reserve": "0 %"}


@pytest.mark.parametrize(
    ("form", "key", "least", "most", "beside"),
    [
        (defaults.Allowances, "reterminations", 0, 10, {}),
        (defaults.Limits, "together", 0, 100, {}),
        (defaults.Limits, "spare_contacts", 0, 100, {}),
        (equipment.Battery, "cells", 1, 100, BATTERY),
        (harness.Circuit, "channel", 1, 999, CIRCUIT),
        (aircraft.Flight, "flights", 1, 1000, FLIGHT),
    ],
)
def test_whole_numbers_go_from_one_bound_to_the_other(
    form: type[Form], key: str, least: int, most: int, beside: dict[str, Any]
) -> None:
    for number in (least, most):
        assert getattr(read(form, {**beside, key: str(number)}), key) == number
    for beyond in (str(most + 1), str(least - 1) if least else "-1"):
        with pytest.raises(ValidationError):
            read(form, {**beside, key: beyond})


AIRCRAFT = {"name": "A", "description": "b", "marks": "c", "revision": "A", "date": "2026-01-31"}


@pytest.mark.parametrize(("key", "most"), [("name", 60), ("marks", 20), ("revision", 20)])
def test_what_stands_in_every_foot_has_room_for_so_many_characters(key: str, most: int) -> None:
    assert getattr(read(aircraft.Aircraft, {**AIRCRAFT, key: "x" * most}), key) == "x" * most
    with pytest.raises(ValidationError):
        read(aircraft.Aircraft, {**AIRCRAFT, key: "x" * (most + 1)})


def test_an_address_has_at_most_300_characters_and_keeps_its_path() -> None:
    longest = "HTTPS://Hangar.Example/" + "W" * (300 - 23)
    said = read(aircraft.Aircraft, {**AIRCRAFT, "record": longest})
    assert isinstance(said, aircraft.Aircraft)
    assert said.record == "https://hangar.example/" + "W" * 277
    with pytest.raises(ValidationError):
        read(aircraft.Aircraft, {**AIRCRAFT, "record": longest + "W"})


def test_a_circuit_passes_40_joints_at_most_each_a_segment_on() -> None:
    through = ["j"] * 40
    circuit = read(harness.Circuit, {**CIRCUIT, "lead": "l", "through": through})
    assert isinstance(circuit, harness.Circuit)
    # A to Z without I and O are 24; then the 17th letter of those behind an A.
    assert (len(circuit.letters), circuit.letters[23:26], circuit.letters[-1]) == (41, ["Z", "AA", "AB"], "AS")
    with pytest.raises(ValidationError):
        read(harness.Circuit, {**CIRCUIT, "lead": "l", "through": [*through, "j"]})


@pytest.mark.parametrize(
    ("letter", "is_good"), [("A", True), ("Z", True), ("@", False), ("[", False), ("AB", False), ("a", False)]
)
def test_the_function_in_a_mark_is_one_capital(letter: str, is_good: bool) -> None:
    try:
        read(harness.Circuit, {**CIRCUIT, "function": letter})
    except ValidationError:
        assert not is_good
    else:
        assert is_good


def test_segments_of_a_split_are_counted_from_its_stem() -> None:
    """Two joints and a splice: A, B, C up to the splice, D and E on from it."""
    said = {**CIRCUIT, "to": ["a 2", "a 3"], "lead": "l", "through": ["j", "j"], "split": {"place": "a"}}
    split = read(harness.Circuit, said)
    assert isinstance(split, harness.Circuit)
    assert (split.letters, split.branches, split.last) == (["A", "B", "C", "D", "E"], 2, range(3, 5))
    assert [split.before(segment) for segment in range(1, 5)] == [0, 1, 2, 2]
    plain = read(harness.Circuit, {**CIRCUIT, "lead": "l", "through": ["j"]})
    assert isinstance(plain, harness.Circuit)
    assert (plain.letters, plain.branches, plain.last, plain.before(1)) == (["A", "B"], 0, range(1, 2), 0)


def test_clips_are_24_inches_apart_at_most() -> None:
    """FAA AC 43.13-1B, 11-96a."""
    apart = [defaults.Clips.model_validate({"every": every}).apart_mm for every in ("609 mm", "24 in", "610 mm", "1 m")]
    assert apart == pytest.approx([609, 609.6, 609.6, 609.6])


@pytest.mark.parametrize(
    ("said", "point"),
    [
        ({}, (0, 0, 0)),
        ({"aft": "1 m", "right": "20 mm", "up": "-3 mm"}, (1000, 20, -3)),
        ({"left": "20 mm"}, (0, -20, 0)),
        ({"right": "-5 mm"}, (0, -5, 0)),
    ],
)
def test_a_place_lies_aft_right_and_up_of_the_datum(said: dict[str, str], point: tuple[float, ...]) -> None:
    at = read(aircraft.At, said)
    assert isinstance(at, aircraft.At)
    assert at.point_mm == point


def test_wires_contacts_and_tubes_stand_what_they_say_and_what_says_nothing_is_not_judged() -> None:
    wire = parts.WirePart.model_validate(
        {"gauge": "22 AWG", "diameter": "1.6 mm", "resistance": "1 ohm/m", "limit": "80 °C"}
    )
    assert [wire.stands(heat) for heat in (None, 79.9, 80, 95)] == [True, True, False, False]
    tube = parts.TubePart.model_validate({"expanded": "3 mm", "recovered": "1 mm", "wall": "1 mm", "limit": "80 °C"})
    assert [tube.stands(heat) for heat in (None, 79.9, 80, 80.1)] == [True, True, True, False]
    assert wire.model_copy(update={"limit_c": None}).stands(500)
    assert tube.model_copy(update={"limit_c": None}).stands(500)
    said = {"rating": "1 A", "resistance": "1 mohm"}
    contact = parts.ContactPart.model_validate({**said, "takes": ["24 AWG", "22 AWG"], "over": "1.6 mm"})
    assert contact.fits(wire)
    assert not contact.fits(wire.model_copy(update={"diameter_mm": 1.61}))
    assert not parts.ContactPart.model_validate({**said, "takes": ["28 AWG", "24 AWG"]}).fits(wire)
    assert parts.ContactPart.model_validate(said).fits(wire)


def shell(**said: Any) -> parts.ShellPart:
    contact = {"rating": "1 A", "resistance": "1 mohm"}
    return parts.ShellPart.model_validate({"outline": ["20 mm", "10 mm"], "contact": contact, **said})


def test_contacts_that_are_all_numbered_stand_in_their_order_and_letters_as_written() -> None:
    at = {"10": ["1 mm", "0 mm"], "2": ["-1 mm", "0 mm"], "1": ["3 mm", "0 mm"]}
    assert list(shell(at=at).places_mm) == ["1", "2", "10"]
    assert list(shell(at={**at, "B": ["5 mm", "0 mm"], "A": ["7 mm", "0 mm"]}).places_mm) == ["10", "2", "1", "B", "A"]
    rows = shell(rows=[["B", "A", "C"], ["D"]], pitch={"across": "4 mm", "down": "3 mm"}).places_mm
    assert rows == {"B": (-4, 1.5), "A": (0, 1.5), "C": (4, 1.5), "D": (0, -1.5)}


@pytest.mark.parametrize(
    ("said", "is_good"),
    [
        ({"at": {"1": ["10 mm", "5 mm"]}}, True),
        ({"at": {"1": ["10.02 mm", "0 mm"]}}, False),
        ({"at": {"1": ["-10.02 mm", "0 mm"]}}, False),
        ({"at": {"1": ["0 mm", "-5.02 mm"]}}, False),
        ({"at": {"1": ["0 mm", "0 mm"], "2": ["0.8 mm", "0 mm"]}}, True),
        ({"at": {"1": ["0 mm", "0 mm"], "2": ["0.79 mm", "0 mm"]}}, False),
        ({"at": {"1": ["0 mm", "0 mm"], "2": ["0.6 mm", "0.6 mm"]}}, True),
        ({"at": {"1": ["0 mm", "5 mm"]}, "outline": ["10 mm", "10 mm"], "shape": "round"}, True),
        ({"at": {"1": ["4 mm", "4 mm"]}, "outline": ["10 mm", "10 mm"], "shape": "round"}, False),
        ({"at": {"1": ["3 mm", "4 mm"]}, "outline": ["10 mm", "10 mm"], "shape": "round"}, True),
        ({"at": {"1": ["0 mm", "0 mm"]}, "outline": ["10 mm", "10.02 mm"], "shape": "round"}, False),
        ({"at": {"1": ["0 mm", "0 mm"]}, "outline": ["88 mm", "60 mm"]}, True),
        ({"at": {"1": ["0 mm", "0 mm"]}, "outline": ["88 mm", "60.1 mm"]}, False),
        ({"at": {"1": ["0 mm", "0 mm"]}, "outline": ["88.1 mm", "8 mm"]}, False),
        ({"at": {"1": ["0 mm", "0 mm"]}, "outline": ["8 mm", "60.1 mm"]}, False),
        ({"at": {"1": ["0 mm", "0 mm"]}, "shape": "D"}, False),
        ({"at": {"1": ["0 mm", "0 mm"]}, "shape": "D", "key": "up"}, True),
        ({"rows": [["1", "2"]]}, False),
        ({"rows": [["1", "1"]], "pitch": {"across": "2 mm", "down": "2 mm"}}, False),
        ({"rows": [["1"], ["2"]], "pitch": {"across": "0.1 mm", "down": "2 mm"}}, True),
        ({"rows": [["1", "2"]], "pitch": {"across": "0.1 mm", "down": "2 mm"}}, False),
        ({"rows": [[]], "pitch": {"across": "2 mm", "down": "2 mm"}}, False),
        ({}, False),
        ({"at": {"1": ["0 mm", "0 mm"]}, "rows": [["1"]], "pitch": {"across": "2 mm", "down": "2 mm"}}, False),
    ],
)
def test_a_shell_is_one_that_a_card_can_show(said: dict[str, Any], is_good: bool) -> None:
    """Contacts within the outline, 0.8 mm apart at least (common practice); 88 × 60 mm at most, which fits a card."""
    try:
        shell(**said)
    except ValidationError:
        assert not is_good
    else:
        assert is_good
