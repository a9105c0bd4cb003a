"""Aircraft in folders of their own, as their builders change, issue and build them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from builder import Builder

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def wren(tmp_path: Path) -> Builder:
    """Return the builder of the smallest example."""
    return Builder(tmp_path, "wren")


@pytest.fixture
def fulmar(tmp_path: Path) -> Builder:
    """Return the builder of the demanding example."""
    return Builder(tmp_path, "fulmar")
