"""Take a path of current and a limit and return the least change that keeps it: leads, own leads, contacts.

A lever is one thing that can be changed, with its changes from the weakest to the strongest. First each lever of
wires is tried alone, then all of them together, then those of contacts with them: contacts to spare are for later.
Together they are tried at their thickest, then at their least resistance, as a twisted lead is longer than a straight
one. What is found is made as weak as still holds: as thin, or of as few contacts.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections import Counter
from collections.abc import Callable, Hashable, Iterator, Sequence

from docgen.basics.findings import RemedyValue
from docgen.basics.frozen import frozen
from docgen.definition.model import Definition
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.harness import Harness
from docgen.harness.remedies.changes import (
    Change,
    CommonContacts,
    ContactsEach,
    ThickerLeads,
    ThickerOwnLeads,
    value_of,
)
from docgen.harness.remedies.choices import Choices
from docgen.harness.remedies.rework import Rework, alone_at
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch
from docgen.harness.wiring.spares import spares_to_take

Over = Callable[[Electricity], float]
"""By how much something is over its limit; it holds at 0 and under."""

_Lever = list[Change]
_OverWith = Callable[[Sequence[Change | None]], float]


@frozen
class Remedy:
    """What would do, in words and as data, and the electricity with it; where nothing does, with what comes nearest."""

    text: str
    value: RemedyValue | None
    after: Electricity

    def said(self, now: str, then: str, after: str, instead: str) -> str:
        """Say it and what comes of it, `then` with words `after`; where nothing does, what to do instead."""
        if self.value is not None:
            return f"{self.text[0].upper()}{self.text[1:]}: {then} {after}."
        best = f" ({then} at best)" if then != now else ""
        return f"Neither thicker leads nor more contacts would do{best}: {instead}."


class Remedies:
    """Looks for remedies in one harness."""

    def __init__(self, definition: Definition, harness: Harness, electricity: Electricity) -> None:
        self.harness = harness
        self.choices = Choices(definition, harness, electricity)
        self._ohms: dict[tuple[Change, ...], dict[Branch, float] | None] = {}

    def find(self, path: Sequence[Branch], over: Over) -> Remedy:
        """Return the least that makes it hold of what can be changed along a path of current."""
        known: dict[frozenset[tuple[Branch, float]], float] = {}  # what changes to the same comes up again and again

        def over_with(changes: Sequence[Change | None]) -> float:
            ohms = self._resistances_ohm([change for change in changes if change is not None])
            if ohms is None:
                return math.inf
            key = frozenset(ohms.items())
            if key not in known:
                known[key] = over(self.choices.electricity.over(ohms))
            return known[key]

        nearest: list[list[Change]] = []
        for found in self._tries(path, over_with):
            if over_with(_strongest(found)) <= 0:
                return self._made(_as_weak_as_holds(found, over_with), does=True)
            nearest = min(nearest, found, key=lambda found: over_with(_strongest(found)))
        return self._made(_nearest(nearest, over_with), does=False)

    def _made(self, changes: Sequence[Change], *, does: bool) -> Remedy:
        after = self.after(changes)
        assert after is not None
        text = "; and ".join(change.text(self.harness) for change in changes)
        return Remedy(text, value_of(changes, self.harness) if does else None, after)

    def after(self, changes: Sequence[Change]) -> Electricity | None:
        """Return the electricity with changes made; nothing where they can't be."""
        ohms = self._resistances_ohm(changes)
        return None if ohms is None else self.choices.electricity.over(ohms)

    def _can_be(self, changes: Sequence[Change]) -> bool:
        return self._resistances_ohm(changes) is not None

    def _resistances_ohm(self, changes: Sequence[Change]) -> dict[Branch, float] | None:
        """Return the resistances that changes alter, each worked out once: the same are tried for many remedies."""
        key = tuple(changes)
        if key not in self._ohms:
            rework = Rework(self.choices)
            for change in changes:
                change.apply(rework)
            self._ohms[key] = rework.resistances_ohm()
        return self._ohms[key]

    def _tries(self, path: Sequence[Branch], over_with: _OverWith) -> Iterator[list[list[Change]]]:
        """Walk what is tried, each as changes of some levers up to their strongest; the first that holds is taken.

        What is tried later is only then worked out.
        """
        names = dict.fromkeys(branch.circuit for branch in path if isinstance(branch, WireBranch))
        circuits = [self.harness.circuits[name] for name in names]
        entries = self._entries(circuits)
        owns = [lever for alike in entries for lever in self._own_leads(alike)]
        thickest = [*(self._thicker(alike) for alike in entries), *owns]
        yield _alone(thickest, over_with)
        yield self._together(thickest, over_with)
        least_ohm = [*(self._thicker(alike, least_ohm=True) for alike in entries), *owns]
        yield self._together(least_ohm, over_with)
        contacts = [*self._seconds(circuits), *self._commons(path)]
        yield _alone(contacts, over_with)
        yield self._together([*thickest, *contacts], over_with)
        yield self._together([*least_ohm, *contacts], over_with)

    def _together(self, levers: Sequence[_Lever], over_with: _OverWith) -> list[list[Change]]:
        """Return the changes of as many levers as are needed, or of all, each up to its strongest."""
        chosen: list[list[Change]] = []
        for lever in levers:
            possible = [change for change in lever if self._can_be([*_strongest(chosen), change])]
            if possible:
                chosen.append(possible)
                if over_with(_strongest(chosen)) <= 0:
                    break
        return chosen

    def _entries(self, circuits: Sequence[Circuit]) -> list[list[Circuit]]:
        """Return circuits, those together that were written in one entry (`<side>-pack`) and could be changed alike."""
        entries: dict[Hashable, list[Circuit]] = {}
        at = Counter(circuit.position for circuit in circuits)
        for circuit in circuits:
            could_be = self._could_be(circuit) if at[circuit.position] > 1 else ()
            entries.setdefault((circuit.position, *could_be), []).append(circuit)
        return list(entries.values())

    def _could_be(self, circuit: Circuit) -> Iterator[Hashable]:
        """Walk what leads and own leads of a circuit are and could be."""
        for cut in circuit.cut_leads:
            yield cut.part.name, *self.choices.leads_for(circuit, cut)
        for lead in circuit.leads:
            for end in lead.ends:
                if end.own is not None:
                    now = end.own.kind and end.own.kind.name
                    yield now, *(kind.name for kind in self.choices.own_wires_for(circuit, lead, end))

    def _thicker(self, alike: Sequence[Circuit], *, least_ohm: bool = False) -> _Lever:
        """Return circuits of one entry wired with ever thicker leads of the parts list that their contacts take.

        With `least_ohm` of each size the lead of least resistance, and last each segment's of all.
        """
        circuit, names = alike[0], tuple(other.name for other in alike)
        cut = {lead.segment: self.choices.leads_for(circuit, lead, least_ohm=least_ohm) for lead in circuit.cut_leads}
        sized = [cut.get(lead.segment, []) for lead in circuit.leads]
        now = tuple(lead.made_of for lead in circuit.leads)
        choices = tuple(tuple(name for _, name in some) for some in sized)
        found = [
            tuple(
                next((name for size, name in some if size >= least), some[-1][1] if some else part)
                for part, some in zip(now, sized, strict=True)
            )
            for least in sorted({size for some in sized for size, _ in some})
        ]
        if least_ohm and found:
            best = tuple(
                min(some, key=functools.partial(self.choices.ohm, circuit, lead), default=lead.made_of)
                for lead, some in zip(circuit.leads, choices, strict=True)
            )
            found = [*itertools.takewhile(lambda parts: parts != best, found), best]
        lever: _Lever = [ThickerLeads(names, parts, now, choices) for parts in found]
        return [change for change in lever if self._can_be([change])]

    def _own_leads(self, alike: Sequence[Circuit]) -> Iterator[_Lever]:
        """Walk the own leads at the ends of circuits of one entry, of ever thicker wire."""
        circuit, names = alike[0], tuple(other.name for other in alike)
        for index, lead in enumerate(circuit.leads):
            for number, end in enumerate(lead.ends):
                if end.own is not None:
                    kinds = self.choices.own_wires_for(circuit, lead, end)
                    yield [ThickerOwnLeads(names, index, number, kind.name) for kind in kinds]

    def _seconds(self, circuits: Sequence[Circuit]) -> Iterator[_Lever]:
        """Walk the joints that circuits pass, with a second contact for each pole there."""
        for circuit in circuits:
            joints = [lead.ends[0].name for lead in circuit.leads if lead.ends[0].kind == "half"]
            for name in dict.fromkeys(joints):
                change = ContactsEach(circuit.name, name)
                if alone_at(self.harness, circuit.name, name) and self._can_be([change]):
                    yield [change]

    def _commons(self, path: Sequence[Branch]) -> Iterator[_Lever]:
        """Walk the disconnects with commons on a path, those with ever more contacts of those to spare."""
        passed = [branch for branch in path if isinstance(branch, CommonBranch)]
        for name in dict.fromkeys(branch.disconnect for branch in passed):
            commons = tuple(dict.fromkeys(branch.common for branch in passed if branch.disconnect == name))
            disconnect = self.harness.disconnects[name]
            now = tuple(len(disconnect.commons[common].contacts) for common in commons)
            more = range(1, 1 + spares_to_take(self.harness.limits, disconnect))
            lever: _Lever = [
                CommonContacts(name, commons, tuple(count + extra for count in now), now) for extra in more
            ]
            possible = [change for change in lever if self._can_be([change])]
            if possible:
                yield possible


def _strongest(found: Sequence[Sequence[Change]]) -> list[Change]:
    return [changes[-1] for changes in found]


def _alone(levers: Sequence[_Lever], over_with: _OverWith) -> list[list[Change]]:
    """Return the first lever that does alone, up to the weakest change that does, or nothing."""
    for lever in levers:
        for number, change in enumerate(lever, 1):
            if over_with([change]) <= 0:
                return [lever[:number]]
    return []


def _nearest(found: Sequence[Sequence[Change]], over_with: _OverWith) -> list[Change]:
    """Return changes, one at most of each lever, as near to the limit as any one of them can be made to bring it."""
    chosen: list[Change | None] = [changes[-1] for changes in found]
    before: list[Change | None] = []
    while chosen != before:
        before = list(chosen)
        for index, lever in enumerate(found):
            tried = [[*chosen[:index], change, *chosen[index + 1 :]] for change in (None, *lever)]
            chosen = min(tried, key=over_with)
    return [change for change in chosen if change is not None]


def _as_weak_as_holds(found: Sequence[Sequence[Change]], over_with: _OverWith) -> list[Change]:
    """Return changes, one at most of each lever, each as weak as holds with the others; the last are left out first."""
    chosen: list[Change | None] = [changes[-1] for changes in found]

    def holds_with(index: int, change: Change | None) -> bool:
        return over_with([*chosen[:index], change, *chosen[index + 1 :]]) <= 0

    before: list[Change | None] = []
    while chosen != before:  # again, as the strongest of a lever need not be the best
        before = list(chosen)
        for index in reversed(range(len(found))):
            lever, now = found[index], chosen[index]
            weaker = [None, *(lever[: lever.index(now)] if now in lever else ())]
            chosen[index] = next((change for change in weaker if holds_with(index, change)), now)
            chosen[index] = _weakened(chosen[index], functools.partial(holds_with, index))
    return [change for change in chosen if change is not None]


def _weakened(change: Change | None, holds: Callable[[Change], bool]) -> Change | None:
    """Return a change with each of its parts as it is now, or as weak as it holds with."""
    weaker = change
    while weaker is not None:
        change, weaker = weaker, next(filter(holds, weaker.weaker()), None)
    return change
