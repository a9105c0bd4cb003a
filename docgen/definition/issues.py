"""Read the issues of an aircraft, in `issued/` of its folder: which came after which, the last and that to go by.

What was changed by hand is an error with its file and line, never guessed at.
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from docgen.basics.findings import Finding, Position, listed, shown
from docgen.basics.frozen import frozen
from docgen.basics.locate import findings_from_errors
from docgen.basics.source import plain, read_yaml, yaml_text
from docgen.definition.folder_names import NO_FOLDERS
from docgen.definition.issued import State

ISSUED, STATE, BUILT = "issued", "state.yaml", "built.yaml"
_MOST_BYTES = 100_000_000  # it says many times what the files say
_CHECKSUM = re.compile(r"checksum: ([0-9a-f]{64})\n")
_HEAD = re.compile(r"issue: (?P<issue>\S+)\n(?:after: (?P<after>\S+)\n)?date: (?P<date>\S+)\n")
_BACK = "Get it back as it was issued, from git or another copy of the folder."


@frozen
class Issues:
    """What was issued: letters in their order, with dates, and the letter of the last that is built.

    `last` is the state of the last; `base` is what that and what comes now are compared with: the last built, else the
    first.
    """

    dates: dict[str, str]
    built: str = ""
    last: State | None = None
    base: State | None = None

    @property
    def letters(self) -> tuple[str, ...]:
        """Return the letters, the first first."""
        return tuple(self.dates)


NO_ISSUES = Issues({})


def state_text(state: State) -> str:
    """Return the text that is kept of a state, with the checksum of its lines at the end."""
    text = yaml_text(state.model_dump(exclude_defaults=True))
    return f"{text}checksum: {text_hash(text)}\n"


def built_text(letter: str) -> str:
    """Return the text that says that an issue is built."""
    return f"built: {letter}\n"


def text_hash(text: str) -> str:
    """Return the hash of a text, whatever ends its lines: other programs turn that into their system's own."""
    return hashlib.sha256(text.replace("\r\n", "\n").encode()).hexdigest()


def read_issues(folder: Path) -> tuple[Issues, list[Finding]]:
    """Return what was issued of the aircraft in a folder, or what is wrong with it."""
    kept = folder / ISSUED
    try:
        names = sorted(entry.name for entry in os.scandir(kept) if entry.is_dir())
    except FileNotFoundError:
        return NO_ISSUES, []
    except OSError as error:
        return NO_ISSUES, [_unreadable(kept, error.strerror)]
    texts: dict[str, _Text] = {}
    findings: list[Finding] = []
    for name in names:
        if not name.startswith("."):
            text = _read(kept / name / STATE)
            texts |= {name: text} if isinstance(text, _Text) else {}
            findings += [text] if isinstance(text, Finding) else _damage(kept / name, name, text)
    if findings or not texts:
        return NO_ISSUES, findings
    order = _in_order(texts)
    if len(order) < len(texts):
        name = next(name for name in texts if name not in order)
        sentence = f"no issue before {shown(name)} leads to the first; in order are {listed(order) or 'none'}."
        return NO_ISSUES, [Finding(Position(str(texts[name].path), 1, 1), "value", sentence, _BACK)]
    built = [name for name in order if (kept / name / BUILT).exists()]
    last, found = read_state(folder, order[-1])
    going_by = built[-1] if built else order[0]
    base, more = (last, []) if going_by == order[-1] else read_state(folder, going_by)
    return Issues({name: texts[name].date for name in order}, built[-1] if built else "", last, base), found + more


def read_state(folder: Path, letter: str) -> tuple[State | None, list[Finding]]:
    """Return the state of one issue, whose text was found to be sound."""
    path = folder / ISSUED / letter / STATE
    node, findings = read_yaml(path, str(path), _MOST_BYTES)
    if node is None or findings:
        return None, findings
    data: Any = plain(node)
    data.pop("checksum", None)
    try:
        return State.model_validate(data), []
    except ValidationError as error:
        errors: Any = error.errors(include_url=False, include_input=False)
        return None, findings_from_errors(errors, node, node.position, State)


def read_unbuilt(folder: Path, issues: Issues, letter: str) -> list[State]:
    """Return the states of the issues after one that are not said to be built, as far as they are read."""
    order, last = issues.letters, issues.last
    begin = max(order.index(each) for each in (letter, issues.built) if each) + 1
    read = (last if last is not None and each == last.issue else read_state(folder, each)[0] for each in order[begin:])
    return [state for state in read if state is not None]


@frozen
class _Text:
    """The text of one issue, and what its first lines say."""

    path: Path
    text: str
    issue: str = ""
    after: str = ""
    date: str = ""


def _read(path: Path) -> _Text | Finding:
    try:
        text = path.read_bytes().decode().replace("\r\n", "\n")
    except OSError as error:
        return _unreadable(path, error.strerror)
    except UnicodeDecodeError:
        return _unreadable(path, "it is not UTF-8 text")
    head = _HEAD.match(text)
    said = {key: value or "" for key, value in head.groupdict().items()} if head else {}
    return _Text(path, text, **said)


def _unreadable(path: Path, reason: str | None) -> Finding:
    return Finding(Position(str(path), 1, 1), "file", f"can't read it: {reason or 'no reason is told'}.", _BACK)


def _damage(folder: Path, name: str, text: _Text) -> Iterator[Finding]:
    """Find what is not as it was issued in the folder of one issue."""
    lines = text.text.splitlines(keepends=True) or [""]
    checksum = _CHECKSUM.fullmatch(lines[-1])
    end = Position(str(text.path), len(lines), 1)
    if checksum is None:
        yield Finding(end, "value", "the checksum in the last line is missing.", _BACK)
    elif checksum.group(1) != text_hash("".join(lines[:-1])):
        yield Finding(end, "value", "this is not the checksum of the lines above: they were changed.", _BACK)
    elif text.issue != name:
        sentence = f"the issue {shown(text.issue)} stands in the folder {shown(name)}."
        yield Finding(Position(str(text.path), 1, 8), "value", sentence, "Give the folder back its name.")
    else:
        yield from _damaged_files(folder, name, text)


def _damaged_files(folder: Path, name: str, text: _Text) -> Iterator[Finding]:
    wanted = {match[1]: match[2] for match in re.finditer(r"(\w+\.yaml): ([0-9a-f]{64})", text.text)}
    wanted |= {BUILT: text_hash(built_text(name))} if (folder / BUILT).exists() else {}
    for file, expected in wanted.items():
        read = _read(folder / file)
        if isinstance(read, Finding):
            yield read
        elif text_hash(read.text) != expected:
            sentence = f"it is not as it was when {shown(name)} was issued."
            yield Finding(Position(str(read.path), 1, 1), "value", sentence, _BACK)


def _in_order(texts: dict[str, _Text]) -> list[str]:
    """Return the letters that follow each other from the one first; after two of one letter none is known."""
    followers: dict[str, list[str]] = {}
    for name, text in texts.items():
        followers.setdefault(text.after, []).append(name)
    order: list[str] = []
    after = ""
    while len(some := followers.get(after, [])) == 1 and some[0] not in order:
        after = some[0]
        order.append(after)
    return order


def next_letter(letters: Iterable[str], revision: str) -> str:
    """Return the revision after one that can be a folder beside letters, which are alike in capitals and small."""
    taken = {letter.casefold() for letter in letters} | NO_FOLDERS
    following = revision
    while following.casefold() in taken or following == revision:
        following = _following(following)
    return following


def _following(revision: str) -> str:
    head, last = revision[:-1], revision[-1:]
    if last.isdigit():
        number = re.search(r"\d+$", revision)
        assert number is not None
        return revision[: number.start()] + str(int(number.group()) + 1)
    if last in ("Z", "z"):
        return (_following(head) if head else last.replace("Z", "A").replace("z", "a")) + ("A" if last == "Z" else "a")
    return head + chr(ord(last) + 1)
