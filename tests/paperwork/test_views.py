"""Views of halves against the numbering of open footprint data (tests/reference/connector_numbering.py)."""

from __future__ import annotations

import pytest
from reference import connector_numbering as numbering

from docgen.definition.load import load_definition
from docgen.harness.connectors import shell_connector
from docgen.harness.kinds import Connector
from docgen.paperwork.views import mating_view, mirrored, wire_view


@pytest.fixture(scope="module")
def shells(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Connector]:
    definition, _ = load_definition(tmp_path_factory.mktemp("nothing"))
    return {name: shell_connector(name, part) for name, part in definition.parts.shells.items()}


def relative(at: dict[str, tuple[float, float]]) -> dict[str, tuple[float, float]]:
    """Return contacts from contact 1, right and down, as the footprint data gives them."""
    x, y = at["1"]
    return {name: (round(right - x, 3), round(y - up, 3)) for name, (right, up) in at.items()}


def test_pins_of_nine_stand_as_the_footprint_of_a_pin_part(shells: dict[str, Connector]) -> None:
    at = relative(mating_view(shells["dsub-9"], "pins", None).at_mm)
    for contact, (x, y) in numbering.D_9_PINS_MM.items():
        assert at[str(contact)] == pytest.approx((x, y), abs=0.005)


def test_sockets_of_nine_stand_in_a_mirror(shells: dict[str, Connector]) -> None:
    at = relative(mating_view(shells["dsub-9"], "sockets", None).at_mm)
    for contact, place in numbering.D_9_SOCKETS_MM.items():
        assert at[str(contact)] == pytest.approx(place, abs=0.005)


def test_the_wire_side_of_one_half_is_the_mating_face_of_the_other(shells: dict[str, Connector]) -> None:
    for shell in shells.values():
        assert wire_view(shell, "pins", None) == mating_view(shell, "sockets", None)
        assert wire_view(shell, "sockets", None) == mating_view(shell, "pins", None)


@pytest.mark.parametrize("key", ["up", "right", "down", "left"])
@pytest.mark.parametrize("gender", ["pins", "sockets"])
def test_the_mating_view_is_turned_as_the_half_sits(shells: dict[str, Connector], gender: str, key: str) -> None:
    for shell in shells.values():
        assert mating_view(shell, gender, key).key == key
        assert mirrored(mirrored(mating_view(shell, gender, key))) == mating_view(shell, gender, key)


def test_turning_keeps_contacts_in_order_around_the_shell(shells: dict[str, Connector]) -> None:
    # A quarter turn to the right brings what was up (0, y) to the right (y, 0).
    block = shells["block-6"]
    up, right = mating_view(block, "pins", "up"), mating_view(block, "pins", "right")
    for contact, (x, y) in up.at_mm.items():
        assert right.at_mm[contact] == pytest.approx((y, -x))
    assert right.outline_mm == (up.outline_mm[1], up.outline_mm[0])
