"""A servo that hands its bus on, and a gyro between receiver and servos: on the pages of the field."""

from __future__ import annotations

from typing import TYPE_CHECKING

from handed_on import BUS_SERVO
from resolved import harness_of

from docgen.paperwork.field import fault_content, power_content

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
