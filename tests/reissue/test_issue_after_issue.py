"""What an issue reckons with of the one before: leads and sleeves as they lie, dead ones, and what was never there."""

from __future__ import annotations

from typing import Any

from reissue.small import aileron, circuit, lead, port, root, rudder, state, wires
from reissue.test_small_states import both_circuits, sleeve, straight

from docgen.definition.issued import IssuedCircuit, State
from docgen.reissue.compare import compare
from docgen.reissue.issuing import alike
from docgen.reissue.lying import as_it_lies
from docgen.reissue.told import perhaps_left

TAIL = "tray to tail"


def rudder_of(cut_mm: float | None, *, housing: str = "", **more: Any) -> IssuedCircuit:
    other = {"housing": housing} if housing else {}
    ends = port("receiver", "1", "tray", **other), port("rudder", "", "tail", own_mm=250.0, own_wire="pvc-22")
    cut = lead(*ends, wires("C1 C1 C2", "A"), cut_mm=cut_mm)
    return circuit("RUD", "receiver 1 > rudder", {"A": cut}).model_copy(update=more)


def issue(letter: str, rudder: IssuedCircuit | None = None, **more: Any) -> State:
    circuits = both_circuits(rudder=rudder) if rudder is not None else {}
    return state(letter, items={}, **circuits, **more)


def test_a_lead_that_stayed_though_it_is_a_contact_short_stays_when_nothing_is_another() -> None:
    """10 mm are in a lead for another contact; those are gone, and nothing more is wanted."""
    wanted = rudder_of(310.0, housing="3 of 9 x 3 mm")
    built = as_it_lies(issue("A", rudder_of(300.0)), issue("B", wanted))
    assert built.circuits["rudder"].leads["A"].lies_mm == 300
    after = compare(built, issue("C", wanted))
    assert (after.wiring.cut, after.wiring.moves) == ((), ())


def test_sleeves_that_stay_a_little_short_do_not_creep_from_issue_to_issue() -> None:
    """300 mm do over 297 mm that must be covered, not over 309 mm."""

    def over(letter: str, run_mm: float) -> State:
        said = sleeve("rudder A", run_mm=run_mm, cut_mm=run_mm, least_mm=run_mm - 15)
        return issue(letter, sleeves={TAIL: said})

    first = over("A", 300.0)
    second = as_it_lies(first, over("B", 312.0))
    assert compare(first, second).sleeves == ()
    assert len(compare(second, over("C", 324.0)).sleeves) == len(compare(first, over("C", 324.0)).sleeves) == 1


def test_a_dead_lead_is_as_long_as_it_was_when_it_comes_back_over_a_longer_way() -> None:
    dead = as_it_lies(issue("A", rudder_of(300.0)), issue("B", rudder_of(500.0, left_in=True)))
    assert dead.circuits["rudder"].leads["A"].lies_mm == 300
    back = compare(dead, issue("C", rudder_of(500.0)))
    assert {piece.cut_mm for piece in back.wiring.cut} == {500}


def test_a_dead_lead_comes_out_of_its_cap_and_of_no_port_that_another_may_have() -> None:
    dead = issue("A", rudder_of(300.0, left_in=True))
    gone = dead.model_copy(update={"issue": "B", "circuits": {"aileron": aileron()}})
    taken = compare(dead, gone).wiring
    assert {move.spot.name for move in taken.moves} == {
        "capped plug, was at receiver 1",
        "capped plug, was at rudder",
    }
    assert taken.plugged == ()


def test_what_could_never_be_cut_is_taken_out_of_nothing() -> None:
    unmeasured = issue("A", rudder_of(None))
    gone = unmeasured.model_copy(update={"issue": "B", "circuits": {"aileron": aileron()}})
    for after in (gone, issue("B", rudder_of(None, planned=True))):
        taken = compare(unmeasured, after).wiring
        assert (taken.removed, taken.moves) == ((), ())


def test_the_own_lead_of_what_was_planned_goes_through_a_sleeve_that_stays() -> None:
    over = {TAIL: sleeve("light A", "rudder A", slides_from="tail")}
    old = state(
        circuits={"rudder": straight("1").model_copy(update={"planned": True}), "light": rudder("3")},
        sleeves=over,
        items={},
    )
    new = state("B", circuits={"rudder": straight("1"), "light": rudder("3")}, sleeves=over, items={})
    assert compare(old, new).came == ("rudder A",)


def test_a_joint_whose_coding_an_earlier_state_does_not_hold_is_no_other() -> None:
    assert alike(issue("A"), issue("A", disconnects={"root": root(keyed=())}))
    assert not alike(
        issue("A", disconnects={"root": root(keyed=("B",))}), issue("A", disconnects={"root": root(keyed=())})
    )


def test_nothing_is_said_to_be_put_back_that_is_wanted_under_another_name() -> None:
    unbuilt = issue("B", rudder_of(300.0).model_copy(update={"ends": (("receiver", "4"), ("rudder",))}))
    both = unbuilt.circuits
    renamed = {"aileron": both["aileron"], "tail": both["rudder"]}
    after = issue("C").model_copy(update={"circuits": renamed})
    assert perhaps_left(compare(issue("A", rudder_of(300.0)), after, unbuilt=[unbuilt])) == {}
