"""Take what loads draw and what switching outlets do; return what passes each branch, equipment and group of ports."""

from __future__ import annotations

from collections.abc import Mapping

from docgen.harness.electrical.network import Group, Network, Weights, weights_of
from docgen.harness.wiring.feeds import Branch


class Currents:
    """Currents of loads, added up in the order written, each when it is first asked for.

    `ratios` are current in over current out of switching outlets; `weights` how much of each load's current passes
    where.
    """

    def __init__(self, network: Network, loads: Mapping[str, float], ratios: Mapping[Group, float]) -> None:
        self._network = network
        self._loads = loads
        self._branches: dict[Branch, float | None] = {}
        self.weights: Mapping[str, Weights] = network.weights
        if ratios:
            switched = {load for group in ratios for load in network.loads_from.get(group, ())}
            self.weights = {
                load: weights_of(network, load, ratios) if load in switched else network.weights[load] for load in loads
            }

    def branch_a(self, branch: Branch) -> float | None:
        """Return the current in a branch [A], nothing where that of no load passes it."""
        if branch not in self._branches:
            loads, weights = self._loads, self.weights
            over = [name for name in self._network.loads_over.get(branch, ()) if name in loads]
            amps = [weights[name].branches[branch] * loads[name] for name in over]
            self._branches[branch] = sum(amps) if amps else None
        return self._branches[branch]

    def node_a(self, name: str) -> float:
        """Return what goes into equipment, or what a pack gives [A]."""
        return sum([self.weights[load].nodes.get(name, 0.0) * amps for load, amps in self._loads.items()], 0.0)

    def group_a(self, group: Group) -> float:
        """Return what a group of ports gives [A]."""
        over = (load for load in self._network.loads_from.get(group, ()) if load in self._loads)
        return sum((self.weights[load].groups[group] * self._loads[load] for load in over), 0.0)
