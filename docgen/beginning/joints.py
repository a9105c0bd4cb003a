"""Which shells the joints are, and which circuits pass which: the least shell with contacts to spare."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from string import ascii_lowercase, ascii_uppercase

from docgen.beginning.airframe import Joint, joints_to, part_of
from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, SIDES, Draft, Entry
from docgen.definition.load import built_in_parts

SPARE = 2  # contacts of each joint: FAA AC 43.13-1B, 11-234
_PATTERNS = {"block": "block-", "d-shell": "dsub-"}

_Passing = tuple[str, str, int]
"""A circuit, the side that passes or nothing for both, and how many contacts it takes."""


def fit_joints(draft: Draft, answers: Answers) -> None:
    """Give each circuit its way through joints, and each joint its shell."""
    shells = _shells(answers)
    passing = _passing(draft, answers)
    ways: dict[str, dict[str, list[str]]] = {}
    fitted: list[Entry] = []
    for joint, circuits in passing.items():
        loads = _shared_out(circuits, max(shells.values()) - SPARE, _least_joints(draft, answers, circuits))
        for letter, load in zip(ascii_lowercase, loads, strict=False):
            name = joint.name if len(loads) == 1 else f"{joint.name}-{letter}"
            contacts = sum(count for *_, count in load)
            shell = min((size, shell) for shell, size in shells.items() if size >= contacts + SPARE)[1]
            fitted.append(_entry(joint, name, shell))
            for circuit, side, _ in load:
                ways.setdefault(circuit, {}).setdefault(side, []).append(name)
    draft.joints += _keyed(fitted)
    draft.circuits[:] = [_through(circuit, ways.get(circuit.name, {})) for circuit in draft.circuits]


def _shells(answers: Answers) -> dict[str, int]:
    """Return the built-in shells of the pattern that was chosen, with their contacts."""
    shells = built_in_parts()["shells"]
    pattern = _PATTERNS[answers.shells]
    return {name: len(shell.places_mm) for name, shell in shells.items() if name.startswith(pattern)}


def _passing(draft: Draft, answers: Answers) -> dict[Joint, list[_Passing]]:
    """Return what passes each joint; where one joint is for both sides, each side by itself."""
    leads = built_in_parts()["leads"]
    passing: dict[Joint, list[_Passing]] = {}
    for circuit in draft.circuits:
        start, goal = (part_of(draft.place_of(_first(circuit.fields[end]))) for end in ("from", "to"))
        if start == goal:
            continue
        contacts = len(leads[circuit.fields["lead"]].wires)
        for joint in joints_to(answers, goal):
            both = SIDE in circuit.name and SIDE not in joint.name
            passing.setdefault(joint, []).extend((circuit.name, side, contacts) for side in (SIDES if both else ("",)))
    return passing


def _first(end: str | Mapping[str, str]) -> str:
    """Return the equipment that an end of a circuit names, of two sides that on the left."""
    return (end if isinstance(end, str) else end["left"]).split()[0]


def _least_joints(draft: Draft, answers: Answers, circuits: list[_Passing]) -> int:
    """Return over how many joints circuits go at least: where the radio is doubled no joint carries every servo."""
    servos = {entry.name for entry in draft.equipment if entry.fields["kind"] == "servo"}
    passing = {circuit for circuit, *_ in circuits}
    return 2 if answers.packs == "two-packs" and servos <= passing and len(circuits) > 1 else 1


def _shared_out(circuits: list[_Passing], most: int, least: int) -> list[list[_Passing]]:
    """Share circuits out over as few joints as hold them, each to the emptiest: so pairs go apart."""
    number = max(least, -(-_contacts(circuits) // most))
    while True:
        loads: list[list[_Passing]] = [[] for _ in range(number)]
        for circuit in circuits:
            min(loads, key=_contacts).append(circuit)
        if max(map(_contacts, loads)) <= most:
            return loads
        number += 1


def _contacts(load: Iterable[_Passing]) -> int:
    return sum(count for *_, count in load)


def _entry(joint: Joint, name: str, shell: str) -> Entry:
    fields = {
        "shell": shell,
        "fixed": {"place": joint.fixed[0], "contacts": "sockets"},
        "loose": {"place": joint.loose[0], "contacts": "pins"},
    }
    return Entry(name, fields)


def _keyed(joints: list[Entry]) -> Iterator[Entry]:
    """Give joints of one shell letters, so that none is mated with another's half."""
    letters = {shell: iter(ascii_uppercase) for shell in {joint.fields["shell"] for joint in joints}}
    for joint in joints:
        of_shell = letters[joint.fields["shell"]]
        alike = [other for other in joints if other.fields["shell"] == joint.fields["shell"]]
        if len(alike) == 1 and SIDE not in joint.name:
            yield joint
            continue
        keyed = {side: next(of_shell) for side in SIDES} if SIDE in joint.name else next(of_shell)
        yield replace(joint, fields={**joint.fields, "keyed": keyed})


def _through(circuit: Entry, ways: Mapping[str, list[str]]) -> Entry:
    """Say which joints a circuit passes, by side where those differ."""
    if not ways:
        return circuit
    through: list[str] | dict[str, list[str]] = ways.get("", [])
    if len(ways) > 1:
        sides = {side: ways[side] + ways.get("", []) for side in SIDES}
        through = sides["left"] if sides["left"] == sides["right"] else sides
    fields: dict[str, object] = {}
    for key, value in circuit.fields.items():
        if key == "lead":
            fields["through"] = through
        fields[key] = value
    return replace(circuit, fields=fields)
