"""Files that are not there, too big or not UTF-8, and how a finding names its file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Place
from wren_changed import rudder

from docgen.basics.findings import Finding

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]


def test_a_file_that_is_not_there_is_an_error(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(aircraft_folder({"harness.yaml": None}))
    assert places_of(found) == {("file", "harness.yaml", 1, 1)}


@pytest.mark.parametrize("file", ["stores.yaml", "parts.yaml"])
def test_files_that_are_not_needed_may_be_left_out(
    file: str, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    assert errors_in(aircraft_folder({file: None})) == []


def test_a_file_over_a_megabyte_is_an_error(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(aircraft_folder({"stores.yaml": "#" * 1_000_001}))
    assert places_of(found) == {("file", "stores.yaml", 1, 1)}


def test_a_file_that_is_not_utf_8_is_an_error_where_it_is_not(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    folder = aircraft_folder()
    (folder / "stores.yaml").write_bytes("# é\n# ".encode() + b"\xe9")
    assert places_of(errors_in(folder)) == {("file", "stores.yaml", 2, 3)}


def test_a_finding_names_the_file_as_the_folder_was_given(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    folder = aircraft_folder(rudder("servo-22", "servo-2"))
    assert errors_in(folder)[0].position.file == f"{folder}/harness.yaml"
