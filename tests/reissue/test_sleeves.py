"""Which sleeves stay, are cut back or go on in the aircraft, over which ends, and what is freed for that."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pytest
from reissue.small import aileron, rudder, servo, state, wires
from reissue.test_making import harness_of
from reissue.test_small_states import A, both_circuits, moves_of, sleeve, spliced, straight

from docgen.definition.issued import IssuedEquipment, IssuedPlace, IssuedSleeve, State
from docgen.reissue.compare import compare
from docgen.reissue.differences import Differences
from docgen.reissue.hatch import parted, stops
from docgen.reissue.issuing import alike
from docgen.reissue.lying import as_it_lies
from docgen.reissue.moves import Wiring
from docgen.reissue.state_of_sleeves import issued_sleeves
from docgen.reissue.told import sleeve_text, text

if TYPE_CHECKING:
    from builder import Builder

TAIL = "tray to tail"


def over(was: IssuedSleeve | None, now: IssuedSleeve, **more: Any) -> Differences:
    """Return what differs where one sleeve lies over the rudder's lead, and another is wanted."""
    old = state(sleeves={TAIL: was} if was else {}, items={}, **more)
    return compare(old, state("B", sleeves={TAIL: now}, items={}, **more))


WAS = sleeve("rudder A", run_mm=200.0)
OUT_AND_IN = [
    f"{way} rudder A {mark} at rudder [{contact}] crimped"
    for contact, mark in enumerate(("C1A22N BK", "C1A22 RD", "C2A22 WH"), 1)
    for way in ("out", "in")
]


@pytest.mark.parametrize(("run_mm", "back_mm"), [(190.0, None), (175.0, None), (174.0, 26.0), (150.0, 50.0)])
def test_a_sleeve_that_is_long_enough_stays_or_is_cut_back_and_nothing_is_opened(
    run_mm: float, back_mm: float | None
) -> None:
    """Up to the 25 mm at which labels stand behind plugs it may be too long (common practice, no source)."""
    found = over(WAS, sleeve("rudder A", run_mm=run_mm, slides_from="tail"))
    assert [each.back_mm for each in found.sleeves] == ([back_mm] if back_mm else [])
    assert (found.wiring, found.checks, found.rung_out) == (Wiring(), {}, ())


@pytest.mark.parametrize(("least_mm", "stays"), [(210.0, True), (206.0, True), (211.0, False), (None, False)])
def test_a_sleeve_over_a_longer_way_stays_if_it_covers_what_must_be_there(least_mm: float | None, stays: bool) -> None:
    """One of 210 mm over 200: labels may stand further in now. Over 205 it would be cut to 215, rounded up."""

    def wanted(issue: str, run_mm: float) -> State:
        more = {"least_mm": least_mm} if run_mm > 200 else {}
        return state(issue, sleeves={TAIL: sleeve("rudder A", run_mm=run_mm, **more)})

    found = compare(wanted("A", 200.0), wanted("B", 205.0))
    assert (found.sleeves == (), found.wiring == Wiring()) == (stays, True)
    lies = as_it_lies(wanted("A", 200.0), wanted("B", 205.0))
    assert compare(lies, wanted("C", 205.0)).sleeves == (), "it stays as it lies from then on"


def test_a_sleeve_is_cut_to_its_least_length_rounded_up_to_the_step(wren: Builder) -> None:
    """The step is 5 mm."""
    for each in issued_sleeves(harness_of(wren)).values():
        assert each.least_mm is not None
        assert each.cut_mm == 5 * math.ceil(each.least_mm / 5)


def test_another_kind_that_fits_what_lies_in_it_stays_and_one_that_does_not_goes() -> None:
    """A bundle that loses a lead is thinner, and its sleeve a little loose."""
    smaller = sleeve("rudder A", kind="braid-2", would_do=("braid-4",), slides_from="tail")
    assert over(WAS, smaller).sleeves == ()
    assert over(WAS, smaller).wiring == Wiring()
    [other] = over(WAS, sleeve("rudder A", kind="braid-2", would_do=("braid-5",), slides_from="tail")).sleeves
    assert (other.was, other.back_mm) == (WAS, None)


def test_a_sleeve_that_stays_is_known_as_it_lies_from_issue_to_issue() -> None:
    """One of 200 mm is wanted over 180, then 160: 40 mm too long it is cut back; over 200 again it does as it is."""

    def wanted(issue: str, **more: Any) -> State:
        return state(issue, sleeves={TAIL: sleeve("rudder A", **more)})

    b = as_it_lies(wanted("A"), wanted("B", kind="braid-2", would_do=("braid-4",), run_mm=180.0))
    assert b.sleeves[TAIL].lies == ("braid-4", 200.0)
    assert compare(b, wanted("C")).sleeves == ()
    shorter = wanted("C", kind="braid-2", would_do=("braid-4",), run_mm=160.0)
    [cut] = compare(b, shorter).sleeves
    assert (cut.back_mm, sleeve_text(cut)) == (40.0, "cut braid-4 back 40 mm in place")
    assert as_it_lies(b, shorter).sleeves[TAIL].lies == ("braid-4", 160.0)
    [off] = compare(b, wanted("C", kind="braid-5")).sleeves
    assert sleeve_text(off).startswith("off braid-4, ")
    assert as_it_lies(b, wanted("C", kind="braid-5")).sleeves[TAIL].lies == ("braid-5", 200.0)


def test_an_issue_holds_how_long_what_stays_is(wren: Builder) -> None:
    """With 20 mm less to the tail the lead of 1335 mm (method) and the sleeve over 1140 mm of run stay."""
    wren.keep()
    wren.say("built")
    wren.change("length: 1140 mm", "length: 1120 mm", "aircraft.yaml")
    wren.keep("B")
    kept = wren.state()
    assert kept.circuits["rudder"].leads["A"].there_mm == 1335.0
    assert kept.sleeves["radio-tray to tail-post"].there_mm == 1140.0
    assert {lead.there_mm for name, of in kept.circuits.items() for lead in of.leads.values() if name != "rudder"} == {
        None
    }


@pytest.mark.parametrize("was", [WAS, None])
def test_a_lead_that_stays_comes_out_of_its_contacts_for_a_sleeve_that_slides_over_it(was: IssuedSleeve | None) -> None:
    """Its contacts stay on, pass the braid one by one, and are rung out and tried when they are in again."""
    found = over(was, sleeve("rudder A", run_mm=240.0, slides_from="tail"))
    assert moves_of(found) == OUT_AND_IN
    assert (found.rung_out, found.checks) == (("rudder A",), {"rudder": ("works",)})
    assert (found.wiring.cut, found.wiring.anew) == ((), frozenset())
    other_end = over(was, sleeve("rudder A", run_mm=240.0, slides_from="tray"))
    assert {move.spot.at for move in other_end.wiring.moves} == {"receiver 1"}


def test_a_wire_that_has_no_contact_at_the_free_end_is_not_told_to_come_out() -> None:
    """At the servo the positive is in no contact."""
    more = both_circuits(rudder=rudder(of=wires("C1 C1 C2", "A", goal="1-3")))
    found = over(WAS, sleeve("rudder A", run_mm=240.0, slides_from="tail"), **more)
    assert {move.role for move in found.wiring.moves} == {"negative", "signal"}


@pytest.mark.parametrize("more", [{"splits": True, "slides_from": "tail"}, {"slides_from": ""}])
def test_nothing_is_freed_for_what_is_wrapped_around_nor_where_it_is_not_known_from_where(more: dict[str, Any]) -> None:
    assert over(WAS, sleeve("rudder A", kind="wrap-6", **more)).wiring == Wiring()


def test_what_is_new_is_not_taken_out_for_its_sleeve_again() -> None:
    was = state(sleeves={TAIL: WAS}, items={})
    now = state("B", items={}, **both_circuits(rudder=rudder(cut_mm=320.0)))
    with_sleeve = now.model_copy(update={"sleeves": {TAIL: sleeve("rudder A", run_mm=240.0, slides_from="tail")}})
    assert moves_of(compare(was, with_sleeve)) == moves_of(compare(was, now))


def test_what_plugs_straight_in_is_unplugged_till_the_sleeve_is_on() -> None:
    more = both_circuits(rudder=straight("1"))
    found = over(WAS, sleeve("rudder A", run_mm=240.0, slides_from="tray"), **more)
    [plug] = found.wiring.plugged
    assert (plug.lead, plug.was and plug.was.at, plug.now and plug.now.at) == ("rudder A", "receiver 1", "receiver 1")
    assert found.checks == {"rudder": ("works",)}
    places = {name: IssuedPlace(assembly="fuselage") for name in ("tray", "tail", "root", "panel", "wing")}
    old, new = (state(issue, places=places, **more) for issue in "AB")
    first, last = parted(stops(found, old, new), {"rudder A": ("receiver 1",)})
    [pulled], [plugged] = ([each for stop in some for each in stop.plugged] for some in (first, last))
    assert (pulled.now, plugged.was) == (None, None)


def test_where_it_slides_over_a_splice_all_that_is_in_that_is_joined_again() -> None:
    more = {**both_circuits(rudder=spliced("123")), "equipment": A.equipment | {"tailwheel": servo("tail")}}
    found = over(WAS, sleeve("rudder A", run_mm=240.0, slides_from="tail"), **more)
    assert {(move.lead, move.spot.at) for move in found.wiring.moves} == {
        (f"rudder {letter}", "splice at tail") for letter in "ABC"
    }


def test_a_lead_is_drawn_out_of_sleeves_on_the_way_to_its_end_and_threaded_again() -> None:
    longer = aileron()
    lead_a = longer.leads["A"].model_copy(update={"route": ("tray", "sill", "root")})
    more = both_circuits(aileron=longer.model_copy(update={"leads": longer.leads | {"A": lead_a}}))
    was = state(sleeves={"tray to sill": sleeve("aileron A")}, **more)

    def threaded(start: str, *closed: str, **of_beyond: Any) -> dict[str, tuple[str, ...]]:
        there = {"sill to root": sleeve("aileron A", **of_beyond)}
        on = {"tray to sill": sleeve("aileron A", run_mm=300.0, slides_from=start)}
        old = was.model_copy(update={"sleeves": was.sleeves | there})
        return compare(old, state("B", sleeves={**on, **there}, closed=closed, **more)).threaded

    assert threaded("sill") == {"sill to root": ("aileron A",)}
    assert threaded("tray") == {}
    assert threaded("sill", splits=True) == {}, "it is unwound"
    assert threaded("sill", "sill to root", splits=True) == {"sill to root": ("aileron A",)}


@pytest.mark.parametrize("more", [{"kind": "wrap-6", "splits": True}, {"run_mm": 240.0}])
def test_all_that_lies_in_a_sleeve_that_no_hand_reaches_comes_out_to_be_drawn_out(more: dict[str, Any]) -> None:
    found = over(WAS, sleeve("rudder A", slides_from="tail", **more), closed=(TAIL,))
    [each] = found.sleeves
    assert each.closed
    assert sleeve_text(each).endswith(", its bundle drawn out of a closed run")
    assert (moves_of(found), found.rung_out, found.checks) == (OUT_AND_IN, ("rudder A",), {"rudder": ("works",)})


def test_a_sleeve_lies_closed_if_any_run_on_its_way_is() -> None:
    """The way from tray to tail goes by the belly."""
    more = both_circuits(rudder=rudder(route=("tray", "belly", "tail")))
    for closed, is_closed in (("tail to belly", True), ("belly to root", False)):
        found = over(WAS, sleeve("rudder A", kind="braid-6"), closed=(closed,), **more)
        assert [each.closed for each in found.sleeves] == [is_closed]


@pytest.mark.parametrize(("closed", "is_drawn"), [((TAIL,), True), ((), False)])
def test_a_new_lead_in_a_closed_sleeve_that_stays_has_what_lies_there_drawn_out(
    closed: tuple[str, ...], is_drawn: bool
) -> None:
    light = rudder("3")
    with_light = both_circuits(light=light)
    both = sleeve("rudder A", "light A", slides_from="tail")
    old = state(sleeves={TAIL: WAS}, items={})
    found = compare(old, state("B", sleeves={TAIL: both}, items={}, closed=closed, **with_light))
    of_rudder = [move for move in moves_of(found) if " rudder A " in move]
    assert found.threaded == {TAIL: ("light A",)}
    assert (found.drawn, of_rudder) == (((TAIL,), OUT_AND_IN) if is_drawn else ((), []))
    assert ("draw its bundle out of a closed run, thread light A through" in text(found)) == is_drawn
    longer = state("B", sleeves={TAIL: WAS}, items={}, closed=closed, **both_circuits(rudder=rudder(cut_mm=320.0)))
    assert compare(old, longer).drawn == (), "the old one draws the new one in"


@pytest.mark.parametrize(("own_mm", "came"), [(270.0, ("rudder A",)), (250.0, ())])
def test_a_servo_with_another_own_lead_has_that_drawn_in_by_the_old_one(own_mm: float, came: tuple[str, ...]) -> None:
    """Its plug comes out first and goes in once it is through; one that is tried with less current has its old lead."""

    def on(issue: str, servo: IssuedEquipment) -> State:
        more = {**both_circuits(rudder=straight("1")), "equipment": A.equipment | {"rudder": servo}}
        return state(issue, sleeves={TAIL: WAS}, items={}, closed=(TAIL,), **more)

    [plug] = servo("tail").ports
    ports = (plug.model_copy(update={"lead_mm": own_mm}),)
    found = compare(on("A", servo("tail")), on("B", servo("tail", working_a=0.3, ports=ports)))
    assert (found.came, found.threaded, found.drawn) == (came, {TAIL: came} if came else {}, ())
    assert [(each.lead, each.was == each.now) for each in found.wiring.plugged] == [(name, True) for name in came]


def test_an_own_lead_up_to_where_its_plug_lies_is_threaded_too() -> None:
    old, new = (
        state(issue, sleeves={TAIL: sleeve("rudder A", "rudder's own lead")}, items={}, equipment=equipment)
        for issue, equipment in (("A", A.equipment), ("B", A.equipment | {"rudder": servo("tail", plug_at="root")}))
    )
    assert compare(old, new).threaded == {TAIL: ("rudder's own lead",)}


@pytest.fixture
def in_three(wren: Builder) -> Builder:
    """Return Wren with a way to the tail in three runs, the middle one alone sharp, its lower edge nearer the tray."""
    wren.change(
        "  tail-post:  ", "  step: {assembly: fuselage}\n  beam: {assembly: fuselage}\n  tail-post:  ", "aircraft.yaml"
    )
    wren.change(
        "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n",
        "  - {between: [radio-tray, step], length: 100 mm}\n"
        "  - {between: [step, beam], length: 700 mm, edges: sharp}\n"
        "  - {between: [beam, tail-post], length: 340 mm}\n",
        "aircraft.yaml",
    )
    return wren


def slides_from(builder: Builder) -> str:
    return issued_sleeves(harness_of(builder))["step to beam"].slides_from


def test_a_sleeve_slides_on_from_the_nearer_ends_but_not_over_those_behind_a_closed_run(in_three: Builder) -> None:
    assert slides_from(in_three) == "step"
    in_three.change(
        "[radio-tray, step], length: 100 mm}", "[radio-tray, step], length: 100 mm, closed: yes}", "aircraft.yaml"
    )
    assert slides_from(in_three) == "beam"


def test_a_lead_is_drawn_out_of_a_sleeve_on_the_way_rather_than_cut_out_of_a_splice(in_three: Builder) -> None:
    """From the tail the sleeve slides over two servos' splice, from the beam past the sleeve at the tray."""
    for old, new in (
        ("[radio-tray, step], length: 100 mm", "[radio-tray, step], length: 100 mm, edges: sharp"),
        ("700 mm, edges: sharp", "700 mm"),
        ("length: 340 mm", "length: 340 mm, edges: sharp"),
    ):
        in_three.change(old, new, "aircraft.yaml")
    tailwheel = "  tailwheel: {kind: servo, place: tail-post, lead: 300 mm, plug: servo-3}\n"
    in_three.change("  rudder:\n    kind: servo\n", f"{tailwheel}  rudder:\n    kind: servo\n")
    in_three.change("    to: rudder\n", "    to: [rudder, tailwheel]\n    split: {place: tail-post}\n")
    assert issued_sleeves(harness_of(in_three))["beam to tail-post"].slides_from == "beam"


def test_a_lead_that_is_cut_now_does_not_count_where_a_sleeve_slides_on(in_three: Builder) -> None:
    """Its ends are free anyhow; then nothing speaks against either end, and the first is taken."""
    in_three.change(
        "[radio-tray, step], length: 100 mm}", "[radio-tray, step], length: 100 mm, closed: yes}", "aircraft.yaml"
    )
    way = ("radio-tray", "step", "beam", "tail-post")
    for route, start in ((way, "beam"), (("radio-tray", "tail-post"), "step")):
        last = state(circuits={"rudder": rudder(route=route)})
        assert issued_sleeves(harness_of(in_three), last)["step to beam"].slides_from == start


def test_what_would_do_fits_what_lies_in_it_and_nothing_does_where_the_builder_chose(wren: Builder) -> None:
    """3.45 mm (method): of the built-in list heat-9 from 2 to 9 mm and wrap-3 from 1.6 to 10 do beside braid-4."""
    sleeves = issued_sleeves(harness_of(wren))
    assert {each.would_do for each in sleeves.values() if each.kind == "braid-4"} == {("heat-9", "wrap-3")}
    wren.change("length: 1140 mm, edges: sharp}", "length: 1140 mm, edges: sharp, sleeve: heat-9}", "aircraft.yaml")
    chosen = issued_sleeves(harness_of(wren))["radio-tray to tail-post"]
    assert (chosen.kind, chosen.would_do) == ("heat-9", ())


def test_a_state_that_was_kept_without_what_would_do_is_like_one_that_says_it() -> None:
    def with_sleeve(**more: Any) -> State:
        return state(sleeves={TAIL: sleeve("rudder A", **more)})

    assert alike(with_sleeve(), with_sleeve(would_do=("braid-5",), slides_from="tail", there="braid-6", there_mm=220.0))
    assert alike(state(), state(**both_circuits(rudder=rudder(there_mm=320.0))))
    assert not alike(with_sleeve(), with_sleeve(run_mm=210.0))
