"""What the cards of the smallest aircraft say, read back from the PDF, against what its builder wrote, by hand."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest
from printed_cards import PrintedCard, PrintedView, Row, cards_of
from resolved import EXAMPLES, harness_of

from docgen.paperwork.cards.halves import half_card

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder, Changes

CONTACTS = tuple("123456")
HALVES = (("left-root", "fixed"), ("left-root", "loose"), ("right-root", "fixed"), ("right-root", "loose"))


@cache
def wren() -> dict[tuple[str, str], PrintedCard]:
    """Return the cards by title and half, of equipment without half."""
    return by_half(cards_of(harness_of(EXAMPLES / "wren")))


def by_half(cards: list[PrintedCard]) -> dict[tuple[str, str], PrintedCard]:
    """Return cards by title and half, as a builder tells them apart."""
    found = {}
    for card in cards:
        half = next((word for word in ("fixed", "loose") if card.texts[1].startswith(f"{word} half")), "")
        assert (card.title, half) not in found
        found[card.title, half] = card
    return found


def seen(view: PrintedView) -> tuple[str, ...]:
    """Read the numbers of a view as an eye does: rows from the top, each from the left."""
    rows: dict[float, list[tuple[float, str]]] = {}
    for contact, (right, up) in view.at_mm.items():
        rows.setdefault(round(up, 1), []).append((right, contact))
    return tuple(" ".join(contact for _, contact in sorted(rows[up])) for up in sorted(rows, reverse=True))


def test_there_is_a_card_for_each_half_and_for_what_has_ports() -> None:
    # In the order of the assemblies: what lies in the fuselage, then what is plugged to it.
    assert list(wren()) == [("receiver", ""), *HALVES]


@pytest.mark.parametrize(
    ("joint", "half", "says"),
    [
        (
            "left-root",
            "fixed",
            (
                "fixed half · sockets",
                "at left-root, fuselage · access: wing off",
                "block-6",
                "mates with the loose half at left-panel-root (pins, reach 120 mm)",
            ),
        ),
        (
            "left-root",
            "loose",
            (
                "loose half · pins",
                "at left-panel-root, left-panel · access: wing off",
                "block-6",
                "mates with the fixed half at left-root (sockets)",
            ),
        ),
        (
            "right-root",
            "fixed",
            (
                "fixed half · sockets",
                "at right-root, fuselage · access: wing off",
                "mates with the loose half at right-panel-root (pins, reach 120 mm)",
            ),
        ),
        (
            "right-root",
            "loose",
            (
                "loose half · pins",
                "at right-panel-root, right-panel · access: wing off",
                "mates with the fixed half at right-root (sockets)",
            ),
        ),
    ],
)
def test_a_card_says_which_half_it_is_where_it_is_and_what_it_mates_with(
    joint: str, half: str, says: tuple[str, ...]
) -> None:
    for words in says:
        assert words in wren()[joint, half].said


# The key of the fixed half points up, where the parts list has it; the loose half hangs free. Pins stand as the
# parts list has them, 1 2 3 over 4 5 6, sockets in a mirror; from the wires it is the other way round.
@pytest.mark.parametrize("joint", ["left-root", "right-root"])
def test_the_contacts_stand_as_they_come_at_the_eye(joint: str) -> None:
    as_listed, in_a_mirror = ("1 2 3", "4 5 6"), ("3 2 1", "6 5 4")
    fixed, loose = (wren()[joint, half].views(CONTACTS) for half in ("fixed", "loose"))
    assert tuple(map(seen, fixed)) == (in_a_mirror, as_listed)
    assert tuple(map(seen, loose)) == (as_listed, in_a_mirror)
    assert {view.key_side for view in (*fixed, *loose)} == {"up"}
    assert all(view.colours == {"1": "BK", "2": "RD", "3": "WH"} for view in (*fixed, *loose))
    assert [view.first for view in (*fixed, *loose)] == [{"1"}] * 4


def test_only_the_half_that_sits_in_a_hatch_is_said_to_be_turned_to_it() -> None:
    for joint, half in HALVES:
        said = wren()[joint, half].said
        assert ("key as it sits in the hatch" in said) == (half == "fixed")
        assert ("not turned to the hatch" in said) == (half == "loose")


# Marks as the method counts them: servos take C, of each side the positive and the signal a number, the negative the
# first again with N; A is the lead in the fuselage, B that in the panel.
@pytest.mark.parametrize(("joint", "numbers", "segments"), [("left-root", (1, 2), "AB"), ("right-root", (3, 4), "AB")])
def test_every_contact_says_what_lies_behind_its_own_half(joint: str, numbers: tuple[int, int], segments: str) -> None:
    side = joint.partition("-")[0]
    function, port = {"left": ("AIL L", "receiver 1"), "right": ("AIL R", "receiver 2")}[side]
    for half, segment in zip(("fixed", "loose"), segments, strict=True):
        first, second = (f"C{number}{segment}22" for number in numbers)
        # The fixed half's wires go to the receiver, the loose half's to the servo.
        shared = {"AWG": "22", "function": function, "goes to": port if half == "fixed" else f"{side}-aileron"}
        expected: dict[str, Row] = {
            "1": shared | {"colour": "BK", "mark": f"{first}N"},
            "2": shared | {"colour": "RD", "mark": first},
            "3": shared | {"colour": "WH", "mark": second},
        }
        rows = wren()[joint, half].rows(CONTACTS)
        assert {contact: without_place(row) for contact, row in rows.items()} == expected
        assert "Spare: 4–6" in wren()[joint, half].said


def without_place(row: Row) -> Row:
    return {column: text for column, text in row.items() if column != "base"}


def test_the_receiver_s_card_says_where_it_is() -> None:
    assert "at radio-tray, fuselage · access: canopy" in wren()["receiver", ""].said


# What is said of a half or of equipment as a whole, each written into the smallest aircraft in one place

ROOT, RECEIVER = "    shell: block-6\n", "    kind: receiver\n"


def with_line(after: str, line: str) -> Changes:
    return {"harness.yaml": [(after, f"{after}    {line}\n")]}


@pytest.mark.parametrize(
    ("after", "line", "says"),
    [
        (ROOT, "note: Tape over it in the wet.", "Tape over it in the wet."),
        (ROOT, "keyed: {left: K, right: M}", "Keyed K"),
        (RECEIVER, "note: Bind it with the pack out.", "Bind it with the pack out."),
        (RECEIVER, "on: comes on with the pack", "On: comes on with the pack"),
        (RECEIVER, "off: goes dark with the pack", "Off: goes dark with the pack"),
        (RECEIVER, "fed_by: [BATT]", "Fed by BATT"),
    ],
)
def test_what_is_said_of_the_whole_stands_on_its_card_alone(
    after: str, line: str, says: str, aircraft_folder: AircraftFolder
) -> None:
    cards = by_half(cards_of(harness_of(aircraft_folder(with_line(after, line)))))
    own = {("left-root", "fixed"), ("left-root", "loose")} if after == ROOT else {("receiver", "")}
    both = own | {("right-root", "fixed"), ("right-root", "loose")} if "note" in line and after == ROOT else own
    assert {key for key, card in cards.items() if says in card.said} == both


def test_a_lock_is_said_on_both_halves() -> None:
    # The blocks of 8 and more have latches, of 6 none.
    assert not any("latch" in card.said for card in wren().values())
    for card in fulmar_joint("tail").values():
        assert "Lock: a latch at each end; press both" in card.said


@cache
def fulmar() -> list[PrintedCard]:
    return cards_of(harness_of(EXAMPLES / "fulmar"))


def fulmar_joint(name: str) -> dict[str, PrintedCard]:
    return {card.texts[1].split()[0]: card for card in fulmar() if card.title == name}


def test_a_common_s_contacts_are_fed_from_where_it_comes_and_say_whom_they_serve() -> None:
    card = fulmar_joint("left-wing-b")["fixed"]
    assert "wing-positive 1+2" in card.said
    assert "fed by WING L" in card.said
    assert "for AIL L OUT, FLAP L, BEACON L" in card.said
    rows = card.rows([str(i) for i in range(1, 15)])
    for contact in "1234":
        said = rows[contact]
        assert (said["goes to"], said["mark"]) == ("splice behind it", "tail")


def test_keyed_halves_say_their_letter() -> None:
    assert all("Keyed C: mates with no other letter" in card.said for card in fulmar_joint("tail").values())
    assert all("Keyed A: mates" in card.said for card in fulmar_joint("left-wing-a").values())
    assert all("Keyed B: mates" in card.said for card in fulmar_joint("right-wing-a").values())


def test_a_plug_without_a_pitch_is_not_drawn_as_if_to_scale() -> None:
    # The servo plug's pitch is known, the power plug's is not; its numbers have room inside it only twice as large.
    assert "drawn 2 : 1" in fulmar_joint("hatch-joint")["fixed"].said


@pytest.mark.parametrize("kind", ["speed controller", "engine unit", "motor", "smoke"])
def test_what_drives_and_has_no_fail_safe_says_so(kind: str, aircraft_folder: AircraftFolder) -> None:
    driver = f"equipment:\n  driver: {{kind: {kind}, place: tail-post, lead: 90 mm, plug: servo-3}}\n"
    circuit = "circuits:\n  drive: {label: DRIVE, from: receiver 3, to: driver, lead: servo-22, channel: 3}\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", driver), ("circuits:\n", circuit)]})
    rows = by_half(cards_of(harness_of(folder)))["receiver", ""].rows(["1", "2", "3", "4"])
    # Surfaces stay where they are without one; it is for the builder to say.
    assert {port: row.get("fail-safe") for port, row in rows.items()} == {
        "1": None,
        "2": None,
        "3": "not set",
        "4": None,
    }


def test_what_is_said_below_a_half_s_table_is_a_paragraph_for_each_thing_and_nothing_else(
    aircraft_folder: AircraftFolder,
) -> None:
    harness = harness_of(aircraft_folder(with_line(ROOT, "keyed: {left: K, right: M}\n    note: Tape over it.")))
    for index, mates in enumerate(
        ("the loose half at left-panel-root (pins, reach 120 mm)", "the fixed half at left-root (sockets)")
    ):
        assert half_card(harness, harness.disconnects["left-root"], index).said == (
            "Spare: 4–6",
            f"block-6 · mates with {mates}",
            "Keyed K: mates with no other letter.",
            "Tape over it.",
            "Not yet held against the part in hand: check numbers and key first.",
        )


def test_only_contacts_that_are_soldered_here_are_said_to_be(tmp_path: Path) -> None:
    """Of Fulmar's joints the hatch's alone is of servo plugs; its loose half is the one that the servo came with."""
    contact = "{rating: 3 A, brief: 5 A, resistance: 10 mohm, strip: 2.5 mm, takes: [28 AWG, 22 AWG], over: 1.7 mm"
    contact += ", join: solder}"
    roles = "contacts: {1: negative, 2: positive, 3: signal}, equipment: sockets, size: [8 mm, 2.9 mm]"
    for path in (EXAMPLES / "fulmar").glob("*.yaml"):
        (tmp_path / path.name).write_text(path.read_text("utf-8"), "utf-8")
    (tmp_path / "parts.yaml").write_text(f"plugs:\n  servo-3: {{{roles}, contact: {contact}}}\n", "utf-8")
    harness = harness_of(tmp_path)
    soldered = "Contacts are soldered: to move one, unsolder it and give it a new tube."
    said = {
        (name, half.name)
        for name, joint in harness.disconnects.items()
        for index, half in enumerate(joint.halves)
        if soldered in half_card(harness, joint, index).said
    }
    assert said == {("hatch-joint", "fixed")}
