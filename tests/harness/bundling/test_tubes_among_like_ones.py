"""Of tubes that fit the narrowest that stands the heat is taken, of equal ones that which shrinks least."""

from __future__ import annotations

import pytest
from typed_parts import tube

from docgen.harness.bundling.tubes import choose_tube

# Three wires of 1.6 mm: 3.45 mm to pass with a tenth to spare, 3.79 mm; 0.9 of 3.13 mm, 2.82 mm, to grip.
LINED, PLAIN, WIDE = (
    tube("lined", 4.8, 1.5, 0.5, limit="140 C"),
    tube("plain", 4.8, 2.4, 0.5, limit="125 C"),
    tube("wide", 6.4, 2.7, 0.5, limit="200 C"),
)


@pytest.mark.parametrize(
    ("heat_c", "name"),
    [(None, "plain"), (125, "plain"), (126, "lined"), (140, "lined"), (141, "wide"), (200, "wide"), (201, "plain")],
)
def test_the_first_that_stands_the_heat_is_taken(heat_c: float | None, name: str) -> None:
    found = choose_tube(3.45, 3.13, [WIDE, LINED, PLAIN], heat_c)
    assert found is not None
    assert found.name == name
