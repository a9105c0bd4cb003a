"""Currents that were put there for the builder: one line, counted, but for those accepted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from docgen.basics.findings import Level
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

RUDDER = "current: {idle: 20 mA, working: 0.5 A, stall: 2.4 A}"
AILERON = "current: {idle: 20 mA, working: 0.6 A, stall: 2.4 A}"


def marked(rudder: str = "", aileron: str = "", more: str = "") -> Changes:
    said = [
        (RUDDER, f"{RUDDER[:-1]}{rudder}}}{more}"),
        (AILERON, f"{AILERON[:-1]}{aileron}}}"),
    ]
    return {"harness.yaml": said}


def test_typical_currents_are_one_note_at_the_first_with_their_number(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(marked(", typical: yes", ", typical: ▶yes"))
    (found,) = (finding for finding in check(folder).findings if finding.name == "typical")
    assert {found.position[1:]} == {mark[1:] for mark in aircraft_folder.marks}
    assert found.level is Level.NOTE
    assert found.sentence.startswith("3 currents are typical ones")


def test_one_alone_is_said_as_one(aircraft_folder: AircraftFolder) -> None:
    (found,) = (one for one in check(aircraft_folder(marked(", typical: yes"))).findings if one.name == "typical")
    assert found.sentence == "1 current is a typical one, not yours: of `rudder`."


def test_a_current_of_the_builder_is_none(aircraft_folder: AircraftFolder) -> None:
    for changes in (marked(), marked(", typical: no")):
        assert not [found for found in check(aircraft_folder(changes)).findings if found.name == "typical"]


def test_one_that_is_accepted_stands_alone(aircraft_folder: AircraftFolder) -> None:
    more = "\n    accept: {typical: as good as measured}"
    found = check(aircraft_folder(marked(", typical: yes", ", typical: yes", more))).findings
    typical = [finding for finding in found if finding.name == "typical"]
    assert [finding.accepted for finding in typical] == ["", "as good as measured"]
    assert typical[0].sentence.startswith("2 currents ")
    assert [finding.name for finding in found if finding.name == "accept"] == []
