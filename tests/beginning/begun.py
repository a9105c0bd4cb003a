"""Aircraft begun from answers, in folders, and what is read back of them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import yaml

from docgen.basics.findings import Finding, Level, format_finding
from docgen.beginning.answers import Answers, answers_from
from docgen.beginning.begin import begin
from docgen.beginning.contradictions import contradictions
from docgen.definition.load import load_definition
from docgen.definition.model import Definition
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.pipeline import check


def answers_to(**words: str) -> Answers:
    """Return the answers to these words, the rest by default."""
    answers, refused = answers_from(words)
    assert answers is not None, refused
    assert not contradictions(answers)
    return answers


def written(folder: Path, words: Mapping[str, str]) -> Path:
    """Write the aircraft that follows from words into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in begin(folder.name, answers_to(**words)).items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def definition_in(folder: Path) -> Definition:
    """Read a folder."""
    return load_definition(folder, ACCEPTABLE)[0]


def as_typed(folder: Path) -> dict[str, Any]:
    """Return what stands in both files, by a reader of YAML in general; nothing is expanded."""
    texts = [(folder / name).read_text("utf-8") for name in ("aircraft.yaml", "harness.yaml")]
    return {key: value for text in texts for key, value in yaml.load(text, yaml.BaseLoader).items()}


def amiss(folder: Path) -> list[str]:
    """Return what is found and not accepted, but for notes that must be or that are the builder's to weigh."""
    return [format_finding(found) for found in check(folder).findings if not found.accepted and _is_amiss(found)]


def _is_amiss(found: Finding) -> bool:
    return found.level is not Level.NOTE or found.name not in ("unmeasured", "typical", "one-loss")
