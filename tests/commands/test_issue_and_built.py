"""What `docgen issue` and `docgen built` say, and with which code they end, whatever comes of them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from builder import Builder
from click.testing import CliRunner, Result

from docgen.basics.findings import Finding, Position, Refused
from docgen.cli import docgen
from docgen.paperwork.documents import Output
from docgen.reissue import issuing
from docgen.reissue.issuing import Issuing

FULL = 28, "No space left on device"
REFUSED = Refused("file", "another issue was kept.", "Say it again.")
ERROR = Finding(Position("a.yaml", 1, 1), "value", "it is wrong.", "Mend it.")


@pytest.fixture
def wren(tmp_path: Path) -> Builder:
    return Builder(tmp_path, "wren")


@pytest.fixture
def said(wren: Builder, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[Result, list[Any]]]:
    """Return what is told of a command when what it does comes out so, and with what that was done."""
    monkeypatch.chdir(tmp_path)

    def told(command: str, outcome: object, *words: str) -> tuple[Result, list[Any]]:
        done: list[Any] = []

        def does(*arguments: Any, **named: Any) -> object:
            done.append((arguments, named))
            if isinstance(outcome, Exception):
                raise outcome
            return outcome

        monkeypatch.setattr(issuing, "issue" if command == "issue" else "say_built", does)
        return CliRunner().invoke(docgen, [command, str(wren.folder), *words]), done

    return told


@pytest.mark.parametrize(
    ("outcome", "code", "last"),
    [
        (REFUSED, 1, "another issue was kept. Say it again."),
        (OSError(*FULL, "there/file"), 1, "can't write there/file: No space left on device; nothing is kept."),
        (OSError(*FULL), 1, "can't write <folder>: No space left on device; nothing is kept."),
        (Issuing("B", unwritten="there: why"), 1, "can't write there: why. Issue B is kept: print again."),
        (Issuing(findings=[ERROR]), 1, "nothing is kept."),
        (Issuing("B"), 0, "issue B is kept. When it is done in the aircraft: docgen built <folder>"),
        (Issuing(notes=["nothing differs."]), 0, "nothing differs."),
    ],
)
def test_the_last_line_says_what_came_of_an_issue(
    outcome: object, code: int, last: str, said: Callable[..., tuple[Result, list[Any]]], wren: Builder
) -> None:
    result, _ = said("issue", outcome)
    assert result.exit_code == code
    assert result.stderr.splitlines()[-1] == last.replace("<folder>", str(wren.folder))


@pytest.mark.parametrize(
    ("outcome", "code", "last"),
    [
        (REFUSED, 1, "another issue was kept. Say it again."),
        (OSError(*FULL, "there/file"), 1, "can't write there/file: No space left on device. Say it again."),
        (OSError(*FULL), 1, "can't write <folder>: No space left on device. Say it again."),
        ("issue B is built.", 0, "issue B is built."),
    ],
)
def test_the_last_line_says_what_came_of_what_is_built(
    outcome: object, code: int, last: str, said: Callable[..., tuple[Result, list[Any]]], wren: Builder
) -> None:
    result, _ = said("built", outcome)
    assert result.exit_code == code
    assert result.stderr.splitlines()[-1] == last.replace("<folder>", str(wren.folder))


def test_an_issue_is_made_as_it_is_asked_for(said: Callable[..., tuple[Result, list[Any]]]) -> None:
    out = Output("out/wren/rework-sheet.pdf", "1 sheet", "do it in the aircraft")
    result, [(arguments, named)] = said("issue", Issuing("B", outputs=[out]))
    now, target, choice = arguments
    assert (target, named) == (Path("out/wren"), {"as_built": False, "every": False})
    assert (choice.stems, now.folder.name, now.harness.aircraft.name) == ((), "wren", "Wren")
    assert result.stdout == "out/wren/rework-sheet.pdf  1 sheet  do it in the aircraft\n"
    _, [(arguments, named)] = said("issue", Issuing("B"), "--to", "paper", "--as-built", "--all", "--copies", "2")
    assert (arguments[1], arguments[2].labels.copies) == (Path("paper"), 2)
    assert named == {"as_built": True, "every": True}


def test_with_an_error_in_the_files_nothing_is_done(
    said: Callable[..., tuple[Result, list[Any]]], wren: Builder
) -> None:
    wren.change("    from: receiver 4\n", "    from: receiver 9\n")
    result, done = said("issue", Issuing("B"))
    assert (result.exit_code, result.stderr.splitlines()[-1], done) == (1, "nothing is kept.", [])


def test_what_is_issued_wrongly_is_not_said_to_be_built(
    said: Callable[..., tuple[Result, list[Any]]], wren: Builder
) -> None:
    (wren.folder / "issued" / "A").mkdir(parents=True)
    result, done = said("built", "issue A is built.")
    assert (result.exit_code, done) == (1, [])
    assert "error file" in result.stderr
