"""How new leads of the smallest example are made: which end stays free, what is twisted, pulled and threaded."""

from __future__ import annotations

from pathlib import Path

import pytest
from builder import Builder
from came_along import came_along

from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import contents_of
from docgen.reissue.compare import compare
from docgen.reissue.making import Making, Opening, making
from docgen.reissue.state import make_state

RUDDER = "    to: rudder\n    lead: servo-22\n"
OTHER_WIRE = "    to: rudder\n    lead: servo-fluoro-22\n"
TAIL_RUN = "[radio-tray, tail-post],   length: 1140 mm, edges: sharp}"


def harness_of(builder: Builder) -> Harness:
    harness = builder.check().harness
    assert harness is not None
    return harness


def made(wren: Builder, old: str, new: str, *, as_built: bool = False, file: str = "harness.yaml") -> Making:
    """Return how what a change asks for is made."""
    harness = harness_of(wren)
    before = make_state(harness, contents_of(harness), "A")
    wren.change(old, new, file)
    harness = harness_of(wren)
    after = make_state(harness, contents_of(harness), "B", before)
    of = compare(before, after)
    return making(harness, of.as_built if as_built else of, after)


def test_the_end_over_which_a_sleeve_slides_stays_free(wren: Builder) -> None:
    """All leads meet at the tray, so a sleeve slides on from the tail."""
    found = made(wren, RUDDER, OTHER_WIRE)
    assert found.free == {"rudder A": ("rudder",)}
    assert found.lay_mm == {"rudder A": 20.0}
    assert [(sample.wire, sample.connector, sample.gender) for sample in found.samples] == [
        ("fluoro-22", "servo-3", "pins"),
        ("fluoro-22", "servo-3", "sockets"),
    ]
    assert found.openings == ()


def test_what_is_crimped_is_pulled_whatever_was_crimped_before_and_each_pair_once(wren: Builder) -> None:
    """A longer lead of the same wire: three crimps into sockets at the receiver, three into pins at the servo."""
    found = made(wren, RUDDER, f"{RUDDER}    loop_from: 80 mm\n")
    assert found.free == {"rudder A": ("rudder",)}
    assert [(sample.wire, sample.connector, sample.gender) for sample in found.samples] == [
        ("pvc-22", "servo-3", "pins"),
        ("pvc-22", "servo-3", "sockets"),
    ]


def test_a_contact_that_goes_elsewhere_on_its_wire_is_not_pulled(wren: Builder) -> None:
    assert made(wren, "    from: receiver 4\n", "    from: receiver 3\n").samples == ()


def test_a_sleeve_that_goes_on_has_its_leads_free_at_one_end_and_a_tube_for_its_collars(wren: Builder) -> None:
    """All leads meet at the tray. 3.45 mm of wires and 1 mm of sleeve want the tube of 6.4 mm that braid-4 has."""
    found = made(wren, TAIL_RUN, TAIL_RUN.replace("sharp}", "sharp, sleeve: heat-9}"), file="aircraft.yaml")
    assert found.free == {"rudder A": ("rudder",)}
    assert {ends: work.collar for ends, work in found.sleeves.items()} == {"radio-tray to tail-post": "shrink-5"}
    assert (found.samples, found.around) == ((), {}), "the builder chose it"


def test_where_a_wrap_would_spare_opening_anything_the_least_that_fits_is_named(wren: Builder) -> None:
    """What was dressed is sharp; 3.45 mm want braid-4, and wrap-3, which begins at 1.6 mm, goes around."""
    wren.change(TAIL_RUN, TAIL_RUN.replace("sharp}", "sharp, dressed: grommet}"), "aircraft.yaml")
    found = made(wren, "sharp, dressed: grommet}", "sharp}", file="aircraft.yaml")
    assert found.free == {"rudder A": ("rudder",)}
    assert found.around == {"radio-tray to tail-post": "wrap-3"}


def test_no_wrap_is_named_where_no_hand_reaches_to_put_it_around(wren: Builder) -> None:
    wren.change(TAIL_RUN, TAIL_RUN.replace("sharp}", "sharp, closed: yes, dressed: grommet}"), "aircraft.yaml")
    found = made(wren, "sharp, closed: yes, dressed: grommet}", "sharp, closed: yes}", file="aircraft.yaml")
    assert (found.free, found.around) == ({"rudder A": ("rudder",)}, {})


def test_an_own_lead_that_is_another_is_drawn_into_a_closed_run_by_its_plug(wren: Builder) -> None:
    for file, changes in came_along(way="180 mm, closed: yes").items():
        for old, new in changes if isinstance(changes, list) else ():
            wren.change(old, new, file)
    found = made(wren, "    lead: 300 mm\n", "    lead: 320 mm\n")
    assert found.openings == (Opening("fin-root to fin-servo", (), ("rudder B",), closed=True),)
    assert found.free == {"rudder B": ("fin loose",)}


def test_what_is_new_in_a_closed_run_without_a_sleeve_is_drawn_in_by_a_free_end(wren: Builder) -> None:
    wren.change(TAIL_RUN, TAIL_RUN.replace("sharp}", "sharp, closed: yes, dressed: grommet}"), "aircraft.yaml")
    found = made(wren, RUDDER, OTHER_WIRE)
    assert found.openings == (Opening("radio-tray to tail-post", (), ("rudder A",), closed=True),)
    assert found.free == {"rudder A": ("rudder",)}


@pytest.mark.parametrize("hole", ["14 mm", "20 mm x 8 mm"])
def test_what_is_new_goes_through_an_opening_with_one_end_free(wren: Builder, hole: str) -> None:
    """Where the edges are dealt with there is no sleeve."""
    wren.change(
        TAIL_RUN, TAIL_RUN.replace("edges: sharp", f"edges: sharp, dressed: grommet, hole: {hole}"), "aircraft.yaml"
    )
    found = made(wren, RUDDER, OTHER_WIRE)
    sizes = tuple(float(size.removesuffix(" mm")) for size in hole.split(" x "))
    assert found.openings == (Opening("radio-tray to tail-post", sizes, ("rudder A",)),)
    assert found.free == {"rudder A": ("rudder",)}


def test_what_lies_in_no_sleeve_and_no_opening_has_both_ends_done_at_once(wren: Builder, tmp_path: Path) -> None:
    assert made(wren, "    lead: power-20\n", "    lead: power-20\n    loop: 60 mm\n").free == {}
    again = Builder(tmp_path / "again", "wren")
    assert made(again, RUDDER, OTHER_WIRE, as_built=True) == Making(), "altered already"
