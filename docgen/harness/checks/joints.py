"""Where the harness comes apart: halves that can be swapped, live pins, contacts to spare."""

from __future__ import annotations

import itertools
import math
import string
from collections.abc import Iterator
from typing import NamedTuple

from docgen.basics.findings import Finding, Position, listed, shown
from docgen.basics.units import millimetres
from docgen.definition.model import Where
from docgen.harness.model.circuits import Circuit, End, Lead
from docgen.harness.model.harness import Disconnect, Equipment, Half, Harness
from docgen.harness.routing.airframe import distance_mm
from docgen.harness.wiring.spares import spares_kept

_SPARES_SOURCE = "AC 43.13-1B 11-234"

_ROUNDING_MM = 1e-6

_Supplied = dict[tuple[str, str], dict[str, tuple[str, ...]]]
"""The halves where supply arrives, (disconnect, half), with the live contacts of each circuit that brings it."""


class _Clash(NamedTuple):
    """A half that hangs free, and a wrong half that it mates with and reaches."""

    one: Disconnect
    half: Half
    other: Disconnect
    wrong: Half
    away_mm: float


def find_swap(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each half that hangs free and reaches a wrong half that it mates with.

    Common practice, no source: joints of one pattern side by side get swapped sooner or later.
    """
    clashes = list(_clashes(harness))
    letters = _letters(harness, {(clash.one.name, clash.other.name) for clash in clashes})
    findings = []
    for one, half, other, wrong, away_mm in clashes:
        keyed = f" keyed {shown(one.form.keyed)}" if one.form.keyed else ""
        tails = "its tail reaches" if wrong.fixed else "both tails together reach"
        sentence = (
            f"the {half.name} half of {shown(one.name)} mates with the {wrong.name} half of {shown(other.name)} too: "
            f"both are {shown(one.shell.name)}{keyed}, {millimetres(away_mm)} mm apart in a straight line, "
            f"and {tails} {millimetres(half.reach_mm + wrong.reach_mm)} mm."
        )
        do = (
            "Fit shells that can't be mated with each other, and say so: "
            f"`keyed: {letters[one.name]}` at {shown(one.name)}, `keyed: {letters[other.name]}` at {shown(other.name)}"
        )
        shorter = "that tail" if wrong.fixed else "both tails together"
        do += f"; or keep {shorter} under {math.floor(away_mm)} mm." if away_mm >= 1 else "."
        position = where.value("disconnects", one.name, "shell")
        findings.append(Finding(position, "swap", sentence, do, ("disconnects", one.name)))
    return findings


def _clashes(harness: Harness) -> Iterator[_Clash]:
    for one, other in itertools.permutations(harness.disconnects.values(), 2):
        for half, wrong in itertools.product(one.halves, other.halves):
            if _mate(one, half, other, wrong):
                away_mm = _apart_mm(harness, half, wrong)
                if away_mm is not None and away_mm <= half.reach_mm + wrong.reach_mm + _ROUNDING_MM:
                    yield _Clash(one, half, other, wrong, away_mm)


def _mate(one: Disconnect, half: Half, other: Disconnect, wrong: Half) -> bool:
    same = one.shell.name == other.shell.name and one.form.keyed == other.form.keyed
    return same and not half.fixed and half.gender != wrong.gender


def _apart_mm(harness: Harness, half: Half, other: Half) -> float | None:
    if half.place == other.place:
        return 0.0
    one, two = harness.places[half.place].point_mm, harness.places[other.place].point_mm
    return distance_mm(one, two) if one is not None and two is not None else None


def _letters(harness: Harness, clashes: set[tuple[str, str]]) -> dict[str, str]:
    """Return for each disconnect that clashes the first letter that tells it from the others, its own if it can be."""
    letters: dict[str, str] = {}
    for name, disconnect in harness.disconnects.items():
        against = {two if one == name else one for one, two in clashes if name in (one, two)}
        if not against:
            continue
        taken = {letters[other] for other in against if other in letters}
        if disconnect.form.keyed and disconnect.form.keyed not in taken:
            letters[name] = disconnect.form.keyed
            continue
        alike = [other for other in harness.disconnects.values() if other.shell.name == disconnect.shell.name]
        taken |= {other.form.keyed for other in alike if other.name != name}
        single, double = string.ascii_uppercase, itertools.product(string.ascii_uppercase, repeat=2)
        every = itertools.chain(single, ("".join(pair) for pair in double))
        letters[name] = next(letter for letter in every if letter not in taken)
    return letters


def find_live_pins(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each half with supply behind it, and each pack's plug, that carries pins.

    Common practice, no source: what is live when parted carries sockets, so that nothing can touch it.
    """
    supplied = _supplied_halves(harness)
    findings = []
    for disconnect in harness.disconnects.values():
        for index, half in enumerate(disconnect.halves):
            if half.gender == "pins" and (disconnect.name, half.name) in supplied:
                findings.append(_live_half(where, disconnect, index, supplied))
    for equipment in harness.equipment.values():
        if equipment.kind == "battery":
            findings += _live_plugs(where, equipment)
    return findings


def _supplied_halves(harness: Harness) -> _Supplied:
    supplied: _Supplied = {}
    for circuit in harness.circuits.values():
        for disconnect, half, contacts in _arrivals(harness, circuit) if circuit.carries_supply else ():
            supplied.setdefault((disconnect, half), {})[circuit.name] = contacts
    return supplied


def _arrivals(harness: Harness, circuit: Circuit) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Walk the halves where a circuit's supply arrives: disconnect, half, contacts."""
    start = circuit.start
    if start.kind == "half" and (contacts := _live_contacts(circuit, circuit.leads[0], start)):
        halves = harness.disconnects[start.name].halves
        far = halves[1] if halves[0].name == start.part else halves[0]
        yield start.name, far.name, contacts
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


def _live_half(where: Where, disconnect: Disconnect, index: int, supplied: _Supplied) -> Finding:
    half, other = disconnect.halves[index], disconnect.halves[1 - index]
    circuits = supplied[disconnect.name, half.name]
    live = set(itertools.chain(*circuits.values()))
    contacts = [contact for contact in disconnect.shell.contacts if contact in live]
    brings = "brings" if len(circuits) == 1 else "bring"
    at = "contact" if len(contacts) == 1 else "contacts"
    sentence = (
        f"{listed(shown(name) for name in circuits)} {brings} supply to the {half.name} half of "
        f"{shown(disconnect.name)}, which carries pins: once parted they are live and bare ({at} {listed(contacts)})."
    )
    do = f"Give its {half.name} half sockets and its {other.name} half pins (`contacts:`)."
    if (disconnect.name, other.name) in supplied:
        sentence = sentence[:-1] + "; its other half is fed too."
        do = "Bring supply to one half only, and give that one sockets; the other circuits take another disconnect."
    form: tuple[str | int, ...] = ("halves", index)
    if disconnect.halves[0].fixed:
        form = (("fixed", "loose")[index],)
    position = where.value("disconnects", disconnect.name, *form, "contacts")
    return Finding(position, "live-pins", sentence, do, ("disconnects", disconnect.name))


def _live_plugs(where: Where, pack: Equipment) -> Iterator[Finding]:
    seen = set[int]()
    for port in pack.ports:
        if port.gender != "pins" or port.group in seen:
            continue
        seen.add(port.group)
        sentence = f"the plug {shown(port.connector.name)} of the pack {shown(pack.name)} carries pins, always live."
        do = "Fit the pack with sockets, and choose a plug whose `equipment:` is sockets."
        if not pack.nameless:
            do = "Fit the pack with sockets, and say `contacts: sockets` for its port."
        yield Finding(_plug_position(where, pack, port.group), "live-pins", sentence, do, ("equipment", pack.name))


def _plug_position(where: Where, pack: Equipment, group: int) -> Position:
    """Return where a pack's plug says what it carries, else where the plug is named."""
    if pack.nameless:
        return where.value("equipment", pack.name, "plug")
    ports = "equipment", pack.name, "ports", group
    said = where.value(*ports, "contacts")
    return said if said != where.value(*ports) else where.value(*ports, "plug")


def find_spare_contacts(harness: Harness, where: Where) -> list[Finding]:
    """Return a note for each shell with fewer contacts to spare than the builder's limit, else than the circular's.

    Source of the usual number: FAA AC 43.13-1B, change 1, 11-234. Plugs have no contact that could be spare.
    """
    limit = harness.limits.spare_contacts
    source = _SPARES_SOURCE if limit is None else limit.source
    findings = []
    for disconnect in harness.disconnects.values():
        every, spare = len(disconnect.shell.contacts), len(disconnect.spares)
        wanted = spares_kept(harness.limits, every)
        if disconnect.shell.roles or spare >= wanted:
            continue
        sentence = (
            f"{shown(disconnect.name)} has {spare} of {every} contacts to spare, "
            f"{wanted} are wanted ({source}): {wanted - spare} too few."
        )
        larger = itertools.count(every)
        enough = next(count for count in larger if count - spares_kept(harness.limits, count) >= every - spare)
        do = f"Choose a shell with at least {enough} contacts, or take circuits out of this one."
        position = where.value("disconnects", disconnect.name, "shell")
        findings.append(Finding(position, "spare-contacts", sentence, do, ("disconnects", disconnect.name)))
    return findings
