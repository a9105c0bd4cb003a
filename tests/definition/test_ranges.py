from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from docgen.basics.findings import Finding, Refused
from docgen.definition.fields import expand_ranges

if TYPE_CHECKING:
    from conftest import AircraftFolder, Place


@pytest.mark.parametrize(
    ("value", "names"),
    [
        ("1..4", ["1", "2", "3", "4"]),
        ("3..3", ["3"]),
        ("1..16", [str(number) for number in range(1, 17)]),
        ("BATT", ["BATT"]),
        (["1..2", "BATT", "5"], ["1", "2", "BATT", "5"]),
        (["A", "NO", "010", "12:30", "3.5", "+", "Ω"], ["A", "NO", "010", "12:30", "3.5", "+", "Ω"]),
        ("9..11", ["9", "10", "11"]),
    ],
)
def test_names_and_ranges_are_read(value: object, names: list[str]) -> None:
    assert expand_ranges(value) == names


@pytest.mark.parametrize(
    "value", ["4..1", "A..D", "1..", "..4", "1...4", "1..2..3", "-1..4", "1..999999", "a b", "a,b"]
)
def test_what_is_no_name_and_no_range_is_refused(value: object) -> None:
    with pytest.raises(Refused):
        expand_ranges(value)


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ("1..1000000", "200 at most"),
        ("1..201", "200 at most"),
        ("1.." + "9" * 5000, "200 at most"),
        ("4..1", "lower number first"),
        ("A..D", "ranges of letters"),
    ],
)
def test_a_range_is_refused_for_what_is_wrong_with_it(value: str, told: str) -> None:
    with pytest.raises(Refused) as refused:
        expand_ranges(value)
    said = f"{refused.value.sentence} {refused.value.do}"
    assert [cause for cause in ("200 at most", "lower number first", "ranges of letters") if cause in said] == [told]


def test_two_hundred_numbers_are_a_range() -> None:
    assert len(expand_ranges("1..200")) == 200


@pytest.mark.parametrize("names", ["[1..4, 4]", "[1..4, 2..5]", "[1, 2, 3, 4, A, A]"])
def test_a_name_twice_in_a_list_is_an_error(
    names: str,
    aircraft_folder: AircraftFolder,
    errors_in: Callable[[Path], list[Finding]],
    places_of: Callable[[list[Finding]], set[Place]],
) -> None:
    folder = aircraft_folder({"harness.yaml": [("names: 1..4", f"names: ▶{names}")]})
    assert places_of(errors_in(folder)) == aircraft_folder.marked("value")


@pytest.mark.parametrize("value", [["1", ["2"]], {"1": "2"}, [{"1": "2"}]])
def test_what_is_no_list_of_names_is_refused(value: object) -> None:
    with pytest.raises(Refused):
        expand_ranges(value)


def test_many_names_are_read() -> None:
    names = [f"a{number}" for number in range(1500)]
    assert expand_ranges(names) == names
