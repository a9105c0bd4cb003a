"""Take a joint; return how many of its contacts are to stay spare, and how many may be taken."""

from __future__ import annotations

from docgen.harness.model.joints import Disconnect
from docgen.harness.model.limits import Limits


def spares_wanted(contacts: int) -> int:
    """Return how many contacts of a connector are to be spare.

    Source: FAA AC 43.13-1B, change 1, 11-234: two of 25 or fewer, four of 26 to 100, six of more.
    """
    if contacts <= 25:
        return 2
    return 4 if contacts <= 100 else 6


def spares_kept(limits: Limits, contacts: int) -> int:
    """Return how many of so many contacts are to stay spare: the builder's limit, else the circular's."""
    return spares_wanted(contacts) if limits.spare_contacts is None else round(limits.spare_contacts.value)


def spares_to_take(limits: Limits, disconnect: Disconnect) -> int:
    """Return how many contacts of a joint a remedy may take without leaving fewer spare than are to stay so."""
    return max(len(disconnect.spares) - spares_kept(limits, len(disconnect.shell.contacts)), 0)


def spares_text(limits: Limits, disconnect: Disconnect) -> str:
    """Say how many contacts of a joint are to spare, and how many of those are to stay so."""
    spares = len(disconnect.spares)
    kept = min(spares_kept(limits, len(disconnect.shell.contacts)), spares)
    return f"{spares}, of which {kept} {'is' if kept == 1 else 'are'} to stay spare" if kept else f"{spares}"
