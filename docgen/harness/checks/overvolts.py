"""Whether a load bears a full pack or an output."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.harness.checks.facts import CLOSE, Facts, caution
from docgen.harness.electrical.full_volts import arriving_full

KIND = caution(
    name="overvolts",
    stands_on="equipment",
    meaning="A full pack or an output is above what the load bears.",
    when="Packs at `full:`, a pack or a regulated outlet gives more than the load's `volts: most`.",
    why="A servo marked for 6 V dies on a full two-cell lithium pack, which has 8.4 V.",
    remedy="Feed it from a regulated outlet, `output: {volts: 6 V, headroom: 0.5 V}`; fit equipment that bears the "
    "pack, `volts: {least: 4.8 V, most: 8.4 V}`, if its maker says so; or use fewer `cells: 2`.",
    source="Common practice, no source. What a load bears is its maker's figure.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each load that a full pack, or an output, gives more volts than it bears."""
    arriving = arriving_full(facts.electricity.network)
    for name, entry in facts.harness.equipment.items():
        if entry.battery is not None or entry.most_v is None or name not in arriving:
            continue
        volts, source, regulated = arriving[name]
        if volts > entry.most_v + CLOSE:
            gives = f"the {'output of' if regulated else 'full pack'} {shown(source)} gives"
            sentence = (
                f"{gives} {shown(name)} {decimal(volts)} V, it bears {decimal(entry.most_v)} V: "
                f"{decimal(volts - entry.most_v, 2)} V too much."
            )
            least, most = at_least(volts, 2), at_most(entry.most_v, 3)
            do = f"Put a regulator of at most {most} V before it (`output:`), or one that bears {least} V."
            yield facts.found(KIND, ("equipment", name, "volts", "most"), sentence, do)
