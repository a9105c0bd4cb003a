"""Contacts to spare, against the circular's numbers."""

from __future__ import annotations

import pytest
from reference.workmanship import SPARE_CONTACTS

from docgen.harness.wiring.spares import spares_wanted


@pytest.mark.parametrize(("contacts", "spares"), SPARE_CONTACTS.items())
def test_a_connector_keeps_as_many_spares_as_the_circular_asks(contacts: int, spares: int) -> None:
    assert spares_wanted(contacts) == spares
