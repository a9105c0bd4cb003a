"""The spine: load, resolve, compose, write."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from docgen.basics.doing import doing
from docgen.basics.findings import Finding, Refused, has_errors, in_order
from docgen.basics.frozen import frozen
from docgen.definition.issues import Issues, read_issues
from docgen.definition.kept import NOTHING_ISSUED, Issued, keep
from docgen.definition.load import load_definition
from docgen.definition.model import Where
from docgen.harness.checks import unread
from docgen.harness.checks.moved import unbuilt
from docgen.harness.model.harness import Harness
from docgen.harness.resolve import resolve
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.paperwork.printed import Printed
from docgen.paperwork.typesetting.typeface import check_characters

if TYPE_CHECKING:
    from docgen.paperwork.documents import Choice


@frozen
class Checked:
    """A harness, if the definition has no errors, everything found, and what was issued and stays."""

    harness: Harness | None
    findings: list[Finding]
    issues: Issues
    issued: Issued
    where: Where


def check(folder: Path) -> Checked:
    """Take an aircraft's folder and return its harness as built, with all that was issued where it was."""
    doing(f"checking {folder}")
    definition, findings = load_definition(folder, ACCEPTABLE)
    issues, found = read_issues(folder)
    findings += [*found, *unread.find(folder)]
    issued = NOTHING_ISSUED if has_errors(findings) else keep(definition, issues)
    harness, found = resolve(definition, issued)
    findings += [*found, *check_characters(definition.where.texts()), *unbuilt(definition.where, issues)]
    harness = None if has_errors(findings) else harness
    return Checked(harness, in_order(findings), issues, issued, definition.where)


def print_aircraft(folders: Sequence[tuple[Path, Path]], choice: Choice) -> list[Printed]:
    """Compose the documents of each (aircraft's folder, output folder), then write the whole of each or nothing.

    Raises Refused with nothing written, if something is asked for that none has.
    """
    from docgen.paperwork.documents import wrong_use  # noqa: PLC0415 - a check has no use for it

    composed = [_compose(folder, target, choice) for folder, target in folders]
    sound = [each.harness for each in composed if each.harness is not None and not has_errors(each.findings)]
    unknown = " ".join(wrong_use(choice, sound)) if sound else ""
    if unknown and len(sound) == len(composed):
        raise Refused("name", unknown, "")
    whole = not choice.stems and choice.assembly is None
    return [replace(each, failed=unknown).written(whole=whole) for each in composed]


def _compose(folder: Path, target: Path, choice: Choice) -> Printed:
    from docgen.paperwork.documents import make_paperwork  # noqa: PLC0415
    from docgen.reissue.earlier import find_moved  # noqa: PLC0415
    from docgen.reissue.standing import standing_of  # noqa: PLC0415

    checked = check(folder)
    if checked.harness is None:
        return Printed(folder, target, None, checked.findings)
    made = make_paperwork(checked.harness, choice, standing_of(checked.issues, checked.issued.same))
    findings = checked.findings + made.findings
    findings += find_moved(checked.harness, checked.where, target, findings)
    draft = f"contacts and marks may still move; before the first crimp: docgen issue {folder}"
    notes = made.notes + ([draft] if checked.issues.last is None else [])
    outputs = [output.below(target) for output in made.outputs]
    return Printed(folder, target, checked.harness, findings, made.files, outputs, notes)
