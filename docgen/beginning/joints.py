"""Which shells the joints are, and which circuits pass which: the least shell with contacts to spare."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from string import ascii_lowercase, ascii_uppercase

from docgen.beginning.airframe import Joint, joints_to, part_of
from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, SIDES, Draft, Entry
from docgen.definition.load import built_in_parts

SPARE = 2  # contacts of each joint: FAA AC 43.13-1B, 11-234
_PATTERNS = {"block": "block-", "d-shell": "dsub-"}

_Passing = tuple[str, int]
"""A circuit, of a pair for each side, and how many contacts it takes."""


def fit_joints(draft: Draft, answers: Answers) -> None:
    """Give each circuit its way through joints, and each joint its shell."""
    shells = _shells(answers)
    most = max(shells.values()) - SPARE
    ways: dict[str, list[str]] = {}
    fitted: list[Entry] = []
    for joint, passing in _passing(draft, answers).items():
        name, circuits = _by_side(joint.name, passing, most)
        loads = _shared_out(circuits, most)
        for letter, load in zip(ascii_lowercase, loads, strict=False):
            lettered = name if len(loads) == 1 else f"{name}-{letter}"
            shell = min((size, shell) for shell, size in shells.items() if size >= _contacts(load) + SPARE)[1]
            fitted.append(_accepted(draft, answers, _entry(joint, lettered, shell), load))
            for circuit, _ in load:
                ways.setdefault(circuit, []).append(lettered)
    draft.joints += _keyed(fitted)
    draft.circuits[:] = [_through(circuit, ways.get(circuit.name, [])) for circuit in draft.circuits]


def _shells(answers: Answers) -> dict[str, int]:
    """Return the built-in shells of the pattern that was chosen, with their contacts."""
    shells = built_in_parts()["shells"]
    pattern = _PATTERNS[answers.shells]
    return {name: len(shell.places_mm) for name, shell in shells.items() if name.startswith(pattern)}


def _passing(draft: Draft, answers: Answers) -> dict[Joint, list[_Passing]]:
    """Return what passes each joint."""
    leads = built_in_parts()["leads"]
    passing: dict[Joint, list[_Passing]] = {}
    for circuit in draft.circuits:
        start, goal = (part_of(draft.place_of(_first(circuit.fields[end]))) for end in ("from", "to"))
        if start != goal:
            contacts = len(leads[circuit.fields["lead"]].wires)
            for joint in joints_to(answers, goal):
                passing.setdefault(joint, []).append((circuit.name, contacts))
    return passing


def _by_side(name: str, circuits: list[_Passing], most: int) -> tuple[str, list[_Passing]]:
    """Return the name of a joint and what passes it: one for both sides if both fit, else one for each."""
    doubled = [(circuit, count * (1 + (SIDE in circuit and SIDE not in name))) for circuit, count in circuits]
    if _contacts(doubled) <= most or any(SIDE not in circuit for circuit, _ in circuits):
        return name, doubled
    return (name if SIDE in name else f"{SIDE}-{name}"), circuits


def _first(end: str | Mapping[str, str]) -> str:
    """Return the equipment that an end of a circuit names, of two sides that on the left."""
    return (end if isinstance(end, str) else end["left"]).split()[0]


def _shared_out(circuits: list[_Passing], most: int) -> list[list[_Passing]]:
    """Share circuits out over as few joints as hold them, each to the emptiest: so two of a surface go apart."""
    tried = (_loads(circuits, number) for number in itertools.count(-(-_contacts(circuits) // most)))
    return next(loads for loads in tried if max(map(_contacts, loads)) <= most)


def _loads(circuits: list[_Passing], number: int) -> list[list[_Passing]]:
    loads: list[list[_Passing]] = [[] for _ in range(number)]
    for circuit in circuits:
        min(loads, key=_contacts).append(circuit)
    return loads


def _contacts(load: Iterable[_Passing]) -> int:
    return sum(count for _, count in load)


def _entry(joint: Joint, name: str, shell: str) -> Entry:
    fields = {
        "shell": shell,
        "fixed": {"place": joint.fixed[0], "contacts": "sockets"},
        "loose": {"place": joint.loose[0], "contacts": "pins"},
    }
    return Entry(name, fields)


def _accepted(draft: Draft, answers: Answers, joint: Entry, load: list[_Passing]) -> Entry:
    """Return a joint that says why it carries every servo of a radio with two packs, if it does."""
    servos = {entry.name for entry in draft.equipment if entry.fields["kind"] == "servo"}
    doubled = answers.packs == "two-packs" and answers.radio_servos > 1
    if not doubled or not servos <= {circuit for circuit, _ in load}:
        return joint
    accept = {"one-loss": "all servos are in the tail, and that comes off as one"}
    return replace(joint, fields={**joint.fields, "accept": accept}, beside={"accept": "or share them out over two"})


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


def _through(circuit: Entry, joints: list[str]) -> Entry:
    """Say which joints a circuit passes, before its lead."""
    if not joints:
        return circuit
    fields: dict[str, object] = {}
    for key, value in circuit.fields.items():
        fields |= {"through": joints} if key == "lead" else {}
        fields[key] = value
    return replace(circuit, fields=fields)
