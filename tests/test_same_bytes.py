"""Same input, same bytes: whoever prints, wherever, whenever."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from docgen.basics.shipped import shipped_folder

pytestmark = pytest.mark.long

# Fourteen hours ahead of UTC and eleven behind: never on the same date.
EAST = {
    "PYTHONHASHSEED": "1",
    "TZ": "EAST-14",
    "LC_ALL": "C",
    "PYTHONUTF8": "0",
    "PYTHONCOERCECLOCALE": "0",
    "SOURCE_DATE_EPOCH": "86400",
}
WEST = {"PYTHONHASHSEED": "4242", "TZ": "WEST+11", "LC_ALL": "tr_TR.UTF-8", "PYTHONUTF8": "1"}


def start(workshop: Path, example: str, options: list[str], settings: dict[str, str]) -> subprocess.Popen[bytes]:
    """Begin to print a copy of an example, with a home and a current folder of its own."""
    folder = shutil.copytree(shipped_folder("examples") / example, workshop / "aircraft" / example)
    for name in ("home", "current"):
        (workshop / name).mkdir()
    (workshop / "home/.reportlab_settings").write_text(f"pageCompression = {int(bool(options))}\n")
    return subprocess.Popen(
        [sys.executable, "-m", "docgen", "print", str(folder), *options],
        cwd=workshop / "current",
        env={"PATH": os.environ["PATH"], "HOME": str(workshop / "home")} | settings,
        stdout=subprocess.DEVNULL,
    )


def files_in(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_paper_depends_on_nothing_but_the_definition(tmp_path: Path, example: str) -> None:
    east, west = tmp_path / "east", tmp_path / "west/of/here"
    with start(east, example, [], EAST) as one, start(west, example, ["--to", "../paper"], WEST) as other:
        assert (one.wait(), other.wait()) == (0, 0)
    printed, again = files_in(east / "current/out" / example), files_in(west / "paper")
    assert printed.keys() == again.keys()
    assert len(printed) > 5
    assert [name for name, content in printed.items() if content != again[name]] == []
