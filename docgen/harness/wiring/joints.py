"""Take circuits as built and return disconnects: their commons, and for each contact the wire behind each half."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from docgen.definition.model import Definition
from docgen.harness.model.circuits import Circuit, End, Lead
from docgen.harness.model.joints import Common, ContactUse, Disconnect, Half
from docgen.harness.wiring.commons import Arriving, build_common
from docgen.harness.wiring.connectors import Connectors
from docgen.harness.wiring.feeds import FeedFinder


def build_disconnects(
    definition: Definition,
    halves: dict[str, tuple[Half, Half]],
    connectors: Connectors,
    circuits: tuple[dict[str, Circuit], dict[str, Circuit]],
    finder: FeedFinder,
) -> dict[str, Disconnect]:
    """Return the disconnects as built: for each contact in use, the wire behind each half.

    Of the circuits the second are dead: they are on contacts of their own, and have no part in commons.
    """
    alive, dead = map(_at_joints, circuits)
    built = {}
    for name, form in definition.disconnects.items():
        shell, living = connectors.joints[form.shell], alive.get(name, [])
        arriving, all_arriving = (_arriving(halves[name], some) for some in (living, [*living, *dead.get(name, [])]))
        commons = {
            common: build_common(definition, name, common, arriving, finder, shell.contact) for common in form.commons
        }
        uses = _alone(all_arriving) | {contact: use for common in commons.values() for contact, use in _shared(common)}
        built[name] = Disconnect(
            name=name,
            form=form,
            shell=shell,
            halves=halves[name],
            uses={contact: uses[contact] for contact in shell.contacts if contact in uses},
            commons=commons,
        )
    return built


def _at_joints(circuits: dict[str, Circuit]) -> dict[str, list[tuple[Lead, End]]]:
    """Return the ends of leads at each disconnect."""
    found: dict[str, list[tuple[Lead, End]]] = {}
    for lead in (lead for circuit in circuits.values() for lead in circuit.leads):
        for end in lead.ends:
            if end.kind == "half":
                found.setdefault(end.name, []).append((lead, end))
    return found


def _arriving(halves: tuple[Half, Half], ends: Iterable[tuple[Lead, End]]) -> Arriving:
    """Return the wires that arrive at each half of a disconnect."""
    arriving: Arriving = {half: [] for half in halves}
    for lead, end in ends:
        half = next(half for half in halves if half.name == end.part)
        arriving[half] += [(lead, wire, end) for wire in lead.wires]
    return arriving


def _alone(arriving: Arriving) -> dict[str, ContactUse]:
    """Return the contacts that circuits have alone."""
    uses: dict[str, ContactUse] = {}
    for half, some in arriving.items():
        for lead, wire, end in some:
            for contact in end.contacts.get(wire.role, ()) if wire.role not in end.commons else ():
                use = uses.setdefault(contact, ContactUse(contact, lead.circuit, False, lead.label, {}))
                use.wires[half.name] = wire
    return uses


def _shared(common: Common) -> Iterator[tuple[str, ContactUse]]:
    """Walk the contacts of a common; without tails the one wire goes straight into the one contact."""
    for index, contact in enumerate(common.contacts):
        wires = {
            behind.half.name: behind.tails[index] if behind.tails else behind.wires[0][1]
            for behind in common.halves
            if behind.wires
        }
        yield contact, ContactUse(contact, common.name, True, common.name, wires)
