"""Whether each of several packs can fly the aircraft alone."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.basics.units import at_least, decimal
from docgen.harness.checks.facts import CLOSE, Facts, caution
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.endurance import endurance_of
from docgen.harness.electrical.network import Supply
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import Endurance

KIND = caution(
    name="one-pack",
    stands_on="equipment",
    meaning="One of several packs can't fly the aircraft alone.",
    when="One of several packs alone, at `empty:`, leaves less than `volts: least` plus 0.3 V at peak, judged at "
    "all that has no stall (`limits: margin`, `limits: together`); or its `capacity:` is under the charge of one "
    "`flight: time`, no reserve kept.",
    why="The second pack is there to bring the aircraft home when the first fails, and that is in the air. A "
    "pack that only helps is false comfort.",
    remedy="Take larger packs, `capacity: 3300 mAh`, with less `resistance:`; heavier wire from pack to unit, "
    "`lead: power-16`; or fly shorter, `flight: {time: 7 min, reserve: 30 %}`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each of several packs that alone lets volts drop at peak, or can't finish one flight."""
    for supply in facts.electricity.network.supplies:
        if len(supply.packs) > 1:
            endurance = endurance_of(facts.harness.flight, facts.electricity, supply)
            for pack in supply.packs:
                short = _short_with(facts.harness, facts.electricity, supply, pack)
                if short:
                    yield _alone(facts, pack, short)
                yield from _finishes(facts, endurance, pack)


_Short = list[tuple[float, str]]
"""By how many volts equipment is short, the worst last."""


def _short_with(harness: Harness, electricity: Electricity, supply: Supply, pack: str) -> _Short:
    """Return what has too few volts at peak with one pack alone: of all that has several packs and does not stall."""
    flow = electricity.peak[pack]
    found = []
    for name in supply.members:
        entry = harness.equipment[name]
        stalls = entry.load is not None and entry.load.stall_a is not None
        several = name in electricity.measured and len(electricity.network.packs[name]) > 1
        if entry.least_v is None or stalls or not several:
            continue
        left = flow.volts(name)
        needed = entry.least_v + harness.limits.margin_v.value
        if left is not None and left < needed - CLOSE:
            found.append((needed - left, name))
    return sorted(found, key=lambda item: item[0])


def _alone(facts: Facts, pack: str, short: _Short) -> Finding:
    short_v, name = short[-1]
    margin, left_v = facts.harness.limits.margin_v, facts.electricity.peak[pack].volts(name) or 0.0
    sentence = (
        f"{shown(pack)} alone leaves {left_v:.2f} V at {shown(name)} {facts.harness.limits.case_text('peak')}, "
        f"{decimal(short_v, 2)} V less than it needs with {decimal(margin.value)} V to spare ({margin.source})."
    )
    supply = facts.electricity.network.supply_of[pack]
    # From all packs, as a pack's lead may be written in one entry with another's.
    path = dict.fromkeys(branch for _, other in reversed(short) for branch in facts.electricity.network.path_to(other))
    remedy = facts.remedies.find(
        list(path), lambda after: max((v for v, _ in _short_with(facts.harness, after, supply, pack)), default=0)
    )
    left = f"{remedy.after.peak[pack].volts(name) or 0.0:.2f} V"
    instead = "use a pack with less resistance or more volts, or fewer loads"
    do = remedy.said(f"{left_v:.2f} V", left, "would be left", instead)
    return facts.found(KIND, ("equipment", pack, "battery", "empty"), sentence, do, remedy.value, short_v)


def _finishes(facts: Facts, endurance: Endurance | None, pack: str) -> Iterator[Finding]:
    if endurance is None or endurance.to_empty[pack] >= 1 - CLOSE:
        return
    charge = at_least(endurance.flight_mah[pack], 0)
    sentence = f"{shown(pack)} alone can't finish a flight: one takes {charge} mAh."
    do = f"Use packs of {charge} mAh at least."
    yield facts.found(KIND, ("equipment", pack, "battery", "capacity"), sentence, do, over=endurance.flight_mah[pack])
