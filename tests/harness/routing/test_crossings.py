"""What is said where a circuit names too few disconnects, too many or others than lead on."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import Changes
from wren_changed import RUDDER, SIDES

from docgen.pipeline import check

AircraftFolder = Callable[[Changes], Path]

SECOND = """  <side>-lights:
    shell: block-6
    fixed: {place: <side>-root,       contacts: sockets}
    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}
    keyed: B
"""
CIRCUITS = "# What is connected to what"


def said(folder: Path) -> set[tuple[str, str]]:
    return {(finding.subject[1], finding.do) for finding in check(folder).findings if finding.name == "through"}


def changed(*more: tuple[str, str], second: bool = True) -> Changes:
    joint = [(CIRCUITS, SECOND + CIRCUITS)] if second else []
    return {"harness.yaml": [*joint, *more]}


def sides(through: str) -> tuple[str, str]:
    return SIDES, SIDES.replace("    through: [<side>-root]\n", through)


def test_a_missing_one_names_all_that_would_do(aircraft_folder: AircraftFolder) -> None:
    assert said(aircraft_folder(changed(sides("")))) == {
        (f"{side}-aileron", f"Add `{side}-root` or `{side}-lights` to `through:`.") for side in ("left", "right")
    }


def test_one_that_would_do_is_named_alone(aircraft_folder: AircraftFolder) -> None:
    assert ("left-aileron", "Add `left-root` to `through:`.") in said(aircraft_folder(changed(sides(""), second=False)))


def test_the_right_one_is_put_in_place_of_the_wrong_one(aircraft_folder: AircraftFolder) -> None:
    wrong = sides("    through: {left: [right-root], right: [right-root]}\n")
    assert said(aircraft_folder(changed(wrong))) == {
        ("left-aileron", "Put `left-root` or `left-lights` in place of `right-root` in `through:`.")
    }


ORDER = "Name disconnects in the order in which the circuit passes them, from its `from` on."


@pytest.mark.parametrize(
    ("through", "do"),
    [("[left-root]", "Leave `left-root` out of `through:`."), ("[left-root, right-root]", ORDER)],
)
def test_one_too_many_is_to_be_left_out(through: str, do: str, aircraft_folder: AircraftFolder) -> None:
    rudder = RUDDER.replace("    lead", f"    through: {through}\n    lead")
    assert said(aircraft_folder(changed((RUDDER, rudder), second=False))) == {("rudder", do)}


def test_what_is_right_is_not_told_of(aircraft_folder: AircraftFolder) -> None:
    assert said(aircraft_folder(changed())) == set()
