"""Which wires of a lead are made anew, what is rung out, which ends may be live, with which issue is compared."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner

from docgen.cli import docgen

if TYPE_CHECKING:
    from builder import Builder

_RUDDER = "    to: rudder\n    lead: servo-22\n"
# As `servo-22`, twisted alike and so as long, but for the signal's wire.
_MIXED = "leads:\n  mixed: {wires: {negative: pvc-22 BK, positive: pvc-22 RD, signal: pvc-24 WH}, lay: 25 mm}\n"


def compared(builder: Builder, *words: str) -> dict[str, Any]:
    """Return what `compare` says, as data."""
    told = CliRunner().invoke(docgen, ["compare", str(builder.folder), "--json", *words])
    assert told.exit_code == 0, told.stderr
    data: dict[str, Any] = json.loads(told.stdout)
    return data


def with_mixed_lead(builder: Builder) -> None:
    (builder.folder / "parts.yaml").write_text(_MIXED, "utf-8")
    builder.change(_RUDDER, _RUDDER.replace("servo-22", "mixed"))


def moved(found: dict[str, Any]) -> set[tuple[str, str, bool]]:
    return {(move["at"], move["mark"], move["into"]) for move in found["wiring"]["moves"]}


def test_of_a_lead_in_which_one_wire_is_another_that_wire_alone_is_made_anew(wren: Builder) -> None:
    """The rudder's circuit is the third with a C, of two wires each before it: its signal is C6, now of 24 AWG."""
    wren.keep()
    wren.say("built")
    with_mixed_lead(wren)
    found = compared(wren)
    assert [(piece["mark"], piece["cut_mm"]) for piece in found["wiring"]["cut"]] == [("C6A24", 1335)]
    both = ("receiver 4", "rudder")
    assert moved(found) == {(at, mark, mark == "C6A24") for at in both for mark in ("C6A22", "C6A24")}


def test_a_wire_that_only_has_another_colour_is_made_anew_too(wren: Builder) -> None:
    wren.keep()
    wren.say("built")
    (wren.folder / "parts.yaml").write_text(_MIXED.replace("pvc-24 WH", "pvc-22 OG"), "utf-8")
    wren.change(_RUDDER, _RUDDER.replace("servo-22", "mixed"))
    assert [(piece["colour"], piece["role"]) for piece in compared(wren)["wiring"]["cut"]] == [("OG", "signal")]


def test_what_is_rung_out_is_what_was_touched_and_nothing_else(wren: Builder) -> None:
    wren.keep()
    wren.say("built")
    with_mixed_lead(wren)
    assert compared(wren)["rung_out"] == ["rudder A"]
    wren.change("    throw: 40 mm each way", "    throw: 30 mm each way")
    assert compared(wren)["rung_out"] == ["rudder A"]


@pytest.mark.long
def test_it_is_compared_with_what_was_built_last_unless_told_otherwise(wren: Builder) -> None:
    wren.keep()
    wren.say("built")
    with_mixed_lead(wren)
    wren.keep("B")
    assert compared(wren)["was"] == "A"
    wren.say("built")
    found = compared(wren)
    assert (found["was"], found["wiring"]["cut"]) == ("B", [])
    assert [piece["mark"] for piece in compared(wren, "--with", "A")["wiring"]["cut"]] == ["C6A24"]
