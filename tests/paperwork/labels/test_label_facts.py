"""What each label says, read back from the PDF label by label, against what the builder wrote, by hand."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pypdfium2
import pytest
from measured import PrintedPage, read
from printed_labels import FULMAR, LAYOUTS, WREN, Label, printed_on
from resolved import harness_of

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.selection import Selection

if TYPE_CHECKING:
    from conftest import AircraftFolder


def labels_of(folder: Path, stock: str = "flags-a4", **wanted: Any) -> list[Label]:
    """Print labels on a stock and read them; on flags all that they can say has room."""
    choice = Choice(stems=("wire-labels",), stock=stock, labels=Selection(**wanted))
    content = make_paperwork(harness_of(folder), choice).files["wire-labels.pdf"]
    return printed_on([PrintedPage(page) for page in pypdfium2.PdfDocument(content)], stock)


@cache
def wren() -> list[Label]:
    return labels_of(WREN)


# Marks as the method counts them: the supply P1, of each aileron two, the rudder C5 and C6; the negative carries the
# first again and is left out. A is what lies in the fuselage, B what lies in the panel. Both ends of each lead.
LEADS = [
    ("RX BATT", "pack", "receiver BATT", "P1A20"),
    ("AIL L", "receiver 1", "left-root 1–3", "C1A22 C2A22"),
    ("AIL R", "receiver 2", "right-root 1–3", "C3A22 C4A22"),
    ("RUD", "receiver 4", "rudder", "C5A22 C6A22"),
    ("AIL L", "left-root 1–3", "left-aileron", "C1B22 C2B22"),
    ("AIL R", "right-root 1–3", "right-aileron", "C3B22 C4B22"),
]


def test_each_end_says_where_it_goes_where_the_other_is_and_the_marks_and_no_revision() -> None:
    wanted = [
        (f"{function} {here}", f"→ {far} {marks}")
        for function, one, other, marks in LEADS
        for here, far in ((one, other), (other, one))
    ]
    # Which lead of its circuit one at a joint is may be said in words beside its mark.
    assert [(label.bold, label.small.partition(" lead ")[0]) for label in wren()] == wanted
    assert not any("rev" in label.small for label in wren())


@pytest.mark.parametrize("stock", ["strips-a4", "carrier-a4", "wraps-a4", "carrier-4.8"])
def test_the_arrowhead_stands_before_the_text_and_points_away_from_it_to_the_plug(stock: str) -> None:
    for label in labels_of(WREN, stock):
        for zone, copy in zip(label.zones, label.copies, strict=True):
            left = min(text.box.left for text in copy)
            dark = label.page.cut(zone._replace(right=left - 0.2)) < 110
            # Ink in its columns: none higher than further from the end, and the last is the highest.
            high = [column.sum() for column in dark.T if column.any()]
            assert high[0] < high[-1] / 2
            assert all(a <= b + 1 for a, b in pairwise(high))


def test_a_flag_says_the_same_on_both_halves_and_its_arrow_points_along_the_wire() -> None:
    size = read(LAYOUTS / "flags-a4.yaml")["label"]
    assert size == {"length": "35 mm", "width": "12 mm", "wrap": "18 mm"}
    for label in wren():
        one, other = ([(text.text, text.bold) for text in copy] for copy in label.copies)
        assert one == other
        assert label.zones[1].left - label.zones[0].left == pytest.approx(35 + 18, abs=0.1)
        middle = (label.zones[0].right + label.zones[1].left) / 2
        wrapped = label.zones[0]._replace(left=middle - 3, right=middle + 3)
        dark = (label.page.cut(wrapped) < 110).any(axis=0).sum()
        # Its point is at the top: the rows there are narrower than further down.
        rows = [row.sum() for row in label.page.cut(wrapped) < 110 if row.any()]
        assert rows[0] < dark / 2


def test_a_wire_s_label_says_its_own_contacts_and_its_own_mark(aircraft_folder: AircraftFolder) -> None:
    # Negative, positive and signal on contacts 1, 2 and 3 of the plug at either end.
    folder = each_wire(aircraft_folder())
    said = {(label.bold, label.small) for label in labels_of(folder, circuits=("rudder",))}
    ends = [
        (f"receiver 4 contact {contact}", f"rudder {contact}", mark)
        for contact, mark in ((1, "C5A22N"), (2, "C5A22"), (3, "C6A22"))
    ]
    ways = [(here, far, mark) for one, other, mark in ends for here, far in ((one, other), (other, one))]
    assert said == {(f"RUD {here}", f"→ {far} {mark}") for here, far, mark in ways}


@cache
def fulmar() -> list[str]:
    return [label.bold for label in labels_of(FULMAR)]


@pytest.mark.parametrize(
    ("function", "here"),
    [
        # As the builder wrote: the heavy pair comes to the four contacts of both commons; aileron and flap bring a
        # signal and join the negative, in the panel the positive too.
        ("WING L", "left-wing-b 1–4"),
        ("WING R", "right-wing-b 1–4"),
        ("AIL L OUT", "left-wing-b 5, 3+4"),
        ("AIL L OUT", "left-wing-b 5, 3+4, 1+2"),
        ("FLAP R", "right-wing-b 6, 3+4"),
        ("FLAP R", "right-wing-b 6, 3+4, 1+2"),
    ],
)
def test_a_label_names_contacts_of_its_own_and_those_that_it_shares(function: str, here: str) -> None:
    assert f"{function} {here}" in fulmar()


def each_wire(folder: Path) -> Path:
    with (folder / "harness.yaml").open("a", encoding="utf-8") as file:
        file.write("\nlabels: {each: wire, least_type: 1 mm}\n")
    return folder


THROUGH = "    through: [<side>-root]\n"


def ends_said(folder: Path, circuit: str) -> list[tuple[str, str, str]]:
    """Return which end the labels of a circuit's wires lie at, and what they are to say of this and the other."""
    labels = [label for label in wire_labels.content(harness_of(folder)).labels if label.key.circuit == circuit]
    assert all(label.text.middle == (label.key.end == "middle") for label in labels)
    return [(label.key.end, label.text.here, label.text.far) for label in labels]


def test_a_wire_s_label_says_the_contact_of_this_end_and_that_of_the_other(aircraft_folder: AircraftFolder) -> None:
    moved = (THROUGH, f"{THROUGH}    contacts: {{<side>-root: [4, 5, 6]}}\n")
    said = ends_said(each_wire(aircraft_folder({"harness.yaml": [moved]})), "left-aileron")
    # Negative, positive, signal from contacts 1, 2, 3 of the receiver's port to 4, 5, 6 of the joint, and on to 1, 2, 3
    # of the servo's plug.
    ends = [
        pair
        for here, joint in zip("123", "456", strict=True)
        for pair in (
            (f"receiver 1 contact {here}", f"left-root {joint}"),
            (f"left-root {joint}", f"left-aileron {here}"),
        )
    ]
    assert sorted(said) == sorted(way for one, other in ends for way in (("from", one, other), ("to", other, one)))


def test_labels_of_wires_are_chosen_by_the_place_where_they_are(aircraft_folder: AircraftFolder) -> None:
    said = labels_of(each_wire(aircraft_folder()), places=("tail-post",))
    assert sorted(label.bold for label in said) == ["RUD rudder 1", "RUD rudder 2", "RUD rudder 3"]


@pytest.mark.parametrize(
    ("place", "ends"),
    [
        ("radio-tray", ["AIL L receiver 1", "AIL R receiver 2", "RUD receiver 4", "RX BATT receiver BATT"]),
        ("left-root", ["AIL L left-root 1–3"]),
        ("left-panel-root", ["AIL L left-root 1–3"]),
        ("left-aileron", ["AIL L left-aileron"]),
        ("tail-post", ["RUD rudder"]),
    ],
)
def test_labels_are_chosen_by_the_place_where_they_are(place: str, ends: list[str]) -> None:
    assert sorted(label.bold for label in labels_of(WREN, places=(place,))) == ends


# Two labels stand 25 mm behind their plugs, each on a tube of 47 mm: 2 × 72 = 144 mm.
@pytest.mark.parametrize(
    ("length", "ends"), [("143 mm", ["middle"]), ("144 mm", ["from", "to"]), ("40 mm", ["middle"])]
)
def test_a_lead_too_short_for_two_labels_has_one_in_the_middle(
    length: str, ends: list[str], aircraft_folder: AircraftFolder
) -> None:
    short = ("    channel: 4\n", f"    channel: 4\n    lengths: {{A: {length}}}\n")
    folder = aircraft_folder({"harness.yaml": [short]})
    labels = [label for label in wire_labels.content(harness_of(folder)).labels if label.key.circuit == "rudder"]
    assert [label.key.end for label in labels] == ends
    said = [label.bold for label in labels_of(folder, "strips-a4", circuits=("rudder",))]
    assert said[0] == ("RUD middle: receiver 4" if ends == ["middle"] else "RUD receiver 4")


def test_the_label_in_the_middle_names_first_the_end_that_its_arrow_faces(aircraft_folder: AircraftFolder) -> None:
    short = ("    channel: 4\n", "    channel: 4\n    lengths: {A: 150 mm}\n")
    said = ends_said(each_wire(aircraft_folder({"harness.yaml": [short]})), "rudder")
    # The circuit begins at the receiver, and so does the label's arrow.
    assert said == [("middle", f"receiver 4 contact {i}", f"rudder {i}") for i in (1, 2, 3)]


def test_an_end_that_is_finished_already_has_its_tube_over_the_plug_or_is_a_wrap() -> None:
    # The servo plug of 8.0 × 2.9 mm is as thick as 21.8 / π = 6.94 mm round; of three wires of 1.6 mm with paper
    # 0.9 × 3.63 = 3.27 mm are gripped: 7.9/2.7 of 3:1 does. A shell of a joint is too thick for any.
    harness = harness_of(WREN)
    keys = [wire_labels.LabelKey("left-aileron", "A", end) for end in ("from", "to")]
    items = wire_labels.content(harness, finished=keys)
    labels = {label.key: label for label in items.labels}
    assert [label.key for label in items.labels if label.plug_is_on] == keys
    assert labels[keys[0]].need_over_paper.passes_mm == pytest.approx(6.94, abs=0.01)
    tubes = items.clear_tubes()
    assert tubes[labels[keys[0]].need_over_paper].name == "clear3-7.9"
    assert labels[keys[1]].need_over_paper not in tubes
    assert [label.text for label in items.labels] == [label.text for label in wire_labels.content(harness).labels]
