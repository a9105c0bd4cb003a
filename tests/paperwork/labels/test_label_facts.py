"""What each label says, read back from the PDF label by label, against what the builder wrote, by hand."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import pypdfium2
import pytest
from measured import cells, mm, read
from printed_cards import CardPage, Drawn

from docgen.basics.shipped import shipped_folder
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.selection import Selection
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder

EXAMPLES, LAYOUTS = shipped_folder("examples"), shipped_folder("layouts")


class Label(NamedTuple):
    """One label: its function, all else that it says in reading order, where its texts begin, its black shapes."""

    function: str
    rest: str
    lefts_mm: list[float]
    black: list[Drawn]


def labels_of(folder: Path, stock: str = "carrier-a4", **wanted: Any) -> list[Label]:
    """Print labels on a stock with cells and read them, cell by cell."""
    harness = check(folder).harness
    assert harness is not None
    choice = Choice(stems=("wire-labels",), stock=stock, labels=Selection(**wanted))
    content = make_paperwork(harness, choice).files["wire-labels.pdf"]
    layout = read(LAYOUTS / f"{stock}.yaml")
    form = {key: mm(value) for key, value in layout["label"].items()}
    length = form["length"] * (2 if "wrap" in form else 1) + form.get("wrap", 0)
    width = form.get("width", form.get("printed", 0))
    found = []
    for sheet in pypdfium2.PdfDocument(content):
        page = CardPage(sheet)
        for x, y in cells(layout):
            texts = [t for t in page.texts if x <= t.ink.middle[0] < x + length and y <= t.base_mm < y + width]
            if not texts:
                continue
            rest = [t.text for t in sorted(texts, key=lambda t: (round(t.base_mm, 1), t.x_mm)) if not t.bold]
            black = [d for d in page.drawn if d.fill == (0, 0, 0) and x <= d.box.middle[0] < x + length]
            found.append(
                Label(
                    " ".join(t.text for t in texts if t.bold),
                    " ".join(" ".join(rest).replace(" · ", " ").split()),
                    [t.ink.left for t in texts],
                    [d for d in black if y <= d.box.middle[1] < y + width],
                )
            )
    return found


@cache
def wren() -> list[Label]:
    return labels_of(EXAMPLES / "wren")


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


def test_each_end_says_where_it_goes_where_the_other_is_and_the_marks() -> None:
    said = [
        (function, sorted(f"{here} → {far} {marks} rev A".split()))
        for function, one, other, marks in LEADS
        for here, far in ((one, other), (other, one))
    ]
    assert [(label.function, sorted(label.rest.split())) for label in wren()] == said


def test_where_an_end_goes_stands_before_the_arrow_and_where_the_other_is_behind_it() -> None:
    ways = [way for _, one, other, _ in LEADS for way in (f"{one} → {other}", f"{other} → {one}")]
    assert [way in label.rest for label, way in zip(wren(), ways, strict=True)] == [True] * 12


@pytest.mark.parametrize("stock", ["carrier-a4", "strips-a4", "wraps-a4", "carrier-4.8"])
def test_the_arrow_stands_before_the_text_and_points_away_from_it_to_the_plug(stock: str) -> None:
    for label in labels_of(EXAMPLES / "wren", stock):
        [bar] = label.black
        across = sorted(corner[0] for corner in set(bar.corners))
        # One corner is the point; it lies at the label's end, the bar between it and all text.
        assert across[0] < across[1] - 0.3
        assert across[-1] == pytest.approx(across[-2], abs=0.01)
        assert across[-1] < min(label.lefts_mm)


def test_a_flag_says_the_same_on_both_halves_and_its_arrow_points_along_the_wire() -> None:
    for label in labels_of(EXAMPLES / "wren", "flags-a4"):
        words = label.function.split()
        assert words[: len(words) // 2] == words[len(words) // 2 :]
        assert max(label.lefts_mm) - min(label.lefts_mm) > 35 + 18 - 1
    page = CardPage(next(iter(pypdfium2.PdfDocument(flags()))))
    arrows = [d for d in page.drawn if len(set(d.corners)) == 7]
    assert len(arrows) == 2 * 17
    for arrow in arrows:
        # The point is the only corner at its height, and it is the highest.
        down = sorted(corner[1] for corner in set(arrow.corners))
        assert down[0] < down[1] - 1


def flags() -> bytes:
    harness = check(EXAMPLES / "wren").harness
    assert harness is not None
    return make_paperwork(harness, Choice(stems=("wire-labels",), stock="flags-a4")).files["wire-labels.pdf"]


def test_a_wire_s_label_says_its_own_contacts_and_its_own_mark(aircraft_folder: AircraftFolder) -> None:
    # Negative, positive and signal on contacts 1, 2 and 3 of the plug at either end.
    folder = each_wire(aircraft_folder())
    said = {(label.function, label.rest) for label in labels_of(folder, circuits=("rudder",))}
    ends = [
        (f"receiver 4 contact {contact}", f"rudder {contact}", mark)
        for contact, mark in ((1, "C5A22N"), (2, "C5A22"), (3, "C6A22"))
    ]
    ways = [(here, far, mark) for one, other, mark in ends for here, far in ((one, other), (other, one))]
    assert said == {("RUD", f"{here} → {far} {mark} rev A") for here, far, mark in ways}


@cache
def fulmar() -> dict[str, list[Label]]:
    found: dict[str, list[Label]] = {}
    for label in labels_of(EXAMPLES / "fulmar"):
        found.setdefault(label.function, []).append(label)
    return found


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
    said = [label.rest for label in fulmar()[function]]
    assert any(f"{here} →" in rest or rest.startswith(f"{here} rev") for rest in said), said


@pytest.mark.parametrize(
    ("function", "packs", "times"),
    # What the power unit feeds hangs on both packs; a lead at its pack names that already.
    [
        ("RX A", "from left-pack+right-pack", 2),
        ("RX B", "from left-pack+right-pack", 2),
        ("PACK L", "from", 0),
        ("FAN L BATT", "from", 0),
        ("GEAR BATT", "from", 0),
        ("AIL L IN", "from", 0),
    ],
)
def test_what_feeds_a_receiver_or_a_unit_names_the_packs_behind_it(function: str, packs: str, times: int) -> None:
    assert [packs in label.rest for label in fulmar()[function]].count(True) == times


def each_wire(folder: Path) -> Path:
    with (folder / "harness.yaml").open("a", encoding="utf-8") as file:
        file.write("\nlabels: {each: wire, least_type: 1 mm}\n")
    return folder


THROUGH = "    through: [<side>-root]\n"


def ends_said(folder: Path, circuit: str) -> list[tuple[str, str, str]]:
    """Return which end the labels of a circuit's wires lie at, and what they are to say of this and the other."""
    harness = check(folder).harness
    assert harness is not None
    labels = [label for label in wire_labels.content(harness).labels if label.key[0] == circuit]
    assert all(label.text.middle == (label.key[-1] == "middle") for label in labels)
    return [(label.key[-1], label.text.here, label.text.far) for label in labels]


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
    assert sorted(label.rest.partition(" →")[0] for label in said) == ["rudder 1", "rudder 2", "rudder 3"]


@pytest.mark.parametrize(
    ("place", "ends"),
    [
        ("radio-tray", ["receiver 1", "receiver 2", "receiver 4", "receiver BATT"]),
        ("left-root", ["left-root 1–3"]),
        ("left-panel-root", ["left-root 1–3"]),
        ("left-aileron", ["left-aileron"]),
        ("tail-post", ["rudder"]),
    ],
)
def test_labels_are_chosen_by_the_place_where_they_are(place: str, ends: list[str]) -> None:
    said = labels_of(EXAMPLES / "wren", places=(place,))
    assert sorted(re.sub(r"^C[^→]* rev A ", "", label.rest).partition(" →")[0] for label in said) == ends


def test_the_label_in_the_middle_names_first_the_end_that_its_bar_faces(aircraft_folder: AircraftFolder) -> None:
    short = ("    channel: 4\n", "    channel: 4\n    lengths: {A: 150 mm}\n")
    said = ends_said(each_wire(aircraft_folder({"harness.yaml": [short]})), "rudder")
    # The circuit begins at the receiver, and so does the label's bar.
    assert said == [("middle", f"receiver 4 contact {i}", f"rudder {i}") for i in (1, 2, 3)]


def test_labels_say_the_revision_that_the_builder_wrote(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"aircraft.yaml": [("  revision: A\n", "  revision: Q\n")]})
    assert ["rev Q" in label.rest for label in labels_of(folder)] == [True] * 12
