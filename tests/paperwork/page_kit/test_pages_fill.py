"""How pages fill: by chance, groups of blocks that stay together, with heads that they share, in one or two columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise
from random import Random
from typing import NamedTuple

import pytest

from docgen.paperwork.page_kit.blocks import Block, Group
from docgen.paperwork.page_kit.sheets import Sheets
from docgen.paperwork.typesetting.ink import Box, Ink, Page, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

BLOCK = TitleBlock("Tern", "TE-1", "A", "2026-01-01", None, "0123abcd")
PAPER = (210.0, 297.0)
MOST_LEFT_MM = 28.0  # of a column that may stay empty so that a group is not parted
SEEDS = range(12)


class Placed(NamedTuple):
    """A block where it stands: in which column of all, its name, its box."""

    column: int
    name: str
    box: Box


class Laid(NamedTuple):
    """Parts of groups, all that was placed of them, and the boxes of the columns."""

    parts: list[list[Group]]
    blocks: dict[str, Block]
    group_of: dict[str, Group]
    placed: list[Placed]
    columns: list[Box]


def laid_by_chance(seed: int, columns: int) -> Laid:
    dice = Random(seed)
    blocks: dict[str, Block] = {}
    group_of: dict[str, Group] = {}

    def block(name: str, height_mm: float, *, stays: bool = False) -> Block:
        def draw(box: Box) -> list[Ink]:
            return [Text(box.x_mm, box.y_mm, name, 1.8, cell=box)]

        blocks[name] = Block(height_mm, draw, dice.choice([0.0, 0.0, 3.5, 7.0]), stays)
        return blocks[name]

    heads = [None, block("head one", 4.0), block("head two", 9.0)]
    parts: list[list[Group]] = []
    for part in range(3):
        groups = []
        for number in range(dice.randint(3, 9)):
            count = dice.choice([1, 2, 3, 6, 20])
            names = [f"{part} {number} {i}" for i in range(count)]
            height_mm = dice.choice([5.0, 11.0, 16.0])
            held = tuple(
                block(name, height_mm, stays=i + 1 < count and dice.random() < 0.3) for i, name in enumerate(names)
            )
            again = block(f"{part} {number} again", 6.0) if dice.random() < 0.7 else None
            group = Group(held, again, dice.choice(heads))
            group_of |= dict.fromkeys(names, group)
            groups.append(group)
        parts.append(groups)
    sheets = Sheets("Cut list", PAPER, "Cut away from the hand.", columns).of(BLOCK)
    pages = sheets.lay(*parts)
    boxes = [box for number in range(len(pages)) for box in sheets.columns_of(Page(*PAPER), is_first=number == 0)]
    assert sheets.count(*parts) == len(pages)
    placed = []
    for number, page in enumerate(pages):
        for ink in page.ink:
            if isinstance(ink, Text) and ink.text in blocks:
                assert ink.cell is not None
                [side] = [i for i in range(columns) if boxes[columns * number + i].x_mm == ink.cell.x_mm]
                placed.append(Placed(columns * number + side, ink.text, ink.cell))
    return Laid(parts, blocks, group_of, placed, boxes)


@pytest.fixture(scope="module", params=[(seed, columns) for seed in SEEDS for columns in (1, 2)])
def laid(request: pytest.FixtureRequest) -> Laid:
    return laid_by_chance(*request.param)


def own(placed: Sequence[Placed]) -> list[Placed]:
    """Return blocks of groups, without heads and what says that a group goes on."""
    return [one for one in placed if one.name[-1].isdigit()]


def in_columns(laid: Laid) -> Iterator[tuple[int, list[Placed]]]:
    for column, placed in groupby(laid.placed, key=lambda one: one.column):
        yield column, list(placed)


def needed_mm(group: Group, blocks: Sequence[Block], head: Block | None) -> float:
    """Return what blocks of a group need below a head that stands there, and the head that they want."""
    wanted = [group.head] if group.head is not None and group.head is not head else []
    return sum(block.height_mm + block.above_mm for block in [*wanted, *blocks])


def test_every_block_stands_once_in_order_in_the_width_of_its_column(laid: Laid) -> None:
    names = [name for part in laid.parts for group in part for name in names_of(laid, group)]
    assert [one.name for one in own(laid.placed)] == names
    assert [one.column for one in laid.placed] == sorted(one.column for one in laid.placed)
    for one in laid.placed:
        column = laid.columns[one.column]
        assert (one.box.x_mm, one.box.width_mm) == (column.x_mm, column.width_mm)
        assert one.box.height_mm == laid.blocks[one.name].height_mm


def names_of(laid: Laid, group: Group) -> list[str]:
    return [name for name, of in laid.group_of.items() if of is group]


def test_blocks_follow_each_other_from_the_head_of_their_column_with_what_is_clear_above_them(laid: Laid) -> None:
    for column, placed in in_columns(laid):
        assert placed[0].box.y_mm == pytest.approx(laid.columns[column].y_mm)
        for above, below in pairwise(placed):
            # Over the first row below a head nothing is left clear.
            clear = 0.0 if above.name.startswith("head") else laid.blocks[below.name].above_mm
            assert below.box.y_mm - above.box.bottom_mm == pytest.approx(clear), below.name
        assert placed[-1].box.bottom_mm <= laid.columns[column].bottom_mm + 1e-6


def test_each_part_begins_a_column(laid: Laid) -> None:
    for one, following in pairwise(own(laid.placed)):
        if one.name[0] != following.name[0]:
            assert following.column > one.column


def test_what_stays_with_the_next_is_in_its_column(laid: Laid) -> None:
    for one, following in pairwise(own(laid.placed)):
        if laid.blocks[one.name].stays:
            assert following.column == one.column


def test_a_head_stands_where_groups_that_share_it_begin_and_again_in_each_column(laid: Laid) -> None:
    for _, placed in in_columns(laid):
        head = ""
        for above, one in pairwise([None, *placed]):
            assert one is not None
            if one.name.startswith("head"):
                assert one.name != head
                head = one.name
            elif one.name in laid.group_of:
                wanted = laid.group_of[one.name].head
                if wanted is None:
                    head = ""
                assert wanted is None or laid.blocks[head] is wanted
            else:
                # A group that goes on says so at once, below its head.
                assert above is None or above.name.startswith("head")


def test_a_group_that_goes_on_says_so_and_no_other_does(laid: Laid) -> None:
    for column, placed in in_columns(laid):
        first = own(placed)[0]
        goes_on = any(
            one.column < column and laid.group_of[one.name] is laid.group_of[first.name] for one in own(laid.placed)
        )
        agains = [one.name for one in placed if one.name.endswith("again")]
        again = laid.group_of[first.name].again
        expected = [name for name, block in laid.blocks.items() if block is again] if goes_on and again else []
        assert agains == expected


def test_a_column_ends_where_the_next_blocks_have_no_room_or_a_group_is_better_whole(laid: Laid) -> None:
    columns = dict(in_columns(laid))
    for one, following in pairwise(own(laid.placed)):
        column, left_mm = (
            laid.columns[one.column],
            laid.columns[one.column].bottom_mm - columns[one.column][-1].box.bottom_mm,
        )
        group, is_first = laid.group_of[following.name], following.name.endswith(" 0")
        if one.name[0] != following.name[0] or one.column == following.column:
            continue
        chain = [laid.blocks[following.name]]
        names = names_of(laid, group)
        while chain[-1].stays:
            chain.append(laid.blocks[names[names.index(following.name) + len(chain)]])
        head = laid.group_of[one.name].head
        lacks = needed_mm(group, chain, head) > left_mm
        whole_lacks = needed_mm(group, group.blocks, head) > left_mm
        is_better_whole = is_first and whole_lacks and left_mm <= MOST_LEFT_MM and group.height_mm <= column.height_mm
        assert lacks or is_better_whole, following.name


def test_a_group_that_a_column_holds_does_not_begin_near_the_end_of_one(laid: Laid) -> None:
    for one, following in pairwise(own(laid.placed)):
        column = laid.columns[following.column]
        group = laid.group_of[following.name]
        begins_here = following.name.endswith(" 0") and one.column == following.column
        if begins_here and column.bottom_mm - one.box.bottom_mm <= MOST_LEFT_MM and group.height_mm <= column.height_mm:
            last = names_of(laid, group)[-1]
            [ends] = [each.column for each in laid.placed if each.name == last]
            assert ends == following.column, following.name
