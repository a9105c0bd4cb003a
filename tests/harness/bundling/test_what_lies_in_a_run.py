"""What a lead is among others in a run, by hand: one circle where it is one piece, else its wires."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from reference.circle_packing import SMALLEST_CIRCLE
from remedied import built, definition, servo

WrittenFolder = Callable[[Mapping[str, str]], Path]

WIRES = {"negative": "pvc-22 BK", "positive": "pvc-22 RD", "signal": "pvc-22 WH"}
OWN_22_MM = 1.4  # the built-in list's `lead-22`: common practice, no source
# Three wires of 1.6 mm laid up are 2.1547 × 1.6 mm thick, two of such leads side by side twice that; six wires that lie
# loose are 3 × 1.6 mm, as seven are, and two flat leads of 3 × 1.6 mm twice that.
LEADS = {
    "loose": ({}, SMALLEST_CIRCLE[6] * 1.6),
    "twisted": ({"lay": "25 mm"}, 2 * SMALLEST_CIRCLE[3] * 1.6),
    "bought twisted": ({"lay": "25 mm", "bought": "twisted"}, 2 * SMALLEST_CIRCLE[3] * 1.6),
    "bought cable": ({"bought": "cable", "diameter": "4.2 mm"}, 2 * 4.2),
    "bought flat": ({"bought": "flat"}, 2 * 3 * 1.6),
}


@pytest.mark.parametrize(("more", "diameter_mm"), LEADS.values(), ids=LEADS)
def test_two_like_leads_in_a_run_are_as_thick_as_what_they_are_made_of(
    more: Mapping[str, str], diameter_mm: float, written_folder: WrittenFolder
) -> None:
    loads = {name: {**servo("1 A"), "place": "root"} for name in ("ail", "flap")}
    circuits = {name: {"from": f"unit {i}", "to": name, "lead": "mine"} for i, name in enumerate(loads, 1)}
    said = definition(loads, circuits)
    said["parts"] = {**said["parts"], "leads": {**said["parts"]["leads"], "mine": {"wires": WIRES, **more}}}
    bundle = built(written_folder, said).bundles[0]
    assert bundle.leads == ("ail A", "flap A")
    assert bundle.diameter_mm == pytest.approx(diameter_mm, rel=1e-3)


def test_own_leads_that_plug_straight_in_lie_in_a_run_laid_up(written_folder: WrittenFolder) -> None:
    # Two of three wires of 1.0 mm (the built-in servo lead: common practice, no source).
    loads = {name: {**servo("1 A", lead_mm=400), "place": "root"} for name in ("ail", "flap")}
    circuits = {name: {"from": f"unit {i}", "to": name} for i, name in enumerate(loads, 1)}
    bundle = built(written_folder, definition(loads, circuits)).bundles[0]
    assert bundle.leads == ("ail A", "flap A")
    assert bundle.diameter_mm == pytest.approx(2 * SMALLEST_CIRCLE[3] * 1.0, rel=1e-3)


def test_own_leads_lie_between_what_they_came_with_and_their_plugs(written_folder: WrittenFolder) -> None:
    load = {**servo("1 A", lead_mm=800, wire="lead-22"), "plug_at": "panel"}
    circuit = {"from": "unit 1", "to": "ail", "through": ["wing"], "lead": "servo-22"}
    bundle = built(written_folder, definition({"ail": load}, {"ail": circuit})).bundles[1]
    assert bundle.leads == ("ail's own lead",)
    assert bundle.diameter_mm == pytest.approx(SMALLEST_CIRCLE[3] * OWN_22_MM, rel=1e-3)


def test_nothing_lies_where_no_lead_goes(written_folder: WrittenFolder) -> None:
    load = {**servo("1 A"), "place": "root"}
    said = definition({"ail": load}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"}})
    _, empty = built(written_folder, said).bundles
    assert (empty.leads, empty.diameter_mm, empty.sleeve) == ((), 0, None)
