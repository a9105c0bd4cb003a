"""Take loads and resistances; return the flow of each pack, with what others carry over the branches that it shares."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from docgen.harness.electrical.flow import Flow, best
from docgen.harness.electrical.network import Network, Supply
from docgen.harness.wiring.feeds import Branch


class Flows:
    """The flow of each pack for the same loads, worked out once, when it is asked for.

    Those that rest on no `changed` branch are as `before`.
    """

    def __init__(
        self,
        network: Network,
        loads: Mapping[str, float],
        ohms_of: Callable[[str], Mapping[Branch, float]],
        before: Flows | None,
        changed: Mapping[Branch, float],
    ) -> None:
        self._network = network
        self._loads = loads
        self._ohms_of = ohms_of
        self._before = before
        self._changed = changed
        self._alone: dict[str, Flow] = {}
        self._found: dict[str, Flow] = {}

    def __getitem__(self, pack: str) -> Flow:
        if pack not in self._found:
            if self._before is not None and self._changed.keys().isdisjoint(self._network.reach[pack]):
                self._found[pack] = self._before[pack]
            else:
                beside = self._beside(pack)
                self._found[pack] = self._flow(pack, beside) if beside else self._flow_alone(pack)
        return self._found[pack]

    def worst_a(self, branch: Branch) -> float:
        """Return the most that a branch carries: of one supply with its worst pack, of several together [A]."""
        supplies = self._network.supplies_over.get(branch, ())
        return sum(max([0.0, *(self[pack].branch_a(branch) for pack in supply.packs)]) for supply in supplies)

    def _flow(self, pack: str, beside: Mapping[Branch, float]) -> Flow:
        if self._before is not None:
            return self._before[pack].over(self._ohms_of(pack), beside)
        loads = {load: self._loads[load] for load in self._network.behind[pack] if load in self._loads}
        return Flow(self._network, self._ohms_of(pack), pack, loads, beside)

    def _flow_alone(self, pack: str) -> Flow:
        if pack not in self._alone:
            self._alone[pack] = self._flow(pack, {})
        return self._alone[pack]

    def _beside(self, pack: str) -> dict[Branch, float]:
        """Return what branches over which loads of a pack's supply draw carry of other supplies, if they do [A]."""
        own, beside = self._network.supply_of[pack], dict[Branch, float]()
        for branch, others in self._network.beside.get(pack, {}).items():
            carried = [amps for other in others if (amps := self._alone_a(other, branch)) is not None]
            if carried and self._alone_a(own, branch) is not None:
                beside[branch] = sum(carried)
        return beside

    def _alone_a(self, supply: Supply, branch: Branch) -> float | None:
        """Return the most that a branch carries of a supply with its worst pack; nothing where no load of it draws."""
        return best(self._flow_alone(pack).known_a(branch) for pack in supply.packs)
