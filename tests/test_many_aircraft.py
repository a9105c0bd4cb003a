"""Several aircraft in one print: what is wrong with one stops no other, and the end tells which are printed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from conftest import WREN, AircraftFolder, Run

NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}


@pytest.fixture
def gull(aircraft_folder: AircraftFolder, tmp_path: Path) -> Path:
    """Return an aircraft with a run that has no unit."""
    return aircraft_folder(NO_UNIT).rename(tmp_path / "gull")


def there() -> set[str]:
    return {path.as_posix() for path in Path().rglob("*") if path.is_file() and path.name != "set.txt"}


def test_an_error_in_one_keeps_no_other_from_being_printed(run: Run, gull: Path) -> None:
    printed = run("print", gull, WREN, "cut-list")
    assert printed.exit_code == 1
    assert there() == {"out/wren/cut-list.pdf"}
    assert printed.stdout.startswith("out/wren/cut-list.pdf ")
    assert "error unit" in printed.stderr
    assert printed.stderr.splitlines()[-2:] == ["printed: wren", "not printed: gull: 1 error"]


def test_paper_of_the_one_with_an_error_stays_and_is_said_to_be_of_an_earlier_state(run: Run, gull: Path) -> None:
    for name in ("wren", "gull"):
        Path("out", name).mkdir(parents=True)
        Path("out", name, "record.txt").write_text("as it was")
    told = run("print", WREN, gull, "record").stderr
    assert Path("out/gull/record.txt").read_text("utf-8") == "as it was"
    assert Path("out/wren/record.txt").read_text("utf-8") != "as it was"
    assert re.findall(r"the paper in (\S+) is from an earlier state", told) == ["out/gull"]


def test_an_error_that_comes_while_paper_is_made_is_said_before_a_name_that_none_has(run: Run) -> None:
    Path("own.yaml").write_text("kind: sail\n")
    printed = run("print", WREN, "--stock", "own.yaml", "--only", "nobody")
    assert printed.exit_code == 1
    assert "own.yaml:1:7: error value: " in printed.stderr


def test_what_can_not_be_written_for_one_is_said_and_the_others_are_printed(
    run: Run, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    tern = aircraft_folder().rename(tmp_path / "tern")
    Path("out/tern/cut-list.pdf").mkdir(parents=True)
    printed = run("print", tern, WREN, "cut-list", "hangar-card")
    assert printed.exit_code == 1
    assert there() == {"out/wren/cut-list.pdf", "out/wren/hangar-card.pdf"}
    last = "not printed: tern: can't write out/tern/cut-list.pdf: a folder is in its place"
    assert printed.stderr.splitlines()[-2:] == ["printed: wren", last]


def test_all_that_are_printed_are_told_and_the_exit_code_is_good(
    run: Run, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    printed = run("print", WREN, aircraft_folder().rename(tmp_path / "tern"), "cut-list")
    assert printed.exit_code == 0
    assert printed.stderr.splitlines()[-1] == "printed: wren, tern"


def test_a_name_that_the_sound_ones_lack_keeps_them_from_being_printed_and_is_said_beside_the_error(
    run: Run, gull: Path
) -> None:
    printed = run("print", gull, WREN, "cut-list", "--assembly", "boom")
    assert printed.exit_code == 1
    assert there() == set()
    assert "not printed: wren: there is no assembly 'boom'" in printed.stderr
    assert "error unit" in printed.stderr
    assert run("print", WREN, "--assembly", "boom").exit_code == 2
