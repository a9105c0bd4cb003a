"""What holds for all pages but labels', also of an aircraft without one length yet, whose notices are longest."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest
from page_facts import (
    Sheet,
    heights_off,
    pages_half_empty,
    sheets_of,
    texts_near_an_edge,
    texts_struck,
    texts_that_meet,
)
from resolved import EXAMPLES, harness_of
from stripped import folder_of, of_example, without

from docgen.paperwork.documents import DOCUMENTS, Choice, make_paperwork

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

STEMS = [document.stem for document in DOCUMENTS if document.stem != "wire-labels"]


@pytest.fixture(scope="module", params=["wisp", "fulmar without lengths"])
def pages(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, list[Sheet]]:
    return printed(request.param, tmp_path_factory.mktemp("pages"))


@cache
def printed(name: str, folder: Path) -> dict[str, list[Sheet]]:
    example, *stripped = name.split(" ", 1)
    said, hidden = of_example(example)
    harness = harness_of(folder_of(without(said, hidden), folder) if stripped else EXAMPLES / example)
    files = make_paperwork(harness, Choice(stems=tuple(STEMS))).files
    return {stem: sheets_of(files[f"{stem}.pdf"]) for stem in STEMS}


@pytest.mark.parametrize("stem", STEMS)
@pytest.mark.long
def test_no_text_meets_another_or_is_struck_shortened_or_clipped(stem: str, pages: Mapping[str, list[Sheet]]) -> None:
    sheets = pages[stem]
    assert heights_off(sheets) <= {0.0}  # of texts that stand upright
    assert (texts_that_meet(sheets), texts_near_an_edge(sheets)) == ([], [])
    # Numbers of the sketch stand in white boxes on its lines.
    assert [text for text in texts_struck(sheets) if stem != "measuring-sheet" or not text.isdecimal()] == []
    assert pages_half_empty(sheets) == []
    assert [text.text for sheet in sheets for text in sheet.texts if "…" in text.text] == []
