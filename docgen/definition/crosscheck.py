"""Take a definition; return what no entry can know alone: where entries do not fit each other.

A port that two circuits name, and a run between two assemblies, are the error `value`.
"""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, Position, Refused, listed, meant, shown
from docgen.definition.ends import find_port, port_groups
from docgen.definition.harness import Circuit, Disconnect
from docgen.definition.model import Definition, contact_names
from docgen.definition.own_leads import check_own_leads, own_halves


def check_across(definition: Definition) -> list[Finding]:
    """Return what is wrong between the sound entries of a definition."""
    checks = (_runs, _disconnects, _commons, _equipment, _ends, _circuits)
    return [finding for check in checks for finding in check(definition)]


def _runs(definition: Definition) -> Iterator[Finding]:
    for index, run in definition.runs.items():
        first, second = run.between
        places = definition.places.get(first), definition.places.get(second)
        position = definition.where.value("runs", index, "between", 1)
        if first == second:
            yield Finding(position, "value", f"the run leads from {shown(first)} to itself.", "Name two places.")
        if places[0] is None or places[1] is None:
            continue
        if places[0].assembly != places[1].assembly:
            sentence = f"{shown(first)} is in {places[0].assembly}, {shown(second)} in {places[1].assembly}."
            yield Finding(position, "value", sentence, "A run stays in one assembly; a disconnect joins two.")


def _disconnects(definition: Definition) -> Iterator[Finding]:
    where = definition.where
    for name, disconnect in definition.disconnects.items():
        if "equipment" in where.sections and name in where.sections["equipment"].keys:
            sentence = f"{shown(name)} is equipment too."
            yield Finding(where.key("disconnects", name), "name", sentence, "Give the disconnect another name.")
        first, second = disconnect.both
        if first.contacts is not None and first.contacts == second.contacts:
            path = ("loose",) if disconnect.halves is None else ("halves", 1)
            position = where.value("disconnects", name, *path, "contacts")
            sentence = f"both halves carry {first.contacts}."
            yield Finding(position, "mate", sentence, "One half carries pins, the other sockets.")
    unfit = list(check_own_leads(definition))
    yield from unfit
    # With any of those broken, whether a half is the plug on an own lead is not known.
    if not unfit and not any(section in ("places", "equipment", "circuits") for section, _ in definition.broken):
        yield from _unsaid_of_halves(definition)


def _unsaid_of_halves(definition: Definition) -> Iterator[Finding]:
    """Find what a half does not say; the plug on an own lead need say nothing."""
    own = own_halves(definition)
    for name, disconnect in definition.disconnects.items():
        position = definition.where.key("disconnects", name)
        made = [index for index in (0, 1) if (name, index) not in own]
        if len(made) == 2 and all(half.contacts is None for half in disconnect.both):
            yield Finding(position, "missing", "neither half says pins or sockets.", "Add `contacts:` to one of them.")


def _commons(definition: Definition) -> Iterator[Finding]:
    """Check that commons share contacts that are there, each once, and circuits that come by."""
    roles = list(dict.fromkeys(role for lead in definition.parts.leads.values() for role in lead.wires))
    for name, disconnect in definition.disconnects.items():
        for common_name, common in disconnect.commons.items():
            if common.role not in roles:
                position = definition.where.value("disconnects", name, "commons", common_name, "role")
                do = meant(common.role, roles, f"Leads have: {listed(roles)}.")
                yield Finding(position, "name", f"no lead has a {shown(common.role)}.", do)
        yield from _common_contacts(definition, name, disconnect)
        yield from _common_members(definition, name, disconnect)


def _common_contacts(definition: Definition, name: str, disconnect: Disconnect) -> Iterator[Finding]:
    contacts = contact_names(definition.parts, disconnect.shell)
    taken: dict[str, str] = {}
    for common_name, common in disconnect.commons.items():
        for contact in common.contacts:
            position = definition.where.item(contact, "disconnects", name, "commons", common_name, "contacts")
            if contacts and contact not in contacts:
                sentence = f"{shown(name)} has no contact {shown(contact)}."
                yield Finding(position, "contacts", sentence, f"It has: {listed(contacts, 40)}.")
            elif contact in taken:
                sentence = f"the contact {shown(contact)} belongs to the common {shown(taken[contact])} too."
                yield Finding(position, "contacts", sentence, "Give each common contacts of its own.")
            taken[contact] = common_name


def _common_members(definition: Definition, name: str, disconnect: Disconnect) -> Iterator[Finding]:
    shared: dict[tuple[str, str], str] = {}
    for common_name, common in disconnect.commons.items():
        for member in dict.fromkeys(common.circuits):
            position = definition.where.item(member, "disconnects", name, "commons", common_name, "circuits")
            circuit = definition.circuits.get(member)
            if common.circuits.count(member) > 1:
                yield Finding(position, "value", f"{shown(member)} is named twice.", "Name it once.")
            if circuit is not None and name not in (*circuit.through, *(end for end, *_ in circuit.ends)):
                sentence = f"{shown(member)} does not go through {shown(name)}."
                yield Finding(position, "through", sentence, "Name circuits that pass here.")
            elif shared.setdefault((member, common.role), common_name) != common_name:
                sentence = f"{shown(member)} shares its {shown(common.role)} in two commons."
                yield Finding(position, "contacts", sentence, "Name it in one of them.")


def _equipment(definition: Definition) -> Iterator[Finding]:
    where = definition.where
    for name, equipment in definition.equipment.items():
        ports = [port for group in port_groups(equipment) for port in group.names]
        for port in equipment.fed_by:
            if port not in ports:
                position = where.item(port, "equipment", name, "fed_by")
                sentence = f"{shown(name)} has no port {shown(port)}."
                yield Finding(position, "name", sentence, f"Its ports: {listed(ports)}.")
        for input_port, outlets in equipment.drives.items():
            for port in (input_port, *outlets):
                if port not in ports:
                    position = where.key("equipment", name, "drives", input_port)
                    if port in outlets:
                        position = where.item(port, "equipment", name, "drives", input_port)
                    sentence = f"{shown(name)} has no port {shown(port)}."
                    yield Finding(position, "name", sentence, f"Its ports: {listed(ports)}.")
        plugs = [definition.parts.plugs.get(group.plug) for group in port_groups(equipment)]
        roles = {role for plug in plugs if plug for role in plug.contacts.values()}
        for role in equipment.lead_colours:
            if role not in roles and all(plugs):
                position = where.key("equipment", name, "lead_colours", role)
                sentence = f"the plug of {shown(name)} has no {shown(role)}."
                yield Finding(position, "name", sentence, f"It has: {listed(sorted(roles))}.")


def _ends(definition: Definition) -> Iterator[Finding]:
    """Check that ends name ports, and each port once."""
    taken: dict[tuple[str, str], str] = {}
    where = definition.where
    for name, circuit in definition.circuits.items():
        for key, ends in (("from", circuit.start), ("to", circuit.to)):
            for index, words in enumerate(ends):
                position = where.value("circuits", name, key, index)
                if words[0] in definition.disconnects:
                    yield from _common_end(definition, words, position)
                if words[0] not in definition.equipment or circuit.left_in:
                    continue
                try:
                    port = find_port(definition, words)
                except Refused as refused:
                    yield refused.at(position)
                    continue
                place = port.equipment, port.name
                if place in taken:
                    sentence = f"{shown(port.text)} is taken by the circuit {shown(taken[place])}."
                    yield Finding(position, "value", sentence, "Plug one of the two in elsewhere.")
                taken.setdefault(place, name)


def _common_end(definition: Definition, words: tuple[str, ...], position: Position) -> Iterator[Finding]:
    commons = definition.disconnects[words[0]].commons
    if len(words) == 1:
        sentence = f"which common of {shown(words[0])} is not said."
        yield Finding(position, "missing", sentence, f"Its commons: {listed(commons) or 'none'}.")
    roles: dict[str, str] = {}
    for common in words[1:]:
        if common not in commons:
            sentence = f"{shown(words[0])} has no common {shown(common)}."
            yield Finding(position, "name", sentence, f"Its commons: {listed(commons) or 'none'}.")
        elif roles.setdefault(commons[common].role, common) != common:
            sentence = f"{shown(roles[commons[common].role])} and {shown(common)} share one role."
            yield Finding(position, "value", sentence, "Name one common for each role.")


def _circuits(definition: Definition) -> Iterator[Finding]:
    for name, circuit in definition.circuits.items():
        yield from _circuit(definition, name, circuit)
        yield from _circuit_segments(definition, name, circuit)


def _circuit(definition: Definition, name: str, circuit: Circuit) -> Iterator[Finding]:
    where = definition.where
    ends = [end for end, *_ in circuit.ends]
    for index, disconnect in enumerate(circuit.through):
        position = where.value("circuits", name, "through", index)
        if disconnect in circuit.through[:index]:
            yield Finding(position, "through", f"it goes through {shown(disconnect)} twice.", "Name it once.")
        if disconnect in ends:
            sentence = f"it goes through {shown(disconnect)} and ends at its commons."
            yield Finding(position, "through", sentence, "Leave it out of `through:`.")
    if circuit.lead is None and any(end in definition.disconnects for end in ends):
        position = where.key("circuits", name)
        yield Finding(position, "missing", "a circuit at commons has no lead.", "Add `lead:`.")
    for disconnect in circuit.contacts:
        if disconnect not in circuit.through:
            position = where.key("circuits", name, "contacts", disconnect)
            sentence = f"it does not go through {shown(disconnect)}."
            yield Finding(position, "contacts", sentence, "Pin contacts where it goes through.")


def _circuit_segments(definition: Definition, name: str, circuit: Circuit) -> Iterator[Finding]:
    where = definition.where
    letters, leads = circuit.letters, circuit.leads
    for letter in letters if circuit.lead is not None else ():
        if letter not in leads:
            position = where.key("circuits", name, "lead")
            yield Finding(position, "missing", f"segment {letter} has no lead.", f"Add `{letter}: …`.")
    for key, mapping in (("lead", leads), ("lengths", circuit.lengths)):
        for letter in mapping:
            if letter not in letters:
                position = where.key("circuits", name, key, letter)
                sentence = f"there is no segment {shown(letter)}."
                yield Finding(position, "name", sentence, f"Its segments: {listed(letters)}.")
