"""Where the harness comes apart: each caution where it was typed, and a nearly equal definition without it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

EQUIPMENT, CIRCUITS, DISCONNECTS, SHELL = "equipment:\n", "circuits:\n", "disconnects:\n", "    shell: block-6\n"
FIXED = "    fixed: {place: <side>-root,       contacts: sockets, key: up}\n"
LOOSE = "    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}\n"
AILERON_LEAD = "    through: [<side>-root]\n    lead: servo-22\n"
RUDDER_LEAD = "    to: rudder\n    lead: servo-22\n"
RUDDER_OWN = "    place: tail-post\n    lead: 300 mm\n"
PACK_OWN = "    lead: 120 mm\n    lead_wire: pvc-20\n    plug: power-2\n"
FLAPS = "  <side>-flap: {kind: KIND, place: <side>-aileron, lead: 250 mm, plug: servo-3}\n"
FLAP_CIRCUITS = (
    "  <side>-flap:\n    from: {left: receiver 5, right: receiver 6}\n    to: <side>-flap\n"
    "    through: [<side>-root]\n    lead: LEAD\n"
)
HALVES = "    fixed: {{place: <side>-root, {fixed}, key: up}}\n", "    loose: {{place: <side>-panel-root, {loose}}}\n"


def changed(*harness: tuple[str, str], parts: str = "") -> Changes:
    files: dict[str, str | Replacements | None] = {"harness.yaml": list(harness)}
    if parts:
        files["parts.yaml"] = parts
    return files


def sharing(contacts: str, members: str = "[<side>-aileron, <side>-flap]", kind: str = "servo") -> Changes:
    common = f"    commons: {{all: {{role: negative, contacts: {contacts}, circuits: {members}}}}}\n"
    return changed(
        ("names: 1..4", "names: 1..6"),
        (SHELL, "    shell: block-8\n" + common),
        (EQUIPMENT, EQUIPMENT + FLAPS.replace("KIND", kind)),
        (CIRCUITS, CIRCUITS + FLAP_CIRCUITS.replace("LEAD", "servo-22")),
    )


SINGLE_CONTACT = {
    "the pole of two servos": Case("single-contact", sharing("▶[1]"), sharing("[1, 2]")),
    "one servo alone loses nothing more": Case("single-contact", sharing("▶[1]"), sharing("[1]", "[<side>-aileron]")),
    "one servo and a sensor": Case("single-contact", sharing("▶[1]"), sharing("[1]", kind="sensor")),
}


def rudder(lead: str, parts: str = "") -> Changes:
    return changed((RUDDER_LEAD, RUDDER_LEAD.replace("servo-22", lead)), parts=parts)


def ailerons(lead: str) -> Changes:
    return changed((AILERON_LEAD, AILERON_LEAD.replace("servo-22", lead)))


def thick(diameter: str) -> str:
    wire = f"{{gauge: 22 AWG, diameter: {diameter}, resistance: 16.2 ohm/1000ft, limit: 105 °C}}"
    return (
        f"wires: {{mine: {wire}}}\n"
        "leads: {mine: {wires: {negative: mine BK, positive: mine RD, signal: mine WH}, lay: 25 mm}}\n"
    )


def fed_by_a_pair(lead: str, common_contacts: str = "[1, 2]") -> Changes:
    """Return wings whose servos take their poles from commons that a heavy pair feeds."""
    commons = "".join(
        f"      servo-{role}: {{role: {role}, contacts: {contacts}, circuits: [<side>-aileron]}}\n"
        for role, contacts in (("positive", common_contacts), ("negative", "[3, 4]"))
    )
    pair = (
        "  <side>-wing:\n    from: {left: receiver LEFT, right: receiver RIGHT}\n"
        f"    to: <side>-root servo-positive servo-negative\n    lead: {lead}\n"
    )
    return changed(
        ("names: [BATT]", "names: [BATT, LEFT, RIGHT]"),
        (SHELL, "    shell: block-8\n    commons:\n" + commons),
        (AILERON_LEAD, AILERON_LEAD.replace("servo-22", "{A: signal-only, B: servo-22}")),
        (CIRCUITS, CIRCUITS + pair),
        parts="leads: {signal-only: {wires: {signal: pvc-24 WH}}}\n",
    )


# A servo plug's contact takes 28 to 22 AWG of at most 1.7 mm, a block's 24 to 18 AWG, a power plug's 22 to 16 AWG.
CRIMP_FIT = {
    "too thick for the plug": Case("crimp-fit", rudder("▶servo-20"), rudder("servo-24"), "20 AWG"),
    "too much insulation": Case(
        "crimp-fit", rudder("▶mine", thick("1.75 mm")), rudder("mine", thick("1.65 mm")), "1.7"
    ),
    "too thin for the joint": Case(
        "crimp-fit", ailerons("{A: servo-22, B: ▶servo-26}"), ailerons("{A: servo-22, B: servo-24}"), "26 AWG"
    ),
    "a metric gauge": Case(
        "crimp-fit",
        rudder("▶mine", thick("1.6 mm").replace("22 AWG", "0.5 mm²")),  # between 21 and 20 AWG
        rudder("mine", thick("1.6 mm").replace("22 AWG", "0.25 mm²")),  # between 24 and 23 AWG
    ),
    # 0.34 mm² is what the trade sells for 22 AWG, 0.326 mm² (common practice, no source); 21 AWG is 0.41 mm².
    "the metric twin of the heaviest": Case(
        "crimp-fit",
        rudder("▶mine", thick("1.6 mm").replace("22 AWG", "0.35 mm²")),
        rudder("mine", thick("1.6 mm").replace("22 AWG", "0.34 mm²")),
    ),
    "what came with its plug on is not crimped": Case(
        "crimp-fit",
        rudder("▶servo-20"),
        changed((RUDDER_OWN, RUDDER_OWN + "    lead_wire: pvc-20\n")),
    ),
    "a heavy pair is spliced behind its common": Case("crimp-fit", rudder("▶servo-20"), fed_by_a_pair("power-16")),
    # On a single contact it goes straight in: block contacts do not take 16 AWG.
    "a heavy pair that goes straight in": Case(
        "crimp-fit", fed_by_a_pair("▶power-16", "[1]"), fed_by_a_pair("power-20", "[1]"), "16 AWG"
    ),
}


def halves(fixed: str, loose: str, *more: tuple[str, str]) -> Changes:
    return changed((FIXED, HALVES[0].format(fixed=fixed)), (LOOSE, HALVES[1].format(loose=loose)), *more)


def reaching(reach: str, shell: str = "block-6") -> Changes:
    return changed((SHELL, f"    shell: {shell}\n"), (LOOSE, LOOSE.replace("120 mm", reach)))


# Seen across: the fixed halves at 80 mm left and right, the loose ones at 90 mm, all at one station and height. From a
# loose half to the other wing's fixed one 90 + 80 = 170 mm, from one loose half to the other 180 mm.


def turned_round_on_one_side(reach: str, shell: str = "block-6") -> Changes:
    """Return wings whose halves carry sockets on one side where they carry pins on the other."""
    return halves(
        "contacts: {left: sockets, right: pins}",
        f"contacts: {{left: pins, right: sockets}}, reach: {reach}",
        (SHELL, f"    shell: {shell}\n"),
    )


SWAP = {
    "within reach of the other wing's": Case("swap", reaching("175 mm", "▶block-6"), reaching("165 mm")),
    "keyed otherwise": Case(
        "swap", reaching("175 mm", "▶block-6"), reaching("175 mm", "block-6\n    keyed: {left: A, right: B}")
    ),
    "keyed alike": Case(
        "swap",
        reaching("175 mm", "▶block-6\n    keyed: A"),
        reaching("175 mm", "block-6\n    keyed: {left: A, right: B}"),
    ),
    "another shell": Case(
        "swap",
        reaching("175 mm", "{left: ▶block-8, right: ▶block-8}"),
        reaching("175 mm", "{left: block-6, right: block-8}"),
    ),
    "pins meet pins": Case(
        "swap", reaching("175 mm", "▶block-6"), turned_round_on_one_side("{left: 175 mm, right: 1 mm}")
    ),
    "two loose halves, both reaches": Case(
        "swap", turned_round_on_one_side("95 mm", "▶block-6"), turned_round_on_one_side("85 mm")
    ),
}

SECOND_PACK = (
    "  pack-2:\n    kind: battery\n    place: left-aileron\n    lead: 120 mm\n    lead_wire: pvc-20\n"
    "    plug: power-2\n    battery: {cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}\n"
)


def a_pack_in_the_wing(fixed: str, loose: str, lead: str = "power-20") -> Changes:
    return halves(
        fixed,
        loose,
        ("names: [BATT]", "names: [BATT, BATT-2]"),
        (EQUIPMENT, EQUIPMENT + SECOND_PACK),
        (
            CIRCUITS,
            f"{CIRCUITS}  supply-2: {{from: pack-2, to: receiver BATT-2, through: [left-root], lead: {lead}}}\n",
        ),
    )


def pack_plug(new: str, carries: str = "pins") -> Changes:
    parts = (
        f"plugs:\n  mine:\n    contacts: {{1: negative, 2: positive}}\n    equipment: {carries}\n"
        "    size: [8 mm, 5 mm]\n    contact: {rating: 10 A, brief: 15 A, resistance: 3 mohm}\n"
    )
    return changed((PACK_OWN, new), parts=parts)


PACK_PORT = "    ports: {plug: power-2, names: [OUT], contacts: CARRIES, lead: 120 mm, lead_wire: pvc-20}\n"

LIVE_PINS = {
    "the fixed half": Case(
        "live-pins",
        halves("contacts: ▶pins", "contacts: sockets, reach: 120 mm"),
        halves("contacts: sockets", "contacts: pins, reach: 120 mm"),
    ),
    "a half that does not say so": Case(
        "live-pins",
        changed((FIXED, "    fixed: ▶{place: <side>-root, key: up}\n"), (LOOSE, LOOSE.replace("pins", "sockets"))),
        changed((FIXED, "    fixed: {place: <side>-root, key: up}\n"), (LOOSE, LOOSE)),
    ),
    "the first of two free halves": Case(
        "live-pins",
        changed(
            (FIXED, "    halves:\n      - {place: <side>-root, contacts: ▶pins, reach: 50 mm}\n"),
            (LOOSE, "      - {place: <side>-panel-root, contacts: sockets, reach: 50 mm}\n"),
        ),
        changed(
            (FIXED, "    halves:\n      - {place: <side>-root, contacts: sockets, reach: 50 mm}\n"),
            (LOOSE, "      - {place: <side>-panel-root, contacts: pins, reach: 50 mm}\n"),
        ),
    ),
    "both halves are fed": Case(
        "live-pins",
        a_pack_in_the_wing("contacts: sockets", "contacts: ▶pins, reach: 120 mm"),
        halves("contacts: sockets", "contacts: pins, reach: 120 mm"),
    ),
    "a pack's plug": Case(
        "live-pins",
        changed((PACK_OWN, PACK_PORT.replace("CARRIES", "▶pins"))),
        changed((PACK_OWN, PACK_PORT.replace("CARRIES", "sockets"))),
    ),
    "a pack's plug by its kind": Case(
        "live-pins",
        pack_plug(PACK_OWN.replace("power-2", "▶mine")),
        pack_plug(PACK_OWN.replace("power-2", "mine"), "sockets"),
    ),
}

PROBES = "".join(
    f"  probe-{number}: {{kind: sensor, place: left-aileron, lead: 90 mm, plug: servo-3}}\n" for number in range(1, 8)
)
PROBE_CIRCUITS = "".join(
    f"  probe-{number}: {{from: receiver {number + 4}, to: probe-{number}, through: [left-root],"
    f" lead: {'signal-24' if number == 7 else 'servo-22'}}}\n"
    for number in range(1, 8)
)
WIDE_SHELL = (
    "shells:\n  wide:\n    rows: [ROWS]\n    pitch: {across: 2.5 mm, down: 5 mm}\n    outline: [80 mm, 12 mm]\n"
    "    contact: {rating: 10 A, brief: 15 A, resistance: 5 mohm, strip: 4 mm}\n"
)
TAIL_JOINT = (
    "  tail:\n    shell: servo-3\n    fixed: {place: tail-post, contacts: sockets}\n"
    "    loose: {place: tail-post, contacts: pins, reach: 50 mm}\n"
)


def flap_too(shell: str, lead: str) -> Changes:
    return changed(
        ("names: 1..4", "names: 1..6"),
        (SHELL, f"    shell: {shell}\n"),
        (EQUIPMENT, EQUIPMENT + FLAPS.replace("KIND", "sensor")),
        (CIRCUITS, CIRCUITS + FLAP_CIRCUITS.replace("LEAD", lead)),
    )


def many_probes(contacts: str, shell: str = "wide") -> Changes:
    return changed(
        ("names: 1..4", "names: 1..11"),
        (SHELL, f"    shell: {{left: {shell}, right: block-6}}\n"),
        (EQUIPMENT, EQUIPMENT + PROBES),
        (CIRCUITS, CIRCUITS + PROBE_CIRCUITS),
        parts=WIDE_SHELL.replace("ROWS", contacts),
    )


# Two spare on 25 contacts or less, four on 26 to 100, six on more: FAA AC 43.13-1B 11-234. An aileron takes three.
SPARE_CONTACTS = {
    "one of six": Case("spare-contacts", flap_too("▶block-6", "signal-24"), flap_too("block-8", "signal-24")),
    "none of six": Case("spare-contacts", flap_too("▶block-6", "servo-22"), flap_too("block-8", "servo-22")),
    # 3 + 6 × 3 + 2 = 23 in use.
    "three of 26": Case("spare-contacts", many_probes("1..26", "▶wide"), many_probes("1..27")),
    "two of 25": Case("spare-contacts", many_probes("1..24", "▶wide"), many_probes("1..25")),
    "plain joints have none": Case(
        "spare-contacts",
        flap_too("▶block-6", "servo-22"),
        changed(
            (DISCONNECTS, DISCONNECTS + TAIL_JOINT),
            (RUDDER_LEAD, "    to: rudder\n    through: [tail]\n    lead: servo-22\n"),
        ),
    ),
}

TABLES = (SINGLE_CONTACT, CRIMP_FIT, SWAP, LIVE_PINS, SPARE_CONTACTS)
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
def test_a_caution_tells_what_does_not_fit(case: Case, aircraft_folder: AircraftFolder) -> None:
    finding = named(case.name, check(aircraft_folder(case.wrong)).findings)[0]
    assert case.told in f"{finding.sentence} {finding.do}"


# The entry that a finding stands on: a text in it, after which the acceptance is written.
ACCEPTED = {
    "single-contact": (SINGLE_CONTACT["the pole of two servos"], "{role: negative, ", "accept: {NAME: a reason}, "),
    "crimp-fit": (CRIMP_FIT["too thick for the plug"], "    label: RUD\n", "    accept: {NAME: a reason}\n"),
    "swap": (SWAP["within reach of the other wing's"], SHELL, "    accept: {NAME: a reason}\n"),
    "live-pins": (LIVE_PINS["the fixed half"], SHELL, "    accept: {NAME: a reason}\n"),
    "live-pins of a pack": (
        LIVE_PINS["a pack's plug"],
        "  pack:\n    kind: battery\n",
        "    accept: {NAME: a reason}\n",
    ),
    "spare-contacts": (SPARE_CONTACTS["one of six"], SHELL, "    accept: {NAME: a reason}\n"),
}


@pytest.mark.parametrize(("case", "entry", "accept"), ACCEPTED.values(), ids=ACCEPTED)
def test_it_can_be_accepted_on_the_entry_it_stands_on(
    case: Case, entry: str, accept: str, aircraft_folder: AircraftFolder
) -> None:
    old = case.wrong["harness.yaml"]
    assert isinstance(old, list)
    plain = [(before, after.replace("▶", "")) for before, after in old]
    added = (entry, entry + accept.replace("NAME", case.name))
    findings = check(aircraft_folder({**case.wrong, "harness.yaml": [*plain, added]})).findings
    assert {finding.accepted for finding in named(case.name, findings)} == {"a reason"}
    assert named("accept", findings) == []


@pytest.mark.parametrize(
    ("reach", "disconnects"),
    [
        ("175 mm", ["left-root", "right-root"]),
        ("{left: 175 mm, right: 100 mm}", ["left-root"]),
        ("{left: 100 mm, right: 175 mm}", ["right-root"]),
    ],
)
def test_a_swap_stands_on_the_disconnect_whose_loose_half_reaches(
    reach: str, disconnects: list[str], aircraft_folder: AircraftFolder
) -> None:
    found = named("swap", check(aircraft_folder(reaching(reach))).findings)
    assert sorted(finding.subject[1] for finding in found) == disconnects


def test_a_receiver_may_carry_live_pins(aircraft_folder: AircraftFolder) -> None:
    assert named("live-pins", check(aircraft_folder()).findings) == []
