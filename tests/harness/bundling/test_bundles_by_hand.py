"""What lies in runs, by hand: sleeves and their heat, bends, tubes, masses, and the order in which it is made."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import PARTS, Definition, built, definition, findings_in, heavy, keys, servo, shared, through_wing
from resolved import known

from docgen.harness.assembly.work import plan_work
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.model.bundles import Bundle, Sleeve
from docgen.harness.model.harness import Harness

WrittenFolder = Callable[[Mapping[str, str]], Path]


def along_the_fuselage(**places: Definition) -> Definition:
    """Return a servo at the root, 300 mm from the tray, in a sharp run; what its places say more."""
    said = definition(
        {"ail": {**servo("1 A"), "place": "root"}}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-fluoro-22"}}
    )
    said["aircraft"]["runs"][0]["edges"] = "sharp"
    for name, more in places.items():
        said["aircraft"]["places"][name] |= more
    return said


def in_run(write: WrittenFolder, said: Definition) -> Bundle:
    return built(write, said).bundles[0]


def sleeve_of(write: WrittenFolder, said: Definition) -> Sleeve:
    sleeve = in_run(write, said).sleeve
    assert sleeve is not None
    return sleeve


# Three wires of 1.3 mm laid up are (1 + 2/√3) × 1.3 = 2.80 mm thick: of the braids that fit, the one to 3.4 mm; they
# stand 125 °C.
@pytest.mark.parametrize(
    ("place", "heat_c", "kind"),
    [
        ("root", 120, "braided sleeve"),
        ("root", 125, "braided sleeve"),
        ("root", 130, "heat sleeve"),
        ("tray", 130, "heat sleeve"),
    ],
)
def test_a_sleeve_stands_the_heat_of_the_places_at_its_ends(
    place: str, heat_c: int, kind: str, written_folder: WrittenFolder
) -> None:
    sleeve = sleeve_of(written_folder, along_the_fuselage(**{place: {"heat": f"{heat_c} °C"}}))
    assert sleeve.kind.kind == kind
    assert sleeve.kind.limit_c >= heat_c


def test_the_sleeve_that_a_run_names_goes_on_it_even_where_none_is_needed(written_folder: WrittenFolder) -> None:
    said = along_the_fuselage()
    run = said["aircraft"]["runs"][0]
    # Spiral wrap of 1.6 to 10 mm does not shorten: as long as what it covers, up to 5 mm.
    run["sleeve"] = "wrap-3"
    chosen = sleeve_of(written_folder, said)
    assert (chosen.kind.name, chosen.shortening) == ("wrap-3", 0)
    del run["edges"]
    assert sleeve_of(written_folder, said) == chosen
    del run["sleeve"]
    assert in_run(written_folder, said).sleeve is None


def test_a_run_goes_without_a_sleeve_where_the_builder_says_why(written_folder: WrittenFolder) -> None:
    said = along_the_fuselage()
    said["aircraft"]["runs"][0] |= {"sleeve": "none", "note": "the edge is padded"}
    assert in_run(written_folder, said).sleeve is None


def test_a_sleeve_over_two_runs_stands_the_hotter(written_folder: WrittenFolder) -> None:
    said = along_the_fuselage()
    said["aircraft"]["places"]["mid"] = {"assembly": "fuselage"}
    said["aircraft"]["runs"][:1] = [
        {"between": ["tray", "mid"], "length": "150 mm", "edges": "sharp", "heat": "100 °C"},
        {"between": ["mid", "root"], "length": "150 mm", "edges": "sharp", "heat": "140 °C"},
    ]
    sleeve = sleeve_of(written_folder, said)
    assert (sleeve.runs, sleeve.kind.kind) == ((0, 1), "heat sleeve")


# A label stands 25 mm behind its plug, its tube 47 mm long: it reaches 72 mm into the run, less what lies free before
# it, but a quarter of the 300 mm at most.
@pytest.mark.parametrize(
    ("loops", "covered_mm"),
    [({}, 156), ({"loop": "60 mm"}, 216), ({"loop_from": "60 mm"}, 216), ({"loop": "72 mm"}, 228)],
)
def test_a_sleeve_ends_short_of_the_labels_that_reach_into_it(
    loops: dict[str, str], covered_mm: float, written_folder: WrittenFolder
) -> None:
    said = along_the_fuselage()
    said["harness"]["circuits"]["ail"] |= loops
    assert sleeve_of(written_folder, said).covered_mm == pytest.approx(covered_mm)


def test_labels_may_stand_elsewhere_behind_their_plugs(written_folder: WrittenFolder) -> None:
    # 5 + 47 = 52 mm at each end.
    said = along_the_fuselage()
    said["harness"]["labels"] = {"behind_plug": "5 mm"}
    assert sleeve_of(written_folder, said).covered_mm == pytest.approx(300 - 2 * 52)


# The servo's own lead runs from the root to the unit, where its plug and label are: 300 − 72 mm; with 60 mm coiled
# there the label reaches 12 mm into the run.
@pytest.mark.parametrize(("loops", "covered_mm"), [({}, 228), ({"loop_from": "60 mm"}, 288), ({"loop": "60 mm"}, 228)])
def test_of_a_lead_that_plugs_straight_in_the_label_stands_at_the_far_plug(
    loops: dict[str, str], covered_mm: float, written_folder: WrittenFolder
) -> None:
    said = along_the_fuselage()
    said["harness"]["equipment"]["ail"]["lead"] = "400 mm"
    said["harness"]["circuits"]["ail"] = {"from": "unit 1", "to": "ail", **loops}
    assert sleeve_of(written_folder, said).covered_mm == pytest.approx(covered_mm)


@pytest.mark.parametrize(("heat", "found"), [("80 °C", False), ("81 °C", True)])
def test_what_is_hotter_than_the_limit_wants_a_sleeve(heat: str, found: bool, written_folder: WrittenFolder) -> None:
    said = along_the_fuselage()
    said["aircraft"]["runs"][0] = {"between": ["tray", "root"], "length": "300 mm", "heat": heat}
    assert (in_run(written_folder, said).sleeve is not None) == found


# Bends: 10 × the outside diameter where it flexes (US Army TM 1-1500-204-23-4 item 27), 3 × held, 6 × for coax (from
# memory).
def with_antenna(*, alone: bool, diameter: str = "1.2 mm") -> Definition:
    said = along_the_fuselage()
    aerial = {"place": "root", "lies": "upright", "lead": "400 mm", "diameter": diameter}
    ports = {"plug": "servo-3", "names": ["B"], "contacts": "pins"}
    said["harness"]["equipment"]["rx"] = {
        "kind": "receiver",
        "place": "tray",
        "ports": ports,
        "antennas": {"A": aerial},
    }
    if alone:
        del said["harness"]["circuits"]["ail"], said["harness"]["equipment"]["ail"]
    return said


def test_a_lead_bends_round_ten_times_its_diameter_where_it_flexes(written_folder: WrittenFolder) -> None:
    bundle = in_run(written_folder, along_the_fuselage())
    assert (bundle.flexed_mm, bundle.supported_mm) == pytest.approx((10 * 2.801, 3 * 2.801), rel=1e-3)


def test_a_coax_alone_bends_round_six_times_its_own(written_folder: WrittenFolder) -> None:
    bundle = in_run(written_folder, with_antenna(alone=True))
    assert (bundle.flexed_mm, bundle.supported_mm) == pytest.approx((7.2, 7.2))


def test_a_thick_coax_beside_a_lead_decides_how_it_is_held(written_folder: WrittenFolder) -> None:
    # 2.80 mm and 3.0 mm side by side are 5.80 mm: held 17.4 mm, of which the coax wants 18 mm; flexed 58.0 mm.
    bundle = in_run(written_folder, with_antenna(alone=False, diameter="3 mm"))
    assert (bundle.flexed_mm, bundle.supported_mm) == pytest.approx((58.01, 18), rel=1e-3)


def test_the_own_lead_lies_where_it_came_from(written_folder: WrittenFolder) -> None:
    # From the tip to its plug at the panel, not in the fuselage.
    said = definition(
        {"ail": {**servo("1 A", lead_mm=800), "plug_at": "panel"}}, {"ail": through_wing("unit 1", "ail", "servo-22")}
    )
    bundles = built(written_folder, said).bundles
    assert [bundle.leads for bundle in bundles] == [("ail A",), ("ail's own lead",)]


# Tubes of the built-in list stand 135 °C.
@pytest.mark.parametrize(("expanded", "found"), [("6.4 mm", False), ("40 mm", True)])
def test_a_label_in_heat_is_of_a_tube_that_stands_it_if_one_fits(
    expanded: str, found: bool, written_folder: WrittenFolder
) -> None:
    said = along_the_fuselage(root={"heat": "140 °C"})
    recovered = "2 mm" if expanded == "6.4 mm" else "30 mm"
    hot = {"expanded": expanded, "recovered": recovered, "wall": "0.6 mm", "clear": "yes", "limit": "200 °C"}
    said["parts"] = {**PARTS, "tubes": {"hot": hot}}
    findings = [f for f in findings_in(written_folder, said) if f.name == "heat" and "labels" in f.sentence]
    assert bool(findings) == found


# Masses.


def weighed(**aft: int) -> Definition:
    said = along_the_fuselage()
    for name, along in aft.items():
        said["aircraft"]["places"][name]["at"] = {"aft": f"{along} mm"}
    said["harness"]["equipment"]["ail"]["mass"] = "50 g"
    return said


def test_what_lies_before_the_datum_has_a_moment_the_other_way(written_folder: WrittenFolder) -> None:
    # 50 g at −200 mm; the tray is at the datum, the servo's lead and its sleeve half way, at −100 mm. The pack's
    # lead lies at the datum: 2 × 50 mm of 15.5 g/m.
    fuselage = built(written_folder, weighed(tray=0, root=-200)).balance[0]
    along_g = known(fuselage.leads_g) + known(fuselage.sleeves_g) - 2 * 0.050 * 15.5
    assert along_g > 0
    assert fuselage.moment_g_mm == pytest.approx(50 * -200 + along_g * -100)


def test_a_sleeve_weighs_what_is_cut_of_it(written_folder: WrittenFolder) -> None:
    # 156 mm covered; at 2.80 mm the braid from 1.2 to 3.4 mm, of 1.5 g/m, shortens by 2 + 28 × 1.601 / 2.2 = 22.4 %:
    # 156 / 0.776 = 201.0 → 205 mm.
    harness = built(written_folder, along_the_fuselage())
    sleeve = harness.bundles[0].sleeve
    assert sleeve is not None
    assert sleeve.cut_length_mm == 205
    assert harness.balance[0].sleeves_g == pytest.approx(0.205 * 1.5)


def test_tails_weigh_where_their_half_is(written_folder: WrittenFolder) -> None:
    # Two poles with two tails of 75 mm each behind each half: 18 AWG of 11 g/m before, 22 AWG of 5.2 g/m behind.
    leads = {"A": "lone-24", "B": "servo-22"}
    said = definition(
        {"ail": servo("1 A")}, heavy("power-18") | {"ail": through_wing("unit 1", "ail", leads)}, shared("ail")
    )
    said["aircraft"]["places"]["root"]["at"] = {"aft": "500 mm"}
    said["aircraft"]["places"]["panel"]["at"] = {"aft": "700 mm"}
    harness = built(written_folder, said)
    masses = {mass.assembly: known(mass.leads_g) for mass in harness.balance}
    of_leads = dict.fromkeys(masses, 0.0)
    for lead in harness.cut_leads():
        grams = sum(wire.kind.mass_g_per_m or 0.0 for wire in lead.wires) * known(lead.cut_length_mm) / 1000
        of_leads[lead.assembly] += grams
    assert {name: masses[name] - of_leads[name] for name in masses} == pytest.approx(
        {"fuselage": 4 * 0.075 * 11, "wing": 4 * 0.075 * 5.2}
    )
    # Of all the rest no place is known.
    assert {mass.assembly: mass.moment_g_mm for mass in harness.balance} == pytest.approx(
        {"fuselage": 4 * 0.075 * 11 * 500, "wing": 4 * 0.075 * 5.2 * 700}
    )


# Order of work.


def two_sleeves(near: str, far: str) -> Definition:
    """Return leads from the tray over two runs, of which one ends between them: each has a sleeve of its own."""
    said = along_the_fuselage()
    said["aircraft"]["places"]["mid"] = {"assembly": "fuselage", "access": "hatch"}
    said["aircraft"]["runs"][:1] = [
        {"between": ["tray", "mid"], "length": "300 mm", "edges": "sharp"},
        {"between": ["mid", "root"], "length": "300 mm", "edges": "sharp"},
    ]
    equipment, circuits = said["harness"]["equipment"], said["harness"]["circuits"]
    equipment["flap"] = {**equipment["ail"], "place": "mid"}
    circuits["flap"] = {**circuits["ail"], "from": "unit 2", "to": "flap"}
    # Of 2.80 mm, and twice that; each is narrower at its upper end than any of the list that fits, so it is chosen.
    fits = {"a-near": (near, ["3.5 mm", "6.1 mm"]), "a-far": (far, ["2 mm", "2.9 mm"])}
    sleeves = {
        name: {"kind": kind, "fits": range_of, "shortening": ["0 %", "0 %"], "limit": "90 °C"}
        | ({"splits": "yes"} if kind == "spiral wrap" else {})
        for name, (kind, range_of) in fits.items()
    }
    said["parts"] = {**PARTS, "sleeves": sleeves}
    return said


def order(harness: Harness) -> list[tuple[str, str]]:
    [fuselage] = [plan for plan in plan_work(harness) if plan.assembly == "fuselage"]
    return [(work.sleeve.kind.name, work.start) for work in fuselage.sleeves]


@pytest.mark.parametrize(
    ("near", "far", "wanted"),
    [
        ("braided sleeve", "braided sleeve", [("a-near", "mid"), ("a-far", "root")]),
        ("spiral wrap", "braided sleeve", [("a-far", "root"), ("a-near", "mid")]),
        ("braided sleeve", "spiral wrap", [("a-near", "mid"), ("a-far", "root")]),
    ],
)
def test_sleeves_slide_on_the_nearest_first_and_what_opens_goes_around_last(
    near: str, far: str, wanted: list[tuple[str, str]], written_folder: WrittenFolder
) -> None:
    assert order(built(written_folder, two_sleeves(near, far))) == wanted


def test_an_end_is_crimped_first_that_no_sleeve_slides_over(written_folder: WrittenFolder) -> None:
    # Sleeves come from the servos' ends, so the ends at the unit are crimped first.
    harness = built(written_folder, two_sleeves("braided sleeve", "braided sleeve"))
    [fuselage] = [plan for plan in plan_work(harness) if plan.assembly == "fuselage"]
    first = {work.lead.circuit: work.first.end.name for work in fuselage.leads}
    assert {name: first[name] for name in ("ail", "flap")} == {"ail": "unit", "flap": "unit"}


def test_cautions_of_a_hinge_stand_on_where_it_flexes(written_folder: WrittenFolder) -> None:
    # 28.01 mm are wanted.
    for hinge, found in (("28.1 mm", False), ("27.9 mm", True)):
        said = along_the_fuselage()
        said["aircraft"]["runs"][0]["hinge"] = hinge
        assert (("bend", ("runs", "0")) in keys(findings_in(written_folder, said))) == found


# Three wires of 1.6 mm. Laid up a tube passes (1 + 2/√3) × 1.6 = 3.45 mm, and a band around them is (1 + 3/π) × 1.6 =
# 3.13 mm; side by side it is 1.6 + 2 × 2 × 1.6 / π = 3.64 mm; a jacket is as thick as it is said to be.
@pytest.mark.parametrize(
    ("made", "passes_mm", "grips_mm"),
    [
        ({"lay": "25 mm"}, 3.448, 3.128),
        ({"bought": "flat"}, 3.637, 3.637),
        ({"bought": "cable", "diameter": "5 mm"}, 5, 5),
    ],
)
def test_a_tube_passes_and_grips_a_lead_as_it_is_made(
    made: dict[str, str], passes_mm: float, grips_mm: float, written_folder: WrittenFolder
) -> None:
    said = along_the_fuselage()
    wires = {"negative": "pvc-22 BK", "positive": "pvc-22 RD", "signal": "pvc-22 WH"}
    said["parts"] = {**PARTS, "leads": PARTS["leads"] | {"made": {"wires": wires, **made}}}
    said["harness"]["circuits"]["ail"]["lead"] = "made"
    [lead] = built(written_folder, said).circuits["ail"].leads
    assert lead_thickness_mm(lead) == pytest.approx((passes_mm, grips_mm), abs=0.001)
