from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Place

from docgen.basics.findings import Finding

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]

CURRENT = "    current: {working: 150 mA}\n"
PORTS = "{plug: power-2, names: [BATT], contacts: pins"
SHELL = "    shell: block-6\n"
RUDDER = "    from: receiver 4\n    to: rudder\n"
SECOND_RUDDER = "  rudder-2: {kind: servo, place: tail-post, lead: 300 mm, plug: servo-3}\n"

CASES = {
    "output of equipment": [(CURRENT, CURRENT + "    output: ▶{volts: 6 V, headroom: 0.5 V}\n")],
    "output of ports": [(PORTS, PORTS + ", output: ▶{volts: 6 V}")],
    "commons": [
        (
            SHELL,
            SHELL + "    commons: ▶{servo-positive: {role: positive, contacts: [3, 4], circuits: [<side>-aileron]}}\n",
        )
    ],
    "split": [
        ("equipment:\n", "equipment:\n" + SECOND_RUDDER),
        (
            RUDDER,
            RUDDER.replace("to: rudder", "to: [rudder, rudder-2]\n    split: ▶{place: tail-post, loop: 20 mm}"),
        ),
    ],
}


@pytest.mark.parametrize("replacements", CASES.values(), ids=CASES)
def test_what_is_not_computed_yet_is_refused_where_it_stands(
    replacements: list[tuple[str, str]],
    aircraft_folder: AircraftFolder,
    errors_in: ErrorsIn,
    places_of: PlacesOf,
) -> None:
    found = errors_in(aircraft_folder({"harness.yaml": replacements}))
    assert places_of(found) == aircraft_folder.marked("value")


@pytest.mark.parametrize("about", CASES)
def test_what_is_not_computed_yet_is_called_so(
    about: str, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    sentence = errors_in(aircraft_folder({"harness.yaml": CASES[about]}))[0].sentence
    assert about.split(maxsplit=1)[0] in sentence
    assert "yet" in sentence


def test_a_pair_that_ends_at_commons_is_refused_with_them(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    commons = "    commons: {servo-positive: {role: positive, contacts: [3], circuits: [<side>-aileron]}}\n"
    pair = "  heavy: {from: receiver 3, to: left-root servo-positive, lead: power-20}\n"
    folder = aircraft_folder({"harness.yaml": [(SHELL, SHELL + commons), ("circuits:\n", "circuits:\n" + pair)]})
    assert all("yet" in finding.sentence for finding in errors_in(folder))
