from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Place

from docgen.basics.findings import Finding
from docgen.basics.source import plain, read_yaml
from docgen.definition.sides import expand_sides
from docgen.pipeline import check

Expanded = Callable[[str], tuple[object, set[Place]]]


@pytest.fixture
def expanded(tmp_path: Path, places_of: Callable[[list[Finding]], set[Place]]) -> Expanded:
    def expanded(text: str) -> tuple[object, set[Place]]:
        path = tmp_path / "harness.yaml"
        path.write_text(text, "utf-8")
        node, findings = read_yaml(path, "harness.yaml")
        assert findings == []
        assert node is not None
        root, findings = expand_sides(node)
        return plain(root), places_of(findings)

    return expanded


def made(result: tuple[object, set[Place]]) -> object:
    assert result[1] == set()
    return result[0]


def test_an_entry_is_made_twice_in_place_left_first(expanded: Expanded) -> None:
    root = made(expanded("places:\n  a: {x: y}\n  <side>-b: {x: y}\n  c: {x: y}\n"))
    assert isinstance(root, dict)
    assert list(root["places"]) == ["a", "left-b", "right-b", "c"]


def test_the_side_is_replaced_everywhere_inside(expanded: Expanded) -> None:
    root = made(expanded("circuits:\n  <side>-a: {to: <side>-b, through: [<side>-c], at: {<side>: <side> 1}}\n"))
    assert isinstance(root, dict)
    assert root["circuits"]["right-a"] == {
        "to": "right-b",
        "through": ["right-c"],
        "at": {"right": "right 1"},
    }


def test_a_name_may_hold_the_side_twice(expanded: Expanded) -> None:
    root = made(expanded("places:\n  <side>-a-<side>: {x: <side><side>}\n"))
    assert root == {"places": {"left-a-left": {"x": "leftleft"}, "right-a-right": {"x": "rightright"}}}


def test_a_list_item_that_holds_it_is_made_twice_in_place(expanded: Expanded) -> None:
    root = made(expanded("runs:\n  - {between: [a, b]}\n  - {between: [a, <side>-c]}\n  - {between: [a, d]}\n"))
    assert root == {
        "runs": [
            {"between": ["a", "b"]},
            {"between": ["a", "left-c"]},
            {"between": ["a", "right-c"]},
            {"between": ["a", "d"]},
        ]
    }


def test_only_the_outermost_item_is_made_twice(expanded: Expanded) -> None:
    root = made(expanded("runs:\n  - {between: [<side>-a, <side>-b]}\n"))
    assert root == {"runs": [{"between": ["left-a", "left-b"]}, {"between": ["right-a", "right-b"]}]}


def test_a_list_item_in_an_entry_of_one_side_is_made_twice(expanded: Expanded) -> None:
    root = made(expanded("circuits:\n  a: {through: [b, <side>-c]}\n"))
    assert root == {"circuits": {"a": {"through": ["b", "left-c", "right-c"]}}}


def test_a_named_entry_inside_another_is_made_twice(expanded: Expanded) -> None:
    root = made(expanded("equipment:\n  receiver: {antennas: {<side>: {lies: upright}}}\n"))
    assert root == {
        "equipment": {"receiver": {"antennas": {"left": {"lies": "upright"}, "right": {"lies": "upright"}}}}
    }


def test_inside_an_entry_the_inner_name_is_just_replaced(expanded: Expanded) -> None:
    root = made(expanded("disconnects:\n  <side>-a: {commons: {<side>-b: {role: positive}}}\n"))
    assert root == {
        "disconnects": {
            "left-a": {"commons": {"left-b": {"role": "positive"}}},
            "right-a": {"commons": {"right-b": {"role": "positive"}}},
        }
    }


def test_left_and_right_are_a_choice_inside_an_entry(expanded: Expanded) -> None:
    root = made(expanded("circuits:\n  <side>-a: {from: {left: r 1, right: r 2}, note: {right: b, left: a}}\n"))
    assert root == {"circuits": {"left-a": {"from": "r 1", "note": "a"}, "right-a": {"from": "r 2", "note": "b"}}}


def test_a_choice_may_hold_more_than_a_word(expanded: Expanded) -> None:
    root = made(expanded("circuits:\n  <side>-a: {b: {left: {c: <side>}, right: [d, <side>]}}\n"))
    assert root == {"circuits": {"left-a": {"b": {"c": "left"}}, "right-a": {"b": ["d", "right"]}}}


def test_a_list_item_made_twice_has_choices_too(expanded: Expanded) -> None:
    root = made(expanded("runs:\n  - {between: [a, <side>-b], length: {left: 1 mm, right: 2 mm}}\n"))
    assert root == {
        "runs": [
            {"between": ["a", "left-b"], "length": "1 mm"},
            {"between": ["a", "right-b"], "length": "2 mm"},
        ]
    }


@pytest.mark.parametrize("inside", ["{left: 80 mm}", "{right: 80 mm}", "{left: 1 mm, right: 2 mm, up: 3 mm}"])
def test_fewer_or_more_keys_are_no_choice(expanded: Expanded, inside: str) -> None:
    root = made(expanded(f"places:\n  <side>-a: {{at: {inside}}}\n"))
    assert isinstance(root, dict)
    assert isinstance(root["places"]["left-a"]["at"], dict)


def test_outside_of_an_entry_left_and_right_are_no_choice(expanded: Expanded) -> None:
    assert made(expanded("circuits:\n  a: {b: {left: 1, right: 2}}\n")) == {
        "circuits": {"a": {"b": {"left": "1", "right": "2"}}}
    }


def test_text_that_only_looks_like_a_side_stays(expanded: Expanded) -> None:
    assert made(expanded("circuits:\n  a: {b: <Side> < side > side}\n")) == {
        "circuits": {"a": {"b": "<Side> < side > side"}}
    }


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("aircraft: {name: Wren <side>}", ("side", "harness.yaml", 1, 18)),
        ("places:\n  a: {access: <side> hatch}", ("side", "harness.yaml", 2, 15)),
        ("places:\n  a: {at: {<side>: 1 mm}}", ("side", "harness.yaml", 2, 12)),
        ("<side>s: {a: b}", ("side", "harness.yaml", 1, 1)),
        ("flight: {<side>: 1 s}", ("side", "harness.yaml", 1, 10)),
        ("circuits:\n  é: {b: {c: {d: <side>}}}", ("side", "harness.yaml", 2, 18)),
    ],
)
def test_elsewhere_it_is_an_error(expanded: Expanded, text: str, place: Place) -> None:
    assert expanded(text)[1] == {place}


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("places:\n  left-a: {x: y}\n  <side>-a: {x: z}\n", ("key", "harness.yaml", 3, 3)),
        ("places:\n  <side>-a: {x: z}\n  right-a: {x: y}\n", ("key", "harness.yaml", 3, 3)),
        ("places:\n  <side>-left: {x: z}\n  left-<side>: {x: y}\n", ("key", "harness.yaml", 3, 3)),
        ("places:\n  <side>-a: {at: {left: 1, <side>: 2, up: 3}}\n", ("key", "harness.yaml", 2, 28)),
    ],
)
def test_names_that_fall_together_are_doubled_keys(expanded: Expanded, text: str, place: Place) -> None:
    assert expanded(text)[1] == {place}


def test_what_was_made_twice_still_knows_where_it_was_typed(
    aircraft_folder: AircraftFolder,
    errors_in: Callable[[Path], list[Finding]],
    places_of: Callable[[list[Finding]], set[Place]],
) -> None:
    folder = aircraft_folder({"harness.yaml": [("right: receiver 2}", "right: ▶receiver 9}")]})
    assert places_of(errors_in(folder)) == aircraft_folder.marked("name")


def test_an_error_in_both_sides_that_reads_alike_is_shown_once(
    aircraft_folder: AircraftFolder, errors_in: Callable[[Path], list[Finding]]
) -> None:
    folder = aircraft_folder({"harness.yaml": [("reach: 120 mm", "reach: 120")]})
    assert len(errors_in(folder)) == 1


def test_a_coordinate_may_be_named_by_the_side(aircraft_folder: AircraftFolder) -> None:
    # The sample's own route: `at: {aft: 600 mm, <side>: 80 mm, up: 90 mm}` in `<side>-root`.
    harness = check(aircraft_folder()).harness
    assert harness is not None
    points = harness.places["left-root"].point_mm, harness.places["right-root"].point_mm
    assert points == ((600, -80, 90), (600, 80, 90))
