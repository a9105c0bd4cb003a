"""Reading what was issued: which came after which, and errors where it is not as it was."""

from __future__ import annotations

import hashlib
import os
import shutil
from typing import TYPE_CHECKING

import pytest
from builder import Builder

from docgen.definition.issues import next_letter, read_issues

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Builder:
    """Return an aircraft of which A is built, and B and C are issued since."""
    builder = Builder(tmp_path_factory.mktemp("kept"), "wren")
    builder.keep()
    assert builder.say("built")[0] == 0
    builder.change("    label: RUD\n", "    label: YAW\n")
    builder.keep("B")
    builder.change("    label: YAW\n", "    label: TAIL\n")
    builder.keep("C")
    return builder


@pytest.fixture
def folder(kept: Builder, tmp_path: Path) -> Path:
    """Return a copy of that aircraft, moved elsewhere."""
    return shutil.copytree(kept.folder, tmp_path / "elsewhere")


def test_issues_follow_each_other_and_the_last_built_is_what_is_compared_with(folder: Path) -> None:
    issues, findings = read_issues(folder)
    assert findings == []
    assert issues.letters == ("A", "B", "C")
    assert issues.built == "A"
    assert issues.last is not None
    assert issues.base is not None
    assert (issues.last.issue, issues.base.issue) == ("C", "A")


def test_lines_that_end_as_another_system_s_are_no_damage(folder: Path) -> None:
    for path in (folder / "issued").rglob("*.yaml"):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert read_issues(folder)[1] == []


def test_a_state_is_read_however_long_it_is(folder: Path) -> None:
    """It says several times what the files say, which have a megabyte each."""
    path = folder / "issued" / "C" / "state.yaml"
    *lines, _ = path.read_text("utf-8").splitlines(keepends=True)
    text = "".join([*lines, f"# {'long ' * 400_000}\n"])
    path.write_text(f"{text}checksum: {hashlib.sha256(text.encode()).hexdigest()}\n", "utf-8")
    issues, findings = read_issues(folder)
    assert findings == []
    assert issues.letters == ("A", "B", "C")
    assert issues.last is not None


def changed(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def test_a_contact_changed_by_hand_is_an_error_at_the_checksum(folder: Path) -> None:
    path = folder / "issued" / "B" / "state.yaml"
    changed(path, "1: left-aileron negative", "4: left-aileron negative")
    (finding,) = read_issues(folder)[1]
    assert (finding.name, finding.position.file) == ("value", str(path))
    assert finding.position.line == len(path.read_text("utf-8").splitlines())


@pytest.mark.parametrize("file", ["aircraft.yaml", "harness.yaml", "built.yaml"])
def test_a_file_of_an_issue_changed_by_hand_is_an_error_in_it(folder: Path, file: str) -> None:
    path = folder / "issued" / "A" / file
    path.write_text(path.read_text("utf-8") + "# more\n", "utf-8")
    (finding,) = read_issues(folder)[1]
    assert str(finding.position) == f"{path}:1:1"


@pytest.mark.parametrize("file", ["aircraft.yaml", "state.yaml"])
def test_a_file_of_an_issue_that_is_lost_is_an_error(folder: Path, file: str) -> None:
    path = folder / "issued" / "A" / file
    path.unlink()
    assert [str(finding.position) for finding in read_issues(folder)[1]] == [f"{path}:1:1"]


@pytest.mark.parametrize("from_last", [False, True])
def test_errors_come_in_the_order_of_issues_however_the_system_lists_them(
    from_last: bool, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lost = [folder / "issued" / letter / "state.yaml" for letter in "ABC"]
    for path in lost:
        path.unlink()
    with os.scandir(folder / "issued") as entries:
        listed = sorted(entries, key=lambda entry: entry.name, reverse=from_last)
    monkeypatch.setattr(os, "scandir", lambda _: listed)
    found = read_issues(folder)[1]
    monkeypatch.undo()
    assert [finding.position.file for finding in found] == [str(path) for path in lost]


def test_half_a_state_is_an_error(folder: Path) -> None:
    path = folder / "issued" / "C" / "state.yaml"
    path.write_bytes(path.read_bytes()[:2000])
    assert [finding.position.file for finding in read_issues(folder)[1]] == [str(path)]


def test_an_issue_in_a_folder_of_another_name_is_an_error(folder: Path) -> None:
    (folder / "issued" / "C").rename(folder / "issued" / "D")
    (finding,) = read_issues(folder)[1]
    assert "`C` stands in the folder `D`" in finding.sentence


def test_an_issue_lost_from_between_is_an_error(folder: Path) -> None:
    shutil.rmtree(folder / "issued" / "B")
    (finding,) = read_issues(folder)[1]
    assert "no issue before `C` leads to the first" in finding.sentence


def test_nothing_issued_is_no_error(folder: Path) -> None:
    shutil.rmtree(folder / "issued")
    issues, findings = read_issues(folder)
    assert (issues.letters, issues.last, findings) == ((), None, [])


def test_the_next_letter_is_the_first_after_it_that_is_not_there() -> None:
    assert next_letter(["A"], "A") == "B"
    assert next_letter(["A", "b", "C"], "A") == "D"
    assert next_letter(["Z"], "Z") == "AA"
    assert next_letter(["AZ"], "AZ") == "BA"
    assert next_letter(["9"], "9") == "10"
    assert next_letter(["B2"], "B2") == "B3"
