"""Halves that can be mated with a wrong one."""

from __future__ import annotations

import itertools
import math
import string
from collections.abc import Iterator
from typing import NamedTuple

from docgen.basics.findings import Finding, shown
from docgen.basics.units import added, millimetres
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.joints import Disconnect, Half
from docgen.harness.routing.runs import straight_line_mm

KIND = caution(
    name="swap",
    stands_on="disconnect",
    meaning="A half can be mated with a wrong one.",
    when="Two halves have one `shell:` and one `keyed:`, one carries pins, the other sockets, and the wrong half "
    "lies in a straight line within the `reach:` of the loose one (of two loose halves, of both added).",
    why="At the field, in a hurry, left is plugged into right: ailerons reversed, or a pack on a signal.",
    remedy="Use keyed shells, `keyed: A` and `keyed: B`; a shorter tail, `reach: 80 mm`; pins on the other half of "
    "one joint, `contacts: pins`; another `shell:` or `place:`. A stripe of colour does not prevent it.",
    source="FAA AC 43.13-1B, 11-235b: neighbours must not mate; colour stripes are not relied on.",
)

_ROUNDING_MM = 1e-6


class _Clash(NamedTuple):
    """A half that hangs free, and a wrong half that it mates with and reaches."""

    one: Disconnect
    half: Half
    other: Disconnect
    wrong: Half
    away_mm: float
    reach_mm: float


def find(facts: Facts) -> Iterator[Finding]:
    """Find each half that hangs free and reaches a wrong half that it mates with."""
    clashes = list(_clashes(facts))
    letters = _letters(facts, {(clash.one.name, clash.other.name) for clash in clashes})
    for one, half, other, wrong, away_mm, reach_mm in clashes:
        keyed = f" keyed {shown(one.form.keyed)}" if one.form.keyed else ""
        tails = "its tail reaches" if wrong.fixed else "both tails together reach"
        sentence = (
            f"the {half.name} half of {shown(one.name)} mates with the {wrong.name} half of {shown(other.name)} too: "
            f"both are {shown(one.shell.name)}{keyed}, {millimetres(away_mm)} mm apart in a straight line, "
            f"and {tails} {millimetres(reach_mm)} mm."
        )
        do = (
            "Fit shells that can't be mated with each other, and say so: "
            f"`keyed: {letters[one.name]}` at {shown(one.name)}, `keyed: {letters[other.name]}` at {shown(other.name)}"
        )
        shorter = "that tail" if wrong.fixed else "both tails together"
        do += f"; or keep {shorter} under {math.floor(away_mm)} mm." if away_mm >= 1 else "."
        yield facts.found(KIND, ("disconnects", one.name, "shell"), sentence, do)


def _clashes(facts: Facts) -> Iterator[_Clash]:
    for one, other in itertools.permutations(facts.harness.disconnects.values(), 2):
        for half, wrong in itertools.product(one.halves, other.halves):
            if _mate(one, half, other, wrong):
                places = half.place, wrong.place
                away_mm = straight_line_mm(facts.harness.places, places) if half.place != wrong.place else 0.0
                reach_mm = added([half.reach_mm, wrong.reach_mm])
                if away_mm is not None and reach_mm is not None and away_mm <= reach_mm + _ROUNDING_MM:
                    yield _Clash(one, half, other, wrong, away_mm, reach_mm)


def _mate(one: Disconnect, half: Half, other: Disconnect, wrong: Half) -> bool:
    same = one.shell.name == other.shell.name and one.form.keyed == other.form.keyed
    return same and not half.fixed and half.gender != wrong.gender


def _letters(facts: Facts, clashes: set[tuple[str, str]]) -> dict[str, str]:
    """Return for each disconnect that clashes the first letter that tells it from the others, its own if it can be."""
    letters: dict[str, str] = {}
    for name, disconnect in facts.harness.disconnects.items():
        against = {two if one == name else one for one, two in clashes if name in (one, two)}
        if not against:
            continue
        taken = {letters[other] for other in against if other in letters}
        if disconnect.form.keyed and disconnect.form.keyed not in taken:
            letters[name] = disconnect.form.keyed
            continue
        alike = [other for other in facts.harness.disconnects.values() if other.shell.name == disconnect.shell.name]
        taken |= {other.form.keyed for other in alike if other.name != name}
        single, double = string.ascii_uppercase, itertools.product(string.ascii_uppercase, repeat=2)
        every = itertools.chain(single, ("".join(pair) for pair in double))
        letters[name] = next(letter for letter in every if letter not in taken)
    return letters
