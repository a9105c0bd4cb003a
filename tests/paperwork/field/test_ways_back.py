"""Where one function alone is looked for: behind which cover first, by hand from the aircraft's file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field import fault_content

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder


def covers_of(folder: Path) -> dict[str, list[str]]:
    """Return by function the covers in the order in which they are opened."""
    alone = fault_content.content(harness_of(folder)).alone
    return {one.label: list(dict.fromkeys(stop.cover for stop in one.stops)) for one in alone}


# A hatch over many plugs; then a cover over one; what takes an assembly off comes last. Common practice, no source.
@pytest.mark.parametrize(
    ("label", "covers"),
    [
        ("AIL L IN", ["top hatch", "servo cover", "wing off"]),
        ("ELEV R", ["top hatch", "servo cover", "tail off"]),
        ("RUDDER", ["top hatch", "fin cover", "tail off"]),
        ("LEG L", ["belly hatch", "leg door", "wing off"]),
        ("LAND R", ["belly hatch", "lens off", "wing off"]),
        ("TAIL LIGHT", ["belly hatch", "end cone off", "tail off"]),
        ("CAMERA", ["from outside", "turret ring off", "nose off"]),
        ("BAY DOOR", ["top hatch", "belly hatch"]),  # the hatch comes off at a plug, but is no more than a cover
        ("FAN L", ["fan cover"]),
    ],
)
def test_hatches_come_before_covers_and_what_is_taken_off_comes_last(label: str, covers: list[str]) -> None:
    assert covers_of(EXAMPLES / "fulmar")[label] == covers


def test_a_hatch_over_the_receiver_comes_before_the_cover_of_a_servo(aircraft_folder: AircraftFolder) -> None:
    assert covers_of(EXAMPLES / "wren")["RUD"] == ["canopy", "tail hatch"]
    # A joint within one assembly takes nothing off: the cover over it stays what it is, here over one plug only.
    extended = [
        ("    from: receiver 4\n    to: rudder\n", "    from: receiver 4\n    to: rudder\n    through: [extension]\n"),
        ("disconnects:\n", f"disconnects:\n{EXTENSION}"),
    ]
    assert covers_of(aircraft_folder({"harness.yaml": extended}))["RUD"] == ["canopy", "tail hatch"]


EXTENSION = """  extension:
    shell: servo-3
    halves: [{place: tail-post, contacts: sockets, reach: 60 mm}, {place: tail-post, contacts: pins, reach: 60 mm}]
"""


def test_a_canopy_at_which_a_wing_is_plugged_in_is_a_canopy(aircraft_folder: AircraftFolder) -> None:
    """The wings' wires are pulled out under it, so it is not what takes them off."""
    under = "assembly: fuselage,     at: {aft: 600 mm, <side>: 80 mm, up: 90 mm}, access: "
    folder = aircraft_folder({"aircraft.yaml": [(f"{under}wing off", f"{under}canopy")]})
    assert covers_of(folder)["AIL L"] == ["canopy", "servo cover"]


def test_a_panel_that_does_not_say_how_it_comes_off_comes_off_as_its_joint_is_reached(
    aircraft_folder: AircraftFolder,
) -> None:
    panel = "<side>-panel-root: {assembly: <side>-panel, at: {aft: 600 mm, <side>: 90 mm, up: 90 mm}"
    folder = aircraft_folder({"aircraft.yaml": [(f"{panel}, access: wing off}}", f"{panel}}}")]})
    assert covers_of(folder)["AIL L"] == ["canopy", "servo cover", "wing off"]
