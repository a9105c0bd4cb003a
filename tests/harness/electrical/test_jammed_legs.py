"""Gear legs that jam together: for as long as their controller feeds them, and briefly, at contacts that they share."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

import pytest
from remedied import Definition, definition

from docgen.harness.model.harness import Harness
from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]


class Legs(NamedTuple):
    """Two legs of 1 A, 6 A stalled: the limit and stop of each, and whether each has a controller of its own."""

    limits: tuple[str, str]
    stop: str
    apart: bool = False


def with_legs(legs: Legs) -> Definition:
    said = definition({}, {})
    equipment, circuits = said["harness"]["equipment"], said["harness"]["circuits"]
    ports = [
        {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
        {"plug": "motor-2", "names": ["1", "2"], "contacts": "pins"},
    ]
    equipment["unit"]["ports"][1]["names"] = ["W", "W2"]
    for number, outlet in (1, "W"), (2, "W2"):
        if number == 1 or legs.apart:
            equipment[f"gear-{number}"] = {"kind": "gear controller", "place": "tray", "ports": ports}
            circuits[f"gear-{number}"] = {"from": f"unit {outlet}", "to": f"gear-{number} IN", "lead": "power-16"}
        equipment[f"leg-{number}"] = {
            "kind": "gear leg",
            "place": "tip",
            "lead": "200 mm",
            "lead_wire": "pvc-22",
            "plug": "motor-2",
            "current": {"idle": "0 A", "working": "1 A", "stall": "6 A", "runs": "20 s"},
            "gear": {"limit": legs.limits[number - 1], **({"stop": legs.stop} if legs.stop else {})},
        }
        controller = f"gear-{number if legs.apart else 1}"
        leg = {"from": f"{controller} {number}", "to": f"leg-{number}", "through": ["wing"], "lead": "motor-22"}
        circuits[f"leg-{number}"] = leg
    return said


# The pack's plug bears 10 A, 15 A briefly (common practice). In the peak both legs stall, 2 × 6 A of 15 A, or draw what
# they are stopped at, 2 × 4 A; a stop over the stall stops nothing.
SHARED = {
    "together at their stop": (Legs(("11 s", "11 s"), "4 A"), 2 * 4 / 10, 2 * 4 / 15),
    "together at their stall": (Legs(("11 s", "11 s"), ""), 2 * 6 / 10, 2 * 6 / 15),
    "together at their stall, which is under their stop": (Legs(("11 s", "11 s"), "7 A"), 2 * 6 / 10, 2 * 6 / 15),
    "only one for so long": (Legs(("11 s", "10 s"), "4 A"), (4 + 1) / 10, 2 * 4 / 15),
    "none for so long": (Legs(("10 s", "10 s"), "4 A"), 2 * 1 / 10, 2 * 4 / 15),
    "each on its own controller": (Legs(("11 s", "11 s"), "4 A", apart=True), (4 + 1) / 10, 2 * 4 / 15),
}


def checked(written_folder: WrittenFolder, said: Definition) -> Harness:
    harness = check(written_folder({f"{name}.yaml": json.dumps(text) for name, text in said.items()})).harness
    assert harness is not None
    return harness


@pytest.mark.parametrize(("legs", "lasting", "brief"), SHARED.values(), ids=SHARED)
def test_legs_of_one_controller_jam_together(
    legs: Legs, lasting: float, brief: float, written_folder: WrittenFolder
) -> None:
    shares = checked(written_folder, with_legs(legs)).results.circuits["supply"].shares
    assert (shares.contact, shares.brief) == pytest.approx((lasting, brief))


# The legs' plug bears 8 A briefly (common practice). Its own drop stalled stays that of 6 A: so much flows until the
# controller stops it.
@pytest.mark.parametrize(("stop", "brief_a"), [("", 6), ("4 A", 4), ("2.5 A", 2.5)])
def test_a_leg_draws_briefly_what_it_is_stopped_at(stop: str, brief_a: float, written_folder: WrittenFolder) -> None:
    leg = checked(written_folder, with_legs(Legs(("9 s", "9 s"), stop))).results.circuits["leg-1"]
    assert leg.shares.brief == pytest.approx(brief_a / 8)
    assert leg.stall_a == pytest.approx(6)


def test_the_controller_says_the_stop_of_legs_that_say_none(written_folder: WrittenFolder) -> None:
    said = with_legs(Legs(("9 s", "9 s"), ""))
    said["harness"]["equipment"]["gear-1"]["gear"] = {"stop": "4 A"}
    assert checked(written_folder, said).results.circuits["leg-1"].shares.brief == pytest.approx(4 / 8)


# Outlets of 9 A for both legs together: 2 × 4 A, or 2 × 6 A.
@pytest.mark.parametrize(("stop", "found"), [("4 A", []), ("", ["gear-1"])])
def test_outlets_give_what_legs_are_stopped_at(stop: str, found: list[str], written_folder: WrittenFolder) -> None:
    said = with_legs(Legs(("9 s", "9 s"), stop))
    said["harness"]["equipment"]["gear-1"]["ports"][1]["rating"] = "9 A"
    findings = checked(written_folder, said).findings
    assert [finding.subject[1] for finding in findings if finding.name == "supply-current"] == found


def test_a_leg_that_is_stopped_under_what_it_works_at_takes_nothing_off_the_others(
    written_folder: WrittenFolder,
) -> None:
    """By hand: both work at 1 A; one is stopped at 0.5 A, the other at 4 A."""
    said = with_legs(Legs(("11 s", "11 s"), "4 A"))
    said["harness"]["equipment"]["leg-1"]["gear"]["stop"] = "0.5 A"
    shares = checked(written_folder, said).results.circuits["supply"].shares
    assert (shares.contact, shares.brief) == pytest.approx(((1 + 4) / 10, (1 + 4) / 15))
