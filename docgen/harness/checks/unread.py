"""Files beside those of the definition that are called almost as one of them, and so are not read."""

from __future__ import annotations

import difflib
import os
import re
from collections.abc import Iterator
from pathlib import Path

from docgen.basics.findings import FORM, Finding, Position
from docgen.definition.load import FILES
from docgen.harness.checks.facts import note

KIND = note(
    name="unread",
    stands_on="file",
    meaning="A file is called almost as one that is read, and is not read.",
    when="Beside aircraft.yaml, harness.yaml, stores.yaml and parts.yaml lies a file with nearly one of their names, "
    "like store.yaml, Parts.yml or harness.yaml.txt.",
    why="Spools, tubes and parts that are written there go unused without a word, and what is cut and bought is wrong.",
    remedy="Give it the name that the finding offers. What is to be kept but not read gets a name unlike theirs, or "
    "another folder.",
    source=FORM,
)
_NAME = re.compile(r"([^.].*?)(\.ya?ml)?(\.txt)?", re.IGNORECASE)
_ALIKE = 0.8  # of both names in common, as difflib counts; common practice, no source


def find(folder: Path) -> Iterator[Finding]:
    """Find each file in an aircraft's folder that is called almost as one that is read."""
    stems = [Path(name).stem for name in FILES]
    try:
        paths = sorted(folder.iterdir())
    except OSError:
        return  # what is read tells of it
    for path in paths:
        match = _NAME.fullmatch(path.name)
        if match is None or not any(match.groups()[1:]) or path.name in FILES or not path.is_file():
            continue
        for stem in difflib.get_close_matches(match[1].casefold(), stems, n=1, cutoff=_ALIKE):
            yield from _unread(path, folder / f"{stem}.yaml")


def _unread(path: Path, read: Path) -> Iterator[Finding]:
    if not os.path.lexists(read):
        yield KIND.at(Position(str(path), 1, 1), "this file is not read.", f"Call it `{read.name}`.")
    elif not path.samefile(read):  # as it is where capitals make no other name
        do = f"Read is `{read.name}`: put there what counts, and give this a name unlike it."
        yield KIND.at(Position(str(path), 1, 1), "this file is not read.", do)
