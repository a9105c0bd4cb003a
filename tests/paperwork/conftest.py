"""Commands that resolve examples once, and labels that they print."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from measured import PrintedPage, printed_pages
from resolved import check_once

from docgen import pipeline

if TYPE_CHECKING:
    from printed_labels import Run


@pytest.fixture
def run(run: Run, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run a command in an empty folder; the examples that it prints are resolved once for all tests."""
    monkeypatch.setattr(pipeline, "check", check_once)
    return run


@pytest.fixture
def labels(run: Run) -> Callable[..., list[PrintedPage]]:
    """Print wire labels and return their pages."""

    def pages(folder: Path, *words: str | Path) -> list[PrintedPage]:
        ran = run("print", folder, "wire-labels", "--to", "paper", *words)
        assert ran.exit_code == 0, ran.stderr
        pdf = Path("paper/wire-labels.pdf")
        return printed_pages(pdf) if pdf.is_file() else []

    return pages
