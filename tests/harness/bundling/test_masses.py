"""Mass and moment by hand, and that what is not known is named and not guessed."""

from __future__ import annotations

import pytest
from resolved import known
from typed_parts import contact, lead_of, place, sleeve, wire

from docgen.basics.findings import Position
from docgen.definition import equipment as equipment_forms
from docgen.definition import harness as forms
from docgen.harness.bundling.masses import weigh
from docgen.harness.model.airframe import Route, Run
from docgen.harness.model.bundles import AssemblyMass, Bundle, Sleeve
from docgen.harness.model.circuits import Circuit, CutLead, End, Lead, OwnLeads, Wire
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.joints import Behind, Common, Disconnect, Half, Tail
from docgen.harness.model.parts import Connector, WirePart

HERE = Position("harness.yaml", 1, 1)
NOTHING = ""
CONTACT = contact("3 A", "10 mohm")
PLUG = Connector("plug", ("1",), {}, {}, (1, 1), None, CONTACT, None, False, "")
PVC_22 = wire("pvc-22", "22 AWG", "1.6 mm", "0.053 ohm/m", mass="5.2 g/m", limit="80 C", current="3 A")
TWISTED = lead_of("signal pvc-22 WH", lay="25 mm")
BRAID = sleeve("braid", "braided sleeve", ["3 mm", "8 mm"], ["2 %", "30 %"], "125 C", mass="3 g/m")
PLACES = {
    "tray": place("fuselage", (400, 0, 0)),
    "root": place("fuselage", (600, 80, 0)),
    "post": place("fuselage", (1500, 0, 0)),
    "tip": place("panel"),
}
RUNS = [
    Run(("tray", "root"), 300, True, False, None, None, None, ""),
    Run(("root", "post"), 900, True, False, None, None, None, ""),
]


def end(place: str) -> End:
    return End("port", place, "", place, PLUG, "pins", {}, {}, None)


def lead(
    places: tuple[str, str], runs: tuple[int, ...], cut_mm: float | None, kind: WirePart = PVC_22, count: int = 3
) -> Lead:
    wires = tuple(Wire(str(number), kind, "BK", "") for number in range(count))
    route, ends, assembly = Route(places, runs, 0), (end(places[0]), end(places[1])), PLACES[places[0]].assembly
    common = "rudder", NOTHING, "A", wires, ends, route, (0, 0), assembly, HERE
    return OwnLeads(*common) if cut_mm is None else CutLead(*common, TWISTED, cut_mm, cut_mm, pinned=False)


def equipment(name: str, place: str, mass_g: float | None) -> Equipment:
    return Equipment(
        name=name,
        form=equipment_forms.Equipment.model_construct(mass=mass_g),
        kind="servo",
        place=place,
        ports=(),
        nameless=True,
        load=None,
        least_v=None,
        most_v=None,
        battery=None,
        antennas=(),
    )


def weighed(
    *leads: Lead,
    items: tuple[Equipment, ...] = (),
    bundles: tuple[Bundle, ...] = (),
    disconnects: dict[str, Disconnect] | None = None,
) -> dict[str, AssemblyMass]:
    circuits = [Circuit("rudder", forms.Circuit.model_construct(), NOTHING, leads, (), {}, HERE)] if leads else []
    named = {item.name: item for item in items}
    masses = weigh(PLACES, RUNS, circuits, disconnects or {}, named, bundles)
    return {mass.assembly: mass for mass in masses}


def test_assemblies_come_in_the_order_in_which_places_name_them() -> None:
    assert list(weighed()) == ["fuselage", "panel"]


def test_a_lead_weighs_what_its_wires_do_in_the_middle_of_its_way() -> None:
    # 3 wires × 1.335 m × 5.2 g/m = 20.826 g. Middles 500 and 1050 mm, by length (300 × 500 + 900 × 1050) / 1200
    # = 912.5 mm: 19 003.7 g mm.
    mass = weighed(lead(("tray", "post"), (0, 1), 1335))["fuselage"]
    assert mass.leads_g == pytest.approx(20.826)
    assert mass.moment_g_mm == pytest.approx(20.826 * 912.5)
    assert (mass.sleeves_g, mass.equipment_g, mass.unweighed, mass.unplaced) == (0, 0, (), ())


def test_a_lead_within_one_place_weighs_there() -> None:
    # 3 × 0.1 m × 5.2 g/m × 400 mm.
    mass = weighed(lead(("tray", "tray"), (), 100))["fuselage"]
    assert mass.moment_g_mm == pytest.approx(1.56 * 400)


def test_own_leads_belong_to_their_equipment() -> None:
    assert weighed(lead(("tray", "post"), (0, 1), None))["fuselage"].leads_g == 0


def test_equipment_weighs_at_its_place() -> None:
    mass = weighed(items=(equipment("pack", "tray", 180), equipment("servo", "post", 60)))["fuselage"]
    assert mass.equipment_g == 240
    assert mass.moment_g_mm == 180 * 400 + 60 * 1500


def test_a_sleeve_over_two_runs_weighs_once() -> None:
    sleeve = Sleeve(BRAID, (0, 1), ("tray", "post"), 3.45, 1200, 0.045, 1260, None, (0.0, 0.0))
    bundles = tuple(Bundle(run, ("rudder A",), 3.45, 34.5, 10.35, sleeve) for run in (0, 1))
    mass = weighed(bundles=bundles)["fuselage"]
    # 1.26 m × 3 g/m, in the middle of both runs as above.
    assert mass.sleeves_g == pytest.approx(3.78)
    assert mass.moment_g_mm == pytest.approx(3.78 * 912.5)


def test_tails_of_a_common_weigh_at_their_half() -> None:
    tails = tuple(Tail("positive", PVC_22, "RD", number) for number in ("3", "4"))
    sides = Half("fixed", "root", "sockets", True, 0, None), Half("loose", "tip", "pins", False, 120, None)
    halves = Behind(sides[0], (), tails, 70), Behind(sides[1], (), tails[:1], 70)
    common = Common("power", forms.Common.model_construct(), "positive", ("3", "4"), (), (), (), halves)
    joint = Disconnect("joint", forms.Disconnect.model_construct(), PLUG, sides, {}, {"power": common})
    masses = weighed(disconnects={"joint": joint})
    # 2 × 0.07 m × 5.2 g/m = 0.728 g at 600 mm; one on the panel, whose place has no coordinates.
    assert masses["fuselage"].leads_g == pytest.approx(0.728)
    assert masses["fuselage"].moment_g_mm == pytest.approx(0.728 * 600)
    assert masses["panel"].leads_g == pytest.approx(0.364)
    assert masses["panel"].unplaced == ("tails of joint power",)


def test_what_has_no_mass_is_named() -> None:
    nameless = PVC_22.model_copy(update={"mass_g_per_m": None})
    sleeve = Sleeve(
        BRAID.model_copy(update={"mass_g_per_m": None}), (0,), ("tray", "root"), 3.45, 300, 0.045, 315, None, (0.0, 0.0)
    )
    mass = weighed(
        lead(("tray", "post"), (0, 1), 1335, nameless),
        items=(equipment("pack", "tray", None),),
        bundles=(Bundle(0, ("rudder A",), 3.45, 34.5, 10.35, sleeve),),
    )["fuselage"]
    assert mass.unweighed == ("rudder A", "braid", "pack")
    assert (mass.leads_g, mass.sleeves_g, mass.equipment_g, mass.moment_g_mm) == (0, 0, 0, 0)


def test_what_has_mass_but_no_coordinates_counts_and_is_named() -> None:
    mass = weighed(items=(equipment("lamp", "tip", 25),))["panel"]
    assert (mass.equipment_g, mass.moment_g_mm, mass.unplaced) == (25, 0, ("lamp",))


def test_twice_the_length_weighs_twice_as_much() -> None:
    once, twice = (weighed(lead(("tray", "root"), (0,), cut))["fuselage"] for cut in (400, 800))
    assert twice.leads_g == pytest.approx(2 * known(once.leads_g))
    assert twice.moment_g_mm == pytest.approx(2 * known(once.moment_g_mm))
