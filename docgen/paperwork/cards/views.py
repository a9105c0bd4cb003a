"""Turn a shell's pattern to what the eye sees of one half.

Data gives the half with the pins at its mating face. The half with the sockets at its mating face, and the
wire side of either, are its mirror images, as pin and socket parts in open footprint data show.
"""

from __future__ import annotations

from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.harness.model.parts import Connector

# Quarter turns, against the clock, that bring a key from where it points to up.
_TURNS_TO_UP = {"up": 0, "right": 1, "down": 2, "left": 3}
MIRRORED = {"left": "right", "right": "left"}


@frozen
class View:
    """What is seen of a half: contacts from the centre, right and up [mm], outline, where the key points."""

    at_mm: dict[str, tuple[float, float]]
    outline_mm: tuple[float, float]
    key: str | None
    shape: str = "rectangle"

    @cached_property
    def rows_and_columns(self) -> tuple[int, int]:
        """Return in how many rows, and in how many columns, its contacts stand."""
        right, up = ({round(at, 3) for at in along} for along in zip(*self.at_mm.values(), strict=True))
        return len(up), len(right)

    @cached_property
    def has_outer_sides(self) -> bool:
        """Tell whether every contact lies at a side of its own: in two rows or columns at most."""
        return self.shape != "round" and min(self.rows_and_columns) <= 2


def mirrored(view: View) -> View:
    """Return a view from the other side."""
    at = {contact: (-right, up) for contact, (right, up) in view.at_mm.items()}
    key = MIRRORED.get(view.key, view.key) if view.key else None
    return View(at, view.outline_mm, key, view.shape)


def mating_view(shell: Connector, gender: str, key: str | None) -> View:
    """Return the mating face of one half, turned by quarters until its key points to `key`."""
    view = View(shell.at_mm, shell.outline_mm, shell.key, shell.shape)
    if gender == "sockets":
        view = mirrored(view)
    if key is None or view.key is None:
        return view
    turns = (_TURNS_TO_UP[view.key] - _TURNS_TO_UP[key]) % 4
    at = dict(view.at_mm)
    for _ in range(turns):
        at = {contact: (-up, right) for contact, (right, up) in at.items()}
    width, height = view.outline_mm
    outline = (width, height) if turns % 2 == 0 else (height, width)
    return View(at, outline, key, view.shape)


def wire_view(shell: Connector, gender: str, key: str | None) -> View:
    """Return the wire side of one half: its mating view in a mirror."""
    return mirrored(mating_view(shell, gender, key))
