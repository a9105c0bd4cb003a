"""Sheets that begin with what no length is known of, where that is nearly all, stay on their paper."""

from __future__ import annotations

import pytest
from page_facts import sheets_of, texts_near_an_edge, texts_struck, texts_that_meet
from resolved import harness_of
from stripped import folder_of, of_example, without

from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork

STEMS = ("cut-list", "order-of-work", "ring-out-sheet")


@pytest.fixture(scope="module")
def unmeasured(tmp_path_factory: pytest.TempPathFactory) -> Harness:
    return harness_of(folder_of(without(*of_example("fulmar")), tmp_path_factory.mktemp("unmeasured")))


@pytest.mark.parametrize("stem", STEMS)
def test_what_is_not_measured_is_said_on_the_paper(stem: str, unmeasured: Harness) -> None:
    sheets = sheets_of(make_paperwork(unmeasured, Choice(stems=(stem,))).files[f"{stem}.pdf"])
    assert (texts_that_meet(sheets), texts_struck(sheets), texts_near_an_edge(sheets)) == ([], [], [])
