"""What packs and outlets give: which outlets are regulated together, and what all give at peak."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.findings import shown
from docgen.definition.equipment import Output
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.equipment import Equipment, PortUse


@dataclass(frozen=True)
class SourceLoading:
    """What a pack or outlets give at peak [A], in words with the verb, and their rating with the key that says it."""

    what: str
    amps: float
    rating_a: float
    key: tuple[str | int, ...]


def source_loadings(electricity: Electricity, entry: Equipment) -> Iterator[SourceLoading]:
    """Walk the ratings of equipment: its pack's, that of all its outlets together, those of groups of ports."""
    name, battery, output = entry.name, entry.battery, entry.output
    if battery is not None and battery.rating_a is not None and name in electricity.peak:
        amps = electricity.peak[name].node_a(name)
        yield SourceLoading(f"{shown(name)} gives", amps, battery.rating_a, ("battery", "rating"))
    if output is not None and output.rating_a is not None:
        groups = dict.fromkeys((name, port.group) for port in entry.ports if port.output == output)
        amps = sum(electricity.group_peak_a(group) for group in groups)
        yield SourceLoading(f"the outlets of {shown(name)} give", amps, output.rating_a, ("output", "rating"))
    for port in {port.group: port for port in entry.ports}.values():
        amps = electricity.group_peak_a((name, port.group))
        ports = [other.name for other in entry.ports if other.group == port.group]
        outlets = f"{shown(name)} {', '.join(ports)}".strip() + (" together give" if len(ports) > 1 else " gives")
        path: tuple[str | int, ...] = ("ports", port.group)
        if port.rating_a is not None:
            yield SourceLoading(outlets, amps, port.rating_a, (*path, "rating"))
        if port.output is not None and port.output != output and port.output.rating_a is not None:
            yield SourceLoading(outlets, amps, port.output.rating_a, (*path, "output", "rating"))


def outputs_of(entry: Equipment) -> tuple[tuple[Output, tuple[PortUse, ...]], ...]:
    """Return the outputs of equipment with the outlets that give them: of each group of ports, or of the whole."""
    groups: dict[tuple[Output, int | None], list[PortUse]] = {}
    for port in entry.ports:
        if port.output is not None and not _is_fed(entry, port):
            groups.setdefault((port.output, None if port.output == entry.output else port.group), []).append(port)
    return tuple((output, tuple(ports)) for (output, _), ports in groups.items())


def _is_fed(entry: Equipment, port: PortUse) -> bool:
    """Tell whether supply comes to a port."""
    loads = port.circuit.loads if port.circuit is not None and port.circuit.carries_supply else ()
    return any(end.is_port and (end.name, end.part) == (entry.name, port.name) for end in loads)
