"""What a reading may be over the expected, what must stay apart, and numbers on the wires; by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from remedied import PARTS, Definition, built, definition, heavy, servo, shared, through_wing
from resolved import known

from docgen.harness.continuity.isolation import isolations
from docgen.harness.continuity.netlist import Netlist, Point
from docgen.harness.continuity.readings import LeadReadings, lead_readings, path_readings, tail_readings
from docgen.harness.model.harness import Harness

WrittenFolder = Callable[[Mapping[str, str]], Path]
LAMP = {
    "kind": "light",
    "place": "tip",
    "lead": "100 mm",
    "lead_wire": "pvc-18",
    "plug": "power-2",
    "current": {"working": "1 A"},
}
LIGHT_LAMP = LAMP | {"plug": "light-2", "lead_wire": "pvc-22"}


def over_mv(groups: tuple[LeadReadings, ...], circuit: str) -> dict[str, float]:
    """Return what is too much less what is expected, by last segment and role."""
    some = [group for group in groups if group.leads[-1].circuit == circuit]
    return {
        f"{group.leads[-1].segment} {one.role}": round(known(one.too_much_mv) - known(one.expected_mv), 6)
        for group in some
        for one in group.readings
    }


def lamp_over(shell: str, load: Definition = LAMP, lead: str | Mapping[str, str] = "power-18") -> Definition:
    return definition({"lamp": load}, {"lamp": through_wing("unit W", "lamp", lead)}, shell=shell)


# Power plugs and blocks bear 10 A, a light's plug 3 A, the weak shell 2 A: 5 mV over where all bear 10 A, else 10 mV
# (common practice, no source).
@pytest.mark.parametrize(
    ("shell", "load", "a_mv", "b_mv", "path_mv"),
    [("block-14", LAMP, 5, 5, 5), ("weak", LAMP, 10, 10, 10), ("block-14", LIGHT_LAMP, 5, 10, 10)],
)
def test_only_where_every_contact_on_the_way_is_heavy_is_less_over_allowed(
    shell: str, load: Definition, a_mv: float, b_mv: float, path_mv: float, written_folder: WrittenFolder
) -> None:
    lead = "power-18" if load is LAMP else {"A": "power-18", "B": "light-22"}
    harness = built(written_folder, lamp_over(shell, load, lead))
    leads, paths = over_mv(lead_readings(harness), "lamp"), over_mv(path_readings(harness), "lamp")
    assert leads == {"A negative": a_mv, "A positive": a_mv, "B negative": b_mv, "B positive": b_mv}
    assert set(paths.values()) == {path_mv}


def test_a_light_contact_where_a_heavy_pair_ends_counts_on_the_way(written_folder: WrittenFolder) -> None:
    # Contacts of 2 A between power plugs of 10 A.
    said = definition(
        {"lamp": LAMP, "ail": servo("1 A")},
        heavy("power-18")
        | {"lamp": {"from": "wing p n", "to": "lamp", "lead": "power-18"}}
        | {"ail": through_wing("unit 1", "ail", {"A": "lone-24", "B": "servo-22"})},
        shared("ail"),
        shell="weak",
    )
    assert set(over_mv(path_readings(built(written_folder, said)), "lamp").values()) == {10}


def test_tails_are_rung_out_from_the_first_to_each_other(written_folder: WrittenFolder) -> None:
    # Two tails of 75 mm in a row: of 18 AWG 2 × 75 × 6.23 / 304.8 mΩ, of 22 AWG 16.20 (FAA AC 43.13-1B table 11-9).
    said = definition(
        {"ail": servo("1 A")},
        heavy("power-18") | {"ail": through_wing("unit 1", "ail", {"A": "lone-24", "B": "servo-22"})},
        shared("ail", positive=["1", "2", "3"], negative=["4", "5"]),
    )
    tails = tail_readings(built(written_folder, said))
    told = {
        (one.start.part, one.start.contact, one.goal.contact): one.expected_mv
        for group in tails
        for one in group.readings
    }
    for half, ohm in (("fixed", 6.23), ("loose", 16.20)):
        for pair in (("1", "2"), ("1", "3"), ("4", "5")):
            assert told.pop((half, *pair)) == pytest.approx(2 * 75 * ohm / 304.8)
    assert told == {}
    assert {(group.readings[0].start.part, group.assembly) for group in tails} == {
        ("fixed", "fuselage"),
        ("loose", "wing"),
    }


def test_a_whole_path_names_the_marks_of_all_its_wires(written_folder: WrittenFolder) -> None:
    said = definition({"ail": servo("1 A")}, {"ail": through_wing("unit 1", "ail", "servo-22")})
    (path,) = path_readings(built(written_folder, said))
    assert {one.role: path.marks(one.role) for one in path.readings} == {
        "negative": ("C1A22N", "C1B22N"),
        "positive": ("C1A22", "C1B22"),
        "signal": ("C2A22", "C2B22"),
    }


def test_a_whole_path_ends_before_the_plug_on_an_own_lead_that_is_a_half(written_folder: WrittenFolder) -> None:
    said = definition({"ail": servo("1 A", lead_mm=400)}, {"ail": through_wing("unit 1", "ail", "servo-22")})
    said["aircraft"]["places"] |= {place: {"assembly": "tip", "access": "tip off"} for place in ("start", "end")}
    said["aircraft"]["runs"].append({"between": ["start", "end"], "length": "200 mm"})
    said["harness"]["equipment"]["ail"]["place"] = "end"
    halves = {"fixed": {"place": "tip", "contacts": "pins"}, "loose": {"place": "start"}}
    said["harness"]["disconnects"]["out"] = {"shell": "servo-3", **halves}
    said["harness"]["circuits"]["ail"] |= {
        "through": ["wing", "out"],
        "lead": {"A": "servo-22", "B": "servo-22", "C": "own"},
        "lengths": {"A": "400 mm", "B": "900 mm"},
    }
    (path,) = path_readings(built(written_folder, said))
    assert {(one.goal.name, one.goal.part, one.goal.contact) for one in path.readings} == {
        ("out", "fixed", contact) for contact in "123"
    }
    # 22 AWG has 16.20 mΩ/ft (as above), the contacts of the joint that is passed 5 mΩ.
    for one in path.readings:
        assert one.expected_mv == pytest.approx((400 + 900) * 16.20 / 304.8 + 5, abs=0.01)


# Two regulated outlets of one unit, and what it passes on, are supplies of their own.


def apart_at_fixed_half(write: WrittenFolder, said: Definition) -> set[tuple[str, str]]:
    found = [group for group in isolations(built(write, said)).parted if group.place == ("wing", "fixed")]
    return {(one.contact, other.contact) for group in found for one, other in group.pairs}


def two_supplies(*, regulated: bool) -> Definition:
    """Return two lamps with contacts far apart, each on an outlet of its own."""
    lamp_2 = {**LAMP, "plug": "light-2", "lead_wire": "pvc-22"}
    circuits = {
        "lamp": through_wing("unit W", "lamp", "power-18") | {"contacts": {"wing": ["1", "2"]}},
        "lamp-2": through_wing("unit L", "lamp-2", "light-22") | {"contacts": {"wing": ["13", "14"]}},
    }
    said = definition({"lamp": LAMP, "lamp-2": lamp_2}, circuits)
    if regulated:
        said["harness"]["equipment"]["unit"]["ports"][1]["output"] = {"volts": "5 V", "headroom": "0.2 V"}
    return said


# Contacts 1 and 2, 13 and 14 are a pole and its negative; 2 and 14 are positives, far from each other.
@pytest.mark.parametrize(("regulated", "more"), [(False, set()), (True, {("2", "14")})])
def test_a_regulated_outlet_is_held_apart_from_what_the_unit_passes_on(
    regulated: bool, more: set[tuple[str, str]], written_folder: WrittenFolder
) -> None:
    pairs = apart_at_fixed_half(written_folder, two_supplies(regulated=regulated))
    assert pairs == {("1", "2"), ("13", "14")} | more


# A net by hand: two ways of 1 and 3 ohm side by side are 0.75 ohm; with 0.25 ohm before them 1 ohm.


def point(name: str) -> Point:
    return Point(name, "", "1")


def net(*branches: tuple[str, str, float]) -> Netlist:
    return Netlist(tuple((point(one), point(other), ohm) for one, other, ohm in branches))


@pytest.mark.parametrize(
    ("branches", "ohm"),
    [
        ([("a", "b", 1.0), ("a", "b", 3.0)], 0.75),
        ([("a", "c", 0.25), ("c", "b", 1.0), ("c", "b", 3.0)], 1.0),
        ([("a", "c", 0.5), ("c", "b", 0.5), ("a", "b", 3.0)], 0.75),
        # A balanced bridge: 1 ohm a side, so that nothing flows over its middle of 7 ohm.
        ([("a", "c", 1), ("a", "d", 1), ("c", "b", 1), ("d", "b", 1), ("c", "d", 7)], 1.0),
    ],
)
def test_all_ways_between_two_points_count(branches: list[tuple[str, str, float]], ohm: float) -> None:
    assert net(*branches).resistance_ohm(point("a"), point("b")) == pytest.approx(ohm)


# Numbers of wires.


def numbered(harness: Harness, circuit: str) -> list[dict[str, str]]:
    return [{wire.role: wire.mark for wire in lead.wires} for lead in harness.circuits[circuit].leads]


def with_orders(*orders: tuple[str, ...], **more: Any) -> Definition:
    said = definition({"ail": servo("1 A")}, {}, **more)
    colours = {"negative": "pvc-22 BK", "positive": "pvc-22 RD", "signal": "pvc-22 WH"}
    leads = {f"order-{i}": {"wires": {role: colours[role] for role in order}} for i, order in enumerate(orders)}
    said["parts"] = {**PARTS, "leads": PARTS["leads"] | leads}
    said["harness"]["circuits"]["ail"] = through_wing("unit 1", "ail", {"A": "order-0", "B": "order-1"})
    return said


FIRST, SECOND = ("positive", "signal", "negative"), ("signal", "negative", "positive")


@pytest.mark.parametrize(("orders", "positive", "signal"), [((FIRST, SECOND), 1, 2), ((SECOND, FIRST), 2, 1)])
def test_wires_are_numbered_in_the_order_of_the_first_segment(
    orders: tuple[tuple[str, ...], ...], positive: int, signal: int, written_folder: WrittenFolder
) -> None:
    marks = numbered(built(written_folder, with_orders(*orders)), "ail")
    assert marks == [
        {"positive": f"C{positive}{letter}22", "signal": f"C{signal}{letter}22", "negative": f"C1{letter}22N"}
        for letter in "AB"
    ]


def test_the_first_segment_that_has_all_roles_gives_the_order(written_folder: WrittenFolder) -> None:
    # The first has a signal alone, the common brings the rest.
    said = with_orders(("signal",), ("positive", "signal", "negative"), commons=shared("ail"))
    said["harness"]["circuits"] |= heavy("power-18")
    assert numbered(built(written_folder, said), "ail") == [
        {"signal": "C2A22"},
        {"positive": "C1B22", "signal": "C2B22", "negative": "C1B22N"},
    ]


def test_contacts_are_given_in_blocks_as_circuits_are_written(written_folder: WrittenFolder) -> None:
    names = ("ail", "flap")
    circuits = {name: through_wing(f"unit {i}", name, "servo-22") for i, name in enumerate(names, 1)}
    uses = built(written_folder, definition({name: servo("1 A") for name in names}, circuits)).disconnects["wing"].uses
    given = {name: [contact for contact, use in uses.items() if use.of == name] for name in names}
    assert given == {"ail": ["1", "2", "3"], "flap": ["4", "5", "6"]}
    assert all(int(second) == int(first) + 1 for block in given.values() for first, second in pairwise(block))
