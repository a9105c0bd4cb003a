"""The demanding example with the changes that were written by hand, and the state that was issued before them."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from reissue import by_hand
from reissue.by_hand import Change
from resolved import EXAMPLES, state_of, state_of_example

from docgen.definition.issued import State
from docgen.definition.issues import state_text

CHANGES = {name: change for name, change in vars(by_hand).items() if isinstance(change, Change)}
_QUICK = "CHANGED_RUN"
each_change = pytest.mark.parametrize(
    "name", [name if name == _QUICK else pytest.param(name, marks=pytest.mark.longest) for name in CHANGES]
)


def changed_folder(tmp_path: Path, change: Change) -> Path:
    """Write the demanding example with a change, after an issue of what was before it."""
    folder = _written(tmp_path / "fulmar", change.edits)
    kept_in(folder, state_before(tmp_path, change))
    return folder


def state_before(tmp_path: Path, change: Change) -> State:
    """Return the state that was issued before a change."""
    if not change.before:
        return state_of_example("fulmar")
    return state_of(_written(tmp_path / "before", change.before), "A")


def _written(folder: Path, edits: tuple[tuple[str, str], ...]) -> Path:
    """Write the demanding example with edits, and two plugs beside the built-in ones, if it is not there yet."""
    if folder.exists():
        return folder
    folder.parent.mkdir(exist_ok=True)
    shutil.copytree(EXAMPLES / "fulmar", folder)
    texts = {name: (folder / name).read_text("utf-8") for name in ("harness.yaml", "aircraft.yaml")}
    for old, new in edits:
        (file,) = (name for name, text in texts.items() if text.count(old) == 1)
        texts[file] = texts[file].replace(old, new)
    for name, text in texts.items():
        (folder / name).write_text(text, "utf-8")
    (folder / "parts.yaml").write_text(by_hand.PLUGS, "utf-8")
    return folder


def kept_in(folder: Path, state: State) -> None:
    """Keep a state in a folder as issued."""
    path = folder / "issued" / state.issue / "state.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(state_text(state), "utf-8")
