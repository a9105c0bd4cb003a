"""What is done to wires, labels, cards, sleeves and checks between two states of a small aircraft, by hand."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

import pytest
from reissue import small
from reissue.small import aileron, circuit, item, labels, lead, port, root, rudder, servo, splice, state, wires

from docgen.definition.issued import IssuedFigures, IssuedFinding, IssuedPorts, IssuedSleeve, State
from docgen.reissue.compare import compare
from docgen.reissue.differences import Broken, Changed, Differences, OtherCard, OtherSleeve
from docgen.reissue.facts import Fact
from docgen.reissue.lying import as_it_lies
from docgen.reissue.moves import Move, Piece, Plugging, Spot, Wiring, at_text

A = state()


def after(**more: Any) -> Differences:
    """Return what differs of a state B from A."""
    return compare(A, state("B", **more))


def moves_of(of: Differences) -> list[str]:
    """Write moves as `out rudder A C1A22N BK at receiver 1 [1] anew`, in their order."""
    return [
        f"{'in' if move.into else 'out'} {move.lead} {move.mark} {move.colour} at {move.spot.at} "
        f"[{'+'.join(move.spot.contacts)}]{' anew' * move.anew}{' crimped' * move.crimped}"
        for move in of.wiring.moves
    ]


def cut_of(of: Differences) -> list[str]:
    return [
        f"{piece.lead} {piece.role} {piece.mark} {piece.colour} {piece.gauge} {piece.wire} {piece.cut_mm}"
        for piece in of.wiring.cut
    ]


def both_circuits(**more: Any) -> dict[str, Any]:
    return {"circuits": {"rudder": rudder(), "aileron": aileron(), **more}}


def test_of_two_states_that_are_alike_nothing_differs() -> None:
    found = after()
    assert not found.has_any
    assert found == Differences("A", "B")
    assert compare(A, state("C", after="B")).between == "B"


# Wires


def test_a_lead_of_another_length_is_cut_anew_and_comes_out_at_both_ends() -> None:
    found = after(**both_circuits(rudder=rudder(cut_mm=320.0)))
    pieces = [("negative", "C1A22N", "BK"), ("positive", "C1A22", "RD"), ("signal", "C2A22", "WH")]
    assert cut_of(found) == [f"rudder A {role} {mark} {colour} 22 AWG pvc-22 320.0" for role, mark, colour in pieces]
    ends = [
        f"{way} rudder A {mark} {colour} at {at} [{contact}] anew"
        for way in ("out", "in")
        for contact, (_, mark, colour) in enumerate(pieces, 1)
        for at in ("receiver 1", "rudder")
    ]
    assert moves_of(found) == ends
    assert found.wiring.anew == {"rudder A"}
    assert found.rung_out == ("rudder A",)
    assert found.checks == {"rudder": ("works",)}
    assert found.circuits == (Changed("rudder", "rudder", (Fact("cut_mm", "A", 300.0, 320.0),)),)
    assert {label.key for label in found.put_on} == {"rudder A from", "rudder A to"}
    assert found.stripped == ()


@pytest.mark.parametrize(("now_mm", "is_anew"), [(305.0, True), (295.0, False), (250.0, False), (245.0, True)])
def test_a_lead_stays_that_is_no_shorter_than_needed_and_not_too_long_to_be_tucked_away(
    now_mm: float, is_anew: bool
) -> None:
    """It is 300 mm long; 50 mm go into a loop of 16 mm across (common practice, no source)."""
    found = after(**both_circuits(rudder=rudder(cut_mm=now_mm)))
    stays = Wiring(stays=frozenset({"rudder A"}))
    assert (found.wiring.anew == {"rudder A"}, found.wiring == stays) == (is_anew, not is_anew)
    assert (found.put_on == (), found.checks == {}) == (not is_anew, not is_anew)


def test_what_stays_is_known_as_it_lies_from_issue_to_issue() -> None:
    """A lead of 300 mm is wanted with 270, then 240: 60 mm are too much to tuck away. With 300 again nothing is cut."""

    def wanted(issue: str, mm: float) -> State:
        return state(issue, **both_circuits(rudder=rudder(cut_mm=mm)))

    b = as_it_lies(wanted("A", 300.0), wanted("B", 270.0))
    assert b.circuits["rudder"].leads["A"].there_mm == 300.0
    assert b.circuits["aileron"] == A.circuits["aileron"]
    assert compare(b, wanted("C", 240.0)).wiring.anew == {"rudder A"}
    assert compare(b, wanted("C", 300.0)).wiring == Wiring()
    c = as_it_lies(b, wanted("C", 260.0))
    assert (c.circuits["rudder"].leads["A"].there_mm, compare(b, c).wiring.anew) == (300.0, frozenset())
    assert as_it_lies(b, wanted("C", 240.0)).circuits["rudder"].leads["A"].there_mm is None


def test_a_lead_that_goes_another_way_is_made_anew_though_it_is_long_enough() -> None:
    """It lies in the old one, maybe behind closed skins."""
    found = after(**both_circuits(rudder=rudder(cut_mm=290.0, route=("tray", "belly", "tail"))))
    assert found.wiring.anew == {"rudder A"}


@pytest.mark.parametrize(("now_mm", "is_anew"), [(305.0, False), (295.0, False), (315.0, True)])
def test_a_contact_of_another_strip_is_crimped_on_a_lead_that_stays(now_mm: float, is_anew: bool) -> None:
    """Each lead has 10 mm in it for each new contact (AC 43.13-1B 11-118: two), of which a longer strip takes some."""
    end = port("rudder", "", "tail", own_mm=250.0, own_wire="pvc-22", plug="small-3", housing="3 of 6 × 2 mm")
    other = lead(port("receiver", "1", "tray"), end, wires("C1 C1 C2", "A"), cut_mm=now_mm)
    found = after(**both_circuits(rudder=circuit("RUD", "receiver 1 > rudder", {"A": other}))).wiring
    assert {(move.spot.at, move.crimped) for move in found.moves} == {
        ("rudder", False),
        *([("receiver 1", False)] if is_anew else []),
    }
    assert (found.anew == {"rudder A"}, len(found.cut)) == (is_anew, 3 * is_anew)


def test_a_length_that_is_not_known_makes_no_wire_another() -> None:
    unknown = rudder(cut_mm=None)
    assert after(**both_circuits(rudder=unknown)).wiring == Wiring()
    both = (state(issue, **both_circuits(rudder=unknown)) for issue in "AB")
    assert compare(*both).wiring == Wiring()


def test_what_had_no_length_could_not_be_cut_so_it_is_made_and_tried_as_new_once_it_has() -> None:
    """Nothing of it comes out, and what lies straight in is no lead to cut."""
    was = state(**both_circuits(rudder=rudder(cut_mm=None)))
    found = compare(was, state("B"))
    assert found.wiring == compare(state(circuits={"aileron": aileron()}), state("B")).wiring
    assert [piece.cut_mm for piece in found.wiring.cut] == [300.0] * 3
    assert {move.into for move in found.wiring.moves} == {True}
    assert found.wiring.removed == ()
    assert found.rung_out == ("rudder A",)
    assert found.checks == {"rudder": ("volts", "direction", "centre", "ends", "idle")}
    assert {label.key for label in found.put_on} == {"rudder A from", "rudder A to"}
    assert found.stripped == ()
    came = state(**both_circuits(rudder=straight("1")))
    assert compare(came, state("B", **both_circuits(rudder=straight("1")))).wiring == Wiring()


def test_what_had_no_length_is_there_where_the_aircraft_was_altered_before_its_files() -> None:
    was = state(as_built=True, **both_circuits(rudder=rudder(cut_mm=None)))
    assert compare(was, state("B")).wiring == Wiring()


@pytest.mark.parametrize("more", [{"colour": "BU"}, {"gauge": "20 AWG"}, {"wire": "fluoro-22"}])
def test_a_wire_of_another_colour_gauge_or_kind_is_made_anew_and_the_others_stay(more: dict[str, str]) -> None:
    of = wires("C1 C1 C2", "A") | {"signal": wires("C1 C1 C2", "A", **more)["signal"]}
    found = after(**both_circuits(rudder=rudder(of=of)))
    assert [(piece.role, piece.mark) for piece in found.wiring.cut] == [("signal", "C2A22")]
    assert [(move.role, move.into, move.anew) for move in found.wiring.moves] == [
        ("signal", False, True),
        ("signal", False, True),
        ("signal", True, True),
        ("signal", True, True),
    ]
    assert found.wiring.plugged == ()


def test_of_a_bought_lead_in_which_one_wire_is_another_the_whole_is_cut_anew() -> None:
    bought = state(**both_circuits(rudder=rudder(bought=True)))
    of = wires("C1 C1 C2", "A") | {"signal": wires("C1 C1 C2", "A", colour="BU")["signal"]}
    found = compare(bought, state("B", **both_circuits(rudder=rudder(bought=True, of=of))))
    assert cut_of(found) == ["rudder A  C1A22N  22 AWG pvc-22 300.0"]
    assert len(moves_of(found)) == 12
    assert compare(bought, state("B", **both_circuits(rudder=rudder(bought=True)))).wiring == Wiring()


def test_a_plug_that_goes_to_another_port_is_plugged_over_with_its_wires() -> None:
    found = after(**both_circuits(rudder=rudder("3")))
    [plugging] = found.wiring.plugged
    assert (plugging.lead, plugging.capped) == ("rudder A", False)
    assert plugging.was is not None
    assert plugging.now is not None
    assert (plugging.was.at, plugging.now.at) == ("receiver 1", "receiver 3")
    assert (found.wiring.moves, found.wiring.cut, found.rung_out) == ((), (), ())
    assert found.checks == {"rudder": ("direction", "centre", "ends")}, "each port has its own of them"
    assert found.circuits == (Changed("rudder", "rudder", (Fact("from", "", "receiver 1", "receiver 3"),)),)


def test_a_wire_in_another_contact_of_a_joint_moves_with_its_contact() -> None:
    found = after(**both_circuits(aileron=aileron("125")), disconnects={"root": root()})
    assert moves_of(found) == [
        "out aileron A C4A22 WH at root fixed [3] crimped",
        "in aileron A C4A22 WH at root fixed [5] crimped",
        "out aileron B C4B22 WH at root loose [3] crimped",
        "in aileron B C4B22 WH at root loose [5] crimped",
    ]
    assert found.rung_out == ("aileron A", "aileron B")
    assert found.checks == {"aileron": ("works", "fail-safe")}
    assert (found.wiring.plugged, found.wiring.anew) == ((), frozenset())


def test_contacts_of_another_housing_are_crimped_anew_on_wires_that_stay() -> None:
    found = after(**both_circuits(aileron=aileron(housing="14 of 40 × 12 mm")))
    assert {(move.role, move.spot.at) for move in found.wiring.moves} == {
        (role, at) for role in small.ROLES for at in ("root fixed", "root loose")
    }
    assert not any(move.crimped or move.anew for move in found.wiring.moves)
    assert found.wiring.cut == ()


def spliced(contacts: str) -> Any:
    """Return a circuit of the rudder whose lead ends in a splice, where two go on."""
    loads = [port("rudder", "", "tail", own_mm=250.0), port("tailwheel", "", "tail", own_mm=250.0)]
    leads = {
        "A": lead(port("receiver", "1", "tray"), splice("tail"), wires("C1 C1 C2", "A", contacts, "---")),
        **{
            letter: lead(splice("tail"), load, wires("C1 C1 C2", letter, "---"))
            for letter, load in zip("BC", loads, strict=True)
        },
    }
    return circuit("RUD", "receiver 1 > rudder > tailwheel", leads)


def test_what_moves_elsewhere_leaves_a_splice_alone() -> None:
    was = state(**both_circuits(rudder=spliced("123")))
    found = compare(was, state("B", **both_circuits(rudder=spliced("124"))))
    assert moves_of(found) == [
        "out rudder A C2A22 WH at receiver 1 [3] crimped",
        "in rudder A C2A22 WH at receiver 1 [4] crimped",
    ]


def test_a_splice_that_one_branch_leaves_is_made_anew_with_the_stem_and_the_other_branch() -> None:
    """Branch B is longer: its three old wires are cut out of the splices, so those of A and C are joined again."""
    was, now = state(**both_circuits(rudder=spliced("123"))), spliced("123")
    longer = now.leads["B"].model_copy(update={"cut_mm": 310.0})
    found = compare(
        was, state("B", **both_circuits(rudder=now.model_copy(update={"leads": now.leads | {"B": longer}})))
    )
    assert found.wiring.anew == {"rudder B"}
    assert {(move.spot.at, move.spot.join) for move in found.wiring.moves} == {
        ("splice at tail", "splice"),
        ("rudder", "crimp"),
    }
    at_the_splice = [(move.lead, move.role, move.into) for move in found.wiring.moves if move.spot.join == "splice"]
    assert sorted(at_the_splice) == sorted(
        (f"rudder {letter}", role, into) for letter in "ABC" for role in small.ROLES for into in (False, True)
    )
    assert set(found.rung_out) == {"rudder A", "rudder B", "rudder C"}


def test_loads_behind_a_splice_that_are_named_in_another_order_are_no_others() -> None:
    one = spliced("123")
    other = one.model_copy(update={"ends": (one.ends[0], *reversed(one.ends[1:]))})
    equipment = A.equipment | {"tailwheel": servo("tail")}
    for was, now in ((one, other), (other, one)):
        before = state(**both_circuits(rudder=was), equipment=equipment)
        found = compare(before, state("B", **both_circuits(rudder=now), equipment=equipment))
        assert (found.circuits, found.taken) == ((), ())


def test_a_new_circuit_goes_in_and_one_that_is_gone_comes_out() -> None:
    of = {
        "elevator": circuit(
            "ELEV", "receiver 4 > elevator", {"A": lead(*ends_of("elevator", "4"), wires("C5 C5 C6", "A"))}
        )
    }
    equipment = {"receiver": small.receiver(), "rudder": servo("tail"), "elevator": servo("tail")}
    now = state("B", circuits={"rudder": rudder(), **of}, equipment=equipment, disconnects={})
    found = compare(A, now)
    assert [piece.lead for piece in found.wiring.cut] == ["elevator A"] * 3
    assert found.wiring.removed == ("aileron A", "aileron B")
    assert {(move.lead, move.into) for move in found.wiring.moves} == {
        ("elevator A", True),
        ("aileron A", False),
        ("aileron B", False),
    }
    assert found.checks == {"elevator": ("volts", "direction", "centre", "ends", "idle")}
    assert {(each.was, each.now) for each in found.circuits} == {("", "elevator"), ("aileron", "")}
    assert {(each.was, each.now) for each in found.equipment} == {("", "elevator"), ("aileron", "")}
    back = compare(now.model_copy(update={"issue": "A"}), state("B", gone={}))
    assert back.wiring.removed == ("elevator A",)


def ends_of(load: str, at: str) -> tuple[Any, Any]:
    return port("receiver", at, "tray"), port(load, "", "tail", own_mm=250.0)


def test_what_is_planned_has_no_wires_yet() -> None:
    planned = both_circuits(aileron=aileron(planned=True))
    assert after(**planned).wiring.removed == ("aileron A", "aileron B")
    assert after(**planned).checks == {}
    made = compare(state(**planned), state("B"))
    assert {piece.lead for piece in made.wiring.cut} == {"aileron A", "aileron B"}
    assert made.checks == {"aileron": ("volts", "direction", "centre", "ends", "fail-safe", "idle")}


def test_what_is_left_in_is_unplugged_at_its_outer_ends_and_capped_and_rung_out_when_it_comes_back() -> None:
    left = both_circuits(aileron=aileron(left_in=True))
    found = after(**left)
    assert [(each.lead, each.was and each.was.at, each.now, each.capped) for each in found.wiring.plugged] == [
        ("aileron A", "receiver 2", None, True),
        ("aileron B", "aileron", None, True),
    ]
    assert (found.wiring.moves, found.wiring.removed, found.checks) == ((), (), {})
    assert compare(state(**left), state("B", **left)).wiring == Wiring()
    back = compare(state(**left), state("B"))
    assert [(each.lead, each.was, each.now and each.now.at) for each in back.wiring.plugged] == [
        ("aileron A", None, "receiver 2"),
        ("aileron B", None, "aileron"),
    ]
    assert (back.wiring.moves, back.wiring.cut) == ((), ())
    assert back.rung_out == ("aileron A", "aileron B")
    came = both_circuits(rudder=straight("1").model_copy(update={"left_in": True}))
    pulled = compare(state(**both_circuits(rudder=straight("1"))), state("B", **came)).wiring.plugged
    assert [each.was and each.was.at for each in pulled] == ["receiver 1"], "the servo's lead stays on the servo"


def straight(at: str, own: int | None = 1) -> Any:
    """Return the rudder's circuit where its own lead plugs straight in, or that of the receiver, or one unmeasured."""
    ends = [
        end.model_copy(update={"own_mm": 250.0 if i == own else None}) for i, end in enumerate(ends_of("rudder", at))
    ]
    came = lead(ends[0], ends[1], wires("C1 C1 C2", "A"), part="", cut_mm=None)
    return circuit("RUD", f"receiver {at} > rudder", {"A": came})


def test_a_plug_that_came_along_is_plugged_in_unplugged_or_plugged_elsewhere() -> None:
    was = state(**both_circuits(rudder=straight("1")))
    other = compare(was, state("B", **both_circuits(rudder=straight("3"))))
    assert [(each.lead, each.was and each.was.at, each.now and each.now.at) for each in other.wiring.plugged] == [
        ("rudder A", "receiver 1", "receiver 3")
    ]
    gone = compare(was, state("B", circuits={"aileron": aileron()}))
    assert [(each.was and each.was.at, each.now) for each in gone.wiring.plugged] == [("receiver 1", None)]
    assert gone.wiring.moves == ()
    cut = compare(was, state("B"))
    assert [(each.was and each.was.at, each.now) for each in cut.wiring.plugged] == [("receiver 1", None)]
    assert {piece.lead for piece in cut.wiring.cut} == {"rudder A"}
    new = compare(state(circuits={"aileron": aileron()}), state("B", **both_circuits(rudder=straight("1"))))
    assert [(each.was, each.now and each.now.at) for each in new.wiring.plugged] == [(None, "receiver 1")]


@pytest.mark.parametrize(("own", "at"), [(1, "receiver 1"), (None, "receiver 1"), (0, "rudder")])
def test_what_came_along_is_plugged_in_at_the_end_that_is_not_its_own(own: int | None, at: str) -> None:
    now = state("B", **both_circuits(rudder=straight("1", own)))
    [plugging] = compare(state(circuits={"aileron": aileron()}), now).wiring.plugged
    assert plugging.now is not None
    assert plugging.now.at == at


def test_a_plug_of_which_one_wire_is_in_another_contact_is_not_plugged_over() -> None:
    found = after(**both_circuits(rudder=rudder("3", of=wires("C1 C1 C2", "A", start="124")))).wiring
    assert [(move.role, move.into) for move in found.moves if move.spot.name == "receiver"] == [
        (role, into) for role in small.ROLES for into in (False, True)
    ]
    assert found.plugged == ()


def test_a_wire_without_a_contact_at_a_joint_is_not_spliced_there() -> None:
    of = aileron("1-3")
    longer = of.model_copy(update={"leads": {**of.leads, "A": of.leads["A"].model_copy(update={"cut_mm": 320.0})}})
    found = after(**both_circuits(aileron=longer)).wiring
    assert {(move.spot.contacts, move.spot.join) for move in found.moves if move.role == "positive" and move.into} == {
        (("2",), "crimp"),
        ((), "crimp"),
    }


def test_what_is_only_unplugged_is_not_touched_and_what_goes_into_a_contact_is_rung_out() -> None:
    spot = Spot("receiver", "1", "tray", (), "", "crimp", False)
    gone, over = Plugging("a", spot, None), Plugging("b", spot, spot)
    moves = tuple(Move(name, "signal", "", "WH", spot, into, anew=False) for name, into in (("c", True), ("d", False)))
    wiring = Wiring(plugged=(gone, over), moves=moves, revived=frozenset({"f", "e"}))
    assert (wiring.rung_out, wiring.touched) == (("c", "e", "f"), ("c", "e", "f", "b"))


def test_ends_are_named_by_port_half_or_splice() -> None:
    ports = port("receiver", "1", "tray"), port("unit-2", "3", "tray"), port("rudder", "", "tail")
    # A loose half is named after its assembly, which may begin with a figure.
    ends = *ports, small.half("root-2", "loose", "panel"), small.half("root-2", "2-panel", "tip"), splice("tail")
    names = ["receiver 1", "unit-2 port 3", "rudder", "root-2 loose", "root-2 2-panel", "splice at tail"]
    assert [at_text(end) for end in ends] == names


# Tails behind shared contacts


def with_tail(contact: str = "8", half_name: str = "loose", **more: Any) -> State:
    return state(
        "B", disconnects={"root": root(tails={half_name: small.tail(contact, **more)}, commons={"plus": (contact,)})}
    )


def test_a_tail_that_is_new_is_cut_and_crimped_into_its_contact() -> None:
    found = compare(A, with_tail())
    piece = Piece("root plus", "loose 8", "", "RD", "18 AWG", "pvc-18", 40.0)
    spot = Spot("root", "loose", "panel", ("8",), "", "crimp", True, "block-8 pins", "root loose plus")
    assert found.wiring == Wiring(
        cut=(piece,),
        moves=(Move("root plus", "loose 8", "", "RD", spot, True, anew=True, wire="pvc-18"),),
        anew=frozenset({"root plus"}),
    )
    gone = compare(with_tail(), state("C"))
    assert gone.wiring == Wiring(moves=(Move("root plus", "loose 8", "", "RD", spot, False, anew=True, wire="pvc-18"),))
    fixed = compare(A, with_tail("7", "fixed")).wiring.moves[0].spot
    assert (fixed.part, fixed.place, fixed.contacts) == ("fixed", "root", ("7",))


@pytest.mark.parametrize("more", [{"cut_mm": 60.0}, {"colour": "BU"}, {"gauge": "16 AWG"}, {"wire": "fluoro-18"}])
def test_a_tail_whose_work_is_another_is_made_anew(more: dict[str, Any]) -> None:
    found = compare(with_tail(), with_tail(**more)).wiring
    assert [move.into for move in found.moves] == [False, True]
    assert [getattr(found.cut[0], field) for field in more] == list(more.values())
    assert compare(with_tail(), with_tail()).wiring == Wiring()


def test_a_wire_on_a_shared_contact_is_spliced_to_its_tail() -> None:
    """Its positive comes to the splice behind both halves, which have a tail into contact 8."""
    tails = {"fixed": small.tail("8"), "loose": small.tail("8")}
    joint = {"root": root(tails=tails, commons={"plus": ("8",)})}
    found = compare(state(disconnects=joint), state("B", disconnects=joint, **both_circuits(aileron=aileron("183"))))
    moves = [move for move in found.wiring.moves if move.lead.startswith("aileron")]
    spots = {(move.spot.at, move.into): (move.spot.join, move.spot.contacts, move.crimped) for move in moves}
    assert spots == {
        (at, into): ("splice" if into else "crimp", ("8",) if into else ("2",), False)
        for at in ("root fixed", "root loose")
        for into in (False, True)
    }
    assert {move.spot.plug for move in moves} == {"", "block-8 sockets", "block-8 pins"}


PLUS = {"root": root(tails={"loose": small.tail("7") | small.tail("8")}, commons={"plus": ("7", "8")})}


def on_the_common(name: str, numbers: str, at: str, free: str, **more: Any) -> Any:
    """Return a circuit through the joint whose positive is spliced behind the loose half to the tails of 7 and 8."""
    negative, signal = tuple(free)
    fixed, loose = small.half("root", "fixed", "root"), small.half("root", "loose", "panel")
    plus = {"positive": wires(numbers, "B")["positive"].model_copy(update={"at": (("7", "8"), ("2",))})}
    of_a = {role: wire for role, wire in wires(numbers, "A", goal=f"{negative}-{signal}").items() if role != "positive"}
    of_b = wires(numbers, "B", start=f"{negative}-{signal}") | plus
    leads = {
        "A": lead(port("receiver", at, "tray"), fixed, of_a),
        "B": lead(loose, port(name, "", "wing", own_mm=250.0), of_b),
    }
    return circuit(name.upper(), f"receiver {at} > {name}", leads, **more)


def two_on_the_common(issue: str = "A", **more: Any) -> State:
    circuits = {
        "aileron": on_the_common("aileron", "C3 C3 C4", "2", "13", failsafe="hold"),
        "flap": on_the_common("flap", "C5 C5 C6", "3", "45"),
    }
    said = {"equipment": A.equipment | {"flap": servo("wing")}, "disconnects": PLUS, "items": {}}
    return state(issue, **said | {"circuits": {**circuits, **more}})


ALL_IN_THE_SPLICE = [  # but for the flap's own
    f"{way} {of} RD at root loose [{contacts}]"
    for of, contacts in (("aileron B C3B22", "7+8"), ("root plus ", "7"), ("root plus ", "8"))
    for way in ("out", "in")
]


def test_a_wire_that_enters_or_leaves_a_common_s_splice_has_all_its_wires_and_tails_joined_again() -> None:
    """The tails stay crimped in their contacts, and are stripped and joined at their other ends."""
    with_it = two_on_the_common()
    without = with_it.model_copy(update={"circuits": {"aileron": with_it.circuits["aileron"]}})
    added = compare(without, with_it.model_copy(update={"issue": "B"}))
    assert [move for move in moves_of(added) if " flap " not in move] == ALL_IN_THE_SPLICE
    assert set(added.rung_out) == {"flap A", "flap B", "aileron B", "root plus"}
    assert added.checks["aileron"] == ("works", "fail-safe")
    gone = compare(with_it, without.model_copy(update={"issue": "B"}))
    assert [move for move in moves_of(gone) if " flap " not in move] == ALL_IN_THE_SPLICE
    joins = {(move.spot.join, move.anew) for move in gone.wiring.moves if move.lead == "root plus"}
    assert joins == {("splice", False)}
    assert set(gone.rung_out) == {"aileron B", "root plus"}


def test_what_is_fed_through_a_splice_that_is_made_anew_is_tried_on_either_side_of_the_joint() -> None:
    """A second feed goes into the splice behind the fixed half; the aileron's positive is behind the loose one."""

    def with_feeds(issue: str, *ports: str) -> State:
        fixed = small.half("root", "fixed", "root")
        feeds = {}
        for number, at in enumerate(ports, 1):
            [plus] = [wires(f"P{number} P{number} P9", "A")["positive"].model_copy(update={"at": (("2",), ("7", "8"))})]
            of = {"A": lead(port("receiver", at, "tray"), fixed, {"positive": plus})}
            feeds[f"feed-{at}"] = circuit("FEED", f"receiver {at} > root positive", of)
        tails = {half: small.tail("7") | small.tail("8") for half in ("fixed", "loose")}
        joint = {"root": root(tails=tails, commons={"plus": ("7", "8")})}
        return two_on_the_common(issue, **feeds).model_copy(update={"disconnects": joint})

    found = compare(with_feeds("A", "1"), with_feeds("B", "1", "4"))
    assert {move.spot.at for move in found.wiring.moves if move.spot.splice} == {"root fixed"}
    assert set(found.rung_out) == {"feed-1 A", "feed-4 A", "root plus"}
    assert found.checks == {
        "aileron": ("works", "fail-safe"),
        **dict.fromkeys(("flap", "feed-1", "feed-4"), ("works",)),
    }


def test_what_is_left_in_is_cut_out_of_the_splice_that_others_go_on_feeding_and_capped() -> None:
    """Its positive would stay live from the common; the contacts that it has alone are dead with its plugs out."""
    dead = on_the_common("flap", "C5 C5 C6", "3", "45", left_in=True)
    left = two_on_the_common("B", flap=dead)
    found = compare(two_on_the_common(), left)
    assert [move for move in moves_of(found) if " flap " in move] == ["out flap B C5B22 RD at root loose [7+8] crimped"]
    [out] = [move for move in found.wiring.moves if move.lead == "flap B"]
    assert (out.capped, out.spot.join) == (True, "splice")
    assert [(each.lead, each.was and each.was.at) for each in found.wiring.plugged] == [
        ("flap A", "receiver 3"),
        ("flap B", "flap"),
    ]
    assert [move for move in moves_of(found) if " flap " not in move] == ALL_IN_THE_SPLICE
    assert found.checks == {"aileron": ("works", "fail-safe")}
    back = compare(left.model_copy(update={"issue": "A"}), two_on_the_common("B"))
    assert [move for move in moves_of(back) if " flap " in move] == ["in flap B C5B22 RD at root loose [7+8] crimped"]
    assert [move for move in moves_of(back) if " flap " not in move] == ALL_IN_THE_SPLICE
    out_for_good = compare(
        left.model_copy(update={"issue": "A"}),
        two_on_the_common("B").model_copy(update={"circuits": {"aileron": two_on_the_common().circuits["aileron"]}}),
    )
    assert out_for_good.wiring.removed == ("flap A", "flap B")
    assert not any(move.spot.splice for move in out_for_good.wiring.moves)


def test_what_feeds_a_common_and_is_left_in_is_not_told_to_be_unplugged_from_the_half() -> None:
    """It goes straight into the one contact of the common, which the other half's feed still reaches."""
    fixed = small.half("root", "fixed", "root")
    supply = {"positive": wires("P1 P1 P2", "A", goal="-6-")["positive"]}
    of = circuit("SUPPLY", "receiver 4 > root positive", {"A": lead(port("receiver", "4", "tray"), fixed, supply)})
    joint: dict[str, Any] = {"disconnects": {"root": root(commons={"plus": ("6",)})}, "items": {}}
    was = state(**both_circuits(supply=of), **joint)
    found = compare(was, state("B", **both_circuits(supply=of.model_copy(update={"left_in": True})), **joint))
    assert moves_of(found) == ["out supply A P1A22 RD at root fixed [6] crimped"]
    assert [each.was and each.was.at for each in found.wiring.plugged] == ["receiver 4"]


# What is another of circuits and equipment


@pytest.mark.parametrize(
    ("field", "was", "now"),
    [
        ("label", "RUD", "YAW"),
        ("planned", None, True),
        ("channel", None, 4),
        ("throw", None, "20 mm"),
        ("failsafe", None, "off"),
        ("left_in", None, True),
    ],
)
def test_each_fact_of_a_circuit_that_is_another_is_told(field: str, was: Any, now: Any) -> None:
    other = rudder().model_copy(update={field: now})
    assert after(**both_circuits(rudder=other)).circuits == (Changed("rudder", "rudder", (Fact(field, "", was, now),)),)


def test_routes_leads_and_ends_that_are_others_are_told() -> None:
    other = rudder(route=("tray", "belly", "tail"), part="servo-20")
    assert after(**both_circuits(rudder=other)).circuits[0].facts == (
        Fact("part", "A", "servo-22", "servo-20"),
        Fact("route", "A", "tray, tail", "tray, belly, tail"),
    )
    found = after(**both_circuits(rudder=spliced("123"))).circuits[0].facts
    assert found == (
        Fact("to", "", "rudder", "rudder, tailwheel"),
        *(fact for fact in found if fact.what == "route"),
        Fact("lead", "B", "", "there"),
        Fact("lead", "C", "", "there"),
    )
    back = compare(state(**both_circuits(rudder=spliced("123"))), state("B")).circuits[0].facts
    assert Fact("lead", "C", "there", "") in back


@pytest.mark.parametrize(
    ("field", "was", "now"),
    [
        ("kind", "servo", "gyro"),
        ("place", "tail", "fin"),
        ("plug_at", None, "belly"),
        ("working_a", 0.4, 0.5),
        ("idle_a", None, 0.1),
        ("stall_a", None, 2.0),
        ("runs_s", None, 9.0),
        ("least_v", None, 4.8),
        ("most_v", 8.4, 6.0),
    ],
)
def test_each_fact_of_equipment_that_is_another_is_told_and_what_it_moves_checked(
    field: str, was: Any, now: Any
) -> None:
    equipment = A.equipment | {"rudder": servo("tail").model_copy(update={field: now})}
    found = after(equipment=equipment)
    assert found.equipment == (Changed("rudder", "rudder", (Fact(field, "", was, now),)),)
    checks = ("volts", "gyro", "works", "idle") if now == "gyro" else ("volts", "direction", "centre", "ends", "idle")
    assert found.checks == {"rudder": checks}


def test_ports_plugs_orders_and_colours_that_are_others_are_told() -> None:
    def ports(*names: str, **more: Any) -> tuple[IssuedPorts, ...]:
        said: dict[str, Any] = {"names": names, "plug": "servo-3", "gender": "pins", "order": tuple(small.ROLES)}
        return (small.made(IssuedPorts, said, more),)

    def facts(**more: Any) -> tuple[Fact, ...]:
        return after(equipment=A.equipment | {"receiver": small.receiver(**more)}).equipment[0].facts

    assert facts(ports=ports("1", "2", "3", "X")) == (Fact("port", "4", "there", ""), Fact("port", "X", "", "there"))
    each = [str(number) for number in range(1, 5)]
    turned = ("signal", "positive", "negative")
    orders = ("negative, positive, signal", ", ".join(turned))
    assert facts(ports=ports(*each, order=turned)) == tuple(Fact("order", name, *orders) for name in each)
    sockets = facts(ports=ports(*each, gender="sockets", lead_mm=90.0, lead_wire="pvc-26", plug="jr"))
    assert [(fact.what, fact.was, fact.now) for fact in sockets if fact.of == "3"] == [
        ("plug", "servo-3", "jr"),
        ("gender", "pins", "sockets"),
        ("lead_mm", None, 90.0),
        ("lead_wire", None, "pvc-26"),
    ]
    assert facts(colours={"signal": "YE", "negative": "BN"}) == (Fact("colours", "", None, "YE, BN"),)


@pytest.mark.parametrize(
    ("more", "checks"),
    [
        ({"channel": 7}, ("direction", "centre", "ends", "fail-safe")),
        ({"throw": "9 mm"}, ("ends",)),
        ({"failsafe": "off"}, ("fail-safe",)),
        ({"label": "AILERON"}, ()),
    ],
)
def test_what_the_radio_is_set_to_otherwise_is_checked_again(more: dict[str, Any], checks: tuple[str, ...]) -> None:
    assert after(**both_circuits(aileron=aileron().model_copy(update=more))).checks == (
        {"aileron": checks} if checks else {}
    )


def test_of_two_loads_behind_a_splice_one_that_is_another_is_enough_to_try_both() -> None:
    loads = {"rudder": servo("tail"), "tailwheel": servo("tail")}
    split = {"rudder": spliced("123")}
    was, now = ({**A.equipment, **loads, "tailwheel": servo("tail", working_a=amps)} for amps in (0.4, 0.5))
    found = compare(state(circuits=split, equipment=was), state("B", circuits=split, equipment=now))
    assert found.checks == {"rudder": ("volts", "direction", "centre", "ends", "idle")}


@pytest.mark.parametrize("more", [{"planned": True}, {"left_in": True}])
def test_what_is_planned_or_left_in_is_not_checked_whatever_it_works(more: dict[str, bool]) -> None:
    equipment = A.equipment | {"aileron": servo("wing", working_a=0.5)}
    other = {**more, "channel": 9, "throw": "9 mm"}
    assert after(**both_circuits(aileron=aileron().model_copy(update=other)), equipment=equipment).checks == {}


def test_a_gear_leg_has_direction_and_ends_checked() -> None:
    equipment = A.equipment | {"rudder": servo("tail", kind="gear leg")}
    assert after(equipment=equipment).checks == {"rudder": ("volts", "direction", "ends", "idle")}


def test_figures_are_told_of_what_is_checked_again_and_to_hundredths() -> None:
    def with_figures(of: Any, **more: float) -> Any:
        return of.model_copy(update={"figures": small.made(IssuedFigures, {}, more)})

    was = state(**both_circuits(rudder=with_figures(rudder(), drop_v=0.1, left_v=5.0, stalled_drop_v=0.30)))
    longer = with_figures(rudder(cut_mm=320.0), drop_v=0.104, left_v=4.9, stalled_drop_v=0.31, working_a=9.0)
    found = compare(was, state("B", **both_circuits(rudder=longer)))
    assert found.figures == (
        Changed("rudder", "rudder", (Fact("stalled_drop_v", "", 0.30, 0.31), Fact("left_v", "", 5.0, 4.9))),
    )
    untouched = with_figures(rudder(), drop_v=0.2)
    assert compare(was, state("B", **both_circuits(rudder=untouched))).figures == ()


# Names that are others


def test_what_has_another_name_is_taken_as_the_same_and_nothing_is_done_to_it() -> None:
    was = state(items={"wire-labels": labels("rudder A from"), "pinout-cards": {"receiver": item("a")}})
    renamed = rudder().model_copy(update={"ends": (("receiver", "1"), ("fin",))})
    lead_a = renamed.leads["A"]
    fin = lead_a.ends[1].model_copy(update={"name": "fin"})
    renamed = renamed.model_copy(update={"leads": {"A": lead_a.model_copy(update={"ends": (lead_a.ends[0], fin)})}})
    equipment = {"receiver": small.receiver(), "fin": servo("tail"), "aileron": servo("wing")}
    now = state(
        "B",
        circuits={"yaw": renamed, "aileron": aileron()},
        equipment=equipment,
        items={"wire-labels": {"yaw A from": item("RUDDER")}, "pinout-cards": {"receiver": item("a")}},
    )
    found = compare(was, now)
    assert [(taken.what, taken.old, taken.new, taken.by) for taken in found.taken] == [
        ("equipment", "rudder", "fin", "its places"),
        ("circuit", "rudder", "yaw", "its ends"),
    ]
    assert (found.wiring, found.checks, found.put_on, found.stripped, found.cards) == (Wiring(), {}, (), (), ())
    assert {(each.was, each.now) for each in (*found.circuits, *found.equipment)} == {
        ("rudder", "yaw"),
        ("rudder", "fin"),
    }


def test_a_circuit_of_one_name_that_goes_elsewhere_is_taken_by_its_name_and_one_of_one_load_by_that() -> None:
    def taken(of: dict[str, Any]) -> list[tuple[str, ...]]:
        found = after(circuits={"aileron": aileron(), **of}, items={})
        return [(each.old, each.new, each.by, each.text) for each in found.taken]

    assert taken({"rudder": rudder("3")}) == [("rudder", "rudder", "its name", "circuit rudder")]
    assert taken({"yaw": rudder("3")}) == [("rudder", "yaw", "its load", "circuit rudder is now yaw")]


# What no longer holds


def test_what_was_not_found_before_is_told_but_what_is_of_files() -> None:
    def finding(name: str, on: str = "circuits rudder") -> IssuedFinding:
        return IssuedFinding(name=name, level="note", on=on, sentence=f"{name} of {on}.")

    was = state(findings=(finding("drop"), finding("hole", "runs a to b")))
    of_files = [finding(name) for name in ("accept", "moved", "typical", "unbuilt", "unused")]
    now = state("B", findings=(finding("drop"), finding("hole", "runs a to b"), finding("volts"), *of_files))
    assert compare(was, now).broken == (Broken("volts", "circuits rudder", "", "volts of circuits rudder."),)
    assert compare(now, was.model_copy(update={"issue": "C"})).broken == ()


def test_a_plug_that_is_another_or_has_its_contacts_in_another_order_holds_no_more() -> None:
    def with_plug(name: str, housing: str, order: tuple[str, ...]) -> dict[str, Any]:
        of = rudder()
        lead_a = of.leads["A"]
        end = lead_a.ends[1].model_copy(update={"plug": name, "housing": housing})
        of = of.model_copy(update={"leads": {"A": lead_a.model_copy(update={"ends": (lead_a.ends[0], end)})}})
        plug = (IssuedPorts(plug=name, gender="pins", order=order, lead_mm=250.0, lead_wire="pvc-22"),)
        equipment = A.equipment | {"rudder": servo("tail", ports=plug)}
        return {**both_circuits(rudder=of), "equipment": equipment}

    turned = ("signal", "positive", "negative")
    same_housing = after(**with_plug("turned-3", "3 of 8 × 2.9 mm", turned))
    orders = "negative, positive, signal", "signal, positive, negative"
    assert same_housing.broken == (Broken("order", "equipment rudder", *orders),)
    assert after(**with_plug("motor-3", "3 of 9 mm", turned)).broken == (
        Broken("plug", "equipment rudder", "servo-3", "motor-3"),
    )
    assert after(**with_plug("servo-3", "3 of 8 × 2.9 mm", tuple(small.ROLES))).broken == ()


# Labels, cards, sheets, sleeves


def test_labels_that_say_something_else_come_off_and_go_on_where_the_wire_stays() -> None:
    every = small.EVERY_LABEL
    now = {"wire-labels": labels(*every, rudder_A_to="11111111")}
    [on] = after(items=now).put_on
    assert (on.key, on.says, on.lead, on.at, on.place) == ("rudder A to", "RUDDER", "rudder A", "rudder", "tail")
    [off] = after(items=now).stripped
    assert (off.key, off.at, off.place) == ("rudder A to", "rudder", "tail")
    fewer = after(items={"wire-labels": labels(*every[1:])})
    assert [(label.key, label.at) for label in fewer.stripped] == [("rudder A from", "receiver 1")]
    assert fewer.put_on == ()
    more = compare(state(items={"wire-labels": labels(*every[:-1])}), state("B"))
    assert [(label.key, label.at, label.place) for label in more.put_on] == [("aileron B to", "aileron", "wing")]
    assert more.stripped == ()


def test_a_label_on_a_lead_that_came_along_lies_at_its_plug() -> None:
    was = state(**both_circuits(rudder=straight("1")))
    now = state(
        "B", **both_circuits(rudder=straight("1")), items={"wire-labels": labels("rudder A to", rudder_A_to="1" * 8)}
    )
    assert [(label.at, label.place) for label in compare(was, now).put_on] == [("receiver 1", "tray")]
    other_servo = {"equipment": A.equipment | {"rudder": servo("tail", stall_a=3.0)}}
    bare = compare(was, state("B", **both_circuits(rudder=straight("1")), **other_servo))
    assert {label.key for label in bare.put_on} == {"rudder A from", "rudder A to"}, "another servo has no label yet"


def test_cards_are_replaced_put_in_or_torn_up_and_sheets_that_say_something_else_named() -> None:
    cards = {"receiver": item("a", "1" * 8), "root fixed": item("b", "2" * 8), "root loose": item("c", "3" * 8)}
    sheets = {"cut-list": item("", "1" * 8), "hangar-card": item("", "2" * 8)}
    was = state(items={"pinout-cards": cards, "sheets": sheets})
    other = {"receiver": item("a", "9" * 8), "root fixed": item("b", "2" * 8), "unit": item("d", "4" * 8)}
    now = state(
        "B", items={"pinout-cards": other, "sheets": {**sheets, "cut-list": item("", "7" * 8), "new": item("")}}
    )
    assert compare(was, now).cards == (
        OtherCard("receiver", "1" * 8, "9" * 8),
        OtherCard("unit", "", "4" * 8),
        OtherCard("root loose", "3" * 8, ""),
    )
    assert compare(was, now).sheets == ("cut-list", "new")


def sleeve(*leads: str, **more: Any) -> IssuedSleeve:
    """Return a braid, 10 mm longer than its way if no more is said."""
    run_mm = more.get("run_mm", 200.0)
    said = {"kind": "braid-4", "run_mm": run_mm, "cut_mm": run_mm and run_mm + 10.0, "leads": leads}
    return small.made(IssuedSleeve, said, more)


@pytest.mark.parametrize(
    ("more", "is_other"), [({"kind": "braid-6"}, True), ({"run_mm": 220.0}, True), ({"cut_mm": 230.0}, False)]
)
def test_a_sleeve_of_another_kind_or_way_is_another_and_one_only_cut_otherwise_stays(
    more: dict[str, Any], is_other: bool
) -> None:
    was, now = sleeve("rudder A"), sleeve("rudder A", **more)
    found = compare(state(sleeves={"a to b": was}), state("B", sleeves={"a to b": now}))
    assert found.sleeves == ((OtherSleeve("a to b", was, now),) if is_other else ())
    gone = compare(state(sleeves={"a to b": was}), state("B"))
    assert gone.sleeves == (OtherSleeve("a to b", was, None),)
    assert after(sleeves={"a to b": now}).sleeves == (OtherSleeve("a to b", None, now),)


def test_a_sleeve_whose_way_was_not_known_was_not_cut_and_one_whose_way_no_longer_is_stays() -> None:
    known, unknown = sleeve("rudder A"), sleeve("rudder A", run_mm=None, cut_mm=None)

    def found(was: IssuedSleeve, now: IssuedSleeve | None, **more: Any) -> tuple[OtherSleeve, ...]:
        new = state("B", sleeves={"a to b": now} if now else {})
        return compare(state(sleeves={"a to b": was}, **more), new).sleeves

    assert found(unknown, known) == (OtherSleeve("a to b", None, known),)
    assert found(unknown, None) == ()
    assert found(known, unknown) == found(unknown, unknown) == ()
    assert found(unknown, known, as_built=True) == ()


def test_new_leads_are_threaded_through_sleeves_that_stay() -> None:
    was = state(sleeves={"a to b": sleeve("rudder A", "aileron A"), "b to c": sleeve("rudder A")})
    others = {"a to b": sleeve("rudder A", "aileron A"), "b to c": sleeve("rudder A", kind="braid-6")}
    now = state("B", sleeves={**others, "c to d": sleeve("rudder A")}, **both_circuits(rudder=rudder(cut_mm=320.0)))
    assert compare(was, now).threaded == {"a to b": ("rudder A",)}


def test_what_an_unbuilt_issue_added_may_be_there_but_for_what_was_there_before() -> None:
    assert after(gone={"strobe": rudder(), "rudder": rudder()}).perhaps == ("strobe",)


def test_altered_already_nothing_is_left_to_do_to_wires_and_sleeves() -> None:
    found = compare(
        state(sleeves={"a to b": sleeve("rudder A")}), state("B", **both_circuits(rudder=rudder(cut_mm=320.0)))
    )
    built = found.as_built
    assert (built.wiring, built.sleeves, built.threaded, built.is_built) == (Wiring(), (), {}, True)
    same = {field.name for field in fields(found)} - {"wiring", "sleeves", "threaded", "is_built"}
    assert all(getattr(built, name) == getattr(found, name) for name in same)
