"""Halves and plugs that are live and carry pins."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, Position, listed, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.circuits import Circuit, End, Lead
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.joints import Disconnect

KIND = caution(
    name="live-pins",
    stands_on="disconnect or equipment",
    meaning="A half with supply behind it carries pins.",
    when="The half of a disconnect on the supply side carries pins, or either half does where both are fed, or "
    "the plug of a pack does. Receivers and outlets may, and halves that face the plug on an own lead.",
    why="Bare pins with a pack behind them touch a pushrod or each other as the wing comes off: sparks, burnt "
    "contacts, a shorted lithium pack.",
    remedy="Turn the joint round, `fixed: {place: left-root, contacts: sockets}`; give the pack a `plug:` with "
    "sockets. Till then cap it, and unplug packs first.",
    source=PRACTICE,
)

_Supplied = dict[tuple[str, str], dict[str, tuple[str, ...]]]
"""The halves where supply arrives, (disconnect, half), with the live contacts of each circuit that brings it."""


def find(facts: Facts) -> Iterator[Finding]:
    """Find each half with supply behind it, and each pack's plug, that carries pins."""
    supplied = _supplied_halves(facts)
    for disconnect in facts.harness.disconnects.values():
        for index, half in enumerate(disconnect.halves):
            faces_own = disconnect.other(half).came_on  # what it carries can't be chosen
            if half.gender == "pins" and (disconnect.name, half.name) in supplied and not faces_own:
                yield _live_half(facts, disconnect, index, supplied)
    for equipment in facts.harness.equipment.values():
        if equipment.kind == "battery":
            yield from _live_plugs(facts, equipment)


def _supplied_halves(facts: Facts) -> _Supplied:
    supplied: _Supplied = {}
    for circuit in facts.harness.circuits.values():
        for disconnect, half, contacts in _arrivals(facts, circuit) if circuit.poles else ():
            supplied.setdefault((disconnect, half), {})[circuit.name] = contacts
    return supplied


def _arrivals(facts: Facts, circuit: Circuit) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Walk the halves where a circuit's supply arrives: disconnect, half, contacts."""
    start = circuit.start
    if start.kind == "half" and (contacts := _live_contacts(circuit, circuit.leads[0], start)):
        disconnect = facts.harness.disconnects[start.name]
        yield start.name, disconnect.other(disconnect.half_at(start)).name, contacts
    for lead in circuit.leads:
        end = lead.ends[1]
        if end.kind == "half" and (contacts := _live_contacts(circuit, lead, end)):
            yield end.name, end.part, contacts


def _live_contacts(circuit: Circuit, lead: Lead, end: End) -> tuple[str, ...]:
    """Return the contacts of the poles that a lead brings to a half; a negative alone makes nothing live."""
    roles = [role for role in circuit.poles if lead.wire(role) is not None and end.contacts.get(role)]
    if all(role == "negative" for role in roles):
        return ()
    return tuple(contact for role in roles for contact in end.contacts[role])


def _live_half(facts: Facts, disconnect: Disconnect, index: int, supplied: _Supplied) -> Finding:
    half, other = disconnect.halves[index], disconnect.halves[1 - index]
    circuits, both = supplied[disconnect.name, half.name], (disconnect.name, other.name) in supplied
    live = set(itertools.chain(*circuits.values()))
    contacts = [contact for contact in disconnect.shell.contacts if contact in live]
    brings = "brings" if len(circuits) == 1 else "bring"
    at = "contact" if len(contacts) == 1 else "contacts"
    sentence = (
        f"{listed(shown(name) for name in circuits)} {brings} supply to the {half.name} half of "
        f"{shown(disconnect.name)}, which carries pins: once parted they are live and bare ({at} {listed(contacts)})"
    )
    sentence += "; its other half is fed too." if both else "."
    do = f"Give its {half.name} half sockets and its {other.name} half pins (`contacts:`)."
    if both:
        do = "Bring supply to one half only, and give that one sockets; the other circuits take another disconnect."
    form: tuple[str | int, ...] = ("halves", index)
    if disconnect.halves[0].fixed:
        form = (("fixed", "loose")[index],)
    return facts.found(KIND, ("disconnects", disconnect.name, *form, "contacts"), sentence, do)


def _live_plugs(facts: Facts, pack: Equipment) -> Iterator[Finding]:
    seen = set[int]()
    for port in pack.ports:
        if port.gender != "pins" or port.group in seen:
            continue
        seen.add(port.group)
        sentence = f"the plug {shown(port.connector.name)} of the pack {shown(pack.name)} carries pins, always live."
        do = "Fit the pack with sockets, and choose a plug whose `equipment:` is sockets."
        if not pack.nameless:
            do = "Fit the pack with sockets, and say `contacts: sockets` for its port."
        yield KIND.at(_plug_position(facts, pack, port.group), sentence, do, ("equipment", pack.name))


def _plug_position(facts: Facts, pack: Equipment, group: int) -> Position:
    """Return where a pack's plug says what it carries, else where the plug is named."""
    if pack.nameless:
        return facts.where.value("equipment", pack.name, "plug")
    ports = "equipment", pack.name, "ports", group
    said = facts.where.value(*ports, "contacts")
    return said if said != facts.where.value(*ports) else facts.where.value(*ports, "plug")
