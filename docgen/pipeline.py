"""The spine: load, resolve, compose, write."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from docgen.basics.findings import Finding, Level, has_errors, in_order
from docgen.definition.issued import NOTHING_ISSUED
from docgen.definition.load import load_definition
from docgen.harness.model import Harness
from docgen.harness.resolve import resolve


@dataclass(frozen=True)
class Checked:
    """A harness, if the definition has no errors, and everything found."""

    harness: Harness | None
    findings: list[Finding]


def check(folder: Path) -> Checked:
    """Take an aircraft's folder and return its harness as built."""
    definition, findings = load_definition(folder)
    harness = None
    if definition is not None:
        harness, found = resolve(definition, NOTHING_ISSUED)
        if has_errors(findings):
            harness, found = None, [finding for finding in found if finding.level is Level.ERROR]
        findings = findings + found
    return Checked(harness, in_order(findings))
