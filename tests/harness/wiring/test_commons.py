"""Commons: contacts that several circuits share for one role, and the tails behind them."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from conftest import AircraftFolder, Case, Changes, Place, Replacements
from resolved import record_of

from docgen.basics.findings import Finding
from docgen.cli import docgen
from docgen.harness.model.harness import Harness
from docgen.paperwork.cut_list.content import content
from docgen.paperwork.cut_list.pieces import Piece
from docgen.pipeline import check

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]

EQUIPMENT, CIRCUITS, SHELL = "equipment:\n", "circuits:\n", "    shell: block-6\n"
AILERON_LEAD = "    through: [<side>-root]\n    lead: servo-22\n"
MEMBERS = "circuits: [<side>-aileron, <side>-flap]"
BY_SEGMENT = "{A: signal-only, B: servo-22}"
FLAPS = (
    "  <side>-flap:\n    kind: servo\n    place: <side>-aileron\n    lead: 250 mm\n    plug: servo-3\n"
    "    current: {idle: 20 mA, working: 0.6 A, stall: 2.4 A}\n"
)
FLAP_CIRCUITS = (
    "  <side>-flap:\n    label: {left: FLAP L, right: FLAP R}\n    from: {left: receiver 5, right: receiver 6}\n"
    f"    to: <side>-flap\n    through: [<side>-root]\n    lead: {BY_SEGMENT}\n"
)
WING_SUPPLY = (
    "  <side>-wing:\n    from: {left: receiver LEFT, right: receiver RIGHT}\n"
    "    to: <side>-root servo-positive servo-negative\n    lead: power-20\n"
)


def wing(
    positive: str = f"contacts: [1, 2], {MEMBERS}",
    negative: str = f"contacts: [3, 4], {MEMBERS}",
    more: str = "",
    more_equipment: str = "",
    aileron_mark: str = "",
) -> Changes:
    """Return wings whose servos have a signal each, and share poles that a heavy pair brings."""
    commons = (
        f"    commons:\n      servo-positive: {{role: positive, {positive}}}\n"
        f"      servo-negative: {{role: negative, {negative}}}\n"
    )
    harness: Replacements = [
        ("names: 1..4", "names: 1..6"),
        ("names: [BATT]", "names: [BATT, LEFT, RIGHT]"),
        (AILERON_LEAD, AILERON_LEAD.replace("servo-22", BY_SEGMENT.replace("servo", f"{aileron_mark}servo"))),
        (SHELL, "    shell: block-8\n" + commons),
        (EQUIPMENT, EQUIPMENT + FLAPS + more_equipment),
        (CIRCUITS, CIRCUITS + WING_SUPPLY + more + FLAP_CIRCUITS),
    ]
    return {"harness.yaml": harness, "parts.yaml": "leads: {signal-only: {wires: {signal: pvc-24 WH}}}\n"}


@pytest.fixture
def built(aircraft_folder: AircraftFolder) -> Callable[..., Harness]:
    def build(*said: str, **more: str) -> Harness:
        checked = check(aircraft_folder(wing(*said, **more)))
        assert checked.harness is not None, checked.findings
        return checked.harness

    return build


def pieces(harness: Harness, length_mm: float) -> list[tuple[str, str, Piece]]:
    """Return the pieces cut to a length, with their colour and gauge."""
    groups = content(harness).groups
    return [
        (group.colour, group.gauge.text, piece)
        for group in groups
        for piece in group.pieces
        if piece.length_mm == length_mm
    ]


def kinds(harness: Harness, length_mm: float) -> Counter[tuple[str, str]]:
    return Counter((colour, gauge) for colour, gauge, _ in pieces(harness, length_mm))


def cut_mm(harness: Harness, circuit: str) -> list[float | None]:
    return [lead.cut_length_mm for lead in harness.circuits[circuit].cut_leads]


CONTACTS = [f"{number}:" for number in range(1, 9)]

# A tail of 40 mm, 8 mm for the splice, the block's strip of 4 mm and two reterminations of 10 mm (their number: FAA
# AC 43.13-1B 11-118; the rest is common practice, no source): 72 mm, the next multiple of 5 mm is 75 mm.
TAIL_MM = 75


def test_each_contact_of_a_common_has_a_tail_behind_each_half(built: Callable[..., Harness]) -> None:
    # Two contacts for each pole in each of two wings. Behind the fixed half the heaviest is the pair's 20 AWG, behind
    # the loose one the servos' 22 AWG.
    assert kinds(built(), TAIL_MM) == dict.fromkeys(
        [("RD", "20 AWG"), ("RD", "22 AWG"), ("BK", "20 AWG"), ("BK", "22 AWG")], 4
    )


def test_tails_are_as_long_as_the_builder_says(built: Callable[..., Harness]) -> None:
    # 60 + 8 + 4 + 20 = 92 mm → 95 mm for the positives.
    harness = built(positive=f"contacts: [1, 2], tail: 60 mm, {MEMBERS}")
    assert kinds(harness, 95) == {("RD", "20 AWG"): 4, ("RD", "22 AWG"): 4}
    assert kinds(harness, TAIL_MM) == {("BK", "20 AWG"): 4, ("BK", "22 AWG"): 4}


def test_tails_have_no_marks(built: Callable[..., Harness]) -> None:
    tails = pieces(built(), TAIL_MM)
    assert tails
    assert {piece.mark for _, _, piece in tails} == {None}


def test_a_single_wire_on_a_single_contact_goes_straight_in(built: Callable[..., Harness]) -> None:
    # The pair's positive needs none; the two that go on behind the loose half are spliced to one.
    harness = built(positive=f"contacts: [1], {MEMBERS}")
    assert kinds(harness, TAIL_MM) == {("RD", "22 AWG"): 2, ("BK", "20 AWG"): 4, ("BK", "22 AWG"): 4}


def test_a_wire_that_no_contact_takes_ends_at_tails_of_the_heaviest_that_one_takes(
    aircraft_folder: AircraftFolder,
) -> None:
    # The block's contacts take 24 to 18 AWG of at most 2.2 mm.
    changes = wing()
    replacements = changes["harness.yaml"]
    assert isinstance(replacements, list)
    heavy = [(old, new.replace("lead: power-20", "lead: power-16")) for old, new in replacements]
    harness = check(aircraft_folder({**changes, "harness.yaml": heavy})).harness
    assert harness is not None
    gauges = {gauge for colour, gauge, _ in pieces(harness, TAIL_MM) if colour == "RD"}
    assert gauges == {"18 AWG", "22 AWG"}


def test_contacts_of_commons_are_given_to_no_one_else(built: Callable[..., Harness]) -> None:
    text = record_of(built()).whole
    section = text[text.index("left-root: block-8") : text.index("right-root: block-8")]
    uses = dict(line.strip().split(": ", 1) for line in section.splitlines() if line.strip()[:2] in CONTACTS)
    assert [contact for contact, use in uses.items() if use == "spare"] == ["7", "8"]
    assert "FLAP L" in uses["5"]  # written first
    assert "AIL L" in uses["6"]


def test_a_heavy_pair_is_marked_as_power(built: Callable[..., Harness]) -> None:
    harness = built()
    marks = [[wire.mark for wire in harness.circuits[name].leads[0].wires] for name in ("left-wing", "right-wing")]
    assert marks == [["P1A20N", "P1A20"], ["P2A20N", "P2A20"]]


def test_a_heavy_pair_is_cut_as_if_it_went_to_the_contacts(built: Callable[..., Harness]) -> None:
    # (235 × 1.03 + 3 + 20 + 4 + 20) × sqrt(1 + (π × 1.8 / 25)²) = 289.05 × 1.02526 = 296.3 mm → 300 mm.
    assert cut_mm(built(), "left-wing") == [300]


def test_members_are_cut_as_if_they_went_to_the_contacts(built: Callable[..., Harness]) -> None:
    # One wire, not twisted: 235 × 1.03 + 22.5 + 24 = 288.6 mm → 290 mm; behind the joint as ever, 1045 mm.
    assert cut_mm(built(), "left-aileron") == [290, 1045]


def test_a_member_takes_from_the_common_what_its_first_lead_lacks(built: Callable[..., Harness]) -> None:
    leads = built().circuits["left-aileron"].leads
    assert [[wire.role for wire in lead.wires] for lead in leads] == [["signal"], ["negative", "positive", "signal"]]


# A lamp on the left: its lead of two wires of 1.4 mm, (745 × 1.03 + 120 reach + 24 + 22.5) × twist, which is
# sqrt(1 + (π × 1.4 / 20)²) = 1.02390: 933.85 × 1.02390 = 956.2 mm → 960 mm.
LAMP = (
    "  lamp: {kind: light, place: left-aileron, lead: 100 mm, plug: light-2, current: {working: 0.3 A}}\n",
    "  lamp: {from: left-root servo-positive servo-negative, to: lamp, lead: light-24}\n",
)


def test_a_circuit_can_begin_at_a_common(built: Callable[..., Harness]) -> None:
    harness = built(more_equipment=LAMP[0], more=LAMP[1])
    assert cut_mm(harness, "lamp") == [960]
    assert [wire.mark for wire in harness.circuits["lamp"].leads[0].wires] == ["L1A24N", "L1A24"]


def test_what_is_shared_carries_all_its_current(aircraft_folder: AircraftFolder) -> None:
    """An aileron's own drop from the outlet that the heavy pair hangs on, by hand.

    Shared by aileron and flap, each pole: 0.300 m × 0.03241 Ω/m + 3 mΩ, tails 0.075 × 0.03241 / 2, contacts 5 mΩ / 2,
    tails 0.075 × 0.05315 / 2: 18.43 mΩ; 2 × 18.43 mΩ × 1.2 A = 0.0442 V. Its own, each pole: 1.045 × 0.05315 + 10 mΩ +
    0.250 × 0.13146: 98.41 mΩ; 2 × 98.41 mΩ × 0.6 A = 0.1181 V.
    """
    result = CliRunner().invoke(docgen, ["check", str(aircraft_folder(wing())), "--json"])
    circuits = {circuit["name"]: circuit for circuit in json.loads(result.stdout)["circuits"]}
    assert circuits["left-aileron"]["own_drop_v"] == pytest.approx(0.1623, abs=0.0001)


def test_one_contact_instead_of_two_drops_more(aircraft_folder: AircraftFolder) -> None:
    drops = []
    for contacts in ("[1, 2]", "[1]"):
        folder = aircraft_folder(wing(positive=f"contacts: {contacts}, {MEMBERS}"))
        result = CliRunner().invoke(docgen, ["check", str(folder), "--json"])
        circuits = {circuit["name"]: circuit for circuit in json.loads(result.stdout)["circuits"]}
        drops.append(circuits["left-aileron"]["own_drop_v"])
    # On one: the tail of 20 AWG goes, the contact counts 2.5 mΩ more, the tail of 22 AWG twice: (−1.216 + 2.5 + 1.993)
    # mΩ × 1.2 A = 3.93 mV.
    assert drops[1] - drops[0] == pytest.approx(0.00393, abs=0.0001)


ERRORS = {
    "no common brings what a lead lacks": Case(
        "role",
        {
            "harness.yaml": [(AILERON_LEAD, AILERON_LEAD.replace("servo-22", "{A: signal-only, B: ▶servo-22}"))],
            "parts.yaml": "leads: {signal-only: {wires: {signal: pvc-24 WH}}}\n",
        },
        wing(),
    ),
    "a common that another circuit is in": Case(
        "role", wing(positive="contacts: [1, 2], circuits: [<side>-flap]", aileron_mark="▶"), wing()
    ),
    "a contact that the shell has not": Case(
        "contacts",
        wing(positive=f"contacts: [1, ▶9], {MEMBERS}"),
        wing(positive=f"contacts: [1, 8], {MEMBERS}"),
    ),
    "a contact of two commons": Case(
        "contacts",
        wing(negative=f"contacts: [▶2, 3], {MEMBERS}"),
        wing(negative=f"contacts: [5, 3], {MEMBERS}"),
    ),
}


@pytest.mark.parametrize("case", ERRORS.values(), ids=ERRORS)
def test_an_error_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(aircraft_folder(case.wrong))
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", ERRORS.values(), ids=ERRORS)
def test_a_nearly_equal_definition_has_no_error(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    assert errors_in(aircraft_folder(case.right)) == []


def test_an_error_elsewhere_is_not_said_of_the_commons(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    changes = wing()
    replacements = changes["harness.yaml"]
    assert isinstance(replacements, list)
    both_sockets = ("contacts: pins, reach", "contacts: sockets, reach")
    found = errors_in(aircraft_folder({**changes, "harness.yaml": [*replacements, both_sockets]}))
    assert {finding.name for finding in found} == {"mate"}
