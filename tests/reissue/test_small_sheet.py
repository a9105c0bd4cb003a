"""The rework sheet of a small aircraft, line by line, and what is done under which cover."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from reissue import small
from reissue.small import aileron, item, labels, rudder, servo, state
from reissue.test_small_states import A, both_circuits, on_the_common, sleeve, straight, two_on_the_common, with_tail

from docgen.definition.issued import IssuedEquipment, IssuedFinding, IssuedPlace, IssuedSettings, State
from docgen.harness.assembly.work import SleeveWork
from docgen.harness.continuity.isolation import Isolations
from docgen.harness.model.results import Rest
from docgen.paperwork.bench.ring_out_content import RingOutContent
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.ink import Line, Page, Shape, Text
from docgen.paperwork.typesetting.title_block import NO_TITLE
from docgen.paperwork.typesetting.typeface import FOOT_MM, PLAIN_MM
from docgen.reissue import sheet
from docgen.reissue.compare import compare
from docgen.reissue.hatch import Stop, parted, stops
from docgen.reissue.making import Making, Opening

NOTHING_RUNG = RingOutContent((), (), (), (), (), Isolations((), (), ()), {}, {}, (), frozenset())
NOTHING_MADE = Making()
HEADING_MM = 3.5
PLACES = {
    "tray": IssuedPlace(assembly="fuselage", access="canopy"),
    "root": IssuedPlace(assembly="fuselage", access="wing off"),
    "panel": IssuedPlace(assembly="panel"),
    "wing": IssuedPlace(assembly="panel", access="servo cover"),
    "tail": IssuedPlace(assembly="fuselage", access="hatch"),
}


def placed(issue: str = "A", **more: Any) -> State:
    return state(issue, places=PLACES, **more)


def sections(old: State, new: State, made: Making = NOTHING_MADE) -> dict[str, list[str]]:
    """Return what the sheet says below each heading, cell by cell; without its title and caution."""
    return read_sheet(sheet.ReworkContent(compare(old, new), old, new, NOTHING_RUNG, making=made))


def read_sheet(content: sheet.ReworkContent) -> dict[str, list[str]]:
    old, new = content.old, content.new
    found: dict[str, list[str]] = {}
    pages = sheet.compose(content, read_page("list-a4"))(NO_TITLE).pages
    texts = [ink for page in pages for ink in page.ink if isinstance(ink, Text) and ink.height_mm > FOOT_MM]
    assert texts.pop(0).text.startswith(f"Rework {old.issue} to {new.issue}")
    for text in texts:
        if text.bold and text.height_mm == HEADING_MM and re.match(r"\d +[A-Z]|No longer|What differs", text.text):
            found[" ".join(text.text.split())] = []
        elif found:
            list(found.values())[-1].append(text.text)
    return found


def section(said: dict[str, list[str]], title: str) -> list[str]:
    return next(texts for heading, texts in said.items() if re.sub(r"^\d ", "", heading) == title)


LONGER = placed("B", **both_circuits(rudder=rudder(cut_mm=320.0)))
OUT = "All packs out of the aircraft, and all equipment unplugged that is worked on. Go by number and colour."
DONE = "All of this is done in the aircraft. Say so: docgen built, and the folder of the aircraft."


def test_a_longer_lead_is_cut_taken_out_put_in_and_tried_in_that_order() -> None:
    put_in = ["servo-3 sockets", "1 BK, 2 RD, 3 WH", "new wires: crimp, insert"]
    out = ["1 BK, 2 RD, 3 WH", "old wires: extract, cut off", "on RUDDER", "tube, slid on first"]
    rows = [("BK", "C1A22N"), ("RD", "C1A22"), ("WH", "C2A22")]
    assert sections(placed(), LONGER) == {
        "What differs": ["rudder", "A cut length 320 mm, was 300 mm"],
        "1 Packs out": [OUT],
        "2 At the bench: cut": [
            *("mm", "gauge", "wire", "lead", "mark"),
            *(text for colour, mark in rows for text in ("320", colour, "22 AWG", "pvc-22", "RUD A", mark)),
        ],
        "3 Under the covers": [
            *("cover", "lead", "at", "take out", "label", "put in"),
            *("canopy", "tray, fuselage", "RUD A", "rudder A", "receiver 1", *out, *put_in),
            *("hatch", "tail, fuselage", "RUD A", "rudder A", "rudder", *out, *put_in),
        ],
        "4 Packs in: check again": ["Hands clear of surfaces, gear and doors.", "works", "RUD", "rudder"],
        "5 Done": [DONE],
    }
    assert sections(placed(), placed("B")) == {"1 Packs out": [OUT], "2 Done": [DONE]}


def page_of(old: State, new: State) -> Page:
    content = sheet.ReworkContent(compare(old, new), old, new, NOTHING_RUNG)
    [page] = sheet.compose(content, read_page("list-a4"))(NO_TITLE).pages
    return page


def ticks(old: State, new: State) -> int:
    """Count the boxes to tick: squares of 4 mm."""
    return sum(isinstance(ink, Shape) and sizes(ink) == {4.0} for ink in page_of(old, new).ink)


def test_a_rule_stands_over_each_row_but_between_the_wires_of_a_lead_and_none_leaves_the_page() -> None:
    """What differs, packs out, one lead to cut, two ends, one circuit to try, done."""
    page = page_of(placed(), LONGER)
    rules = [ink for ink in page.ink if isinstance(ink, Line) and ink.x2_mm - ink.x1_mm > 80]
    assert len(rules) == 1 + 1 + 1 + 2 + 1 + 1
    assert all(0 < line.x1_mm < line.x2_mm < page.width_mm for line in rules)
    assert all(0 < x < page.width_mm for ink in page.ink if isinstance(ink, Shape) for x, _ in ink.points_mm)


def sizes(shape: Shape) -> set[float]:
    across, down = ([point[i] for point in shape.points_mm] for i in (0, 1))
    return {round(max(each) - min(each), 3) for each in (across, down)}


def test_each_act_has_a_box_to_tick() -> None:
    """Packs out, three pieces, at each of two ends out, label and in, one check, done; a card that is replaced two."""
    assert ticks(placed(), LONGER) == 1 + 3 + 2 * 3 + 1 + 1
    cards = {"receiver": item("", "1" * 8)}, {"receiver": item("", "2" * 8), "rudder": item("", "3" * 8)}
    was, now = (placed(issue, items={"pinout-cards": some}) for issue, some in zip("AB", cards, strict=True))
    assert ticks(was, now) == 1 + 2 + 1 + 1
    sleeves = {"a to b": sleeve("x"), "b to c": sleeve("x")}, {"a to b": sleeve("x", kind="wrap-6")}
    was, now = (placed(issue, sleeves=some, items={}) for issue, some in zip("AB", sleeves, strict=True))
    assert ticks(was, now) == 1 + 2 + 1 + 1


def test_functions_wires_and_lengths_are_bold_and_large_and_what_explains_them_small() -> None:
    texts = [ink for ink in page_of(placed(), LONGER).ink if isinstance(ink, Text) and ink.height_mm < HEADING_MM]
    heights = {(text.text, text.bold): text.height_mm for text in texts}
    for large in ("RUD A", "1 BK, 2 RD, 3 WH", "RUD", "rudder"):
        assert heights[large, True] == PLAIN_MM, large
    for plain in ("canopy", "receiver 1", "C1A22N", OUT, DONE):
        assert heights[plain, False] == PLAIN_MM, plain
    for little in ("tray, fuselage", "rudder A", "old wires: extract, cut off", "on RUDDER", "22 AWG", "pvc-22"):
        assert heights[little, False] < PLAIN_MM, little
    lengths = [ink for ink in page_of(placed(), LONGER).ink if isinstance(ink, Text) and ink.text == "320"]
    assert [(text.height_mm, text.bold, text.align) for text in lengths] == [(HEADING_MM, True, "right")] * 3


def test_a_piece_of_unknown_length_has_none() -> None:
    of = small.wires("C1 C1 C2", "A", gauge="20 AWG")
    unknown = placed("B", **both_circuits(rudder=rudder(cut_mm=None, of=of)))
    said = section(sections(placed(), unknown), "At the bench: cut")
    assert said[4:9] == ["BK", "20 AWG", "pvc-22", "RUD A", "C1A22N"], "the column of lengths is left out"


def test_wires_of_one_end_that_are_joined_otherwise_have_a_row_of_their_own() -> None:
    """A longer lead B: negative and signal go into contacts of the joint, the positive into the splice behind it."""
    longer = on_the_common("flap", "C5 C5 C6", "3", "45")
    longer.leads["B"] = longer.leads["B"].model_copy(update={"cut_mm": 320.0})
    was, now = (
        each.model_copy(update={"places": PLACES})
        for each in (two_on_the_common(), two_on_the_common("B", flap=longer))
    )
    said = section(sections(was, now), "Under the covers")
    at = said.index("FLAP B")
    assert said[at : at + 14] == [
        *("FLAP B", "flap B", "root loose", "4 BK, 5 WH", "old wires: extract, cut off"),
        *("block-8 pins", "4 BK, 5 WH", "new wires: crimp, insert"),
        *("FLAP B", "flap B", "root loose", "7+8 RD", "old wires: cut out of the splice", "7+8 RD"),
    ]
    assert said[at + 14] == "new wires: into the splice below"
    assert "7 RD, 8 RD" in said, "the tails have no marks"


def test_what_is_spliced_to_an_end_that_stays_free_waits_for_it() -> None:
    longer = on_the_common("flap", "C5 C5 C6", "3", "45")
    longer.leads["B"] = longer.leads["B"].model_copy(update={"cut_mm": 320.0})
    was, now = (
        each.model_copy(update={"places": PLACES})
        for each in (two_on_the_common(), two_on_the_common("B", flap=longer))
    )
    first, last = parted(stops(compare(was, now), was, now), {"flap B": ("root loose",)})
    assert [(stop.lead, stop.at) for stop in last] == [
        (lead, "root loose") for lead in ("flap B", "aileron B", "root plus")
    ]
    assert not any(stop.into for stop in first if stop.at == "root loose")


def stop_of(old: State, new: State, lead: str, at: str) -> Stop:
    [stop] = [stop for stop in stops(compare(old, new), old, new) if (stop.lead, stop.at) == (lead, at)]
    return stop


def test_stops_lie_in_the_order_of_places_each_with_its_cover_and_function() -> None:
    found = stops(compare(placed(), LONGER), placed(), LONGER)
    assert [(stop.place, stop.assembly, stop.access, stop.at, stop.function) for stop in found] == [
        ("tray", "fuselage", "canopy", "receiver 1", "RUD A"),
        ("tail", "fuselage", "hatch", "rudder", "RUD A"),
    ]
    for stop in found:
        assert [move.into for move in stop.out] == [False] * 3
        assert [move.into for move in stop.into] == [True] * 3
        assert [label.says for label in stop.put_on] == ["RUDDER"]
        assert (stop.stripped, stop.plugged, stop.live, stop.is_open) == ((), (), False, True)


def test_a_place_that_is_gone_comes_last_and_what_is_gone_keeps_its_function() -> None:
    new = state("B", places={"tail": PLACES["tail"], "tray": PLACES["tray"]}, circuits={"rudder": rudder()}, items={})
    found = stops(compare(placed(items={}), new), placed(), new)
    assert [(stop.place, stop.function, stop.is_open) for stop in found] == [
        ("tray", "AIL A", False),
        ("root", "AIL A", False),
        ("panel", "AIL B", False),
        ("wing", "AIL B", False),
    ]


def test_a_place_that_is_new_has_its_cover_and_a_circuit_its_label_of_now() -> None:
    was = state("A", places={name: place for name, place in PLACES.items() if name != "tail"})
    longer = rudder(cut_mm=320.0).model_copy(update={"label": "YAW"})
    new = placed("B", **both_circuits(rudder=longer))
    assert [(stop.access, stop.function) for stop in stops(compare(was, new), was, new)] == [
        ("canopy", "YAW A"),
        ("hatch", "YAW A"),
    ]


def test_a_tail_is_named_by_its_common_and_a_pack_s_wires_may_be_live() -> None:
    new = with_tail().model_copy(update={"places": PLACES})
    assert stop_of(placed(), new, "root plus", "root loose").function == "plus"
    pack = {"rudder": IssuedEquipment(kind="battery", place="tail")}
    live = stop_of(placed(), LONGER.model_copy(update={"equipment": A.equipment | pack}), "rudder A", "rudder")
    dead = stop_of(placed(), LONGER.model_copy(update={"equipment": A.equipment | pack}), "rudder A", "receiver 1")
    assert (live.live, dead.live) == (True, False)
    was = placed(equipment=A.equipment | pack)
    assert stop_of(was, LONGER, "rudder A", "rudder").live


def test_a_plug_is_a_stop_where_it_was_and_where_it_goes() -> None:
    was = placed(**both_circuits(rudder=straight("1")), items={})
    now = placed("B", **both_circuits(rudder=straight("3")), items={})
    for at in ("receiver 1", "receiver 3"):
        [plugging] = stop_of(was, now, "rudder A", at).plugged
        assert plugging.was is not None
        assert plugging.was.at == "receiver 1"


def test_what_is_taken_out_lies_under_the_cover_where_it_was_and_what_goes_in_where_it_is() -> None:
    """A servo that moves from the tail to the panel is wired anew: hatch, then panel; the other end stays put."""
    goal = small.port("rudder", "", "panel", own_mm=250.0, own_wire="pvc-22")
    moved = small.lead(small.port("receiver", "1", "tray"), goal, small.wires("C1 C1 C2", "A"), cut_mm=500.0)
    now = placed(
        "B",
        equipment=A.equipment | {"rudder": servo("panel")},
        **both_circuits(rudder=small.circuit("RUD", "receiver 1 > rudder", {"A": moved})),
    )
    found = [
        (stop.access or stop.place, stop.at, len(stop.out), len(stop.into), len(stop.put_on))
        for stop in stops(compare(placed(), now), placed(), now)
    ]
    assert found == [
        ("canopy", "receiver 1", 3, 3, 1),
        ("panel", "rudder", 0, 3, 1),
        ("hatch", "rudder", 3, 0, 0),
    ]


def test_a_plug_that_came_along_is_pulled_under_the_cover_where_it_was() -> None:
    def on(part: str, place: str) -> dict[str, Any]:
        ends = small.port("receiver", part, place), small.port("rudder", "", "tail", own_mm=250.0)
        came = small.lead(*ends, small.wires("C1 C1 C2", "A"), part="", cut_mm=None)
        return both_circuits(rudder=small.circuit("RUD", f"receiver {part} > rudder", {"A": came}))

    said = covers(placed(**on("1", "tray"), items={}), placed("B", **on("3", "root"), items={}))
    assert said == [
        *("cover", "lead", "at", "take out", "put in"),
        *("canopy", "tray, fuselage", "RUD A", "rudder A", "receiver 1", "unplug", "the whole plug"),
        *("wing off", "root, fuselage", "RUD A", "rudder A", "receiver 3", "plug in", "the whole plug"),
    ]


def covers(old: State, new: State) -> list[str]:
    return section(sections(old, new), "Under the covers")


def test_what_moves_on_its_contact_is_said_without_a_housing_and_on_a_new_contact_with_it() -> None:
    moved = covers(placed(items={}), placed("B", **both_circuits(aileron=aileron("125")), items={}))
    assert moved == [
        *("cover", "lead", "at", "take out", "put in"),
        *("wing off", "root, fuselage", "AIL A", "aileron A", "root fixed", "3 WH", "extract", "5 WH", "insert"),
        *("panel", "panel, panel", "AIL B", "aileron B", "root loose", "3 WH", "extract", "5 WH", "insert"),
    ]
    other = placed("B", **both_circuits(aileron=aileron(housing="14 of 40 × 12 mm")), items={})
    all_three = "1 BK, 2 RD, 3 WH"
    assert covers(placed(items={}), other)[5:] == [
        *("wing off", "root, fuselage", "AIL A", "aileron A", "root fixed", all_three, "extract, cut off"),
        *("block-8 sockets", all_three, "crimp, insert"),
        *("panel", "panel, panel", "AIL B", "aileron B", "root loose", all_three, "extract, cut off"),
        *("block-8 pins", all_three, "crimp, insert"),
    ]


def test_a_cover_is_named_once_for_all_that_is_done_under_it() -> None:
    both = both_circuits(rudder=rudder("4", cut_mm=320.0), aileron=aileron().model_copy(update={"planned": True}))
    said = covers(placed(items={}), placed("B", **both, items={}))
    assert said.count("canopy") == 1
    assert said.count("receiver 1") + said.count("receiver 2") + said.count("receiver 4") == 3


def test_wires_of_one_colour_are_told_apart_by_their_marks() -> None:
    of = {role: wire.model_copy(update={"colour": "BK"}) for role, wire in small.wires("C1 C1 C2", "A").items()}
    found = covers(placed(**both_circuits(rudder=rudder(of=of))), LONGER)
    assert "1 BK C1A22N, 2 BK C1A22, 3 BK C2A22" in found
    assert "1 BK C1A22N, 2 RD, 3 WH" not in found


def test_what_may_be_live_is_bared_one_wire_at_a_time() -> None:
    pack = A.equipment | {"rudder": IssuedEquipment(kind="battery", place="tail")}
    said = covers(placed(equipment=pack), LONGER.model_copy(update={"equipment": pack}))
    bare = said.index("bare one wire at a time, the other insulated")
    assert said[bare - 1] == "rudder"
    assert said.count("bare one wire at a time, the other insulated") == 1


def test_plugs_and_labels_are_said_where_no_wire_moves() -> None:
    was = placed(**both_circuits(rudder=straight("1")), items={"wire-labels": labels("rudder A to")})
    other = {"wire-labels": labels("rudder A to", rudder_A_to="1" * 8)}
    now = placed("B", **both_circuits(rudder=straight("3")), items=other)
    head = ["cover", "lead", "at", "take out", "label", "put in"]
    first = ["canopy", "tray, fuselage", "RUD A", "rudder A", "receiver 1", "unplug", "the whole plug"]
    labelled = ["off RUDDER", "on RUDDER", "wrap or flag"]
    second = ["RUD A", "rudder A", "receiver 3", *labelled, "plug in", "the whole plug"]
    assert covers(was, now) == [*head, *first, *second]
    left = placed("B", **both_circuits(aileron=aileron(left_in=True)), items={})
    assert covers(placed(items={}), left) == [
        *("cover", "lead", "at", "take out"),
        *("canopy", "tray, fuselage", "AIL A", "aileron A", "receiver 2", "unplug", "dead: cap it"),
        *("servo cover", "wing, panel", "AIL B", "aileron B", "aileron", "unplug", "dead: cap it"),
    ]
    gone = placed("B", **both_circuits(rudder=straight("1")), items={})
    assert covers(was, gone)[-2:] == ["receiver 1", "off RUDDER"]


def test_sleeves_come_off_go_on_or_stay_with_leads_threaded_through() -> None:
    was = placed(sleeves={"a to b": sleeve("rudder A"), "b to c": sleeve("rudder A"), "c to d": sleeve("rudder A")})
    sleeves = {
        "a to b": sleeve("rudder A", "aileron A", kind="braid-6", cut_mm=215.0),
        "b to c": sleeve("rudder A"),
        "e to f": sleeve("rudder A", kind="wrap-6", splits=True, cut_mm=None),
    }
    assert section(sections(was, LONGER.model_copy(update={"sleeves": sleeves})), "Sleeves") == [
        *("sleeve", "off", "on", "over"),
        *("a to b", "braid-4", "slit, collars too", "braid-6 · 215 mm"),
        "one end of each free first: rudder A, aileron A",
        *("c to d", "braid-4", "slit, collars too"),
        *("e to f", "wrap-6 · length not measured", "around rudder A"),
        *("b to c", "stays", "collars slit, ends tied after", "thread rudder A through"),
    ]


def test_a_wrap_that_stays_is_unwound_for_a_new_lead() -> None:
    wrap = {"b to c": sleeve("rudder A", kind="wrap-6", splits=True)}
    said = section(sections(placed(sleeves=wrap), LONGER.model_copy(update={"sleeves": wrap})), "Sleeves")
    assert said[-4:-1] == ["b to c", "stays", "unwound, wound again"]


def test_a_sleeve_that_is_too_long_is_cut_back_and_one_that_goes_on_has_collars_and_stops_at_plugs() -> None:
    """A collar is a tube, which does not go over a lead that is plugged: what is cut back is tied."""
    was = placed(sleeves={"a to b": sleeve("rudder A"), "b to c": sleeve("rudder A")})
    sleeves = {"a to b": sleeve("rudder A", run_mm=140.0), "b to c": sleeve("rudder A", kind="braid-6")}
    nothing: Any = None
    work = SleeveWork(sleeve=nothing, start="c", goal="b", collar="shrink-6", plugs=("rudder",))
    said = sections(was, placed("B", sleeves=sleeves), Making(sleeves={"b to c": work}))
    assert section(said, "Sleeves")[4:] == [
        *("a to b", "braid-4", "cut back 60 mm in place, end tied"),
        *("b to c", "braid-4", "slit, collars too", "braid-6 · 210 mm", "2 collars of shrink-6, 20 mm"),
        *("one end of each free first: rudder A; not over the plug of rudder: take its contacts", "out"),
    ]
    own = Making(sleeves={"b to c": replace(work, collar=None, plugs=())}, around={"b to c": "wrap-6"})
    with_wrap = sections(was, placed("B", sleeves=sleeves), own)
    assert with_wrap["What differs"] == [
        "b to c",
        "its sleeve slides on, over ends that come out; sleeve: wrap-6 at its run would go around",
    ], "said before anything is opened"
    assert "2 collars of a tube of your own, 20 mm" in section(with_wrap, "Sleeves")


def test_what_lies_in_a_closed_run_is_drawn_out_and_its_sleeve_is_changed_at_the_bench() -> None:
    """Nothing is slit, cut back, unwound or wrapped where no hand reaches; ends of a run are in reach."""
    names = ("a to b", "b to c", "c to d", "d to e", "e to f")
    was = placed(sleeves={ends: sleeve("rudder A") for ends in names[:4]})
    others = {"kind": "braid-6"}, {"run_mm": 140.0}, {"kind": "wrap-6", "splits": True}
    now = dict(zip((*names[:2], names[4]), (sleeve("rudder A", **more) for more in others), strict=True))
    now["d to e"] = sleeve("rudder A", "aileron A", kind="braid-4")
    said = section(sections(was, placed("B", sleeves=now, closed=names)), "Sleeves")
    drawn = "closed run; free first: rudder A; draw out with a line tied on;"
    assert " ".join(said[4:]) == " ".join(
        (
            *("a to b", "braid-4", "off at the bench", "braid-6 · 210 mm", drawn, "change the sleeve; draw back"),
            *("b to c", "braid-4", "cut back 60 mm at an end, outside the run, tied"),
            *("c to d", "braid-4", "closed run: off where it is drawn out, else stays"),
            *("e to f", "wrap-6 · 210 mm", drawn, "put the sleeve on; draw back"),
        )
    )


def test_a_new_lead_is_drawn_into_a_closed_run_with_what_lies_there_or_by_what_comes_out() -> None:
    there = {"a to b": sleeve("rudder A"), "b to c": sleeve("rudder A")}
    now = {"a to b": sleeve("rudder A", "light A"), "b to c": sleeve("rudder A")}
    light = placed("B", sleeves=now, closed=("a to b",), **both_circuits(light=rudder("3")))
    opening = Opening("c to d", (14.0,), ("light A",), closed=True)
    made = Making(free={"light A": ("rudder",)}, openings=(opening,))
    said = sections(placed(sleeves=there), light, made)
    assert " ".join(section(said, "Sleeves")[3:]) == (
        "a to b stays collars off at the bench, ends tied closed run; free first: rudder A, light A by its end at "
        "rudder; draw out with a line tied on; thread light A in; draw back"
    )
    assert (
        section(said, "Openings")[-1] == "closed run: with a line along what lies there, light A by its end at rudder"
    )
    longer = LONGER.model_copy(update={"sleeves": there, "closed": ("a to b",)})
    assert section(sections(placed(sleeves=there), longer), "Sleeves")[3:7] == [
        *("a to b", "stays", "collars slit, ends tied after"),
        "closed run: draw in rudder A with a line tied to what comes out",
    ]


def test_a_new_lead_in_a_sleeve_keeps_its_end_free_till_it_is_through() -> None:
    """What comes out there comes out before; its second label and its contacts go on last."""
    was = placed(sleeves={"a to b": sleeve("rudder A"), "b to c": sleeve("rudder A")})
    now = LONGER.model_copy(
        update={"sleeves": {"a to b": sleeve("rudder A", kind="braid-6"), "b to c": sleeve("rudder A")}}
    )
    openings = tuple(Opening(ends, (14.0,), ("rudder A",)) for ends in ("b to c", "c to d"))  # one lies in a sleeve
    made = Making(free={"rudder A": ("rudder",)}, lay_mm={"rudder A": 25.0}, openings=openings)
    said = sections(was, now, made)
    assert [re.sub(r"^\d ", "", title) for title in said][2:7] == [
        *("At the bench: cut", "Under the covers", "Sleeves", "Openings", "Ends that were free, once through")
    ]
    assert section(said, "At the bench: cut")[:13] == [
        *("mm", "gauge", "wire", "lead", "mark", "twist: lay, mm"),
        *("320", "BK", "22 AWG", "pvc-22", "RUD A", "C1A22N", "25"),
    ]
    all_three, label = "1 BK, 2 RD, 3 WH", ["on RUDDER", "tube, slid on first"]
    put_in = ["servo-3 sockets", all_three, "new wires: crimp, insert"]
    assert section(said, "Under the covers")[6:] == [
        *("canopy", "tray, fuselage", "RUD A", "rudder A", "receiver 1", all_three, "old wires: extract, cut off"),
        *(*label, *put_in),
        *("hatch", "tail, fuselage", "RUD A", "rudder A", "rudder", all_three, "old wires: extract, cut off"),
    ]
    assert section(said, "Sleeves")[4:] == [
        *("a to b", "braid-4", "slit, collars too", "braid-6 · 210 mm"),
        "one end of each free first: rudder A by its end at rudder",
        *("b to c", "stays", "collars slit, ends tied after", "thread rudder A by its end at rudder through"),
    ]
    through = ["c to d", "14 mm", "rudder A by its end at rudder"]
    assert section(said, "Openings") == ["run", "opening", "through it", *through]
    assert section(said, "Ends that were free, once through") == [
        *("cover", "lead", "at", "label", "put in"),
        *("hatch", "tail, fuselage", "RUD A", "rudder A", "rudder", *label, *put_in),
    ]


def test_cards_are_named_with_their_cover_and_both_hashes() -> None:
    old = {"receiver": item("a", "1" * 8), "root fixed": item("b", "2" * 8), "root loose": item("c", "3" * 8)}
    new = {"receiver": item("a", "9" * 8), "root fixed": item("b", "8" * 8), "rudder": item("d", "4" * 8)}
    old_sheets, new_sheets = (
        {
            stem: item("", digit * 8)
            for stem, digit in zip(("hangar-card", "cut-list", "fault-finder"), some, strict=True)
        }
        for some in ("51a", "62b")
    )
    was = placed(items={"pinout-cards": old, "sheets": old_sheets})
    now = placed("B", items={"pinout-cards": new, "sheets": new_sheets})
    assert section(sections(was, now), "Cards") == [
        *("card", "where", "tear up", "put in"),
        *("receiver", "canopy: tray", "11111111", "99999999"),
        *("root fixed", "wing off: root", "22222222", "88888888"),
        *("rudder", "hatch: tail", "44444444"),
        *("root loose", "panel", "33333333"),
        *("hangar-card", "55555555", "66666666"),
        *("fault-finder", "aaaaaaaa", "bbbbbbbb"),
    ]


def checked(new: State, old: State | None = None) -> list[str]:
    return section(sections(old or placed(), new), "Packs in: check again")


def test_what_is_checked_again_has_what_it_should_show() -> None:
    other = servo("tail", stall_a=2.0, idle_a=0.02)
    thrown = both_circuits(rudder=rudder().model_copy(update={"throw": "9 mm"}))
    assert checked(placed("B", equipment=A.equipment | {"rudder": other}, **thrown)) == [
        "Hands clear of surfaces, gear and doors. Volts first, with what gets them unplugged; packs out to plug it in. "
        "Linkages off until direction and centre are right.",
        *("volts unplugged", "direction", "centre", "ends", "idle current"),
        *("RUD", "rudder", "≤ 8.4 V", "9 mm", "0.02 A"),
    ]
    unsaid = servo("tail", stall_a=2.0, most_v=None)
    assert checked(placed("B", equipment=A.equipment | {"rudder": unsaid}))[-2:] == ["RUD", "rudder"]
    set_otherwise = both_circuits(aileron=aileron().model_copy(update={"throw": "9 mm", "failsafe": "off"}))
    assert checked(placed("B", **set_otherwise)) == [
        "Hands clear of surfaces, gear and doors.",
        *("ends", "fail-safe"),
        *("AIL", "aileron", "9 mm", "off"),
    ]


def test_a_supply_that_ends_at_a_common_shows_what_its_outlet_gives() -> None:
    feed = rudder("3").model_copy(update={"ends": (("receiver", "3"), ("root", "positive"))})
    of = {"receiver": IssuedSettings(output_v={"3": 7.4})}
    said = checked(
        placed("B", **both_circuits(rudder=feed), settings=of), placed(**both_circuits(rudder=feed), settings={})
    )
    assert said[1:] == ["volts unplugged", "RUD", "rudder", "≤ 7.4 V"]


@pytest.mark.parametrize(
    ("bears_v", "rest", "says"),
    [
        (8.4, Rest(6.6, 7.5, 8.4), "6.6 to 8.4 V"),
        (9.0, Rest(6.0, 6.0, 6.0), "6.0 V"),
        (None, Rest(6.6, 7.5, 8.4), "6.6 to 8.4 V"),
        (6.0, Rest(6.6, 7.5, 8.4), "≤ 6 V"),
        (6.0, None, "≤ 6 V"),
    ],
)
def test_volts_that_are_read_are_those_that_come_but_never_more_than_is_borne(
    bears_v: float | None, rest: Rest | None, says: str
) -> None:
    """A pack of two cells gives 6.6 V nearly empty and 8.4 V full; a servo for 6 V is never plugged into that."""
    new = placed("B", equipment=A.equipment | {"rudder": servo("tail", stall_a=2.0, most_v=bears_v)})
    content = sheet.ReworkContent(
        compare(placed(), new), placed(), new, NOTHING_RUNG, rest={} if rest is None else {"rudder": rest}
    )
    pages = sheet.compose(content, read_page("list-a4"))(NO_TITLE).pages
    said = [ink.text for page in pages for ink in page.ink if isinstance(ink, Text)]
    assert [text for text in said if re.fullmatch(r"(≤ )?[\d.]+( to [\d.]+)? V", text)] == [says]


def test_what_is_cut_by_a_straight_line_is_marked_where_it_is_cut() -> None:
    content = sheet.ReworkContent(
        compare(placed(), LONGER), placed(), LONGER, NOTHING_RUNG, straight=frozenset({"rudder A"})
    )
    pages = sheet.compose(content, read_page("list-a4"))(NO_TITLE).pages
    said = [ink.text for page in pages for ink in page.ink if isinstance(ink, Text)]
    assert said.count("≈ 320") == 3
    assert said.count("≈ straight line: measure first") == 1
    assert "≈" not in " ".join(sections(placed(), LONGER)["2 At the bench: cut"])


def test_gear_that_is_set_otherwise_shows_what_leg_or_controller_is_set_to() -> None:
    legs: dict[str, Any] = {"equipment": A.equipment | {"rudder": servo("tail", kind="gear leg")}}

    def said(**settings: Any) -> list[str]:
        of = {name: IssuedSettings(**some) for name, some in settings.items()}
        return checked(placed("B", **legs, settings=of), placed(**legs, settings={}))[1:]

    assert said(rudder={"limit_s": 14.0, "stop_a": 2.3}) == ["limit set, timed", "RUD", "rudder", "14 s, stop 2.3 A"]
    assert said(receiver={"limit_s": 12.0})[-1] == "12 s"
    assert said(rudder={"stop_a": 2.0}, receiver={"limit_s": 9.0})[-1] == "9 s, stop 2 A"
    assert said(rudder={"up_s": 8.0})[-1] == "rudder"


def test_each_check_that_any_circuit_needs_has_a_column() -> None:
    thrown = aileron().model_copy(update={"throw": "9 mm"})
    said = checked(placed("B", **both_circuits(rudder=rudder(cut_mm=320.0), aileron=thrown)))
    assert said[1:] == ["ends", "works", "RUD", "rudder", "AIL", "aileron", "9 mm"]


@pytest.mark.parametrize("kind", ["motor", "speed controller", "engine unit"])
def test_what_is_driven_is_made_safe_first(kind: str) -> None:
    equipment = A.equipment | {"thing": IssuedEquipment(kind=kind, place="tail")}
    longer = placed("B", **both_circuits(rudder=rudder(cut_mm=320.0)), equipment=equipment)
    said = checked(longer, placed(equipment=equipment))
    assert said[0] == "Engine and motor made safe, propellers off; hands clear of surfaces, gear and doors."


def test_what_no_longer_holds_stands_first_with_issues_that_are_not_built() -> None:
    volts = IssuedFinding(name="volts", level="caution", on="circuits rudder", sentence="it gets too little.")
    said = sections(placed(), placed("C", after="B", findings=(volts,)))
    between = "Issues after A, up to B, are not said to be built: parts of them may be in the aircraft; look before "
    assert list(said) == ["No longer holds", "1 Packs out", "2 Done"]
    assert " ".join(said["No longer holds"]) == f"volts: it gets too little. {between}each step."
