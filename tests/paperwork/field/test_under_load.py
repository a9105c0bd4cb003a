"""What packs and regulators read on first power-up while all works: of what is plugged in then, where it can be probed.

By hand from method.md, of the smallest example: 0.0408 ohm to the receiver, 1.85 A working, packs of 6.4 to 8.4 V.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from armed import armed
from handed_on import GYRO
from lamps import LIT
from resolved import harness_of

from docgen.paperwork.field import power_content
from docgen.paperwork.field.power_runs import UNDER_V

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder

    from docgen.paperwork.field.power_parts import Part

DROP_V = 0.0408 * 1.85


def part_of(folder: Path, title: str) -> Part:
    (part,) = (part for part in power_content.content(harness_of(folder)).parts if part.title.startswith(title))
    return part


def test_charged_packs_are_held_to_full_volts_less_the_drop_of_all_that_works_and_a_margin_that_is_said(
    aircraft_folder: AircraftFolder,
) -> None:
    part = part_of(aircraft_folder(), "Packs, charged")
    assert UNDER_V == 0.3  # common practice, no source
    assert [step.should for step in part.steps] == [f"≥ {8.4 - DROP_V - 0.3:.1f} V receiver"]
    assert "charged packs" in part.says
    assert "0.3 V" in part.says
    assert "empty" not in part.says


@pytest.mark.parametrize(("set_to", "reads_v"), [("6 V", 6.0), ("8.4 V", 7.4 - DROP_V - 0.4)])
def test_a_regulator_is_read_on_the_bench_supply_midway_between_empty_and_full(
    aircraft_folder: AircraftFolder, set_to: str, reads_v: float
) -> None:
    outlets = "names: 1..4, contacts: pins"
    output = f"{outlets}, output: {{volts: {set_to}, headroom: 0.4 V}}"
    part = part_of(aircraft_folder({"harness.yaml": [(outlets, output)]}), "Regulators")
    assert [step.should for step in part.steps] == [f"{reads_v:.2f} V"]


@pytest.mark.parametrize("cut", [True, False])
def test_volts_are_read_where_a_meter_gets_to_them(aircraft_folder: AircraftFolder, *, cut: bool) -> None:
    """The lamps' own lead fills the last port of the receiver; the pack's lead is ours or plugs straight in."""
    straight = [] if cut else [("    to: receiver BATT\n    lead: power-20\n", "    to: receiver BATT\n")]
    (step,) = part_of(aircraft_folder({"harness.yaml": [*LIT, *straight]}), "Packs, charged").steps
    assert step.should.endswith(" V receiver" if cut else "")
    assert bool(step.should) == cut
    free = ("names: 1..4,", "names: 1..5,")
    (step,) = part_of(aircraft_folder({"harness.yaml": [*LIT, *straight, free]}), "Packs, charged").steps
    assert step.should.endswith(" V receiver")


def test_packs_behind_an_arming_plug_that_feed_a_motor_alone_are_tried_when_it_runs(tmp_path: Path) -> None:
    assert [step.name for step in part_of(armed(tmp_path / "gull"), "Packs, charged").steps] == ["pack"]


def test_volts_are_read_where_most_is_lost_not_behind_a_regulator_that_hides_it(
    aircraft_folder: AircraftFolder,
) -> None:
    """By hand: 6 V before 0.33 m to the gyro are fewer than at the receiver, yet less than 0.08 V is lost there."""
    four = "names: 1..4, contacts: pins}\n"
    regulated = "      - {plug: servo-3, names: [4], contacts: pins, output: {volts: 6 V, headroom: 0.4 V}}\n"
    bay = ("kind: gyro\n    place: radio-tray", "kind: gyro\n    place: battery-bay")
    changes = [*GYRO, (four, four.replace("1..4", "1..3") + regulated), bay]
    (step,) = part_of(aircraft_folder({"harness.yaml": changes}), "Packs, charged").steps
    assert step.should == "≥ 8.0 V receiver"
