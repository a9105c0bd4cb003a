"""Take a network and the resistances that are known; return what can't be said of it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field

from docgen.harness.electrical.network import Network
from docgen.harness.wiring.feeds import Branch


@dataclass
class Unknown:
    """What rests on a length that is not known: equipment by its volts and by its current, branches by their current.

    Currents do only above switching outlets: what those take depends on the volts that arrive.
    """

    volts: set[str] = field(default_factory=set)
    currents: set[str] = field(default_factory=set)
    branches: set[Branch] = field(default_factory=set)


def unknown_of(network: Network, known: Collection[Branch]) -> Unknown:
    """Return what can't be said where branches have no known resistance."""
    found = Unknown()
    if all(branch in known for feed in network.feeds for branch in (*feed.out, *feed.back)):
        return found
    before = None
    while before != (before := (len(found.volts), len(found.currents))):
        for name in network.rank:
            _find_volts(network, known, found, name)
        for feed in sorted(network.feeds, key=lambda feed: -network.rank[feed.source]):
            output = network.outputs.get(network.outlet(feed))
            switches = output is not None and output.efficiency is not None
            if feed.load in found.currents or (switches and feed.source in found.volts):
                found.currents.add(feed.source)
        for feed in network.feeds:
            found.branches.update((*feed.out, *feed.back) if feed.load in found.currents else ())
    return found


def _find_volts(network: Network, known: Collection[Branch], found: Unknown, name: str) -> None:
    """Find out whether the volts of equipment can't be said: of a pack that drops some itself, or of what is fed."""
    battery = network.equipment[name].battery
    unsaid = battery is not None and battery.resistance_ohm is not None and name in found.currents
    for feed in network.into.get(name, ()) if battery is None else ():
        branches = (*feed.out, *feed.back)
        over_unknown = any(branch not in known or branch in found.branches for branch in branches)
        unsaid = unsaid or over_unknown or feed.source in found.volts
    if unsaid:
        found.volts.add(name)
