"""What is laid on sheets: blocks with a height and the ink that they make, and groups of blocks that stay together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import zip_longest

from docgen.basics.frozen import frozen
from docgen.paperwork.typesetting.ink import Box, Ink

GRID_MM = 3.5

Draw = Callable[[Box], Sequence[Ink]]
"""Return the ink of a block in the box that it is given."""


@frozen
class Block:
    """Something of a fixed height; `above_mm` is left clear over it, but at the head of a page.

    A block that `stays` is not parted from the next one.
    """

    height_mm: float
    draw: Draw
    above_mm: float = 0.0
    stays: bool = False


@frozen
class Group:
    """Blocks that stay on one page if they can; where they can't, `again` heads those that go on on the next.

    Groups that have the same `head` stand under it together: it is set once in each column of a page.
    """

    blocks: tuple[Block, ...]
    again: Block | None = None
    head: Block | None = None

    @property
    def height_mm(self) -> float:
        """Return the height of all its blocks, what is clear above the first left out."""
        return sum(block.height_mm + block.above_mm for block in self.blocks) - self.blocks[0].above_mm


def chains(blocks: Sequence[Block]) -> list[tuple[Block, ...]]:
    """Return blocks in chains that can't be parted."""
    found: list[list[Block]] = [[]]
    for block in blocks:
        found[-1].append(block)
        if not block.stays:
            found.append([])
    return [tuple(chain) for chain in found if chain]


def joined(*blocks: Block) -> Block:
    """Return blocks below each other as one, which can't be parted; the first one's clear room is above it."""
    first, last = blocks[0], blocks[-1]

    def draw(box: Box) -> list[Ink]:
        ink, top = [*first.draw(box._replace(height_mm=first.height_mm))], box.y_mm + first.height_mm
        for block in blocks[1:]:
            ink += block.draw(Box(box.x_mm, top + block.above_mm, box.width_mm, block.height_mm))
            top += block.above_mm + block.height_mm
        return ink

    return Block(Group(blocks).height_mm, draw, first.above_mm, last.stays)


def abreast(left: Sequence[Block], right: Sequence[Block], gap_mm: float, left_mm: float | None = None) -> list[Block]:
    """Return blocks side by side, one of either column in each, as high as the higher of both; nothing is above.

    Both columns are equally wide, unless the left one's width is said.
    """
    none = Block(0.0, lambda box: ())  # noqa: ARG005 - it has no ink
    return [_both(*both, gap_mm, left_mm) for both in zip_longest(left, right, fillvalue=none)]


def _both(left: Block, right: Block, gap_mm: float, left_mm: float | None) -> Block:
    def draw(box: Box) -> list[Ink]:
        width = (box.width_mm - gap_mm) / 2 if left_mm is None else left_mm
        one = Box(box.x_mm, box.y_mm, width, left.height_mm)
        other = Box(one.right_mm + gap_mm, box.y_mm, box.width_mm - width - gap_mm, right.height_mm)
        return [*left.draw(one), *right.draw(other)]

    return Block(max(left.height_mm, right.height_mm), draw, 0.0, left.stays or right.stays)
