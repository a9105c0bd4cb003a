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
        amps = {} if said is None else {"idle": said.idle_a, "working": said.working_a, "stall": said.stall_a}
        for easier, case in (("idle", "working"), ("working", "stall")):
            least_a, case_a = amps.get(easier), amps.get(case)
            if least_a is not None and case_a is not None and case_a < least_a:
                sentence = (
                    f"the {case} current of {shown(name)}, {decimal(case_a)} A, is less than its {easier} current, "
                    f"{decimal(least_a)} A."
                )
                do = f"Correct `{case}:` or `{easier}:`."
                yield facts.found(KIND, ("equipment", name, "current", case), sentence, do, over=least_a - case_a)
