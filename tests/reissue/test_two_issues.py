"""Several issues before one is built, and an aircraft that was altered before its files were."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from printed_rework import sections
from reissue import by_hand
from reissue.altered import changed_folder, kept_in
from reissue.test_by_hand import in_order, said
from reissue.test_rework_sheet import ABOARD, checked, of_heading, rung
from resolved import check_once, state_of, state_of_example

from docgen.cli import docgen
from docgen.paperwork.documents import Choice
from docgen.paperwork.standing import DRAFT
from docgen.reissue.rework import rework

pytestmark = pytest.mark.longest


def test_what_two_issues_change_is_told_together_until_one_is_built(tmp_path: Path) -> None:
    """B adds the strobe, C turns the rudder's plug: compared with A, which is in the aircraft, both are to be done."""
    strobe, plug = by_hand.ADDED_LAST, by_hand.OTHER_ORDER
    b = state_of(changed_folder(tmp_path / "b", strobe), "B")
    folder = changed_folder(tmp_path / "c", replace(strobe, edits=(*strobe.edits, *plug.edits)))
    kept_in(folder, b)
    told = CliRunner().invoke(docgen, ["compare", str(folder), "--json"])
    both = replace(
        strobe,
        no_longer=(*strobe.no_longer, *plug.no_longer),
        out=plug.out,
        into=(*strobe.into, *plug.into),
        rung_out=(*strobe.rung_out, *plug.rung_out),
        checks={**strobe.checks, **plug.checks},
    )
    assert in_order(said(json.loads(told.stdout))) == in_order(both)
    assert json.loads(told.stdout)["between"] == "B"


def test_what_an_issue_that_is_not_built_added_may_be_there_when_it_is_gone(tmp_path: Path) -> None:
    b = state_of(changed_folder(tmp_path / "b", by_hand.ADDED_LAST), "B")
    folder = changed_folder(tmp_path / "c", by_hand.STRONGER_SERVO)
    kept_in(folder, b)
    told = CliRunner().invoke(docgen, ["compare", str(folder), "--json"])
    torn = replace(by_hand.STRONGER_SERVO, cards=by_hand.ADDED_LAST.cards)  # those that B printed may be aboard
    assert in_order(said(json.loads(told.stdout))) == in_order(torn)
    assert json.loads(told.stdout)["perhaps"] == ["strobe"]
    assert "up to B, are not said to be built" in CliRunner().invoke(docgen, ["compare", str(folder)]).stdout


def test_an_aircraft_altered_already_gets_labels_cards_ringing_out_and_checks_but_no_cutting(tmp_path: Path) -> None:
    change = by_hand.ADDED_LAST
    folder = changed_folder(tmp_path, change)
    harness = check_once(folder).harness
    assert harness is not None
    made = rework(state_of_example("fulmar"), state_of(folder, "B"), harness, Choice(), DRAFT, as_built=True)
    found = sections(made.files["rework-sheet.pdf"])
    assert "At the bench: cut" not in found
    assert of_heading(found["Under the covers"], "take out") == of_heading(found["Under the covers"], "put in") == set()
    assert len([line for line in found["Under the covers"] if "label" in line.ticked]) == len(change.put_on)
    assert {line.text("card") for line in found["Cards"]} - {*ABOARD, ""} == set(change.cards)
    assert set(rung(found["Ring out, packs still out"])) == set(change.rung_out)
    assert dict(checked(found["Packs in: check again"])) == {"strobe": {"works", "volts", "idle"}}
