"""Whether contacts and marks are still those that were issued; and whether what was issued is said to be built."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.basics.frozen import frozen
from docgen.definition.issues import Issues
from docgen.definition.model import Where
from docgen.harness.checks.facts import Path, caution, note, subject_of
from docgen.harness.model.harness import Harness

KIND = caution(
    name="moved",
    stands_on="circuit",
    meaning="A contact, number or mark is another than was issued or printed.",
    when="A circuit has another contact at a disconnect, or another wire number, than in the last issue: because it, "
    "or a common, is pinned there, a shell has that contact no more, or `function:` is another. Or `print` finds "
    "other contacts or marks in the record of an earlier print in the same folder.",
    why="The wires are crimped, and labels are shrunk on. A card that says another contact than the plug has leads to "
    "two reversed servos, or to a pack on a signal wire.",
    remedy="Leave the pin out, `contacts: {left-root: [4, 5, 6]}`, and what is in the aircraft stays. If it has to be "
    "so, `docgen issue` prints what must be extracted and inserted, and the cards that take the place of the old ones.",
    source=PRACTICE,
)
UNBUILT = note(
    name="unbuilt",
    stands_on="aircraft",
    meaning="An issue is not said to be built.",
    when="The last issue was kept by `docgen issue`, and `docgen built` was not said since.",
    why="Until it is said, what comes next is compared with what was built before, so that nothing is left undone.",
    remedy="When the last box of the rework sheet, or of a first set the ring-out, is ticked: `docgen built DIR`.",
    source=PRACTICE,
)


@frozen
class Given:
    """What contacts and numbers were, and where that is said: `as issued in A`, `in the paper in out/wren`.

    `contacts` are by disconnect, circuit and role, `commons` by disconnect and name, `numbers` by circuit and role.
    """

    says: str
    contacts: Mapping[tuple[str, str, str], str]
    commons: Mapping[tuple[str, str], tuple[str, ...]]
    numbers: Mapping[str, Mapping[str, str]]


@frozen
class _Holder:
    """A circuit or common with the contacts that it has alone at a disconnect, of those that it had the ones then.

    `path` is where it, or its contacts if they are `typed`, were written.
    """

    name: str
    disconnect: str
    now: tuple[str, ...]
    moves: tuple[tuple[str, str], ...]
    path: Path
    typed: bool

    @property
    def was(self) -> set[str]:
        """Return contacts that it had and has no more."""
        return {before for before, _ in self.moves} - set(self.now)

    @property
    def move_text(self) -> str:
        """Say from where to where it moves."""
        before, after = (", ".join(some) for some in zip(*self.moves, strict=True))
        return f"{shown(self.name)} from {before} to {after}"

    def finding(self, where: Where, disturbed: Sequence[_Holder], says: str) -> Finding:
        """Return what is said of it, and whom it disturbs."""
        section, *below = self.path
        now = ", ".join(dict.fromkeys(after for _, after in self.moves) if self.moves else self.now)
        before = ", ".join(dict.fromkeys(before for before, _ in self.moves))
        sentence = f"{shown(self.name)} has {now} at {shown(self.disconnect)}{f', {before} {says}' if before else ''}."
        if disturbed:
            others = " and ".join(other.move_text for other in disturbed)
            sentence += f" That moves {others}{'' if before else f', {says}'}."
        position, subject = where.value(str(section), *below), subject_of(str(section), *below)
        return KIND.at(position, sentence, _DO if self.typed else _DO_UNTYPED, subject)


def find(harness: Harness, where: Where, given: Given) -> Iterator[Finding]:
    """Find each circuit or common with other contacts or numbers; one that is typed names whom that disturbs."""
    holders = [*_commons(harness, given), *_circuits(harness, given)]
    disturbing: dict[int, list[_Holder]] = {}
    for holder in holders:
        if holder.moves:
            causes = [
                other
                for other in holders
                if other.typed and other.disconnect == holder.disconnect and holder.was.intersection(other.now)
            ]
            cause = causes[0] if causes and not holder.typed else holder
            disturbing.setdefault(holders.index(cause), []).extend([] if cause is holder else [holder])
    for index, disturbed in disturbing.items():
        yield holders[index].finding(where, disturbed, given.says)
    for name, circuit in harness.every_circuit.items():
        was = given.numbers.get(name, {})
        other = [role for role, number in circuit.numbers.items() if was.get(role, number) != number]
        if other:
            now, then = (", ".join(dict.fromkeys(some[role] for role in other)) for some in (circuit.numbers, was))
            sentence = f"the wires of {shown(name)} are numbered {now}, {then} {given.says}."
            do = "Leave `function:` as it was, or label these wires anew."
            yield KIND.at(where.value("circuits", name, "function"), sentence, do, ("circuits", name))


_DO = "Leave the pin out if that is not meant; else extract and insert at both halves, and replace their cards."
_DO_UNTYPED = "Pin `contacts:` to what is in the aircraft if it has room; else extract, insert and replace the cards."


def _circuits(harness: Harness, given: Given) -> Iterator[_Holder]:
    for circuit in harness.every_circuit.values():
        at: dict[str, dict[str, str]] = {}
        for end in (end for lead in circuit.leads for end in lead.ends if end.kind == "half"):
            alone = {role: contacts[0] for role, contacts in end.contacts.items() if role not in end.commons}
            at.setdefault(end.name, {}).update(alone)
        for disconnect, contacts in at.items():
            was = {role: given.contacts.get((disconnect, circuit.name, role), now) for role, now in contacts.items()}
            moves = tuple((was[role], now) for role, now in contacts.items() if was[role] != now)
            typed = disconnect in circuit.form.contacts
            path = ("circuits", circuit.name, *(("contacts", disconnect) if typed else ()))
            yield _Holder(circuit.name, disconnect, tuple(contacts.values()), moves, path, typed)


def _commons(harness: Harness, given: Given) -> Iterator[_Holder]:
    for joint in harness.disconnects.values():
        for name, common in joint.commons.items():
            was = given.commons.get((joint.name, name), common.contacts)
            moves = tuple(zip_longest(was, common.contacts, fillvalue="none")) if was != common.contacts else ()
            path = "disconnects", joint.name, "commons", name, "contacts"
            yield _Holder(name, joint.name, common.contacts, moves, path, typed=True)


def unbuilt(where: Where, issues: Issues) -> Iterator[Finding]:
    """Find an issue that is not said to be built."""
    if issues.last is not None and issues.built != issues.last.issue:
        sentence = f"the issue {shown(issues.last.issue)} is not said to be built."
        position = where.value("aircraft", "revision")
        yield UNBUILT.at(
            position, sentence, "When it is done in the aircraft: `docgen built`.", ("aircraft", "aircraft")
        )
