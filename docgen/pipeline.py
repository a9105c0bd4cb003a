"""The spine: load, resolve, compose, write."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from docgen.basics.findings import Finding, has_errors, in_order
from docgen.definition.issues import Issues, read_issues
from docgen.definition.kept import NOTHING_ISSUED, Issued, keep
from docgen.definition.load import load_definition
from docgen.definition.model import Where
from docgen.harness.checks.moved import unbuilt
from docgen.harness.model.harness import Harness
from docgen.harness.resolve import resolve
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.paperwork.output_folder import has_paper, mixed, write_paper
from docgen.paperwork.typesetting.typeface import check_characters

if TYPE_CHECKING:
    from docgen.paperwork.documents import Choice, Output


@dataclass(frozen=True)
class Checked:
    """A harness, if the definition has no errors, everything found, and what was issued and stays."""

    harness: Harness | None
    findings: list[Finding]
    issues: Issues
    issued: Issued
    where: Where


@dataclass(frozen=True)
class Printed:
    """What came out, everything found, what the builder is told, and what was asked for but is not there."""

    outputs: list[Output] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    unknown: list[str] = field(default_factory=list)


def check(folder: Path) -> Checked:
    """Take an aircraft's folder and return its harness as built, with all that was issued where it was."""
    definition, findings = load_definition(folder, ACCEPTABLE)
    issues, found = read_issues(folder)
    findings += found
    issued = NOTHING_ISSUED if has_errors(findings) else keep(definition, issues)
    harness, found = resolve(definition, issued)
    findings += [*found, *check_characters(definition.where.texts()), *unbuilt(definition.where, issues)]
    harness = None if has_errors(findings) else harness
    return Checked(harness, in_order(findings), issues, issued, definition.where)


def print_aircraft(folders: Sequence[tuple[Path, Path]], choice: Choice) -> Printed:
    """Compose the documents of each (aircraft's folder, output folder); then, without an error, write all."""
    from docgen.paperwork.documents import make_paperwork, wrong_use  # noqa: PLC0415 - a check has no use for it
    from docgen.reissue.earlier import find_moved  # noqa: PLC0415
    from docgen.reissue.standing import standing_of  # noqa: PLC0415

    paper: dict[Path, dict[str, bytes]] = {}
    outputs: list[Output] = []
    findings: list[Finding] = []
    notes: list[str] = []
    drafts: list[str] = []
    harnesses: list[Harness] = []
    for folder, target in folders:
        checked = check(folder)
        findings += checked.findings
        if checked.harness is not None:
            harnesses.append(checked.harness)
            standing = standing_of(checked.issues, checked.issued.same)
            paperwork = make_paperwork(checked.harness, choice, standing)
            findings += [*paperwork.findings, *find_moved(checked.harness, checked.where, target, findings)]
            notes += paperwork.notes
            if checked.issues.last is None:
                drafts.append(f"contacts and marks may still move; before the first crimp: docgen issue {folder}")
            paper[target] = paperwork.files
            outputs += [output._replace(path=f"{target}/{output.path}") for output in paperwork.outputs]
    findings = in_order(findings)
    if has_errors(findings):
        old = [target for _, target in folders if has_paper(target)]
        notes = [f"nothing is written; the paper in {target} is from an earlier state." for target in old]
        return Printed([], findings, notes)
    unknown = wrong_use(choice, harnesses)
    if unknown:
        return Printed([], findings, [], unknown)
    notes += write_paper(paper, whole=not choice.stems and choice.assembly is None)
    notes += [note for target in paper for note in mixed(target)]
    return Printed(outputs, findings, notes + drafts)
