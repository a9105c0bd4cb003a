"""Folders of aircraft to check: the smallest example with changes, or files written in a test."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

import pytest
from click.testing import CliRunner, Result

from docgen.basics.findings import Finding, Level
from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen
from docgen.pipeline import check

WREN = shipped_folder("examples") / "wren"
MARK = "▶"

Run = Callable[..., Result]
"""Runs a command in an empty folder."""

Replacements = list[tuple[str, str]]
Changes = Mapping[str, "str | Replacements | None"]
"""By file: a whole new text, replacements (old, new) in the example's text, or None to leave the file out."""

Place = tuple[str, str, int, int]
"""A finding's name, file, line and column."""


class Case(NamedTuple):
    """An error at the `▶` in `wrong`, and a nearly equal definition without it; `told` is said to the builder."""

    name: str
    wrong: Changes
    right: Changes
    told: str = ""


class AircraftFolder:
    """Writes aircraft into folders of its own; a `▶` in a text is taken out and its place kept in `marks`."""

    def __init__(self, tmp_path: Path) -> None:
        self.marks: set[tuple[str, int, int]] = set()
        self._tmp_path = tmp_path
        self._count = 0

    def __call__(self, changes: Changes | None = None) -> Path:
        """Write a copy of wren with these changes; the old text of a replacement must be there once."""
        texts: dict[str, str | None] = {path.name: path.read_text("utf-8") for path in WREN.glob("*.yaml")}
        for file, change in (changes or {}).items():
            if change is None or isinstance(change, str):
                texts[file] = change
                continue
            text = texts[file]
            assert text is not None
            for old, new in change:
                assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
                text = text.replace(old, new)
            texts[file] = text
        return self.written({file: text for file, text in texts.items() if text is not None})

    def written(self, texts: Mapping[str, str]) -> Path:
        """Write these files and no others."""
        self._count += 1
        self.marks = set()
        folder = self._tmp_path / str(self._count) / "wren"
        folder.mkdir(parents=True)
        for file, text in texts.items():
            before = ""
            *parts, last = text.split(MARK)
            for part in parts:
                before += part
                lines = before.split("\n")
                self.marks.add((file, len(lines), len(lines[-1]) + 1))
            (folder / file).write_bytes((before + last).encode())
        return folder

    def marked(self, name: str) -> set[Place]:
        """Return what findings of that name at all marks look like."""
        return {(name, *mark) for mark in self.marks}


@pytest.fixture
def aircraft_folder(tmp_path: Path) -> AircraftFolder:
    return AircraftFolder(tmp_path)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return an empty folder that is the current one."""
    folder = tmp_path / "bench"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return folder


@pytest.fixture
def run(bench: Path) -> Run:  # noqa: ARG001 - commands run there
    return lambda *words: CliRunner().invoke(docgen, [str(word) for word in words])


@pytest.fixture
def written_folder(aircraft_folder: AircraftFolder) -> Callable[[Mapping[str, str]], Path]:
    return aircraft_folder.written


@pytest.fixture
def errors_in() -> Callable[[Path], list[Finding]]:
    """Return the errors of a folder."""

    def errors(folder: Path) -> list[Finding]:
        return [finding for finding in check(folder).findings if finding.level is Level.ERROR]

    return errors


@pytest.fixture
def places_of() -> Callable[[list[Finding]], set[Place]]:
    """Return findings by name and place, the file without its folder."""

    def places(findings: list[Finding]) -> set[Place]:
        return {
            (finding.name, Path(finding.position.file).name, finding.position.line, finding.position.column)
            for finding in findings
        }

    return places
