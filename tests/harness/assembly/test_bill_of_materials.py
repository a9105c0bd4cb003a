"""Everything to get out besides wire: counts by hand for the smallest example, clips along a route. Common practice."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping
from itertools import pairwise, product
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from printed_samples import samples_on
from printed_steps import printed_sheet
from resolved import EXAMPLES, harness_of

from docgen.harness.assembly.bill_of_materials import bill_of_materials

if TYPE_CHECKING:
    from conftest import AircraftFolder


def test_wren_needs_what_a_hand_counts() -> None:
    bill = bill_of_materials(harness_of(EXAMPLES / "wren"))
    # Three contacts at each of two joints; three servo leads of three wires plug into the receiver and three into
    # servos; the supply has two at either end. One more of each is crimped on a sample and pulled; a tenth more of all,
    # rounded up: 7.7, 11 and 3.3.
    every = list(product(("block-6", "power-2", "servo-3"), ("pins", "sockets")))
    assert [(one.connector, one.gender) for one in bill.contacts] == every
    assert [one.count for one in bill.contacts] == [8, 8, 4, 4, 11, 11]
    assert bill.housings == dict(zip(every, [2, 2, 1, 1, 3, 3], strict=True))
    # Mated where a servo's own lead is plugged in; five runs over sharp edges have a sleeve, 3.45 mm of wires with 1 mm
    # of braid: with a tenth to spare 4.9 mm, which a tube of 5 mm passes and one of 4.8 mm does not.
    assert bill.retainers == {"servo-3": 3}
    assert bill.collars == {"shrink-5": 2 * 5}
    # At two fixed halves and three coils, where routes part at the tray, and between: 260 mm once, 235 mm once on each
    # side, 1140 mm seven times, 745 mm four times on each side. Three wires of 1.6 mm are 3.45 mm thick, two of 1.8 mm
    # 3.6 mm; in braid 1 mm more: 5 mm for all but the coils, where nothing is sleeved, and the supply.
    assert bill.clips == {4: 3 + 1, 5: 2 + 1 + 2 * 1 + 7 + 2 * 4}
    assert bill.strain_reliefs == {5: 2}


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_there_is_a_contact_and_a_piece_of_wire_for_each_sample_that_the_order_of_work_asks_for(
    name: str, tmp_path: Path
) -> None:
    harness = harness_of(EXAMPLES / name)
    asked = [(pull.wire, f"{pull.connector} {pull.gender}") for pull in samples_on(printed_sheet(harness, tmp_path))]
    bill = bill_of_materials(harness)
    for contact, count in Counter(contact for _, contact in asked).items():
        (item,) = (item for item in bill.contacts if f"{item.connector} {item.gender}" == contact)
        assert item.count == math.ceil((item.fitted + count) * 11 / 10 - 1e-9), contact
    assert bill.sample_wires == Counter(wire for wire, _ in asked)


def test_a_grommet_is_as_wide_inside_as_the_next_whole_millimetre(aircraft_folder: AircraftFolder) -> None:
    # Three wires of 1.6 mm are 3.45 mm thick; they pass 4 mm, not 3.
    runs = [
        ("[radio-tray, <side>-root], length: 235 mm,", "[radio-tray, <side>-root], length: 235 mm, dressed: grommet,"),
        (
            "[radio-tray, tail-post],   length: 1140 mm,",
            "[radio-tray, tail-post], length: 1140 mm, dressed: edge trim,",
        ),
    ]
    bill = bill_of_materials(harness_of(aircraft_folder({"aircraft.yaml": runs})))
    assert bill.grommets == {4: 2}
    # What is dressed wants no braid: of five runs two are left.
    assert sum(bill.collars.values()) == 2 * 2


def test_what_there_is_to_get_out_stands_by_name_and_by_size() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    bill = bill_of_materials(harness)
    for counts in (bill.housings, bill.retainers, bill.grommets, bill.clips, bill.strain_reliefs):
        assert list(counts) == sorted(counts)
    assert len(bill.retainers) > 2
    assert len(bill.grommets) > 1
    contacts = [(one.connector, one.gender) for one in bill.contacts]
    assert contacts == sorted(contacts)
    tubes = [tube.name for tube in harness.tubes]
    for names in (bill.collars, bill.splice_tubes, bill.contact_tubes):
        assert len(names) > 1
        assert list(names) == [name for name in tubes if name in names]


def test_a_joint_of_two_assemblies_has_its_retainer_with_its_first_half(aircraft_folder: AircraftFolder) -> None:
    joint = [("    shell: block-6\n", "    shell: servo-3\n"), ("contacts: sockets, key: up}", "contacts: sockets}")]
    harness = harness_of(aircraft_folder({"harness.yaml": joint}))
    of = {name: bill_of_materials(harness.of_assembly(name)).retainers for name in ("fuselage", "left-panel")}
    # The rudder's own plug and two joints; in the panel the aileron's own plug.
    assert of == {"fuselage": {"servo-3": 1 + 2}, "left-panel": {"servo-3": 1}}


def test_a_tube_is_counted_for_each_splice() -> None:
    bill = bill_of_materials(harness_of(EXAMPLES / "fulmar"))
    # Behind either half of either wing's second joint, positive and negative are spliced to their tails.
    assert sum(bill.splice_tubes.values()) == 2 * 2 * 2


def test_a_plain_joint_of_plugs_wants_a_retainer(aircraft_folder: AircraftFolder) -> None:
    joint = [("    shell: block-6\n", "    shell: servo-3\n"), ("contacts: sockets, key: up}", "contacts: sockets}")]
    bill = bill_of_materials(harness_of(aircraft_folder({"harness.yaml": joint})))
    # Three servos' own plugs and two joints.
    assert bill.retainers == {"servo-3": 3 + 2}


def test_a_lead_between_two_ports_wants_no_retainer(aircraft_folder: AircraftFolder) -> None:
    second = "  second: {kind: receiver, place: radio-tray, ports: {plug: servo-3, names: [1, 2], contacts: pins}}\n"
    changes = [
        ("equipment:\n", f"equipment:\n{second}"),
        ("circuits:\n", "circuits:\n  patch: {from: receiver 3, to: second 1, lead: servo-22}\n"),
    ]
    bill = bill_of_materials(harness_of(aircraft_folder({"harness.yaml": changes})))
    assert bill.retainers == {"servo-3": 3}
    assert bill.housings["servo-3", "sockets"] == 3 + 2


def test_where_a_half_is_held_nothing_more_is_clipped_though_ways_part_there(aircraft_folder: AircraftFolder) -> None:
    runs = [
        ("  - {between: [radio-tray, <side>-root], length: 235 mm, edges: sharp}\n", ROOTS),
        ("[radio-tray, tail-post]", "[left-root, tail-post]"),
    ]
    bill = bill_of_materials(harness_of(aircraft_folder({"aircraft.yaml": runs})))
    # Two fixed halves, three coils; routes part at the left root, where a half is. Between: 260 + 235 mm three times,
    # 235 mm once, 1140 mm seven times, 745 mm four times on each side.
    assert sum(bill.clips.values()) == 2 + 3 + 3 + 1 + 7 + 2 * 4


ROOTS = """  - {between: [radio-tray, left-root], length: 235 mm, edges: sharp}
  - {between: [left-root, right-root], length: 235 mm, edges: sharp}
"""


def box(pieces: int) -> Mapping[str, str]:
    """Write one lead of 600 mm over as many runs, from a unit to what has its own lead."""
    stops = ["tray", *(f"stop-{i}" for i in range(1, pieces)), "end"]
    places = "".join(f"  {stop}: {{assembly: hull, access: hatch}}\n" for stop in stops)
    runs = "".join(
        f"  - {{between: [{one}, {other}], length: {600 / pieces:g} mm}}\n" for one, other in pairwise(stops)
    )
    return {
        "aircraft.yaml": "aircraft: {name: Box, description: one way, marks: B-1, revision: A, date: 2026-01-01}\n"
        f"places:\n{places}runs:\n{runs}",
        "harness.yaml": "equipment:\n"
        "  unit: {kind: other, place: tray, ports: [{plug: servo-3, names: [A], contacts: pins}]}\n"
        "  far: {kind: other, place: end, plug: servo-3, lead: 100 mm}\n"
        "circuits:\n  only: {from: unit A, to: far, lead: lone-26}\n",
    }


@pytest.mark.parametrize("pieces", [1, 2, 5, 8])
def test_clips_are_counted_along_the_way_however_it_is_written(
    pieces: int, written_folder: Callable[[Mapping[str, str]], Path]
) -> None:
    # 600 mm: a clip every 150 mm between its ends is three.
    bill = bill_of_materials(harness_of(written_folder(box(pieces))))
    assert (bill.clips, bill.strain_reliefs) == ({1: 3}, {})  # one wire of 1.0 mm


def test_no_clip_sits_where_no_hand_reaches(written_folder: Callable[[Mapping[str, str]], Path]) -> None:
    def clips(pieces: int, *closed: str) -> int:
        texts = dict(box(pieces))
        for run in closed:
            assert texts["aircraft.yaml"].count(run) == 1
            texts["aircraft.yaml"] = texts["aircraft.yaml"].replace(run, f"{run}, closed: yes")
        return sum(bill_of_materials(harness_of(written_folder(texts))).clips.values())

    # All closed: none. A third of 600 mm closed: 400 mm are left, with two between their ends.
    assert clips(1, "length: 600 mm") == 0
    assert clips(3, "[stop-1, stop-2], length: 200 mm") == 2


def coiled(*changes: tuple[str, str]) -> Mapping[str, str]:
    """Return the lead over two runs, and another whose loop is coiled where they meet."""
    texts = dict(box(2))
    near = "  near: {kind: other, place: stop-1, plug: servo-3, lead: 100 mm}\n"
    lead = "  near: {from: unit B, to: near, lead: lone-26, loop: 60 mm}\n"
    texts["harness.yaml"] = texts["harness.yaml"].replace("[A]", "[A, B]").replace("  far:", f"{near}  far:") + lead
    for old, new in changes:
        assert texts["aircraft.yaml"].count(old) == 1
        texts["aircraft.yaml"] = texts["aircraft.yaml"].replace(old, new)
    return texts


NO_HAND = "stop-1: {assembly: hull, access: hatch}", "stop-1: {assembly: hull}"
FIRST = "[tray, stop-1], length: 300 mm", "[tray, stop-1], length: 300 mm, closed: yes"
SECOND = "[stop-1, end], length: 300 mm", "[stop-1, end], length: 300 mm, closed: yes"


@pytest.mark.parametrize(
    ("changes", "count"),
    [
        ([], 1 + 1 + 1),  # the coil, and half way along each run of 300 mm
        ([NO_HAND], 1 + 1 + 1),
        ([NO_HAND, FIRST], 1 + 1),  # a hand gets to the coil along the second
        ([FIRST, SECOND], 1),
        ([NO_HAND, FIRST, SECOND], 0),
    ],
)
def test_a_coil_is_clipped_where_a_hand_reaches_it_and_parts_the_way(
    changes: list[tuple[str, str]], count: int, written_folder: Callable[[Mapping[str, str]], Path]
) -> None:
    assert sum(bill_of_materials(harness_of(written_folder(coiled(*changes)))).clips.values()) == count


def test_clips_along_a_way_are_of_its_thickest_run(written_folder: Callable[[Mapping[str, str]], Path]) -> None:
    """Two wires of 1.4 mm are 2.8 mm, and where the edges are sharp in a braid 3.8 mm."""
    texts = dict(box(2))
    texts["harness.yaml"] = texts["harness.yaml"].replace("lone-26", "signal-24")
    texts["aircraft.yaml"] = texts["aircraft.yaml"].replace("[stop-1, end],", "[stop-1, end], edges: sharp,")
    assert bill_of_materials(harness_of(written_folder(texts))).clips == {4: 3}
