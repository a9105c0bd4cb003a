"""Currents of wires, contacts, outlets and packs against what they may carry."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from docgen.basics.findings import Finding, Position, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.definition.model import Where
from docgen.definition.parts import ContactPart
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loading import (
    ContactLoading,
    WireLoading,
    common_loadings,
    contact_loadings,
    may_carry_a,
    wire_loadings,
)
from docgen.harness.electrical.sources import source_loadings
from docgen.harness.model.harness import Common, Disconnect, Harness
from docgen.harness.model.parts import WirePart
from docgen.harness.model.rules import Limits
from docgen.harness.remedies.choices import stem
from docgen.harness.remedies.search import Remedies
from docgen.harness.wiring.commons import takes
from docgen.harness.wiring.feeds import CommonBranch
from docgen.harness.wiring.spares import spares_text, spares_to_take

_CLOSE = 1e-9


def find_currents(harness: Harness, electricity: Electricity, remedies: Remedies, where: Where) -> list[Finding]:
    """Return a caution for each wire and contact that carries more than it may, and each lone common contact.

    Wires: their own figure, else FAA AC 43.13-1B table 11-9. Contacts: the part's own figures.
    """
    findings: list[Finding] = []
    for circuit in harness.circuits.values():
        findings += _wires(harness, remedies, wire_loadings(harness, electricity, where, circuit))
        findings += _contacts(remedies, contact_loadings(electricity, where, circuit))
    for disconnect in harness.disconnects.values():
        for common, contact, tails in common_loadings(harness, electricity, where, disconnect):
            findings += [*_wires(harness, remedies, tails), *_contacts(remedies, [contact])]
            findings += _single(harness.limits, electricity, disconnect, common, contact)
    return findings


def _wires(harness: Harness, remedies: Remedies, wires: Iterable[WireLoading]) -> Iterator[Finding]:
    """Judge wires, those of one lead together; where the heat alone is too much, the finding `heat` says it."""
    over: dict[tuple[str, Position], list[WireLoading]] = {}
    for wire in wires:
        may = wire.may_a
        if not wire.is_too_hot and wire.working_a > _CLOSE and (may is None or wire.working_a > may * (1 + _CLOSE)):
            over.setdefault((wire.at, wire.position), []).append(wire)
    for some in over.values():
        wire = max(some, key=lambda wire: wire.working_a)
        may, roles = wire.may_a, " and ".join(wire.role for wire in some)
        if may is None:
            sentence = f"nothing says what {shown(wire.kind.name)} may carry; {wire.at} carries {wire.working_a:.2f} A."
            yield Finding(
                wire.position, "wire-current", sentence, "Give it a `current:` in `parts.yaml`.", wire.subject
            )
            continue
        heat = f" at {decimal(wire.heat_c)} °C" if wire.heat_c is not None else ""
        sentence = (
            f"{roles} of {wire.at}: {'each' if len(some) > 1 else 'the wire'} carries {wire.working_a:.2f} A working; "
            f"{shown(wire.kind.name)} may carry {at_most(may, 2)} A{heat} ({wire.may_source}), "
            f"{decimal(wire.working_a - may, 2)} A over."
        )
        yield Finding(wire.position, "wire-current", sentence, _thicker(harness, remedies, wire), wire.subject)


def _thicker(harness: Harness, remedies: Remedies, wire: WireLoading) -> str:
    """Say which lead, own lead or contacts would carry the current; each is judged as the wire was."""

    def carries(kind: WirePart) -> bool:
        return (may_carry_a(kind, wire.heat_c) or 0.0) >= wire.working_a

    if wire.lead is not None:
        circuit = harness.circuits[wire.lead.circuit]
        for _, name in remedies.choices.leads_for(circuit, wire.lead, as_thick=True):
            relaid = remedies.choices.relaid(wire.lead, name)
            if all(carries(other.kind) for other in relaid.wires if other.role in circuit.poles):
                segment = f"segment {wire.lead.segment} of " if len(circuit.leads) > 1 else ""
                return f"Wire {segment}{wire.lead.circuit} with `{name}`."
    if wire.own is not None and wire.own.own is not None:
        own = stem(wire.kind.name)
        thick = [k for k in harness.wires if k.gauge.area_mm2 >= wire.kind.gauge.area_mm2 * (1 - _CLOSE)]
        kinds = sorted(thick, key=lambda k: (round(k.gauge.area_mm2, 6), stem(k.name) != own))
        kind = next((k for k in kinds if carries(k) and takes(wire.own.connector.contact, k)), None)
        if kind is not None:
            return f"Give {wire.own.own.equipment} an own lead of {kind.gauge.text} (`lead_wire: {kind.name}`)."
    if wire.tails:
        return _more_tails(harness, wire)
    return "No lead of the parts list would do: share the current over two circuits."


def _more_tails(harness: Harness, tail: WireLoading) -> str:
    """Say over how many contacts, each with a tail, a common's current would do, if there are so many to spare."""
    (name, common), may = tail.common, tail.may_a or 0.0
    needed = math.ceil(tail.working_a * tail.tails / may - _CLOSE)
    joint, limits = harness.disconnects[name], harness.limits
    if needed - tail.tails <= spares_to_take(limits, joint):
        return f"Give the common {common} of {name} {needed} contacts (`contacts:`), each with a tail."
    return (
        f"That takes {needed} contacts, each with a tail, and {name} has too few to spare "
        f"({spares_text(limits, joint)}): choose a shell with more contacts or whose contacts take heavier wire, or "
        "lead some circuits elsewhere."
    )


def _contacts(remedies: Remedies, contacts: Iterable[ContactLoading]) -> Iterator[Finding]:
    """Judge contacts, those of one end together; the worst of their cases is said."""
    over: dict[tuple[str, Position], list[tuple[ContactLoading, _Case]]] = {}
    for contact in contacts:
        cases = [case for case in _cases(contact) if case.amps > case.may * (1 + _CLOSE)]
        if cases:
            worst = max(cases, key=lambda case: case.amps / case.may)
            over.setdefault((contact.at, contact.position), []).append((contact, worst))
    for some in over.values():
        contact, case = max(some, key=lambda item: item[1].amps / item[1].may)
        roles = " and ".join(contact.role for contact, _ in some)
        each = "each" if contact.contacts > 1 or len(some) > 1 else "the contact"
        sentence = (
            f"{roles} at {contact.at}: {each} carries {case.amps:.2f} A {case.when} and is rated {decimal(case.may)} A "
            f"({case.key}), {decimal(case.amps - case.may, 2)} A over."
        )
        do = _more_contacts(remedies, contact, case, len(some)) if contact.disconnect and not contact.roles else ""
        yield Finding(
            contact.position, "contact-current", sentence, do or _heavier_plug(remedies, contact), contact.subject
        )


class _Case(NamedTuple):
    """What a contact carries in one case, and may carry [A]; `key` says that."""

    amps: float
    may: float
    when: str
    key: str = "`rating:`"


def _cases(contact: ContactLoading) -> list[_Case]:
    """Return how a contact is judged: working, stalled or at peak for 10 s at most, with gear legs jammed."""
    kind = contact.kind
    cases = [_Case(contact.working_a, kind.rating_a, "working")]
    if kind.brief_a is not None:
        cases.append(_Case(contact.brief_a, kind.brief_a, "for a short while", "`brief:`"))
    return [*cases, _Case(contact.lasting_a, kind.rating_a, "with gear legs jammed")]


def _needed(contact: ContactLoading) -> int:
    """Return over how many contacts the current would have to be shared."""
    return max(math.ceil(case.amps * contact.contacts / case.may - _CLOSE) for case in _cases(contact))


def _more_contacts(remedies: Remedies, contact: ContactLoading, case: _Case, poles: int) -> str:
    """Say over how many contacts of a shell each pole would do, if there are so many to spare; else which shell would.

    Shells: any of the parts list with as many contacts whose own bear it and take the wire.
    """
    disconnect, needed = remedies.harness.disconnects[contact.disconnect], _needed(contact)
    limits = remedies.harness.limits
    enough = (needed - contact.contacts) * poles <= spares_to_take(limits, disconnect)
    shells = [
        name
        for name, part in remedies.definition.parts.shells.items()
        if len(part.places_mm) >= len(disconnect.shell.contacts) and _bears(part.contact, contact)
    ]
    heavier = f"a heavier shell: {', '.join(f'`{name}`' for name in shells[:3])}" if shells else "a heavier shell"
    if enough:
        each_a = case.amps * contact.contacts / needed
        return f"Share it over {needed} contacts (`commons:`), {each_a:.2f} A each, or use {heavier}."
    spares = spares_text(limits, disconnect)
    return f"Use {heavier}: it takes {needed} contacts, and {contact.disconnect} has too few to spare ({spares})."


def _bears(part: ContactPart, contact: ContactLoading) -> bool:
    """Tell whether another contact would bear the current and take the wire."""
    return (
        part.rating_a >= max(contact.working_a, contact.lasting_a)
        and (part.brief_a is None or part.brief_a >= contact.brief_a)
        and (contact.wire is None or takes(part, contact.wire))
    )


def _heavier_plug(remedies: Remedies, contact: ContactLoading) -> str:
    plugs = [
        name
        for name, part in remedies.definition.parts.plugs.items()
        if set(part.contacts.values()) == contact.roles and _bears(part.contact, contact)
    ]
    if plugs:
        return f"Use a heavier plug: {', '.join(f'`{name}`' for name in plugs[:3])}."
    return f"No plug of the parts list would do: share it over {_needed(contact)} leads, or add one to `parts.yaml`."


def _single(
    limits: Limits, electricity: Electricity, disconnect: Disconnect, common: Common, contact: ContactLoading
) -> Iterator[Finding]:
    """Find one contact that several servos hang on: common practice, no source."""
    servos = [
        feed.load
        for feed in electricity.network.feeds
        if electricity.network.equipment[feed.load].kind == "servo"
        and CommonBranch(disconnect.name, common.name) in (*feed.out, *feed.back)
    ]
    count = len(dict.fromkeys(servos))
    if len(common.contacts) == 1 and count > 1:
        sentence = f"one contact of {shown(disconnect.name)} carries the {common.role} of {count} servos."
        do = "Give the common a second contact, so that one bad contact does not lose them all."
        if not spares_to_take(limits, disconnect):
            instead = "choose a shell with more contacts, or lead some servos through by themselves"
            do = f"Too few are to spare ({spares_text(limits, disconnect)}): {instead}."
        yield Finding(contact.position, "single-contact", sentence, do, contact.subject)


def find_supply_currents(harness: Harness, electricity: Electricity, where: Where) -> list[Finding]:
    """Return a caution for each outlet and pack that gives more than its rating at peak; ratings are the part's own."""
    findings = []
    for name, entry in harness.equipment.items():
        for given in source_loadings(electricity, entry):
            if given.amps > given.rating_a * (1 + _CLOSE):
                sentence = (
                    f"{given.what} {given.amps:.2f} A {harness.limits.peak_text} and may give "
                    f"{decimal(given.rating_a)} A (`rating:`): {decimal(given.amps - given.rating_a, 2)} A over."
                )
                do = f"Use one that may give {at_least(given.amps, 1)} A, or hang some loads elsewhere."
                position = where.value("equipment", name, *given.key)
                findings.append(Finding(position, "supply-current", sentence, do, ("equipment", name)))
    return findings
