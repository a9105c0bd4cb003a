"""Say what is being done, to whoever wants to show it meanwhile, and what is done for good."""

from __future__ import annotations

heard: list[str] = []
"""What was said last; nothing before that."""

written: list[str] = []
"""What was said to be written; nothing at the beginning of a run."""


def doing(what: str) -> None:
    """Say what begins now."""
    heard[:] = [what]


def wrote(what: str) -> None:
    """Say what has been written, and stays whatever comes after."""
    written.append(what)
