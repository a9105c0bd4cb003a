"""Where paper stands by what was issued and built."""

from __future__ import annotations

import pytest
from reissue.small import item, labels, state

from docgen.definition.identity import Same
from docgen.definition.issues import Issues
from docgen.paperwork.standing import DRAFT, Stamp
from docgen.reissue.standing import standing_of

SAME = Same({"rudder": "fin"}, {}, {"rudder": "yaw"}, ())
DATES = {"A": "2026-01-01", "B": "2026-02-02", "C": "2026-03-03"}


@pytest.mark.parametrize(("built", "done"), [("", ""), ("A", "A"), ("B", "AB"), ("C", "ABC")])
def test_an_issue_is_built_with_all_before_it(built: str, done: str) -> None:
    changed = {"rudder A to": item("RUDDER", "1" * 8).model_copy(update={"since": "C"})}
    cards = {"rudder": item("", "2" * 8).model_copy(update={"since": "B"})}
    items = {"wire-labels": {**labels("rudder A from"), **changed}, "pinout-cards": cards}
    standing = standing_of(Issues(DATES, built, state("C", after="B", items=items)), SAME)
    stamps = {letter: Stamp(letter, DATES[letter], letter in done) for letter in "ABC"}
    assert (standing.draft, standing.last) == (Stamp("draft after C"), stamps["C"])
    assert standing.issued == {
        ("wire-labels", "yaw A from"): ("0" * 8, stamps["A"]),
        ("wire-labels", "yaw A to"): ("1" * 8, stamps["C"]),
        ("pinout-cards", "fin"): ("2" * 8, stamps["B"]),
    }


def test_with_nothing_issued_all_is_a_draft() -> None:
    assert standing_of(Issues({}), SAME) == DRAFT
