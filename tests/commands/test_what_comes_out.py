"""What comes out of a print and a comparison: lines in columns, sheets counted, paper that is mixed, JSON."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING

from conftest import WREN, Run

if TYPE_CHECKING:
    from conftest import AircraftFolder

NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}


def test_a_printer_s_file_that_is_wrong_ends_a_print_and_an_issue(run: Run, aircraft_folder: AircraftFolder) -> None:
    Path("printer.yaml").write_text("kind: sail\n")
    folder = aircraft_folder()
    for command in ("print", "issue"):
        told = run(command, folder, "--printer", "printer.yaml")
        assert (told.exit_code, told.stdout) == (1, "")
        assert "printer.yaml:1:7: error value: " in told.stderr
    assert not (folder / "issued").exists()


def test_what_came_out_stands_in_columns_no_wider_than_they_must_be(run: Run) -> None:
    *lines, _ = run("print", WREN, "cut-list", "hangar-card", "record").stdout.splitlines()
    cells = [re.split(r"  +", line.strip()) for line in lines]
    path, extent, _ = (max(map(len, column)) for column in zip(*cells, strict=True))
    assert lines == [f"{each[0]:<{path}}  {each[1]:>{extent}}  {each[2]}" for each in cells]
    assert len({len(each[0]) for each in cells}) > 1


def test_sheets_are_counted_where_there_are_several_documents(run: Run) -> None:
    [_] = run("print", WREN, "hangar-card").stdout.splitlines()
    *both, last = run("print", WREN, "cut-list", "hangar-card").stdout.splitlines()
    assert (len(both), last) == (2, "2 sheets, in the order in which they are used.")


def test_of_several_of_which_none_could_be_printed_that_is_said(run: Run, aircraft_folder: AircraftFolder) -> None:
    folders = [aircraft_folder(NO_UNIT).rename(Path(name).absolute()) for name in ("gull", "tern")]
    told = run("print", *folders, "record")
    assert told.exit_code == 1
    assert told.stderr.splitlines()[-3:] == [
        "printed: none",
        "not printed: gull: 1 error",
        "not printed: tern: 1 error",
    ]


def test_the_ruler_is_written_to_out_and_its_name_shown(run: Run) -> None:
    told = run("ruler")
    assert (told.exit_code, told.stdout, told.stderr) == (0, "out/ruler.pdf\n", "")
    told = run("ruler", "--to", "page.pdf")
    assert (told.stdout, Path("page.pdf").read_bytes()) == ("page.pdf\n", Path("out/ruler.pdf").read_bytes())
    measured = "15.2,195.4,14.8,282.3"
    shown = run("ruler", "--measured", measured).stdout
    told = run("ruler", "--measured", measured, "--to", "printer.yaml")
    assert (told.stdout, Path("printer.yaml").read_text("utf-8")) == ("printer.yaml\n", shown)


# What is found about paper, beside what is found in files


def test_check_says_that_paper_in_out_is_not_what_was_printed_together(run: Run) -> None:
    assert run("print", WREN, "record").exit_code == 0
    assert run("check", WREN).stderr == ""
    Path("out/wren/record.txt").write_text("mine")
    says = "out/wren is mixed: record.txt belong to another print; print again.\n"
    assert run("check", WREN).stderr == says


def test_a_part_printed_alone_leaves_the_rest_of_the_set_as_it_is(run: Run) -> None:
    assert run("print", WREN, "cut-list", "--csv").exit_code == 0
    draft = f"contacts and marks may still move; before the first crimp: docgen issue {WREN}\n"
    assert run("print", WREN, "hangar-card").stderr == draft
    assert run("print", WREN, "--assembly", "fuselage", "--to", "out/wren").stderr.count("earlier print") == 0
    assert "out/wren/cut-list.csv is from an earlier print" in run("print", WREN).stderr


# JSON


def test_json_has_letters_as_they_are_and_a_key_a_line(run: Run, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder()
    assert run("issue", folder).exit_code == 0
    harness = folder / "harness.yaml"
    harness.write_text(harness.read_text("utf-8").replace("    label: RUD\n", "    label: RÜD\n"), "utf-8")
    shown, compared = (run(command, folder, "--json").stdout for command in ("check", "compare"))
    assert "RÜD" in shown
    assert "RÜD" in compared
    for text in (shown, compared):
        assert text == json.dumps(json.loads(text), ensure_ascii=False, indent=2) + "\n"
        assert text.startswith('{\n  "')


def test_what_can_not_be_compared_exits_1_and_an_unknown_issue_2(run: Run, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder()
    nothing = run("compare", folder)
    assert (nothing.exit_code, "nothing is issued in " in nothing.stderr) == (2, True)
    assert run("issue", folder).exit_code == 0
    assert Path("out/wren/record.txt").exists(), "without --to paper goes to out"
    assert (run("compare", folder).exit_code, run("compare", folder, "--with", "B").exit_code) == (0, 2)
    path = folder / "aircraft.yaml"
    path.write_text(path.read_text("utf-8").replace("length: 260 mm", "length: 260"), "utf-8")
    wrong = run("compare", folder)
    assert (wrong.exit_code, wrong.stdout) == (1, "")
    assert "error unit" in wrong.stderr
