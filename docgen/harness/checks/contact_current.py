"""What contacts carry against what they may carry."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

from docgen.basics.findings import Finding, Position, listed, shown
from docgen.basics.units import at_most, decimal
from docgen.definition.parts import ContactPart
from docgen.harness.checks.facts import CLOSE, Facts, caution
from docgen.harness.checks.gear_limit import stop_bounds_a
from docgen.harness.electrical.loadings import ContactLoading
from docgen.harness.model.circuits import CutLead
from docgen.harness.model.joints import Disconnect
from docgen.harness.model.parts import Connector, WirePart
from docgen.harness.remedies.changes import Change, CommonContacts, ContactsEach, value_of
from docgen.harness.wiring.feeds import CommonBranch
from docgen.harness.wiring.spares import spares_text, spares_to_take

KIND = caution(
    name="contact-current",
    stands_on="circuit or common",
    meaning="A contact carries more than it may.",
    when="A contact carries more than its `rating:` working, or more than its `brief:` at peak or with the load "
    "stalled (a gear leg up to `gear: stop`); brief is for 10 s at most. Legs with `gear: limit` over 10 s are also "
    "judged with `gear: stop`, else their stall, against `rating:`: all of one controller jammed together, everything "
    "else working.",
    why="A hot contact loses its spring, makes worse contact and gets hotter, until plug and socket are one "
    "lump. A stalled leg cooks its plug for as long as the controller lets it.",
    remedy="Spread a pole over more contacts of a common, `contacts: [3, 4]`; choose a `shell:` or `plug:` with "
    "stronger contacts; give a strong servo a supply of its own; or, where its strokes allow, stop a jammed leg "
    "sooner, `gear: {limit: 9 s, stop: 2.5 A}`.",
    source="Ratings are the makers'. 10 s for brief: common practice, no source.",
)


class _Case(NamedTuple):
    """What a contact carries in one case, and may carry [A]; `key` says that."""

    contact: ContactLoading
    amps: float
    may: float
    when: str
    key: str = "`rating:`"


class _Place(NamedTuple):
    """Where contacts are: in words, what is written for it, their connector, and the wires in them by role.

    `shared` is what to do to have each pole on so many contacts of a joint.
    """

    text: str
    position: Position
    subject: tuple[str, str]
    connector: Connector
    wires: dict[str, WirePart]
    joint: Disconnect | None
    shared: Callable[[int], Change]


def find(facts: Facts) -> Iterator[Finding]:
    """Find contacts of leads and commons that carry more than the part's own figures allow."""
    for at, contacts in facts.loadings.contacts.items():
        yield from _judge(facts, partial(_at_end, facts, *at), contacts)
    for branch, contact in facts.loadings.commons.items():
        yield from _judge(facts, partial(_at_common, facts, branch), [contact])


def _at_end(facts: Facts, name: str, segment: int, number: int) -> _Place:
    lead = facts.harness.circuits[name].leads[segment]
    end = lead.ends[number]
    position, joint = facts.where.value("circuits", name, ("from", "to")[number]), None
    if end.kind == "half":
        position, joint = facts.where.item(end.name, "circuits", name, "through"), facts.harness.disconnects[end.name]
    wires = {wire.role: wire.kind for wire in lead.wires} if isinstance(lead, CutLead) else {}
    shared = partial(ContactsEach, name, end.name)
    return _Place(end.text, position, ("circuits", name), end.connector, wires, joint, shared)


def _at_common(facts: Facts, branch: CommonBranch) -> _Place:
    name, common = branch
    joint = facts.harness.disconnects[name]
    position = facts.where.value("disconnects", name, "commons", common, "contacts")
    subject = "commons", f"{name} {common}"
    shared = partial(CommonContacts.of_one, joint, common)
    return _Place(f"{name}, common {common}", position, subject, joint.shell, {}, joint, shared)


def _judge(facts: Facts, place_of: Callable[[], _Place], contacts: Sequence[ContactLoading]) -> Iterator[Finding]:
    """Judge the contacts of one end together; the worst of their cases is said."""
    over = [max(cases, key=_share) for contact in contacts if (cases := [c for c in _cases(contact) if _is_over(c)])]
    if not over:
        return
    case, place = max(over, key=_share), place_of()
    roles = " and ".join(each.contact.role for each in over)
    each = "each" if case.contact.contacts > 1 or len(over) > 1 else "the contact"
    sentence = (
        f"{roles} at {place.text}: {each} carries {case.amps:.2f} A {case.when} and is rated {decimal(case.may)} A "
        f"({case.key}), {decimal(case.amps - case.may, 2)} A over."
    )
    if place.joint is not None and not place.connector.roles:
        do, change = _more_contacts(facts, place, place.joint, case, len(over))
    else:
        do, change = _heavier_plug(facts, place, case.contact), None
    do += _stop(facts, place, case.contact)
    yield KIND.at(place.position, sentence, do, place.subject, value_of([change], facts.harness), _share(case))


def _stop(facts: Facts, place: _Place, contact: ContactLoading) -> str:
    """Say at which stop the gear leg of a circuit would not overload a contact, if working does not trip that."""
    loads = facts.harness.circuits[place.subject[1]].loads if place.subject[0] == "circuits" else ()
    leg = facts.harness.equipment[loads[0].name] if len(loads) == 1 and loads[0].is_port else None
    bounds = [case.may for case in _cases(contact) if case.amps > contact.working_a]
    if leg is None or leg.kind != "gear leg" or leg.load is None or not bounds:
        return ""
    least_a, _ = stop_bounds_a(leg.load.working_a, leg.load.stall_a)
    if (least_a or 0.0) > min(bounds) or contact.working_a > contact.kind.rating_a:
        return ""
    return f" Or stop the leg at {at_most(min(bounds), 2)} A, `gear: {{stop: …}}`."


def _cases(contact: ContactLoading) -> list[_Case]:
    """Return how a contact is judged: working, stalled or at peak for 10 s at most, with gear legs jammed."""
    kind = contact.kind
    cases = [_Case(contact, contact.working_a, kind.rating_a, "working")]
    if kind.brief_a is not None:
        cases.append(_Case(contact, contact.brief_a, kind.brief_a, "for a short while", "`brief:`"))
    return [*cases, _Case(contact, contact.lasting_a, kind.rating_a, "with gear legs jammed")]


def _is_over(case: _Case) -> bool:
    return case.amps > case.may * (1 + CLOSE)


def _share(case: _Case) -> float:
    return case.amps / case.may


def _needed(contact: ContactLoading) -> int:
    """Return over how many contacts the current would have to be shared."""
    return max(math.ceil(case.amps * contact.contacts / case.may - CLOSE) for case in _cases(contact))


def _more_contacts(
    facts: Facts, place: _Place, joint: Disconnect, case: _Case, poles: int
) -> tuple[str, Change | None]:
    """Say over how many contacts of a shell each pole would do, if there are so many to spare; else which shell would.

    Shells: any of the parts list with as many contacts whose own bear it and take the wire.
    """
    contact, limits = case.contact, facts.harness.limits
    needed = _needed(contact)
    shells = [
        name
        for name, part in facts.parts.shells.items()
        if len(part.places_mm) >= len(joint.shell.contacts) and _bears(part.contact, place, contact)
    ]
    heavier = f"a heavier shell: {', '.join(f'`{name}`' for name in shells[:3])}" if shells else "a heavier shell"
    if (needed - contact.contacts) * poles <= spares_to_take(limits, joint):
        each_a = case.amps * contact.contacts / needed
        do = f"Share it over {needed} contacts (`commons:`), {each_a:.2f} A each, or use {heavier}."
        return do, place.shared(needed)
    spares = spares_text(limits, joint)
    return f"Use {heavier}: it takes {needed} contacts, and {joint.name} has too few to spare ({spares}).", None


def _bears(part: ContactPart, place: _Place, contact: ContactLoading) -> bool:
    """Tell whether another contact would bear the current and take the wire."""
    return (
        part.rating_a >= max(contact.working_a, contact.lasting_a)
        and (part.brief_a is None or part.brief_a >= contact.brief_a)
        and (contact.role not in place.wires or part.fits(place.wires[contact.role]))
    )


def _heavier_plug(facts: Facts, place: _Place, contact: ContactLoading) -> str:
    """Say which plugs with the same roles would do, else on which a supply of its own would: a pole has one contact."""
    roles = set(place.connector.roles.values())
    bear = {name: set(part.contacts.values()) for name, part in facts.parts.plugs.items()}
    bear = {name: carried for name, carried in bear.items() if _bears(facts.parts.plugs[name].contact, place, contact)}
    plugs = listed((shown(name) for name, carried in bear.items() if carried == roles), 3)
    if plugs:
        return f"Use a heavier plug: {plugs}."
    pairs = listed((shown(name) for name, carried in bear.items() if carried == {"negative", "positive"} < roles), 3)
    if pairs:
        return (
            f"No plug of the parts list with its roles bears that: give it a supply of its own on {pairs}, and this "
            "plug the signal alone; or add a heavier one to `parts.yaml`."
        )
    return "No plug of the parts list that takes its wire bears that: add a heavier one to `parts.yaml`."
