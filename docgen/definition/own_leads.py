"""Take a definition; return which halves of plain joints are plugs on own leads, and where a lead can't be own."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, Refused, shown
from docgen.basics.frozen import frozen
from docgen.definition.ends import Port, find_port
from docgen.definition.harness import OWN
from docgen.definition.model import Definition

_ONLY = "Only the first or last segment, between equipment and a plain joint, can be an own lead; else cut one."


@frozen
class OwnHalf:
    """The plug of a port's own lead, which half of which disconnect it is, and whether the circuit begins there."""

    port: Port
    disconnect: str
    index: int
    first: bool

    def gender(self, definition: Definition) -> str:
        """Return what it carries."""
        return self.port.group.contacts or definition.parts.plugs[self.port.group.plug].equipment


def own_halves(definition: Definition) -> dict[tuple[str, int], OwnHalf]:
    """Return the plugs on own leads that are halves, by disconnect and number of the half."""
    found = {}
    for circuit, letter in _own_segments(definition):
        try:
            half = _own_half(definition, circuit, letter)
        except Refused:
            continue  # said where they are checked
        if half is not None:
            found[half.disconnect, half.index] = half
    return found


def check_own_leads(definition: Definition) -> Iterator[Finding]:
    """Find each segment that is said to be an own lead and can't be, and what can't be said of such a half."""
    if OWN in definition.parts.leads:
        position = definition.where.key("leads", OWN)
        yield Finding(position, "name", f"{shown(OWN)} stands for the lead that equipment came with.", "Rename it.")
    for circuit, letter in _own_segments(definition):
        try:
            half = _own_half(definition, circuit, letter)
        except Refused as refused:
            yield definition.wrong(refused.name, ("circuits", circuit, "lead", letter), str(refused), refused.do)
            continue
        if half is not None:
            yield from _said_too_much(definition, half)
            yield from _unlike(definition, half)


def _own_segments(definition: Definition) -> Iterator[tuple[str, str]]:
    for name, circuit in definition.circuits.items():
        yield from ((name, letter) for letter, lead in circuit.leads.items() if lead == OWN)


def _own_half(definition: Definition, name: str, letter: str) -> OwnHalf | None:
    """Return the half that the own lead of a segment is; nothing where that can't be told for another error."""
    circuit = definition.circuits[name]
    if letter not in circuit.letters:
        return None
    first = letter == circuit.letters[0]
    words, joint = (circuit.start[0], circuit.through[:1]) if first else (circuit.to[-1], circuit.through[-1:])
    if not joint or circuit.letters.index(letter) not in (0, len(circuit.through)) or (circuit.split and not first):
        raise Refused("value", f"segment {letter} does not lead from equipment to a joint.", _ONLY)
    if words[0] in definition.disconnects:
        raise Refused("value", f"segment {letter} ends at commons.", _ONLY)
    if words[0] not in definition.equipment or joint[0] not in definition.disconnects:
        return None
    try:
        port = find_port(definition, words)
    except Refused:
        return None  # said where ends are checked
    if not port.has_own_lead:
        do = "Give it its `lead:`, or name an entry of `leads` here."
        raise Refused("missing", f"{shown(port.text)} has no lead of its own.", do)
    _check_joint(definition, name, port, joint[0])
    index = _index(definition, port.equipment, joint[0], first=first)
    return None if index is None else OwnHalf(port, joint[0], index, first)


def _check_joint(definition: Definition, name: str, port: Port, joint: str) -> None:
    """Refuse a joint of another plug, and one that others pass too."""
    form = definition.disconnects[joint]
    if form.shell != port.group.plug:
        sentence = f"{shown(port.text)} has the plug {shown(port.group.plug)} on its lead, {shown(joint)} joins "
        do = f"Say `shell: {port.group.plug}` at {shown(joint)}, or cut a lead: name an entry of `leads` here."
        raise Refused("mate", f"{sentence}{shown(form.shell)}.", do)
    others = [other for other, circuit in definition.circuits.items() if joint in circuit.through and other != name]
    if others or form.commons:
        why = f"{shown(others[0])} passes it too" if others else "it has commons"
        do = "The plug on an own lead serves its circuit alone: give it a joint of its own, or cut a lead."
        raise Refused("value", f"{shown(joint)} can't be the plug on an own lead: {why}.", do)


def _index(definition: Definition, equipment: str, joint: str, *, first: bool) -> int | None:
    """Return which half lies in the equipment's assembly; of two the one of which nothing is said, else the free one.

    Of two that hang free it is that of the supply's side for an own lead there.
    """
    places, form = definition.places, definition.disconnects[joint]
    named = (definition.equipment[equipment].place, *(half.place for half in form.both))
    if not all(place in places for place in named):
        return None
    at, *assemblies = (places[place].assembly for place in named)
    here = [index for index in (0, 1) if assemblies[index] == at]
    bare = [i for i in here if form.both[i].reach is None and form.both[i].contacts is None and (form.halves or i)]
    usual = 0 if first and form.halves else 1
    return next(iter(bare if len(bare) == 1 else [usual] if len(here) == 2 else here), None)


def _said_too_much(definition: Definition, half: OwnHalf) -> Iterator[Finding]:
    form = definition.disconnects[half.disconnect]
    path = ("halves", half.index) if form.halves else (("fixed", "loose")[half.index],)
    for key in ("contacts", "reach"):
        if getattr(form.both[half.index], key) is not None:
            sentence = f"this half is the plug on the own lead of {shown(half.port.text)}, which says its {key}."
            where = ("disconnects", half.disconnect, *path, key)
            yield definition.wrong("value", where, sentence, f"Delete `{key}:`.")
    if definition.equipment[half.port.equipment].plug_at is not None:
        sentence = f"its plug is a half of {shown(half.disconnect)}, whose place says where it lies."
        yield definition.wrong("value", ("equipment", half.port.equipment, "plug_at"), sentence, "Delete `plug_at:`.")


def _unlike(definition: Definition, half: OwnHalf) -> Iterator[Finding]:
    """Find another half that says the same gender."""
    form, gender = definition.disconnects[half.disconnect], half.gender(definition)
    if form.both[1 - half.index].contacts == gender:
        path = ("halves", 1 - half.index) if form.halves else (("fixed", "loose")[1 - half.index],)
        sentence = f"the plug on the own lead of {shown(half.port.text)} carries {gender} too."
        do = "One half carries pins, the other sockets."
        yield definition.wrong("mate", ("disconnects", half.disconnect, *path, "contacts"), sentence, do)
