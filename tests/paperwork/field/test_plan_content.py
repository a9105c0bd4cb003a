"""What the plan from above shows: joints, covers, antennas and lines, held against the places of the harness."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field.plan import plan_height_mm
from docgen.paperwork.field.plan_content import Mark, Plan, plan_of

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

    from docgen.harness.model.harness import Harness


def spot(harness: Harness, place: str) -> tuple[float, float]:
    point = harness.places[place].point_mm
    assert point is not None
    return point[0], point[1]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_each_joint_lies_at_its_half_that_stays_and_has_one_number_on_both_sides(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    plan = plan_of(harness)
    found = {(mark.says, mark.at) for mark in plan.marks if mark.kind == "joint"}
    known = {
        joint: half.halves[0].place
        for joint, half in harness.disconnects.items()
        if harness.places[half.halves[0].place].point_mm is not None
    }
    names = list(dict.fromkeys(joint.replace("right", "left") for joint in harness.disconnects))
    numbers = {joint: str(names.index(joint.replace("right", "left")) + 1) for joint in known}
    assert found == {(numbers[joint], spot(harness, place)) for joint, place in known.items()}
    assert [number for number, _ in plan.joints] == sorted(set(numbers.values()))


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_each_place_with_an_access_where_no_joint_lies_has_the_letter_of_how_it_opens(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    of_joints = {half.place for joint in harness.disconnects.values() for half in joint.halves}
    covered = [place for place in harness.places.values() if place.access and place.name not in of_joints]
    opens = list(dict.fromkeys(place.access for place in covered))
    # I and O look like figures.
    letters = dict(zip(opens, "ABCDEFGHJKLMNPQRSTUVWXYZ", strict=False))
    plan = plan_of(harness)
    assert {(mark.says, mark.at) for mark in plan.marks if mark.kind == "cover"} == {
        (letters[place.access], spot(harness, place.name)) for place in covered if place.point_mm is not None
    }
    shown = {letters[place.access] for place in covered if place.point_mm is not None}
    assert plan.covers == tuple((letter, access) for access, letter in letters.items() if letter in shown)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_each_antenna_is_shown_where_and_as_it_lies(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    forms = [antenna.form for entry in harness.equipment.values() for antenna in entry.antennas]
    plan = plan_of(harness)
    found = sorted((mark.says, mark.at) for mark in plan.marks if mark.kind == "antenna")
    assert found == sorted((form.lies, spot(harness, form.place)) for form in forms)
    assert plan.has_antennas
    assert not replace(plan, marks=tuple(mark for mark in plan.marks if mark.kind != "antenna")).has_antennas


def test_a_line_goes_through_each_assembly_between_its_places_that_lie_farthest_apart_along_or_across() -> None:
    """By hand from `at:` of the smallest example, aft and right of the nose; panels are longer across than along."""
    assert set(plan_of(harness_of(EXAMPLES / "wren")).lines) == {
        ((180, 0), (1540, 0)),
        ((690, -810), (600, -90)),
        ((600, 90), (690, 810)),
    }


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_lines_end_at_the_outermost_places_of_an_assembly(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    found = list(plan_of(harness).lines)
    for assembly in harness.assemblies:
        spots = [
            place.point_mm[:2]
            for place in harness.places.values()
            if place.assembly == assembly and place.point_mm is not None
        ]
        if len(set(spots)) > 1:
            extents = [max(at[axis] for at in spots) - min(at[axis] for at in spots) for axis in (0, 1)]
            axis = 0 if extents[0] >= extents[1] else 1
            start, end = found.pop(0)
            assert start[axis] == min(at[axis] for at in spots)
            assert end[axis] == max(at[axis] for at in spots)
            assert {start, end} <= set(spots)
    assert found == []


def test_an_assembly_whose_places_lie_at_one_spot_has_no_line_and_what_has_no_coordinates_no_mark(
    aircraft_folder: AircraftFolder,
) -> None:
    changes: Changes = {
        "aircraft.yaml": [
            ("at: {aft: 690 mm, <side>: 810 mm, up: 110 mm}", "at: {aft: 600 mm, <side>: 90 mm, up: 90 mm}"),
            ("at: {aft: 600 mm, <side>: 80 mm, up: 90 mm}, ", ""),
        ]
    }
    plan = plan_of(harness_of(aircraft_folder(changes)))
    assert plan.lines == (((180, 0), (1540, 0)),)
    assert (plan.joints, [mark for mark in plan.marks if mark.kind == "joint"]) == ((), [])
    assert [access for _, access in plan.covers] == ["canopy", "nose hatch", "tail hatch", "servo cover"]


def test_after_z_letters_are_doubled() -> None:
    harness = harness_of(EXAMPLES / "wren")
    tray = harness.places["radio-tray"]
    places = {f"p{i}": tray.model_copy(update={"name": f"p{i}", "access": f"lid {i}"}) for i in range(50)}
    covers = [letter for letter, _ in plan_of(replace(harness, places=places | harness.places)).covers]
    assert covers[22:26] == ["Y", "Z", "AA", "AB"]
    assert covers[24 + 24 : 24 + 26] == ["BA", "BB"]
    assert not {"I", "O", "AI", "AO"} & {*covers}


@pytest.mark.parametrize(
    ("right", "aft", "high"),
    [
        # 62 mm wide, 7 mm clear on each side: 48 mm for both halves of 1000 mm, so 600 mm aft are 14.4 mm.
        (1000, 600, 14.4 + 14),
        (1000, 1500, 36 + 14),
        (1000, 1501, 50),
        (0, 600, 50),
    ],
)
def test_a_plan_is_as_high_as_the_aircraft_is_long_to_one_scale_at_most_as_high_as_its_place(
    right: float, aft: float, high: float
) -> None:
    marks = Mark("cover", "A", (100.0, -right)), Mark("cover", "B", (100.0 + aft, right / 2))
    assert plan_height_mm(Plan(marks, (), (), ()), 62.0, 50.0) == pytest.approx(high)
