"""A servo that hands its bus on, and a gyro between receiver and servos: on the pages of the field."""

from __future__ import annotations

from typing import TYPE_CHECKING

from handed_on import BUS_SERVO, GYRO
from page_facts import sheets_of, texts_struck, texts_that_meet
from resolved import EXAMPLES, harness_of

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import fault_content, hangar_content, power_content

if TYPE_CHECKING:
    from conftest import AircraftFolder


def test_a_servo_that_hands_the_bus_on_is_moved_and_has_its_column_and_its_row(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": BUS_SERVO}))
    (each,) = (part for part in power_content.content(harness).parts if part.title.startswith("Each circuit"))
    assert [step.name for step in each.steps] == ["AIL L", "AIL R", "TAB", "RUD"]
    found = fault_content.content(harness)
    assert found.labels == ("AIL L", "AIL R", "TAB", "RUD")
    assert [one.label for one in found.alone] == ["AIL L", "AIL R", "TAB", "RUD"]
    assert [fault.dead for fault in found.faults if fault.name in ("rudder", "lead RUD")] == [(2, 3), (2, 3)]


def test_a_gyro_is_tilted_with_linkages_on_and_at_the_control_check(aircraft_folder: AircraftFolder) -> None:
    """One between receiver and servos, and one that only hangs on a port, as in the large example."""
    harness = harness_of(aircraft_folder({"harness.yaml": [*GYRO, *BUS_SERVO]}))
    for each in (harness, harness_of(EXAMPLES / "fulmar")):
        parts = power_content.content(each).parts
        (part,) = (part for part in parts if any("tilted" in step.does for step in part.steps))
        first, second = part.steps
        assert (part.title, first.name, second.name) == ("Linkages", "linkages on", "gyro")
        assert "against" in second.does
        assert "No flight" in part.stop
        told = [(one.function, one.throw) for one in hangar_content.content(each).channels]
        assert told[-1] == ("gyro", "surfaces against tilt")


def test_each_servo_behind_a_gyro_has_its_row_of_the_control_check(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": [*GYRO, *BUS_SERVO]}))
    told = [one.function for one in hangar_content.content(harness).channels]
    assert told == ["AIL L", "AIL R", "YAW", "TAB", "RUD", "gyro"]


def test_what_is_only_seen_to_move_has_boxes_four_abreast_and_all_is_on_one_sheet(
    aircraft_folder: AircraftFolder,
) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": [*GYRO, *BUS_SERVO]}))
    (page,) = sheets_of(make_paperwork(harness, Choice(stems=("hangar-card",))).files["hangar-card.pdf"])
    assert len(page.ticks) == len(("AIL L", "AIL R", "YAW", "TAB", "RUD", "gyro"))
    at = {text.text: text.base_mm for text in page.texts}
    assert at["TAB"] == at["RUD"] > max(at[name] for name in ("AIL L", "AIL R", "YAW", "gyro"))
    assert texts_that_meet([page]) == []
    assert texts_struck([page]) == []
