"""What `compare` says of changes to the demanding example, held to what was written down by hand."""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from reissue import by_hand
from reissue.by_hand import Change
from resolved import EXAMPLES, state_of_example

from docgen.cli import docgen
from docgen.definition.issued import State
from docgen.definition.issues import state_text

CHANGES = {name: change for name, change in vars(by_hand).items() if isinstance(change, Change)}


def changed_folder(tmp_path: Path, edits: tuple[tuple[str, str], ...]) -> Path:
    """Write the demanding example with edits, and two plugs beside the built-in ones."""
    folder = tmp_path / "fulmar"
    tmp_path.mkdir(exist_ok=True)
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


def said(of: Mapping[str, Any]) -> Change:
    """Return what is told as JSON in the words of what was written by hand."""
    wires = of["wiring"]

    def ends(*, into: bool) -> tuple[str, ...]:
        moves = [move for move in wires["moves"] if move["into"] == into and move["spot"]["contacts"]]
        return tuple(f"{move['at']} {'+'.join(move['spot']['contacts'])} {move['mark']}" for move in moves)

    return Change(
        edits=(),
        no_longer=tuple(f"{broken['name']} {broken['on']}" for broken in of["no_longer_holds"]),
        same=tuple(f"{taken['what']} {taken['old']} {taken['new']}" for taken in of["taken"]),
        cut={f"{piece['lead']} {piece['role']}": piece["cut_mm"] for piece in wires["cut"]},
        removed=tuple(wires["removed"]),
        capped=tuple(each["was"] for each in wires["plugged"] if each["capped"]),
        out=ends(into=False),
        into=ends(into=True),
        replugged=tuple(
            f"{each['lead']} {each['was']} {each['now']}" for each in wires["plugged"] if not each["capped"]
        ),
        sleeves=tuple(
            f"{way} {sleeve['ends']}"
            for sleeve in of["sleeves"]
            for way, it in (("off", sleeve["was"]), ("on", sleeve["now"]))
            if it
        ),
        put_on=tuple(label["key"] for label in of["put_on"]),
        stripped=tuple(label["key"] for label in of["stripped"]),
        cards=tuple(card["card"] for card in of["cards"]),
        rung_out=tuple(of["rung_out"]),
        checks={name: " ".join(checks) for name, checks in of["checks"].items()},
    )


def in_order(change: Change) -> dict[str, object]:
    """Return what a change says in an order of its own, without its edits."""
    said = {
        name: sorted(value)
        for name, value in vars(change).items()
        if isinstance(value, tuple) and name not in ("edits", "before")
    }
    return {**said, "cut": change.cut, "checks": {name: set(of.split()) for name, of in change.checks.items()}}


QUICK = ("ADDED_FIRST", "CHANGED_RUN", "EXCHANGED_PORTS")


@pytest.mark.parametrize(
    "name", [name if name in QUICK else pytest.param(name, marks=pytest.mark.long) for name in CHANGES]
)
def test_what_must_be_done_again_is_what_was_written_by_hand(tmp_path: Path, name: str) -> None:
    folder = changed_folder(tmp_path, CHANGES[name].edits)
    kept_in(folder, state_of_example("fulmar"))
    result = CliRunner().invoke(docgen, ["compare", str(folder), "--json"])
    assert result.exit_code == 0, result.output
    assert in_order(said(json.loads(result.stdout))) == in_order(CHANGES[name])
