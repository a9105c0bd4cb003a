"""What is written is all of it or nothing, and what is not is named: whatever fails, stops or dies in between."""

from __future__ import annotations

import os
import platform
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from docgen.paperwork import file_set
from docgen.paperwork.file_set import held, write_files
from docgen.paperwork.output_folder import mixed, write_paper

OLD = {"a.pdf": b"old a", "b.pdf": b"old b", "record/c.txt": b"old c"}
NEW = {"a.pdf": b"new a", "b.pdf": b"new b", "record/c.txt": b"new c", "d.pdf": b"new d"}
Doing = Callable[[], None]


@pytest.fixture(autouse=True)
def _stops_are_heard() -> Iterator[None]:
    """Let the keyboard stop what runs, though a shell has what it starts in the background ignore it."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


def there(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def write(folder: Path, files: dict[str, bytes], *, whole: bool = True) -> list[str]:
    return write_paper({folder: files}, whole=whole)


def at_the(monkeypatch: pytest.MonkeyPatch, number: int, doing: Doing) -> None:
    """Have something happen as a file is put in its place, the so-and-so-many-th one."""
    count, replace = 0, os.replace

    def counted(source: Path, target: Path) -> None:
        nonlocal count
        count += 1
        if count == number:
            doing()
        replace(source, target)

    monkeypatch.setattr(os, "replace", counted)


def fail() -> None:
    raise OSError(5, "Input/output error")


def test_the_list_is_read_by_the_usual_program_for_checksums(tmp_path: Path) -> None:
    write(tmp_path, OLD)
    # GNU coreutils, sha256sum --check: a line of 64 hexadecimal digits, two blanks and the file; # begins a remark.
    command = ["sha256sum", "--check", "--strict", "set.txt"]
    done = subprocess.run(command, check=True, cwd=tmp_path, capture_output=True, text=True)
    assert done.stdout.splitlines() == [f"{path}: OK" for path in sorted(OLD)]


@pytest.mark.parametrize("number", range(1, 6))
def test_if_a_file_cannot_be_put_in_its_place_all_are_as_before(
    number: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path, OLD)
    before = there(tmp_path)
    at_the(monkeypatch, number, fail)
    with pytest.raises(OSError, match="Input/output error"):
        write(tmp_path, NEW)
    assert there(tmp_path) == before


@pytest.mark.parametrize("number", range(1, 6))
def test_a_stop_while_files_are_put_in_their_places_waits_for_the_last(
    number: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path, OLD)
    at_the(monkeypatch, number, lambda: signal.raise_signal(signal.SIGINT))
    with pytest.raises(KeyboardInterrupt):
        write(tmp_path, NEW)
    assert {path: content for path, content in there(tmp_path).items() if path != "set.txt"} == NEW
    assert mixed(tmp_path) == []


@pytest.mark.parametrize("number", range(1, 7))
def test_a_stop_before_leaves_the_old_files_alone(number: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path, OLD)
    before, count = there(tmp_path), 0

    def counted(_: int) -> None:
        nonlocal count
        count += 1
        if count == number:
            signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(os, "fsync", counted)
    with pytest.raises(KeyboardInterrupt):
        write(tmp_path, NEW)
    assert there(tmp_path) == before


@pytest.mark.parametrize("number", [2, 4])
def test_files_of_two_prints_are_named_if_one_died_in_between(number: int, tmp_path: Path) -> None:
    write(tmp_path, OLD)
    dies = (
        "import os, sys; from pathlib import Path; from docgen.paperwork.output_folder import write_paper\n"
        "replace, left = os.replace, iter(range(int(sys.argv[2]) - 1))\n"
        "os.replace = lambda *paths: os._exit(9) if next(left, None) is None else replace(*paths)\n"
        f"write_paper({{Path(sys.argv[1]): {NEW!r}}}, whole=True)"
    )
    command = [sys.executable, "-c", dies, str(tmp_path), str(number)]
    assert subprocess.run(command, check=False).returncode == 9
    [said] = mixed(tmp_path)
    assert said.startswith(f"{tmp_path} is mixed: a.pdf")
    # The lock that is left over does not stop the next print, which makes all one again.
    write(tmp_path, NEW)
    assert mixed(tmp_path) == []


def test_a_document_printed_alone_is_not_mixed_with_the_others(tmp_path: Path) -> None:
    write(tmp_path, OLD)
    write(tmp_path, {"a.pdf": b"new a"}, whole=False)
    assert mixed(tmp_path) == []
    (tmp_path / "b.pdf").write_bytes(b"of another")
    assert mixed(tmp_path) == [f"{tmp_path} is mixed: b.pdf belong to another print; print again."]


def test_what_a_whole_print_makes_no_more_is_named(tmp_path: Path) -> None:
    write(tmp_path, NEW)
    assert write(tmp_path, OLD) == [f"{tmp_path}/d.pdf is from an earlier print; delete it."]
    assert write(tmp_path, OLD) == []


def test_a_second_run_says_who_writes_and_writes_nothing(tmp_path: Path) -> None:
    with held(tmp_path), pytest.raises(BlockingIOError) as stopped:
        write(tmp_path, NEW)
    assert f"process {os.getpid()} on {platform.node()}" in str(stopped.value)
    assert there(tmp_path) == {}
    write(tmp_path, NEW)


def test_nothing_is_written_out_of_the_folder_through_a_link(tmp_path: Path) -> None:
    folder, outside = tmp_path / "paper", tmp_path / "outside"
    folder.mkdir()
    outside.mkdir()
    (outside / "b.pdf").write_bytes(b"not ours")
    (folder / "record").symlink_to(outside)
    with pytest.raises(OSError, match="a link is in its place"):
        write(folder, NEW)
    (folder / "record").unlink()
    (folder / "b.pdf").symlink_to(outside / "b.pdf")
    write(folder, NEW)
    assert there(outside) == {"b.pdf": b"not ours"}
    assert (folder / "b.pdf").read_bytes() == b"new b"
    assert not (folder / "b.pdf").is_symlink()


def test_two_runs_do_not_share_names_beside_their_files(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    one, other = file_set.Prepared({path: b"one"}), file_set.Prepared({path: b"other"})
    one.put()
    assert path.read_bytes() == b"one"
    other.drop()
    assert there(tmp_path) == {"a.pdf": b"one"}


def test_a_folder_in_the_place_of_a_file_is_said_and_nothing_is_left(tmp_path: Path) -> None:
    (tmp_path / "b.pdf").mkdir()
    with pytest.raises(IsADirectoryError, match="a folder is in its place"):
        write_files({tmp_path / path: content for path, content in NEW.items()})
    assert there(tmp_path) == {}
