"""Find the folders that travel with the program: layouts and examples."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped_folder(name: str) -> Path:
    """Return `layouts` or `examples`: inside the installed package, else beside it in a checkout."""
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def example_names() -> list[str]:
    """Return what the examples are called."""
    return sorted(path.name for path in shipped_folder("examples").iterdir() if path.is_dir())
