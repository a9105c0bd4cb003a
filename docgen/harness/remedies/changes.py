"""Changes that a builder could make, a class for each kind: its words, its value as data, what it is done to."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable, Iterator
from dataclasses import field, replace
from typing import Self

from docgen.basics.findings import RemedyValue
from docgen.basics.frozen import frozen
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Disconnect
from docgen.harness.remedies.rework import Rework


class Change(ABC):
    """One thing to do."""

    @abstractmethod
    def apply(self, rework: Rework) -> None:
        """Do it."""

    @abstractmethod
    def text(self, harness: Harness) -> str:
        """Say it, as the end of a sentence."""

    @abstractmethod
    def values(self, harness: Harness) -> list[RemedyValue]:
        """Return it as data, one for each entry that is written otherwise."""

    def weaker(self) -> Iterator[Self]:
        """Walk the same with one of its parts as it is now or weaker, the weakest first; nothing where it has one."""
        yield from ()


@frozen
class ThickerLeads(Change):
    """Circuits that are written in one entry, with leads of other parts: those of all their segments.

    `now` are their parts as they are, `choices` the thicker ones for each segment, the thinnest first.
    """

    circuits: tuple[str, ...]
    parts: tuple[str, ...]
    now: tuple[str, ...] = field(repr=False)
    choices: tuple[tuple[str, ...], ...] = field(repr=False)

    def apply(self, rework: Rework) -> None:
        """Make the leads that change of their new parts."""
        for circuit in self.circuits:
            for segment in self._changed():
                rework.make_of(circuit, segment, self.parts[segment])

    def text(self, harness: Harness) -> str:
        """Name the one part, or that of each segment."""
        lead = self._lead(harness)
        by_segment = "{" + ", ".join(f"{segment}: {part}" for segment, part in lead.items()) + "}"
        return f"wire {' and '.join(self.circuits)} with `{by_segment if len(set(self.parts)) > 1 else self.parts[0]}`"

    def values(self, harness: Harness) -> list[RemedyValue]:
        """Return what is written at `lead`."""
        lead = self._lead(harness) if len(set(self.parts)) > 1 else self.parts[0]
        return [{"circuit": circuit, "lead": lead} for circuit in self.circuits]

    def weaker(self) -> Iterator[Self]:
        """Walk it with one lead as it is now, or of a thinner part; the last are left out first."""
        for segment in self._changed():
            choices = self.choices[segment]
            for part in (self.now[segment], *choices[: choices.index(self.parts[segment])]):
                fewer = replace(self, parts=(*self.parts[:segment], part, *self.parts[segment + 1 :]))
                if fewer.parts != self.now:
                    yield fewer

    def _changed(self) -> list[int]:
        pairs = zip(self.now, self.parts, strict=True)
        return [segment for segment, (now, part) in enumerate(pairs) if now != part]

    def _lead(self, harness: Harness) -> dict[str, str]:
        return dict(zip(harness.circuits[self.circuits[0]].form.letters, self.parts, strict=True))


@frozen
class ThickerOwnLeads(Change):
    """The own lead at one end of a segment of circuits that are written in one entry, of other wire."""

    circuits: tuple[str, ...]
    segment: int
    end: int
    wire: str

    def apply(self, rework: Rework) -> None:
        """Make the own leads of the wire."""
        for circuit in self.circuits:
            rework.make_own_of(circuit, self.segment, self.end, self.wire)

    def text(self, harness: Harness) -> str:
        """Name the equipment and the wire."""
        what = "an own lead" if len(self.circuits) == 1 else "own leads"
        gauge = next(kind.gauge.text for kind in harness.wires if kind.name == self.wire)
        return f"give {' and '.join(self._equipment(harness))} {what} of {gauge} (`lead_wire: {self.wire}`)"

    def values(self, harness: Harness) -> list[RemedyValue]:
        """Return what is written at `lead_wire`."""
        return [{"equipment": name, "lead_wire": self.wire} for name in self._equipment(harness)]

    def _equipment(self, harness: Harness) -> list[str]:
        ends = [harness.circuits[name].leads[self.segment].ends[self.end] for name in self.circuits]
        return list(dict.fromkeys(end.name for end in ends if end.own is not None))


@frozen
class ContactsEach(Change):
    """Several contacts for each pole that a circuit has alone at a disconnect."""

    circuit: str
    disconnect: str
    contacts_each: int = 2

    def apply(self, rework: Rework) -> None:
        """Give it the contacts."""
        rework.contacts_each[self.circuit, self.disconnect] = self.contacts_each

    def text(self, _: Harness) -> str:
        """Name the circuit and the disconnect; no more than a second contact is sought."""
        return f"give each pole of {self.circuit} a second contact at {self.disconnect} (`commons:`)"

    def values(self, _: Harness) -> list[RemedyValue]:
        """Return how many contacts the commons have that are written for it."""
        return [{"circuit": self.circuit, "disconnect": self.disconnect, "contacts_each": self.contacts_each}]


@frozen
class CommonContacts(Change):
    """Commons of one disconnect with more contacts; the contacts of each, and now."""

    disconnect: str
    commons: tuple[str, ...]
    counts: tuple[int, ...]
    now: tuple[int, ...]

    @classmethod
    def of_one(cls, joint: Disconnect, common: str, count: int) -> CommonContacts:
        """Return one common with so many contacts."""
        return cls(joint.name, (common,), (count,), (len(joint.commons[common].contacts),))

    def apply(self, rework: Rework) -> None:
        """Give the commons that change their contacts."""
        for common, count in self._changed():
            rework.contacts_of[self.disconnect, common] = count

    def text(self, _: Harness) -> str:
        """Name each common and its contacts."""
        counts = [f"the common {common} of {self.disconnect} {count} contacts" for common, count in self._changed()]
        return f"give {' and '.join(counts)} (`contacts:`)"

    def values(self, _: Harness) -> list[RemedyValue]:
        """Return how many contacts are written."""
        return [
            {"disconnect": self.disconnect, "common": common, "contacts": count} for common, count in self._changed()
        ]

    def weaker(self) -> Iterator[Self]:
        """Walk it with one common as it is now, or with fewer contacts; the fewest first."""
        for index, (now, count) in enumerate(zip(self.now, self.counts, strict=True)):
            for fewer in range(now, count):
                counts = (*self.counts[:index], fewer, *self.counts[index + 1 :])
                if counts != self.now:
                    yield replace(self, counts=counts)

    def _changed(self) -> list[tuple[str, int]]:
        triples = zip(self.commons, self.now, self.counts, strict=True)
        return [(common, count) for common, now, count in triples if count != now]


def value_of(changes: Iterable[Change | None], harness: Harness) -> RemedyValue | None:
    """Return changes as data: one as it is, several under `all`, nothing for none."""
    values = [value for change in changes if change is not None for value in change.values(harness)]
    return {"all": values} if len(values) > 1 else next(iter(values), None)
