"""Sleeves by hand: which one, how much it shortens, what one piece covers, and how it is cut."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference.workmanship import BEND_EXAMPLES_IN
from typed_parts import contact, lead_of, place, sleeve, wire

from docgen.basics.findings import Position
from docgen.definition import equipment as equipment_forms
from docgen.definition import harness as forms
from docgen.definition.parts import LeadPart
from docgen.harness.bundling.bundles import BundleRules, build_bundles
from docgen.harness.bundling.sleeves import (
    Span,
    bare_ends_mm,
    choose_sleeve,
    cut_sleeve,
    shortening_at,
    unbroken_spans,
)
from docgen.harness.model.airframe import Place, Route, Run
from docgen.harness.model.bundles import Bundle
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead, OwnLead, Wire
from docgen.harness.model.equipment import Antenna, Equipment
from docgen.harness.model.parts import Connector, SleevePart

HERE = Position("harness.yaml", 1, 1)
NOTHING = ""
BRAID_4 = sleeve("braid-4", "braided sleeve", ["3 mm", "8 mm"], ["2 %", "30 %"], "125 C")
BRAID_8 = sleeve("braid-8", "braided sleeve", ["6 mm", "14 mm"], ["2 %", "30 %"], "125 C")
HEAT_9 = sleeve("heat-9", "heat sleeve", ["2 mm", "9 mm"], ["0 %", "0 %"], "260 C")
KINDS = (BRAID_4, BRAID_8, HEAT_9)
RULES = BundleRules(hot_c=80, behind_plug_mm=25, round_up_to_mm=5)
PVC_22 = wire("pvc-22", "22 AWG", "1.6 mm", "0.053 ohm/m", mass="5.2 g/m", limit="80 C", current="3 A")
LEAD_26 = wire("lead-26", "26 AWG", "1 mm", "0.131 ohm/m", mass="2.2 g/m", limit="80 C", current="2 A")
PLUG = Connector("plug", ("1",), {}, {}, (1, 1), None, contact("3 A", "10 mohm"), None, False, "")
WIRES = ("negative pvc-22 BK", "positive pvc-22 BK", "signal pvc-22 BK")
TWISTED = lead_of(*WIRES, lay="25 mm")
# Three wires of 1.6 mm laid up: (1 + 2/√3) × 1.6 mm.
SERVO_22_MM = 3.4475


def covered_mm(length_mm: float, labels_mm: tuple[float, float]) -> float:
    return length_mm - sum(bare_ends_mm(length_mm, labels_mm))


def cable_of(diameter_mm: float) -> LeadPart:
    return lead_of(*WIRES, diameter=f"{diameter_mm} mm")


def run(between: str, length_mm: float, *, sharp: bool = True, heat_c: float | None = None) -> Run:
    first, last = between.split()
    return Run((first, last), length_mm, True, sharp, None, heat_c, None, "")


def places(names: str) -> dict[str, Place]:
    return {name: place("fuselage") for name in names.split()}


def end(place: str, kind: str = "port", own: OwnLead | None = None) -> End:
    assert kind in ("port", "splice")
    return End("port" if kind == "port" else "splice", place, "", place, PLUG, "pins", {}, {}, own)


def servo_lead(
    name: str,
    ends: tuple[End, End],
    runs: tuple[int, ...],
    free_mm: tuple[float, float] = (1000, 1000),
) -> CutLead:
    """Return a twisted lead of three 22 gauge wires; as a rule its labels lie free of its route."""
    wires = tuple(Wire(role, PVC_22, "BK", "") for role in ("negative", "positive", "signal"))
    route = Route((ends[0].place, ends[1].place), runs, 0)
    return CutLead(name, NOTHING, "A", wires, ends, route, free_mm, "fuselage", HERE, TWISTED, 1000, 1000, pinned=False)


def circuit(*leads: Lead) -> Circuit:
    return Circuit(leads[0].circuit, forms.Circuit.model_construct(), NOTHING, leads, (), {}, HERE)


def bundles(
    runs: list[Run], *leads: Lead, kinds: tuple[SleevePart, ...] = KINDS, receiver: Equipment | None = None
) -> tuple[Bundle, ...]:
    known = places(" ".join(place for run in runs for place in run.between))
    circuits = [circuit(lead) for lead in leads]
    equipment = {receiver.name: receiver} if receiver else {}
    return build_bundles(known, runs, circuits, equipment, kinds, RULES)


def test_the_shortening_lies_between_the_two_that_the_part_says() -> None:
    # 2 % + 28 % × (3.45 − 3) / (8 − 3) = 4.52 %.
    assert shortening_at(BRAID_4, 3.45) == pytest.approx(0.0452)
    assert shortening_at(BRAID_4, 3) == pytest.approx(0.02)
    assert shortening_at(BRAID_4, 8) == pytest.approx(0.30)


def test_what_fits_one_diameter_alone_is_cut_for_the_more_of_its_two() -> None:
    for shortening in (["2 %", "30 %"], ["30 %", "2 %"]):
        assert shortening_at(sleeve("one", "braided sleeve", ["5 mm", "5 mm"], shortening, "125 C"), 5) == 0.30


def test_the_sleeve_with_the_least_upper_end_is_chosen() -> None:
    assert choose_sleeve(6.5, None, KINDS) == BRAID_4
    assert choose_sleeve(8.5, None, KINDS) == HEAT_9
    assert choose_sleeve(9.5, None, KINDS) == BRAID_8


@pytest.mark.parametrize("diameter", [3, 8])
def test_a_bundle_at_either_end_of_a_range_still_fits(diameter: float) -> None:
    assert choose_sleeve(diameter, None, [BRAID_4]) == BRAID_4


def test_of_equal_sleeves_the_first_in_the_list_is_chosen() -> None:
    twin = BRAID_4.model_copy().named("twin")
    assert choose_sleeve(4, None, [twin, BRAID_4]) == twin


def test_a_sleeve_must_stand_the_heat() -> None:
    assert choose_sleeve(4, 125, KINDS) == BRAID_4
    assert choose_sleeve(4, 126, KINDS) == HEAT_9
    assert choose_sleeve(4, 261, KINDS) is None


def test_a_sleeve_ends_short_of_the_labels_at_both_ends() -> None:
    assert covered_mm(400, (85, 5)) == 310
    assert covered_mm(400, (0, 0)) == 400


def test_a_label_takes_at_most_a_quarter_of_a_stretch_at_each_end() -> None:
    # A quarter of 340 mm is 85 mm; of 235 mm 58.75 mm: 235 − 58.75 − 5 = 171.25 mm; of 100 mm 25 mm.
    assert covered_mm(340, (85, 85)) == 170
    assert covered_mm(235, (85, 5)) == 171.25
    assert covered_mm(100, (85, 0)) == 75
    assert bare_ends_mm(235, (85, 5)) == (58.75, 5)


@given(st.floats(1, 10_000), st.floats(0, 1000), st.floats(0, 1000))
def test_at_least_half_of_a_stretch_is_covered_whatever_its_labels(length: float, first: float, last: float) -> None:
    assert length / 2 - 1e-9 <= covered_mm(length, (first, last)) <= length


@pytest.mark.parametrize(
    ("covered", "cut"),
    # 235 / (1 − 0.0452) = 246.1; 740 / (1 − 0.0452) = 775.03, so the next step.
    [(235, 250), (740, 780)],
)
def test_a_sleeve_is_cut_longer_by_what_it_shortens(covered: float, cut: float) -> None:
    assert cut_sleeve(BRAID_4, Span((0,), ("a", "b")), 3.45, covered, 5, None, (0.0, 0.0)).cut_length_mm == cut


@pytest.mark.parametrize(("between", "order"), [(("b c", "a b", "d c"), (1, 0, 2)), (("a b", "c d", "b c"), (0, 2, 1))])
def test_runs_with_the_same_contents_are_one_stretch_however_they_are_written(
    between: tuple[str, ...], order: tuple[int, ...]
) -> None:
    runs = [run(pair, 1) for pair in between]
    assert unbroken_spans(runs, dict.fromkeys(range(3), "x")) == [Span(order, ("a", "d"))]


def test_a_stretch_breaks_where_contents_change_or_a_run_is_missing() -> None:
    runs = [run("a b", 1), run("b c", 1), run("c d", 1), run("d e", 1)]
    spans = unbroken_spans(runs, {0: "x", 1: "y", 3: "y"})
    assert [span.runs for span in spans] == [(0,), (1,), (3,)]


def test_a_stretch_breaks_where_three_runs_meet() -> None:
    runs = [run("a m", 1), run("b m", 1), run("c m", 1)]
    assert len(unbroken_spans(runs, dict.fromkeys(range(3), "x"))) == 3


def test_a_ring_of_runs_is_one_stretch() -> None:
    runs = [run("a b", 1), run("b c", 1), run("c a", 1)]
    spans = unbroken_spans(runs, dict.fromkeys(range(3), "x"))
    assert [sorted(span.runs) for span in spans] == [[0, 1, 2]]


def test_a_twisted_lead_on_a_sharp_run_is_sleeved() -> None:
    lead = servo_lead("rudder", (end("a"), end("b")), (0,), free_mm=(0, 80))
    (bundle,) = bundles([run("a b", 1140)], lead)
    assert bundle.leads == ("rudder A",)
    assert bundle.diameter_mm == pytest.approx(SERVO_22_MM, abs=1e-4)
    assert bundle.sleeve is not None
    assert bundle.sleeve.kind == BRAID_4
    # Behind either plug 25 mm and a label's tube of 47 mm; 80 mm lie coiled at the one end: 1140 − 72 mm.
    assert bundle.sleeve.covered_mm == pytest.approx(1068)
    # 1068 / (1 − 0.04506) = 1118.4.
    assert bundle.sleeve.cut_length_mm == 1120


def test_no_label_stands_at_a_splice() -> None:
    lead = servo_lead("light", (end("a"), end("b", "splice")), (0,), free_mm=(1000, 0))
    (bundle,) = bundles([run("a b", 300)], lead)
    assert bundle.sleeve is not None
    assert bundle.sleeve.covered_mm == 300


def test_half_of_a_run_that_labels_would_fill_is_sleeved() -> None:
    (bundle,) = bundles([run("a b", 160)], servo_lead("short", (end("a"), end("b")), (0,), free_mm=(0, 0)))
    assert bundle.sleeve is not None
    # Labels of 85 mm at both ends take a quarter each: 160 − 2 × 40 = 80 mm; 80 / (1 − 0.04506) = 83.8.
    assert (bundle.sleeve.covered_mm, bundle.sleeve.cut_length_mm) == (80, 85)


def test_one_piece_covers_runs_with_the_same_leads_and_stands_the_hottest() -> None:
    runs = [run("a b", 200), run("b c", 300, sharp=False, heat_c=150)]
    first, second = bundles(runs, servo_lead("fan", (end("a"), end("c")), (0, 1)))
    assert first.sleeve is second.sleeve
    assert first.sleeve is not None
    assert (first.sleeve.kind, first.sleeve.runs, first.sleeve.cut_length_mm) == (HEAT_9, (0, 1), 500)


def test_where_no_sleeve_stands_the_hottest_run_the_others_keep_theirs() -> None:
    runs = [run("a b", 200), run("b c", 300, sharp=False, heat_c=150)]
    lead = servo_lead("fan", (end("a"), end("c")), (0, 1))
    first, second = bundles(runs, lead, kinds=(BRAID_4,))
    assert first.sleeve is not None
    assert first.sleeve.runs == (0,)
    assert second.sleeve is None


@pytest.mark.parametrize(
    "harmless",
    [
        run("a b", 300, sharp=False),
        run("a b", 300, sharp=False, heat_c=80),
        replace(run("a b", 300), dressed="grommet"),
    ],
    ids=["smooth", "no hotter than the limit", "dressed"],
)
def test_a_run_that_does_no_harm_needs_no_sleeve(harmless: Run) -> None:
    (bundle,) = bundles([harmless], servo_lead("rudder", (end("a"), end("b")), (0,)))
    assert bundle.sleeve is None


def test_an_empty_run_needs_no_sleeve() -> None:
    (bundle,) = bundles([run("a b", 300)])
    assert (bundle.leads, bundle.diameter_mm, bundle.sleeve) == ((), 0, None)


def test_an_own_lead_lies_on_its_way_to_its_plug() -> None:
    own = OwnLead(300, LEAD_26, True, {}, Route(("b", "c"), (1,), 200))
    servo = replace(end("b", own=own), name="servo")
    smooth = [run("a b", 300, sharp=False), run("b c", 200, sharp=False)]
    first, second = bundles(smooth, servo_lead("aileron", (end("a"), servo), (0,)))
    assert first.leads == ("aileron A",)
    assert second.leads == ("servo's own lead",)
    # Three wires of 1 mm: 1 + 2/√3.
    assert second.diameter_mm == pytest.approx(1 + 2 / math.sqrt(3))


@pytest.mark.parametrize(
    ("made", "outside_mm"),
    [
        ({"diameter": "4 mm", "bought": "cable", "lay": "25 mm"}, 4.0),
        ({"bought": "flat"}, 4.8),
        ({"bought": "twisted"}, SERVO_22_MM),
    ],
    ids=["jacket", "ribbon: 3 × 1.6", "twisted"],
)
def test_a_lead_that_is_one_piece_is_one_circle(made: dict[str, str], outside_mm: float) -> None:
    lead = servo_lead("rudder", (end("a"), end("b")), (0,))
    (bundle,) = bundles([run("a b", 300)], replace(lead, part=lead_of(*WIRES, **made)))
    assert bundle.diameter_mm == pytest.approx(outside_mm, abs=1e-4)


def test_loose_wires_of_two_leads_lie_together() -> None:
    leads = [replace(servo_lead(name, (end("a"), end("b")), (0,)), part=lead_of(*WIRES)) for name in ("one", "two")]
    (bundle,) = bundles([run("a b", 300)], *leads)
    # Six equal circles lie in one of three diameters.
    assert bundle.diameter_mm == pytest.approx(3 * 1.6)


@pytest.mark.parametrize(("bundle_in", "radius_in"), BEND_EXAMPLES_IN)
def test_the_least_bend_radius_is_that_of_the_worked_examples(bundle_in: float, radius_in: float) -> None:
    cable = replace(servo_lead("cable", (end("a"), end("b")), (0,)), part=cable_of(bundle_in * 25.4))
    (bundle,) = bundles([run("a b", 300)], cable)
    assert bundle.flexed_mm == pytest.approx(radius_in * 25.4)
    # Supported: 3 diameters (a text at second hand).
    assert bundle.supported_mm == pytest.approx(3 * bundle_in * 25.4)


def receiver_with_coax(*diameters_mm: float) -> Equipment:
    """Return a receiver whose antennas all lie in the first run."""
    way = Route(("a", "b"), (0,), 300)
    names = list("ABC")
    forms_of = [equipment_forms.Antenna.model_construct(diameter_mm=mm) for mm in diameters_mm]
    antennas = [Antenna(name, form, way) for name, form in zip(names, forms_of, strict=False)]
    return Equipment(
        name="receiver",
        form=equipment_forms.Equipment.model_construct(),
        kind="receiver",
        place="a",
        ports=(),
        nameless=False,
        load=None,
        least_v=None,
        most_v=None,
        battery=None,
        antennas=tuple(antennas),
    )


def test_a_coax_alone_is_bent_round_six_diameters_flexed_or_held() -> None:
    # From memory: 6 × 3 mm = 18 mm.
    (bundle,) = bundles([run("a b", 300)], receiver=receiver_with_coax(3))
    assert bundle.leads == ("receiver antenna A",)
    assert (bundle.flexed_mm, bundle.supported_mm) == (18, 18)


def test_the_thickest_of_several_coaxes_alone_decides_their_bend() -> None:
    # 6 × 1 mm, though 3 diameters of the three together, (1 + 2/√3) × 1 mm, would be 6.46 mm.
    (bundle,) = bundles([run("a b", 300)], receiver=receiver_with_coax(1, 1, 1))
    assert (bundle.flexed_mm, bundle.supported_mm) == (6, 6)


@pytest.mark.parametrize(
    ("coax_mm", "cable_mm", "flexed_mm", "supported_mm"),
    # Two circles side by side. 3 + 2 = 5 mm: 10 × 5, and 6 × 3 = 18 over 3 × 5 mm; 1 + 4 = 5 mm: 3 × 5 over 6 × 1 mm.
    [(3, 2, 50, 18), (1, 4, 50, 15)],
)
def test_with_wires_beside_a_coax_the_wider_bend_counts(
    coax_mm: float, cable_mm: float, flexed_mm: float, supported_mm: float
) -> None:
    cable = replace(servo_lead("cable", (end("a"), end("b")), (0,)), part=cable_of(cable_mm))
    (bundle,) = bundles([run("a b", 300)], cable, receiver=receiver_with_coax(coax_mm))
    assert (bundle.flexed_mm, bundle.supported_mm) == pytest.approx((flexed_mm, supported_mm))
