"""Runs that are known only by their ends' coordinates."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding
from docgen.harness.checks.facts import Facts, note

KIND = note(
    name="unmeasured",
    stands_on="run",
    meaning="A run is known only by its ends' coordinates.",
    when="A run has no `length:`; the straight line between the `at:` of its two places is taken for it.",
    why="Wires go round formers and along the skin: one cut by the straight line comes out short.",
    remedy="Lay a string along the route, measure the string, and write `length: 235 mm` on the run.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each run that has no length of its own."""
    for index, run in enumerate(facts.harness.runs):
        if not run.measured:
            sentence = f"the run between {run.ends_text} is not measured; {run.length_mm:.0f} mm is the straight line."
            yield facts.found(KIND, ("runs", index), sentence, "Measure it along the structure.")
