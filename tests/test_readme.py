"""What README.md shows is what happens."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from elsewhere import bare_settings, copy_of_project
from pictures import PICTURES, drawn
from PIL import Image
from resolved import EXAMPLES

from docgen.cli import docgen
from docgen.definition.equipment import KINDS_OF_EQUIPMENT

Run = Callable[..., tuple[str, str]]

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Return how to run a command in an empty folder: what it says on standard output and error."""
    monkeypatch.chdir(tmp_path)

    def said(*words: str) -> tuple[str, str]:
        told = CliRunner().invoke(docgen, words)
        return told.stdout, told.stderr

    return said


def blocks() -> list[str]:
    return re.findall(r"```[a-z]*\n(.*?)```", README, re.DOTALL)


def test_what_print_shows_is_real(run: Run) -> None:
    run("new", "examples/wren", "--like", "wren")
    assert run("print", "examples/wren")[0] in blocks()


@pytest.mark.parametrize("name", PICTURES)
def test_pictures_show_pages_as_they_are_printed(name: str) -> None:
    """A hundredth of the ink may differ, as another version of the renderer sets edges of letters otherwise."""
    shown, now = (np.asarray(of.convert("L"), dtype=float) for of in (Image.open(EXAMPLES / name), drawn(name)))
    assert shown.shape == now.shape
    assert np.abs(shown - now).sum() < 0.01 * (255 - now).sum()


def test_every_picture_is_shown() -> None:
    assert set(re.findall(r"!\[[^]]+\]\(examples/([^)]+)\)", README)) == set(PICTURES)


def test_what_new_shows_of_answers_is_real(run: Run) -> None:
    words = next(block for block in blocks() if block.startswith("docgen new gannet")).split()
    assert run(*words[1:])[0] in blocks()


def test_what_new_and_check_show_is_real(run: Run) -> None:
    assert run("new", "gull", "--like", "wren")[0] in blocks()
    assert run("check", "gull")[0] in blocks()


def test_the_mistake_is_shown_as_it_is_found(run: Run, tmp_path: Path) -> None:
    run("new", "gull", "--like", "wren")
    path = tmp_path / "gull" / "harness.yaml"
    before, rudder = path.read_text(encoding="utf-8").split("    to: rudder\n")
    path.write_text(before + "    to: rudder\n" + rudder.replace("lead: servo-22", "lead: servo-2"), encoding="utf-8")
    assert run("check", "gull")[1] in blocks()


def test_the_note_is_shown_as_it_is_found(run: Run, tmp_path: Path) -> None:
    run("new", "gull", "--like", "wren")
    path = tmp_path / "gull" / "harness.yaml"
    before, rudder = path.read_text(encoding="utf-8").split("    to: rudder\n")
    path.write_text(before + "    to: rudder\n" + rudder.replace("lead: servo-22", "lead: servo-24"), encoding="utf-8")
    assert run("check", "gull")[1] in blocks()


def test_the_record_that_is_shown_is_real(run: Run, tmp_path: Path) -> None:
    run("new", "wren", "--like", "wren")
    run("print", "wren", "record", "--to", "paper")
    record = (tmp_path / "paper" / "record.txt").read_text(encoding="utf-8")
    lead = next(block for block in blocks() if block.startswith("left-aileron A:"))
    assert lead in record


def test_the_definition_that_is_shown_is_real() -> None:
    text = (ROOT / "examples" / "wren" / "harness.yaml").read_text(encoding="utf-8")
    shown = next(block for block in blocks() if block.startswith("circuits:\n"))
    assert shown.removeprefix("circuits:\n") in text


def test_what_issue_and_built_say_is_real(run: Run) -> None:
    run("new", "gull", "--like", "wren")
    assert run("issue", "gull")[1] in blocks()
    assert run("built", "gull")[1] in blocks()


def test_all_kinds_of_equipment_are_named() -> None:
    line = next(line for line in README.splitlines() if line.startswith("- Equipment is a "))
    named = line.removeprefix("- Equipment is a ").split(": `")[0].replace(" or ", ", ").split(", ")
    assert sorted(named) == sorted(KINDS_OF_EQUIPMENT)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("cut-list --paper letter", []),
        ("wire-labels --stock tape-12 --to labels", ["wire-labels: a label of tape has no "]),
    ],
)
def test_the_other_commands_work(words: str, told: list[str], run: Run) -> None:
    assert f"docgen print gull {words}" in README
    run("new", "gull", "--like", "wren")
    said = run("print", "gull", *words.split())[1].splitlines()
    wanted = [*told, "contacts and marks may still move; before the first crimp: docgen issue gull"]
    assert [line.startswith(start) for line, start in zip(said, wanted, strict=True)] == [True] * len(wanted)


class Swap:
    """What the README says to write when a servo is another one, and when a light is added."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.plug, self.servo, self.light, self.circuit = (
            next(block for block in blocks() if block.startswith(start))
            for start in ("plugs:\n", "    place: tail-post\n", "  tip-light:\n    kind", "  tip-light:\n    label")
        )

    def servo_swapped(self) -> None:
        (self.folder / "parts.yaml").write_text(self.plug, encoding="utf-8")
        self._edit("harness.yaml", "    place: tail-post\n    lead: 300 mm\n    plug: servo-3\n", self.servo)
        self._edit("aircraft.yaml", "revision: A", "revision: B")

    def light_added(self) -> None:
        self._edit("harness.yaml", "\n# Where", f"{self.light}\n# Where")
        self._edit("harness.yaml", "circuits:\n", f"circuits:\n{self.circuit}")
        self._edit("aircraft.yaml", "revision: B", "revision: C")

    def _edit(self, file: str, old: str, new: str) -> None:
        text = (self.folder / file).read_text(encoding="utf-8")
        assert text.count(old) == 1
        (self.folder / file).write_text(text.replace(old, new), encoding="utf-8")


@pytest.mark.long
def test_the_swap_is_shown_as_it_goes(run: Run, tmp_path: Path) -> None:
    """A servo with another plug, then a light: what each command says."""
    run("new", "gull", "--like", "wren")
    run("issue", "gull")
    run("built", "gull")
    swap = Swap(tmp_path / "gull")
    swap.servo_swapped()
    assert run("compare", "gull")[0] in blocks()
    assert "".join(run("issue", "gull")) in blocks()
    run("built", "gull")
    swap.light_added()
    assert run("compare", "gull")[0] in blocks()
    assert run("issue", "gull")[0] in blocks()


@pytest.mark.long
def test_every_command_runs_word_for_word_in_an_empty_place(tmp_path: Path) -> None:
    """From a copy of the project, an empty home and no packages but those that the first line installs."""
    project, home = copy_of_project(tmp_path / "project"), tmp_path / "home"
    home.mkdir()
    path = f"{project / '.venv' / 'bin'}:{bare_settings()['PATH']}"
    settings = {"PATH": path, "HOME": str(home), "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
    swap = Swap(project / "gull")
    shown = re.findall(r"```([a-z]*)\n(.*?)```", README, re.DOTALL)
    for (kind, text), (next_kind, answer) in pairwise([*shown, ("", "")]):
        if text == swap.servo:
            swap.servo_swapped()
        elif text == swap.circuit:
            swap.light_added()
        elif kind == "sh" and "pytest" not in text:  # which is what runs this
            ran = subprocess.run(
                ["bash", "-ec", text], cwd=project, env=settings, capture_output=True, text=True, check=False
            )
            assert ran.returncode == 0, (text, ran.stderr)
            assert next_kind or answer in (ran.stdout, ran.stderr, ran.stdout + ran.stderr, ""), text
