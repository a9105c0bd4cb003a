"""The form of what was issued: the state that is in the aircraft, as far as it must be kept.

What was issued is weaker than what the builder pins. Marks will be kept here too.
"""

from __future__ import annotations

from docgen.definition.fields import Form


class Issued(Form):
    """Contacts given by disconnect and circuit, when the paper was last issued."""

    contacts: dict[str, dict[str, list[str]]] = {}


NOTHING_ISSUED = Issued()
