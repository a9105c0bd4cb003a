"""Give contacts at every disconnect, and build the disconnects with what each contact carries."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, listed, shown
from docgen.definition.issued import Issued
from docgen.definition.model import Definition
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.joints import Common, ContactUse, Disconnect, Half
from docgen.harness.model.parts import Connector
from docgen.harness.wiring.circuits import Contacts
from docgen.harness.wiring.commons import Arriving, build_common
from docgen.harness.wiring.connectors import SPLICE, Connectors
from docgen.harness.wiring.contacts import Demand, give_contacts
from docgen.harness.wiring.feeds import FeedFinder
from docgen.harness.wiring.plans import Plan, alone_at


def give_all_contacts(
    definition: Definition, plans: dict[str, Plan], connectors: Connectors, issued: Issued
) -> tuple[Contacts, list[Finding]]:
    """Return the contacts that every circuit has alone at every disconnect, and what does not fit."""
    contacts: Contacts = {}
    findings: list[Finding] = []
    for name, form in definition.disconnects.items():
        through = [plan for plan in plans.values() if name in plan.form.through]
        shell = connectors.joints[form.shell] if through else SPLICE
        taken = {contact: common for common, entry in form.commons.items() for contact in entry.contacts}
        shared, free = len(taken), [contact for contact in shell.contacts if contact not in taken]
        demands = []
        for plan in through:
            roles = alone_at(definition, plan, name)
            found = list(_check_pinned(definition, name, plan, roles, shell, taken))
            findings += found
            pinned = () if found else _pinned(plan, name, roles, shell)
            taken |= dict.fromkeys(pinned, plan.name)
            kept = tuple(issued.contacts.get(name, {}).get(plan.name, ()))
            demands.append(Demand(plan.name, len(roles), pinned, kept, no_others=bool(shell.roles) and not found))
        given, unfit = give_contacts(free, demands)
        contacts |= {(name, circuit): block for circuit, block in given.items()}
        if unfit:
            needed = sum(demand.count for demand in demands) + shared
            sentence = (
                f"{shown(form.shell)} has {len(shell.contacts)} contacts, "
                f"{needed} are needed; there is no room for {listed(unfit)}."
            )
            position = definition.where.value("disconnects", name, "shell")
            do = "Choose a shell with more contacts, or another disconnect for some circuits."
            findings.append(Finding(position, "contacts", sentence, do, ("disconnects", name)))
    return contacts, findings


def _pinned(plan: Plan, disconnect: str, roles: tuple[str, ...], shell: Connector) -> tuple[str, ...]:
    """Return the contacts that a circuit must have; at a plain joint of plugs they follow from the roles."""
    return _by_roles(roles, shell) if shell.roles else tuple(plan.form.contacts.get(disconnect, ()))


def _by_roles(roles: tuple[str, ...], plug: Connector) -> tuple[str, ...]:
    return tuple(contact for role in roles if (contact := plug.contact_of(role)) is not None)


def _check_pinned(
    definition: Definition,
    disconnect: str,
    plan: Plan,
    roles: tuple[str, ...],
    shell: Connector,
    taken: dict[str, str],
) -> Iterator[Finding]:
    pinned = plan.form.contacts.get(disconnect)
    if pinned is None:
        return
    where, subject = definition.where, ("circuits", plan.name)
    path = "circuits", plan.name, "contacts", disconnect
    if len(pinned) != len(roles):
        sentence = f"{len(pinned)} contacts are pinned for {len(roles)} wires."
        do = f"Pin one for each, in this order: {listed(roles)}."
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
    wanted = _by_roles(roles, shell)
    if shell.roles and len(pinned) == len(roles) and tuple(pinned) != wanted:
        sentence = f"the plug {shown(shell.name)} has its roles on other contacts."
        do = f"Pin {listed(wanted)}, or leave it out: contacts of a plug follow from its roles."
        yield Finding(where.value(*path), "contacts", sentence, do, subject)


def build_disconnects(
    definition: Definition,
    halves: dict[str, tuple[Half, Half]],
    connectors: Connectors,
    circuits: dict[str, Circuit],
    finder: FeedFinder,
) -> dict[str, Disconnect]:
    """Return the disconnects as built: for each contact in use, the wire behind each half."""
    every = [(lead, end) for circuit in circuits.values() for lead in circuit.leads for end in lead.ends]
    built = {}
    for name, form in definition.disconnects.items():
        shell = connectors.joints[form.shell]
        arriving: Arriving = {half: [] for half in halves[name]}
        for lead, end in every:
            if end.kind == "half" and end.name == name:
                half = next(half for half in halves[name] if half.name == end.part)
                arriving[half] += [(lead, wire, end) for wire in lead.wires]
        commons = {
            common: build_common(definition, name, common, arriving, finder, shell.contact) for common in form.commons
        }
        uses = _alone(arriving) | {contact: use for common in commons.values() for contact, use in _shared(common)}
        built[name] = Disconnect(
            name=name,
            form=form,
            shell=shell,
            halves=halves[name],
            uses={contact: uses[contact] for contact in shell.contacts if contact in uses},
            commons=commons,
        )
    return built


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
