"""What is done to wires and tails where a joint has another shell, or pins where it had sockets. Common practice."""

from __future__ import annotations

from typing import Any

import pytest
from reissue import small
from reissue.test_small_states import A, two_on_the_common
from resolved import state_of_example

from docgen.definition.issued import State
from docgen.reissue.compare import compare
from docgen.reissue.told import changes

_OTHER = {"pins": "sockets", "sockets": "pins"}
_WINGS = ("left-wing-a", "right-wing-a")
_SAME = {gender: gender for gender in _OTHER}
_BOTH_TAILS = {half: small.tail("7") | small.tail("8") for half in ("fixed", "loose")}


def exchanged(was: State) -> State:
    """Return the state with pins and sockets of its joint exchanged."""
    joint = was.disconnects["root"]
    halves = tuple(half.model_copy(update={"gender": _OTHER[half.gender]}) for half in joint.halves)
    return at_halves(was, {"halves": halves}, _OTHER)


def in_another_shell(was: State) -> State:
    """Return the state with its joint in a shell of more contacts."""
    return at_halves(was, {"shell": "block-14"}, _SAME, plug="block-14", housing="14 of 40 × 12 mm")


def at_halves(was: State, joint: dict[str, Any], genders: dict[str, str], **end: str) -> State:
    """Return the state with what is said of its joint and of ends of leads there, pins and sockets as told."""
    circuits = {}
    for name, circuit in was.circuits.items():
        leads = {}
        for letter, lead in circuit.leads.items():
            ends = tuple(
                each.model_copy(update=end | {"gender": genders[each.gender]}) if each.kind == "half" else each
                for each in lead.ends
            )
            leads[letter] = lead.model_copy(update={"ends": ends})
        circuits[name] = circuit.model_copy(update={"leads": leads})
    joints = {"root": was.disconnects["root"].model_copy(update=joint)}
    return was.model_copy(update={"issue": "B", "after": "A", "disconnects": joints, "circuits": circuits})


def on_tails() -> State:
    """Return two circuits on the tails of a common, those behind the fixed half too, with nothing else behind that."""
    joints = {"root": small.root(tails=_BOTH_TAILS, commons={"plus": ("7", "8")})}
    return two_on_the_common().model_copy(update={"disconnects": joints})


@pytest.mark.parametrize("change", [exchanged, in_another_shell])
def test_all_contacts_of_both_halves_come_off_and_new_ones_go_on(change: Any) -> None:
    """A pin can't be a socket: six wires, each cut off its contact and crimped into a new one; none is cut anew."""
    found = compare(A, change(A)).wiring
    assert {(move.role, move.spot.at, move.into, move.crimped, move.anew) for move in found.moves} == {
        (role, f"root {half}", into, False, False)
        for role in small.ROLES
        for half in ("fixed", "loose")
        for into in (False, True)
    }
    into = {move.spot.at: move.spot.plug for move in found.moves if move.into}
    assert (
        into
        == {
            exchanged: {"root fixed": "block-8 pins", "root loose": "block-8 sockets"},
            in_another_shell: {"root fixed": "block-14 sockets", "root loose": "block-14 pins"},
        }[change]
    )
    assert (found.cut, found.anew) == ((), frozenset())
    assert found.rung_out == ("aileron A", "aileron B")


@pytest.mark.parametrize("change", [exchanged, in_another_shell])
def test_tails_get_new_contacts_too_and_stay_in_their_splice(change: Any) -> None:
    """Two tails behind each half, which have the length for two new contacts (AC 43.13-1B 11-118) and are no others."""
    found = compare(on_tails(), change(on_tails()))
    tails = [move for move in found.wiring.moves if move.lead == "root plus"]
    assert [(move.role, move.into) for move in tails] == [
        (f"{half} {contact}", into) for into in (False, True) for half in ("fixed", "loose") for contact in "78"
    ]
    assert {(move.spot.join, move.anew, move.crimped) for move in tails} == {("crimp", False, False)}
    assert not any(move.spot.join == "splice" for move in found.wiring.moves)
    assert found.wiring.cut == ()
    assert "root plus" in found.rung_out
    assert {"aileron B", "flap B"} <= set(found.wiring.touched), "they are fed through those contacts"


def test_a_tail_that_is_another_as_well_is_made_anew_and_spliced_with_all_that_is_there() -> None:
    was = on_tails()
    joint = was.disconnects["root"]
    thick = small.tail("7", gauge="16 AWG") | small.tail("8", gauge="16 AWG")
    thicker = joint.model_copy(update={"tails": joint.tails | {"loose": thick}})
    found = compare(was, in_another_shell(was.model_copy(update={"disconnects": {"root": thicker}}))).wiring
    assert [piece.role for piece in found.cut] == ["loose 7", "loose 8"]
    spliced = {(move.lead, move.spot.at) for move in found.moves if move.spot.join == "splice"}
    assert spliced == {("aileron B", "root loose"), ("flap B", "root loose")}


def test_a_shell_of_another_name_that_is_like_the_old_one_keeps_all_contacts() -> None:
    was = on_tails()
    renamed = at_halves(was, {"shell": "own-8"}, _SAME, plug="own-8")
    assert compare(was, renamed).wiring == compare(was, was).wiring


def joint_of(issue: str, *, keys: tuple[str, str] = ("", ""), **more: Any) -> State:
    halves = tuple(half.model_copy(update={"key": key}) for half, key in zip(small.root().halves, keys, strict=True))
    return small.state(issue, disconnects={"root": small.root(halves=halves, **more)})


def test_what_of_a_joint_is_another_is_told_with_what_is_done_to_its_key_and_coding() -> None:
    """A half whose key points another way is turned where it sits; what is coded mates only with its own."""
    was = joint_of("A", keys=("up", "left"), keyed=("B",))
    now = joint_of("B", keys=("down", "left"), keyed=("C",), shell="block-14")
    assert changes(compare(was, now)) == {
        "root": [
            "shell block-14, was block-8",
            "fixed key down, was up: turn the half in its mount",
            "coding C, was B: set it in both halves",
        ]
    }
    assert changes(compare(A, exchanged(A)))["root"] == [
        "fixed contacts pins, was sockets",
        "loose contacts sockets, was pins",
    ]
    coded = changes(compare(joint_of("A", keyed=()), joint_of("B", keyed=("A",))))
    assert coded == {"root": ["coding A, was none: set it in both halves"]}


def test_nothing_is_told_of_a_key_or_coding_that_was_not_known() -> None:
    """Earlier states hold neither; a key that was never said may have pointed where it does."""
    assert not compare(A, joint_of("B", keys=("up", "up"), keyed=("B",))).has_any
    assert not compare(joint_of("A", keys=("up", "up"), keyed=("B",)), joint_of("B")).joints


def test_a_state_holds_the_keys_and_the_coding_of_its_joints() -> None:
    """Fulmar's file: `key: up` on the fixed half alone, `keyed: {left: A, right: B}`."""
    joints = state_of_example("fulmar").disconnects
    held = {name: ([half.key for half in joints[name].halves], joints[name].keyed) for name in _WINGS}
    assert held == {"left-wing-a": (["up", ""], ("A",)), "right-wing-a": (["up", ""], ("B",))}


def test_tails_are_soldered_like_the_wires_beside_them_where_the_new_contacts_are() -> None:
    solder = at_halves(on_tails(), {"shell": "cups-14"}, _SAME, plug="cups-14", housing="14 cups", join="solder")
    moves = compare(on_tails(), solder).wiring.moves
    for lead in ("root plus", "aileron B"):
        there = {(move.into, move.spot.join) for move in moves if move.lead == lead and move.spot.name == "root"}
        assert there == {(False, "crimp"), (True, "solder")}, lead


def test_dead_wires_that_are_left_in_leave_the_old_housing_with_the_others_but_those_in_commons_are_out_of_it() -> None:
    """Nothing comes off with wires in it. The flap's positive is cut out of the splice and capped already."""
    dead = on_tails()
    flap = dead.circuits["flap"].model_copy(update={"left_in": True})
    dead = dead.model_copy(update={"circuits": dead.circuits | {"flap": flap}})
    found = compare(dead, in_another_shell(dead))
    moves = {(move.lead, move.role, move.into) for move in found.wiring.moves if move.lead.startswith("flap")}
    assert moves == {
        (f"flap {letter}", role, into) for letter in "AB" for role in ("negative", "signal") for into in (False, True)
    }
    assert not found.wiring.plugged
    assert found.rung_out == ("aileron A", "aileron B", "root plus")
    assert compare(dead, dead).wiring == compare(A, A).wiring
