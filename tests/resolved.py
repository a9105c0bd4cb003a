"""Harnesses and their paper to look at: what belongs to an example is worked out once in a run of the tests."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from docgen.basics.shipped import shipped_folder
from docgen.definition.issued import State
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.documents import Choice, contents_of, make_paperwork
from docgen.paperwork.record import record
from docgen.pipeline import Checked, check
from docgen.reissue.state import make_state

EXAMPLES = shipped_folder("examples")


def check_once(folder: Path) -> Checked:
    """Return what is found in a folder, of an example what was found the first time."""
    return _checked(folder) if folder.parent == EXAMPLES else check(folder)


_checked = cache(check)


def harness_of(folder: Path) -> Harness:
    """Return the resolved harness of a folder without errors."""
    found = check_once(folder)
    assert found.harness is not None, found.findings
    return found.harness


def known(value: float | None) -> float:
    """Return a figure that is known: nothing it rests on is left unmeasured."""
    assert value is not None
    return value


def record_of(harness: Harness) -> record.Record:
    """Return the record of a harness, whole and in parts."""
    return record.content(harness, pinout_cards.content(harness).hashes)


@cache
def files_of_example(name: str) -> Mapping[str, bytes]:
    """Return all that is printed of an example unless the builder chooses otherwise."""
    return MappingProxyType(make_paperwork(harness_of(EXAMPLES / name), Choice()).files)


@cache
def state_of_example(name: str) -> State:
    """Return the state of an example as it would be issued first."""
    return state_of(EXAMPLES / name, "A")


def state_of(folder: Path, letter: str) -> State:
    """Return the state of a folder as it would be issued under a letter, after what was issued of it."""
    found = check_once(folder)
    assert found.harness is not None, found.findings
    return make_state(found.harness, contents_of(found.harness), letter, found.issues.last, found.issued)
