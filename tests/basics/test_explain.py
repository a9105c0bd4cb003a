"""`docgen explain`: a finding explained, and the nearest offered for what is none."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from click.testing import CliRunner, Result

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
