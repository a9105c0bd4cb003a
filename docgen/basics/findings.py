"""Findings: what is wrong with a definition, or worth knowing, and where it was typed."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import NamedTuple


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


class Kind(NamedTuple):
    """What one name of finding stands for."""

    level: Level
    stands_on: str
    meaning: str


_ERROR, _CAUTION, _NOTE = Level

KINDS: dict[str, Kind] = {
    "file": Kind(_ERROR, "file", "A file can't be read, is over 1 MB or is not UTF-8."),
    "syntax": Kind(_ERROR, "file", "The text is not the plain YAML that is read here."),
    "key": Kind(_ERROR, "any entry", "A key is unknown or stands twice."),
    "missing": Kind(_ERROR, "any entry", "Something that is needed is not said."),
    "unit": Kind(_ERROR, "any entry", "A quantity lacks its unit or has one of another kind."),
    "value": Kind(_ERROR, "any entry", "A value can't be what it says."),
    "name": Kind(_ERROR, "any entry", "A name is unknown or ill-formed."),
    "side": Kind(_ERROR, "any entry", "<side> stands where no entry is made twice."),
    "route": Kind(_ERROR, "circuit", "No runs lead from one end of a lead to the other."),
    "through": Kind(_ERROR, "circuit", "A disconnect is missing on the way or out of place."),
    "contacts": Kind(_ERROR, "disconnect", "Contacts are too few or pinned wrongly."),
    "mate": Kind(_ERROR, "circuit", "Two halves or plugs can't be mated."),
    "role": Kind(_ERROR, "circuit", "A lead lacks what the other side has."),
    "circle": Kind(_ERROR, "circuit", "A supply feeds itself."),
    "unfed": Kind(_ERROR, "circuit", "A circuit with a positive has no battery behind it."),
    "supplies": Kind(_ERROR, "common", "A positive is shared by several supplies."),
    "character": Kind(_ERROR, "any entry", "A character can't be printed, or is not in the typeface."),
    "reach": Kind(_CAUTION, "circuit", "An own lead does not reach its plug."),
    "access": Kind(_CAUTION, "place", "There is no access where a plug lies."),
    "short": Kind(_CAUTION, "circuit", "A pinned length is under what the route needs."),
    "straight": Kind(_CAUTION, "run", "A measured run is shorter than the straight line."),
    "unmeasured": Kind(_NOTE, "run", "A run is known only by its ends' coordinates."),
    "accept": Kind(_NOTE, "any entry", "An acceptance matches no finding."),
    "unused": Kind(_NOTE, "equipment or disconnect", "No circuit reaches it."),
    "volts": Kind(_CAUTION, "equipment", "Volts left are under what the load needs and the margin."),
    "drop": Kind(_NOTE, "circuit", "The circuit's own drop is over its ratio."),
    "overvolts": Kind(_CAUTION, "equipment", "A full pack or an output is above what the load bears."),
    "joined-supplies": Kind(_CAUTION, "equipment or common", "Several supplies are joined that nothing keeps apart."),
    "wire-current": Kind(_CAUTION, "circuit or common", "A wire carries more than it may."),
    "contact-current": Kind(_CAUTION, "circuit or common", "A contact carries more than it may."),
    "supply-current": Kind(_CAUTION, "equipment", "An outlet or a pack gives more than it may."),
    "single-contact": Kind(_CAUTION, "common", "One contact carries a pole of several servos."),
    "one-pack": Kind(_CAUTION, "equipment", "One of several packs can't fly the aircraft alone."),
    "endurance": Kind(_CAUTION, "equipment", "A charge is short of the flights and the reserve."),
    "heat": Kind(_CAUTION, "circuit or common", "A wire or a label's tube does not stand the heat of its route."),
    "unsleeved": Kind(_CAUTION, "run", "A sharp or hot run has no sleeve that stands it."),
    "bend": Kind(_CAUTION, "run", "A hinge is tighter than the bundle bears."),
    "crimp-fit": Kind(_CAUTION, "circuit or common", "A contact is given a wire that it does not take."),
    "swap": Kind(_CAUTION, "disconnect", "A half can be mated with a wrong one."),
    "live-pins": Kind(_CAUTION, "disconnect or equipment", "A half with supply behind it carries pins."),
    "spare-contacts": Kind(_NOTE, "disconnect", "Fewer contacts are spare than the limit."),
    "failsafe": Kind(_CAUTION, "equipment", "Nothing says off or idle for an engine, a motor or smoke."),
    "gear-limit": Kind(_CAUTION, "equipment", "A gear leg's limit or stop does not suit its strokes."),
    "antennas": Kind(_CAUTION, "equipment or antenna", "Antennas lie alike or their leads are too short."),
    "tube": Kind(_CAUTION, "circuit", "No tube passes the wires and grips them."),
    "type": Kind(_CAUTION, "circuit", "A label's text can't be printed legibly."),
    "stock": Kind(_CAUTION, "layout", "A stock does not fit its paper or its labels."),
    "spool": Kind(_CAUTION, "circuit", "A piece is longer than any spool."),
}


# Cautions and notes, which can be accepted.
LOOKED_FOR = frozenset(name for name, kind in KINDS.items() if kind.level is not Level.ERROR)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found: where, its name in `KINDS`, a sentence, and what to do about it.

    `subject` is the entry it stands on, (section, name), for acceptance and for the record.
    """

    position: Position
    name: str
    sentence: str
    do: str
    subject: tuple[str, str] = ("", "")
    accepted: str = ""

    @property
    def level(self) -> Level:
        """Look up how much it matters."""
        return KINDS[self.name].level

    def accept(self, reason: str) -> Finding:
        """Return it with the builder's reason for living with it."""
        return replace(self, accepted=reason)


class Refused(ValueError):
    """A text that can't be taken: the finding's name, a sentence, what to do, and where below the value."""

    def __init__(self, name: str, sentence: str, do: str, path: tuple[str | int, ...] = ()) -> None:
        super().__init__(sentence)
        self.name, self.sentence, self.do, self.path = name, sentence, do, path


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """Sort findings by file, line, column, and drop those that say the same again."""
    unique = {(f.position, f.name, f.sentence): f for f in reversed(list(findings))}
    return sorted(unique.values(), key=lambda f: (f.position, f.name, f.sentence))


def has_errors(findings: Iterable[Finding]) -> bool:
    """Tell whether any finding keeps the paper from being printed."""
    return any(f.level is Level.ERROR for f in findings)


def format_finding(finding: Finding) -> str:
    """Write a finding as the builder reads it: position, level, name, sentence; then what to do."""
    said = [f"{finding.position}: {finding.level} {finding.name}: {finding.sentence}", f"  do: {finding.do}"]
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

    Of names that differ in a number alone, it is that with the nearest number, of two as near the larger.
    """
    plain = unicodedata.normalize("NFKD", name[:60]).casefold()
    every = list(known)
    numbered = [other for other in every if _NUMBER.sub("0", other) == _NUMBER.sub("0", plain)]
    if numbered and any(character.isalpha() for character in plain):
        return min(numbered, key=lambda other: _distance(plain, other))
    close = difflib.get_close_matches(plain, every, n=1, cutoff=0.5)
    return close[0] if close else ""


def _distance(name: str, other: str) -> tuple[int, int]:
    """Return by how much the numbers of names differ, and by how much those of the other are larger, negated."""
    gaps = [int(b) - int(a) for a, b in zip(_NUMBER.findall(name), _NUMBER.findall(other), strict=True)]
    return sum(abs(gap) for gap in gaps), -sum(gaps)


def listed(names: Iterable[str], most: int = 12) -> str:
    """Write names as a list for a sentence, the rest counted."""
    every = list(names)
    rest = f" and {len(every) - most} more" if len(every) > most else ""
    return ", ".join(every[:most]) + rest
