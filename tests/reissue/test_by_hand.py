"""What `compare` says of changes to the demanding example, held to what was written down by hand."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from reissue import by_hand
from reissue.altered import CHANGES, changed_folder, each_change
from reissue.by_hand import Change
from resolved import state_of, state_of_example

from docgen.cli import docgen
from docgen.definition.issued import State
from docgen.reissue.compare import compare


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


@each_change
def test_what_must_be_done_again_is_what_was_written_by_hand(tmp_path: Path, name: str) -> None:
    folder = changed_folder(tmp_path, CHANGES[name])
    result = CliRunner().invoke(docgen, ["compare", str(folder), "--json"])
    assert result.exit_code == 0, result.output
    assert in_order(said(json.loads(result.stdout))) == in_order(CHANGES[name])


@pytest.mark.long
def test_equipment_that_is_new_gone_or_named_otherwise_is_told(tmp_path: Path) -> None:
    now, more, renamed = (
        state_of_example("fulmar"),
        state_of(changed_folder(tmp_path / "more", by_hand.ADDED_LAST), "B"),
        state_of(changed_folder(tmp_path / "renamed", by_hand.RENAMED_EQUIPMENT), "B"),
    )

    def told(old: State, new: State) -> list[tuple[str, str]]:
        return [(each.was, each.now) for each in compare(old, new).equipment]

    assert told(now, more) == [("", "strobe")]
    assert told(more, now) == [("strobe", "")]
    assert told(now, renamed) == [("rudder", "fin-servo")]
    assert told(now, now) == []
