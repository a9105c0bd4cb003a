"""Splits: a lead that divides in two at a splice."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Case, Changes, Place

from docgen.basics.findings import Finding
from docgen.harness.model.harness import Harness
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]
ErrorsIn = Callable[[Path], list[Finding]]

EQUIPMENT = "equipment:\n"
TAIL_POST = "  tail-post:         {"
TAIL_RUN = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
RUDDER = "  rudder:\n    label: RUD\n    from: receiver 4\n    to: rudder\n    lead: servo-22\n"
RUDDER_CURRENT = "working: 0.5 A, stall: 2.4 A}"
SECOND = (
    "  rudder-2:\n    kind: servo\n    place: fin\n    lead: 300 mm\n    plug: servo-3\n"
    "    current: {idle: 20 mA, working: 0.5 A, stall: 2.4 A}\n    volts: {least: 4.8 V, most: 8.4 V}\n"
)
WAYS = (
    "  - {between: [radio-tray, tail-bay], length: 900 mm, edges: sharp}\n"
    "  - {between: [tail-bay, tail-post], length: 240 mm}\n  - {between: [tail-bay, fin], length: 400 mm}\n"
)


def two_rudders(
    *more: tuple[str, str],
    ends: str = "[rudder, rudder-2]",
    place: str = "tail-bay",
    lead: str = "servo-22",
    source: str = "receiver 4",
    key: str = "rudder",
) -> Changes:
    """Return two rudder servos on one lead that divides before the tail."""
    circuit = RUDDER.replace("to: rudder", f"to: {ends}\n    split: {{place: {place}}}")
    circuit = circuit.replace("servo-22", lead).replace("receiver 4", source).replace("  rudder:", f"  {key}:")
    return {
        "aircraft.yaml": [
            (
                TAIL_POST,
                "  tail-bay: {assembly: fuselage}\n  fin: {assembly: fuselage, access: tail hatch}\n" + TAIL_POST,
            ),
            (TAIL_RUN, WAYS),
        ],
        "harness.yaml": [(RUDDER, circuit), *more, (EQUIPMENT, EQUIPMENT + SECOND)],
    }


@pytest.fixture
def built(aircraft_folder: AircraftFolder) -> Callable[..., Harness]:
    def build(**said: str) -> Harness:
        checked = check(aircraft_folder(two_rudders(**said)))
        assert checked.harness is not None, checked.findings
        return checked.harness

    return build


# Each lead three wires of 1.6 mm at a lay of 25 mm: sqrt(1 + (π × 2/√3 × 1.6 / 25)²) = 1.02660. A splice end counts a
# strip of 8 mm and no reterminations, a servo plug 2.5 mm and 2 × 10 mm; the loop of 80 mm lies at each servo.
#   stem:               (900 × 1.03 + 22.5 + 8) × 1.02660 = 983.0 → 985 mm
#   to the tail post:   (240 × 1.03 + 8 + 80 + 22.5) × 1.02660 = 367.2 → 370 mm
#   to the fin:         (400 × 1.03 + 8 + 80 + 22.5) × 1.02660 = 536.4 → 540 mm
STEM_MM, TAIL_POST_MM, FIN_MM = 985, 370, 540


def test_a_splice_end_is_stripped_and_never_terminated_again(built: Callable[..., Harness]) -> None:
    lengths = {lead.segment: lead.cut_length_mm for lead in built().circuits["rudder"].cut_leads}
    assert lengths == {"A": STEM_MM, "B": TAIL_POST_MM, "C": FIN_MM}


@pytest.mark.parametrize(
    ("ends", "branches"),
    [
        ("[rudder, rudder-2]", {"B": "rudder", "C": "rudder-2"}),
        ("[rudder-2, rudder]", {"B": "rudder-2", "C": "rudder"}),
    ],
)
def test_branches_have_letters_in_the_order_of_to(
    ends: str, branches: dict[str, str], built: Callable[..., Harness]
) -> None:
    leads = built(ends=ends).circuits["rudder"].leads
    assert {lead.segment: lead.ends[1].name for lead in leads if lead.segment != "A"} == branches


def test_wires_keep_their_numbers_over_the_splice(built: Callable[..., Harness]) -> None:
    leads = built().circuits["rudder"].leads
    assert [[wire.mark for wire in lead.wires] for lead in leads] == [
        [f"C5{letter}22N", f"C5{letter}22", f"C6{letter}22"] for letter in "ABC"
    ]


def test_each_branch_can_have_a_lead_of_its_own(built: Callable[..., Harness]) -> None:
    leads = built(lead="{A: servo-22, B: servo-24, C: servo-26}").circuits["rudder"].leads
    assert [lead.wires[0].kind.name for lead in leads] == ["pvc-22", "pvc-24", "pvc-26"]


def draws(working: str) -> list[tuple[str, str]]:
    return [(RUDDER_CURRENT, f"working: {working}, stall: 2.4 A}}")]


# 22 AWG bears 3 A by the built-in list, a servo plug's contact 3 A working and 5 A for at most 10 s. The stem carries
# what both draw: 2.6 + 0.5 = 3.1 A, or 2.4 + 0.5 = 2.9 A; at peak 2 × 2.4 A.
OWN_LEAD = (
    "    place: tail-post\n    lead: 300 mm\n",
    "    place: tail-post\n    lead: 300 mm\n    lead_wire: pvc-20\n",
)
CAUTIONS = {
    "the stem's wire carries what both draw": Case(
        "wire-current",
        two_rudders(*draws("2.6 A"), OWN_LEAD, lead="{A: ▶servo-22, B: servo-22, C: servo-22}"),
        two_rudders(*draws("2.4 A"), OWN_LEAD, lead="{A: servo-22, B: servo-22, C: servo-22}"),
    ),
    "the stem's contact carries what both draw": Case(
        "contact-current",
        two_rudders(*draws("2.6 A"), OWN_LEAD, source="▶receiver 4"),
        two_rudders(*draws("2.4 A"), OWN_LEAD),
    ),
}


@pytest.mark.parametrize("case", CAUTIONS.values(), ids=CAUTIONS)
def test_a_caution_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, places_of: PlacesOf
) -> None:
    found = [finding for finding in check(aircraft_folder(case.wrong)).findings if finding.name == case.name]
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", CAUTIONS.values(), ids=CAUTIONS)
def test_a_nearly_equal_definition_has_none(case: Case, aircraft_folder: AircraftFolder) -> None:
    checked = check(aircraft_folder(case.right))
    assert checked.harness is not None, checked.findings
    assert [finding for finding in checked.findings if finding.name == case.name] == []


def test_a_splice_in_another_assembly_lacks_a_disconnect(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(aircraft_folder(two_rudders(place="left-aileron", key="▶rudder")))
    assert places_of(found) == aircraft_folder.marked("through")


def test_both_servos_are_loads_of_the_supply(aircraft_folder: AircraftFolder) -> None:
    # Working 0.15 + 2 × 0.6 + 2 × 0.5 = 2.35 A × 9 min = 352.5 mAh; 2600 × 0.7 / 352.5 = 5.16 flights, with one of the
    # two 6.56.
    changes = two_rudders()
    flight = ("time: 9 min, reserve: 30 %}", "time: 9 min, reserve: 30 %, flights: 6}")
    aircraft = changes["aircraft.yaml"]
    assert isinstance(aircraft, list)
    findings = check(aircraft_folder({**changes, "aircraft.yaml": [*aircraft, flight]})).findings
    assert "endurance" in {finding.name for finding in findings}


def test_a_splice_that_nothing_but_closed_runs_lead_to_is_found(aircraft_folder: AircraftFolder) -> None:
    def found(closed: int, access: str = "") -> list[str]:
        ways = WAYS
        for way in WAYS.splitlines()[:closed]:
            ways = ways.replace(way, way.replace("}", ", closed: yes}"))
        changes = two_rudders()
        said = changes["aircraft.yaml"]
        assert isinstance(said, list)
        places, _ = said
        shut = (
            places[0],
            places[1].replace("tail-bay: {assembly: fuselage}", f"tail-bay: {{assembly: fuselage{access}}}"),
        )
        findings = check(aircraft_folder({**changes, "aircraft.yaml": [shut, (TAIL_RUN, ways)]})).findings
        return [finding.sentence for finding in findings if finding.name == "access"]

    assert found(2) == []
    assert found(3) == ["`tail-bay` has no access and lies among closed runs, but wires are spliced there."]
    assert found(3, ", access: hatch") == []
