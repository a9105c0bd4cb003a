"""Names that become folders: what every system takes (Microsoft, Naming Files, Paths, and Namespaces)."""

from __future__ import annotations

import re

from docgen.basics.findings import Refused, shown

# What Windows keeps for itself, in capitals or small, whatever stands behind a full stop.
NO_FOLDERS = {"con", "prn", "aux", "nul"} | {f"{port}{number}" for port in ("com", "lpt") for number in range(10)}
_NO_CHARACTERS = re.compile(r'[<>:"/\\|?*\x00-\x1f]+')


def check_folder_name(text: str, *taken: str) -> str:
    """Check that a folder can have this name on every system, beside those `taken`; raises Refused `name`."""
    plain = _NO_CHARACTERS.sub("-", text).rstrip(". ")
    stem, stop, rest = plain.partition(".")
    device = stem.casefold().rstrip() in NO_FOLDERS
    if device or plain != text:
        offer = f"{stem}1{stop}{rest}" if device else plain
        do = f"Write another, like `{offer}`." if offer else "Write another."
        raise Refused("name", f"{shown(text)} can't be a folder's name on Windows.", do)
    if text.casefold() in taken:
        raise Refused("name", f"{shown(text)} is a folder beside it already.", f"Write another, like `{text}1`.")
    return text
