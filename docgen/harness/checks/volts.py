"""Volts left at every load, and each circuit's own drop."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.basics.findings import Finding, shown
from docgen.basics.units import decimal
from docgen.definition.model import Where
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.harness import Harness
from docgen.harness.remedies.search import Remedies
from docgen.harness.wiring.feeds import Feed

_CASES = {"working": "with everything working", "stall": "with it stalled"}
_CLOSE = 1e-9


def find_low_volts(harness: Harness, electricity: Electricity, remedies: Remedies, where: Where) -> list[Finding]:
    """Return a caution for each load with fewer volts than it needs and the margin, in its worst case.

    The margin is common practice, no source.
    """
    findings = []
    for name, entry in harness.equipment.items():
        cases = electricity.cases(name)
        if entry.least_v is None or not cases:
            findings += _without_supply(harness, electricity, where, name)
            continue
        needed = entry.least_v + harness.limits.margin_v.value
        case, left = min(cases.items(), key=lambda item: item[1])
        if left < needed - _CLOSE:
            margin, when = harness.limits.margin_v, _CASES.get(case, harness.limits.peak_text)
            sentence = (
                f"{left:.2f} V are left at {shown(name)} {when}; it needs {decimal(entry.least_v)} V and "
                f"{decimal(margin.value)} V to spare ({margin.source}): {decimal(needed - left, 2)} V short."
            )
            do = _remedy_volts(electricity, remedies, name, needed)
            position = where.value("equipment", name, "volts", "least")
            findings.append(Finding(position, "volts", sentence, do, ("equipment", name)))
    return findings


def _without_supply(harness: Harness, electricity: Electricity, where: Where, name: str) -> list[Finding]:
    """Find a load that circuits reach and none brings supply."""
    entry = harness.equipment[name]
    draws = entry.load is not None and max(entry.load.working_a or 0.0, entry.load.stall_a or 0.0) > 0
    reached = any(port.circuit is not None for port in entry.ports)
    if not draws or not reached or entry.least_v is None or entry.battery or electricity.network.into.get(name):
        return []
    sentence = f"no circuit brings {shown(name)} supply; it needs {decimal(entry.least_v)} V."
    do = "Give a circuit to it a lead with a positive, or let the positive come from a common."
    position = where.value("equipment", name, "volts", "least")
    return [Finding(position, "volts", sentence, do, ("equipment", name))]


def _remedy_volts(electricity: Electricity, remedies: Remedies, name: str, needed: float) -> str:
    def left(after: Electricity) -> float:
        return min(after.cases(name).values())

    remedy = remedies.find(electricity.network.path_to(name), lambda after: needed - left(after) - _CLOSE)
    then = f"{left(remedy.after):.2f} V"
    if not remedy.does:
        instead = "shorten its route, let it hang elsewhere, or give it more volts"
        return f"{nothing_does(f'{left(electricity):.2f} V', then)}: {instead}."
    return f"{remedy.sentence}: {then} would be left."


def nothing_does(now: str, then: str) -> str:
    """Say that no remedy was found, and what comes nearest where that is better than it is now."""
    said = "Neither thicker leads nor more contacts would do"
    return said if then == now else f"{said} ({then} at best)"


def find_drops(harness: Harness, electricity: Electricity, remedies: Remedies, where: Where) -> list[Finding]:
    """Return a note for each circuit whose own drop is over its share, working or stalled.

    Working: the continuous row of FAA AC 43.13-1B table 11-6; stalled: common practice, no source.
    """
    findings = []
    for name, some in electricity.network.feeds_of.items():
        worst = max((_over(harness, electricity, feed), i) for i, feed in enumerate(some))
        (excess, case), index = worst
        if excess <= _CLOSE:
            continue
        feed = some[index]
        limit = harness.limits.drop_working if case == "working" else harness.limits.drop_stalled
        volts, share = _drop(electricity, feed, case)
        sentence = (
            f"{shown(name)} itself drops {volts:.2f} V {_CASES[case]}, {100 * share:.2f} % of "
            f"{decimal(electricity.nominal_v(feed))} V; {decimal(100 * limit.value, 3)} % is the limit "
            f"({limit.source})."
        )
        worst_first = sorted(some, key=lambda other: other != feed)
        do = _remedy_drop(harness, remedies, worst_first, case)
        cut = harness.circuits[name].cut_leads
        position = where.value("circuits", name, "lead", cut[-1].segment) if cut else where.key("circuits", name)
        findings.append(Finding(position, "drop", sentence, do, ("circuits", name)))
    return findings


def _drop(electricity: Electricity, feed: Feed, case: str) -> tuple[float, float]:
    volts = electricity.drops(feed)[0 if case == "working" else 1]
    return volts, volts / electricity.nominal_v(feed)


def _over(harness: Harness, electricity: Electricity, feed: Feed) -> tuple[float, str]:
    """Return by how much of its limit a feed's drop is over it, in the worse of both cases."""
    limits = harness.limits
    working = _drop(electricity, feed, "working")[1] / max(limits.drop_working.value, _CLOSE) - 1
    stalled = _drop(electricity, feed, "stall")[1] / max(limits.drop_stalled.value, _CLOSE) - 1
    return max((stalled, "stall"), (working, "working"))


def _remedy_drop(harness: Harness, remedies: Remedies, feeds: Sequence[Feed], case: str) -> str:
    """Say what would do for all loads of a circuit, the worst first."""
    remedy = remedies.find(
        list(dict.fromkeys(branch for feed in feeds for branch in (*feed.out, *feed.back))),
        lambda after: max(_over(harness, after, feed)[0] for feed in feeds) - _CLOSE,
    )

    def share(electricity: Electricity) -> str:
        return f"{100 * max(_drop(electricity, feed, case)[1] for feed in feeds):.2f} %"

    then = share(remedy.after)
    if not remedy.does:
        return (
            f"{nothing_does(share(remedies.choices.electricity), then)}: shorten its route, or let it hang elsewhere."
        )
    return f"{remedy.sentence}: {then} then."
