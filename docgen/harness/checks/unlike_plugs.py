"""Plugs that go into each other with their roles crossed."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, Path, caution
from docgen.harness.model.parts import Connector

KIND = caution(
    name="unlike-plugs",
    stands_on="equipment or disconnect",
    meaning="Two plugs in use can be mated, but carry their roles in another order.",
    when="Two plugs in use have the same number of contacts and the same roles, in another order of `contacts:`.",
    why="Nothing keeps one from being pushed into the other: supply on a signal, or reversed, and what is behind "
    "it is gone in a moment.",
    remedy="Change the plug of one for that of the other, or crimp its contacts over; where it can't be pushed in, "
    "accept it, `accept: {unlike-plugs: another size}`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each pair of plugs with the same roles in another order, at the one of fewer uses, else at the later."""
    users: dict[str, list[tuple[Connector, Path]]] = {}
    for plug, path in _in_use(facts):
        users.setdefault(plug.name, []).append((plug, path))
    for pair in itertools.combinations(users.values(), 2):
        first, second = sorted(pair, key=lambda used: -len(used))
        one, other = first[0][0], second[0][0]
        order, crossed = list(one.roles.values()), list(other.roles.values())
        if order != crossed and sorted(order) == sorted(crossed):
            at, instead = (listed(dict.fromkeys(shown(str(path[1])) for _, path in used)) for used in (second, first))
            sentence = (
                f"{shown(other.name)} ({', '.join(crossed)}) at {at} goes into {shown(one.name)} "
                f"({', '.join(order)}) at {instead}."
            )
            do = f"Give all the same plug, or crimp the contacts of {shown(other.name)} in the order of the other."
            yield facts.found(KIND, second[0][1], sentence, do)


def _in_use(facts: Facts) -> Iterator[tuple[Connector, Path]]:
    """Walk the plugs of ports and joints that circuits reach, with where they are named."""
    for entry in facts.harness.equipment.values():
        for port in entry.ports:
            if port.circuit is not None:
                group: Path = () if entry.nameless else ("ports", port.group)
                yield port.connector, ("equipment", entry.name, *group, "plug")
    for joint in facts.harness.disconnects.values():
        if joint.uses and joint.shell.roles:
            yield joint.shell, ("disconnects", joint.name, "shell")
