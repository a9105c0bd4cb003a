"""Currents that can't be: less in the harder case."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.basics.units import decimal
from docgen.harness.checks.facts import Facts, caution

KIND = caution(
    name="stall",
    stands_on="equipment",
    meaning="A current is less in the harder case.",
    when="The `stall:` of a `current:` is under its `working:`, or that is under its `idle:`.",
    why="Two figures were exchanged or a unit is wrong, and wires, contacts and packs are then judged by them.",
    remedy="Measure again, or read the maker's table again: `current: {idle: 20 mA, working: 0.6 A, stall: 2.4 A}`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each current that is under one that it can't be under."""
    for name, entry in facts.harness.equipment.items():
        said = entry.form.current
        pairs = [] if said is None else [("stall", said.stall_a, "working", said.working_a)]
        pairs += [] if said is None else [("working", said.working_a, "idle", said.idle_a)]
        for case, amps, easier, least_a in pairs:
            if amps is not None and least_a is not None and amps < least_a:
                sentence = f"{shown(name)} draws {decimal(amps)} A {case}, less than the {decimal(least_a)} A {easier}."
                do = f"Correct `{case}:` or `{easier}:`."
                yield facts.found(KIND, ("equipment", name, "current", case), sentence, do)
