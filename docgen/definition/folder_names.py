"""Names that become folders: what every system takes."""

from __future__ import annotations

from docgen.basics.findings import Refused, shown

# What Windows keeps for itself, in capitals or small (Microsoft, Naming Files, Paths, and Namespaces).
NO_FOLDERS = {"con", "prn", "aux", "nul"} | {f"{port}{number}" for port in ("com", "lpt") for number in range(10)}


def check_folder_name(text: str, *taken: str) -> str:
    """Check that a folder can have this name on every system, beside those `taken`; raises Refused `name`."""
    name = text.casefold()
    if name in NO_FOLDERS:
        raise Refused("name", f"{shown(text)} can't be a folder's name on Windows.", f"Write another, like `{text}1`.")
    if name in taken:
        raise Refused("name", f"{shown(text)} is a folder beside it already.", f"Write another, like `{text}1`.")
    return text
