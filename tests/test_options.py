"""What the words of a command line choose, where the paper goes, and how lines and JSON come out."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable
from dataclasses import astuple
from pathlib import Path
from typing import TYPE_CHECKING

import click
import pytest
from click.testing import CliRunner, Result
from conftest import WREN

from docgen import pipeline
from docgen.cli import docgen
from docgen.commands import begin

if TYPE_CHECKING:
    from conftest import AircraftFolder

    from docgen.paperwork.document import Choice
    from docgen.paperwork.printed import Printed

Run = Callable[..., Result]
NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Return how to run a command in a folder of its own."""
    bench = tmp_path / "bench"
    bench.mkdir()
    monkeypatch.chdir(bench)
    return lambda *words: CliRunner().invoke(docgen, [str(word) for word in words])


@pytest.fixture
def chosen(run: Run, monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[list[tuple[Path, Path]], Choice]]:
    """Return what words to `print` ask for: folders with where their paper goes, and the choice; nothing is printed."""
    asked: list[tuple[list[tuple[Path, Path]], Choice]] = []

    def printed(folders: list[tuple[Path, Path]], choice: Choice) -> list[Printed]:
        asked.append((folders, choice))
        return []

    monkeypatch.setattr(pipeline, "print_aircraft", printed)

    def words(*said: str | Path) -> tuple[list[tuple[Path, Path]], Choice]:
        told = run("print", *said)
        assert told.exit_code == 0, told.output
        return asked.pop()

    return words


def test_without_options_all_is_printed_on_a4_once(chosen: Callable[..., tuple[object, Choice]]) -> None:
    _, choice = chosen(WREN)
    assert astuple(choice) == ((), "a4", None, None, ((), (), 1, 1), (), False, False, None, None)


def test_each_option_chooses_what_it_says(chosen: Callable[..., tuple[object, Choice]]) -> None:
    Path("printer.yaml").write_text("kind: printer\nscale: [101 %, 99 %]\nshift: [1 mm, -2 mm]\n")
    many = ["--only", "rudder", "--only", "supply", "--only-place", "tray", "--first", "3", "--copies", "99"]
    told = ["--stock", "tape-9", "--flat", "8.6mm", "--order", "RD, BK,,RD", "--csv", "--brief", "--paper", "letter"]
    last = ["--printer", "printer.yaml", "--assembly", "wing", "--to", "paper"]
    folders, choice = chosen(WREN, "cut-list", "record", *many, *told, *last)
    assert folders == [(WREN, Path("paper"))]
    assert choice.stems == ("cut-list", "record")
    assert (choice.paper, choice.stock, choice.flat_mm) == ("letter", "tape-9", 8.6)
    assert astuple(choice.labels) == (("rudder", "supply"), ("tray",), 3, 99)
    assert (choice.order, choice.csv, choice.brief, choice.assembly) == (("RD", "BK"), True, True, "wing")
    assert choice.printer is not None
    assert choice.printer.scale == [1.01, 0.99]
    Path("own.yaml").write_text("kind: sail\n")
    assert chosen(WREN, "--stock", "own.yaml")[1].stock == Path("own.yaml")


def test_paper_goes_to_out_or_where_it_is_told(chosen: Callable[..., tuple[object, Choice]]) -> None:
    for name in ("gull", "tern"):
        Path(name).mkdir()
    out = Path("out")
    assert chosen("gull")[0] == [(Path("gull"), out / "gull")]
    assert chosen("gull", "tern")[0] == [(Path("gull"), out / "gull"), (Path("tern"), out / "tern")]
    paper = Path("paper")
    assert chosen("gull", "--to", "paper")[0] == [(Path("gull"), paper)]
    both = [(Path("gull"), paper / "gull"), (Path("tern"), paper / "tern")]
    assert chosen("gull", "tern", "--to", "paper")[0] == both


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["print"], "Missing argument"),
        (["print", "cut-list"], "name the folder of an aircraft."),
        (["print", WREN, "cut-lists"], "'cut-lists' is neither a folder nor a document (measuring-sheet, cut-list, "),
        (["print", WREN, "--first", "0"], "0 is not in the range x>=1"),
        (["print", WREN, "--copies", "0"], "0 is not in the range 1<=x<=99"),
        (["print", WREN, "--copies", "100"], "100 is not in the range 1<=x<=99"),
        (["print", WREN, "--flat", "8.6mm"], "--flat is measured on the tube of a tape: name that with --stock."),
        (["print", WREN, "--flat", "8.6", "--stock", "tape-9"], "--flat: "),
        (["print", WREN, "--order", "RD,XX"], "--order: "),
        (["print", WREN, "--stock", "nowhere"], "there is no stock 'nowhere' (known: "),
        (["print", WREN, "--printer", "nowhere"], "'nowhere' does not exist"),
        (["print", WREN, "--printer", WREN], "is a directory"),
        (["print", WREN, "--to", WREN / "harness.yaml"], "is a file"),
        (["ruler", "--to", WREN], "is a directory"),
        (["ruler", "--measured", "1,2"], "--measured: "),
        (["check", WREN / "harness.yaml"], "is a file"),
        (["check", "nowhere"], "does not exist"),
        (["schema"], "name a file (aircraft, harness, stores, parts), or say --to for all."),
    ],
)
def test_wrong_words_are_told_with_the_reason(words: list[str | Path], told: str, run: Run) -> None:
    used = run(*words)
    assert (used.exit_code, used.stdout) == (2, "")
    assert told in re.sub(r"\s+", " ", used.stderr)
    assert list(Path().iterdir()) == []


def test_a_printer_s_file_that_is_wrong_ends_a_print_and_an_issue(run: Run, aircraft_folder: AircraftFolder) -> None:
    Path("printer.yaml").write_text("kind: sail\n")
    folder = aircraft_folder()
    for command in ("print", "issue"):
        told = run(command, folder, "--printer", "printer.yaml")
        assert (told.exit_code, told.stdout) == (1, "")
        assert "printer.yaml:1:7: error value: " in told.stderr
    assert not (folder / "issued").exists()


def test_these_are_the_commands(run: Run) -> None:
    told = run("--help").stdout.partition("Commands:\n")[2]
    words = "built check compare explain issue new parts print ruler schema stock"
    assert re.findall(r"^  ([a-z]+)", told, re.MULTILINE) == words.split()


# As they are used: where to, on what, how many, in which order.
PAPER_OPTIONS = ["to", "paper", "stock", "flat", "first", "copies", "order", "csv", "brief", "printer"]


@pytest.mark.parametrize("command", ["print", "issue"])
def test_help_lists_the_options_of_paper_in_the_order_of_use(command: str, run: Run) -> None:
    told = run(command, "--help").stdout
    listed = re.findall(r"^  --([a-z-]+)", told, re.MULTILINE)
    assert listed[: len(PAPER_OPTIONS)] == PAPER_OPTIONS
    assert "[default: a4]" in told


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


# A terminal


class _Stream:
    def __init__(self, *, terminal: bool) -> None:
        self.terminal = terminal

    def isatty(self) -> bool:
        return self.terminal


@pytest.mark.parametrize(
    ("stdin", "stdout", "asked"),
    [(True, True, True), (True, False, False), (False, True, False), (None, True, False), (True, None, False)],
)
def test_questions_are_asked_where_both_sides_are_a_terminal(
    stdin: bool | None, stdout: bool | None, asked: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A stream may be closed: then there is none."""
    for name, terminal in (("stdin", stdin), ("stdout", stdout)):
        monkeypatch.setattr(sys, name, None if terminal is None else _Stream(terminal=terminal))
    assert begin.is_asked() is asked


def test_where_all_is_answered_nothing_is_asked_and_how_to_answer_is_not_said(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(begin, "is_asked", lambda: True)
    words = "wing one-piece surfaces none tail v-tail gear none drive none receivers one packs one-pack switch key"
    answered = [f"--{word}" if number % 2 == 0 else word for number, word in enumerate(words.split())]
    how = "Words in any order, commas or blanks between them; Enter takes what stands in brackets."
    told = run("new", "gull", *answered, "--extras", "none")
    assert (told.exit_code, how in told.stdout) == (0, False)
    monkeypatch.setattr(click, "prompt", lambda *_, **__: "none")
    told = run("new", "tern", *answered)
    assert told.exit_code == 0
    assert told.stdout.startswith(f"{how}\n\n9 of 9: Lights, smoke?\n")
