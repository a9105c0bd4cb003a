"""What outlets and packs give against what they may give."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, shown
from docgen.basics.units import at_least, decimal
from docgen.harness.checks.facts import CLOSE, Facts, caution
from docgen.harness.electrical.sources import SourceLoading, source_loadings

KIND = caution(
    name="supply-current",
    stands_on="equipment",
    meaning="An outlet or a pack gives more than it may.",
    when="At peak (everything working, the 4 loads with the most to add stalled, gear legs up to `gear: stop`) a port "
    "group, an `output:` or a `battery:` gives more than its `rating:`. `limits: together` changes the 4.",
    why="A regulator over its rating shuts down or sags, and everything on it restarts at once. A pack over its "
    "rating swells and its volts fall away.",
    remedy="Move loads to another outlet or pack with `from:`, or fit one whose maker gives it more, "
    "`rating: 10 A`. If fewer loads stall at once, say so: `limits: {together: 2}`.",
    source="Ratings are the makers'. Four loads at once: common practice, no source.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each outlet and pack that gives more than its rating at peak; ratings are the part's own."""
    for name, entry in facts.harness.equipment.items():
        for given in source_loadings(facts.electricity, entry):
            if given.amps > given.rating_a * (1 + CLOSE):
                sentence = (
                    f"{_giving(name, given)} {given.amps:.2f} A {facts.harness.limits.case_text('peak')} and may give "
                    f"{decimal(given.rating_a)} A (`rating:`): {decimal(given.amps - given.rating_a, 2)} A over."
                )
                do = f"Use one that may give {at_least(given.amps, 1)} A, or hang some loads elsewhere."
                yield facts.found(KIND, ("equipment", name, *given.key), sentence, do, over=given.amps - given.rating_a)


def _giving(name: str, given: SourceLoading) -> str:
    """Say what gives, with the verb."""
    if given.whole:
        return f"the outlets of {shown(name)} give"
    outlets = f"{shown(name)} {', '.join(given.ports)}".strip()
    return f"{outlets} together give" if len(given.ports) > 1 else f"{outlets} gives"
