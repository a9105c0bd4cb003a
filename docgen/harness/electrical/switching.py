"""Take what feeds what and return the order in which things are switched: what feeds motors on last and off first."""

from __future__ import annotations

from docgen.harness.electrical.network import Network
from docgen.harness.model.harness import Harness
from docgen.harness.wiring.supply import sources_behind

MOTORS = ("speed controller", "motor", "engine unit")


def order_of_switching_on(harness: Harness, network: Network) -> tuple[str, ...]:
    """Return all equipment as written, but what feeds motors last; off is the reverse of it.

    What feeds a receiver too comes with the others: without it nothing steers.
    """
    behind = sources_behind(network.equipment, network.feeds)
    kinds = {name: entry.kind for name, entry in network.equipment.items()}
    of_motors = {source for name, kind in kinds.items() if kind in MOTORS for source in behind[name]}
    of_receivers = {source for name, kind in kinds.items() if kind == "receiver" for source in behind[name]}
    last = of_motors - of_receivers
    last |= {name for name, kind in kinds.items() if kind == "key" and switched_by(harness, name) & last}
    return tuple(sorted(kinds, key=last.__contains__))


def switched_by(harness: Harness, key: str) -> set[str]:
    """Return what a key switches: the equipment at the other ends of its circuits."""
    ends = [{circuit.start.name, *(end.name for end in circuit.loads)} for circuit in harness.circuits.values()]
    return set().union(*(names for names in ends if key in names)) - {key}
