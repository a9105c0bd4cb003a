"""What stops all though radio packs are doubled: where it was typed, and nearly equal definitions without it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, check_once

from docgen.basics.findings import Finding, Level
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes, Place, Replacements

PACK = """  spare-pack:
    kind: battery
    place: battery-bay
    lead: 120 mm
    lead_wire: pvc-20
    plug: power-2
    battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}
"""
HUB = """  ▶hub:
    kind: power unit
    place: radio-tray
    ports: {plug: power-2, names: [IN-1, IN-2, OUT], contacts: pins}
    fed_by: [IN-1, IN-2]
    isolates: yes
"""
PAIR = """  ▶pair:
    kind: servo controller
    place: radio-tray
    ports: {plug: servo-3, names: [IN, L, R], contacts: pins}
"""
DOORS = PAIR.replace("▶", "").replace("servo controller", "gear controller")
AILERONS = "    from: {left: receiver 1, right: receiver 2}\n"


def changed(equipment: str, circuits: str, *others: tuple[str, str]) -> Changes:
    changes: Replacements = [("equipment:\n", f"equipment:\n{equipment}"), ("circuits:\n", f"circuits:\n{circuits}")]
    return {"harness.yaml": [*changes, *others]}


SPARE = "  spare: {from: spare-pack, to: receiver BATT-2, lead: power-20}\n"
BOTH = ("names: [BATT]", "names: [BATT, BATT-2]"), ("    kind: receiver\n", "    kind: receiver\n    isolates: yes\n")
APART = changed(PACK, SPARE, *BOTH)
IN_HUB = changed(
    PACK + HUB,
    "  spare: {from: spare-pack, to: hub IN-2, lead: power-20}\n"
    "  ▶feed: {from: hub OUT, to: receiver BATT, lead: power-20}\n",
    ("    to: receiver BATT\n", "    to: hub IN-1\n"),
)
IN_PAIR = changed(
    PACK + PAIR,
    f"{SPARE}  ▶pair: {{from: receiver 1, to: pair IN, lead: servo-22}}\n",
    *BOTH,
    (AILERONS, "    from: {left: pair L, right: pair R}\n"),
)
ON_GEAR = changed(
    PACK + DOORS,
    f"{SPARE}  pair: {{from: receiver 1, to: pair IN, lead: servo-22}}\n",
    *BOTH,
    (AILERONS, "    from: {left: pair L, right: pair R}\n"),
)
ONE_SERVO = changed(
    PACK + PAIR.replace("▶", ""),
    f"{SPARE}  pair: {{from: receiver 1, to: pair IN, lead: servo-22}}\n",
    *BOTH,
    (AILERONS, "    from: {left: receiver 3, right: receiver 2}\n"),
    ("  <side>-aileron:\n    kind: servo\n", "  <side>-aileron:\n    kind: light\n"),
    ("    from: receiver 4\n", "    from: pair L\n"),
)
ONE_PACK = changed(
    PAIR.replace("▶", ""),
    "  pair: {from: receiver 1, to: pair IN, lead: servo-22}\n",
    (AILERONS, "    from: {left: pair L, right: pair R}\n"),
)


@pytest.mark.parametrize(
    ("wrong", "level", "right"),
    [
        pytest.param(IN_HUB, Level.CAUTION, APART, id="two packs over one unit, or each for itself"),
        pytest.param(IN_PAIR, Level.NOTE, ONE_PACK, id="both ailerons over one, packs doubled or not"),
        pytest.param(IN_PAIR, Level.NOTE, ONE_SERVO, id="both ailerons over one, or the only servo"),
        pytest.param(IN_PAIR, Level.NOTE, ON_GEAR, id="both ailerons over one, or as doors over the gear's"),
    ],
)
def test_one_loss_is_found_where_packs_are_doubled_in_vain(
    wrong: Changes,
    level: Level,
    right: Changes,
    aircraft_folder: AircraftFolder,
    places_of: Callable[[list[Finding]], set[Place]],
) -> None:
    found = [finding for finding in check(aircraft_folder(wrong)).findings if finding.name == "one-loss"]
    assert places_of(found) == aircraft_folder.marked("one-loss")
    assert {finding.level for finding in found} == {level}
    checked = check(aircraft_folder(right))
    assert checked.harness is not None
    assert not [finding for finding in checked.findings if finding.name == "one-loss"]


def test_the_only_joint_to_the_tail_is_not_told_of_though_both_elevators_pass_it() -> None:
    found = [finding.subject for finding in check_once(EXAMPLES / "fulmar").findings if finding.name == "one-loss"]
    assert found == [("equipment", "power-unit")]
