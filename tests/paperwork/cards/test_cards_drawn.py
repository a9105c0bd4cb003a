"""How unusual shells and striped wires are drawn on cards, read back from the PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from card_aircraft import CONTACT, one_joint
from printed_cards import PrintedCard, PrintedView, halves_of
from resolved import harness_of

if TYPE_CHECKING:
    from pathlib import Path


def seen(view: PrintedView) -> tuple[str, ...]:
    """Read the numbers of a view as an eye does: rows from the top, each from the left."""
    rows: dict[float, list[tuple[float, str]]] = {}
    for contact, (right, up) in view.at_mm.items():
        rows.setdefault(round(up, 1), []).append((right, contact))
    return tuple(" ".join(contact for _, contact in sorted(rows[up])) for up in sorted(rows, reverse=True))


def one_half(folder: Path, files: dict[str, str]) -> PrintedCard:
    for file, text in files.items():
        (folder / file).write_text(text, "utf-8")
    return halves_of(harness_of(folder))[0]


def test_the_square_is_round_contact_1_wherever_it_is_written(tmp_path: Path) -> None:
    # A letter among the numbers keeps the contacts in the order of writing.
    shell = (
        f"{{at: {{A: [-9 mm, 0 mm], 2: [0 mm, 0 mm], 1: [9 mm, 0 mm]}}, outline: [30 mm, 10 mm], contact: {CONTACT}}}"
    )
    card = one_half(tmp_path, one_joint("own", ["A", "2", "1"], own_shell=shell))
    assert [view.first for view in card.views(["A", "2", "1"])] == [{"1"}, {"1"}]
    assert "square: contact 1" in card.said


def test_a_joint_of_plugs_of_unknown_pitch_says_so(tmp_path: Path) -> None:
    files = one_joint("many", ["1", "2", "3"])
    assert "not to scale" in one_half(tmp_path, files).said


@pytest.mark.parametrize("shell", ["block-8", "block-14"])
def test_letters_stand_on_the_wire_side_as_a_mirror_shows_them(tmp_path: Path, shell: str) -> None:
    contacts = [str(i) for i in range(1, int(shell.partition("-")[2]) + 1)]
    files = one_joint(shell, contacts, colours=("WHRD", "GNYE", "BNBU", "GYPK"))
    mating, wires = one_half(tmp_path, files).views(contacts)
    for contact in contacts:
        for here, there in zip(stack(mating, contact), stack(wires, contact), strict=True):
            assert here[0] == there[0]
            assert there[1] == pytest.approx((-here[1][0], here[1][1]), abs=0.05), contact


def stack(view: PrintedView, contact: str) -> list[tuple[str, tuple[float, float]]]:
    """Return the letters of a contact from the top, and where each stands from the middle of the view."""
    letters = sorted(view.letters[contact], key=lambda text: text.base_mm)
    return [(text.text, view.from_middle(text.middle)) for text in letters]


def test_a_shell_too_tall_to_be_turned_is_drawn_upright_and_its_wire_side_in_a_mirror(tmp_path: Path) -> None:
    # Three rows of fifteen, 2.5 mm apart: lying on its side, twice as large, it is higher than a card has room for.
    rows = [[15 * row + i for i in range(1, 16)] for row in range(3)]
    shell = f"{{rows: {rows}, pitch: {{across: 2.5 mm, down: 2.5 mm}}, outline: [38 mm, 10 mm], key: up"
    contacts = [str(i) for i in range(1, 46)]
    files = one_joint("own", contacts, keys=("left", None), own_shell=f"{shell}, contact: {CONTACT}}}")
    card = one_half(tmp_path, files)
    assert "upright, as it could not be read turned to the hatch" in card.said
    as_listed = tuple(" ".join(str(i) for i in row) for row in rows)
    in_a_mirror = tuple(" ".join(str(i) for i in row[::-1]) for row in rows)
    assert tuple(map(seen, card.views(contacts))) == (in_a_mirror, as_listed)


def reds(card: PrintedCard) -> int:
    """Count the areas that are red by far."""
    fills = [drawn.fill for page in card.pages for drawn in page.drawn if drawn.fill is not None]
    return sum(red > 100 + max(green, blue) for red, green, blue in fills)


@pytest.mark.parametrize(("colours", "count"), [(("WH", "BK"), 0), (("WHRD", "BK"), 1), (("RDWH", "BK"), 1)])
def test_a_striped_wire_s_swatch_shows_both_its_colours(tmp_path: Path, colours: tuple[str, str], count: int) -> None:
    assert reds(one_half(tmp_path, one_joint("block-6", ["1", "2"], colours=colours))) == count


@pytest.mark.parametrize(
    ("rows", "outline"), [("[[1, 2], [3, 4], [5, 6], [7, 8]]", "14 mm, 24 mm"), ("[[1], [2], [3], [4]]", "9 mm, 24 mm")]
)
def test_letters_of_columns_stand_on_the_wire_side_as_a_mirror_shows_them(
    rows: str, outline: str, tmp_path: Path
) -> None:
    contacts = [number.strip("[] ") for number in rows.split(",")]
    shell = f"{{rows: {rows}, pitch: {{across: 5 mm, down: 5 mm}}, outline: [{outline}], key: up, contact: {CONTACT}}}"
    mating, wires = one_half(tmp_path, one_joint("own", contacts, own_shell=shell)).views(contacts)
    for contact in contacts:
        [(here, (right, up))], [(there, place)] = stack(mating, contact), stack(wires, contact)
        assert there == here
        assert place == pytest.approx((-right, up), abs=0.05), contact


def test_of_a_shell_too_tight_for_numbers_the_ends_of_its_rows_are_named_where_they_are(tmp_path: Path) -> None:
    rows = [list(range(1, 31)), list(range(31, 61))]
    shell = f"{{rows: {rows}, pitch: {{across: 2.5 mm, down: 2.5 mm}}, outline: [78 mm, 8 mm], key: up"
    names = [str(i) for i in range(1, 61)]
    card = one_half(tmp_path, one_joint("own", names, own_shell=f"{shell}, contact: {CONTACT}}}"))
    read, first_at_left = [], []
    for page in card.pages:
        for outline in (d.box for d in page.drawn if d.box.size == pytest.approx((78, 8), abs=0.1)):
            beside = [
                t for t in page.texts if t.bold and t.text in names and outline.top < t.ink.middle[1] < outline.bottom
            ]
            by_row = sorted(beside, key=lambda t: (round(t.base_mm, 1), t.x_mm))
            read.append([t.text for t in by_row])
            [square] = [
                d.box
                for d in page.drawn
                if d.fill is None and d.stroked and 0.5 < d.box.size[0] < 3 and outline.holds(d.box.middle)
            ]
            assert len(page.dots_in(square)) == 1
            assert square.middle[1] < outline.middle[1]
            first_at_left.append(square.middle[0] < outline.middle[0])
    # Sockets: the mating face is the mirror of the pattern as listed, the wire side is as listed.
    assert read == [["30", "1", "60", "31"], ["1", "30", "31", "60"]]
    assert first_at_left == [False, True]
