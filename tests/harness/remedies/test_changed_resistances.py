"""With other resistances the currents before a switching outlet are other ones too, worked out afresh."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import definition

from docgen.harness import resolve as resolving
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import Loadings
from docgen.harness.electrical.results import results_of
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import Results
from docgen.harness.wiring.feeds import WireBranch
from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]
SUPPLY = [WireBranch("supply", 0, role) for role in ("positive", "negative")]
LAMP = [WireBranch("lamp", 0, role) for role in ("positive", "negative")]
EMPTY_V, PACK_OHM, SET_V, EFFICIENCY, WORKING_A, STALL_A = 16.0, 2.0, 6.0, 0.9, 2.4, 3.0


@pytest.fixture
def electricity(written_folder: WrittenFolder, monkeypatch: pytest.MonkeyPatch) -> Electricity:
    """Return that of a pump behind a switching outlet, all of whose figures have been asked for."""
    seen: list[Electricity] = []

    def noted(harness: Harness, electricity: Electricity, loadings: Loadings) -> Results:
        seen.append(electricity)
        return results_of(harness, electricity, loadings)

    monkeypatch.setattr(resolving, "results_of", noted)
    pump = {
        "kind": "pump",
        "place": "tray",
        "lead": "100 mm",
        "plug": "power-2",
        "current": {"working": f"{WORKING_A} A", "stall": f"{STALL_A} A"},
    }
    said = definition(
        {"pump": pump},
        {"lamp": {"from": "unit W", "to": "pump", "lead": "power-16"}},
        output={"volts": f"{SET_V} V", "headroom": "0.3 V", "efficiency": f"{100 * EFFICIENCY:g} %"},
        battery={"full": "17 V", "empty": f"{EMPTY_V} V", "resistance": f"{PACK_OHM} ohm"},
    )
    assert check(
        written_folder({f"{name}.yaml": json.dumps(text, ensure_ascii=False) for name, text in said.items()})
    ).harness
    return seen[0]


def taken_a(load_a: float, supply_ohm: float) -> float:
    """Return what the outlet takes: P = 6 V × load / 0.9 at v, where v² − 16 V × v + P × R = 0, the upper root [A]."""
    power_w = SET_V * load_a / EFFICIENCY
    arriving_v = EMPTY_V / 2 + math.sqrt(EMPTY_V**2 / 4 - power_w * (PACK_OHM + supply_ohm))
    return power_w / arriving_v


def test_the_currents_of_a_switching_outlet_are_those_of_the_new_resistances(electricity: Electricity) -> None:
    # 0.5 ohm a pole: working 16 W over 3 ohm arrive at 8 + √(64 − 48) = 12 V and take 1.333 A; stalled and at peak 20 W
    # arrive at 8 + √(64 − 60) = 10 V and take 2 A.
    assert [taken_a(WORKING_A, 1.0), taken_a(STALL_A, 1.0)] == pytest.approx([4 / 3, 2])
    before_a = electricity.working_a(SUPPLY[0]), electricity.brief_a(SUPPLY[0])
    after = electricity.over(dict.fromkeys(SUPPLY, 0.5))
    assert [after.working_a(step) for step in SUPPLY] == pytest.approx([4 / 3, 4 / 3])
    assert [after.brief_a(step) for step in SUPPLY] == pytest.approx([2, 2])
    assert after.cases("unit")["working"] == pytest.approx(12)
    assert (electricity.working_a(SUPPLY[0]), electricity.brief_a(SUPPLY[0])) == before_a


def test_behind_the_outlet_the_load_decides(electricity: Electricity) -> None:
    after = electricity.over(dict.fromkeys(LAMP, 0.25))
    assert [after.working_a(step) for step in LAMP] == [WORKING_A, WORKING_A]
    # 6 V − 3 A × 2 × 0.25 ohm.
    assert after.cases("pump")["stall"] == pytest.approx(4.5)
