"""First power-up feeds nothing before the plug that feeds it is metered, nor what drives unless it is made safe."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from armed import armed
from handed_on import BUS_SERVO, GYRO
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field import power_content

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder

    from docgen.paperwork.field.power_parts import Part, Step

SAFE = "Propeller off or motor leads unplugged."


def parts_of(folder: Path) -> tuple[Part, ...]:
    return power_content.content(harness_of(folder)).parts


def of_it(parts: tuple[Part, ...], of: str) -> tuple[int, Part, Step]:
    """Return where the only step of something comes, with its part."""
    steps = [(part, step) for part in parts for step in part.steps]
    (found,) = ((number, *one) for number, one in enumerate(steps) if of in one[1].of)
    return found


@pytest.mark.parametrize("kind", ["servo", "servo controller"])
def test_what_a_driven_outlet_feeds_is_plugged_in_once_that_is_read_and_before_its_own_outlets(
    aircraft_folder: AircraftFolder, kind: str
) -> None:
    """By hand: the gyro drives the rudder's plug, which hands supply on to the tab."""
    changes = [*GYRO, *BUS_SERVO, ("  rudder:\n    kind: servo\n", f"  rudder:\n    kind: {kind}\n")]
    parts = parts_of(aircraft_folder({"harness.yaml": changes}))
    read, _, step = of_it(parts, "circuit rudder")
    fed, part, unit = of_it(parts, "unit rudder")
    behind, _, _ = of_it(parts, "circuit tab")
    assert read < fed < behind
    assert (step.should, unit.does.partition(" (fault")[0], unit.should) == ("7.4 V", "limit 0.50 A", "+0.02 A")
    assert "limit" in part.says
    assert "at its limit" in part.stop


def test_what_an_outlet_feeds_that_nothing_drives_is_plugged_in_among_the_units_though_a_driven_one_feeds_it_too(
    aircraft_folder: AircraftFolder,
) -> None:
    changes = [
        *GYRO,
        *(
            (old, new.replace("[BUS, NEXT]", "[BUS, MORE, NEXT]").replace("[BUS]", "[BUS, MORE]"))
            for old, new in BUS_SERVO
        ),
        ("  rudder:\n    kind: servo\n", "  rudder:\n    kind: servo controller\n"),
        (
            "  <side>-aileron:\n    label",
            "  more: {from: receiver 3, to: rudder MORE, lead: servo-22}\n  <side>-aileron:\n    label",
        ),
    ]
    fed, part, _ = of_it(parts := parts_of(aircraft_folder({"harness.yaml": changes})), "unit rudder")
    assert part.title.startswith("Units and receivers")
    assert of_it(parts, "circuit more")[0] < fed < of_it(parts, "circuit rudder")[0]


def test_a_unit_hears_its_signal_once_it_is_fed(aircraft_folder: AircraftFolder) -> None:
    """By hand: the gyro feeds it over its lead BUS, a signal of its own comes straight from the receiver."""
    changes = [
        *GYRO,
        *((old, new.replace("[BUS, NEXT]", "[BUS, NEXT, SIG]")) for old, new in BUS_SERVO),
        ("  rudder:\n    kind: servo\n", "  rudder:\n    kind: servo controller\n"),
        (
            "  <side>-aileron:\n    label",
            "  sig: {from: receiver 3, to: rudder SIG, lead: signal-24}\n  <side>-aileron:\n    label",
        ),
    ]
    parts = parts_of(aircraft_folder({"harness.yaml": changes}))
    order = ["circuit rudder", "unit rudder", "circuit sig", "circuit tab"]
    assert [of_it(parts, of)[0] for of in order] == sorted(of_it(parts, of)[0] for of in order)


def test_what_a_receiver_feeds_is_plugged_in_among_the_units(aircraft_folder: AircraftFolder) -> None:
    parts = parts_of(aircraft_folder({"harness.yaml": BUS_SERVO}))
    read, part, _ = of_it(parts, "circuit rudder")
    fed, same, _ = of_it(parts, "unit rudder")
    assert read < fed
    assert part == same
    assert "limit" not in of_it(parts, "circuit tab")[1].says


def test_a_controller_behind_an_arming_plug_is_fed_with_a_limit_made_safe_before_it_follows_the_throttle(
    tmp_path: Path,
) -> None:
    """By hand: it draws 50 mA at rest; the least limit is 0.5 A; six cells of 3.3 to 4.2 V are 22.5 V in the middle."""
    parts = parts_of(armed(tmp_path / "gull"))
    order = ["unit arming", "circuit armed", "unit motor-control", "circuit throttle"]
    found = [of_it(parts, of) for of in order]
    assert [at for at, _, _ in found] == sorted(at for at, _, _ in found)
    assert found[0][2].does.startswith("22.5 V at the plug for motor-pack, limit 0.50 A")
    _, part, step = found[2]
    assert part.caution == SAFE
    assert (step.does.startswith("limit 0.50 A"), step.should) == (True, "+0.05 A")


def test_a_controller_on_a_supply_lead_is_fed_with_a_limit_made_safe_once() -> None:
    parts = parts_of(EXAMPLES / "fulmar")
    for side in ("left", "right"):
        fed, part, step = of_it(parts, f"unit {side}-fan-control")
        assert of_it(parts, f"circuit {side}-fan-supply")[0] < fed <= of_it(parts, f"circuit {side}-throttle")[0]
        assert part.caution == SAFE
        assert "limited" in part.says
        assert "at its limit" in part.stop
        assert step.does.startswith("limit 0.50 A")


def test_what_drives_behind_a_driven_outlet_is_made_safe_where_it_is_fed(aircraft_folder: AircraftFolder) -> None:
    controller = ("  rudder:\n    kind: servo\n", "  rudder:\n    kind: speed controller\n")
    parts = parts_of(aircraft_folder({"harness.yaml": [*GYRO, *BUS_SERVO, controller]}))
    fed, part, _ = of_it(parts, "unit rudder")
    assert of_it(parts, "circuit rudder")[0] < fed
    assert part.caution == SAFE
    assert part.title.startswith("Outlets of units")


@pytest.mark.parametrize(("name", "hung"), [("wren", {}), ("fulmar", {"power-unit", "service-switch"})])
def test_where_the_bench_supply_hangs_is_said_once_a_supply_where_there_are_several(name: str, hung: set[str]) -> None:
    steps = [step for part in parts_of(EXAMPLES / name) for step in part.steps]
    assert {step.name for step in steps if "at the plug for" in step.does} == set(hung)


BUS = """  <side>-feed: {from: {left: receiver 3, right: receiver 5}, to: <side>-root p n, lead: power-20}
  <side>-bus: {from: {left: receiver 1, right: receiver 2}, to: <side>-root s n, lead: signal-24}
  <side>-aileron:
"""


def test_a_joint_whose_commons_a_signal_goes_to_is_no_unit_that_hears_it(aircraft_folder: AircraftFolder) -> None:
    commons = "".join(
        f"      {name}: {{role: {role}, contacts: [{at}]}}\n"
        for at, (name, role) in enumerate({"p": "positive", "n": "negative", "s": "signal"}.items(), 1)
    )
    reach = "contacts: pins, reach: 120 mm}\n"
    straight = "    from: {left: receiver 1, right: receiver 2}\n    to: <side>-aileron\n    through: [<side>-root]\n"
    changes = [
        ("names: 1..4,", "names: 1..6,"),
        (reach, f"{reach}    commons:\n{commons}"),
        (straight, "    from: <side>-root p n s\n    to: <side>-aileron\n"),
        ("  <side>-aileron:\n    label", f"{BUS}    label"),
    ]
    parts = parts_of(aircraft_folder({"harness.yaml": changes}))
    assert not any(part.title.startswith("Signals") for part in parts)
    assert {"load left-aileron", "load right-aileron"} < {of for part in parts for step in part.steps for of in step.of}


# A speed controller that draws 3 A at rest, and a box, both on leads from the receiver's further ports.
DRIVEN = [
    (
        "names: [BATT], contacts: pins}",
        "names: [BATT], contacts: pins}\n      - {plug: power-2, names: [A, B], contacts: sockets}",
    ),
    (
        "equipment:\n",
        "equipment:\n  motor-control:\n    kind: speed controller\n    place: radio-tray\n"
        "    current: {idle: 3 A, working: 5 A}\n"
        "    fed_by: [IN]\n    ports:\n      - {plug: power-2, names: [IN], contacts: pins}\n"
        "      - {plug: servo-3, names: [RX], contacts: pins}\n"
        "  box: {kind: other, place: radio-tray, ports: [{plug: power-2, names: [IN], contacts: pins}, "
        "{plug: servo-3, names: [OUT], contacts: pins}], current: {idle: 30 mA, working: 30 mA}}\n"
        "  tab: {kind: servo, place: radio-tray, lead: 90 mm, plug: servo-3, current: {idle: 20 mA, working: 0.2 A}}\n",
    ),
    (
        "circuits:\n",
        "circuits:\n  throttle: {from: receiver 3, to: motor-control RX, lead: signal-24}\n"
        "  motor-supply: {from: receiver A, to: motor-control IN, lead: power-20}\n"
        "  box-supply: {from: receiver B, to: box IN, lead: power-20}\n"
        "  tab: {from: box OUT, to: tab, lead: servo-22}\n",
    ),
]


def test_what_drives_itself_is_fed_among_signals_made_safe(aircraft_folder: AircraftFolder) -> None:
    _, part, step = of_it(parts_of(aircraft_folder({"harness.yaml": DRIVEN})), "unit motor-control")
    assert (part.title, part.caution, step.reads) == ("Signals to units", SAFE, True)


def test_of_one_supply_no_second_one_is_asked_for(aircraft_folder: AircraftFolder) -> None:
    _, part, _ = of_it(parts_of(aircraft_folder({"harness.yaml": DRIVEN})), "unit motor-control")
    assert "Bench supply limited as said" in part.says
    _, part, _ = of_it(parts_of(EXAMPLES / "fulmar"), "circuit left-throttle")
    assert "Radio and unit are both fed" in part.says


def test_a_unit_is_fed_with_a_limit_for_what_is_fed_before_it(aircraft_folder: AircraftFolder) -> None:
    """What drives is fed last, so its 3 A at rest are in no unit's limit, though it stands first in the file."""
    parts = parts_of(aircraft_folder({"harness.yaml": DRIVEN}))
    box, _, step = of_it(parts, "unit box")
    assert box < of_it(parts, "unit motor-control")[0]
    assert step.does.startswith("limit 0.50 A")
