"""In which order things are done under a cover: nothing goes where something else still is. Common practice."""

from __future__ import annotations

from typing import Any

from reissue import small
from reissue.small import circuit, half, lead, port, servo, wires
from reissue.test_small_sheet import PLACES, covers, placed
from reissue.test_small_states import A, two_on_the_common

from docgen.definition.issued import IssuedCircuit, State
from docgen.reissue.compare import compare
from docgen.reissue.hatch import stops


def acts(old: State, new: State, place: str) -> list[str]:
    """Return what is done at a place, `out` or `in`, in its order."""
    said = []
    for stop in (stop for stop in stops(compare(old, new), old, new) if stop.place == place):
        pulled = any(each.was is not None and each.was.at == stop.at for each in stop.plugged)
        plugged = any(each.now is not None and each.now.at == stop.at for each in stop.plugged)
        said += [f"out {stop.lead} {stop.at}"] * bool(stop.out or pulled)
        said += [f"in {stop.lead} {stop.at}"] * bool(stop.into or plugged)
    return said


def on_port(name: str, at: str) -> IssuedCircuit:
    ends = port("receiver", at, "tray"), port(name, "", "tail", own_mm=250.0)
    return circuit(name.upper(), f"receiver {at} > {name}", {"A": lead(*ends, wires("C1 C1 C2", "A"))})


def test_two_plugs_that_change_ports_are_both_pulled_before_one_goes_in() -> None:
    def on(rudder: str, elevator: str) -> dict[str, Any]:
        equipment = A.equipment | {"elevator": servo("tail")}
        return {
            "circuits": {"rudder": on_port("rudder", rudder), "elevator": on_port("elevator", elevator)},
            "equipment": equipment,
        }

    assert acts(placed(**on("1", "3")), placed("B", **on("3", "1")), "tray") == [
        *("out rudder A receiver 1", "out elevator A receiver 3"),
        *("in rudder A receiver 3", "in elevator A receiver 1"),
    ]


def through(name: str, at: str, contacts: str) -> IssuedCircuit:
    ends = port("receiver", at, "tray"), half("root", "fixed", "root")
    return circuit(name, f"receiver {at} > root", {"A": lead(*ends, wires("C1 C1 C2", "A", goal=contacts))})


def test_wires_that_change_contacts_are_all_out_before_one_goes_in_and_others_are_done_in_one() -> None:
    """The first two exchange contacts 3 and 6; the third moves on from 8 to 9, which nothing was in."""

    def on(one: str, other: str, third: str) -> dict[str, Any]:
        names = {
            "one": through("one", "1", one),
            "other": through("other", "2", other),
            "third": through("3", "3", third),
        }
        return {"circuits": names, "items": {}}

    done = acts(placed(**on("123", "456", "78-")), placed("B", **on("126", "453", "79-")), "root")
    assert done == [
        *("out one A root fixed", "out other A root fixed"),
        *("out third A root fixed", "in third A root fixed"),
        *("in one A root fixed", "in other A root fixed"),
    ]


def test_what_is_in_a_splice_is_cut_out_of_it_before_what_is_new_goes_in_and_all_of_it_is_one_splice() -> None:
    """The flap comes to the common of the aileron: one splice of its wire, the aileron's and two tails."""
    both = two_on_the_common("B").model_copy(update={"places": PLACES})
    alone = both.model_copy(update={"issue": "A", "circuits": {"aileron": both.circuits["aileron"]}})
    said = covers(alone, both)
    below, above = "into the splice below", "new tube, spliced with those above"
    rows = [
        text for text in said if text in (below, above) or text.startswith(("new wires: new tube", "new wires: into"))
    ]
    assert rows == [below, below, f"new wires: {above}"]
    assert said.index("AILERON B") < said.index("plus") < said.index("FLAP B")


def test_a_splice_of_which_all_is_new_is_closed_in_the_row_of_its_tails_which_is_last() -> None:
    """Two leads come to two tails: three rows, one splice."""
    now = two_on_the_common("B").model_copy(update={"places": PLACES})
    said = covers(placed(circuits={}, disconnects={"root": small.root()}, items={}), now)
    ends = "new wires: into the splice below", "new wires: crimp, insert; new tube, spliced with those above"
    together = " ".join(said)
    assert [together.count(end) for end in ends] == [2, 1]
    assert together.rindex(ends[0]) < together.index(ends[1])


def test_a_lead_is_out_of_its_contacts_and_splice_before_its_new_wires_go_in() -> None:
    """A longer lead leaves the splice with its first wire, and has one of its own in each of contacts 4 to 6 now."""

    def flap(negative: tuple[str, ...], cut_mm: float) -> IssuedCircuit:
        of = wires("C5 C5 C6", "B", start="-56")
        of["negative"] = of["negative"].model_copy(update={"at": (negative, ("1",))})
        loose = half("root", "loose", "panel"), port("flap", "", "wing", own_mm=250.0)
        return circuit("FLAP", "receiver 3 > flap", {"B": lead(*loose, of, cut_mm=cut_mm)})

    was, now = two_on_the_common(flap=flap(("7", "8"), 300.0)), two_on_the_common("B", flap=flap(("4",), 320.0))
    said = covers(*(each.model_copy(update={"places": PLACES}) for each in (was, now)))
    assert said.index("5 RD, 6 WH") < said.index("7+8 BK") < said.index("4 BK, 5 RD, 6 WH")
