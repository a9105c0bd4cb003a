"""Labels, plugs and channels: each caution where it was typed, and a nearly equal definition without it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest
from conftest import AircraftFolder, Case, Changes, Place, Replacements

from docgen.basics.findings import Finding
from docgen.pipeline import check

PlacesOf = Callable[[list[Finding]], set[Place]]

CIRCUITS = "circuits:\n"
SIDES = "    label: {left: AIL L, right: AIL R}\n"
RUDDER = "  rudder:\n    kind: servo\n    place: tail-post\n    lead: 300 mm\n    plug: servo-3\n"
PLUG = (
    "plugs:\n  mine:\n    contacts: {1: ORDER}\n    equipment: sockets\n"
    "    contact: {rating: 3 A, resistance: 10 mohm}\n    size: [8 mm, 2.9 mm]\n"
)


def changed(*harness: tuple[str, str], aircraft: Sequence[tuple[str, str]] = (), parts: str = "") -> Changes:
    files: dict[str, str | Replacements | None] = {"harness.yaml": list(harness), "aircraft.yaml": list(aircraft)}
    return files | ({"parts.yaml": parts} if parts else {})


def labelled(aileron: str, rudder: str = "RUD") -> Changes:
    return changed((SIDES, f"    label: {aileron}\n"), ("label: RUD\n", f"label: {rudder}\n"))


# The load says the side; where it says none the circuit's name does, then the load's place.
OF_THE_CIRCUIT = ("  rudder:\n    label: RUD\n", "  left-rudder:\n    label: ▶RUD R\n")

TWINS = {
    "two alike": Case(
        "twins",
        labelled("{left: AIL, right: ▶AIL}"),
        labelled("{left: AIL L, right: AIL R}"),
        "`right-aileron` has the label `AIL`, as `left-aileron` has. Give each a label of its own.",
    ),
    "alike but for capitals": Case("twins", labelled("{left: AIL L, right: AIL R}", "▶ail  r"), labelled("AIL <side>")),
    "a letter of the other side": Case(
        "twins", labelled("{left: ▶AIL-R 2, right: AIL R}"), labelled("{left: AIL-L 2, right: AIL R}")
    ),
    "a word of the other side": Case(
        "twins", labelled("{left: AIL L, right: ▶left aileron}"), labelled("{left: AIL L, right: right aileron}")
    ),
    "both sides are said": Case(
        "twins", labelled("{left: AIL L, right: ▶AIL L2}"), labelled("{left: AIL L, right: L/R MIX}")
    ),
    "the circuit's name says the side": Case(
        "twins",
        changed(OF_THE_CIRCUIT),
        changed(("label: RUD\n", "label: RUD R\n")),
        "the label `RUD R` says right, `left-rudder` is on the left. Correct the label, or the end of the circuit.",
    ),
    "the load's place says the side": Case(
        "twins",
        changed((RUDDER, RUDDER.replace("tail-post", "left-root")), ("    label: RUD\n", "    label: ▶RUD RIGHT\n")),
        changed((RUDDER, RUDDER.replace("tail-post", "left-root")), ("    label: RUD\n", "    label: RUD LEFT\n")),
    ),
}

STRAIGHT, CROSSED = "negative, 2: positive, 3: signal", "signal, 2: positive, 3: negative"
MINE = RUDDER.replace("servo-3", "▶mine")


def first_of_all(plug: str) -> list[tuple[str, str]]:
    return [
        ("equipment:\n", f"equipment:\n  gyro: {{kind: gyro, place: radio-tray, lead: 90 mm, plug: {plug}}}\n"),
        ("circuits:\n", "circuits:\n  gyro: {from: receiver 3, to: gyro, lead: servo-22}\n"),
    ]


UNLIKE_PLUGS = {
    "crossed": Case(
        "unlike-plugs",
        changed((RUDDER, MINE), parts=PLUG.replace("ORDER", CROSSED)),
        changed((RUDDER, MINE), parts=PLUG.replace("ORDER", STRAIGHT)),
        "`mine` (signal, positive, negative) at `rudder` goes into `servo-3` (negative, positive, signal) at "
        "`receiver`, `left-aileron`, `right-aileron`. Give all the same plug, or crimp the contacts of `mine` in the "
        "order of the other.",
    ),
    "at a port": Case(
        "unlike-plugs",
        changed(
            ("{plug: power-2, names: [BATT], contacts: pins}", "{plug: mine, names: [BATT], contacts: pins}"),
            ("    plug: power-2\n", "    plug: ▶power-2\n"),
            parts=PLUG.replace("ORDER", "positive, 2: negative"),
        ),
        changed(
            ("{plug: power-2, names: [BATT], contacts: pins}", "{plug: mine, names: [BATT], contacts: pins}"),
            parts=PLUG.replace("ORDER", "negative, 2: positive"),
        ),
    ),
    "the one of fewer, though it is written first": Case(
        "unlike-plugs",
        changed(*first_of_all("▶mine"), parts=PLUG.replace("ORDER", CROSSED)),
        changed(*first_of_all("servo-3")),
    ),
    "other roles": Case(
        "unlike-plugs",
        changed((RUDDER, MINE), parts=PLUG.replace("ORDER", "positive, 2: signal, 3: negative")),
        changed((RUDDER, MINE), parts=PLUG.replace("ORDER", "signal, 2: positive, 3: negative, 4: sense")),
    ),
    "nothing is plugged in": Case(
        "unlike-plugs",
        changed((RUDDER, MINE), parts=PLUG.replace("ORDER", CROSSED)),
        changed(
            ("  pack:\n", "  spare: {kind: servo, place: tail-post, lead: 90 mm, plug: mine}\n  pack:\n"),
            parts=PLUG.replace("ORDER", CROSSED),
        ),
    ),
}

TAIL = "at: {aft: 1540 mm, up: 40 mm}, access: tail hatch}"
NO_HAND = (TAIL, TAIL.replace(", access: tail hatch", ""))
LOOSE = PLUG.replace("ORDER", STRAIGHT)
TO_RUDDER = ("    to: rudder\n", "    to: ▶rudder\n")
OTHER = (RUDDER, RUDDER.replace("servo-3", "mine"))
TWO_ROOTS = "  <side>-root:       {assembly: fuselage,     at: {aft: 600 mm, <side>: 80 mm, up: 90 mm}"
TWO_PANELS = "  <side>-panel-root: {assembly: <side>-panel, at: {aft: 600 mm, <side>: 90 mm, up: 90 mm}"
NO_ROOT, NO_PANEL = ((text + ", access: wing off}", text + "}") for text in (TWO_ROOTS, TWO_PANELS))

LOOSE_PLUG = {
    "a hand reaches": Case(
        "loose-plug",
        changed(OTHER, TO_RUDDER, aircraft=[NO_HAND], parts=LOOSE),
        changed(OTHER, TO_RUDDER, parts=LOOSE),
        "the pair `mine` at `rudder` has neither a lock nor a clip, and no hand reaches it at `tail-post`. Choose a "
        "plug with a lock or for a clip (`retainer: yes`), or let it lie where a hand reaches.",
    ),
    "a clip": Case(
        "loose-plug",
        changed(OTHER, TO_RUDDER, aircraft=[NO_HAND], parts=LOOSE),
        changed(OTHER, TO_RUDDER, aircraft=[NO_HAND], parts=f"{LOOSE}    retainer: yes\n"),
    ),
    "a lock": Case(
        "loose-plug",
        changed(OTHER, TO_RUDDER, aircraft=[NO_HAND], parts=LOOSE),
        changed(OTHER, TO_RUDDER, aircraft=[NO_HAND], parts=f"{LOOSE}    lock: a tongue\n"),
    ),
    "a joint that is reached from neither side": Case(
        "loose-plug",
        changed(("    shell: block-6\n", "    shell: ▶block-6\n"), aircraft=[NO_ROOT, NO_PANEL]),
        changed(("    shell: block-6\n", "    shell: block-6\n"), aircraft=[NO_PANEL]),
        "the pair `block-6` at `left-root` has neither a lock nor a clip, and no hand reaches it at `left-root`, "
        "`left-panel-root`. Choose a plug with a lock or for a clip (`retainer: yes`), or let it lie where a hand "
        "reaches.",
    ),
}

RUD_CHANNEL, AIL_CHANNEL = "    channel: 4\n", "    channel: {left: 1, right: 2}\n"
HOLD, CENTRE = "    failsafe: hold\n", "    failsafe: centre\n"
CH_RUDDER = ("  rudder:\n    label: RUD\n", "  ▶rudder:\n    label: RUD\n")
BOTH = (AIL_CHANNEL, AIL_CHANNEL + HOLD)
THROW = "    throw: 40 mm each way\n"


def second(says: str, rudder: str, *more: tuple[str, str], key: str = "tab") -> Changes:
    """Return another servo on the rudder's channel."""
    tab = "  tab: {kind: servo, place: tail-post, lead: 90 mm, plug: servo-3}\n"
    circuit = f"  {key}: {{from: receiver 3, to: tab, lead: servo-22, channel: 4{says}}}\n"
    return changed(
        ("  pack:\n", f"{tab}  pack:\n"), (RUD_CHANNEL, RUD_CHANNEL + rudder), (THROW, THROW + circuit), *more
    )


CHANNEL = {
    "two fail-safes": Case(
        "channel",
        second(", failsafe: ▶hold", CENTRE, BOTH),
        second(", failsafe: centre", CENTRE, BOTH),
        "channel 4 has two fail-safes: centre at `rudder`, hold at `tab`. Say the same at both, or give one another "
        "channel.",
    ),
    "a surface without one": Case(
        "channel",
        changed(BOTH, CH_RUDDER),
        changed(BOTH, (RUD_CHANNEL, RUD_CHANNEL + HOLD)),
        "`rudder` says no fail-safe, other surfaces do. Say it: `failsafe:`.",
    ),
    "it says one and no channel": Case("channel", changed(BOTH, CH_RUDDER), changed(BOTH, (RUD_CHANNEL, HOLD))),
    "no surface has one": Case("channel", changed(BOTH, CH_RUDDER), changed()),
    "another circuit of its channel says it": Case(
        "channel", second("", "", BOTH, CH_RUDDER, key="▶tab"), second("", CENTRE, BOTH)
    ),
}

TABLES = (TWINS, UNLIKE_PLUGS, LOOSE_PLUG, CHANNEL)
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
def test_a_caution_says_this(case: Case, aircraft_folder: AircraftFolder) -> None:
    finding = named(case.name, check(aircraft_folder(case.wrong)).findings)[0]
    assert f"{finding.sentence} {finding.do}" == case.told


# The entry that a finding stands on: a text in it, after which the acceptance is written.
ACCEPTED = {
    "twins": (TWINS["the circuit's name says the side"], "    label: RUD R\n"),
    "unlike-plugs": (UNLIKE_PLUGS["crossed"], "    plug: mine\n"),
    "loose-plug of a circuit": (LOOSE_PLUG["a clip"], "    to: rudder\n"),
    "loose-plug of a joint": (LOOSE_PLUG["a joint that is reached from neither side"], "    shell: block-6\n"),
    "channel": (CHANNEL["a surface without one"], "  rudder:\n    label: RUD\n"),
}


@pytest.mark.parametrize(("case", "entry"), ACCEPTED.values(), ids=ACCEPTED)
def test_it_can_be_accepted_on_the_entry_it_stands_on(case: Case, entry: str, aircraft_folder: AircraftFolder) -> None:
    old = case.wrong["harness.yaml"]
    assert isinstance(old, list)
    plain = [(before, after.replace("▶", "")) for before, after in old]
    added = (entry, f"{entry}    accept: {{{case.name}: a reason}}\n")
    findings = check(aircraft_folder({**case.wrong, "harness.yaml": [*plain, added]})).findings
    assert {finding.accepted for finding in named(case.name, findings)} == {"a reason"}
    assert named("accept", findings) == []
