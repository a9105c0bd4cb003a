from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from conftest import AircraftFolder, Case, Changes, Place

from docgen.basics.findings import Finding

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], set[Place]]

SUPPLY = "    from: pack\n    to: receiver BATT\n    lead: power-20\n"
AILERON = (
    "  <side>-aileron:\n    label: {left: AIL L, right: AIL R}\n    from: {left: receiver 1, right: receiver 2}\n"
    "    to: <side>-aileron\n    through: [<side>-root]\n    lead: servo-22\n"
)
RUDDER = "  rudder:\n    label: RUD\n    from: receiver 4\n    to: rudder\n    lead: servo-22\n"
THROUGH_LEAD = "    through: [<side>-root]\n    lead: servo-22\n"
LOOP = "    loop: 80 mm                          # coiled at the servo, so that it comes out through its cover\n"
FIN = ("  tail-post: ", "  fin: {assembly: fuselage}\n  fin-top: {assembly: fuselage}\n  tail-post: ")
FIN_RUN = "  - {between: [tail-post, fin], length: 90 mm}\n"
TAIL_RUN = "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n"
FIXED = "{place: <side>-root,       contacts: sockets, key: up}"
SMALL_SHELL = (
    "shells:\n  small:\n    rows: [[1, 2]]\n    pitch: {across: 5 mm, down: 5 mm}\n    outline: [20 mm, 12 mm]\n"
    "    contact: {rating: 3 A, resistance: 10 mohm}\n"
)
SERVOS = "".join(
    f"  <side>-{name}:\n    kind: servo\n    place: <side>-aileron\n    lead: 250 mm\n    plug: servo-3\n"
    for name in ("flap", "tab")
)
MORE_CIRCUITS = (
    "  <side>-flap:\n    from: {left: receiver 5, right: receiver 6}\n    to: <side>-flap\n"
    "    through: [<side>-root]\n    lead: servo-22\n"
)
THIRD_CIRCUIT = (
    "  <side>-tab:\n    from: {left: receiver 7, right: receiver 8}\n    to: <side>-tab\n"
    "    through: [<side>-root]\n    lead: servo-22\n"
)
PATCH = "  patch:\n    from: receiver 3\n    to: receiver 5\n    lead: servo-22\n"
TAIL_JOINT = (
    "  tail:\n    shell: servo-3\n    fixed: {place: tail-post, contacts: sockets}\n"
    "    loose: {place: tail-post, contacts: pins, reach: 50 mm}\n"
)


def supply(old: str, new: str) -> Changes:
    return {"harness.yaml": [(SUPPLY, SUPPLY.replace(old, new))]}


def aileron(old: str, new: str) -> Changes:
    return {"harness.yaml": [(AILERON, AILERON.replace(old, new))]}


def rudder(old: str, new: str, *more: tuple[str, str]) -> Changes:
    return {"harness.yaml": [(RUDDER, RUDDER.replace(old, new)), *more]}


def three_in_a_wing(flap: str = MORE_CIRCUITS, tab: str = THIRD_CIRCUIT, shell: str = "block-6") -> Changes:
    return {
        "harness.yaml": [
            ("names: 1..4", "names: 1..8"),
            ("  rudder:\n    kind", SERVOS + "  rudder:\n    kind"),
            ("shell: block-6", f"shell: {shell}"),
            (RUDDER, flap + tab + RUDDER),
        ]
    }


def two_in_a_wing(aileron_contacts: str, flap_contacts: str) -> Changes:
    return {
        "harness.yaml": [
            ("names: 1..4", "names: 1..8"),
            ("  rudder:\n    kind", SERVOS + "  rudder:\n    kind"),
            (AILERON, AILERON + f"    contacts: {{<side>-root: {aileron_contacts}}}\n"),
            (RUDDER, MORE_CIRCUITS + f"    contacts: {{<side>-root: {flap_contacts}}}\n" + RUDDER),
        ]
    }


def patched(patch: str, *more: tuple[str, str]) -> Changes:
    return {"harness.yaml": [("names: 1..4", "names: 1..5"), (RUDDER, patch + RUDDER), *more]}


def tail_joint(lead: str, shell: str = "servo-3") -> Changes:
    new = RUDDER.replace("lead: servo-22", f"through: [tail]\n    lead: {lead}")
    joint = TAIL_JOINT.replace("servo-3", shell)
    return {"harness.yaml": [("disconnects:\n", "disconnects:\n" + joint), (RUDDER, new)]}


ROUTE = {
    "a run is missing": Case(
        "route",
        {"aircraft.yaml": [FIN, (TAIL_RUN, FIN_RUN)], **rudder("  rudder", "  ▶rudder")},
        {"aircraft.yaml": [(TAIL_RUN, TAIL_RUN.replace("radio-tray, tail-post", "tail-post, radio-tray"))]},
        "runs",
    ),
    "a place to come by is not on the way": Case(
        "route",
        rudder("    to:", "    by: [▶left-aileron]\n    to:"),
        rudder("    to:", "    by: [battery-bay]\n    to:"),
    ),
    "nothing leads to a place to come by": Case(
        "route",
        {
            "aircraft.yaml": [FIN, (TAIL_RUN, TAIL_RUN + FIN_RUN.replace("tail-post", "fin-top"))],
            **rudder("  rudder:\n", "  ▶rudder:\n    by: [fin]\n"),
        },
        rudder("  rudder:\n", "  rudder:\n    by: [radio-tray]\n"),
    ),
}
THROUGH = {
    "a disconnect is missing": Case(
        "through",
        aileron(
            AILERON,
            AILERON.replace("    through: [<side>-root]\n", "").replace("  <side>-aileron:", "  ▶<side>-aileron:", 1),
        ),
        {},
        "left-root",
    ),
    "the other wing's is named": Case(
        "through",
        aileron("[<side>-root]", "{left: ▶[right-root], right: ▶[left-root]}"),
        aileron("[<side>-root]", "{left: [left-root], right: [right-root]}"),
    ),
    "one is out of place": Case(
        "through",
        rudder("    lead", "    through: [left-root, ▶right-root]\n    lead"),
        {},
    ),
    "one is passed without need": Case("through", rudder("    lead", "    through: ▶[left-root]\n    lead"), {}),
    "own leads can't cross": Case(
        "through",
        {
            "harness.yaml": [
                (LOOP, ""),
                (AILERON, AILERON.replace(THROUGH_LEAD, "").replace("  <side>", "  ▶<side>", 1)),
            ]
        },
        {},
        "lead",
    ),
}
CONTACTS = {
    "too few": Case(
        "contacts",
        {**three_in_a_wing(shell="▶block-6")},
        three_in_a_wing(shell="block-10"),
    ),
    "too few for one": Case(
        "contacts",
        {"harness.yaml": [("shell: block-6", "shell: ▶small")], "parts.yaml": SMALL_SHELL},
        {
            "harness.yaml": [("shell: block-6", "shell: small")],
            "parts.yaml": SMALL_SHELL.replace("[1, 2]", "[1, 2, 3]"),
        },
    ),
    "fewer pinned than wires": Case(
        "contacts",
        aileron("    lead", "    contacts: {<side>-root: ▶[4, 5]}\n    lead"),
        aileron("    lead", "    contacts: {<side>-root: [4, 5, 6]}\n    lead"),
        "negative, positive, signal",
    ),
    "more pinned than wires": Case(
        "contacts",
        aileron("    lead", "    contacts: {<side>-root: ▶[3, 4, 5, 6]}\n    lead"),
        aileron("    lead", "    contacts: {<side>-root: [6, 5, 4]}\n    lead"),
    ),
    "an unknown one pinned": Case(
        "contacts",
        aileron("    lead", "    contacts: {<side>-root: [4, 5, ▶7]}\n    lead"),
        aileron("    lead", "    contacts: {<side>-root: [4, 5, 1]}\n    lead"),
        "1, 2, 3, 4, 5, 6",
    ),
    "one pinned for two circuits": Case(
        "contacts", two_in_a_wing("[1, 2, 3]", "[4, ▶3, 5]"), two_in_a_wing("[1, 2, 3]", "[4, 6, 5]")
    ),
    "pinned where it does not pass": Case(
        "contacts",
        rudder("    lead", "    contacts: {▶left-root: [4, 5, 6]}\n    lead"),
        aileron("    lead", "    contacts: {<side>-root: [4, 5, 6]}\n    lead"),
    ),
    "pinned against the plug of a plain joint": Case(
        "contacts",
        tail_joint("servo-22\n    contacts: {tail: ▶[3, 2, 1]}"),
        tail_joint("servo-22\n    contacts: {tail: [1, 2, 3]}"),
    ),
}
MATE = {
    "both halves carry pins": Case(
        "mate",
        {
            "harness.yaml": [
                (FIXED, FIXED.replace("sockets", "pins")),
                ("contacts: pins, reach", "contacts: ▶pins, reach"),
            ]
        },
        {
            "harness.yaml": [
                (FIXED, FIXED.replace("sockets", "pins")),
                ("contacts: pins, reach", "contacts: sockets, reach"),
            ]
        },
    ),
    "both free halves carry sockets": Case(
        "mate",
        {
            "harness.yaml": [
                (
                    f"    fixed: {FIXED}\n",
                    "    halves:\n      - {place: <side>-root, contacts: sockets, reach: 50 mm}\n",
                ),
                (
                    "    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}",
                    "      - {place: <side>-panel-root, contacts: ▶sockets, reach: 120 mm}",
                ),
            ]
        },
        {
            "harness.yaml": [
                (
                    f"    fixed: {FIXED}\n",
                    "    halves:\n      - {place: <side>-root, contacts: sockets, reach: 50 mm}\n",
                ),
                (
                    "    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}",
                    "      - {place: <side>-panel-root, contacts: pins, reach: 120 mm}",
                ),
            ]
        },
    ),
    "plugs of two kinds": Case(
        "mate",
        supply(SUPPLY, "    from: pack\n    to: ▶receiver 3\n"),
        supply(SUPPLY, "    from: pack\n    to: receiver BATT\n"),
    ),
    "two plugs with sockets": Case(
        "mate",
        {
            "harness.yaml": [
                (SUPPLY, "    from: pack\n    to: ▶receiver BATT\n"),
                ("names: [BATT], contacts: pins", "names: [BATT], contacts: sockets"),
            ]
        },
        {"harness.yaml": [("names: [BATT], contacts: pins", "names: [BATT], contacts: sockets")]},
    ),
}
ROLE = {
    "a plug has no contact for a wire": Case(
        "role",
        supply("power-20", "▶servo-22"),
        supply("power-20", "servo-22\n    omit: [signal]"),
        "negative, positive",
    ),
    "the far plug has none": Case(
        "role",
        {
            "harness.yaml": [
                (SUPPLY, SUPPLY.replace("power-20", "▶servo-22").replace("receiver BATT", "receiver 3")),
            ]
        },
        supply("receiver BATT", "receiver 3"),
    ),
    "a segment lacks a wire": Case(
        "role",
        aileron("servo-22", "{A: servo-22, B: ▶power-20}"),
        aileron("servo-22", "{A: servo-22, B: servo-24}"),
    ),
    "there is no such wire to leave out": Case(
        "role",
        rudder("    lead", "    omit: [▶data]\n    lead"),
        rudder("    lead", "    omit: [signal]\n    lead"),
        "negative, positive, signal",
    ),
    "a plain joint has none": Case("role", tail_joint("▶servo-22", "power-2"), tail_joint("servo-22")),
}
CIRCLE = {
    "a port feeds its own equipment": Case(
        "circle",
        patched(PATCH.replace("receiver 3", "▶receiver 3")),
        patched(PATCH + "    omit: [positive]\n"),
        "omit: [positive]",
    ),
    "a port that feeds nothing is no circle": Case(
        "circle",
        patched(
            PATCH.replace("receiver 3", "▶receiver 3"),
            ("    volts: {least: 3.6 V", "    fed_by: [BATT, 5]\n    volts: {least: 3.6 V"),
        ),
        patched(PATCH, ("    volts: {least: 3.6 V", "    fed_by: [BATT]\n    volts: {least: 3.6 V")),
    ),
}
UNFED = {
    "no pack is plugged in": Case(
        "unfed",
        {
            "harness.yaml": [
                ("  supply:\n    label: RX BATT\n" + SUPPLY, ""),
                ("left: receiver 1, right: receiver 2", "left: ▶receiver 1, right: ▶receiver 2"),
                (RUDDER, RUDDER.replace("receiver 4", "▶receiver 4")),
            ]
        },
        supply("receiver BATT", "receiver 3"),
        "battery",
    ),
    "the pack's positive is left out": Case(
        "unfed",
        {
            "harness.yaml": [
                (SUPPLY, SUPPLY + "    omit: [positive]\n"),
                ("left: receiver 1, right: receiver 2", "left: ▶receiver 1, right: ▶receiver 2"),
                (RUDDER, RUDDER.replace("receiver 4", "▶receiver 4")),
            ]
        },
        {
            "harness.yaml": [
                (SUPPLY, SUPPLY + "    omit: [positive]\n"),
                (AILERON, AILERON + "    omit: [positive]\n"),
                (RUDDER, RUDDER + "    omit: [positive]\n"),
            ]
        },
    ),
    "the pack feeds a port that does not feed": Case(
        "unfed",
        {
            "harness.yaml": [
                ("    volts: {least: 3.6 V", "    fed_by: [3]\n    volts: {least: 3.6 V"),
                ("left: receiver 1, right: receiver 2", "left: ▶receiver 1, right: ▶receiver 2"),
                (RUDDER, RUDDER.replace("receiver 4", "▶receiver 4")),
            ]
        },
        {"harness.yaml": [("    volts: {least: 3.6 V", "    fed_by: [BATT]\n    volts: {least: 3.6 V")]},
    ),
}
ALL = {
    f"{case.name}: {about}": case
    for table in (ROUTE, THROUGH, CONTACTS, MATE, ROLE, CIRCLE, UNFED)
    for about, case in table.items()
}
TOLD = {about: case for about, case in ALL.items() if case.told}


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_an_error_is_found_where_it_was_typed(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    found = errors_in(aircraft_folder(case.wrong))
    assert places_of(found) == aircraft_folder.marked(case.name)


@pytest.mark.parametrize("case", ALL.values(), ids=ALL)
def test_a_nearly_equal_definition_has_no_error(
    case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    assert errors_in(aircraft_folder(case.right)) == []


@pytest.mark.parametrize("case", TOLD.values(), ids=TOLD)
def test_an_error_offers_what_would_do(case: Case, aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    finding = errors_in(aircraft_folder(case.wrong))[0]
    assert case.told in f"{finding.sentence} {finding.do}"


NO_CIRCUIT = "Add a circuit from a battery to `receiver`, or begin this one where there is supply."
ACROSS = "it comes to `{}` but ends in `{}`, with no disconnect between."
MORE_CONTACTS = "Choose a shell with more contacts, or another disconnect for some circuits."
# By hand: of what is written twice for `<side>` the left one comes first.
SAID = {
    "route: a run is missing": (
        "no runs lead from `radio-tray` to `tail-post`.",
        "Add the run that is missing to `runs:`.",
    ),
    "route: a place to come by is not on the way": (
        "the route does not come by `left-aileron` in this order.",
        "Name places in the assemblies that it passes, in the order of the route.",
    ),
    "through: a disconnect is missing": (ACROSS.format("fuselage", "left-panel"), "Add `left-root` to `through:`."),
    "through: the other wing's is named": (
        ACROSS.format("right-panel", "left-panel"),
        "Put `left-root` in place of `right-root` in `through:`.",
    ),
    "through: one is out of place": (
        "`right-root` joins fuselage, right-panel, but the circuit is in `left-panel` there.",
        "Name disconnects in the order in which the circuit passes them, from its `from` on.",
    ),
    "through: one is passed without need": (
        ACROSS.format("left-panel", "fuselage"),
        "Leave `left-root` out of `through:`.",
    ),
    "through: own leads can't cross": (
        ACROSS.format("fuselage", "left-panel"),
        "Give it a `lead:`, and name in `through:` the disconnect that it passes.",
    ),
    "contacts: too few": (
        "`block-6` has 6 contacts, 9 are needed; there is no room for left-tab.",
        MORE_CONTACTS,
    ),
    "contacts: too few for one": (
        "`small` has 2 contacts, 3 are needed; there is no room for left-aileron.",
        MORE_CONTACTS,
    ),
    "contacts: fewer pinned than wires": (
        "2 contacts are pinned for 3 wires.",
        "Pin one for each, in this order: negative, positive, signal.",
    ),
    "contacts: an unknown one pinned": ("`left-root` has no contact `7`.", "It has: 1, 2, 3, 4, 5, 6."),
    "contacts: one pinned for two circuits": (
        "the contact `3` is pinned for `left-aileron` too.",
        "Pin another for one of the two.",
    ),
    "contacts: pinned against the plug of a plain joint": (
        "the plug `servo-3` has its roles on other contacts.",
        "Pin 1, 2, 3, or leave it out: contacts of a plug follow from its roles.",
    ),
    "mate: plugs of two kinds": (
        "`pack` has the plug `power-2`, `receiver 3` `servo-3`.",
        "Give it a `lead:` with the right plugs.",
    ),
    "mate: two plugs with sockets": (
        "`pack` and `receiver BATT` both carry sockets.",
        "Give it a `lead:`, or correct `contacts:` of a port.",
    ),
    "role: a plug has no contact for a wire": (
        "`servo-22` has a `signal`, the plug of `pack` has none.",
        "Choose a lead with negative, positive, or `omit: [signal]`.",
    ),
    "role: a segment lacks a wire": (
        "segment B lacks the wire `signal` that segment A has.",
        "Give both segments leads with the same roles, or a common that brings it.",
    ),
    "role: there is no such wire to leave out": (
        "there is no `data` to leave out.",
        "It has: negative, positive, signal.",
    ),
    "circle: a port feeds its own equipment": (
        "a supply feeds itself: receiver → receiver.",
        "Leave the positive out of one of its leads (`omit: [positive]`), or say `fed_by:`.",
    ),
    "unfed: no pack is plugged in": (
        "nothing feeds `receiver`, so this circuit has no battery behind it.",
        NO_CIRCUIT,
    ),
}


@pytest.mark.parametrize(("about", "said"), SAID.items(), ids=SAID)
def test_an_error_says_this(
    about: str, said: tuple[str, str], aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    finding = errors_in(aircraft_folder(ALL[about].wrong))[0]
    assert (finding.sentence, finding.do) == said


def test_a_shell_that_is_too_small_names_who_did_not_fit(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    said = " ".join(finding.sentence for finding in errors_in(aircraft_folder(three_in_a_wing())))
    assert [name in said for name in ("left-aileron", "left-flap", "left-tab", "right-tab")] == [
        False,
        False,
        True,
        True,
    ]


def test_a_contact_pinned_twice_for_one_circuit_is_pinned_wrongly(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    folder = aircraft_folder(aileron("    lead", "    contacts: {<side>-root: [4, 5, 5]}\n    lead"))
    assert {finding.name for finding in errors_in(folder)} == {"contacts"}


def test_several_disconnects_that_would_do_are_offered_in_their_order(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    folder = aircraft_folder(
        {
            "aircraft.yaml": [("  tail-post: ", "  <side>-tip: {assembly: <side>-tip}\n  tail-post: ")],
            "harness.yaml": [
                ("    place: <side>-aileron\n", "    place: <side>-tip\n"),
                (
                    "disconnects:\n",
                    "disconnects:\n  <side>-end:\n    shell: block-6\n    fixed: {place: <side>-aileron,"
                    " contacts: sockets}\n    loose: {place: <side>-tip, reach: 50 mm}\n",
                ),
                ("    through: [<side>-root]\n", ""),
            ],
        }
    )
    assert "`left-root`, then `left-end`" in errors_in(folder)[0].do


def test_two_supplies_that_feed_each_other_are_one_circle(aircraft_folder: AircraftFolder, errors_in: ErrorsIn) -> None:
    box = (
        "  box:\n    kind: power unit\n    place: radio-tray\n"
        "    ports: {plug: servo-3, names: [in, out], contacts: pins}\n"
    )
    circuits = (
        "  there:\n    from: receiver 3\n    to: box in\n    lead: servo-22\n"
        "  back:\n    from: box out\n    to: receiver 5\n    lead: servo-22\n"
    )
    folder = aircraft_folder(patched(circuits, ("  pack:\n    kind", box + "  pack:\n    kind")))
    assert [finding.name for finding in errors_in(folder)] == ["circle"]


def test_what_has_no_lead_can_not_plug_straight_in(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn, places_of: PlacesOf
) -> None:
    changes = {
        "harness.yaml": [
            ("names: 1..4, contacts: pins", "names: 1..3, contacts: pins"),
            (
                "      - {plug: power-2, names",
                "      - {plug: servo-3, names: [4], contacts: sockets}\n      - {plug: power-2, names",
            ),
            (RUDDER + "    loop: 80 mm\n", "  ▶rudder:\n    from: receiver 3\n    to: receiver 4\n"),
        ]
    }
    found = errors_in(aircraft_folder(changes))
    assert places_of(found) == aircraft_folder.marked("missing")


def test_a_contact_of_a_plain_joint_is_given_for_its_role_only(
    aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    # Both want the joint's only negative; neither may be put on the contact of another role.
    circuits = "".join(
        f"  {name}: {{from: receiver 3, to: {name}, through: [tail], lead: ground}}\n".replace("3", port)
        for name, port in (("one", "3"), ("two", "5"))
    )
    servos = "".join(
        f"  {name}: {{kind: sensor, place: tail-post, lead: 90 mm, plug: servo-3}}\n" for name in ("one", "two")
    )
    folder = aircraft_folder(
        {
            "harness.yaml": [
                ("names: 1..4", "names: 1..5"),
                ("  pack:\n    kind", servos + "  pack:\n    kind"),
                ("disconnects:\n", "disconnects:\n" + TAIL_JOINT),
                (RUDDER, circuits + RUDDER),
            ],
            "parts.yaml": "leads: {ground: {wires: {negative: pvc-22 BK}}}\n",
        }
    )
    assert [(finding.name, "two" in finding.sentence) for finding in errors_in(folder)] == [("contacts", True)]
