"""`docgen explain`: a finding explained, and the nearest offered for what is none."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest
from click.testing import CliRunner, Result

from docgen.basics.explain import explain as explain_kind
from docgen.basics.explain import list_kinds
from docgen.basics.findings import Kind, Level
from docgen.cli import docgen


@pytest.fixture
def explain() -> Callable[[str], Result]:
    return lambda name: CliRunner().invoke(docgen, ["explain", name])


def test_a_finding_is_explained_on_standard_output(explain: Callable[[str], Result]) -> None:
    shown = explain("swap")
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert shown.stdout.startswith("swap (caution, stands on disconnect): ")
    for word in ("`shell:`", "`keyed:`", "`reach:`"):
        assert word in shown.stdout
    assert [line for line in shown.stdout.splitlines() if line != line.rstrip()] == []


@pytest.mark.parametrize(("typed", "meant"), [("swop", "swap"), ("live-pin", "live-pins"), ("Volts", "volts")])
def test_an_unknown_finding_is_wrong_use_and_the_nearest_is_offered(
    typed: str, meant: str, explain: Callable[[str], Result]
) -> None:
    refused = explain(typed)
    assert (refused.exit_code, refused.stdout) == (2, "")
    assert f"'{typed}'" in refused.stderr
    assert f"'{meant}'" in refused.stderr


def test_a_name_like_none_is_told_with_those_there_are(explain: Callable[[str], Result]) -> None:
    refused = explain("zzzz")
    assert (refused.exit_code, refused.stdout) == (2, "")
    assert "live-pins" in refused.stderr


KIND = Kind(
    "drop", Level.NOTE, "circuit", "Volts are lost.", "When `a b`: 5 V is lost " * 4, "Why. " * 30, "How.", "A source."
)


def test_what_is_told_of_a_finding_fills_lines_of_80_columns_and_keeps_examples_and_figures_together() -> None:
    lines = explain_kind(KIND).splitlines()
    assert lines[:3] == ["drop (note, stands on circuit): Volts are lost.", "", "When"]
    assert lines[-6:] == ["", "How to remedy it", "  How.", "", "Source", "  A source."]
    assert max(map(len, lines)) <= 80
    for line, following in pairwise(lines):
        assert not line.endswith(("`a", " 5"))
        if line.startswith("  ") and following.startswith("  "):
            first = re.match(r"  (`a b`:|5 V|\S+)", following)
            assert first is not None
            assert len(f"{line} {first[1]}") > 80, line
    assert lines.count("Why it matters") == 1


def test_findings_are_listed_by_level_then_name_in_columns() -> None:
    kinds = [KIND, replace(KIND, name="cover"), replace(KIND, name="unit", level=Level.ERROR)]
    assert list_kinds(kinds).splitlines() == [
        "1 error: nothing is printed until it is put right.",
        "  unit   Volts are lost.",
        "",
        "0 cautions: it is printed; put it right, or accept it with a reason.",
        "",
        "2 notes: worth knowing.",
        "  cover  Volts are lost.",
        "  drop   Volts are lost.",
        "",
        "`docgen explain NAME` tells more of one.",
    ]
