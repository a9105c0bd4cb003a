"""How what differs is told in words and as data, line by line."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from reissue import small
from reissue.small import aileron, item, labels, rudder, servo, state
from reissue.test_small_states import A, after, both_circuits, sleeve, straight

from docgen.definition.identity import Taken
from docgen.definition.issued import IssuedFigures, IssuedFinding
from docgen.reissue.compare import compare
from docgen.reissue.differences import Broken, Differences, OtherSleeve
from docgen.reissue.facts import Fact
from docgen.reissue.moves import Move, Piece, Plugging, Spot, Wiring
from docgen.reissue.plain import data
from docgen.reissue.told import (
    broken_text,
    contact_text,
    fact_text,
    how_text,
    length_text,
    moves_text,
    pieces_text,
    plugged_text,
    sleeve_text,
    text,
)


@pytest.mark.parametrize(
    ("fact", "said"),
    [
        (Fact("label", "", "RUD", "YAW"), "label YAW, was RUD"),
        (Fact("throw", "", None, "20 mm"), "throw 20 mm, was none"),
        (Fact("failsafe", "", "hold", None), "fail-safe none, was hold"),
        (Fact("channel", "", 4, 5), "channel 5, was 4"),
        (Fact("cut_mm", "A", 300.0, 1234.5), "A cut length 1234.5 mm, was 300 mm"),
        (Fact("lead_mm", "1", None, 250.0), "1 own lead 250 mm, was none"),
        (Fact("lead_wire", "1", "pvc-22", "pvc-26"), "1 wire of the own lead pvc-26, was pvc-22"),
        (Fact("part", "B", "servo-22", "servo-20"), "B wired with servo-20, was servo-22"),
        (Fact("plug_at", "", None, "belly"), "its plug lies at belly, was none"),
        (Fact("stall_a", "", 2.0, 2.5), "stall 2.5 A, was 2 A"),
        (Fact("working_a", "", 0.4, 0.5), "working 0.5 A, was 0.4 A"),
        (Fact("idle_a", "", None, 0.1), "idle 0.1 A, was none"),
        (Fact("runs_s", "", 9.0, 8.0), "runs 8 s, was 9 s"),
        (Fact("least_v", "", 4.8, 5.0), "needs 5 V, was 4.8 V"),
        (Fact("most_v", "", 8.4, 6.0), "bears 6 V, was 8.4 V"),
        (Fact("drop_v", "", 0.1, 0.2), "own drop 0.2 V, was 0.1 V"),
        (Fact("stalled_drop_v", "", 0.3, 0.31), "own drop stalled 0.31 V, was 0.3 V"),
        (Fact("left_v", "", 5.0, 4.9), "left 4.9 V, was 5 V"),
        (Fact("cells", "", 2, 3), "cells 3, was 2"),
        (Fact("capacity_mah", "", 4000.0, 3000.0), "capacity 3000 mAh, was 4000 mAh"),
        (Fact("full_v", "", 8.4, 12.6), "full 12.6 V, was 8.4 V"),
        (Fact("empty_v", "", 6.6, 9.9), "empty 9.9 V, was 6.6 V"),
        (Fact("resistance_ohm", "", 0.018, None), "own resistance none, was 18 mΩ"),
        (Fact("rating_a", "", 5.0, 7.5), "rating 7.5 A, was 5 A"),
        (Fact("up_s", "", 9.2, 8.0), "stroke up 8 s, was 9.2 s"),
        (Fact("down_s", "", None, 7.4), "stroke down 7.4 s, was none"),
        (Fact("limit_s", "", 11.0, 14.0), "limit 14 s, was 11 s"),
        (Fact("stop_a", "", 1.8, 2.3), "stop 2.3 A, was 1.8 A"),
        (Fact("output_v", "WING, FLOAT", None, 7.4), "WING, FLOAT output 7.4 V, was none"),
        (Fact("drives", "RX", "1", "1, 2"), "RX drives 1, 2, was 1"),
        (Fact("fed_by", "", "IN", "IN-A, IN-B"), "fed by IN-A, IN-B, was IN"),
        (Fact("isolates", "", None, True), "keeps its feeds apart"),
        (Fact("isolates", "", True, None), "no more keeps its feeds apart"),
        (Fact("order", "2", "a, b", "b, a"), "2 contacts in order b, a, was a, b"),
        (Fact("gender", "2", "pins", "sockets"), "2 its contacts sockets, was pins"),
        (Fact("port", "11", "", "there"), "11 port there, was none"),
        (Fact("planned", "", None, True), "planned"),
        (Fact("planned", "", True, None), "no more planned"),
        (Fact("left_in", "", None, True), "left in, dead"),
        (Fact("left_in", "", True, None), "no more left in, dead"),
    ],
)
def test_a_fact_is_said_with_its_unit_and_what_it_was(fact: Fact, said: str) -> None:
    assert fact_text(fact) == said


SPOT = Spot("root", "loose", "panel", ("7",), "8 of 25 × 12 mm", "crimp", True, "block-8 pins")
MOVE = Move("aileron B", "negative", "C3B22N", "BK", SPOT, False, anew=False, crimped=True)


@pytest.mark.parametrize(
    ("join", "into", "crimped", "said"),
    [
        ("crimp", False, True, "extract"),
        ("crimp", True, True, "insert"),
        ("crimp", False, False, "extract, cut off"),
        ("crimp", True, False, "crimp, insert"),
        ("solder", False, True, "unsolder"),
        ("solder", True, True, "new tube, solder"),
        ("solder", False, False, "unsolder"),
        ("splice", False, False, "cut out of the splice"),
        ("splice", True, False, "new tube, splice"),
    ],
)
def test_how_a_wire_comes_out_and_goes_in_is_said_by_its_join(join: str, into: bool, crimped: bool, said: str) -> None:
    assert how_text(replace(MOVE, spot=replace(SPOT, join=join), into=into, crimped=crimped)) == said


def test_a_wire_that_comes_out_dead_is_capped() -> None:
    spot = replace(SPOT, join="splice")
    assert how_text(replace(MOVE, spot=spot, capped=True)) == "cut out of the splice, cap"
    assert how_text(replace(MOVE, capped=True)) == "extract, cap"


def test_moves_of_an_end_are_said_by_contact_and_colour() -> None:
    other = replace(MOVE, colour="RD", spot=replace(SPOT, contacts=("8", "9")))
    assert contact_text(other) == "8+9 RD"
    assert moves_text([MOVE, other]) == "root loose: 7 BK, 8+9 RD"
    spliced = replace(MOVE, spot=replace(SPOT, join="splice"))
    assert moves_text([spliced]) == "root loose splice: 7 BK"
    bare = replace(MOVE, spot=Spot("", "", "tail", (), "", "splice", False))
    assert (moves_text([bare]), contact_text(bare)) == ("splice at tail: BK", "BK")
    assert contact_text(replace(MOVE, colour="")) == "7"


def test_a_plug_is_unplugged_plugged_or_both_and_a_dead_one_capped() -> None:
    there, elsewhere = (Spot("receiver", at, "tray", (), "", "crimp", False) for at in ("1", "3"))
    assert plugged_text(Plugging("a", there, elsewhere)) == "unplug from receiver 1, plug into receiver 3"
    assert plugged_text(Plugging("a", there, None)) == "unplug from receiver 1"
    assert plugged_text(Plugging("a", None, elsewhere)) == "plug into receiver 3"
    assert plugged_text(Plugging("a", there, None, capped=True)) == "unplug from receiver 1 and cap: dead"


def test_pieces_sleeves_and_lengths_are_said() -> None:
    piece = Piece("rudder A", "negative", "C1A22N", "BK", "22 AWG", "pvc-22", 300.0)
    assert pieces_text([piece, replace(piece, colour="RD")]) == "300 mm, 22 AWG, BK, RD"
    assert pieces_text([replace(piece, colour="", cut_mm=None)]) == "length not measured, 22 AWG, pvc-22"
    was, now = sleeve("a"), sleeve("a", kind="braid-6", cut_mm=None)
    assert [sleeve_text(OtherSleeve("a to b", *each)) for each in ((was, now), (was, None), (None, now))] == [
        "off braid-4, 210 mm, on braid-6, length not measured",
        "off braid-4, 210 mm",
        "on braid-6, length not measured",
    ]
    assert sleeve_text(OtherSleeve("a to b", was, now, 40.0)) == "cut braid-4 back 40 mm in place"
    assert length_text(0.0) == "0 mm"


@pytest.mark.parametrize(
    ("broken", "said"),
    [
        (Broken("volts", "circuits rudder", "", "it gets too little."), "volts: it gets too little."),
        (Broken("plug", "equipment rudder", "servo-3", "jr"), "rudder: its plug is jr, not servo-3."),
        (
            Broken("order", "equipment rudder", "a, b", "b, a"),
            "rudder: its plug has its contacts in another order: b, a; it was a, b.",
        ),
    ],
)
def test_what_no_longer_holds_is_said(broken: Broken, said: str) -> None:
    assert broken_text(broken) == said


def test_that_nothing_differs_is_said_with_the_issue() -> None:
    assert text(after()) == "nothing differs from A."


def test_all_that_a_longer_lead_asks_for_is_told_in_the_order_of_work() -> None:
    figures = (IssuedFigures(drop_v=volts) for volts in (0.1, 0.2))
    short, long = (
        rudder(cut_mm=length).model_copy(update={"figures": of})
        for length, of in zip((300.0, 320.0), figures, strict=True)
    )
    cards = {"pinout-cards": {"receiver": item("a", "1" * 8), "root fixed": item("b"), "root loose": item("b")}}
    there = labels(*small.EVERY_LABEL)
    was = state(
        **both_circuits(rudder=short),
        items={"wire-labels": there, **cards, "sheets": {"hangar-card": item("", "1" * 8)}},
        sleeves={"tray to tail": sleeve("rudder A"), "a to b": sleeve("rudder A")},
    )
    cards = {"pinout-cards": {"receiver": item("a", "2" * 8), "root fixed": item("b"), "unit": item("c")}}
    volts = IssuedFinding(name="volts", level="caution", on="circuits rudder", sentence="it gets too little.")
    now = state(
        "C",
        after="B",
        **both_circuits(rudder=long),
        equipment=A.equipment | {"rudder": servo("tail", working_a=0.5)},
        items={"wire-labels": there, **cards, "sheets": {"hangar-card": item("", "2" * 8), "cut-list": item("")}},
        sleeves={"tray to tail": sleeve("rudder A"), "a to b": sleeve("rudder A", kind="braid-6")},
        findings=(volts,),
        gone={"strobe": rudder()},
    )
    assert text(compare(was, now)).splitlines() == [
        "No longer holds:",
        "  volts: it gets too little.",
        "rudder:",
        "  working 0.5 A, was 0.4 A",
        "  A cut length 320 mm, was 300 mm",
        "  own drop 0.2 V, was 0.1 V",
        "  A: cut 320 mm, 22 AWG, BK, RD, WH",
        "  A: take out of receiver 1: 1 BK, 2 RD, 3 WH, extract, cut off",
        "  A: take out of rudder: 1 BK, 2 RD, 3 WH, extract, cut off",
        "  A: put into receiver 1: 1 BK, 2 RD, 3 WH, crimp, insert",
        "  A: put into rudder: 1 BK, 2 RD, 3 WH, crimp, insert",
        "  A: label at receiver 1: on RUDDER",
        "  A: label at rudder: on RUDDER",
        "  A: ring out",
        "  check again: volts unplugged, direction, centre, ends, idle current",
        "Cards to replace:",
        "  receiver",
        "  hangar-card",
        "Cards to put in:",
        "  unit",
        "Cards to tear up:",
        "  root loose",
        "Sleeves:",
        "  a to b: off braid-4, 210 mm, on braid-6, 210 mm",
        "Sleeves that stay:",
        "  tray to tail: thread rudder A through",
        "Issues after A, up to B, are not said to be built: parts of them may be in the aircraft, strobe too; look "
        "before each step.",
    ]


def test_of_a_lead_that_stays_though_it_would_be_cut_shorter_now_that_is_said() -> None:
    found = after(**both_circuits(rudder=rudder(cut_mm=290.0)))
    assert text(found).splitlines() == ["rudder:", "  A cut length 290 mm, was 300 mm; the lead stays"]
    assert data(found)["wiring"]["stays"] == ["rudder A"]


def test_what_is_new_gone_renamed_capped_or_plugged_over_is_told_of_each() -> None:
    was = state(**both_circuits(rudder=straight("1")), items={"wire-labels": labels("rudder A to", "aileron A from")})
    other = labels("rudder A to", "aileron A from", rudder_A_to="1" * 8)
    now = state("B", circuits={"rudder": straight("3")}, items={"wire-labels": {"rudder A to": other["rudder A to"]}})
    assert text(compare(was, now)).splitlines() == [
        "rudder:",
        "  taken as the same: circuit rudder, by its name",
        "  from receiver 3, was receiver 1",
        "  A: unplug from receiver 1, plug into receiver 3",
        "  A: label at receiver 3: off RUDDER, on RUDDER",
        "  check again: direction, centre, ends",
        "aileron:",
        "  taken out",
        "  A: take the whole lead out",
        "  B: take the whole lead out",
        *(
            f"  {letter}: take out of {at}: 1 BK, 2 RD, 3 WH, extract, cut off"
            for letter, at in (("A", "receiver 2"), ("A", "root fixed"), ("B", "root loose"), ("B", "aileron"))
        ),
    ]
    assert text(compare(now.model_copy(update={"issue": "A"}), was.model_copy(update={"issue": "B"}))).splitlines()[
        6:8
    ] == ["aileron:", "  new"]
    taken = Differences("A", "B", taken=(Taken("equipment", "pack", "battery", "its places"),))
    assert text(taken) == "battery:\n  taken as the same: equipment pack is now battery, by its places"


def test_one_wire_that_moves_is_told_with_both_its_contacts() -> None:
    found = compare(state(items={}), state("B", **both_circuits(aileron=aileron("125")), items={}))
    assert text(found).splitlines() == [
        "aileron:",
        "  A: take out of root fixed: 3 WH, extract",
        "  A: put into root fixed: 5 WH, insert",
        "  B: take out of root loose: 3 WH, extract",
        "  B: put into root loose: 5 WH, insert",
        "  A: ring out",
        "  B: ring out",
        "  check again: works, fail-safe",
    ]


def test_data_has_all_of_it_by_plain_names() -> None:
    spot = Spot("receiver", "1", "tray", (), "", "crimp", False)
    moves = (replace(MOVE, into=True),)
    wiring = Wiring(
        moves=moves, plugged=(Plugging("a", spot, None),), anew=frozenset("gfedcba"), revived=frozenset("tsrqponm")
    )
    taken = (Taken("circuit", "a", "b", "its ends"),)
    found: dict[str, Any] = data(
        replace(compare(state(sleeves={"a to b": sleeve("x")}), state("B")), wiring=wiring, taken=taken)
    )
    assert (found["was"], found["now"], found["taken"]) == (
        "A",
        "B",
        [{"what": "circuit", "old": "a", "new": "b", "by": "its ends"}],
    )
    assert (found["wiring"]["anew"], found["wiring"]["revived"]) == (list("abcdefg"), list("mnopqrst"))
    [move] = found["wiring"]["moves"]
    assert (move["at"], move["into"], move["crimped"], move["spot"]["place"]) == ("root loose", True, True, "panel")
    assert found["wiring"]["plugged"] == [{"lead": "a", "was": "receiver 1", "now": None, "capped": False}]
    [off] = found["sleeves"]
    assert (off["ends"], off["now"], off["was"]["kind"], off["was"]["cut_mm"]) == ("a to b", None, "braid-4", 210.0)
    assert off["back_mm"] is None
    assert found["no_longer_holds"] == ()
    assert "broken" not in found
