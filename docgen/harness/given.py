"""What packs and outlets give at peak, beside what they may give."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.basics.findings import shown
from docgen.harness.electricity import Electricity
from docgen.harness.model import Equipment


@dataclass(frozen=True)
class Given:
    """What a pack or outlets give at peak [A], in words with the verb, and their rating with the key that says it."""

    what: str
    amps: float
    rating_a: float
    key: tuple[str | int, ...]


def given_at_peak(electricity: Electricity, entry: Equipment) -> Iterator[Given]:
    """Walk the ratings of equipment: its pack's, that of all its outlets together, those of groups of ports."""
    name, battery, output = entry.name, entry.battery, entry.output
    if battery is not None and battery.rating_a is not None and name in electricity.peak:
        amps = electricity.peak[name].node_a(name)
        yield Given(f"{shown(name)} gives", amps, battery.rating_a, ("battery", "rating"))
    if output is not None and output.rating_a is not None:
        groups = dict.fromkeys((name, port.group) for port in entry.ports if port.output == output)
        amps = sum(electricity.group_peak_a(group) for group in groups)
        yield Given(f"the outlets of {shown(name)} give", amps, output.rating_a, ("output", "rating"))
    for port in {port.group: port for port in entry.ports}.values():
        amps = electricity.group_peak_a((name, port.group))
        ports = [other.name for other in entry.ports if other.group == port.group]
        outlets = f"{shown(name)} {', '.join(ports)}".strip() + (" together give" if len(ports) > 1 else " gives")
        path: tuple[str | int, ...] = ("ports", port.group)
        if port.rating_a is not None:
            yield Given(outlets, amps, port.rating_a, (*path, "rating"))
        if port.output is not None and port.output != output and port.output.rating_a is not None:
            yield Given(outlets, amps, port.output.rating_a, (*path, "output", "rating"))
