"""What contacts carry against what they may carry."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from docgen.basics.findings import Finding, Kind, Level, Position
from docgen.basics.units import decimal
from docgen.definition.parts import ContactPart
from docgen.harness.checks.facts import Facts
from docgen.harness.electrical.loading import (
    ContactLoading,
    common_loadings,
    contact_loadings,
)
from docgen.harness.wiring.commons import takes
from docgen.harness.wiring.spares import spares_text, spares_to_take

KIND = Kind(
    name="contact-current",
    level=Level.CAUTION,
    stands_on="circuit or common",
    meaning="A contact carries more than it may.",
    when="A contact carries more than its `rating:` working, or more than its `brief:` at peak or with the load "
    "stalled; brief is for 10 s at most. Gear legs with `gear: limit` over 10 s are also judged with `gear: stop`, "
    "else their stall, against `rating:`: all of one controller jammed together, everything else working.",
    why="A hot contact loses its spring, makes worse contact and gets hotter, until plug and socket are one "
    "lump. A stalled leg cooks its plug for as long as the controller lets it.",
    remedy="Spread a pole over more contacts of a common, `contacts: [3, 4]`; choose a `shell:` or `plug:` with "
    "stronger contacts; or, where its strokes allow, stop a jammed leg sooner, `gear: {limit: 9 s, stop: 2.5 A}`.",
    source="Ratings are the makers'. 10 s for brief: common practice, no source.",
)

_CLOSE = 1e-9


class _Case(NamedTuple):
    """What a contact carries in one case, and may carry [A]; `key` says that."""

    amps: float
    may: float
    when: str
    key: str = "`rating:`"


def find(facts: Facts) -> Iterator[Finding]:
    """Find contacts of leads and commons that carry more than the part's own figures allow.

    It stands at the end, or at the item of `through`. Gear legs count in what is carried briefly, whatever their limit;
    those whose limit is longer than that are held against the rating besides.
    """
    for circuit in facts.harness.circuits.values():
        yield from _judge(facts, contact_loadings(facts.electricity, facts.where, circuit))
    for disconnect in facts.harness.disconnects.values():
        for _, contact, _ in common_loadings(facts.harness, facts.electricity, facts.where, disconnect):
            yield from _judge(facts, [contact])


def _judge(facts: Facts, contacts: Iterable[ContactLoading]) -> Iterator[Finding]:
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
        do = _more_contacts(facts, contact, case, len(some)) if contact.disconnect and not contact.roles else ""
        yield KIND.at(contact.position, sentence, do or _heavier_plug(facts, contact), contact.subject)


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


def _more_contacts(facts: Facts, contact: ContactLoading, case: _Case, poles: int) -> str:
    """Say over how many contacts of a shell each pole would do, if there are so many to spare; else which shell would.

    Shells: any of the parts list with as many contacts whose own bear it and take the wire.
    """
    disconnect, needed = facts.harness.disconnects[contact.disconnect], _needed(contact)
    limits = facts.harness.limits
    enough = (needed - contact.contacts) * poles <= spares_to_take(limits, disconnect)
    shells = [
        name
        for name, part in facts.parts.shells.items()
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


def _heavier_plug(facts: Facts, contact: ContactLoading) -> str:
    plugs = [
        name
        for name, part in facts.parts.plugs.items()
        if set(part.contacts.values()) == contact.roles and _bears(part.contact, contact)
    ]
    if plugs:
        return f"Use a heavier plug: {', '.join(f'`{name}`' for name in plugs[:3])}."
    return f"No plug of the parts list would do: share it over {_needed(contact)} leads, or add one to `parts.yaml`."
