"""The schemas that editors take refuse what the reader refuses for its form, and nothing that it takes."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import islice
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from edited_documents import Edited, edits, example, readings, tree_of
from every_key import files
from jsonschema import Draft202012Validator

from docgen.basics.findings import Level
from docgen.definition import load
from docgen.definition.schema import STEMS, schema_of
from docgen.paperwork.kinds import ACCEPTABLE, MEANINGS

SCHEMAS = {f"{stem}.yaml": Draft202012Validator(schema_of(stem, MEANINGS)) for stem in STEMS}
PARSERS = 3
# What an entry, or a file, is refused for that can be told without any other.
OF_FORM = {"key", "missing", "unit", "value"}


class Told(NamedTuple):
    """Kinds of errors that the reader finds in files, and whose reading of the edited one the schema refuses."""

    errors: set[str]
    refused: list[str]


def told(edited: Edited, folder: Path) -> Told:
    for name, text in edited.written().items():
        (folder / name).write_text(text, "utf-8")
    _, findings = load.load_definition(folder, ACCEPTABLE)
    errors = {finding.name for finding in findings if finding.level is Level.ERROR}
    return Told(errors, refused(edited.file, edited.tree))


def refused(file: str, tree: Any) -> list[str]:
    return [parser for parser, read in readings(tree).items() if not SCHEMAS[file].is_valid(read)]


def disagree(one: Told) -> bool:
    """Tell whether reader and schema don't think alike, however an editor parses."""
    return (bool(one.errors & OF_FORM) and len(one.refused) < PARSERS) or (bool(one.refused) and not one.errors)


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Leave out what entries are to each other, which no schema knows."""
    monkeypatch.setattr(load, "check_across", lambda _: [])


AIRCRAFT: dict[str, Callable[[], dict[str, str]]] = {
    "every key": files,
    **{name: partial(example, name) for name in ("wren", "wisp", "fulmar")},
}


@pytest.mark.parametrize("name", AIRCRAFT)
def test_what_is_read_without_an_error_has_the_schema_s_form(name: str, tmp_path: Path) -> None:
    texts = AIRCRAFT[name]()
    for file, text in texts.items():
        assert told(Edited(texts, file, "", tree_of(text, tmp_path)), tmp_path) == Told(set(), [])


def test_the_built_in_parts_have_the_schema_s_form(tmp_path: Path) -> None:
    assert refused("parts.yaml", tree_of(load.BUILT_IN_PARTS.read_text("utf-8"), tmp_path)) == []


def _of(name: str, shares: tuple[int, int, int]) -> list[Any]:
    """Return how many of an aircraft's edits, one in so many, are tried: quickly, under `long`, by hand."""
    marks: tuple[Any, ...] = ((), pytest.mark.long, pytest.mark.longest)
    return [
        pytest.param(name, share, id=f"{name} {share}", marks=mark)
        for share, mark in zip(shares, marks, strict=True)
        if share
    ]


SHARES = [
    *_of("every key", (300, 30, 2)),
    *_of("wren", (90, 10, 2)),
    *_of("wisp", (90, 10, 2)),
    *_of("fulmar", (0, 200, 40)),
]


@pytest.mark.usefixtures("alone")
@pytest.mark.parametrize(("name", "share"), SHARES)
def test_reader_and_schema_agree_on_edited_documents(name: str, share: int, tmp_path: Path) -> None:
    some = islice(edits(AIRCRAFT[name](), tmp_path), 0, None, share)
    tried = {f"{edited.file} {edited.what}": told(edited, tmp_path) for edited in some}
    assert {what: one for what, one in tried.items() if disagree(one)} == {}
