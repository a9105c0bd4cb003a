"""Say things the same way on every page: contacts, ends, halves, places."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise

from docgen.basics.units import decimal
from docgen.harness.assembly.unmeasured import Gap, Waiting
from docgen.harness.model.airframe import Place
from docgen.harness.model.circuits import End, Lead, numbered
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Disconnect, Half


def contacts_text(contacts: Sequence[str]) -> str:
    """Write contacts as they stand: `1–3` for three in a row, else `1, 3, 5`."""
    numbers = [int(contact) if contact.isdigit() else -1 for contact in contacts]
    in_a_row = all(b == a + 1 for a, b in pairwise(numbers))
    if len(contacts) > 2 and numbers[0] >= 0 and in_a_row:
        return f"{contacts[0]}–{contacts[-1]}"
    return ", ".join(contacts)


def end_text(end: End) -> str:
    """Say where an end goes: `receiver 1`, or `left-root 1–3` with the contacts of a joint, shared ones as `4+5`."""
    if end.kind != "half" or end.connector.roles:
        return end.text
    alone = [contact for role, at in end.contacts.items() if role not in end.commons for contact in at]
    if not alone:
        every = {contact for at in end.contacts.values() for contact in at}
        contacts = contacts_text([contact for contact in end.connector.contacts if contact in every])
        return numbered(end.name, "contacts", contacts)
    shared = ["+".join(at) for role, at in end.contacts.items() if role in end.commons]
    return numbered(end.name, "contacts", ", ".join([contacts_text(alone), *shared]))


def marks_text(lead: Lead) -> str:
    """Write a lead's marks; the negative carries the first number again and is left out beside others."""
    marks = [wire.mark for wire in lead.wires if wire.role != "negative" and wire.mark]
    return " ".join(marks or [wire.mark for wire in lead.wires])


def half_title(half: Half) -> str:
    """Say which half it is: `fixed half`, `loose half`, `left-panel half`."""
    return f"{half.name} half" if " " not in half.name else half.name


def half_names(harness: Harness, *, always: bool = False) -> dict[tuple[str, str], str]:
    """Return what is said of each half after its joint: which it is where both are in one assembly, or always."""
    said = {}
    for joint in harness.disconnects.values():
        one_assembly = len({harness.places[half.place].assembly for half in joint.halves}) == 1
        for half in joint.halves:
            said[joint.name, half.name] = f", {half_title(half)}" if always or one_assembly else ""
    return said


def names_of_cards(harness: Harness) -> list[str]:
    """Return the names of all joints and of all equipment that has a card."""
    return [*harness.disconnects, *(name for name, entry in harness.equipment.items() if entry.has_card)]


def opening_text(hole_mm: Sequence[float] | None) -> str:
    """Say how wide an opening is; nothing where there is none."""
    return f"{' × '.join(map(decimal, hole_mm))} mm" if hole_mm else ""


def part_path(kind: str, name: str) -> str:
    """Return where a part of the record stands in the output folder."""
    return f"record/{kind}-{name}.txt"


def place_text(place: Place) -> str:
    """Say a place, its assembly and how a hand gets there."""
    access = f" · access: {place.access}" if place.access else ""
    return f"{place.name}, {place.assembly}{access}"


def gap_text(gap: Gap) -> str:
    """Say what is not measured."""
    if gap.joint:
        return f"reach of {gap.joint}, {gap.places[1]} half"
    start, goal = gap.places
    return f"across {start}" if start == goal else f"{start} to {goal}"


STRAIGHT = "≈ straight line: measure first"


def straight_text(length_text: str, *, is_straight: bool) -> str:
    """Write a length to cut, marked where it rests on a straight line: wires go round formers, so it is too short."""
    return f"≈ {length_text}" if is_straight else length_text


def unmeasured_text(waiting: Iterable[Waiting]) -> str:
    """Say which leads have no length, by what each waits for."""
    leads: dict[str, list[str]] = {}
    for each in waiting:
        for gap in each.gaps:
            leads.setdefault(gap_text(gap), []).append(each.lead)
    return "; ".join(f"{gap}: {', '.join(names)}" for gap, names in leads.items())


def mates_text(disconnect: Disconnect, half: Half) -> str:
    """Say what a half mates with."""
    other = disconnect.other(half)
    reach = "" if other.fixed or other.reach_mm is None else f", reach {decimal(other.reach_mm)} mm"
    return f"mates with the {half_title(other)} at {other.place} ({other.gender}{reach})"


_SIDE = re.compile(r"(?<![a-z])(left|right)(?![a-z])")


def other_side(name: str) -> str:
    """Return what a name is called on the other side; itself where it has none."""
    return _SIDE.sub(lambda match: "right" if match[0] == "left" else "left", name)


def sided(names: Iterable[str]) -> list[tuple[str, ...]]:
    """Return names with those that differ by their side alone together, left first."""
    every = list(names)
    found: dict[str, tuple[str, ...]] = {}
    for name in every:
        other = other_side(name)
        if other not in found:
            found[name] = tuple(sorted((name, other))) if other != name and other in every else (name,)
    return list(found.values())


def sides_text(names: Iterable[str]) -> str:
    """Write names, those of both sides once: `left- and right-wing-a, tail`."""
    return ", ".join(_both(*pair) for pair in sided(names))


def _both(one: str, other: str = "") -> str:
    if other and one.startswith("left-") and other.startswith("right-"):
        return f"left- and {other}"
    return f"{one} and {other}" if other else one
