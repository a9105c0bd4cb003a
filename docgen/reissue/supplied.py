"""Take a state of an aircraft; return which packs and regulated outlets, of what volts, supply its circuits."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

from docgen.basics.frozen import frozen
from docgen.definition.issued import IssuedCircuit, IssuedEnd, IssuedLead, IssuedSettings, State
from docgen.harness.electrical.switching import MOTORS
from docgen.reissue.behind import first_lead


class Source(NamedTuple):
    """The cells and volts of a full pack, or the volts of a regulated outlet [V]."""

    cells: int | None
    volts_v: float | None


@frozen
class Supplied:
    """What gives supply in a state; what is planned or left in brings none."""

    state: State

    def of(self, name: str) -> frozenset[Source]:
        """Return what a circuit gets its supply from, nothing where that is no steady one or not known."""
        found: set[Source] = set()
        seen: set[str] = set()
        left = [name]
        while left:
            name = left.pop()
            lead = _fed_lead(self.state.circuits[name]) if name not in seen else None
            seen.add(name)
            if lead is not None and lead.ends[0].kind == "half":
                left += self._into_common(lead, 0)
            elif lead is not None:
                source = self._at(lead.ends[0])
                found |= {source} if source is not None else set()
                left += self._into(lead.ends[0].name) if source is None else ()
        return frozenset(found)

    def _at(self, end: IssuedEnd) -> Source | None:
        """Return what a port gives of its own; nothing where it passes on what arrives."""
        settings = self._settings(end.name)
        if end.part in settings.output_v:
            return Source(None, settings.output_v[end.part])
        is_pack = self._kind(end.name) == "battery"
        return Source(settings.cells, settings.full_v) if is_pack else None

    def _into(self, name: str) -> Iterator[str]:
        """Walk the circuits that feed equipment; what a motor gets is its controller's doing."""
        fed_by = self._settings(name).fed_by
        for one, circuit in self._alive.items() if self._kind(name) not in MOTORS else ():
            ports = ("".join(end[1:]) for end in circuit.ends[1:] if end[0] == name)
            if any(not fed_by or port in fed_by for port in ports):
                yield one

    def _into_common(self, of: IssuedLead, index: int) -> Iterator[str]:
        """Walk the circuits that feed the common on which a lead begins."""
        common = self._common(of, index)
        for one, circuit in self._alive.items():
            if any(end[0] == of.ends[index].name for end in circuit.ends[1:]) and any(
                self._common(lead, 1) == common for lead in circuit.leads.values()
            ):
                yield one

    def _common(self, lead: IssuedLead, index: int) -> tuple[str, str]:
        """Return the joint and the common on which the positive of a lead is at one end."""
        end, wire = lead.ends[index], lead.wires.get("positive")
        commons = self.state.disconnects[end.name].commons if end.kind == "half" and wire is not None else {}
        at = {*wire.at[index]} if wire is not None else set()
        return end.name, next((common for common, contacts in commons.items() if at & {*contacts}), "")

    def _settings(self, name: str) -> IssuedSettings:
        return (self.state.settings or {}).get(name, IssuedSettings())

    def _kind(self, name: str) -> str:
        entry = self.state.equipment.get(name)
        return entry.kind if entry is not None else ""

    @cached_property
    def _alive(self) -> dict[str, IssuedCircuit]:
        return {one: of for one, of in self.state.circuits.items() if not of.planned and not of.left_in}


def _fed_lead(circuit: IssuedCircuit) -> IssuedLead | None:
    """Return the lead in which its supply begins: at a common behind the first, maybe."""
    leads = circuit.leads.values()
    first = first_lead(circuit) if not any("negative" in lead.wires for lead in leads) else None
    return next((lead for lead in leads if "positive" in lead.wires), first)
