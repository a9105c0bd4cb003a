"""The spine: load, resolve, compose, write."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from docgen.basics.findings import Finding, has_errors, in_order
from docgen.definition.kept import NOTHING_ISSUED
from docgen.definition.load import load_definition
from docgen.harness.model.harness import Harness
from docgen.harness.resolve import resolve
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.paperwork.output_folder import clear_earlier, has_paper, write_files
from docgen.paperwork.typesetting.typeface import check_characters

if TYPE_CHECKING:
    from docgen.paperwork.documents import Choice, Output


@dataclass(frozen=True)
class Checked:
    """A harness, if the definition has no errors, and everything found."""

    harness: Harness | None
    findings: list[Finding]


@dataclass(frozen=True)
class Printed:
    """What came out, everything found, what the builder is told, and what was asked for but is not there."""

    outputs: list[Output] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    unknown: list[str] = field(default_factory=list)


def check(folder: Path) -> Checked:
    """Take an aircraft's folder and return its harness as built."""
    definition, findings = load_definition(folder, ACCEPTABLE)
    harness, found = resolve(definition, NOTHING_ISSUED)
    findings = findings + found + check_characters(definition.where.texts())
    return Checked(None if has_errors(findings) else harness, in_order(findings))


def print_aircraft(folders: Sequence[tuple[Path, Path]], choice: Choice) -> Printed:
    """Compose the documents of each (aircraft's folder, output folder); then, without an error, write all."""
    from docgen.paperwork.documents import make_paperwork, wrong_use  # noqa: PLC0415 - a check has no use for it

    files: dict[Path, bytes] = {}
    outputs: list[Output] = []
    findings: list[Finding] = []
    notes: list[str] = []
    harnesses: list[Harness] = []
    for folder, target in folders:
        checked = check(folder)
        findings += checked.findings
        if checked.harness is not None:
            harnesses.append(checked.harness)
            paperwork = make_paperwork(checked.harness, choice)
            findings += paperwork.findings
            notes += paperwork.notes
            files.update({target / path: content for path, content in paperwork.files.items()})
            outputs += [output._replace(path=f"{target}/{output.path}") for output in paperwork.outputs]
    findings = in_order(findings)
    if has_errors(findings):
        old = [target for _, target in folders if has_paper(target)]
        notes = [f"nothing is written; the paper in {target} is from an earlier state." for target in old]
        return Printed([], findings, notes)
    unknown = wrong_use(choice, harnesses)
    if unknown:
        return Printed([], findings, [], unknown)
    write_files(files)
    notes += [note for _, target in folders for note in clear_earlier(target, files)]
    return Printed(outputs, findings, notes)
