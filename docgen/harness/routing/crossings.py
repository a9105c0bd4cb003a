"""Take the disconnects and the assemblies that they join; return how a circuit's `through` is put right, in words."""

from __future__ import annotations

import itertools
from collections import deque
from collections.abc import Collection, Iterable, Mapping

from docgen.basics.findings import shown


class Crossings:
    """The ways from one assembly to another; `sides` are the two that each disconnect joins."""

    def __init__(self, sides: Mapping[str, tuple[str, str]]) -> None:
        self.sides = sides

    def between(self, one: str, other: str) -> list[str]:
        """Return all disconnects that join two assemblies, as written."""
        return [name for name, sides in self.sides.items() if set(sides) == {one, other}]

    def steps(self, start: str, end: str) -> list[list[str]]:
        """Return the fewest steps from one assembly to another, each with all disconnects that make it."""
        passed: dict[str, list[str]] = {start: [start]}
        queue = deque([start])
        while queue and end not in passed:
            assembly = queue.popleft()
            for sides in self.sides.values():
                for far in sides if assembly in sides else ():
                    if far not in passed:
                        passed[far] = [*passed[assembly], far]
                        queue.append(far)
        way = passed.get(end, [])
        return [self.between(*step) for step in itertools.pairwise(way)]

    def onward(self, at: str, end: str, before: tuple[str, str] | None) -> str:
        """Say how a circuit gets from where it is to its end; `before` are the last disconnect, and where it began."""
        if before is not None:
            wrong, start = before
            if start == end:
                return f"Leave {shown(wrong)} out of `through:`."
            if joints := self.between(start, end):
                return f"Put {_either(joints)} in place of {shown(wrong)} in `through:`."
        steps = self.steps(at, end)
        if not steps:
            return "Name a disconnect that joins them."
        return f"Add {', then '.join(map(_either, steps))} to `through:`."

    def instead(self, wrong: str, at: str, ends: Collection[str], passed: Collection[str]) -> str:
        """Say what to do about a disconnect that does not lead on from an assembly to one of the next ones.

        Those that the circuit has `passed` are not named again.
        """
        if at in ends:
            return f"Leave {shown(wrong)} out of `through:`."
        joints = [name for end in ends for name in self.between(at, end) if name not in passed]
        if joints:
            return f"Put {_either(joints)} in place of {shown(wrong)} in `through:`."
        return "Name disconnects in the order in which the circuit passes them, from its `from` on."


def _either(names: Iterable[str]) -> str:
    return " or ".join(map(shown, dict.fromkeys(names)))
