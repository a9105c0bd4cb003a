"""What feeds what in, the volts of full packs and outputs out: at equipment, and at the contacts of joints."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from docgen.definition.equipment import Battery
from docgen.harness.electrical.network import Network
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.joints import Disconnect
from docgen.harness.model.results import Rest
from docgen.harness.wiring.feeds import Branch, CommonBranch, Feed


class Given(NamedTuple):
    """The volts of a full pack or of a regulated outlet, less what regulators on the way keep."""

    volts: float
    source: str
    regulated: bool = False


def arriving_full(network: Network) -> dict[str, Given]:
    """Return the most volts that full packs and outputs bring to equipment, and what gives them."""
    return _arriving(network, lambda pack: pack.full_v)


def _arriving(network: Network, volts_of: Callable[[Battery], float]) -> dict[str, Given]:
    """Return the most volts that packs, each at so many, and outputs bring to equipment while nothing draws."""
    found: dict[str, Given] = {}
    for name in network.rank:
        entry = network.equipment[name]
        if entry.battery is not None:
            found[name] = Given(volts_of(entry.battery), name)
            continue
        brought = [_over(network, feed, found) for feed in network.into.get(name, ()) if feed.source in found]
        if brought:
            found[name] = max(brought, key=lambda given: given.volts)
    return found


def _over(network: Network, feed: Feed, arriving: Mapping[str, Given]) -> Given:
    """Return what a feed brings from its source."""
    return _at(network, feed.source, feed.outlet, arriving[feed.source])


def _at(network: Network, name: str, outlet: str, given: Given) -> Given:
    """Return what an outlet of equipment gives of what arrives there."""
    output = network.outputs.get(network.groups[name, outlet])
    if output is None:
        return given
    if given.volts - output.headroom_v > output.volts_v:
        return Given(output.volts_v, name, regulated=True)
    return given._replace(volts=given.volts - output.headroom_v)


def bench_v(pack: Battery) -> float:
    """Return what a bench supply is set to in place of a pack [V]: midway between empty and full, to a tenth."""
    return round((pack.empty_v + pack.full_v) / 2, 1)


def at_rest(network: Network, circuits: Mapping[str, Circuit]) -> dict[str, Rest]:
    """Return what a meter reads at the end of each circuit that brings supply, while nothing draws."""
    cases = [_arriving(network, of) for of in (lambda pack: pack.empty_v, bench_v, lambda pack: pack.full_v)]
    outlets = {
        name: (circuit.start.name, circuit.start.part)
        for name, circuit in circuits.items()
        if circuit.poles and circuit.start.is_port
    }
    outlets |= {feed.circuit: (feed.source, feed.outlet) for feed in (*network.left_out, *network.feeds)}
    return {
        circuit: Rest(*(_at(network, name, outlet, case[name]).volts for case in cases))
        for circuit, (name, outlet) in outlets.items()
        if name in cases[0]
    }


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
