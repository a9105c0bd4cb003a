"""What is laid on sheets: blocks with a height and the ink that they make, and groups of blocks that stay together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from docgen.paperwork.typesetting.ink import Box, Ink

GRID_MM = 3.5

Draw = Callable[[Box], Sequence[Ink]]
"""Return the ink of a block in the box that it is given."""


@dataclass(frozen=True)
class Block:
    """Something of a fixed height; `above_mm` is left clear over it, but at the head of a page.

    A block that `stays` is not parted from the next one.
    """

    height_mm: float
    draw: Draw
    above_mm: float = 0.0
    stays: bool = False


@dataclass(frozen=True)
class Group:
    """Blocks that stay on one page if they can; where they can't, `again` heads those that go on on the next."""

    blocks: tuple[Block, ...]
    again: Block | None = None

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
