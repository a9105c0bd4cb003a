"""What a circuit itself drops."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.basics.findings import Finding, RemedyValue, shown
from docgen.basics.units import decimal
from docgen.harness.checks.facts import CLOSE, Facts, note
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.harness import Harness
from docgen.harness.remedies.own_lead import own_lead_alone
from docgen.harness.wiring.feeds import Feed

KIND = note(
    name="drop",
    stands_on="circuit",
    meaning="The circuit's own drop is over its ratio.",
    when="The circuit's own drop, from the outlet that it hangs on to the load and back, is over a share of the "
    "volts of the nearest regulated outlet upstream, else of the pack's `empty:`. Shares: 1/28 (3.57 %) working, "
    "10 % stalled. `limits: drop_working` and `limits: drop_stalled` change them.",
    why="A servo on a long thin lead is weakest when it is worked hardest. Its drop when stalled matters less "
    "there than at the receiver, which restarts: of that the caution `volts` tells.",
    remedy="Take heavier wire, `lead: servo-22`, a second contact, or shorten the lead that it came on, "
    "`lead: 150 mm`. Or live with it: `accept: {drop: it hardly moves in flight}`.",
    source="FAA AC 43.13-1B, table 11-6, continuous: 1 V of 28 V. 10 % stalled: common practice, no source.",
)

_NOTHING = 0.0, 0.0  # of a drop that is not known, which is only asked for where all are


def find(facts: Facts) -> Iterator[Finding]:
    """Find each circuit whose own drop is over its share, working or stalled; it stands at the last lead."""
    harness, electricity = facts.harness, facts.electricity
    for name, some in electricity.network.feeds_of.items():
        drops = [both for feed in some if (both := electricity.drops(feed)) is not None]
        if len(drops) < len(some):
            continue
        over = [_over(harness, electricity, feed, both) for feed, both in zip(some, drops, strict=True)]
        (excess, case), index = max((each, i) for i, each in enumerate(over))
        if excess <= CLOSE:
            continue
        feed = some[index]
        limit = harness.limits.drop_working if case == "working" else harness.limits.drop_stalled
        volts, share = _drop(electricity, feed, case)
        sentence = (
            f"{shown(name)} itself drops {volts:.2f} V {harness.limits.case_text(case)}, {100 * share:.2f} % of "
            f"{decimal(electricity.nominal_v(feed))} V; {decimal(100 * limit.value, 3)} % is the limit "
            f"({limit.source})."
        )
        worst_first = sorted(some, key=lambda other: other != feed)
        do, remedy = _do(facts, worst_first, case)
        cut, where = harness.circuits[name].cut_leads, facts.where
        position = where.value("circuits", name, "lead", cut[-1].segment) if cut else where.key("circuits", name)
        do += own_lead_alone(harness, harness.circuits[name])
        yield KIND.at(position, sentence, do, ("circuits", name), remedy, excess)


def _drop(electricity: Electricity, feed: Feed, case: str) -> tuple[float, float]:
    working_v, stalled_v = electricity.drops(feed) or _NOTHING
    volts = working_v if case == "working" else stalled_v
    return volts, volts / electricity.nominal_v(feed)


def _over(harness: Harness, electricity: Electricity, feed: Feed, drops: tuple[float, float]) -> tuple[float, str]:
    """Return by how much of its limit a feed's drop is over it, in the worse of both cases."""
    (working_v, stalled_v), limits, nominal_v = drops, harness.limits, electricity.nominal_v(feed)
    working = working_v / nominal_v / max(limits.drop_working.value, CLOSE) - 1
    stalled = stalled_v / nominal_v / max(limits.drop_stalled.value, CLOSE) - 1
    return max((stalled, "stall"), (working, "working"))


def _do(facts: Facts, feeds: Sequence[Feed], case: str) -> tuple[str, RemedyValue | None]:
    """Say what would do for all loads of a circuit, the worst first."""
    remedy = facts.remedies.find(
        list(dict.fromkeys(branch for feed in feeds for branch in (*feed.out, *feed.back))),
        lambda after: (
            max(_over(facts.harness, after, feed, after.drops(feed) or _NOTHING)[0] for feed in feeds) - CLOSE
        ),
    )

    def share(electricity: Electricity) -> str:
        return f"{100 * max(_drop(electricity, feed, case)[1] for feed in feeds):.2f} %"

    instead = "shorten its route, or let it hang elsewhere"
    return remedy.said(share(facts.electricity), share(remedy.after), "then", instead), remedy.value
