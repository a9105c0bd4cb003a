"""Where several supplies meet that nothing keeps apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.electrical.network import Network

KIND = caution(
    name="joined-supplies",
    stands_on="equipment or common",
    meaning="Several supplies are joined that nothing keeps apart.",
    when="Circuits of several supplies share a negative common, or positives of several supplies meet at "
    "equipment that does not keep them apart. `isolates: yes` keeps the ports that feed it apart (`fed_by:`, else "
    "all), no others: a positive that another supply brings to a port that `fed_by:` leaves out is found too.",
    why="Two packs joined by plain wire charge each other with all the current that the wire lets through, and "
    "lithium packs catch fire. On a shared negative one supply's fault reaches the other.",
    remedy="Leave the positive out of one lead, `omit: [positive]`; give each supply a common of its own. Write "
    "`isolates: yes` only where the maker says so. Packs are charged apart, as their maker says.",
    source=PRACTICE,
)

_Rail = tuple[str, int]
"""What shares a positive: equipment, and the regulated group of its ports, or `_PLAIN` for all its other ports."""
_PLAIN = -1


def find(facts: Facts) -> Iterator[Finding]:
    """Find where supplies meet that nothing keeps apart: common practice, no source.

    `fed_by` says what feeds, not that other ports are kept apart: a positive that arrives at one of those is held
    against what that port gives. `isolates` keeps the feeds apart, no outlet from what is plugged into it. Where a
    port outside `fed_by` has no positive inside, the builder leaves it out or accepts the finding.
    """
    yield from _joined_at_equipment(facts)
    yield from _joined_at_loads(facts)
    yield from _joined_commons(facts)


def _joined_at_equipment(facts: Facts) -> Iterator[Finding]:
    """Find equipment at which positives of several supplies meet."""
    network = facts.electricity.network
    rails = _rails(network)
    for rail, own in rails.items():
        feeds = [feed for feed in network.into.get(rail[0], ()) if rail[1] == _PLAIN and len(own) > 1]
        meeting = set(own)
        for feed in network.left_out:
            arriving = _passed_on(rails, _rail(network, feed.source, feed.outlet))
            if _rail(network, feed.load, feed.load_port) == rail and not arriving <= own | _passed_on(rails, rail):
                feeds.append(feed)
                meeting |= arriving
        if len(meeting) > 1:
            name, supplies = rail[0], listed(map(_said, sorted(meeting)))
            sentence = f"the positives of several supplies meet at {shown(name)}: {supplies}."
            leads = listed(dict.fromkeys(feed.circuit for feed in feeds))
            apart = "say `isolates: yes` if it is so" if len(own) > 1 else "accept it where that port is kept apart"
            do = f"Leave the positive out of one lead (`omit: [positive]`; {leads}), or {apart}."
            yield KIND.at(facts.where.key("equipment", name), sentence, do, ("equipment", name))


def _rail(network: Network, name: str, port: str) -> _Rail:
    group = network.groups[name, port]
    return group if group in network.outputs else (name, _PLAIN)


def _rails(network: Network) -> dict[_Rail, frozenset[_Rail]]:
    """Return the rails from which counted feeds bring supply to each; of packs, isolating and regulated ones itself."""
    rails = {group: frozenset({group}) for group in network.outputs}
    for name in network.rank:
        entry, feeds = network.equipment[name], network.into.get(name, ())
        itself = entry.battery is not None or (entry.form.isolates and feeds)
        own = frozenset({(name, _PLAIN)} if itself else set[_Rail]())
        arriving = (_passed_on(rails, _rail(network, feed.source, feed.outlet)) for feed in feeds)
        rails[name, _PLAIN] = own if entry.form.isolates else own.union(*arriving)
    return rails


def _passed_on(rails: Mapping[_Rail, frozenset[_Rail]], rail: _Rail) -> frozenset[_Rail]:
    """Return what a rail brings to the next: where several meet, which is found there, one named after the place."""
    return rails[rail] if len(rails[rail]) == 1 else frozenset({(rail[0], _PLAIN)})


def _said(rail: _Rail) -> str:
    return rail[0] if rail[1] == _PLAIN else f"{rail[0]}'s regulated outlets {rail[1] + 1}"


def _joined_at_loads(facts: Facts) -> Iterator[Finding]:
    """Find loads whose current comes from one supply and returns to another."""
    network = facts.electricity.network
    for feed in network.feeds:
        packs = frozenset(network.packs[feed.source])
        back = frozenset(network.packs[feed.back_to] if feed.back_to else ())
        if back and not packs & back:
            sentence = (
                f"the positive of {shown(feed.load)} comes from {listed(sorted(packs))}, its negative returns to "
                f"{listed(sorted(back))}."
            )
            do = "Bring the negative over a common of the same heavy pair."
            yield KIND.at(facts.where.key("equipment", feed.load), sentence, do, ("equipment", feed.load))


def _joined_commons(facts: Facts) -> Iterator[Finding]:
    """Find negatives of several supplies on one common."""
    network = facts.electricity.network
    for disconnect in facts.harness.disconnects.values():
        for common in disconnect.commons.values():
            behind = [frozenset(network.packs[source]) for source in common.sources if network.packs.get(source)]
            if common.role != "negative" or not _apart(behind):
                continue
            every = listed(sorted(set().union(*behind)))
            sentence = f"the negative common {shown(common.name)} joins several supplies: {every}."
            path = "disconnects", disconnect.name, "commons", common.name, "circuits"
            yield facts.found(KIND, path, sentence, "Give each supply a common of its own.")


def _apart(groups: list[frozenset[str]]) -> bool:
    """Tell whether some of the groups share no pack with another."""
    return any(not one & other for i, one in enumerate(groups) for other in groups[i + 1 :])
