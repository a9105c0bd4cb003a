"""Plugs of servos and lights that wait behind another cover than their own: one line, but for those accepted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from docgen.basics.findings import Level
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

RUDDER = "    place: tail-post\n    lead: 300 mm\n"
AILERON = "    lead: 250 mm                         # the lead that came on it\n"


def away(rudder: str = "", aileron: str = "", kind: str = "servo") -> Changes:
    said = [
        (f"    kind: servo\n{RUDDER}", f"    kind: {kind}\n{RUDDER}{rudder}"),
        (AILERON, AILERON + aileron),
    ]
    return {"harness.yaml": said}


def test_plugs_that_lie_elsewhere_are_one_note_at_the_first(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(away("    plug_at: radio-tray\n", "    plug_at: ▶<side>-panel-root\n"))
    (found,) = (finding for finding in check(folder).findings if finding.name == "cover")
    assert {found.position[1:]} == {mark[1:] for mark in aircraft_folder.marks}
    assert found.level is Level.NOTE
    assert all(name in found.sentence for name in ("`left-aileron`", "`right-aileron`", "`rudder`"))


def test_a_plug_at_its_own_place_and_one_of_other_equipment_is_none(aircraft_folder: AircraftFolder) -> None:
    for changes in (away(), away("    plug_at: tail-post\n"), away("    plug_at: radio-tray\n", kind="gyro")):
        assert not [finding for finding in check(aircraft_folder(changes)).findings if finding.name == "cover"]


def test_what_is_accepted_stands_alone(aircraft_folder: AircraftFolder) -> None:
    accepted = "    plug_at: radio-tray\n    accept: {cover: no room in the fin}\n"
    found = check(aircraft_folder(away(accepted, "    plug_at: <side>-panel-root\n"))).findings
    covers = [finding for finding in found if finding.name == "cover"]
    assert [finding.accepted for finding in covers] == ["", "no room in the fin"]
    assert "`rudder`" not in covers[0].sentence
    assert [finding.name for finding in found if finding.name == "accept"] == []
