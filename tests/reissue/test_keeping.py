"""An issue is whole or absent, whatever fails, stops or comes in between; and none is ever written over."""

from __future__ import annotations

import itertools
import random
import signal
import subprocess
import sys
import time
from contextlib import suppress
from typing import TYPE_CHECKING

import pytest
from failing import nth_fails

from docgen.basics.findings import Refused
from docgen.definition.issues import STATE, read_issues
from docgen.paperwork.documents import Choice
from docgen.paperwork.file_set import held
from docgen.reissue.issuing import Now, issue, say_built
from docgen.reissue.keeping import keep_built, keep_issue

if TYPE_CHECKING:
    from pathlib import Path

    from builder import Builder

FILES = {"aircraft.yaml": b"aircraft\n", "harness.yaml": b"harness\n", STATE: b"state\n"}


def contents(folder: Path) -> dict[str, bytes]:
    """Return all files below a folder that are not left over from what was stopped."""
    paths = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    return {str(path): (folder / path).read_bytes() for path in paths if not any(p[0] == "." for p in path.parts)}


def now_of(builder: Builder) -> Now:
    checked = builder.check()
    assert checked.harness is not None
    return Now(builder.folder, checked.harness, checked.issues, checked.issued, checked.where)


def test_whichever_operation_fails_an_issue_is_whole_or_absent_and_can_be_kept_again(tmp_path: Path) -> None:
    for number in itertools.count(1):
        folder = tmp_path / str(number)
        folder.mkdir()
        keep_issue(folder, "A", FILES)
        old = contents(folder)
        new = old | {f"issued/B/{name}": content for name, content in FILES.items()}
        with nth_fails(number, folder) as counter:
            try:
                keep_issue(folder, "B", FILES)
            except OSError:
                assert counter.failed
        assert contents(folder) in (old, new)
        if contents(folder) == old:
            keep_issue(folder, "B", FILES)
        assert contents(folder) == new
        if not counter.failed:
            break
    assert number > len(FILES) * 2  # each file is opened and brought to disk


def test_whichever_operation_fails_an_issue_is_built_or_not(tmp_path: Path) -> None:
    for number in itertools.count(1):
        folder = tmp_path / str(number)
        folder.mkdir()
        keep_issue(folder, "A", FILES)
        old = contents(folder)
        with nth_fails(number, folder) as counter:
            try:
                keep_built(folder, "A")
            except OSError:
                assert counter.failed
        assert contents(folder) in (old, old | {"issued/A/built.yaml": b"built: A\n"})
        keep_built(folder, "A")
        assert contents(folder) == old | {"issued/A/built.yaml": b"built: A\n"}
        if not counter.failed:
            break
    assert number > 3


def test_a_letter_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    keep_issue(tmp_path, "A", FILES)
    before = contents(tmp_path)
    with pytest.raises(OSError, match="not empty"):
        keep_issue(tmp_path, "A", {STATE: b"other\n"})
    assert contents(tmp_path) == before


def test_what_a_stopped_issue_left_over_is_removed(tmp_path: Path) -> None:
    (tmp_path / "issued" / ".A.new").mkdir(parents=True)
    (tmp_path / "issued" / ".A.new" / STATE).write_bytes(b"half")
    keep_issue(tmp_path, "A", FILES)
    assert sorted(path.name for path in (tmp_path / "issued").iterdir()) == ["A"]


def test_of_two_that_keep_at_once_the_second_is_told_so(wren: Builder) -> None:
    now = now_of(wren)
    with held(wren.folder / "issued"), pytest.raises(BlockingIOError, match="another run writes there"):
        issue(now, wren.out, Choice(stems=("record",)))
    assert read_issues(wren.folder)[0].letters == ()
    assert contents(wren.out) == {}
    wren.keep()
    with pytest.raises(Refused, match="another issue was kept while this one was made"):
        issue(now, wren.out, Choice(stems=("record",)))
    assert read_issues(wren.folder)[0].letters == ("A",)
    say_built(wren.folder, read_issues(wren.folder)[0])
    assert read_issues(wren.folder)[0].built == "A"


@pytest.mark.long
def test_of_two_processes_at_once_one_keeps_the_issue_and_the_other_says_so(wren: Builder) -> None:
    command = [sys.executable, "-m", "docgen", "issue", str(wren.folder), "--to"]
    both = [
        subprocess.Popen([*command, str(wren.out / name)], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
        for name in ("one", "other")
    ]
    told = [running.communicate()[1] for running in both]
    kept = ["issue A is kept" in said for said in told]
    assert sorted(kept) == [False, True]
    beaten = told[kept.index(False)]
    says = ("another run writes there", "another issue was kept while", "nothing differs from issue A")
    assert any(words in beaten for words in says), beaten
    issues, findings = read_issues(wren.folder)
    assert (issues.letters, findings) == (("A",), [])


def test_paper_that_can_t_be_written_after_an_issue_is_kept_is_told_with_what_to_do(wren: Builder) -> None:
    (wren.out / "record.txt").mkdir(parents=True)
    code, _, told = wren.say("issue")
    assert (code, "nothing is kept" in told) == (1, True)
    assert not (wren.folder / "issued").exists()


@pytest.mark.long
def test_whichever_operation_of_a_whole_issue_fails_issues_and_paper_are_told_of_truly(wren: Builder) -> None:
    choice = Choice(stems=("record",))
    parent = wren.folder.parent
    wren.keep()
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.revise("B")
    now, old = now_of(wren), contents(wren.folder)
    for number in itertools.count(1):
        with nth_fails(number, parent) as counter:
            kept = False
            with suppress(OSError, Refused):
                kept = issue(now, wren.out, choice).letter == "B"
        assert (contents(wren.folder) == old) != kept
        assert read_issues(wren.folder)[1] == []
        if not counter.failed:
            break
        for path in sorted((wren.folder / "issued" / "B").glob("*")) if kept else ():
            path.unlink()
        if kept:
            (wren.folder / "issued" / "B").rmdir()
    assert number > 20


@pytest.mark.longest
def test_killed_at_any_moment_old_issues_are_whole_and_the_new_one_is_whole_or_absent(wren: Builder) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.revise("B")
    old = contents(wren.folder)
    command = [sys.executable, "-m", "docgen", "issue", str(wren.folder), "--to", str(wren.out)]
    began = time.monotonic()
    subprocess.run(command, check=True, capture_output=True)
    took = time.monotonic() - began
    whole = contents(wren.folder)
    chance = random.Random(14)
    for _ in range(50):
        for path in sorted((wren.folder / "issued" / "B").glob("*")):
            path.unlink()
        if (wren.folder / "issued" / "B").exists():
            (wren.folder / "issued" / "B").rmdir()
        running = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(chance.uniform(0.3, 1.05) * took)
        running.send_signal(signal.SIGKILL)
        running.wait()
        assert contents(wren.folder) in (old, whole)
        assert read_issues(wren.folder)[1] == []
