"""`docgen new`: what it asks on a terminal, what options answer, and that nothing is written over."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from beginning.begun import amiss, definition_in
from click.testing import CliRunner, Result

from docgen.beginning.answers import answers_from, as_options
from docgen.beginning.questions import QUESTIONS
from docgen.cli import docgen
from docgen.commands import begin

Run = Callable[..., Result]
NINE = ["wing", "surfaces", "tail", "gear", "drive", "receivers", "packs", "switch", "extras"]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Return how to run `docgen new` in an empty folder; with `typed` on what it takes for a terminal."""
    monkeypatch.chdir(tmp_path)

    def done(*words: str, typed: str | None = None) -> Result:
        monkeypatch.setattr(begin, "is_asked", lambda: typed is not None)
        return CliRunner().invoke(docgen, ["new", *words], input=typed)

    return done


def prompts(told: Result) -> list[str]:
    """Return what was asked for, in order."""
    return re.findall(r"^([a-z]+) \[[^]]*\]: ", told.stdout, re.MULTILINE)


def test_a_terminal_is_asked_nine_questions_and_enter_takes_the_default(run: Run, tmp_path: Path) -> None:
    told = run("gull", typed="\n" * 9)
    assert (told.exit_code, prompts(told)) == (0, NINE)
    asked = {path.name: path.read_bytes() for path in (tmp_path / "gull").glob("*.yaml")}
    assert run("more/gull").exit_code == 0
    assert {path.name: path.read_bytes() for path in (tmp_path / "more" / "gull").glob("*.yaml")} == asked
    assert asked.keys() == {"aircraft.yaml", "harness.yaml"}


def test_each_question_says_every_word_that_answers_it_and_what_that_means(run: Run) -> None:
    told = run("gull", typed="\n" * 9).stdout
    for number, question in enumerate(QUESTIONS.values(), 1):
        assert f"{number} of 9: {question.asks}\n" in told
        for word in question.words:
            assert re.search(rf"^    {word.name} +{re.escape(word.means)}$", told, re.MULTILINE)
    asked = told.partition(" is begun")[0]
    assert max(map(len, asked.splitlines())) <= 88  # what most terminals show without a break, and little more


def test_what_an_option_answers_is_not_asked(run: Run, tmp_path: Path) -> None:
    told = run("gull", "--tail", "v-tail", "--switch", "key", typed="\n" * 7)
    assert prompts(told) == [name for name in NINE if name not in ("tail", "switch")]
    assert {"left-v-tail", "key"} <= definition_in(tmp_path / "gull").equipment.keys()


def test_what_can_not_be_is_said_and_asked_again(run: Run, tmp_path: Path) -> None:
    told = run("gull", typed="\nailerons=7\nailerons=2\n\nretracts\ntwo-retracts doors\n\n\n\n\n\n")
    assert told.exit_code == 0
    assert prompts(told) == ["wing", "surfaces", "surfaces", "tail", "gear", "gear", *NINE[4:]]
    assert "Error: --surfaces: `ailerons=7` can't be. Say at most ailerons=2." in told.output
    assert "Error: --gear: `retracts` is no answer. Did you mean `two-retracts`?" in told.output
    assert {"left-outer-aileron", "left-door"} <= definition_in(tmp_path / "gull").equipment.keys()


def test_what_contradicts_an_earlier_answer_is_asked_again(run: Run) -> None:
    told = run("gull", typed="\n\nv-tail rudder\nv-tail\n\n\n\n\n\n\n")
    assert prompts(told) == ["wing", "surfaces", "tail", *NINE[2:]]
    assert "Error: a V-tail has no rudder." in told.output


def test_defaults_follow_from_earlier_answers(run: Run, tmp_path: Path) -> None:
    """The radio fed by the motor's controller has no pack and no switch; two receivers have two packs."""
    assert run("small", "--drive", "motor,own-regulator").exit_code == 0
    kinds = [entry.kind for entry in definition_in(tmp_path / "small").equipment.values()]
    assert "power switch" not in kinds
    assert kinds.count("battery") == 1
    assert run("large", "--receivers", "two", "--drive", "none").exit_code == 0
    kinds = [entry.kind for entry in definition_in(tmp_path / "large").equipment.values()]
    assert (kinds.count("battery"), kinds.count("power unit")) == (2, 1)
    assert run("many", "--surfaces", "ailerons=2,flaps=2,airbrakes").exit_code == 0
    assert "power-unit" in definition_in(tmp_path / "many").equipment


def test_the_last_line_says_that_measuring_is_next(run: Run) -> None:
    lines = run("gull").stdout.splitlines()
    assert lines[-1].endswith("docgen print gull measuring-sheet")
    assert lines[-2].endswith("docgen print gull")


def test_a_folder_with_a_blank_is_said_in_quotes(run: Run) -> None:
    assert run("my gull").stdout.splitlines()[-1].endswith('docgen print "my gull" measuring-sheet')


def test_who_stops_in_the_middle_has_written_nothing(run: Run, tmp_path: Path) -> None:
    assert run("gull", typed="\n\n").exit_code != 0
    assert list(tmp_path.iterdir()) == []


def test_words_may_be_written_in_capitals_and_apart(run: Run, tmp_path: Path) -> None:
    assert run("gull", "--tail", " V-Tail  Plug-In").exit_code == 0
    assert definition_in(tmp_path / "gull").disconnects["tail"].shell == "block-8"


def test_what_it_says_gives_the_same_again(run: Run, tmp_path: Path) -> None:
    told = run("gull", "--surfaces", "ailerons=2,flaps", "--gear", "three-retracts,doors", "--drive", "turbine=2")
    again = told.stdout.splitlines()[1].split()
    assert again[:3] == ["docgen", "new", "gull"]
    assert run("again/gull", *again[3:]).exit_code == 0
    for name in ("aircraft.yaml", "harness.yaml"):
        assert (tmp_path / "again" / "gull" / name).read_bytes() == (tmp_path / "gull" / name).read_bytes()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--tail", "v"], "`v` is no answer. Known: one-elevator, two-elevators, v-tail, rudder, plug-in."),
        (["--wing", "one-piece,two-panels"], "`two-panels`, `one-piece` can't all be. Say one of them."),
        (["--extras", "none,smoke"], "`none` stands beside other words. Say none, or what there is."),
        (["--surfaces", "flaps,flaps"], "`flaps` stands twice. Say it once."),
        (["--surfaces", "airbrakes=2"], "`airbrakes=2` can't be. Say the word alone."),
        (["--like", "wren", "--wing", "one-piece"], "--like copies an example, and so --wing has nothing to answer."),
    ],
)
def test_wrong_words_are_told_with_what_may_be_said(run: Run, tmp_path: Path, words: list[str], told: str) -> None:
    used = run("gull", *words)
    assert used.exit_code == 2
    assert told in used.stderr
    assert list(tmp_path.iterdir()) == []


def test_all_that_is_wrong_is_told_at_once(run: Run) -> None:
    told = run("gull", "--tail", "v-tail,rudder", "--gear", "doors,brakes", "--extras", "smoke").stderr
    for what in ("a V-tail has no rudder", "no leg retracts", "there are brakes", "smoke oil needs a hot exhaust"):
        assert what in told
    told = run("gull", "--tail", "rudders", "--gear", "door").stderr
    assert "--tail: `rudders`" in told
    assert "--gear: `door`" in told


@pytest.mark.parametrize("words", [[], ["--like", "wren"], ["--wing", "one-piece"]])
def test_nothing_is_written_over(run: Run, tmp_path: Path, words: list[str]) -> None:
    (tmp_path / "gull").mkdir()
    (tmp_path / "gull" / "note.txt").write_text("mine")
    used = run("gull", *words, typed="\n" * 9)
    assert used.exit_code == 2
    assert "'gull' is there already and not empty" in used.output
    assert [path.name for path in (tmp_path / "gull").iterdir()] == ["note.txt"]


def test_an_empty_folder_is_taken(run: Run, tmp_path: Path) -> None:
    (tmp_path / "gull").mkdir()
    assert run("gull").exit_code == 0
    assert (tmp_path / "gull" / "harness.yaml").exists()


@pytest.mark.parametrize("folder", ["Ø-fly # 2 'x'", "鸥", "-", "yes", "a" * 120, "{b}"])
def test_any_name_of_a_folder_gives_what_checks(run: Run, tmp_path: Path, folder: str) -> None:
    told = run("--", folder) if folder == "-" else run(folder)
    assert told.exit_code == 0
    assert amiss(tmp_path / folder) == []


def test_the_help_names_every_word_that_answers(run: Run) -> None:
    told = " ".join(run("--help").stdout.split())
    for name, question in QUESTIONS.items():
        assert f"--{name} WORD" in told
        assert all(re.search(rf"(?<![\w-]){word.name}(?![\w-])", told) for word in question.words), name


@pytest.mark.skipif(os.name != "posix", reason="only there is a pseudo-terminal")
def test_it_asks_on_a_real_terminal(tmp_path: Path) -> None:
    import pty  # noqa: PLC0415 - there is none elsewhere

    ours, theirs = pty.openpty()
    os.write(ours, b"\n" * 8 + b"position-lights\n")
    command = [sys.executable, "-m", "docgen", "new", "gull"]
    with subprocess.Popen(command, cwd=tmp_path, stdin=theirs, stdout=theirs, stderr=theirs) as asked:
        os.close(theirs)
        said = _all_of(ours)
    assert asked.returncode == 0
    assert "9 of 9: Lights, smoke?" in said
    assert said.splitlines()[-1].endswith("docgen print gull measuring-sheet")
    assert "tail-light" in definition_in(tmp_path / "gull").equipment


def _all_of(terminal: int) -> str:
    """Read a terminal till nobody writes to it any more."""
    said = b""
    while True:
        try:
            some = os.read(terminal, 4096)
        except OSError:  # the other end is closed
            return said.decode()
        if not some:
            return said.decode()
        said += some


def test_options_of_all_defaults_are_those_that_are_shown(run: Run) -> None:
    answers, _ = answers_from({})
    assert answers is not None
    assert as_options(answers) in run("gull").stdout
