"""Measured runs that are shorter than the straight line."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding
from docgen.basics.units import at_least, decimal
from docgen.harness.checks.facts import ROUNDING_MM, Facts, caution
from docgen.harness.routing.runs import straight_line_mm

KIND = caution(
    name="straight",
    stands_on="run",
    meaning="A measured run is shorter than the straight line.",
    when="The `length:` of a run is over 0.05 mm less than the straight line between the `at:` of its places.",
    why="One of the figures is wrong. If it is the length, every wire on this run is cut short.",
    remedy="Measure along the structure again, `length: 745 mm`, or remedy the coordinates, "
    "`at: {aft: 600 mm, left: 80 mm}`.",
    source="Geometry: the straight line is the shortest route.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each run whose length is under the straight line between its places."""
    harness = facts.harness
    for index, run in enumerate(harness.runs):
        line_mm = straight_line_mm(harness.places, run.between)
        length_mm = run.length_mm if run.measured else None
        if length_mm is not None and line_mm is not None and length_mm < line_mm - ROUNDING_MM:
            line = at_least(line_mm, 1)
            sentence = f"{decimal(length_mm)} mm between {run.ends_text} is under the straight line of {line} mm."
            yield facts.found(KIND, ("runs", index, "length"), sentence, "Measure it again, or correct `at`.")
