from __future__ import annotations

import pytest

from docgen.basics.shipped import shipped_folder


@pytest.mark.parametrize("name", ["examples", "layouts"])
def test_what_travels_with_the_program_is_found(name: str) -> None:
    assert shipped_folder(name).is_dir()


def test_the_smallest_example_travels_with_the_program() -> None:
    assert (shipped_folder("examples") / "wren" / "harness.yaml").is_file()
