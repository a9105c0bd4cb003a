"""Take the roles of a circuit; return the marks of its wires: function letter, number, segment letter, size, N.

Source: US Navy Electricity and Electronics Training Series (NAVEDTRA 14176), module 4.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

NEGATIVE = "negative"
SUPPLY_LETTER = "P"
# Which letter a kind of load has; P for supplies and L for lights are the scheme's own, the rest follows its
# custom as remembered (C control surface, G landing gear, K engine control, R radio).
_LETTERS = {
    "servo": "C",
    "gear leg": "G",
    "gear controller": "G",
    "brake": "G",
    "light": "L",
    "light controller": "L",
    "receiver": "R",
    "engine unit": "K",
    "speed controller": "K",
}
_OTHER_LETTER = "M"


def function_letter(chosen: str | None, from_kind: str, to_kind: str, to_common: bool) -> str:
    """Return the builder's letter, P for what comes from a battery or ends at commons, else the load's."""
    if chosen:
        return chosen
    if from_kind == "battery" or to_common:
        return SUPPLY_LETTER
    return _LETTERS.get(to_kind, _OTHER_LETTER)


class Numbers:
    """Counts wire numbers within each letter, in the order in which circuits are written, on from those ever given."""

    def __init__(self, highest: Mapping[str, int]) -> None:
        self._last = dict(highest)

    def give(self, letter: str, roles: Sequence[str], kept: Mapping[str, str]) -> dict[str, str]:
        """Return letter and number for each role, those that are `kept` first.

        The negative carries the first number of its circuit, and a number of its own where it is alone.
        """
        given = {role: kept[role] for role in roles if role in kept}
        for role in [role for role in roles if role != NEGATIVE] or [NEGATIVE]:
            if role not in given:
                self._last[letter] = self._last.get(letter, 0) + 1
                given[role] = f"{letter}{self._last[letter]}"
        if NEGATIVE in roles and NEGATIVE not in given:
            given[NEGATIVE] = next(given[role] for role in roles if role != NEGATIVE)
        return {role: given[role] for role in ([NEGATIVE] if NEGATIVE in roles else []) + [*roles]}


def wire_mark(numbered: str, segment: str, size: str, role: str) -> str:
    """Return the whole mark of one wire, like `C3B22` or `C3B22N`."""
    return f"{numbered}{segment}{size}{'N' if role == NEGATIVE else ''}"
