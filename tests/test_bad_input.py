"""What no builder means to write, or where no paper can be: each is told plainly, and nothing is lost."""

from __future__ import annotations

import platform
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from conftest import WREN, AircraftFolder, Run

from docgen.basics.findings import Finding, Level, Position
from docgen.pipeline import check


def only(findings: list[Finding]) -> Finding:
    [finding] = findings
    return finding


# Texts


TAB = "a tab stands where YAML takes blanks alone."


@pytest.mark.parametrize(
    ("raw", "line", "column", "sentence"),
    [
        (b"aircraft:\n\tname: x\n", 2, 1, TAB),
        (b"aircraft:\n  -\tname: x\n", 2, 4, TAB),
        ("aircraft: x\n".encode("utf-16"), 1, 1, "the file is UTF-16 text, not UTF-8."),
        ("aircraft: x\n".encode("utf-16-le"), 1, 1, "the file is UTF-16 text, not UTF-8."),
        ("aircraft: x\n".encode("utf-16-be"), 1, 1, "the file is UTF-16 text, not UTF-8."),
        ("aircraft: x\n".encode("utf-32"), 1, 1, "the file is UTF-32 text, not UTF-8."),
        ("aircraft: x\n".encode("utf-32-be"), 1, 1, "the file is UTF-32 text, not UTF-8."),
        ("# a\n# b\u0085c\n".encode(), 2, 4, r"the character `\u0085`, next line, ends a line unseen."),
        ("a: b\u2028c\n".encode(), 1, 5, r"the character `\u2028`, line separator, ends a line unseen."),
        (b"a: b\0\n", 1, 5, r"the character `\u0000` can't stand in a text file."),
    ],
)
def test_what_is_no_plain_text_is_told_as_what_it_is(
    raw: bytes, line: int, column: int, sentence: str, aircraft_folder: AircraftFolder
) -> None:
    folder = aircraft_folder()
    (folder / "aircraft.yaml").write_bytes(raw)
    [first] = [finding for finding in check(folder).findings if finding.name in ("file", "syntax")]
    assert first.position == Position(f"{folder}/aircraft.yaml", line, column)
    assert first.sentence == sentence


def test_a_file_over_a_megabyte_is_refused_with_what_can_be_done(aircraft_folder: AircraftFolder) -> None:
    found = check(aircraft_folder({"stores.yaml": "# note\n" * 150_000})).findings
    assert only(found).do.startswith("Take out what no page shows: long notes, ")


# Files beside


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("store.yaml", "stores.yaml"),
        ("Parts.yml", "parts.yaml"),
        ("parts.yaml.txt", "parts.yaml"),
        ("STORES.YAML", "stores.yaml"),
    ],
)
def test_a_file_that_is_called_almost_as_one_that_is_read_is_a_note_with_the_right_name(
    name: str, meant: str, aircraft_folder: AircraftFolder
) -> None:
    folder = aircraft_folder({"stores.yaml": None})
    (folder / name).write_text("spools: []\n", "utf-8")
    note = only(check(folder).findings)
    assert (note.position.file, note.name, note.level) == (f"{folder}/{name}", "unread", Level.NOTE)
    assert note.do == f"Call it `{meant}`."


def test_beside_the_file_that_is_read_the_note_says_which_that_is(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder()
    (folder / "harness.yml").write_text("circuits: {}\n", "utf-8")
    assert only(check(folder).findings).do.startswith("Read is `harness.yaml`: ")


@pytest.mark.parametrize("name", ["printer.yaml", "notes.txt", ".harness.yaml.swp", "harness.pdf", "tape.yaml"])
def test_other_files_beside_are_no_note(name: str, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder()
    (folder / name).write_text("mine\n", "utf-8")
    assert check(folder).findings == []


# Places where nothing can be written

FILE, NOWHERE = "a file, where a folder should be", "a link that leads nowhere, where a folder should be"


def make_ways(bench: Path) -> None:
    (bench / "file").write_text("mine", "utf-8")
    (bench / "dangling").symlink_to("nowhere")
    (bench / "loop").symlink_to("loop")


@pytest.mark.parametrize(
    ("to", "at", "why"),
    [
        ("file/below", "file", FILE),
        ("file/below/it", "file", FILE),
        ("dangling", "dangling", NOWHERE),
        ("dangling/below", "dangling", NOWHERE),
        ("loop", "loop", NOWHERE),
    ],
)
def test_what_is_in_the_place_of_a_folder_is_named(to: str, at: str, why: str, run: Run, bench: Path) -> None:
    make_ways(bench)
    told = run("print", WREN, "hangar-card", "--to", to)
    assert (told.exit_code, told.stdout) == (1, "")
    assert told.stderr.splitlines()[-1] == f"can't write {to}: {at} is {why}"
    assert {path.name for path in bench.iterdir()} == {"file", "dangling", "loop"}


@pytest.mark.parametrize(("folder", "code"), [("file", 2), ("dangling", 2), ("loop", 2), ("file/below", 1)])
def test_an_aircraft_is_begun_in_no_place_that_is_taken(folder: str, code: int, run: Run, bench: Path) -> None:
    make_ways(bench)
    told = run("new", folder)
    assert (told.exit_code, told.stdout) == (code, "")
    assert folder in told.stderr.splitlines()[-1]


def test_a_file_called_out_is_named(run: Run, bench: Path) -> None:
    (bench / "out").write_text("mine", "utf-8")
    for words, folder in ((("print", WREN, "hangar-card"), "out/wren"), (("ruler",), "out")):
        assert run(*words).stderr.splitlines()[-1] == f"can't write {folder}: out is {FILE}"


@pytest.mark.skipif(sys.platform == "win32", reason="there the current folder can't be deleted")
@pytest.mark.parametrize(
    "words",
    [["new", "gull"], *(pytest.param(w, marks=pytest.mark.long) for w in (["print", WREN], ["check", "."], ["ruler"]))],
    ids=lambda words: words[0],
)
def test_a_current_folder_that_was_deleted_is_told(words: list[str | Path], bench: Path) -> None:
    gone = "import os; os.rmdir(os.getcwd())\nfrom docgen.cli import main\nmain()"
    command = [sys.executable, "-c", gone, *map(str, words)]
    told = subprocess.run(command, cwd=bench, capture_output=True, text=True, check=False)
    assert told.returncode == 1
    assert told.stderr.endswith("anything: the current folder was deleted; change to one that is there.\n")


@pytest.mark.parametrize(
    "words", [["check", ""], ["print", ""], ["print", WREN, "--to", ""], ["ruler", "--to", ""]], ids=len
)
def test_a_name_that_says_nothing_is_not_the_current_folder(words: list[str | Path], run: Run, bench: Path) -> None:
    assert run(*words).exit_code == 2
    assert list(bench.iterdir()) == []


@pytest.mark.parametrize(
    "lock",
    ["", "\x1b[31m 999 x", f"{'9' * 30} {platform.node()}", f"1 {'x' * 5000}"],
    ids=["empty", "odd", "over all numbers", "long"],
)
def test_a_lock_that_no_run_made_is_told_with_what_to_do(lock: str, run: Run, bench: Path) -> None:
    (bench / "paper").mkdir()
    (bench / "paper/.being-written").write_text(lock, "utf-8")
    told = run("print", WREN, "hangar-card", "--to", "paper")
    last = told.stderr.splitlines()[-1]
    assert (told.exit_code, len(last) < 250) == (1, True)
    assert last.startswith("can't write paper: another run writes there (process ")
    assert last.endswith("; if it does no more, delete paper/.being-written")
    assert "\x1b" not in last


def test_a_list_of_a_set_is_asked_for_no_file_out_of_its_folder(run: Run, bench: Path, tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine", "utf-8")
    (bench / "paper").mkdir()
    paths = ["../mine.txt", "a/../../mine.txt", f"{tmp_path}/mine.txt", "\x1b[31m"]
    (bench / "paper/set.txt").write_text("".join(f"{'0' * 64}  {path}\n" for path in paths), "utf-8")
    told = run("print", WREN, "hangar-card", "--to", "paper")
    assert told.exit_code == 0
    assert "mixed" not in told.stderr
    assert "mine.txt" not in (bench / "paper/set.txt").read_text("utf-8")


def test_a_folder_s_name_does_nothing_to_a_terminal(run: Run, bench: Path) -> None:
    name = "e\x07b"  # ECMA-48: BEL
    shutil.copytree(WREN, bench / name)
    for words in (("check", name), ("print", name, "hangar-card"), ("issue", name)):
        assert "\x07" not in run(*words).output
    assert r"out/e\u0007b/hangar-card.pdf" in run("print", name, "hangar-card").stdout


@pytest.mark.skipif(sys.platform == "win32", reason="a shell there closes no streams")
def test_new_asks_nobody_where_there_is_no_standard_input(bench: Path) -> None:
    command = ["sh", "-c", 'exec "$@" <&-', "sh", sys.executable, "-m", "docgen", "new", "tern"]
    told = subprocess.run(command, cwd=bench, capture_output=True, text=True, check=False)
    assert (told.returncode, told.stderr) == (0, "")
    assert (bench / "tern/harness.yaml").is_file()


def test_no_issue_is_kept_through_a_link_out_of_the_aircraft_s_folder(run: Run, bench: Path) -> None:
    shutil.copytree(WREN, bench / "gull")
    (bench / "elsewhere").mkdir()
    (bench / "gull/issued").symlink_to(bench / "elsewhere")
    told = run("issue", "gull")
    assert told.exit_code == 1
    assert told.stderr.splitlines()[-1] == "can't write gull/issued: a link is in its place; nothing is kept."
    assert list((bench / "elsewhere").iterdir()) == []
    assert not (bench / "out/wren").exists()
