"""The records of both examples."""

from __future__ import annotations

import pytest
from recorded import Sections, sections_of
from resolved import harness_of, record_of

from docgen.basics.shipped import shipped_folder


@pytest.fixture(scope="module")
def wren() -> Sections:
    return sections_of(record_of(harness_of(shipped_folder("examples") / "wren")).whole)


@pytest.fixture(scope="module")
def fulmar() -> Sections:
    return sections_of(record_of(harness_of(shipped_folder("examples") / "fulmar")).whole)
