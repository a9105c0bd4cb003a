"""On a terminal: progress in one line, colour for levels; in a pipe neither."""

from __future__ import annotations

import contextlib
import io
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click
import pytest
from click.testing import CliRunner

from docgen.basics.doing import doing
from docgen.basics.findings import Finding, Level, Position
from docgen.cli import docgen
from docgen.commands import begin, shown

if TYPE_CHECKING:
    from conftest import AircraftFolder

NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}
# ECMA-48, 5th edition, 8.3.117, Select Graphic Rendition: CSI, parameters, m; 31 is red, 33 yellow, 36 cyan, 0 default.
RED, YELLOW, CYAN, DEFAULT = "\x1b[31m", "\x1b[33m", "\x1b[36m", "\x1b[0m"


class Stream(io.StringIO):
    """Standard error: a terminal or not, which lets someone wait for what is written."""

    def __init__(self, *, terminal: bool) -> None:
        super().__init__()
        self._terminal = terminal
        self._written = threading.Condition()

    def isatty(self) -> bool:
        return self._terminal

    def write(self, text: str) -> int:
        with self._written:
            self._written.notify_all()
            return super().write(text)

    def wait_for(self, text: str) -> None:
        with self._written:
            assert self._written.wait_for(lambda: text in self.getvalue(), timeout=60)


@pytest.fixture
def standard_error(monkeypatch: pytest.MonkeyPatch) -> Callable[[bool], Stream]:
    """Return what makes standard error a terminal or not, without a wait before progress is shown."""

    def made(terminal: bool) -> Stream:
        stream = Stream(terminal=terminal)
        monkeypatch.setattr("sys.stderr", stream)
        monkeypatch.setattr(shown, "_QUIET_S", 0)
        monkeypatch.setattr(shown, "_AGAIN_S", 0.001)
        monkeypatch.delenv("NO_COLOR", raising=False)
        monkeypatch.setenv("TERM", "xterm")
        return stream

    return made


def on_the_screen(written: str) -> str:
    """Return what a terminal shows of one line: from its begin on after a carriage return."""
    screen: list[str] = []
    for piece in written.split("\r"):
        screen[: len(piece)] = piece
    return "".join(screen).rstrip()


def test_progress_is_one_line_that_is_cleared(standard_error: Callable[[bool], Stream]) -> None:
    terminal = standard_error(True)
    with shown.progress():
        doing("gull: Order of work")
        terminal.wait_for("gull: Order of work")
        doing("gull: \x1b[2J")
        terminal.wait_for(r"gull: \u001b[2J")
    assert "\n" not in terminal.getvalue()
    assert "\x1b" not in terminal.getvalue()
    assert on_the_screen(terminal.getvalue()) == ""


def test_what_is_done_within_a_second_shows_no_progress(
    standard_error: Callable[[bool], Stream], monkeypatch: pytest.MonkeyPatch
) -> None:
    terminal = standard_error(True)
    monkeypatch.setattr(shown, "_QUIET_S", threading.TIMEOUT_MAX)
    with shown.progress():
        doing("gull: Cut list")
    assert terminal.getvalue() == ""


@pytest.mark.parametrize("dumb", [False, True])
def test_no_progress_is_shown_in_a_pipe_or_on_a_terminal_that_writes_no_line_anew(
    dumb: bool, standard_error: Callable[[bool], Stream], monkeypatch: pytest.MonkeyPatch
) -> None:
    stream = standard_error(dumb)
    if dumb:
        monkeypatch.setenv("TERM", "dumb")
    threads = threading.active_count()
    with shown.progress():
        assert threading.active_count() == threads
    assert stream.getvalue() == ""


@pytest.mark.parametrize(("level", "colour"), [("error", RED), ("caution", YELLOW), ("note", CYAN)])
def test_the_word_of_a_level_has_a_colour_on_a_terminal(
    level: str, colour: str, standard_error: Callable[[bool], Stream]
) -> None:
    terminal = standard_error(True)
    shown.show(
        [Finding(Position("a.yaml", 1, 1), "drop", f"an {level} drop: of note.", "Mend it.", level=Level(level))]
    )
    first, *rest = terminal.getvalue().splitlines()
    assert f"\x1b[1m{level}" in first.replace(colour, "")  # bold
    before, coloured, after = first.replace("\x1b[1m", "").partition(f"{colour}{level}{DEFAULT}")
    assert (before, bool(coloured), after) == ("a.yaml:1:1: ", True, f" drop: an {level} drop: of note.")
    assert rest == ["  do: Mend it.", f"1 {level}."]


@pytest.mark.parametrize(
    ("terminal", "no_color", "coloured"), [(True, "", True), (True, "1", False), (False, "", False)]
)
def test_there_is_no_colour_in_a_pipe_or_with_no_color(
    terminal: bool,
    no_color: str,
    coloured: bool,
    standard_error: Callable[[bool], Stream],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """https://no-color.org: "when present and not an empty string (regardless of its value)"."""
    stream = standard_error(terminal)
    monkeypatch.setenv("NO_COLOR", no_color)
    shown.show([Finding(Position("a.yaml", 1, 1), "drop", "it drops.", "Mend it.")])
    assert ("\x1b" in stream.getvalue()) == coloured


def test_a_pipe_gets_findings_alone(aircraft_folder: AircraftFolder) -> None:
    told = CliRunner().invoke(docgen, ["print", str(aircraft_folder(NO_UNIT))])
    assert "\x1b" not in told.output
    assert "\r" not in told.output


def test_progress_comes_after_a_second_and_then_five_times_a_second_in_at_most_70_letters(
    standard_error: Callable[[bool], Stream], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of 80 columns, as terminals have at least: common practice, no source."""
    terminal = standard_error(True)
    monkeypatch.undo()
    monkeypatch.setattr("sys.stderr", terminal)
    waited: list[float] = []

    class Over:
        def wait(self, seconds: float) -> bool:
            waited.append(seconds)
            return len(waited) > 3

    shown._show_progress(Over(), ["gull: ", "a" * 100])  # type: ignore[arg-type]
    assert waited == [1.0, 0.2, 0.2, 0.2]
    line = f"gull: {'a' * 64}"
    assert terminal.getvalue() == f"\r{line}" * 3 + f"\r{' ' * 70}\r"


def of(name: str, level: str, count: int, *, accepted: str = "", file: str = "a.yaml") -> list[Finding]:
    return [
        Finding(
            Position(file, line + 1, 1), name, f"{name} {line} of {file}.", "Do.", level=Level(level), accepted=accepted
        )
        for line in range(count)
    ]


def told(*findings: Finding, **asked: bool) -> list[str]:
    """Return what is shown of findings, without what is to be done."""
    with contextlib.redirect_stderr(io.StringIO()) as stream:
        shown.show(findings, **asked)
    return [line for line in stream.getvalue().splitlines() if not line.startswith("  do: ")]


def test_up_to_four_notes_of_one_name_are_shown_and_of_more_the_first_two() -> None:
    four = [f"a.yaml:{line}:1: note drop: drop {line - 1} of a.yaml." for line in range(1, 5)]
    assert told(*of("drop", "note", 4)) == [*four, "4 notes."]
    more = "3 more notes drop (`docgen check --every` shows all)."
    assert told(*of("drop", "note", 5)) == [*four[:2], more, "5 notes."]
    assert len(told(*of("drop", "note", 5), every=True)) == 6
    assert len(told(*of("volts", "caution", 5))) == 6
    both = told(*of("drop", "note", 5), *of("moved", "note", 2, file="b.yaml"))
    moved = [f"b.yaml:{line}:1: note moved: moved {line - 1} of b.yaml." for line in (1, 2)]
    assert both == [*four[:2], more, *moved, "7 notes."]


def test_accepted_notes_are_shown_where_asked_for_and_hide_none_that_are_open() -> None:
    open_ones, accepted = of("drop", "note", 5), of("drop", "note", 3, accepted="it is short", file="b.yaml")
    hint = "5 notes, 3 accepted (`docgen check --accepted` shows them)."
    more = "3 more notes drop (`docgen check --every` shows all)."
    assert told(*accepted, *open_ones) == [*told(*open_ones[:2])[:2], more, hint]
    said = told(*accepted, *open_ones, accepted=True)
    assert [line for line in said if "accepted: " not in line] == [
        *told(*open_ones)[:3],
        *(f"b.yaml:{line}:1: note drop: drop {line - 1} of b.yaml." for line in (1, 2, 3)),
        "5 notes, 3 accepted.",
    ]
    assert told(*accepted) == ["3 accepted (`docgen check --accepted` shows them)."]
    assert told() == []


@pytest.mark.parametrize(
    ("stdin", "stdout", "asked"),
    [(True, True, True), (True, False, False), (False, True, False), (None, True, False), (True, None, False)],
)
def test_questions_are_asked_where_both_sides_are_a_terminal(
    stdin: bool | None, stdout: bool | None, asked: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A stream may be closed: then there is none."""
    for name, terminal in (("stdin", stdin), ("stdout", stdout)):
        monkeypatch.setattr(sys, name, None if terminal is None else Stream(terminal=terminal))
    assert begin.is_asked() is asked


def test_where_all_is_answered_nothing_is_asked_and_how_to_answer_is_not_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(begin, "is_asked", lambda: True)
    words = "wing one-piece surfaces none tail v-tail gear none drive none receivers one packs one-pack switch key"
    answered = [f"--{word}" if number % 2 == 0 else word for number, word in enumerate(words.split())]
    how = "Words in any order, commas or blanks between them; Enter takes what stands in brackets."
    told = CliRunner().invoke(docgen, ["new", str(tmp_path / "gull"), *answered, "--extras", "none"])
    assert (told.exit_code, how in told.stdout) == (0, False)
    monkeypatch.setattr(click, "prompt", lambda *_, **__: "none")
    told = CliRunner().invoke(docgen, ["new", str(tmp_path / "tern"), *answered])
    assert told.exit_code == 0
    assert told.stdout.startswith(f"{how}\n\n9 of 9: Lights, smoke?\n")
