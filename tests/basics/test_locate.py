"""Where what a form refuses is shown, and what is said of it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import pytest
from pydantic import AfterValidator, BaseModel, ConfigDict, Field, ValidationError

from docgen.basics.findings import Finding, Position, Refused
from docgen.basics.locate import findings_from_errors
from docgen.basics.source import plain, read_yaml

HERE = Position("harness.yaml", 1, 1)


def no_zero(text: str) -> str:
    if text == "0":
        raise Refused("value", "it is nothing.", "Give one.")
    return text


class Below(BaseModel):
    model_config = ConfigDict(extra="forbid")

    one: str
    two: list[str] = Field(default=[], min_length=2, max_length=3)


class Entry(BaseModel):
    model_config = ConfigDict(extra="forbid")

    below: Below | None = None
    width: Annotated[str, AfterValidator(no_zero)] = "1"
    alias: str = Field(default="", alias="zebra")
    many: dict[str, Below] = {}
    pair: tuple[str, ...] = ()


def found_in(text: str, folder: Path) -> list[Finding]:
    (folder / "harness.yaml").write_text(text, "utf-8")
    node, findings = read_yaml(folder / "harness.yaml", "harness.yaml")
    assert node is not None
    assert findings == []
    with pytest.raises(ValidationError) as caught:
        Entry.model_validate(plain(node))
    return findings_from_errors(caught.value.errors(), node, HERE, Entry)


@pytest.mark.parametrize(
    ("text", "line", "column", "name", "sentence", "do"),
    [
        ("width: 0", 1, 8, "value", "it is nothing.", "Give one."),
        ("below:\n  two: [a, b]", 1, 1, "missing", "`one` is missing.", "Add it."),
        ("width: 1\nbelow:\n  one: a\n  qqq: b", 4, 3, "key", "the key `qqq` is unknown.", "Known here: one, two."),
        ("width: 1\nqqq: b", 2, 1, "key", "the key `qqq` is unknown.", "Known here: below, many, pair, width, zebra."),
        ("many: {x: {one: a, qqq: b}}", 1, 20, "key", "the key `qqq` is unknown.", "Known here: one, two."),
        ("many:\n  x: {two: [a, b]}", 2, 3, "missing", "`one` is missing.", "Add it."),
        (
            "many: {x: {one: a, two: b}}",
            1,
            25,
            "value",
            "something else stands where a list should.",
            "Write a list here.",
        ),
        ("pair: a", 1, 7, "value", "something else stands where a list should.", "Write a list here."),
        (
            "many: a",
            1,
            7,
            "value",
            "something else stands where keys with values should.",
            "Write keys with values here.",
        ),
        ("zebra:: b", 1, 1, "key", "the key `zebra:` is unknown.", "Did you mean `zebra`?"),
        ("zebr: a", 1, 1, "key", "the key `zebr` is unknown.", "Did you mean `zebra`?"),
        ("zebra:a: b", 1, 1, "key", "the key `zebra:a` is unknown.", "Put a blank after the colon: `zebra: a`."),
        ("below: {one: [a]}", 1, 14, "value", "something else stands where one value should.", "Write one value here."),
        ("below:\n  one: a\n  two: [a]", 3, 8, "value", "the list has 1 items where 2 belong.", "Give 2."),
        (
            "below:\n  one: a\n  two: [a, b, c, d]",
            3,
            8,
            "value",
            "the list has 4 items; 3 are the most.",
            "Give 3 at most.",
        ),
        (
            "below: a",
            1,
            8,
            "value",
            "something else stands where keys with values should.",
            "Write keys with values here.",
        ),
    ],
)
def test_what_is_wrong_is_said_where_it_stands(
    text: str, line: int, column: int, name: str, sentence: str, do: str, tmp_path: Path
) -> None:
    [finding] = found_in(text, tmp_path)
    assert finding.position == Position("harness.yaml", line, column)
    assert (finding.name, finding.sentence, finding.do) == (name, sentence, do)
