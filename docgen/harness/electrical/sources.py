"""Take equipment and return what its pack and outlets give at peak, and which outlets are regulated together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from docgen.basics.frozen import frozen
from docgen.basics.units import added
from docgen.definition.equipment import Output
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.equipment import Equipment, PortUse

Path = tuple[str | int, ...]
"""Keys of a value below its entry."""


@frozen
class SourceLoading:
    """What a pack, or outlets, give at peak, and may give [A]; `key` says that.

    `ports` are the outlets that give it together, or it is the `whole` of them; neither for a pack.
    """

    amps: float
    rating_a: float
    key: Path
    ports: tuple[str, ...] = ()
    whole: bool = False


def source_loadings(electricity: Electricity, entry: Equipment) -> Iterator[SourceLoading]:
    """Walk the ratings of equipment: of its pack or fuse, of `output` for all outlets, and of each group of ports.

    What gives a current that is not known is left out.
    """
    name, battery, output = entry.name, entry.battery, entry.form.output
    known = name not in electricity.unknown.currents
    if battery is not None and battery.rating_a is not None and known:
        yield SourceLoading(electricity.peak[name].node_a(name), battery.rating_a, ("battery", "rating"))
    groups = {group: list(ports) for group, ports in groupby(entry.ports, key=lambda port: port.group)}
    amps = {group: electricity.group_peak_a((name, group)) for group in groups}
    through_a = added(amps.values())
    if entry.form.rating_a is not None and through_a is not None:
        yield SourceLoading(through_a, entry.form.rating_a, ("rating",))
    if output is not None and output.rating_a is not None:
        giving = [group for group, ports in groups.items() if any(port.output == output for port in ports)]
        total_a = added(amps[group] for group in giving)
        if total_a is not None:
            yield SourceLoading(total_a, output.rating_a, ("output", "rating"), whole=True)
    for group, ports in groups.items():
        names, last, group_a = tuple(port.name for port in ports), ports[-1], amps[group]
        if last.rating_a is not None and group_a is not None:
            yield SourceLoading(group_a, last.rating_a, ("ports", group, "rating"), names)
        own = last.output if last.output != output else None
        if own is not None and own.rating_a is not None and group_a is not None:
            yield SourceLoading(group_a, own.rating_a, ("ports", group, "output", "rating"), names)


def outputs_of(entry: Equipment) -> tuple[tuple[Output, tuple[PortUse, ...]], ...]:
    """Return the outputs of equipment with the outlets that give them: of each group of ports, or of the whole.

    Ports that supply comes to are none.
    """
    groups: dict[tuple[Output, int | None], list[PortUse]] = {}
    for port in entry.ports:
        if port.output is not None and not _is_fed(entry, port):
            groups.setdefault((port.output, None if port.output == entry.form.output else port.group), []).append(port)
    return tuple((output, tuple(ports)) for (output, _), ports in groups.items())


def _is_fed(entry: Equipment, port: PortUse) -> bool:
    """Tell whether supply comes to a port."""
    loads = port.circuit.loads if port.circuit is not None and port.circuit.poles else ()
    return any(end.is_port and (end.name, end.part) == (entry.name, port.name) for end in loads)
