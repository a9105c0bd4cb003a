"""One thing whose loss takes the aircraft with it, though receivers or radio packs are doubled."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from docgen.basics.findings import PRACTICE, Finding, Level, listed, shown
from docgen.harness.checks.facts import Facts, caution, subject_of
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Function, Loss

KIND = caution(
    name="one-loss",
    stands_on="equipment, disconnect, common or circuit",
    meaning="The loss of one thing stops every receiver or every servo, or both of a pair.",
    when="There are two receivers, or two packs that feed receivers, and yet the loss of one thing stops all receivers "
    "or all servos; a note where it stops the left and the right servo of a pair. Not told is "
    "an only receiver; nor, of a pair, another receiver, or a joint that is the only one between two assemblies. "
    "Servos of gear doors, which a gear controller moves, are left out.",
    why="What is doubled is doubled so that nothing alone can bring the aircraft down; the one thing that all hangs on "
    "undoes it unseen.",
    remedy="Feed half of it another way: a second unit, a second lead (`to: receiver-b BATT`), the right one of a pair "
    "through another joint (`through: [tail-b]`). A unit that is doubled within may be accepted, with that as reason.",
    source=PRACTICE,
)

_SECTIONS = {"joint": "disconnects", "common": "disconnects", "splice": "circuits", "lead": "circuits"}
_SIDE = re.compile(r"(?<![a-z])(left|right)(?![a-z])")


def find(facts: Facts) -> Iterator[Finding]:
    """Find what stops all receivers or servos, and what stops both servos of a pair; the worse alone is said."""
    harness = facts.harness
    receivers = {name for name, entry in harness.equipment.items() if entry.kind == "receiver"}
    packs = {pack for name in receivers for pack in facts.electricity.network.packs[name]}
    if len(receivers) < 2 and len(packs) < 2:
        return
    servos = {
        one.load
        for one in harness.losses.functions
        if harness.equipment[one.load].kind == "servo" and not _is_of_gear(harness, one)
    }
    only = set(_only_joints(harness))
    for loss in harness.losses.losses:
        if receivers == {loss.thing.name}:
            continue
        if receivers.issubset(loss.receivers):
            yield _found(facts, loss, "every receiver" if len(receivers) > 1 else "the receiver")
        elif len(servos) > 1 and servos.issubset(loss.stopped):
            yield _found(facts, loss, "every servo")
        elif loss.thing.kind != "receiver" and not (loss.thing.kind == "joint" and loss.thing.name in only):
            pairs = list(_pairs([name for name in loss.stopped if name in servos]))
            if pairs:
                yield replace(_found(facts, loss, f"both of {listed(pairs)}"), level=Level.NOTE)


def _is_of_gear(harness: Harness, one: Function) -> bool:
    """Tell whether a gear controller moves it, such as the servo of a door."""
    starts = (harness.circuits[name].start.name for name in one.circuits)
    return any(start in harness.equipment and harness.equipment[start].kind == "gear controller" for start in starts)


def _pairs(names: list[str]) -> Iterator[str]:
    """Walk pairs of a left and a right one, each by the name that both have."""
    every = set(names)
    for name in names:
        if "left" in _SIDE.findall(name) and _SIDE.sub("right", name) in every:
            yield shown(_SIDE.sub("<side>", name))


def _only_joints(harness: Harness) -> Iterator[str]:
    """Walk the joints that are the only one between two assemblies."""
    joined: dict[frozenset[str], list[str]] = {}
    for name, joint in harness.disconnects.items():
        joined.setdefault(frozenset(harness.places[half.place].assembly for half in joint.halves), []).append(name)
    yield from (names[0] for names in joined.values() if len(names) == 1)


def _found(facts: Facts, loss: Loss, stopped: str) -> Finding:
    kind, name = loss.thing
    first, *below = name.split()
    section = _SECTIONS.get(kind, "equipment")
    path = (first, "commons", *below) if kind == "common" else (first,)
    sentence = f"without the {kind} {shown(name)} {stopped} stops."
    do = "Feed half of it another way; or accept it with what makes it safe enough."
    return KIND.at(facts.where.key(section, *path), sentence, do, subject_of(section, *path))
