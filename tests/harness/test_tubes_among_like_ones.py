"""Of tubes that fit the narrowest that stands the heat is taken, of equal ones that which shrinks least."""

from __future__ import annotations

import pytest

from docgen.harness.kinds import TubeKind
from docgen.harness.tubes import choose_tube


def tube(name: str, expanded_mm: float, recovered_mm: float, limit_c: float | None = None) -> TubeKind:
    return TubeKind(name, expanded_mm, recovered_mm, 0.5, clear=False, colour=None, limit_c=limit_c)


# Three wires of 1.6 mm: 3.45 mm to pass with a tenth to spare, 3.79 mm; 0.9 of 3.13 mm, 2.82 mm, to grip.
LINED, PLAIN, WIDE = tube("lined", 4.8, 1.5, 140), tube("plain", 4.8, 2.4, 125), tube("wide", 6.4, 2.7, 200)


@pytest.mark.parametrize(
    ("heat_c", "name"),
    [(None, "plain"), (125, "plain"), (126, "lined"), (140, "lined"), (141, "wide"), (200, "wide"), (201, "plain")],
)
def test_the_first_that_stands_the_heat_is_taken(heat_c: float | None, name: str) -> None:
    found = choose_tube(3.45, 3.13, [WIDE, LINED, PLAIN], heat_c)
    assert found is not None
    assert found.name == name
