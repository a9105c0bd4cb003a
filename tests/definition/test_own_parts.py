from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from docgen.basics.findings import Finding
from docgen.harness.model.harness import Harness
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Place

OWN_WIRE = "wires:\n  {}: {{gauge: 24 AWG, diameter: 1.1 mm, resistance: 84 ohm/km}}\n"
OWN_LEAD = "leads:\n  {}: {{wires: {{negative: {} BN, positive: {} OG, signal: {} YE}}, lay: 25 mm}}\n"


def built(folder: Path) -> Harness:
    checked = check(folder)
    assert checked.harness is not None
    return checked.harness


def test_a_part_of_the_builders_own_is_added(aircraft_folder: AircraftFolder) -> None:
    parts = OWN_WIRE.format("mine-24") + OWN_LEAD.format("mine", *["mine-24"] * 3)
    harness = built(
        aircraft_folder(
            {
                "parts.yaml": parts,
                "harness.yaml": [("    to: rudder\n    lead: servo-22", "    to: rudder\n    lead: mine")],
            }
        )
    )
    assert [wire.colour for wire in harness.circuits["rudder"].leads[0].wires] == ["BN", "OG", "YE"]


def test_a_part_of_the_builders_own_replaces_one_of_that_name(aircraft_folder: AircraftFolder) -> None:
    harness = built(aircraft_folder({"parts.yaml": OWN_WIRE.format("pvc-22")}))
    assert harness.circuits["rudder"].leads[0].wires[0].kind.diameter_mm == 1.1


def test_the_other_parts_of_the_list_stay(aircraft_folder: AircraftFolder) -> None:
    harness = built(aircraft_folder({"parts.yaml": OWN_WIRE.format("pvc-22")}))
    assert harness.circuits["supply"].leads[0].wires[0].kind.diameter_mm == 1.8


def test_a_part_of_the_builders_own_is_named_where_it_is_wrong(
    aircraft_folder: AircraftFolder,
    errors_in: Callable[[Path], list[Finding]],
    places_of: Callable[[list[Finding]], set[Place]],
) -> None:
    folder = aircraft_folder({"parts.yaml": OWN_WIRE.format("pvc-22").replace("1.1 mm", "▶1.1")})
    assert places_of(errors_in(folder)) == aircraft_folder.marked("unit")


def test_the_sample_list_of_parts_is_read(aircraft_folder: AircraftFolder) -> None:
    # The values that wren uses: a list in this form must be taken as it stands.
    parts = (
        "wires:\n  pvc-22:  {gauge: 22 AWG, diameter: 1.6 mm, resistance: 16.20 ohm/1000ft, mass: 5.2 g/m,"
        " limit: 80 °C, current: 3 A}\n"
        "sleeves:\n  braid-4:  {kind: braided sleeve, fits: [3 mm, 8 mm],  shortening: [2 %, 30 %], limit: 125 °C}\n"
        "tubes:\n  shrink-4.8: {expanded: 4.8 mm, recovered: 2.4 mm, wall: 0.5 mm}\n"
    )
    assert check(aircraft_folder({"parts.yaml": parts})).findings == []


@pytest.mark.parametrize("file", ["parts.yaml", "stores.yaml"])
def test_a_file_of_comments_only_is_as_good_as_none(file: str, aircraft_folder: AircraftFolder) -> None:
    assert check(aircraft_folder({file: "# nothing yet\n"})).findings == []
