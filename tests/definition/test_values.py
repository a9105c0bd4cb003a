"""What single values of the builder's files mean, and how far they may go."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from docgen.basics.findings import Finding, Refused
from docgen.definition.aircraft import At
from docgen.definition.fields import Names, check_name, expand_ranges
from docgen.definition.parts import ShellPart

if TYPE_CHECKING:
    from conftest import AircraftFolder, Place

FLIGHT = "time: 9 min, reserve: 30 %"
CHANNEL = "channel: 4"
CONTACT = {"rating": "3 A", "resistance": "10 mohm"}


def shell(**keys: Any) -> ShellPart:
    """Return a shell of 30 mm by 20 mm."""
    form = {"outline": ["30 mm", "20 mm"], "contact": CONTACT, **keys}
    return ShellPart.model_validate(form, context=Names({}))


@pytest.mark.parametrize(
    ("at", "point"),
    [
        ({"aft": "400 mm", "left": "30 mm", "up": "5 mm"}, (400, -30, 5)),
        ({"aft": "400 mm", "right": "30 mm", "up": "-5 mm"}, (400, 30, -5)),
        ({"up": "7 mm"}, (0, 0, 7)),
    ],
)
def test_a_place_on_the_left_has_a_negative_distance_to_the_right(
    at: dict[str, str], point: tuple[float, float, float]
) -> None:
    assert At.model_validate(at).point_mm == point


def test_rows_of_a_shell_are_laid_out_around_its_middle() -> None:
    # By hand: three 5 mm apart from -5 to 5, two from -2.5 to 2.5; rows 4 mm apart from 2 down to -2.
    placed = shell(rows=["1..3", "4..5"], pitch={"across": "5 mm", "down": "4 mm"}).places_mm
    assert placed == {"1": (-5, 2), "2": (0, 2), "3": (5, 2), "4": (-2.5, -2), "5": (2.5, -2)}


@pytest.mark.parametrize(
    ("rows", "order"), [([["10", "9"], ["1", "2"]], ["1", "2", "9", "10"]), ([["B", "A"], ["1"]], ["B", "A", "1"])]
)
def test_contacts_are_in_number_order_and_names_as_written(rows: list[list[str]], order: list[str]) -> None:
    assert list(shell(rows=rows, pitch={"across": "5 mm", "down": "4 mm"}).places_mm) == order


# 30 mm by 20 mm: from the middle 15 mm to the side and 10 mm up; a round one of 20 mm reaches 10 mm every way, and
# 7 mm and 7 mm make 9.90 mm, 7.1 mm and 7.1 mm 10.04 mm.
@pytest.mark.parametrize(
    ("keys", "place"),
    [
        ({}, ["15 mm", "10 mm"]),
        ({}, ["-15 mm", "-10 mm"]),
        ({"shape": "round", "outline": ["20 mm", "20 mm"]}, ["7 mm", "-7 mm"]),
        ({"shape": "round", "outline": ["20 mm", "20 mm"]}, ["10 mm", "0 mm"]),
    ],
)
def test_a_contact_may_lie_on_the_outline(keys: dict[str, Any], place: list[str]) -> None:
    assert list(shell(at={"1": ["0 mm", "0 mm"], "2": place}, **keys).places_mm) == ["1", "2"]


@pytest.mark.parametrize(
    ("keys", "place"),
    [
        ({}, ["15.1 mm", "0 mm"]),
        ({}, ["0 mm", "-10.1 mm"]),
        ({"shape": "round", "outline": ["20 mm", "20 mm"]}, ["7.1 mm", "7.1 mm"]),
    ],
)
def test_a_contact_outside_the_outline_is_refused(keys: dict[str, Any], place: list[str]) -> None:
    with pytest.raises(ValueError, match="contact 2 lies outside"):
        shell(at={"1": ["0 mm", "0 mm"], "2": place}, **keys)


@pytest.mark.parametrize(("text", "count"), [("1..200", 200), ("0..199", 200), ("801..1000", 200)])
def test_a_range_holds_200_names_at_most(text: str, count: int) -> None:
    assert len(expand_ranges(text)) == count
    first, last = text.split("..")
    with pytest.raises(Refused):
        expand_ranges(f"{first}..{int(last) + 1}")


def test_a_name_holds_100_characters_at_most() -> None:
    assert check_name("a" * 100) == "a" * 100
    with pytest.raises(Refused):
        check_name("a" * 101)


# There is no charge without a flight and no channel 0.
@pytest.mark.parametrize(
    ("file", "old", "least"),
    [
        ("aircraft.yaml", FLIGHT, f"{FLIGHT}, flights: ▶"),
        ("harness.yaml", CHANNEL, "channel: ▶"),
    ],
)
def test_what_is_counted_from_one_is_never_nothing(
    file: str,
    old: str,
    least: str,
    aircraft_folder: AircraftFolder,
    errors_in: Callable[[Path], list[Finding]],
    places_of: Callable[[list[Finding]], set[Place]],
) -> None:
    assert errors_in(aircraft_folder({file: [(old, f"{least}1")]})) == []
    folder = aircraft_folder({file: [(old, f"{least}0")]})
    assert places_of(errors_in(folder)) == aircraft_folder.marked("value")


@pytest.mark.parametrize("lead", ["{a: servo-22}", "{AB: servo-22}", "{A: [servo-22]}", "{A: servo-22, 2: servo-22}"])
def test_leads_by_segment_are_named_by_capital_letters(
    lead: str,
    aircraft_folder: AircraftFolder,
    errors_in: Callable[[Path], list[Finding]],
    places_of: Callable[[list[Finding]], set[Place]],
) -> None:
    start = "to: rudder\n    lead: "
    assert errors_in(aircraft_folder({"harness.yaml": [(f"{start}servo-22", f"{start}{{A: servo-22}}")]})) == []
    folder = aircraft_folder({"harness.yaml": [(f"{start}servo-22", f"{start}▶{lead}")]})
    assert places_of(errors_in(folder)) == aircraft_folder.marked("value")
