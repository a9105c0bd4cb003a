"""Give contacts at every disconnect, and build the disconnects with what each contact carries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from docgen.basics.findings import Finding, listed, shown
from docgen.definition.issued import Issued
from docgen.definition.model import Definition
from docgen.harness.circuits import Contacts, Plan
from docgen.harness.connectors import connector_of
from docgen.harness.contacts import Demand, give_contacts
from docgen.harness.kinds import Connector
from docgen.harness.model import Circuit, ContactUse, Disconnect, Half


def give_all_contacts(definition: Definition, plans: dict[str, Plan], issued: Issued) -> tuple[Contacts, list[Finding]]:
    """Return the contacts of every circuit at every disconnect, and what does not fit."""
    contacts: Contacts = {}
    findings: list[Finding] = []
    passing: dict[str, list[Plan]] = {}
    for plan in plans.values():
        for disconnect in plan.form.through:
            passing.setdefault(disconnect, []).append(plan)
    for name, through in passing.items():
        shell = connector_of(definition.parts, definition.disconnects[name].shell)
        taken: dict[str, str] = {}
        demands = []
        for plan in through:
            found = list(_check_pinned(definition, name, plan, shell, taken))
            findings += found
            pinned = () if found else _pinned(plan, name, shell.roles)
            taken.update(dict.fromkeys(pinned, plan.name))
            kept = tuple(issued.contacts.get(name, {}).get(plan.name, ()))
            demands.append(Demand(plan.name, len(plan.roles), pinned, kept, no_others=bool(shell.roles) and not found))
        given, unfit = give_contacts(shell.contacts, demands)
        contacts.update({(name, circuit): block for circuit, block in given.items()})
        if unfit:
            needed = sum(demand.count for demand in demands)
            sentence = (
                f"{shown(definition.disconnects[name].shell)} has {len(shell.contacts)} contacts, "
                f"{needed} are needed; there is no room for {listed(unfit)}."
            )
            position = definition.where.value("disconnects", name, "shell")
            do = "Choose a shell with more contacts, or another disconnect for some circuits."
            findings.append(Finding(position, "contacts", sentence, do, ("disconnects", name)))
    return contacts, findings


def _pinned(plan: Plan, disconnect: str, roles: dict[str, str]) -> tuple[str, ...]:
    """Return the contacts that a circuit must have; at a plain joint of plugs they follow from the roles."""
    return _by_roles(plan, roles) if roles else tuple(plan.form.contacts.get(disconnect, ()))


def _by_roles(plan: Plan, roles: dict[str, str]) -> tuple[str, ...]:
    contact_of = {role: contact for contact, role in roles.items()}
    return tuple(contact_of[role] for role in plan.roles if role in contact_of)


def _check_pinned(
    definition: Definition, disconnect: str, plan: Plan, shell: Connector, taken: dict[str, str]
) -> Iterator[Finding]:
    pinned = plan.form.contacts.get(disconnect)
    if pinned is None:
        return
    where, subject = definition.where, ("circuits", plan.name)
    path = "circuits", plan.name, "contacts", disconnect
    if len(pinned) != len(plan.roles):
        sentence = f"{len(pinned)} contacts are pinned for {len(plan.roles)} wires."
        do = f"Pin one for each, in this order: {listed(plan.roles)}."
        yield Finding(where.value(*path), "contacts", sentence, do, subject)
    own: set[str] = set()
    for contact in pinned:
        position = where.item(contact, *path)
        if contact not in shell.contacts:
            sentence = f"{shown(disconnect)} has no contact {shown(contact)}."
            yield Finding(position, "contacts", sentence, f"It has: {listed(shell.contacts, 40)}.", subject)
        elif contact in taken or contact in own:
            sentence = f"the contact {shown(contact)} is pinned for {shown(taken.get(contact, plan.name))} too."
            yield Finding(position, "contacts", sentence, "Pin another for one of the two.", subject)
        own.add(contact)
    wanted = _by_roles(plan, shell.roles)
    if shell.roles and len(pinned) == len(plan.roles) and tuple(pinned) != wanted:
        sentence = f"the plug {shown(shell.name)} has its roles on other contacts."
        do = f"Pin {listed(wanted)}, or leave it out: contacts of a plug follow from its roles."
        yield Finding(where.value(*path), "contacts", sentence, do, subject)


def build_disconnects(
    definition: Definition, halves: dict[str, tuple[Half, Half]], circuits: Iterable[Circuit]
) -> dict[str, Disconnect]:
    """Return the disconnects as built: for each contact in use, the wire behind each half."""
    uses: dict[str, dict[str, ContactUse]] = {name: {} for name in definition.disconnects}
    for circuit in circuits:
        for near, far in zip(circuit.leads, circuit.leads[1:], strict=False):
            name = near.ends[1].name
            first = halves[name][0].name == near.ends[1].part
            leads = (near, far) if first else (far, near)
            for wire, beyond in zip(near.wires, far.wires, strict=True):
                wires = (wire, beyond) if first else (beyond, wire)
                contact = wire.contacts[1]
                uses[name][contact] = ContactUse(contact, circuit.name, circuit.label, leads, wires)
    where = definition.where
    built = {}
    for name, form in definition.disconnects.items():
        shell = connector_of(definition.parts, form.shell)
        order = {contact: uses[name][contact] for contact in shell.contacts if contact in uses[name]}
        built[name] = Disconnect(
            name=name,
            shell=shell,
            halves=halves[name],
            uses=order,
            keyed=form.keyed,
            note=where.said(form.note, "disconnects", name, "note"),
            said=where.said(name, "disconnects", name),
        )
    return built
