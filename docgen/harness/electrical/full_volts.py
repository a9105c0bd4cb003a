"""What feeds what in, the volts of full packs and outputs out: at equipment, and at the contacts of joints."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from docgen.harness.electrical.network import Network
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.joints import Disconnect
from docgen.harness.wiring.feeds import Branch, CommonBranch, Feed


class Given(NamedTuple):
    """The volts of a full pack or of a regulated outlet, less what regulators on the way keep."""

    volts: float
    source: str
    regulated: bool = False


def arriving_full(network: Network) -> dict[str, Given]:
    """Return the most volts that full packs and outputs bring to equipment, and what gives them."""
    full: dict[str, Given] = {}
    for name in network.rank:
        entry = network.equipment[name]
        if entry.battery is not None:
            full[name] = Given(entry.battery.full_v, name)
            continue
        brought = [_over(network, feed, full) for feed in network.into.get(name, ()) if feed.source in full]
        if brought:
            full[name] = max(brought, key=lambda given: given.volts)
    return full


def _over(network: Network, feed: Feed, full: Mapping[str, Given]) -> Given:
    """Return what a feed brings from its source."""
    given = full[feed.source]
    output = network.outputs.get(network.outlet(feed))
    if output is None:
        return given
    if given.volts - output.headroom_v > output.volts_v:
        return Given(output.volts_v, feed.source, regulated=True)
    return given._replace(volts=given.volts - output.headroom_v)


def full_at_contacts(
    network: Network, circuits: Mapping[str, Circuit], disconnects: Mapping[str, Disconnect]
) -> dict[tuple[str, str], float]:
    """Return the most volts of full packs at the contacts of disconnects over which supply goes out."""
    full = arriving_full(network)
    found: dict[tuple[str, str], float] = {}
    for feed in (feed for feed in network.feeds if feed.source in full):
        volts = _over(network, feed, full).volts
        for at in (at for branch in feed.out for at in _contacts(branch, circuits, disconnects)):
            found[at] = max(volts, found.get(at, 0.0))
    return found


def _contacts(
    branch: Branch, circuits: Mapping[str, Circuit], disconnects: Mapping[str, Disconnect]
) -> list[tuple[str, str]]:
    if isinstance(branch, CommonBranch):
        common = disconnects[branch.disconnect].commons[branch.common]
        return [(branch.disconnect, contact) for contact in common.contacts]
    ends = circuits[branch.circuit].leads[branch.segment].ends
    halves = [end for end in ends if end.kind == "half"]
    return [(end.name, contact) for end in halves for contact in end.contacts.get(branch.role, ())]
