"""Currents that `docgen new` put there and nobody replaced."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.basics.units import counted
from docgen.harness.checks.facts import Facts, note

KIND = note(
    name="typical",
    stands_on="equipment",
    meaning="Currents are typical ones that `docgen new` put there.",
    when="A `current:` says `typical: yes`. All of them are one line, at the first, with their number.",
    why="What wires, contacts and packs carry is worked out from them, and a strong servo draws twice what is typical: "
    "the volts at its end are then worse than they read here.",
    remedy="Measure what yours draws, or look it up with its maker, at the volts that it gets; write that and take the "
    "mark out, `current: {idle: 20 mA, working: 0.6 A, stall: 2.4 A}`.",
    source=PRACTICE,
)

_MOST_NAMED = 6


def find(facts: Facts) -> Iterator[Finding]:
    """Find equipment whose current is typical: all of it that does not accept it in one line."""
    marked = [each for each in facts.harness.equipment.values() if each.load is not None and each.load.typical]
    accepted = [[each] for each in marked if KIND.name in each.form.accept]
    for entries in (*accepted, [each for each in marked if [each] not in accepted]):
        if entries:
            names = listed((shown(each.name) for each in entries), _MOST_NAMED)
            is_are = "is a typical one" if len(entries) == 1 else "are typical ones"
            sentence = f"{counted(len(entries), 'current')} {is_are}, not yours: of {names}."
            do = "Put yours, and take `typical: yes` out."
            yield facts.found(KIND, ("equipment", entries[0].name, "current", "typical"), sentence, do)
