"""Whether a load bears a full pack or an output."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, Kind, Level, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.harness.checks.facts import Facts
from docgen.harness.electrical.network import Network

KIND = Kind(
    name="overvolts",
    level=Level.CAUTION,
    stands_on="equipment",
    meaning="A full pack or an output is above what the load bears.",
    when="Packs at `full:`, a pack or a regulated outlet gives more than the load's `volts: most`.",
    why="A servo marked for 6 V dies on a full two-cell lithium pack, which has 8.4 V.",
    remedy="Feed it from a regulated outlet, `output: {volts: 6 V, headroom: 0.5 V}`; fit equipment that bears the "
    "pack, `volts: {least: 4.8 V, most: 8.4 V}`, if its maker says so; or use fewer `cells: 2`.",
    source="Common practice, no source. What a load bears is its maker's figure.",
)

_CLOSE = 1e-9


def find(facts: Facts) -> Iterator[Finding]:
    """Find each load that a full pack, or an output, gives more volts than it bears."""
    arriving = _arriving(facts.electricity.network)
    for name, entry in facts.harness.equipment.items():
        if entry.battery is not None or entry.most_v is None or name not in arriving:
            continue
        volts, source = arriving[name]
        if volts > entry.most_v + _CLOSE:
            sentence = (
                f"{source} gives {shown(name)} {decimal(volts)} V, it bears {decimal(entry.most_v)} V: "
                f"{decimal(volts - entry.most_v, 2)} V too much."
            )
            least, most = at_least(volts, 2), at_most(entry.most_v, 3)
            do = f"Put a regulator of at most {most} V before it (`output:`), or one that bears {least} V."
            position = facts.where.value("equipment", name, "volts", "most")
            yield KIND.at(position, sentence, do, ("equipment", name))


def _arriving(network: Network) -> dict[str, tuple[float, str]]:
    """Return the most volts that full packs and outputs bring to equipment, and what gives them."""
    full: dict[str, tuple[float, str]] = {}
    for name in sorted(network.equipment, key=network.rank.__getitem__):
        entry = network.equipment[name]
        if entry.battery is not None:
            full[name] = entry.battery.full_v, f"the full pack {shown(name)}"
            continue
        brought = []
        for feed in network.into.get(name, ()):
            if feed.source not in full:
                continue
            volts, source = full[feed.source]
            output = network.outputs.get(network.outlet(feed))
            if output is not None and volts - output.headroom_v > output.volts_v:
                volts, source = output.volts_v, f"the output of {shown(feed.source)}"
            elif output is not None:
                volts -= output.headroom_v
            brought.append((volts, source))
        if brought:
            full[name] = max(brought, key=lambda item: item[0])
    return full
