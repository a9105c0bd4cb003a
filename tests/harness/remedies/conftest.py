"""Definitions that are written and checked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import Check, findings_in


@pytest.fixture
def findings_of(written_folder: Callable[[Mapping[str, str]], Path]) -> Check:
    return lambda said: findings_in(written_folder, said)
