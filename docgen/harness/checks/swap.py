"""Halves that can be mated with a wrong one."""

from __future__ import annotations

import itertools
import math
import string
from collections import Counter
from collections.abc import Hashable, Iterator
from typing import NamedTuple

from docgen.basics.findings import Finding, shown
from docgen.basics.units import added, millimetres
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Disconnect, Half
from docgen.harness.routing.runs import straight_line_mm

KIND = caution(
    name="swap",
    stands_on="disconnect",
    meaning="A half can be mated with a wrong one.",
    when="Two halves have one `shell:` and one `keyed:`, one carries pins, the other sockets, and the wrong half "
    "lies in a straight line within the `reach:` of the loose one (of two loose halves, of both added); where that is "
    "not known, beside the half that it belongs to.",
    why="At the field, in a hurry, left is plugged into right: ailerons reversed, or a pack on a signal.",
    remedy="Use keyed shells, `keyed: A` and `keyed: B`; a shorter tail, `reach: 80 mm`; pins on the other half of "
    "one joint, `contacts: pins`; another `shell:` or `place:`. A stripe of colour does not prevent it.",
    source="FAA AC 43.13-1B, 11-235b: neighbours must not mate; colour stripes are not relied on.",
)

_ROUNDING_MM = 1e-6


class _Clash(NamedTuple):
    """A half that hangs free, and a wrong half that it mates with and reaches: how far that is, where it is known."""

    one: Disconnect
    half: Half
    other: Disconnect
    wrong: Half
    away_mm: float | None
    reach_mm: float | None


def find(facts: Facts) -> Iterator[Finding]:
    """Find each half that hangs free and reaches a wrong half that it mates with."""
    clashes = list(_clashes(facts))
    letters = _letters(facts, {(clash.one.name, clash.other.name) for clash in clashes})
    for one, half, other, wrong, away_mm, reach_mm in clashes:
        keyed = f" keyed {shown(one.form.keyed)}" if one.form.keyed else ""
        tails = "its tail reaches" if wrong.fixed else "both tails together reach"
        near = f"and its own is at {shown(wrong.place)} as well."
        if away_mm is not None and reach_mm is not None:
            near = f"{millimetres(away_mm)} mm apart in a straight line, and {tails} {millimetres(reach_mm)} mm."
        sentence = (
            f"the {half.name} half of {shown(one.name)} mates with the {wrong.name} half of {shown(other.name)} too: "
            f"both are {shown(one.shell.name)}{keyed}, {near}"
        )
        do = (
            "Fit shells that can't be mated with each other, and say so: "
            f"`keyed: {letters[one.name]}` at {shown(one.name)}, `keyed: {letters[other.name]}` at {shown(other.name)}"
        )
        shorter = "that tail" if wrong.fixed else "both tails together"
        do += f"; or keep {shorter} under {math.floor(away_mm)} mm." if away_mm is not None and away_mm >= 1 else "."
        yield facts.found(KIND, ("disconnects", one.name, "shell"), sentence, do)


def _clashes(facts: Facts) -> Iterator[_Clash]:
    near = _Near(facts.harness)
    for one in facts.harness.disconnects.values():
        for other in near.to(one):
            for half, wrong in itertools.product(one.halves, other.halves):
                if half.fixed or half.gender == wrong.gender:
                    continue
                places = half.place, wrong.place
                away_mm = straight_line_mm(facts.harness.places, places) if half.place != wrong.place else 0.0
                reach_mm = added([half.reach_mm, wrong.reach_mm])
                if away_mm is None or reach_mm is None:
                    if any(own.place == wrong.place for own in one.halves if own is not half):
                        yield _Clash(one, half, other, wrong, None, None)
                elif away_mm <= reach_mm + _ROUNDING_MM:
                    yield _Clash(one, half, other, wrong, away_mm, reach_mm)


class _Near:
    """Finds joints of one shell and key near others: in squares as wide as two halves reach together, seen from above.

    Without coordinates halves are near those at their own place.
    """

    def __init__(self, harness: Harness) -> None:
        self._places = harness.places
        self._joints = tuple(harness.disconnects.values())
        reaches_mm = [half.reach_mm or 0.0 for joint in self._joints for half in joint.halves]
        self._side_mm = max(2 * max(reaches_mm, default=0.0) + 1.0, 1.0)
        self._in: dict[Hashable, list[int]] = {}
        for number, joint in enumerate(self._joints):
            for square in dict.fromkeys(self._square(half) for half in joint.halves):
                self._in.setdefault((*_likeness(joint), square), []).append(number)

    def to(self, joint: Disconnect) -> list[Disconnect]:
        """Return other joints of its likeness that may be near, in the order written."""
        squares = {square for half in joint.halves for square in self._around(self._square(half))}
        found = {number for square in squares for number in self._in.get((*_likeness(joint), square), ())}
        return [self._joints[number] for number in sorted(found) if self._joints[number] is not joint]

    def _square(self, half: Half) -> Hashable:
        at = self._places[half.place].point_mm
        return half.place if at is None else (at[0] // self._side_mm, at[1] // self._side_mm)

    def _around(self, square: Hashable) -> Iterator[Hashable]:
        if not isinstance(square, tuple):
            yield square
            return
        for aft, right in itertools.product((-1, 0, 1), repeat=2):
            yield square[0] + aft, square[1] + right


def _likeness(joint: Disconnect) -> tuple[str, str]:
    return joint.shell.name, joint.form.keyed


def _letters(facts: Facts, clashes: set[tuple[str, str]]) -> dict[str, str]:
    """Return for each disconnect that clashes the first letter that tells it from the others, its own if it can be."""
    against: dict[str, set[str]] = {}
    for one, two in clashes:
        against.setdefault(one, set()).add(two)
        against.setdefault(two, set()).add(one)
    alike: dict[str, Counter[str]] = {}
    for disconnect in facts.harness.disconnects.values():
        alike.setdefault(disconnect.shell.name, Counter())[disconnect.form.keyed] += 1
    letters: dict[str, str] = {}
    for name, disconnect in facts.harness.disconnects.items():
        if name not in against:
            continue
        taken = {letters[other] for other in against[name] if other in letters}
        if disconnect.form.keyed and disconnect.form.keyed not in taken:
            letters[name] = disconnect.form.keyed
            continue
        own = Counter([disconnect.form.keyed])
        taken |= (alike[disconnect.shell.name] - own).keys()
        single, double = string.ascii_uppercase, itertools.product(string.ascii_uppercase, repeat=2)
        every = itertools.chain(single, ("".join(pair) for pair in double))
        letters[name] = next(letter for letter in every if letter not in taken)
    return letters
