"""Whether contacts and marks are still those that were issued; and whether what was issued is said to be built."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from docgen.basics.findings import PRACTICE, Finding, shown
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


@dataclass(frozen=True)
class Given:
    """What contacts and numbers were, and who says so: `issued in A`, `in the paper in out/wren`.

    `contacts` are by disconnect, circuit and role, `commons` by disconnect and name, `numbers` by circuit and role.
    """

    says: str
    contacts: Mapping[tuple[str, str, str], str]
    commons: Mapping[tuple[str, str], tuple[str, ...]]
    numbers: Mapping[str, Mapping[str, str]]


@dataclass(frozen=True)
class _Move:
    """A circuit or common with other contacts at a disconnect; `path` is where they are typed, if they are."""

    name: str
    disconnect: str
    was: tuple[str, ...]
    now: tuple[str, ...]
    path: Path
    typed: bool

    @property
    def text(self) -> str:
        """Say it of one that another displaces."""
        return f"{shown(self.name)} from {', '.join(self.was)} to {', '.join(self.now)}"


def find(harness: Harness, where: Where, given: Given) -> Iterator[Finding]:
    """Find each circuit or common with other contacts or numbers; one that is typed names whom that disturbs."""
    moves = [*_of_commons(harness, given), *_of_circuits(harness, given)]
    named: list[_Move] = []
    for move in sorted(moves, key=lambda move: not move.typed):
        if move in named:
            continue
        disturbed = [
            other
            for other in moves
            if other.disconnect == move.disconnect and not other.typed and set(other.was) & set(move.now)
        ]
        named += disturbed
        others = f" That moves {' and '.join(other.text for other in disturbed)}." if move.typed and disturbed else ""
        sentence = (
            f"{shown(move.name)} has {', '.join(move.now)} at {shown(move.disconnect)}, "
            f"{given.says} {', '.join(move.was)}.{others}"
        )
        section, *below = move.path
        subject = subject_of(str(section), *below)
        yield KIND.at(where.value(str(section), *below), sentence, _DO if move.typed else _DO_UNTYPED, subject)
    for name, circuit in harness.circuits.items():
        was = given.numbers.get(name, {})
        other = [role for role, number in circuit.numbers.items() if was.get(role, number) != number]
        if other:
            now, then = (", ".join(dict.fromkeys(some[role] for role in other)) for some in (circuit.numbers, was))
            sentence = f"the wires of {shown(name)} are numbered {now}, {given.says} {then}."
            position = where.value("circuits", name, "function")
            yield KIND.at(
                position, sentence, "Leave `function:` as it was, or label these wires anew.", ("circuits", name)
            )


def unbuilt(where: Where, issues: Issues) -> Iterator[Finding]:
    """Find an issue that is not said to be built."""
    if issues.last is not None and issues.built != issues.last.issue:
        sentence = f"the issue {shown(issues.last.issue)} is not said to be built."
        position = where.value("aircraft", "revision")
        yield UNBUILT.at(
            position, sentence, "When it is done in the aircraft: `docgen built`.", ("aircraft", "aircraft")
        )


_DO = "Leave the pin out if that is not meant; else extract and insert at both halves, and replace their cards."
_DO_UNTYPED = "Pin `contacts:` to what is in the aircraft if it has room; else extract, insert and replace the cards."


def _of_circuits(harness: Harness, given: Given) -> Iterator[_Move]:
    for circuit in harness.circuits.values():
        at: dict[str, dict[str, tuple[str, ...]]] = {}
        for lead in circuit.leads:
            for end in lead.ends:
                if end.kind == "half":
                    alone = {role: contacts for role, contacts in end.contacts.items() if role not in end.commons}
                    at.setdefault(end.name, {}).update(alone)
        for disconnect, contacts in at.items():
            was = {role: given.contacts.get((disconnect, circuit.name, role)) for role in contacts}
            other = [role for role, before in was.items() if before is not None and (before,) != contacts[role]]
            if other:
                typed = disconnect in circuit.form.contacts
                path: Path = ("circuits", circuit.name, *(("contacts", disconnect) if typed else ()))
                before = tuple(str(was[role]) for role in other)
                now = tuple(contact for role in other for contact in contacts[role])
                yield _Move(circuit.name, disconnect, before, now, path, typed)


def _of_commons(harness: Harness, given: Given) -> Iterator[_Move]:
    for (disconnect, name), was in given.commons.items():
        joint = harness.disconnects.get(disconnect)
        if joint is not None and name in joint.commons and joint.commons[name].contacts != was:
            path = "disconnects", disconnect, "commons", name, "contacts"
            yield _Move(name, disconnect, was, joint.commons[name].contacts, path, typed=True)
