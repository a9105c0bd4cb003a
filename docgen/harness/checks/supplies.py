"""Packs and what hangs on them: too many volts, supplies joined, one pack alone, endurance."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from docgen.basics.findings import Finding, listed, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.definition.model import Where
from docgen.harness.checks.volts import nothing_does
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.endurance import endurance_of
from docgen.harness.electrical.network import Network, Supply
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import Endurance
from docgen.harness.remedies.search import Remedies

_CLOSE = 1e-9


def find_overvolts(harness: Harness, electricity: Electricity, where: Where) -> list[Finding]:
    """Return a caution for each load that a full pack, or an output, gives more volts than it bears."""
    network = electricity.network
    full: dict[str, tuple[float, str]] = {}
    findings = []
    for name in sorted(network.equipment, key=network.rank.__getitem__):
        entry = network.equipment[name]
        if entry.battery is not None:
            full[name] = entry.battery.full_v, f"the full pack {shown(name)}"
            continue
        arriving = []
        for feed in network.into.get(name, ()):
            if feed.source not in full:
                continue
            volts, source = full[feed.source]
            output = network.outputs.get(network.outlet(feed))
            if output is not None and volts - output.headroom_v > output.volts_v:
                volts, source = output.volts_v, f"the output of {shown(feed.source)}"
            elif output is not None:
                volts -= output.headroom_v
            arriving.append((volts, source))
        if not arriving:
            continue
        full[name] = max(arriving, key=lambda item: item[0])
        volts, source = full[name]
        if entry.most_v is not None and volts > entry.most_v + _CLOSE:
            sentence = (
                f"{source} gives {shown(name)} {decimal(volts)} V, it bears {decimal(entry.most_v)} V: "
                f"{decimal(volts - entry.most_v, 2)} V too much."
            )
            least, most = at_least(volts, 2), at_most(entry.most_v, 3)
            do = f"Put a regulator of at most {most} V before it (`output:`), or one that bears {least} V."
            position = where.value("equipment", name, "volts", "most")
            findings.append(Finding(position, "overvolts", sentence, do, ("equipment", name)))
    order = {name: i for i, name in enumerate(harness.equipment)}
    return sorted(findings, key=lambda finding: order[finding.subject[1]])


def find_joined(harness: Harness, electricity: Electricity, where: Where) -> list[Finding]:
    """Return a caution where supplies meet that nothing keeps apart: common practice, no source."""
    network = electricity.network
    rails = _rails(network)
    findings = []
    for rail, own in rails.items():
        feeds = [feed for feed in network.into.get(rail[0], ()) if rail[1] == _PLAIN and len(own) > 1]
        meeting = set(own)
        for feed in network.left_out:
            arriving = _passed_on(rails, _rail(network, feed.source, feed.outlet))
            if _rail(network, feed.load, feed.load_port) == rail and not arriving <= own | _passed_on(rails, rail):
                feeds.append(feed)
                meeting |= arriving
        if len(meeting) > 1:
            name = rail[0]
            sentence = f"the positives of several supplies meet at {shown(name)}: {listed(sorted(meeting))}."
            leads = listed(dict.fromkeys(feed.circuit for feed in feeds))
            apart = "say `isolates: yes` if it is so" if len(own) > 1 else "accept it where that port is kept apart"
            do = f"Leave the positive out of one lead (`omit: [positive]`; {leads}), or {apart}."
            findings.append(Finding(where.key("equipment", name), "joined-supplies", sentence, do, ("equipment", name)))
    return [*findings, *_joined_at_loads(electricity, where), *_joined_commons(harness, electricity, where)]


_Rail = tuple[str, int]
"""What shares a positive: equipment, and the regulated group of its ports, or `_PLAIN` for all its other ports."""
_PLAIN = -1


def _rail(network: Network, name: str, port: str) -> _Rail:
    group = network.groups[name, port]
    return group if group in network.outputs else (name, _PLAIN)


def _rails(network: Network) -> dict[_Rail, frozenset[str]]:
    """Return the supplies that counted feeds bring to each rail; of packs, isolating and regulated ones their own."""
    rails = {group: frozenset({f"{group[0]}'s regulated outlets {group[1] + 1}"}) for group in network.outputs}
    for name in sorted(network.equipment, key=network.rank.__getitem__):
        entry, feeds = network.equipment[name], network.into.get(name, ())
        own = frozenset({name}) if entry.battery or (entry.isolates and feeds) else frozenset[str]()
        arriving = (_passed_on(rails, _rail(network, feed.source, feed.outlet)) for feed in feeds)
        rails[name, _PLAIN] = own if entry.isolates else own.union(*arriving)
    return rails


def _passed_on(rails: Mapping[_Rail, frozenset[str]], rail: _Rail) -> frozenset[str]:
    """Return what a rail brings to the next: where several meet, which is found there, one named after the place."""
    return rails[rail] if len(rails[rail]) == 1 else frozenset({rail[0]})


def _joined_at_loads(electricity: Electricity, where: Where) -> Iterator[Finding]:
    """Find loads whose current comes from one supply and returns to another."""
    network = electricity.network
    for feed in network.feeds:
        packs = frozenset(network.packs[feed.source])
        back = frozenset(network.packs[feed.back_to] if feed.back_to else ())
        if back and not packs & back:
            sentence = (
                f"the positive of {shown(feed.load)} comes from {listed(sorted(packs))}, its negative returns to "
            )
            sentence += f"{listed(sorted(back))}."
            do = "Bring the negative over a common of the same heavy pair."
            position = where.key("equipment", feed.load)
            yield Finding(position, "joined-supplies", sentence, do, ("equipment", feed.load))


def _joined_commons(harness: Harness, electricity: Electricity, where: Where) -> Iterator[Finding]:
    """Find negatives of several supplies on one common."""
    network = electricity.network
    for disconnect in harness.disconnects.values():
        for common in disconnect.commons.values():
            behind = [frozenset(network.packs[source]) for source in common.sources if network.packs.get(source)]
            if common.role != "negative" or not _apart(behind):
                continue
            every = listed(sorted(set().union(*behind)))
            sentence = f"the negative common {shown(common.name)} joins several supplies: {every}."
            position = where.value("disconnects", disconnect.name, "commons", common.name, "circuits")
            do = "Give each supply a common of its own."
            subject = ("commons", f"{disconnect.name} {common.name}")
            yield Finding(position, "joined-supplies", sentence, do, subject)


def _apart(groups: list[frozenset[str]]) -> bool:
    """Tell whether some of the groups share no pack with another."""
    return any(not one & other for i, one in enumerate(groups) for other in groups[i + 1 :])


def find_lone_packs(harness: Harness, electricity: Electricity, remedies: Remedies, where: Where) -> list[Finding]:
    """Return a caution for each of several packs that alone lets volts drop at peak, or can't finish one flight.

    Common practice, no source: each of two packs alone must fly the aircraft home.
    """
    findings: list[Finding] = []
    for supply in electricity.network.supplies:
        if len(supply.packs) > 1:
            endurance = endurance_of(harness.flight, electricity, supply)
            for pack in supply.packs:
                short = _short_with(harness, electricity, supply, pack)
                if short:
                    findings.append(_alone(harness, electricity, remedies, pack, short, where))
                findings += _finishes(endurance, pack, where)
    return findings


_Short = list[tuple[float, str]]
"""By how many volts equipment is short, the worst last."""


def _short_with(harness: Harness, electricity: Electricity, supply: Supply, pack: str) -> _Short:
    """Return what has too few volts at peak with one pack alone: of all that has several packs and does not stall."""
    flow = electricity.peak[pack]
    found = []
    for name in supply.members:
        entry = harness.equipment[name]
        stalls = entry.load is not None and entry.load.stall_a is not None
        if (
            entry.least_v is None
            or stalls
            or name not in electricity.carrying
            or len(electricity.network.packs[name]) < 2
        ):
            continue
        left = flow.volts(name)
        needed = entry.least_v + harness.limits.margin_v.value
        if left is not None and left < needed - _CLOSE:
            found.append((needed - left, name))
    return sorted(found, key=lambda item: item[0])


def _alone(
    harness: Harness, electricity: Electricity, remedies: Remedies, pack: str, short: _Short, where: Where
) -> Finding:
    short_v, name = short[-1]
    margin, left_v = harness.limits.margin_v, electricity.peak[pack].volts(name) or 0.0
    sentence = (
        f"{shown(pack)} alone leaves {left_v:.2f} V at {shown(name)} {harness.limits.peak_text}, "
        f"{decimal(short_v, 2)} V less than it needs with {decimal(margin.value)} V to spare ({margin.source})."
    )
    supply = electricity.network.supply_of[pack]
    # From all packs, as a pack's lead may be written in one entry with another's.
    path = dict.fromkeys(branch for _, other in reversed(short) for branch in electricity.network.path_to(other))
    remedy = remedies.find(
        list(path), lambda after: max((v for v, _ in _short_with(harness, after, supply, pack)), default=0)
    )
    left = f"{remedy.after.peak[pack].volts(name) or 0.0:.2f} V"
    do = (
        f"{remedy.sentence}: {left} would be left."
        if remedy.does
        else f"{nothing_does(f'{left_v:.2f} V', left)}: use a pack with less resistance or more volts, or fewer loads."
    )
    position = where.value("equipment", pack, "battery", "empty")
    return Finding(position, "one-pack", sentence, do, ("equipment", pack))


def _finishes(endurance: Endurance | None, pack: str, where: Where) -> Iterator[Finding]:
    if endurance is None or endurance.to_empty[pack] >= 1 - _CLOSE:
        return
    charge = at_least(endurance.flight_mah[pack], 0)
    sentence = f"{shown(pack)} alone can't finish a flight: one takes {charge} mAh."
    position = where.value("equipment", pack, "battery", "capacity")
    yield Finding(position, "one-pack", sentence, f"Use packs of {charge} mAh at least.", ("equipment", pack))


def find_short_endurance(harness: Harness, electricity: Electricity, where: Where) -> list[Finding]:
    """Return a caution for each pack whose supply does not last the flights that are wanted, with the reserve."""
    findings = []
    for supply in electricity.network.supplies:
        endurance = endurance_of(harness.flight, electricity, supply)
        if endurance is None or harness.flight is None or endurance.together is None:
            continue
        wanted = harness.flight.flights
        for pack in supply.packs:
            flights = endurance.together if endurance.add_up else endurance.alone[pack]
            if flights is None or flights >= wanted - _CLOSE:
                continue
            who = f"{shown(pack)} does" if not endurance.add_up else f"{shown(pack)} with {_others(supply, pack)} does"
            reserve = harness.flight.reserve
            sentence = (
                f"{who} {at_most(flights, 2)} flights on a charge with {decimal(100 * reserve)} % left; "
                f"{wanted} {'is' if wanted == 1 else 'are'} wanted."
            )
            takes = "Keep less in reserve, or fly"
            if reserve < 1:
                needed = at_least(endurance.flight_mah[pack] * wanted / (1 - reserve), 0)
                takes = f"That takes {needed} mAh in all; or fly"
            do = f"{takes} less on a charge (`flights:`, `time:`)."
            position = where.value("equipment", pack, "battery", "capacity")
            findings.append(Finding(position, "endurance", sentence, do, ("equipment", pack)))
    return findings


def _others(supply: Supply, pack: str) -> str:
    return listed(shown(other) for other in supply.packs if other != pack)
