"""The wheel holds all that is needed to print, layouts and examples too."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from elsewhere import bare_settings, copy_of_project


def done(command: list[str | Path], folder: Path) -> str:
    """Run a command that must succeed, outside the checkout, and return what it says."""
    ran = subprocess.run(
        command,
        cwd=folder,
        env=bare_settings(),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stdout
    return ran.stdout


@pytest.mark.long
def test_a_wheel_prints_an_example_far_from_the_checkout(tmp_path: Path) -> None:
    bench = tmp_path / "bench"
    bench.mkdir()
    copy = copy_of_project(tmp_path / "copy")
    done([sys.executable, "-m", "build", "--wheel", "--outdir", tmp_path / "wheels", copy], bench)
    shutil.rmtree(copy)
    [wheel] = (tmp_path / "wheels").iterdir()

    done([sys.executable, "-m", "venv", tmp_path / "venv"], bench)
    python = tmp_path / "venv/bin/python"
    done([python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", wheel], bench)
    where = done([python, "-c", "import docgen; print(docgen.__file__)"], bench)
    assert Path(where.strip()).is_relative_to(tmp_path / "venv")

    program = tmp_path / "venv/bin/docgen"
    for example in ("wren", "fulmar"):
        done([program, "new", f"my-{example}", "--like", example], bench)
        done([program, "print", f"my-{example}"], bench)
        printed = {path.name for path in (bench / "out" / f"my-{example}").iterdir()}
        assert printed == {
            "wire-labels.pdf",
            "pinout-cards.pdf",
            "cut-list.pdf",
            "order-of-work.pdf",
            "ring-out-sheet.pdf",
            "first-power.pdf",
            "hangar-card.pdf",
            "fault-finder.pdf",
            "index.html",
            "record.txt",
            "record",
            "set.txt",
        }
