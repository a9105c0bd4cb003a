"""Take disconnects as written; return the two halves of each, with their names and genders."""

from __future__ import annotations

from docgen.definition.harness import Disconnect
from docgen.definition.model import Definition
from docgen.harness.model.joints import Half
from docgen.harness.model.parts import opposite


def build_halves(definition: Definition) -> dict[str, tuple[Half, Half]]:
    """Return both halves of each disconnect whose places are known, by its name."""
    return {
        name: _halves(definition, disconnect)
        for name, disconnect in definition.disconnects.items()
        if all(half.place in definition.places for half in disconnect.both)
    }


def _halves(definition: Definition, disconnect: Disconnect) -> tuple[Half, Half]:
    """Return both halves of one; a half that does not say pins or sockets mates with the other."""
    first, second = disconnect.both
    gender = first.contacts or opposite(second.contacts or "pins")
    names = ("fixed", "loose")
    if disconnect.halves is not None:
        one, other = (definition.places[half.place].assembly for half in disconnect.both)
        names = (one, other) if one != other else ("supply side", "load side")
    return (
        Half(names[0], first.place, gender, first.reach is None, first.reach or 0, first.key),
        Half(names[1], second.place, opposite(gender), False, second.reach or 0, second.key),
    )
