"""A number beside a name is told from one that the name ends in."""

from __future__ import annotations

import pytest

from docgen.harness.model.circuits import numbered


@pytest.mark.parametrize(
    ("name", "number", "said"),
    [
        ("unit-2", "1", "unit-2 port 1"),
        ("unit", "1", "unit 1"),
        ("unit-2", "BATT", "unit-2 BATT"),
        ("unit-2", "", "unit-2"),
    ],
)
def test_what_is_numbered_is_said_where_two_figures_would_meet(name: str, number: str, said: str) -> None:
    assert numbered(name, "port", number) == said
