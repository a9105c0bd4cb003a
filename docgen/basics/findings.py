"""Findings: what is wrong with a definition, or worth knowing, and where it was typed."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections import Counter
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import field, replace
from enum import StrEnum
from typing import Any, NamedTuple

from docgen.basics.frozen import frozen


class Position(NamedTuple):
    """Where something was typed: file as shown to the builder, line and column from 1, in characters."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Level(StrEnum):
    """How much a finding matters: with an error nothing is printed."""

    ERROR = "error"
    CAUTION = "caution"
    NOTE = "note"


RemedyValue = dict[str, Any]
"""What to do, by the names and keys of a definition; of several things each, under `all`."""

PRACTICE = "Common practice, no source."
FORM = "A rule of the form of these files, no source."


@frozen(slots=True)
class Kind:
    """One kind of finding: its name and level, the entries it stands on, and what a builder is told of it.

    That is what it means in a sentence; when it is found, why it matters on the bench, how to remedy it, who says so.
    """

    name: str
    level: Level
    stands_on: str
    meaning: str
    when: str
    why: str
    remedy: str
    source: str

    def at(
        self,
        position: Position,
        sentence: str,
        do: str,
        subject: tuple[str, str] = ("", ""),
        remedy: RemedyValue | None = None,
        over: float = 0.0,
        half: str = "",
    ) -> Finding:
        """Return a finding of this kind."""
        return Finding(position, self.name, sentence, do, subject, self.level, remedy=remedy, over=over, half=half)


@frozen(slots=True)
class Finding:
    """One thing found: where, its name, a sentence, and what to do about it; an error, if nothing else is said.

    `subject` is the entry it stands on, (section, name), for acceptance and for the record; `remedy` is what to do as
    data, where that is known to do. `over` says by how much a limit is passed, and `half` at which half of its subject,
    so that of twins the worse is told.
    """

    position: Position
    name: str
    sentence: str
    do: str
    subject: tuple[str, str] = ("", "")
    level: Level = Level.ERROR
    accepted: str = ""
    remedy: RemedyValue | None = field(default=None, compare=False)
    over: float = field(default=0.0, compare=False)
    half: str = field(default="", compare=False)

    def accept(self, reason: str) -> Finding:
        """Return it with the builder's reason for living with it."""
        return self if reason == self.accepted else replace(self, accepted=reason)


class Refused(ValueError):
    """A text that can't be taken: the finding's name, a sentence, what to do, and where below the value."""

    def __init__(self, name: str, sentence: str, do: str, path: tuple[str | int, ...] = ()) -> None:
        super().__init__(sentence)
        self.name, self.sentence, self.do, self.path = name, sentence, do, path

    def at(self, position: Position) -> Finding:
        """Return it as a finding where the text was typed."""
        return Finding(position, self.name, self.sentence, self.do)


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Sort findings by file, line, column, and drop those that say the same again."""
    unique = {(f.position, f.name, f.sentence): f for f in reversed(list(findings))}
    return sorted(unique.values(), key=lambda f: (f.position, f.name, f.sentence))


class Told(NamedTuple):
    """What a builder is told once: a finding, and the names of its twins, which are not worse."""

    finding: Finding
    twins: tuple[str, ...]


def told_once(findings: Iterable[Finding]) -> list[Told]:
    """Return findings as they are told: errors, cautions, notes, each by position, and twins as one.

    Twins are those of one name that come from one line of a file, on the left and the right of one entry (`<side>`), or
    at other halves of one joint; entries that can't be read have no name, so that of those the sentence tells.
    """
    groups: dict[Hashable, list[Finding]] = {}
    counts: Counter[Hashable] = Counter()
    for finding in in_order(findings):
        at = *finding.position[:2], finding.name, finding.level, bool(finding.accepted)
        own, section = (at, finding.subject, finding.half), finding.subject[0]
        counts[own] += 1
        of = finding.subject[1] if section else finding.sentence
        of = "" if section == "runs" else of.replace("right", "left")
        groups.setdefault((at, counts[own], section, of), []).append(finding)
    levels = list(Level)
    told = [Told(worst := max(some, key=lambda f: f.over), _names_beside(worst, some)) for some in groups.values()]
    return sorted(told, key=lambda one: levels.index(one.finding.level))


def _names_beside(worst: Finding, some: Iterable[Finding]) -> tuple[str, ...]:
    others = (f for f in some if f is not worst)
    names = (f"{f.half} half" if f.half and f.subject == worst.subject else f.subject[1] for f in others)
    return tuple(dict.fromkeys("the other side" if worst.subject[0] in ("runs", "") else name for name in names))


def has_errors(findings: Iterable[Finding]) -> bool:
    """Tell whether any finding keeps the paper from being printed."""
    return any(f.level is Level.ERROR for f in findings)


def format_finding(finding: Finding, twins: Sequence[str] = ()) -> str:
    """Write a finding as the builder reads it: position, level, name, sentence; its twins; then what to do."""
    said = [f"{finding.position}: {finding.level} {finding.name}: {finding.sentence}"]
    said += [f"  also: {listed(twins)}"] if twins else []
    said += [f"  do: {finding.do}"]
    said += [f"  accepted: {finding.accepted}"] if finding.accepted else []
    return "\n".join(printable(line) for line in said)


def printable(text: str) -> str:
    """Write a text so that a terminal can show it: what is not printable as its code point."""
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text)


def shown(text: str, most: int = 40) -> str:
    """Quote what was typed so that a terminal can show it: no control characters, cut to `most`."""
    cut = text if len(text) <= most else text[: most - 1] + "…"
    return f"`{printable(cut)}`"


_NUMBER = re.compile(r"\d{1,9}")


def nearest(name: str, known: Iterable[str]) -> str:
    """Return the known name most like `name`, or nothing.

    Of names that differ in a number alone, it is that with the nearest number, of two as near the larger; bare numbers
    are like none.
    """
    plain = unicodedata.normalize("NFKD", name[:60]).casefold()
    if not any(character.isalpha() for character in plain):
        return ""
    every = list(known)
    numbered = [other for other in every if _NUMBER.sub("0", other) == _NUMBER.sub("0", plain)]
    if numbered:
        return min(numbered, key=lambda other: _distance(plain, other))
    close = difflib.get_close_matches(plain, every, n=1, cutoff=0.5)
    return close[0] if close else ""


def meant(name: str, known: Iterable[str], otherwise: str) -> str:
    """Ask whether the known name most like one was meant, or say something else where none is like it."""
    offer = nearest(name, known)
    return f"Did you mean `{offer}`?" if offer else otherwise


def _distance(name: str, other: str) -> tuple[int, int]:
    """Return by how much the numbers of names differ, and by how much those of the other are larger, negated."""
    gaps = [int(b) - int(a) for a, b in zip(_NUMBER.findall(name), _NUMBER.findall(other), strict=True)]
    return sum(abs(gap) for gap in gaps), -sum(gaps)


def listed(names: Iterable[str], most: int = 12) -> str:
    """Write names as a list for a sentence, the rest counted."""
    every = list(names)
    rest = f" and {len(every) - most} more" if len(every) > most else ""
    return ", ".join(every[:most]) + rest
