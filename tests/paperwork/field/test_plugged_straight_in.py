"""First power-up where a pack plugs straight into what it feeds, and what the meter of the bench supply shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from beginning.begun import written
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field import power_content

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder

    from docgen.paperwork.field.power_parts import Part

MORE = "+ is more than before"


def parts_of(folder: Path) -> dict[str, Part]:
    """Return the parts of first power-up by the first words of their titles."""
    return {part.title.partition(",")[0]: part for part in power_content.content(harness_of(folder)).parts}


def steps_of(part: Part) -> list[tuple[str, str, str]]:
    return [(step.name, step.does.partition(" (fault")[0], step.should) for step in part.steps]


def test_a_pack_that_plugs_into_its_controller_is_metered_beside_it_and_that_is_fed_with_a_limit(
    tmp_path: Path,
) -> None:
    """Its plug is the controller's own lead: never open, and not without a current.

    By hand from harness.yaml: six cells of 3.3 to 4.2 V, 50 mA at rest; plus is contact 2 of both plugs.
    """
    parts = parts_of(written(tmp_path / "gull", {"drive": "motor,receiver-pack"}))
    assert [name for name, _, _ in steps_of(parts["Resistance"])] == ["pack"]
    assert [name for name, _, _ in steps_of(parts["Bare wiring"])] == ["pack", "PACK"]
    straight = parts["Packs that plug straight in"]
    assert steps_of(straight) == [
        ("motor-pack", "2+ 1−, as motor-control PACK is marked", "19.8 to 25.2 V"),
        ("motor-control", "limit 0.50 A", "+0.05 A"),
    ]
    assert "as its maker says" in straight.says
    assert straight.caution == "Propeller off or motor leads unplugged."
    assert "do not plug it in" in straight.stop
    titles = list(parts)
    assert titles.index("Bare wiring") < titles.index(straight.title) < titles.index("Signals to units")


def test_a_pack_that_plugs_into_the_receiver_is_metered_and_that_is_fed_among_the_units(
    aircraft_folder: AircraftFolder,
) -> None:
    cut = "    to: receiver BATT\n    lead: power-20\n"
    parts = parts_of(aircraft_folder({"harness.yaml": [(cut, cut.replace("    lead: power-20\n", ""))]}))
    assert not {"Resistance", "Bare wiring"} & parts.keys()
    straight = parts["Packs that plug straight in"]
    assert steps_of(straight) == [("pack", "2+ 1−, as receiver BATT is marked", "6.4 to 8.4 V")]
    assert (straight.caution, "feed" in straight.says, "limit" in straight.stop) == ("", False, False)
    assert steps_of(parts["Units and receivers"])[0] == ("receiver", "limit 0.50 A", "+0.15 A")


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_no_pack_that_a_lead_is_cut_for_is_said_to_plug_straight_in(name: str) -> None:
    assert "Packs that plug straight in" not in parts_of(EXAMPLES / name)


def test_what_plugs_straight_into_an_outlet_is_unplugged_so_the_outlet_is_read(
    aircraft_folder: AircraftFolder,
) -> None:
    cut = "    to: rudder\n    lead: servo-22\n"
    parts = parts_of(aircraft_folder({"harness.yaml": [(cut, "    to: rudder\n")]}))
    assert steps_of(parts["Units and receivers"])[1:] == [
        *((f"AIL {side[0].upper()}", f"{side}-aileron 2+ 1−", "7.4 V") for side in ("left", "right")),
        ("RUD", "receiver 4 2+ 1−", "7.4 V"),
    ]


@pytest.mark.parametrize("title", ["Units and receivers", "Each circuit"])
def test_each_current_is_said_to_be_on_top_of_what_the_meter_showed_before(title: str) -> None:
    part = parts_of(EXAMPLES / "fulmar")[title]
    currents = [step.should for step in part.steps if step.should.endswith("A")]
    assert len(currents) > 5
    assert all(amps.startswith("+") for amps in currents)
    assert MORE in part.says


def test_a_current_that_nobody_said_is_not_made_up(aircraft_folder: AircraftFolder) -> None:
    changes = [
        ("    current: {working: 150 mA}\n", ""),
        ("    current: {idle: 20 mA, working: 0.5 A, stall: 2.4 A}\n", "    current: {stall: 2.4 A}\n"),
    ]
    parts = parts_of(aircraft_folder({"harness.yaml": changes}))
    assert steps_of(parts["Units and receivers"])[0] == ("receiver", "limit 0.50 A", "")
    assert [should for _, _, should in steps_of(parts["Each circuit"])] == ["+0.02 A", "+0.02 A", ""]


# What is worked while it is read: a light that is switched on a channel, one that is always on, a pump; and at rest.
@pytest.mark.parametrize(
    ("kind", "current", "more"),
    [
        ("light", "{working: 0.8 A, runs: 90 s}", "+0.80 A"),
        ("light", "{working: 0.8 A}", "+0.80 A"),
        ("light", "{idle: 0.1 A}", ""),
        ("pump", "{idle: 0.1 A, working: 2 A}", "+2.0 A"),
        ("smoke", "{idle: 0 A, working: 1.8 A, runs: 60 s}", "+1.8 A"),
        ("other", "{idle: 0.1 A, working: 0.3 A}", "+0.30 A"),
        ("valve", "{working: 0.3 A, runs: 60 s}", "+0 A"),
        ("brake", "{working: 0.6 A, runs: 60 s}", "+0 A"),
        ("servo", "{idle: 0.1 A, working: 0.5 A}", "+0.10 A"),
        ("gyro", "{idle: 0.04 A, working: 0.06 A}", "+0.04 A"),
    ],
)
def test_what_comes_on_shows_what_it_works_with_and_what_moves_its_idle(
    aircraft_folder: AircraftFolder, kind: str, current: str, more: str
) -> None:
    changes = [
        ("  rudder:\n    kind: servo\n", f"  rudder:\n    kind: {kind}\n"),
        ("    current: {idle: 20 mA, working: 0.5 A, stall: 2.4 A}\n", f"    current: {current}\n"),
    ]
    parts = parts_of(aircraft_folder({"harness.yaml": changes}))
    assert steps_of(parts["Each circuit"])[-1][2] == more
