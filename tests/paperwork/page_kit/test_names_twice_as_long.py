"""Every document on the page kit holds together when labels, places and equipment have names twice as long."""

from __future__ import annotations

from pathlib import Path

import pytest
from page_facts import (
    doubled_names,
    heights_off,
    pages_half_empty,
    sheets_of,
    texts_near_an_edge,
    texts_struck,
    texts_that_meet,
)
from resolved import EXAMPLES, harness_of

from docgen.paperwork.documents import Choice, make_paperwork

STEMS = ("cut-list", "order-of-work", "ring-out-sheet", "pinout-cards", "first-power")


@pytest.mark.long
@pytest.mark.parametrize("stem", STEMS)
@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_nothing_meets_is_struck_or_shortened_and_type_is_of_the_series(name: str, stem: str, tmp_path: Path) -> None:
    harness = harness_of(doubled_names(EXAMPLES / name, tmp_path))
    sheets = sheets_of(make_paperwork(harness, Choice(stems=(stem,))).files[f"{stem}.pdf"])
    assert heights_off(sheets) == set()
    assert (texts_that_meet(sheets), texts_struck(sheets), texts_near_an_edge(sheets)) == ([], [], [])
    assert pages_half_empty(sheets) == []
    assert [text.text for sheet in sheets for text in sheet.texts if "…" in text.text] == []
