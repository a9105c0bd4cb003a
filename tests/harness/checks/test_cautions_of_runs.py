"""Runs, places and own leads: each caution where it was typed, and a nearly equal definition without it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

EQUIPMENT, CIRCUITS = "equipment:\n", "circuits:\n"
TAIL_POST = "  tail-post:         {assembly: fuselage,     at: {aft: 1540 mm, up: 40 mm}, access: tail hatch}\n"
TRAY = "  radio-tray:        {"
PACK_RUN = "[battery-bay, radio-tray], length: 260 mm}"
TAIL_RUN = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
PANEL_RUN = "  - {between: [<side>-panel-root, <side>-aileron], length: 745 mm, edges: sharp}\n"
RUDDER_OWN = "    place: tail-post\n    lead: 300 mm\n"
RUDDER_ENDS = "    from: receiver 4\n    to: rudder\n    lead: servo-22\n"
AILERON_OWN = "    lead: 250 mm                         # the lead"
AILERON_END = "    to: <side>-aileron\n"
PACK_OWN = "    place: battery-bay\n    lead: 120 mm\n"
SUPPLY = "    from: pack\n    to: receiver BATT\n    lead: power-20\n"
ANTENNA_B = "B: {place: radio-tray, lies: crosswise, lead: 150 mm}"
PORTS = "      - {plug: servo-3, names: 1..4, contacts: pins}\n"


def changed(
    *harness: tuple[str, str], aircraft: Sequence[tuple[str, str]] = (), parts: str = ""
) -> dict[str, str | Replacements | None]:
    files: dict[str, str | Replacements | None] = {"harness.yaml": list(harness), "aircraft.yaml": list(aircraft)}
    if parts:
        files["parts.yaml"] = parts
    return files


def tail_hatch(run: str, more: str = "") -> Sequence[tuple[str, str]]:
    """Return a hatch before the tail, where the rudder's plug may lie."""
    runs = (
        "  - {between: [radio-tray, tail-hatch], length: 839 mm, edges: sharp}\n"
        f"  - {{between: [tail-hatch, tail-post], length: {run}{more}}}\n"
    )
    return (TAIL_POST, TAIL_POST + "  tail-hatch: {assembly: fuselage, access: hatch}\n"), (TAIL_RUN, runs)


AT_THE_HATCH = (RUDDER_OWN, RUDDER_OWN + "    plug_at: tail-hatch\n")


def rudder_plug(run: str, mark: str = "") -> Changes:
    ends = (RUDDER_ENDS, RUDDER_ENDS.replace("to: rudder", f"to: {mark}rudder"))
    return changed(AT_THE_HATCH, ends, aircraft=tail_hatch(run))


def pack_plug(lead: str, mark: str = "") -> Changes:
    own = PACK_OWN.replace("120 mm", lead) + "    plug_at: radio-tray\n"
    return changed((PACK_OWN, own), (SUPPLY, SUPPLY.replace("from: pack", f"from: {mark}pack")))


def straight_gyro(lead: str, port_lead: str = "", mark: str = "", loop: str = "") -> Changes:
    ports = PORTS.replace("1..4", "[1, 2, 4]") + f"      - {{plug: servo-3, names: [3], contacts: pins{port_lead}}}\n"
    gyro = f"  gyro: {{kind: gyro, place: battery-bay, lead: {lead}, plug: servo-3}}\n"
    circuit = f"  gyro:\n    from: receiver 3\n    to: {mark}gyro\n{loop}"
    return changed((PORTS, ports), (EQUIPMENT, EQUIPMENT + gyro), (CIRCUITS, CIRCUITS + circuit))


def aileron_plug(lead: str, mark: str = "") -> Changes:
    panel = (
        "  - {between: [<side>-panel-root, <side>-cover], length: 500 mm, edges: sharp}\n"
        "  - {between: [<side>-cover, <side>-aileron], length: 245 mm}\n"
    )
    places = (TAIL_POST, TAIL_POST + "  <side>-cover: {assembly: <side>-panel, access: servo cover}\n")
    return changed(
        (AILERON_OWN, f"    plug_at: <side>-cover\n    lead: {lead}  # the lead"),
        (AILERON_END, AILERON_END.replace("<side>", f"{mark}<side>")),
        aircraft=[places, (PANEL_RUN, panel)],
    )


def divided(runs: tuple[str, str] = ("", ""), spine: str = "spine", key: str = "tab", of_tab: str = "") -> Changes:
    """Return the rudder's lead divided at a spine for a tab beside it; what runs to the spine and from it say."""
    tab = f"kind: servo, place: tail-post, plug: servo-3{of_tab}"
    laid = (
        f"  - {{between: [radio-tray, spine], length: 839 mm{runs[0]}}}\n"
        f"  - {{between: [spine, tail-post], length: 301 mm{runs[1]}}}\n"
    )
    ends = (
        f"    from: receiver 4\n    to: [rudder, {key}]\n    split: {{place: spine, loop: 20 mm}}\n    lead: servo-22\n"
    )
    return changed(
        (EQUIPMENT, f"{EQUIPMENT}  tab: {{{tab}}}\n"),
        (RUDDER_ENDS, ends),
        aircraft=[(TAIL_POST, f"{TAIL_POST}  {spine}: {{assembly: fuselage}}\n"), (TAIL_RUN, laid)],
    )


WAITS = ", plug_at: spine, lead: "
SHUT = ", closed: yes"

# The loop of 80 mm at the rudder lies in the lead that is cut, so that it does not count here.
REACH = {
    "an own lead at the load": Case("reach", rudder_plug("301 mm", "▶"), rudder_plug("299 mm"), "301 mm"),
    "an own lead where the circuit begins": Case("reach", pack_plug("259 mm", "▶"), pack_plug("261 mm"), "260 mm"),
    "both wings": Case("reach", aileron_plug("244 mm", "▶"), aileron_plug("246 mm")),
    "plugged straight in": Case("reach", straight_gyro("259 mm", mark="▶"), straight_gyro("261 mm"), "260 mm"),
    "plugged straight in, both leads": Case(
        "reach",
        straight_gyro("139 mm", ", lead: 120 mm", "▶"),
        straight_gyro("141 mm", ", lead: 120 mm"),
    ),
    "plugged straight in with a loop": Case(
        "reach",
        straight_gyro("300 mm", mark="▶", loop="    loop: 41 mm\n"),
        straight_gyro("300 mm", loop="    loop: 39 mm\n"),
    ),
    "the second of two loads": Case(
        "reach", divided(key="▶tab", of_tab=f"{WAITS}300 mm"), divided(of_tab=f"{WAITS}302 mm")
    ),
}

NO_ACCESS = TAIL_POST.replace(", access: tail hatch", "")

ACCESS = {
    "where an own lead's plug lies": Case(
        "access",
        changed(aircraft=[(TAIL_POST, NO_ACCESS.replace("  tail", "  ▶tail"))]),
        # The plug lies at the hatch; where the servo sits needs no access of its own.
        changed(
            AT_THE_HATCH,
            aircraft=[
                (TAIL_POST, NO_ACCESS + "  tail-hatch: {assembly: fuselage, access: hatch}\n"),
                (TAIL_RUN, tail_hatch("299 mm")[1][1]),
            ],
        ),
        "tail-post",
    ),
    "where a lead plugs into a port": Case(
        "access",
        changed(aircraft=[(TRAY, "  ▶radio-tray:        {"), ("up: 10 mm}, access: canopy}", "up: 10 mm}}")]),
        changed(),
    ),
    "where a lead divides among closed runs": Case(
        "access",
        divided((SHUT, SHUT), "▶spine", of_tab=", lead: 100 mm"),
        divided((SHUT, ""), of_tab=", lead: 100 mm"),
    ),
    "a place on the route needs none": Case(
        "access",
        changed(
            AT_THE_HATCH,
            aircraft=[
                (TAIL_POST, TAIL_POST + "  ▶tail-hatch: {assembly: fuselage}\n"),
                (TAIL_RUN, tail_hatch("299 mm")[1][1]),
            ],
        ),
        changed(
            aircraft=[
                (TAIL_POST, TAIL_POST + "  tail-hatch: {assembly: fuselage}\n"),
                (TAIL_RUN, tail_hatch("299 mm")[1][1]),
            ]
        ),
    ),
}


def hot_tail_run(heat: str) -> Sequence[tuple[str, str]]:
    return ((TAIL_RUN, TAIL_RUN.replace("sharp", f"sharp, heat: {heat}")),)


def hot_tail(heat: str) -> Sequence[tuple[str, str]]:
    return ((TAIL_POST, TAIL_POST.replace("access", f"heat: {heat}, access")),)


def rudder_ends(own_mark: str, lead_mark: str) -> tuple[str, str]:
    return RUDDER_ENDS, f"    from: receiver 4\n    to: {own_mark}rudder\n    lead: {lead_mark}servo-22\n"


def hot_gyro(heat: str, gyro_mark: str = "", supply_mark: str = "") -> Changes:
    """Return a gyro plugged straight in; its lead and the supply's lie in one hot run."""
    return {
        **changed(
            (SUPPLY, SUPPLY.replace("power-20", f"{supply_mark}power-20")),
            (EQUIPMENT, EQUIPMENT + "  gyro: {kind: gyro, place: battery-bay, lead: 300 mm, plug: servo-3}\n"),
            (CIRCUITS, f"{CIRCUITS}  {gyro_mark}gyro:\n    from: receiver 3\n    to: gyro\n"),
        ),
        "aircraft.yaml": [(PACK_RUN, PACK_RUN.replace("mm}", f"mm, heat: {heat}}}"))],
    }


def hot_tubes(lead_mark: str, heat: str) -> Changes:
    """Return the rudder in wire for 150 °C along a hot run, with an own lead that stays out of it, and tubes for less.

    Those of the built-in list that say no limit get one; a black one stands more, for the ends of the sleeve.
    """
    sizes = (("4.8", "2.4"), ("6.4", "3.2"), ("9.5", "4.8"))
    tubes = "".join(
        f"  shrink-{wide}: {{expanded: {wide} mm, recovered: {narrow} mm, wall: 0.5 mm, limit: 135 °C}}\n"
        for wide, narrow in sizes
    )
    tubes += "  collar: {expanded: 6 mm, recovered: 3 mm, wall: 0.5 mm, colour: BK, limit: 200 °C}\n"
    ends = RUDDER_ENDS, f"    from: receiver 4\n    to: rudder\n    lead: {lead_mark}servo-fluoro-22\n"
    return {**changed(ends, aircraft=hot_tail_run(heat)), "parts.yaml": f"tubes:\n{tubes}"}


# Wires of the built-in list with PVC: 80 °C.
HEAT = {
    "a wire in a hot run": Case(
        "heat",
        changed(rudder_ends("", "▶"), aircraft=hot_tail_run("80 °C")),
        changed(aircraft=hot_tail_run("79 °C")),
        "80 °C",
    ),
    "an own lead in a hot run": Case(
        "heat",
        changed(AT_THE_HATCH, rudder_ends("▶", ""), aircraft=tail_hatch("299 mm", ", heat: 90 °C")),
        changed(
            (RUDDER_OWN, AT_THE_HATCH[1] + "    lead_wire: fluoro-26\n"),
            aircraft=tail_hatch("299 mm", ", heat: 90 °C"),
        ),
    ),
    "both at a hot place": Case(
        "heat",
        changed(rudder_ends("▶", "▶"), aircraft=hot_tail("80 °C")),
        changed(aircraft=hot_tail("79 °C")),
    ),
    "both at a hot place where the circuit begins": Case(
        "heat",
        changed(
            (SUPPLY, "    from: ▶pack\n    to: receiver BATT\n    lead: ▶power-20\n"),
            aircraft=[("at: {aft: 180 mm}", "at: {aft: 180 mm}, heat: 80 °C")],
        ),
        changed(aircraft=[("at: {aft: 180 mm}", "at: {aft: 180 mm}, heat: 79 °C")]),
    ),
    "a label's tube": Case("heat", hot_tubes("▶", "140 °C"), hot_tubes("", "134 °C"), "135 °C"),
    "plugged straight in": Case("heat", hot_gyro("80 °C", "▶", "▶"), hot_gyro("79 °C")),
}


def coax(run: str, diameter: str) -> dict[str, str | Replacements | None]:
    """Return a run to a spine in which nothing lies but the coax of an antenna."""
    return changed(
        (ANTENNA_B, ANTENNA_B.replace("radio-tray", "spine").replace("150 mm", f"300 mm, diameter: {diameter}")),
        aircraft=[
            (TAIL_POST, TAIL_POST + "  spine: {assembly: fuselage}\n"),
            (TAIL_RUN, TAIL_RUN + f"  - {{between: [radio-tray, spine], length: 200 mm, {run}}}\n"),
        ],
    )


def pack_run(more: str) -> Changes:
    return changed(aircraft=[(PACK_RUN, PACK_RUN.replace("mm}", f"mm, {more}}}"))])


# No sleeve of the built-in list holds what is only 0.3 mm across. Heat sleeve stands 260 °C, braid 125 °C. The rudder's
# lead is 2.1547 × 1.6 mm (circle_packing.py) = 3.45 mm across, the supply's 2 × 1.8 mm = 3.6 mm.
UNSLEEVEED = {
    "sharp, and no sleeve is small enough": Case(
        "unsleeved", coax("edges: ▶sharp", "0.3 mm"), coax("edges: sharp", "1.3 mm")
    ),
    "sharp but dressed": Case(
        "unsleeved", coax("edges: ▶sharp", "0.3 mm"), coax("edges: sharp, dressed: grommet", "0.3 mm")
    ),
    "sharp and too hot for any sleeve": Case(
        "unsleeved",
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "▶sharp, heat: 265 °C"))]),
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, heat: 255 °C"))]),
        "265 °C",
    ),
    "dressed but too hot": Case(
        "unsleeved",
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, dressed: edge trim, heat: ▶265 °C"))]),
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, dressed: edge trim, heat: 255 °C"))]),
    ),
    "too hot, and at the limit": Case("unsleeved", pack_run("heat: ▶261 °C"), pack_run("heat: 260 °C")),
    "over what needs no sleeve": Case("unsleeved", coax("heat: ▶85 °C", "0.3 mm"), coax("heat: 75 °C", "0.3 mm")),
    "a sleeve named that is too wide": Case(
        "unsleeved",
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, sleeve: ▶wrap-6"))]),
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, sleeve: wrap-3"))]),
        "5 to 25 mm",
    ),
    "a sleeve named that does not stand the heat": Case(
        "unsleeved",
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, heat: 86 °C, sleeve: ▶wrap-3"))]),
        changed(aircraft=[(TAIL_RUN, TAIL_RUN.replace("sharp", "sharp, heat: 84 °C, sleeve: wrap-3"))]),
        "braid-4",
    ),
    "no sleeve, with the reason": Case(
        "unsleeved",
        coax("edges: ▶sharp", "0.3 mm"),
        coax("edges: sharp, sleeve: none, note: the edge is padded", "0.3 mm"),
    ),
    "nothing lies in it": Case(
        "unsleeved",
        coax("edges: ▶sharp", "0.3 mm"),
        {**coax("edges: sharp", "0.3 mm"), "harness.yaml": []},
    ),
}

# Ten times the outside diameter (US Army TM 1-1500-204-23-4 item 27; its worked examples: workmanship.py): the
# supply's two wires of 1.8 mm are 3.6 mm across: 36 mm. A coax six times, from memory: 3 mm, 18 mm.
BEND = {
    "a lead": Case("bend", pack_run("hinge: ▶35 mm"), pack_run("hinge: 37 mm"), "36 mm"),
    "a coax": Case("bend", coax("hinge: ▶17 mm", "3.0 mm"), coax("hinge: 19 mm", "3.0 mm"), "18 mm"),
}

TABLES = (REACH, ACCESS, HEAT, UNSLEEVEED, BEND)
ALL = {f"{case.name}: {about}": case for table in TABLES for about, case in table.items()}
TOLD = {about: case for about, case in ALL.items() if case.told}


def named(name: str, findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.name == name]


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_caution_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, places_of: PlacesOf
) -> None:
    found = named(case.name, check(aircraft_folder(case.wrong)).findings)
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_nearly_equal_definition_has_none(case: Case, aircraft_folder: AircraftFolder) -> None:
    checked = check(aircraft_folder(case.right))
    assert checked.harness is not None, checked.findings
    assert named(case.name, checked.findings) == []


@pytest.mark.parametrize("case", TOLD.values(), ids=TOLD)
def test_a_caution_tells_the_figure(case: Case, aircraft_folder: AircraftFolder) -> None:
    finding = named(case.name, check(aircraft_folder(case.wrong)).findings)[0]
    assert case.told in f"{finding.sentence} {finding.do}"


# The entry that a finding stands on: its file, and a text in it, after which the acceptance is written.
RUDDER_LABEL = "    label: RUD\n"
ACCEPTED = {
    "reach": (REACH["an own lead at the load"], "harness.yaml", RUDDER_LABEL, "    accept: {NAME: a reason}\n"),
    "access": (ACCESS["where an own lead's plug lies"], "aircraft.yaml", "up: 40 mm}", ", accept: {NAME: a reason}"),
    "heat": (HEAT["a wire in a hot run"], "harness.yaml", RUDDER_LABEL, "    accept: {NAME: a reason}\n"),
    "unsleeved": (
        UNSLEEVEED["too hot, and at the limit"],
        "aircraft.yaml",
        "heat: 261 °C",
        ", accept: {NAME: a reason}",
    ),
    "bend": (BEND["a lead"], "aircraft.yaml", "hinge: 35 mm", ", accept: {NAME: a reason}"),
}


@pytest.mark.parametrize(("case", "file", "entry", "accept"), ACCEPTED.values(), ids=ACCEPTED)
def test_it_can_be_accepted_on_the_entry_it_stands_on(
    case: Case, file: str, entry: str, accept: str, aircraft_folder: AircraftFolder
) -> None:
    old = case.wrong[file]
    assert isinstance(old, list)
    plain = [(before, after.replace("▶", "")) for before, after in old]
    added = (entry, entry + accept.replace("NAME", case.name))
    findings = check(aircraft_folder({**case.wrong, file: [*plain, added]})).findings
    assert {finding.accepted for finding in named(case.name, findings)} == {"a reason"}
    assert named("accept", findings) == []


def test_each_side_has_its_own_finding(aircraft_folder: AircraftFolder) -> None:
    found = named("reach", check(aircraft_folder(aileron_plug("244 mm"))).findings)
    assert sorted(finding.subject[1] for finding in found) == ["left-aileron", "right-aileron"]


# Over 80 °C a run wants a sleeve (common practice, no source); no sleeve is made for 0.3 mm.
@pytest.mark.parametrize(("heat_c", "why"), [(80, "is sharp; no"), (81, "is sharp and 81 °C hot, 1 °C over the 80 °C")])
def test_a_sharp_run_is_hot_too_only_over_the_limit(heat_c: int, why: str, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(coax(f"edges: sharp, heat: {heat_c} °C", "0.3 mm"))
    (finding,) = named("unsleeved", check(folder).findings)
    assert why in finding.sentence


def test_of_all_heat_on_a_way_the_most_counts(aircraft_folder: AircraftFolder) -> None:
    tray = ("up: 10 mm}, access: canopy}", "up: 10 mm}, heat: 60 °C, access: canopy}")
    folder = aircraft_folder(changed(aircraft=[*tail_hatch("301 mm", ", heat: 90 °C"), tray]))
    (finding,) = named("heat", check(folder).findings)
    assert "lies in 90 °C between `tail-hatch` and `tail-post`" in finding.sentence
