"""Say what is being done, to whoever wants to show it meanwhile."""

from __future__ import annotations

heard: list[str] = []
"""What was said last; nothing before that."""


def doing(what: str) -> None:
    """Say what begins now."""
    heard[:] = [what]
