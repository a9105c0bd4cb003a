"""A circuit under another name is the same: what lies there of it is found for sleeves, splices and closed runs."""

from __future__ import annotations

from typing import Any

from reissue.small import aileron, rudder, state
from reissue.test_sleeves import OUT_AND_IN, TAIL
from reissue.test_small_states import moves_of, sleeve, straight, two_on_the_common

from docgen.definition.issued import IssuedCircuit, State
from docgen.reissue.compare import compare
from docgen.reissue.moves import Wiring


def issue(letter: str, name: str, of: IssuedCircuit, over: Any, **more: Any) -> State:
    return state(letter, circuits={name: of, "aileron": aileron()}, sleeves={TAIL: over}, items={}, **more)


def test_a_lead_comes_out_for_a_sleeve_that_slides_over_it_though_its_circuit_has_another_name() -> None:
    old = issue("A", "rudder", rudder(), sleeve("rudder A", kind="braid-6"))
    new = issue("B", "yaw", rudder(), sleeve("yaw A", slides_from="tail"))
    assert moves_of(compare(old, new)) == [move.replace(" rudder A ", " yaw A ") for move in OUT_AND_IN]


def test_a_plug_is_pulled_for_a_sleeve_that_slides_over_it_though_its_circuit_has_another_name() -> None:
    old = issue("A", "rudder", straight("1"), sleeve("rudder A", kind="braid-6"))
    new = issue("B", "yaw", straight("1"), sleeve("yaw A", slides_from="tray"))
    (plugging,) = compare(old, new).wiring.plugged
    assert (plugging.lead, plugging.was) == ("yaw A", plugging.now)


def test_an_old_lead_draws_the_new_one_in_though_its_circuit_has_another_name() -> None:
    closed = {"closed": (TAIL,)}
    old = issue("A", "rudder", rudder(cut_mm=1335.0), sleeve("rudder A", "light A"), **closed)
    new = issue("B", "yaw", rudder(cut_mm=1500.0), sleeve("yaw A", "light A"), **closed)
    found = compare(old, new)
    assert found.wiring.anew == {"yaw A"}
    assert (found.drawn, found.threaded) == ((), {TAIL: ("yaw A",)})


def test_what_stays_in_a_splice_is_joined_again_though_its_circuit_has_another_name() -> None:
    both = two_on_the_common("B")
    old = two_on_the_common().model_copy(update={"circuits": {"aileron": both.circuits["aileron"]}})
    new = both.model_copy(update={"circuits": {"roll": both.circuits["aileron"], "flap": both.circuits["flap"]}})
    moves = [move for move in moves_of(compare(old, new)) if " roll " in move]
    assert moves == [f"{way} roll B C3B22 RD at root loose [7+8]" for way in ("out", "in")]


def test_only_another_name_asks_for_nothing() -> None:
    old = issue("A", "rudder", rudder(), sleeve("rudder A"))
    assert compare(old, issue("B", "yaw", rudder(), sleeve("yaw A"))).wiring == Wiring()
