"""What goes through an opening of the airframe: by hand, against every order that there is, and where it is found."""

from __future__ import annotations

import itertools
import json
import math
import random
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from printed_steps import ring
from resolved import harness_of
from wren_changed import aircraft

from docgen.harness.assembly.passing import Passage, Waits, order_of, passage_of
from docgen.harness.assembly.things import Thing, Things
from docgen.harness.assembly.through_openings import Threading, plan_threading
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.openings import passes
from docgen.pipeline import Checked, check

if TYPE_CHECKING:
    from conftest import AircraftFolder

TAIL = "[radio-tray, tail-post],   length: 1140 mm"


# A plug of 8 × 3 mm: across its corners √(8² + 3²) = 8.544 mm, a tenth to spare 9.398 mm.
@pytest.mark.parametrize(
    ("opening", "beside", "does"),
    [
        ((8.0,), 0.0, False),
        ((9.39,), 0.0, False),
        ((9.40,), 0.0, True),
        ((10.0,), 0.0, True),
        # Beside a bundle of 2 mm: 1.1 × (8.544 + 2) = 11.598 mm.
        ((11.59,), 2.0, False),
        ((11.60,), 2.0, True),
        # A slot: 1.1 × 8 = 8.8 mm by 1.1 × 3 = 3.3 mm, either way round; beside the bundle 1.1 × (3 + 2) = 5.5 mm.
        ((8.8, 3.3), 0.0, True),
        ((3.3, 8.8), 0.0, True),
        ((8.7, 3.3), 0.0, False),
        ((8.8, 3.2), 0.0, False),
        ((8.8, 5.5), 2.0, True),
        ((8.8, 5.4), 2.0, False),
        ((11.0, 3.3), 2.0, True),
    ],
)
def test_a_plug_passes_with_a_tenth_to_spare(opening: tuple[float, ...], beside: float, does: bool) -> None:
    assert passes(opening, (8.0, 3.0), beside) == does


def test_a_bundle_passes_by_its_circle() -> None:
    assert passes((5.5,), (5.0,))
    assert not passes((5.4,), (5.0,))
    assert passes((5.5, 20.0), (5.0,))
    assert not passes((5.4, 20.0), (5.0,))


def cost_of(order: Sequence[Passage]) -> tuple[int, int, int]:
    """Return how many do not go through, how many are crimped when they are, and how many lack their housing."""
    return (
        sum(passage.stuck for passage in order),
        sum(passage.waits is Waits.CONTACTS and not passage.stuck for passage in order),
        sum(passage.waits is Waits.HOUSING for passage in order),
    )


def by_every_order(opening: tuple[float, ...], things: Sequence[Thing]) -> tuple[int, int, int]:
    """Return the least that is left unfinished in any order; through it goes as finished as it can."""

    def state(thing: Thing, lies: list[float]) -> int:
        assert thing.size_mm is not None
        assert thing.contact_mm is not None
        beside = outside_diameter_mm(lies)
        if 1.1 * (math.hypot(*thing.size_mm) + beside) <= opening[0]:
            return 0
        wires = outside_diameter_mm([*lies, *sorted(thing.wires_mm)[1:]])
        if 1.1 * (thing.contact_mm + wires) <= opening[0]:
            return 1
        return 2 if 1.1 * outside_diameter_mm([*lies, *thing.circles_mm]) <= opening[0] else 3

    found = []
    for order in itertools.permutations(things):
        lies: list[float] = []
        states = []
        for thing in order:
            states.append(state(thing, lies))
            lies += thing.circles_mm
        found.append((states.count(3), states.count(2), states.count(1)))
    return min(found)


def test_no_order_leaves_less_unfinished() -> None:
    chance = random.Random(5)
    seen = set()
    for _ in range(150):
        things = []
        for number in range(chance.randint(1, 5)):
            wires = [chance.uniform(0.9, 4.5)] * chance.randint(1, 3)
            size = (chance.uniform(3, 20), chance.uniform(2, 10))
            circles, contact = (outside_diameter_mm(wires),), wires[0] + 1
            things.append(Thing((f"{number}",), f"{number}", (), circles, tuple(wires), size, contact, reached=True))
        opening = (chance.uniform(4, 45),)
        least = by_every_order(opening, things)
        assert cost_of(order_of(opening, things)) == least
        seen.add(tuple(count > 0 for count in least))
    assert len(seen) > 4


def threaded(folder: Path) -> list[Threading]:
    harness = check(folder).harness
    assert harness is not None
    return list(plan_threading(harness))


def test_the_side_goes_through_that_passes_finished(aircraft_folder: AircraftFolder) -> None:
    # The tail lead's plugs are alike; those of the root leads are not: the servo's of 8 × 2.9 mm pass 14 mm, the block
    # of 20 × 12 mm (23.3 mm across its corners) does not, so it is laid out from the root.
    roots = aircraft(
        "[radio-tray, <side>-root], length: 235 mm", "[radio-tray, <side>-root], length: 235 mm, hole: 14 mm"
    )
    for threading in threaded(aircraft_folder(roots)):
        assert (threading.start.removeprefix("left").removeprefix("right"), threading.goal) == ("-root", "radio-tray")
        (passage,) = threading.passages
        assert (passage.thing.size_mm, passage.waits) == ((8.0, 2.9), Waits.NOTHING)


def test_an_end_goes_through_both_of_two_openings_in_a_row(aircraft_folder: AircraftFolder) -> None:
    middle = {
        "aircraft.yaml": [
            ("  tail-post: ", "  former: {assembly: fuselage, access: hatch}\n  tail-post: "),
            (
                "  - {between: [radio-tray, tail-post],   length: 1140 mm, edges: sharp}\n",
                "  - {between: [radio-tray, former], length: 500 mm, hole: 8 mm}\n"
                "  - {between: [former, tail-post], length: 640 mm, hole: 8 mm}\n",
            ),
        ]
    }
    first, second = threaded(aircraft_folder(middle))
    # 8 mm is less than 9.4 mm: laid out from the middle, both ends would have to wait; from either end one does.
    assert (first.goal, second.goal) != ("radio-tray", "tail-post")
    assert {threading.passages[0].thing.name for threading in (first, second)} in ({"rudder"}, {"receiver 4"})
    assert {threading.passages[0].waits for threading in (first, second)} == {Waits.HOUSING}


def hole(said: str, more: str = "") -> Mapping[str, list[tuple[str, str]]]:
    return {"aircraft.yaml": [(TAIL, f"{TAIL}, hole: {said}{more}")]}


def found_in(checked: Checked) -> list[str]:
    return [finding.sentence for finding in checked.findings if finding.name == "hole"]


# The rudder's lead is 3.45 mm thick, 4.45 mm in its braid, with a tenth to spare 4.89 mm. Its contacts take 1.7 mm, so
# 2.7 mm; the last goes through beside two wires of 1.6 mm: 1.1 × (2.7 + 3.2) = 6.49 mm.
@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("10 mm", ""),
        ("8 mm", ""),
        ("6.5 mm", ""),
        ("6.4 mm", "neither plugged nor contact by contact"),
        ("4.9 mm", "neither plugged nor contact by contact"),
        ("4.8 mm", "4.45 mm of wires"),
        ("9 mm x 3.3 mm", "4.45 mm of wires"),
        ("9 mm x 5 mm", ""),
    ],
)
def test_what_does_not_pass_is_found_at_the_opening(said: str, found: str, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(hole(f"▶{said}"))
    findings = [finding for finding in check(folder).findings if finding.name == "hole"]
    assert len(findings) == bool(found)
    for finding in findings:
        (place,) = aircraft_folder.marks
        assert finding.position[1:] == place[1:]
        assert found in finding.sentence


def test_the_opening_that_a_remedy_names_does(aircraft_folder: AircraftFolder) -> None:
    (finding,) = (f for f in check(aircraft_folder(hole("6.4 mm"))).findings if f.name == "hole")
    # The plug alone, 8 × 2.9 mm: 1.1 × √(8² + 2.9²) = 9.36 mm, up to 9.4 mm.
    assert "Widen it to 9.4 mm" in finding.do
    assert found_in(check(aircraft_folder(hole("9.4 mm")))) == []


def test_the_opening_that_a_remedy_names_does_for_all_that_is_through_before(aircraft_folder: AircraftFolder) -> None:
    """By hand: two plugs of 8 × 2.9 mm, 8.509 mm across; the second beside a lead of 1.6 × (1 + 2 / √3) = 3.448 mm."""

    def found(said: str) -> list[str]:
        old = "hatch}", "canopy}"
        shut = [(f"access: tail {old[0]}", "note: shut}"), (f"up: 10 mm}}, access: {old[1]}", "up: 10 mm}}")]
        changes = {
            "aircraft.yaml": [(TAIL, f"{TAIL}, hole: {said}"), *shut],
            "harness.yaml": [
                ("equipment:\n", "equipment:\n  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}\n"),
                ("circuits:\n", "circuits:\n  tab: {from: receiver 3, to: tab, lead: servo-22}\n"),
            ],
        }
        return [finding.do for finding in check(aircraft_folder(changes)).findings if finding.name == "hole"]

    # 1.1 × (8.509 + 3.448) = 13.15 mm.
    assert "Widen it to 13.2 mm" in found("9 mm")[0]
    assert (len(found("13.1 mm")), found("13.2 mm")) == (1, [])


def test_where_the_bundle_is_too_thick_its_ends_count_too(
    aircraft_folder: AircraftFolder,
) -> None:
    """The bundle wants 4.9 mm, as above; contact by contact its end 6.5 mm."""
    (finding,) = (f for f in check(aircraft_folder(hole("4.8 mm"))).findings if f.name == "hole")
    assert "Widen it to 6.5 mm" in finding.do


def test_labels_and_collars_count_where_no_hand_reaches(aircraft_folder: AircraftFolder) -> None:
    # A label over 4.45 mm is 0.5 mm of paper below a tube with a wall of 0.5 mm, more than a collar of such a tube:
    # 5.95 mm, 1.1 × 5.95 = 6.55 mm.
    assert found_in(check(aircraft_folder(hole("6.6 mm", ", closed: yes")))) == []
    assert "5.95 mm of wires" in found_in(check(aircraft_folder(hole("6.5 mm", ", closed: yes"))))[0]


def test_an_end_that_is_filled_where_no_hand_reaches_is_found(aircraft_folder: AircraftFolder) -> None:
    shut = [("at: {aft: 1540 mm, up: 40 mm}, access: tail hatch}", "at: {aft: 1540 mm, up: 40 mm}}")]
    tray = [("at: {aft: 420 mm, up: 10 mm}, access: canopy}", "at: {aft: 420 mm, up: 10 mm}}")]

    def found(*more: tuple[str, str]) -> list[str]:
        return found_in(check(aircraft_folder({"aircraft.yaml": [(TAIL, f"{TAIL}, hole: 8 mm"), *more]})))

    # Where a hand reaches either end, that one is filled in place.
    assert found() == found(*shut) == found(*tray) == []
    (sentence,) = found(*shut, *tray)
    assert "finished, and no hand reaches there to fill it" in sentence


def test_an_own_lead_goes_through_with_its_plug(aircraft_folder: AircraftFolder) -> None:
    def found(said: str) -> list[str]:
        changes = {
            **hole(said),
            "harness.yaml": [
                (
                    "    place: tail-post\n    lead: 300 mm",
                    "    place: tail-post\n    plug_at: radio-tray\n    lead: 1200 mm",
                ),
            ],
        }
        return found_in(check(aircraft_folder(changes)))

    assert found("9.4 mm") == []
    assert found("9.3 mm") == [
        "the opening of 9.3 mm between `radio-tray` and `tail-post` is not passed by `rudder's own lead`."
    ]


def three_in_a_row(hole: str, edges: str = "sharp", shorts: int = 1) -> dict[str, Any]:
    """Return leads from the root: one through the opening behind the middle to a joint, others up to the middle."""
    ports = [{"plug": "servo-3", "names": "1..25", "contacts": "pins"}]
    own = {"kind": "other", "lead": "100 mm", "plug": "servo-3"}
    short = [f"short-{number}" for number in range(2, 2 + shorts)]
    return {
        "aircraft": {"name": "Row", "description": "a row", "marks": "R-1", "revision": "A", "date": "2026-01-01"},
        "places": {place: {"assembly": "hull", "access": "hatch"} for place in ("root", "middle", "end")}
        | {"tip": {"assembly": "tip", "access": "tip off"}},
        "runs": [
            {"between": ["root", "middle"], "length": "300 mm"} | ({"edges": edges} if edges else {}),
            {"between": ["middle", "end"], "length": "300 mm", "hole": hole},
        ],
        "equipment": {"box": {"kind": "other", "place": "root", "ports": ports}, "long": own | {"place": "tip"}}
        | {name: own | {"place": "middle"} for name in short},
        "disconnects": {
            "tip": {
                "shell": "block-6",
                "fixed": {"place": "end", "contacts": "sockets"},
                "loose": {"place": "tip", "contacts": "pins", "reach": "100 mm"},
            }
        },
        "circuits": {"long": {"from": "box 1", "to": "long", "through": ["tip"], "lead": "signal-24"}}
        | {name: {"from": name.replace("short-", "box "), "to": name, "lead": "signal-24"} for name in short},
    }


def written(said: Mapping[str, Any]) -> Mapping[str, str]:
    files = {"aircraft.yaml": ("aircraft", "places", "runs"), "harness.yaml": ("equipment", "disconnects", "circuits")}
    return {file: json.dumps({section: said[section] for section in sections}) for file, sections in files.items()}


def through(threading: Threading) -> tuple[str, list[str]]:
    return threading.goal, [passage.thing.name for passage in threading.passages]


WrittenFolder = Callable[[Mapping[str, str]], Path]


# The plug of 8 × 2.9 mm is 8.509 mm across: 1.1 × 8.509 = 9.36 mm, and beside the lead of 2 × 1.4 mm that stays in the
# opening 1.1 × (8.509 + 2.8) = 12.44 mm. The block at the joint, 23.3 mm across, passes neither without its housing.
@pytest.mark.parametrize(
    ("said", "edges", "expected"),
    [
        ("9.4 mm", "", ("middle", ["box 1"])),
        ("12.4 mm", "sharp", ("end", ["tip"])),
        ("12.5 mm", "sharp", ("middle", ["box 1", "box 2", "short-2"])),
    ],
)
def test_what_a_sleeve_binds_comes_through_with_it(
    said: str, edges: str, expected: tuple[str, list[str]], written_folder: WrittenFolder
) -> None:
    (threading,) = threaded(written_folder(written(three_in_a_row(said, edges))))
    assert through(threading) == expected


def test_what_is_spliced_to_it_comes_along_too(written_folder: WrittenFolder) -> None:
    row = three_in_a_row("12.5 mm")
    row["places"]["side"] = {"assembly": "hull", "access": "hatch"}
    row["runs"].append({"between": ["middle", "side"], "length": "200 mm"})
    for name in ("short-2", "other"):
        row["equipment"][name] = row["equipment"]["long"] | {"place": "side"}
    row["circuits"]["short-2"] |= {"to": ["short-2", "other"], "split": {"place": "middle"}}
    (threading,) = threaded(written_folder(written(row)))
    assert through(threading) == ("middle", ["box 1", "box 2", "short-2", "other"])


@pytest.mark.parametrize(("said", "waits"), [("15.5 mm", Waits.HOUSING), ("15.6 mm", Waits.NOTHING)])
def test_it_passes_beside_own_leads_that_lie_there_too(said: str, waits: Waits, written_folder: WrittenFolder) -> None:
    # By hand: 1.1 × (8.509 + 2.8 + 2.8) = 15.52 mm; the own lead is taken as of its circuit's two wires.
    row = three_in_a_row(said)
    row["places"]["root"]["across"] = "60 mm"
    row["equipment"]["far"] = row["equipment"]["long"] | {"place": "end", "plug_at": "root", "lead": "900 mm"}
    row["circuits"]["far"] = {"from": "box 25", "to": "far", "lead": "signal-24"}
    (threading,) = threaded(written_folder(written(row)))
    assert [passage.waits for passage in threading.passages if passage.thing.bound] == [waits] * 2


def beside_an_own_lead(hole: str, plug_at: str, place: str, edges: str = "") -> Mapping[str, str]:
    """Write a row, and in its opening the own lead of something that another lead leads to."""
    row = three_in_a_row(hole, edges, shorts=0)
    row["places"]["middle"]["across"] = "60 mm"
    row["equipment"]["far"] = row["equipment"]["long"] | {"place": place, "plug_at": plug_at, "lead": "900 mm"}
    row["circuits"]["far"] = {"from": "box 25", "to": "far", "lead": "signal-24"}
    return written(row)


# The plug of 8 × 2.9 mm alone: 9.36 mm, as above. Beside the lead of 2 × 1.4 mm that is through: 12.44 mm.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("12.5 mm", [("middle", ["box 1"]), ("middle", ["far's own lead"])]),
        ("12.4 mm", [("middle", ["far's own lead"]), ("middle", ["box 1"])]),
    ],
)
def test_an_own_lead_in_no_sleeve_goes_alone_when_its_plug_passes(
    said: str, expected: list[tuple[str, list[str]]], written_folder: WrittenFolder
) -> None:
    threadings = threaded(written_folder(beside_an_own_lead(said, "middle", "end")))
    assert [through(threading) for threading in threadings] == expected
    assert not any(passage.stuck for threading in threadings for passage in threading.passages)


@pytest.mark.parametrize(("place", "plug_at"), [("end", "middle"), ("middle", "end")])
def test_an_own_lead_in_no_sleeve_goes_from_what_it_hangs_on_to_its_plug(
    place: str, plug_at: str, written_folder: WrittenFolder
) -> None:
    *_, own = threaded(written_folder(beside_an_own_lead("30 mm", plug_at, place)))
    assert (own.start, through(own)) == (place, (plug_at, ["far's own lead"]))


def test_own_leads_that_one_sleeve_ties_can_not_go_both_ways(written_folder: WrittenFolder) -> None:
    row = json.loads(beside_an_own_lead("30 mm", "root", "end", "sharp")["harness.yaml"])
    files = {**beside_an_own_lead("30 mm", "root", "end", "sharp")}
    row["equipment"]["near"] = row["equipment"]["far"] | {"place": "root", "plug_at": "end"}
    row["equipment"]["case"] = row["equipment"]["box"] | {"place": "end"}
    row["circuits"]["near"] = {"from": "case 1", "to": "near", "lead": "signal-24"}
    files["harness.yaml"] = json.dumps(row)
    files["aircraft.yaml"] = files["aircraft.yaml"].replace('"access": "hatch"', '"access": "hatch", "across": "60 mm"')
    (sentence,) = found_in(check(written_folder(files)))
    assert "'s own lead` would have to go through the opening of 30 mm" in sentence
    assert "together with what it hangs on" in sentence
    apart = files["aircraft.yaml"].replace('"edges": "sharp"', '"edges": "sharp", "dressed": "grommet"')
    assert found_in(check(written_folder(files | {"aircraft.yaml": apart}))) == []


def test_the_opening_that_a_remedy_names_is_the_least_that_some_order_needs(written_folder: WrittenFolder) -> None:
    """By hand: 9.36 mm for the own lead's plug, which goes first; 1.1 × (2.8 + 1.4 + 2.4) = 7.26 mm by contacts."""

    def found(said: str) -> list[str]:
        checked = check(written_folder(beside_an_own_lead(said, "middle", "end")))
        return [finding.do for finding in checked.findings if finding.name == "hole"]

    assert "Widen it to 9.4 mm" in found("9.3 mm")[0]
    assert found("9.4 mm") == []


@pytest.mark.parametrize(("said", "goal"), [("16 mm", "end"), ("16.1 mm", "middle")])
def test_the_sleeve_with_all_that_is_in_it_passes_too(said: str, goal: str, written_folder: WrittenFolder) -> None:
    # Nineteen circles of 2.8 mm lie in one of (1 + √2 + √6) × 2.8 = 13.62 mm, 14.62 mm in its braid, 16.08 mm to spare.
    (threading,) = threaded(written_folder(written(three_in_a_row(said, shorts=18))))
    assert threading.goal == goal


def test_a_sleeve_that_passes_neither_way_is_found(written_folder: WrittenFolder) -> None:
    row = three_in_a_row("16 mm", shorts=18)
    row["places"]["tail"] = {"assembly": "hull", "access": "hatch"}
    row["runs"].append({"between": ["end", "tail"], "length": "300 mm", "edges": "sharp"})
    row["disconnects"]["tip"]["fixed"]["place"] = "tail"
    row["equipment"]["case"] = row["equipment"]["box"] | {"place": "end"}
    for number in range(18):
        row["equipment"][f"last-{number}"] = row["equipment"]["long"] | {"place": "tail"}
        row["circuits"][f"last-{number}"] = {"from": f"case {number + 1}", "to": f"last-{number}", "lead": "signal-24"}
    (finding,) = (one for one in check(written_folder(written(row))).findings if one.name == "hole")
    assert "is not passed by its 14.62 mm of wires and what is on them" in finding.sentence
    assert "Widen it to 16.1 mm" in finding.do


def test_a_half_that_leads_come_to_another_way_is_filled_when_all_are_there(written_folder: WrittenFolder) -> None:
    row = three_in_a_row("30 mm")
    row["places"]["side"] = {"assembly": "hull", "access": "hatch"}
    row["runs"].append({"between": ["end", "side"], "length": "200 mm"})
    row["equipment"]["case"] = row["equipment"]["box"] | {"place": "side"}
    row["equipment"]["other"] = row["equipment"]["long"]
    # The block is 23.3 mm across its corners, 25.7 mm with a tenth to spare.
    for other, waits in ((None, Waits.NOTHING), ("case 1", Waits.HOUSING), ("box 3", Waits.NOTHING)):
        if other is not None:
            row["circuits"]["other"] = row["circuits"]["long"] | {"from": other, "to": "other"}
        harness = harness_of(written_folder(written(row)))
        (block,) = (thing for thing in Things(harness, [1]).through(1, "end") if thing.name == "tip")
        assert passage_of((30.0,), block, ()).waits is waits


def test_what_comes_along_goes_through_its_own_opening_after(written_folder: WrittenFolder) -> None:
    row = three_in_a_row("12.5 mm")
    row["places"]["nose"] = {"assembly": "hull", "access": "hatch"}
    row["runs"].insert(0, {"between": ["nose", "root"], "length": "200 mm", "hole": "12.5 mm"})
    row["equipment"]["nose-box"] = row["equipment"]["box"] | {"place": "nose"}
    row["circuits"]["short-2"]["from"] = "nose-box 2"
    first, second = threaded(written_folder(written(row)))
    assert through(first) == ("middle", ["box 1", "nose-box 2", "short-2"])
    assert through(second) == ("nose", ["nose-box 2"])


def test_what_goes_round_a_ring_of_openings_is_found(written_folder: Callable[[Mapping[str, str]], Path]) -> None:
    def found(ways: Mapping[str, tuple[str, ...]]) -> list[str]:
        texts = dict(ring(ways))
        texts["aircraft.yaml"] = texts["aircraft.yaml"].replace('"edges": "sharp"', '"hole": "14 mm"')
        return found_in(check(written_folder(texts)))

    ways = {"one": ("tray", "far", "near"), "two": ("far", "near", "tray"), "three": ("near", "tray", "far")}
    # Two of them leave a place to begin from, where both are laid out; of three that follow each other none does.
    assert found({name: ways[name] for name in ("one", "two")}) == []
    assert any("make a ring" in sentence for sentence in found(ways))
