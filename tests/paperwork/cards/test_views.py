"""Views of halves against the numbering of open footprint data (tests/reference/connector_numbering.py)."""

from __future__ import annotations

import pytest
from reference import connector_numbering as numbering

from docgen.definition.load import load_definition
from docgen.harness.model.parts import Connector
from docgen.harness.wiring.connectors import shell_connector
from docgen.paperwork.cards.view_letters import ViewContact
from docgen.paperwork.cards.view_pair import ViewsOf, views_blocks
from docgen.paperwork.cards.views import View, mating_view, mirrored, wire_view
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.paperwork.typesetting.ink import Box, Shape


@pytest.fixture(scope="module")
def shells(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Connector]:
    definition, _ = load_definition(tmp_path_factory.mktemp("nothing"), ACCEPTABLE)
    return {name: shell_connector(part) for name, part in definition.parts.shells.items()}


def relative(at: dict[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    """Return contacts from contact 1, right and down, as the footprint data gives them."""
    x, y = at["1"]
    return {name: (round(right - x, 3), round(y - up, 3)) for name, (right, up) in at.items()}


def test_pins_of_nine_stand_as_the_footprint_of_a_pin_part(shells: dict[str, Connector]) -> None:
    at = relative(mating_view(shells["dsub-9"], "pins", None).at_mm)
    for contact, (x, y) in numbering.D_9_PINS_MM.items():
        assert at[str(contact)] == pytest.approx((x, y), abs=0.005)


def test_sockets_of_nine_stand_in_a_mirror(shells: dict[str, Connector]) -> None:
    at = relative(mating_view(shells["dsub-9"], "sockets", None).at_mm)
    for contact, place in numbering.D_9_SOCKETS_MM.items():
        assert at[str(contact)] == pytest.approx(place, abs=0.005)


# A block of two rows of three, as it is written for the mating face of the pins with its key up, and turned by hand:
# rows from the top, each from the left. Sockets are its mirror image, and are turned after that.
BLOCK = {
    ("pins", "up"): ("1 2 3", "4 5 6"),
    ("pins", "right"): ("4 1", "5 2", "6 3"),
    ("pins", "down"): ("6 5 4", "3 2 1"),
    ("pins", "left"): ("3 6", "2 5", "1 4"),
    ("sockets", "up"): ("3 2 1", "6 5 4"),
    ("sockets", "right"): ("6 3", "5 2", "4 1"),
    ("sockets", "down"): ("4 5 6", "1 2 3"),
    ("sockets", "left"): ("1 4", "2 5", "3 6"),
}


def rows_read(view: View) -> tuple[str, ...]:
    """Read a view as an eye does: rows from the top, each from the left."""
    rows: dict[float, list[tuple[float, str]]] = {}
    for contact, (right, up) in view.at_mm.items():
        rows.setdefault(round(up, 3), []).append((right, contact))
    return tuple(" ".join(contact for _, contact in sorted(rows[up])) for up in sorted(rows, reverse=True))


@pytest.mark.parametrize(("gender", "key"), BLOCK)
def test_a_block_is_seen_as_it_is_turned_by_hand(shells: dict[str, Connector], gender: str, key: str) -> None:
    mating = mating_view(shells["block-6"], gender, key)
    assert (rows_read(mating), mating.key) == (BLOCK[gender, key], key)
    # 20 mm wide and 12 mm high; lying on its side it is 12 mm wide.
    assert tuple(mating.outline_mm) == ((20, 12) if key in ("up", "down") else (12, 20))


@pytest.mark.parametrize(("gender", "key"), BLOCK)
def test_the_wire_side_is_what_a_mirror_shows_of_the_mating_face(
    shells: dict[str, Connector], gender: str, key: str
) -> None:
    wires = wire_view(shells["block-6"], gender, key)
    assert rows_read(wires) == tuple(row[::-1] for row in BLOCK[gender, key])
    assert wires.key == {"left": "right", "right": "left"}.get(key, key)


@pytest.mark.parametrize("gender", ["pins", "sockets"])
def test_a_half_of_unknown_turn_is_seen_as_the_part_is_drawn(shells: dict[str, Connector], gender: str) -> None:
    assert rows_read(mating_view(shells["block-6"], gender, None)) == BLOCK[gender, "up"]


@pytest.mark.parametrize(("gender", "where"), [("sockets", numbering.D_9_PINS_MM), ("pins", numbering.D_9_SOCKETS_MM)])
def test_the_wire_side_of_a_d_is_the_footprint_of_the_other_part(
    shells: dict[str, Connector], gender: str, where: dict[int, tuple[float, float]]
) -> None:
    at = relative(wire_view(shells["dsub-9"], gender, None).at_mm)
    for contact, place in where.items():
        assert at[str(contact)] == pytest.approx(place, abs=0.005)


@pytest.mark.parametrize(("wide_mm", "key", "beside"), [(36.3, "up", True), (36.4, "up", False), (36.4, "left", False)])
def test_views_whose_outlines_have_no_room_side_by_side_stand_below_each_other(
    wide_mm: float, key: str, beside: bool
) -> None:
    """Of 85 mm with 4 mm between them each has 40.5 mm; a key at either side takes 1.6 mm of that and is 0.5 clear."""
    view = View({"1": (-2.5, 0.0), "2": (2.5, 0.0)}, (wide_mm, 8.0), key)
    contacts = {name: ViewContact(name, "BK", name == "1") for name in "12"}
    [block] = views_blocks(ViewsOf([(view, mirrored(view))], contacts, "turned", True), 85.0, 60.0)
    shapes = [ink.points_mm for ink in block.draw(Box(0, 0, 85, block.height_mm)) if isinstance(ink, Shape)]
    across = [sorted({round(x, 3) for x, _ in points}) for points in shapes]
    first, second = (xs for xs in across if xs[-1] - xs[0] == pytest.approx(wide_mm))
    assert (first[-1] < second[0]) == beside
    assert all(0 <= xs[0] <= xs[-1] <= 85 for xs in across)
