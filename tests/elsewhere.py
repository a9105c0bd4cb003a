"""A copy of the project far from the checkout, where nothing of this machine's Python is found."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
_NOT_PACKED = shutil.ignore_patterns(".git", ".venv", ".*_cache", ".hypothesis", "__pycache__", "out", "dist", "build")


def copy_of_project(folder: Path) -> Path:
    """Return a copy of the project, as far as it is kept."""
    return Path(shutil.copytree(ROOT, folder, ignore=_NOT_PACKED))


def bare_settings() -> dict[str, str]:
    """Return the environment without what directs Python."""
    return {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
