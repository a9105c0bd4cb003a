"""What authorities' circulars print, held against what the program makes of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from reference.conversions import FOOT_MM
from reference.wire_tables import DROP_EXAMPLES
from reference.workmanship import BEND_RADIUS_DIAMETERS, MARK_NONE_UNDER_IN, MARK_ONE_UP_TO_IN, RETERMINATIONS
from remedied import PARTS, Definition, built, definition, servo

from docgen.definition.defaults import Allowances
from docgen.paperwork.labels import content as wire_labels

WrittenFolder = Callable[[Mapping[str, str]], Path]
BARE = {"rating": "100 A", "brief": "100 A", "resistance": "0 mohm", "strip": "3 mm"}


@pytest.mark.parametrize(("ohm_per_ft", "way_ft", "amps", "drop_v"), DROP_EXAMPLES)
def test_a_lead_drops_what_the_circular_works_out(
    ohm_per_ft: float, way_ft: float, amps: float, drop_v: float, written_folder: WrittenFolder
) -> None:
    # One pole is half of the circular's way, contacts without resistance, no lead that came along.
    load = {"kind": "light", "place": "tray", "current": {"working": f"{amps} A"}}
    load["ports"] = {"plug": "bare", "names": ["L"], "contacts": "pins"}
    circuit = {"from": "unit B", "to": "lamp L", "lead": "worked"}
    circuit["lengths"] = {"A": f"{way_ft * FOOT_MM / 2:.3f} mm"}  # type: ignore[assignment]
    said = definition({"lamp": load}, {"lamp": circuit}, battery={"full": "30 V", "empty": "28 V"})
    said["harness"]["equipment"]["unit"]["ports"].append({"plug": "bare", "names": ["B"], "contacts": "pins"})
    wire = {
        "gauge": "10 AWG",
        "diameter": "4 mm",
        "resistance": f"{1000 * ohm_per_ft:.5f} ohm/1000ft",
        "current": "50 A",
    }
    plug = {
        "contacts": {"1": "negative", "2": "positive"},
        "equipment": "pins",
        "contact": BARE,
        "size": ["8 mm", "5 mm"],
    }
    said["parts"] = {
        **PARTS,
        "wires": {"worked": wire | {"limit": "105 °C"}},
        "leads": PARTS["leads"] | {"worked": {"wires": {"negative": "worked BK", "positive": "worked RD"}}},
        "plugs": {"bare": plug},
    }
    figures = built(written_folder, said).results.circuits["lamp"]
    assert figures.own_drop_v == pytest.approx(drop_v, abs=0.001)


def beside(length_mm: float, each: str = "wire") -> Definition:
    circuit = {"from": "unit 1", "to": "ail", "lead": "servo-22", "lengths": {"A": f"{length_mm} mm"}}
    said = definition({"ail": {**servo("1 A"), "place": "root"}}, {"ail": circuit})
    said["harness"]["labels"] = {"each": each}
    return said


@pytest.mark.parametrize(
    ("inches", "labels"),
    [
        (MARK_NONE_UNDER_IN - 0.1, 0),
        (MARK_NONE_UNDER_IN, 1),
        (MARK_ONE_UP_TO_IN, 1),
        (MARK_ONE_UP_TO_IN + 0.1, 2),
    ],
)
def test_short_wires_have_no_mark_or_one(inches: float, labels: int, written_folder: WrittenFolder) -> None:
    harness = built(written_folder, beside(inches * 25.4))
    of_lead = [label for label in wire_labels.content(harness).labels if label.key[:2] == ("ail", "A")]
    assert len(of_lead) == 3 * labels


def test_every_wire_can_be_terminated_anew_as_often_as_the_circular_says(written_folder: WrittenFolder) -> None:
    assert Allowances().reterminations == RETERMINATIONS
    # Between two contacts of one place: 2 × (2.5 + 2 × 10) = 45 mm, three wires of 1.6 mm at a lay of 25 mm × 1.02660 =
    # 46.2 → 50 mm.
    said = definition(
        {"ail": {**servo("1 A"), "place": "tray"}}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-22"}}
    )
    assert built(written_folder, said).circuits["ail"].cut_leads[0].cut_length_mm == 50


def test_what_flexes_bends_round_as_many_diameters_as_the_manual_says(written_folder: WrittenFolder) -> None:
    [bundle, _] = built(written_folder, beside(400)).bundles
    assert bundle.diameter_mm > 0
    assert bundle.flexed_mm / bundle.diameter_mm == pytest.approx(BEND_RADIUS_DIAMETERS)
