"""Take plans; give out the contacts of every disconnect, in the order in which circuits are written.

Each circuit gets one block: consecutive contacts in number order. A block is split over a gap only where no
way of giving them out can avoid it. What the builder pinned stands; what was issued stands where it can.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import chain, combinations

from docgen.basics.findings import Finding, listed, shown
from docgen.basics.frozen import frozen
from docgen.definition.kept import Issued
from docgen.definition.model import Definition
from docgen.harness.model.parts import Connector
from docgen.harness.wiring.connectors import SPLICE, Connectors
from docgen.harness.wiring.plans import Plan, alone_at

Contacts = dict[tuple[str, str], tuple[str, ...]]
"""The contacts given at (disconnect, circuit), in the order of the roles that the circuit has alone there."""

_MOST_SEARCHED = 100  # circuits through one shell
_MOST_STEPS = 20_000  # of search; past them the first fit is taken, a split more or less


def give_all_contacts(
    definition: Definition, plans: dict[str, Plan], connectors: Connectors, issued: Issued
) -> tuple[Contacts, list[Finding]]:
    """Return the contacts that every circuit has alone at every disconnect, and what does not fit."""
    contacts: Contacts = {}
    findings: list[Finding] = []
    passing: dict[str, list[Plan]] = {}
    for plan in plans.values():
        for name in dict.fromkeys(plan.form.through):
            passing.setdefault(name, []).append(plan)
    for name, form in definition.disconnects.items():
        through = passing.get(name, [])
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
            kept = tuple(issued.contacts.get((name, plan.name, role)) for role in roles)
            demands.append(Demand(plan.name, len(roles), pinned, kept, no_others=bool(shell.roles) and not found))
        given, unfit = give_contacts(free, demands, issued.used.get(name, frozenset()))
        contacts |= {(name, circuit): block for circuit, block in given.items()}
        if unfit:
            needed = sum(demand.count for demand in demands) + shared
            sentence = (
                f"{shown(form.shell)} has {len(shell.contacts)} contacts, "
                f"{needed} are needed; there is no room for {listed(unfit)}."
            )
            do = "Choose a shell with more contacts, or another disconnect for some circuits."
            findings.append(definition.wrong("contacts", ("disconnects", name, "shell"), sentence, do))
    return contacts, findings


def _pinned(plan: Plan, disconnect: str, roles: tuple[str, ...], shell: Connector) -> tuple[str, ...]:
    """Return the contacts that a circuit must have; at a plain joint of plugs they follow from the roles."""
    return _by_roles(roles, shell) if shell.roles else tuple(plan.form.contacts.get(disconnect, ()))


def _by_roles(roles: tuple[str, ...], plug: Connector) -> tuple[str, ...]:
    return tuple(contact for role in roles if (contact := plug.contact_of(role)) is not None)


def _check_pinned(
    definition: Definition, disconnect: str, plan: Plan, roles: tuple[str, ...], shell: Connector, taken: dict[str, str]
) -> Iterator[Finding]:
    pinned = plan.form.contacts.get(disconnect)
    if pinned is None:
        return
    path, subject = ("circuits", plan.name, "contacts", disconnect), ("circuits", plan.name)
    if len(pinned) != len(roles):
        sentence = f"{len(pinned)} contacts are pinned for {len(roles)} wires."
        do = f"Pin one for each, in this order: {listed(roles)}."
        yield definition.wrong("contacts", path, sentence, do)
    own: set[str] = set()
    for contact in pinned:
        position = definition.where.item(contact, *path)
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
        yield definition.wrong("contacts", path, sentence, do)


@frozen
class Demand:
    """What one circuit needs: how many contacts, which are pinned (none: any), and which was issued for each.

    At a plain joint of plugs roles have their contacts, and `no_others` will do.
    """

    circuit: str
    count: int
    pinned: tuple[str, ...] = ()
    issued: tuple[str | None, ...] = ()
    no_others: bool = False


def give_contacts(
    contacts: Sequence[str], demands: Sequence[Demand], used: Collection[str] = ()
) -> tuple[dict[str, tuple[str, ...]], list[str]]:
    """Return the contacts of each circuit, and the circuits that did not fit.

    Pins come first, then what was issued, then what circuits lack that had some, then new circuits; contacts that
    were `used` before, and are free now, come last.
    """
    free = dict.fromkeys(contacts)
    given: dict[str, list[str | None]] = {}
    for demand in demands:
        if len(demand.pinned) == demand.count and free.keys() >= set(demand.pinned):
            given[demand.circuit] = [*demand.pinned]
            free = {contact: None for contact in free if contact not in demand.pinned}
    for demand in demands:
        if demand.circuit not in given:
            kept = demand.issued or (None,) * demand.count
            given[demand.circuit] = [contact if contact in free else None for contact in kept]
            free = {contact: None for contact in free if contact not in given[demand.circuit]}
    unfit = [demand.circuit for demand in demands if demand.no_others and None in given[demand.circuit]]
    for is_new in (False, True):
        lacking = {
            demand.circuit: given[demand.circuit].count(None)
            for demand in demands
            if demand.circuit not in unfit and None in given[demand.circuit]
            if is_new == (not any(given[demand.circuit]))
        }
        blocks = _fill([*free], lacking, contacts, used)
        unfit += [circuit for circuit in lacking if circuit not in blocks]
        for circuit, block in blocks.items():
            rest = iter(block)
            given[circuit] = [contact or next(rest) for contact in given[circuit]]
            free = {contact: None for contact in free if contact not in block}
    return {circuit: tuple(map(str, some)) for circuit, some in given.items() if circuit not in unfit}, unfit


def _fill(
    free: Sequence[str], counts: Mapping[str, int], contacts: Sequence[str], used: Collection[str]
) -> dict[str, list[str]]:
    """Return a block for each circuit that fits, of contacts never used as long as they last."""
    blocks: dict[str, list[str]] = {}
    for room in ([contact for contact in free if contact not in used], free):
        left = [contact for contact in room if not any(contact in block for block in blocks.values())]
        fitting: dict[str, int] = {}
        for circuit, count in counts.items():
            if circuit not in blocks and sum(fitting.values()) + count <= len(left):
                fitting[circuit] = count
        numbers = _fewest_splits([contacts.index(contact) for contact in left], [*fitting.values()])
        blocks |= {circuit: [contacts[i] for i in block] for circuit, block in zip(fitting, numbers, strict=True)}
    return blocks


def _fewest_splits(free: list[int], counts: list[int]) -> list[list[int]]:
    """Return a block of numbers for each count, in order, lowest first, with the fewest blocks split."""
    blocks = _first_fit(free, counts)
    if all(map(_whole, blocks)) or len(counts) > _MOST_SEARCHED:
        return blocks
    for splits in range(len(counts) + 1):
        found = _Search(counts).run(tuple(free), 0, splits)
        if found is not None:
            return found
    return blocks


class _Search:
    """A search for blocks with a given number of splits; gives up after a fixed number of steps."""

    def __init__(self, counts: list[int]) -> None:
        self.counts = counts
        self.steps = 0
        self.failed: set[tuple[tuple[int, ...], int, int]] = set()

    def run(self, free: tuple[int, ...], index: int, splits: int) -> list[list[int]] | None:
        if index == len(self.counts):
            return []
        state = (free, index, splits)
        self.steps += 1
        if state in self.failed or self.steps > _MOST_STEPS:
            return None
        count = self.counts[index]
        choices: Iterable[list[int]] = _blocks(free, count)
        if splits:
            choices = chain(choices, map(list, combinations(free, count)))
        for block in choices:
            if self.steps > _MOST_STEPS:
                break
            used = splits - (0 if _whole(block) else 1)
            if used < 0:
                continue
            rest = self.run(tuple(i for i in free if i not in block), index + 1, used)
            if rest is not None:
                return [block, *rest]
        self.failed.add(state)
        return None


def _blocks(free: Sequence[int], count: int) -> list[list[int]]:
    starts = range(len(free) - count + 1)
    return [list(free[i : i + count]) for i in starts if free[i + count - 1] - free[i] == count - 1]


def _whole(block: list[int]) -> bool:
    return not block or block[-1] - block[0] == len(block) - 1


def _first_fit(free: list[int], counts: list[int]) -> list[list[int]]:
    left = list(free)
    blocks = []
    for count in counts:
        block = (_blocks(left, count) or [left[:count]])[0]
        blocks.append(block)
        left = [i for i in left if i not in block]
    return blocks
