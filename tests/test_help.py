"""What help and completion show: two examples for each command, which work, and names for the shell."""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.shell_completion import ShellComplete
from click.testing import CliRunner
from conftest import WREN

from docgen.cli import docgen
from docgen.definition.listing import part_names
from docgen.paperwork.documents import STEMS
from docgen.paperwork.kinds import KINDS
from docgen.paperwork.stocks.reading import stock_names

if TYPE_CHECKING:
    import click


def shown_examples(command: click.Command) -> list[str]:
    """Return the examples at the end of a command's help, which all have one form."""
    words = [] if command is docgen else [str(command.name)]
    told = CliRunner().invoke(docgen, [*words, "--help"]).stdout
    end = re.search(r"\n\n  Examples:\n    docgen (.+)\n    docgen (.+)\n\Z", told)
    assert end, f"help of {command.name} ends without two examples"
    return list(end.groups())


EXAMPLES = [
    (command.name, example) for command in (docgen, *docgen.commands.values()) for example in shown_examples(command)
]


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder of an aircraft that was issued."""
    folder = tmp_path_factory.mktemp("issued") / "wren"
    shutil.copytree(WREN, folder)
    told = CliRunner().invoke(docgen, ["issue", str(folder), "--to", str(folder.parent / "paper")])
    assert told.exit_code == 0
    return folder


@pytest.mark.parametrize(("name", "example"), EXAMPLES, ids=[example for _, example in EXAMPLES])
@pytest.mark.long
def test_each_example_of_help_works(
    name: str, example: str, issued: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    words = shlex.split(example)
    if words[0] != "new":
        for folder in ("gull", "."):
            shutil.copytree(issued if name in ("compare", "built") else WREN, folder, dirs_exist_ok=True)
    told = CliRunner().invoke(docgen, words)
    assert told.exit_code == 0, told.output


def test_the_list_of_commands_cuts_no_sentence() -> None:
    listed = CliRunner().invoke(docgen, ["--help"]).stdout.partition("Commands:\n")[2]
    assert "..." not in listed


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (["pri"], ["plain,print"]),
        (["check", ""], ["dir,"]),
        (["print", ""], ["dir,"]),
        (["print", "gull", ""], ["dir,", *(f"plain,{stem}" for stem in STEMS)]),
        (["print", "gull", "cut"], ["dir,cut", "plain,cut-list"]),
        (["explain", ""], [f"plain,{kind}" for kind in KINDS]),
        (["parts", "servo-2"], [f"plain,{name}" for name in part_names() if name.startswith("servo-2")]),
        (["print", "gull", "--stock", ""], ["file,", *(f"plain,{name}" for name in stock_names())]),
        (["new", "gull", "--like", "w"], ["plain,wisp", "plain,wren"]),
    ],
    ids=lambda value: " ".join(value[:4]),
)
def test_a_shell_completes_names(
    words: list[str], offered: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "gull").mkdir()
    *before, last = words
    items = ShellComplete(docgen, {}, "docgen", "_DOCGEN_COMPLETE").get_completions(before, last)
    assert [f"{item.type},{item.value}" for item in items] == offered


def test_bash_asks_the_program_itself() -> None:
    # https://click.palletsprojects.com/en/stable/shell-completion/: _<NAME>_COMPLETE, here as the script for bash asks.
    asked = {"_DOCGEN_COMPLETE": "bash_complete", "COMP_WORDS": "docgen explain dro", "COMP_CWORD": "2"}
    command = [sys.executable, "-c", "import sys; sys.argv[0] = 'docgen'; from docgen.cli import main; main()"]
    told = subprocess.run(command, env=os.environ | asked, capture_output=True, text=True, check=True)
    assert (told.stdout, told.stderr) == ("plain,drop\n", "")
