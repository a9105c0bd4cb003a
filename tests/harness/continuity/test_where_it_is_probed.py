"""Between which contacts continuity or its lack is shown, by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import groupby
from pathlib import Path

import pytest
from remedied import built, definition, servo, shared, through_wing, two_packs
from resolved import EXAMPLES, harness_of
from two_joints import behind_two_joints

from docgen.harness.continuity.isolation import isolations
from docgen.harness.continuity.netlist import Point, netlist_of
from docgen.harness.continuity.readings import path_readings

WrittenFolder = Callable[[Mapping[str, str]], Path]
POLES = (("negative", "1"), ("positive", "2"))


@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_what_must_stay_apart_is_probed_in_the_order_of_the_contacts(example: str) -> None:
    harness = harness_of(EXAMPLES / example)
    numbered = 0
    for isolation in isolations(harness).parted:
        for _, pairs in groupby(isolation.pairs, key=lambda pair: pair[0].place):
            contacts = [(one.contact, other.contact) for one, other in pairs]
            if all(name.isdigit() for pair in contacts for name in pair):
                numbers = [(int(one), int(other)) for one, other in contacts]
                assert numbers == sorted(numbers), isolation.place
                assert all(one < other for one, other in numbers)
                numbered += len(numbers) > 2
    assert numbered > 1


@pytest.mark.parametrize("mated", [True, False])
def test_each_contact_and_splice_is_in_one_net(mated: bool) -> None:
    netlist = netlist_of(harness_of(EXAMPLES / "fulmar"), mated=mated)
    nodes = [node for net in netlist.nets for node in net]
    assert len(nodes) == len(set(nodes))
    assert set(nodes) == {end for one, other, _ in netlist.connections for end in (one, other)}


def test_packs_are_held_apart_at_the_positives_of_their_own_plugs(written_folder: WrittenFolder) -> None:
    # A power plug's positive is its contact 2.
    harness = built(written_folder, two_packs(servo("1 A"), "power-20", "4 V"))
    assert isolations(harness).packs == ((Point("pack", "", "2"), Point("second", "", "2")),)


def test_what_has_no_positive_of_its_own_is_rung_out_from_where_the_other_gets_it(
    written_folder: WrittenFolder,
) -> None:
    # The aileron brings both poles to the joint, the flap a signal: behind the common it takes the aileron's.
    loads = {"ail": servo("1 A"), "flap": servo("1 A")}
    circuits = {
        "ail": through_wing("unit 1", "ail", "servo-22"),
        "flap": through_wing("unit 2", "flap", {"A": "lone-24", "B": "servo-22"}),
    }
    harness = built(written_folder, definition(loads, circuits, shared("ail", "flap")))
    starts = {
        (group.leads[-1].circuit, one.role): one.start for group in path_readings(harness) for one in group.readings
    }
    assert starts == {
        ("ail", "negative"): Point("unit", "1", "1"),
        ("ail", "positive"): Point("unit", "1", "2"),
        ("ail", "signal"): Point("unit", "1", "3"),
        ("flap", "negative"): Point("unit", "1", "1"),
        ("flap", "positive"): Point("unit", "1", "2"),
        ("flap", "signal"): Point("unit", "2", "3"),
    }


def test_a_path_comes_from_its_own_plug_and_from_the_heavy_pairs_though_that_passes_another_joint(
    written_folder: WrittenFolder,
) -> None:
    circuits = {
        "heavy": {"from": "unit W", "to": "tip p n", "through": ["wing"], "lead": "power-18"},
        "ail": {"from": "unit 1", "to": "ail", "through": ["wing", "tip"], "lead": "servo-22"},
    }
    harness = built(written_folder, behind_two_joints({"ail": servo("1 A")}, circuits))
    starts = {(one.role, one.start) for group in path_readings(harness) for one in group.readings}
    # Contacts 1 and 2 of either plug are negative and positive, 3 of a servo's is its signal.
    assert starts == {
        *((role, Point("unit", port, contact)) for port in ("1", "W") for role, contact in POLES),
        ("signal", Point("unit", "1", "3")),
    }
