"""A fault of the program itself, whatever the command: two sentences, exit 3, and what was written before is named."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from conftest import WREN

# A statement that puts a fault into the program, by the words of a command that meets it.
LOADS = "import docgen.definition.load as m; m.load_definition = lambda *_: {}['gone']"
CONTENT = "import docgen.paperwork.record.record as m; m.content = lambda *_: {}['gone']"
FAULTS: dict[str, tuple[str, list[str]]] = {
    "check": ("import docgen.pipeline as m; m.resolve = lambda *_: {}['gone']", ["check", "wren"]),
    "print": (CONTENT, ["print", "wren"]),
    "print of several": (CONTENT, ["print", "wren", "gull"]),
    "issue": (CONTENT, ["issue", "wren"]),
    "issue that meets it as it is kept": (
        "import docgen.reissue.keeping as m; m._sync = lambda *_: {}['gone']",
        ["issue", "wren"],
    ),
    "built": ("import docgen.reissue.issuing as m; m.keep_built = lambda *_: {}['gone']", ["built", "done"]),
    "compare": ("import docgen.reissue.compare as m; m.compare = lambda *_, **__: {}['gone']", ["compare", "done"]),
    "new": ("import docgen.paperwork.file_set as m; m.Prepared = lambda *_: {}['gone']", ["new", "tern"]),
    "ruler": ("import docgen.paperwork.layouts.ruler as m; m.ruler_file = lambda *_, **__: {}['gone']", ["ruler"]),
    "explain": ("import docgen.basics.explain as m; m.list_kinds = lambda *_: {}['gone']", ["explain"]),
    "parts": ("import docgen.definition.listing as m; m.list_parts = lambda *_: {}['gone']", ["parts"]),
    "stock": ("import docgen.paperwork.stocks.reading as m; m.list_stocks = lambda *_: {}['gone']", ["stock"]),
    "a file that can't be put in its place": (
        "import os; replace, left = os.replace, iter(range(3)); "
        "os.replace = lambda *paths: {}['gone'] if next(left, None) == 2 else replace(*paths)",
        ["print", "wren", "record"],
    ),
}


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder of an aircraft that was issued."""
    folder = tmp_path_factory.mktemp("issued") / "done"
    shutil.copytree(WREN, folder)
    run("", ["issue", str(folder), "--to", str(folder.parent / "paper")], folder.parent)
    return folder


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """Return a folder with two aircraft."""
    for name in ("wren", "gull"):
        shutil.copytree(WREN, tmp_path / name)
    return tmp_path


def run(fault: str, words: list[str], folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", f"{fault}\nfrom docgen.cli import main\nmain()", *words]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


def files(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def told(stderr: str) -> tuple[str, str]:
    """Return the fault, and what was written before it, as the last line tells."""
    match = re.fullmatch(
        r"docgen \S+ met a fault of its own, (\w+) at \S+:\d+, (.+)\. Send this line and the aircraft's folder .+\.",
        stderr.splitlines()[-1],
    )
    assert match, stderr
    assert "Traceback" not in stderr
    return match[1], match[2]


QUICK = ("issue that meets it as it is kept",)


@pytest.mark.parametrize(
    "case", [case if case in QUICK else pytest.param(case, marks=pytest.mark.long) for case in FAULTS]
)
def test_a_fault_is_told_in_two_sentences_and_nothing_is_written(
    case: str, bench: Path, request: pytest.FixtureRequest
) -> None:
    fault, words = FAULTS[case]
    if "done" in words:
        shutil.copytree(request.getfixturevalue("issued"), bench / "done")
    before = files(bench)
    stopped = run(fault, words, bench)
    assert stopped.returncode == 3
    assert told(stopped.stderr) == ("KeyError", "and wrote nothing")
    assert " at <string>:" in stopped.stderr  # where the fault is, not where it was caught
    assert files(bench) == before


@pytest.mark.long
def test_bytecode_that_is_cut_short_is_no_stop_by_the_user(tmp_path: Path) -> None:
    """As a full disc may leave it: Python then meets the end of a file where it reads a module."""
    command = [sys.executable, "-X", f"pycache_prefix={tmp_path}", "-m", "docgen", "parts"]
    settings = {**os.environ, "PYTHONDONTWRITEBYTECODE": ""}
    whole = subprocess.run(command, env=settings, capture_output=True, text=True, check=True).stdout
    (bytecode,) = tmp_path.rglob("listing.*.pyc")
    bytecode.write_bytes(bytecode.read_bytes()[:500])
    stopped = subprocess.run(command, env=settings, capture_output=True, text=True, check=False)
    assert (stopped.returncode, stopped.stdout) == (3, "")
    assert stopped.stderr.split("\n")[-2:] == [
        "a file of docgen is cut short: make room on the disc and install it again",
        "",
    ]
    assert "Traceback" not in stopped.stderr
    bytecode.unlink()
    assert subprocess.run(command, capture_output=True, text=True, check=True).stdout == whole


@pytest.mark.long
def test_paper_of_an_aircraft_that_was_written_before_is_named(bench: Path) -> None:
    fault = (
        "import docgen.paperwork.printed as m; write, left = m.write_paper, iter(range(1))\n"
        "m.write_paper = lambda *a, **k: {}['gone'] if next(left, None) is None else write(*a, **k)"
    )
    stopped = run(fault, ["print", "wren", "gull", "hangar-card"], bench)
    assert (stopped.returncode, told(stopped.stderr)[1]) == (3, "after it had written the paper in out/wren")
    assert set(files(bench / "out")) == {"wren/hangar-card.pdf", "wren/set.txt"}


@pytest.mark.long
def test_an_issue_that_was_kept_before_is_named(bench: Path) -> None:
    fault = "import docgen.reissue.issuing as m; m.settle = lambda *_: {}['gone']"
    stopped = run(fault, ["issue", "wren"], bench)
    assert (stopped.returncode, told(stopped.stderr)[1]) == (3, "after it had written issue A")
    assert not (bench / "out").exists() or files(bench / "out") == {}
    assert "issued/A/state.yaml" in files(bench / "wren")
