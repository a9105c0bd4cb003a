"""What came of printing one aircraft: all of its paper is written, or nothing and why."""

from __future__ import annotations

from dataclasses import field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from docgen.basics.findings import Finding, Level
from docgen.basics.frozen import frozen
from docgen.basics.units import counted
from docgen.harness.model.harness import Harness
from docgen.paperwork.output_folder import has_paper, mixed, write_paper

if TYPE_CHECKING:
    from docgen.paperwork.document import Output


@frozen
class Printed:
    """One aircraft, its harness if the definition has no errors, its files by path inside the output folder.

    `outputs` are what there is to use, `notes` what the builder is told; if it `failed`, that says why.
    """

    aircraft: Path
    target: Path
    harness: Harness | None
    findings: list[Finding]
    files: dict[str, bytes] = field(default_factory=dict)
    outputs: list[Output] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    failed: str = ""

    @property
    def name(self) -> str:
        """Return what the aircraft's folder is called."""
        return self.aircraft.resolve().name

    def written(self, *, whole: bool) -> Printed:
        """Write its files, the whole set or a part, unless it failed; return what came of it then."""
        errors = sum(finding.level is Level.ERROR for finding in self.findings)
        if errors:
            earlier = f"nothing is written; the paper in {self.target} is from an earlier state."
            told = [earlier] if has_paper(self.target) else []
            return replace(self, outputs=[], notes=told, failed=counted(errors, "error"))
        if self.failed:
            return replace(self, outputs=[], notes=[])
        try:
            told = [*write_paper({self.target: self.files}, whole=whole), *mixed(self.target)]
        except OSError as error:
            says = f"can't write {error.filename or self.target}: {error.strerror}"
            return replace(self, outputs=[], notes=[], failed=says)
        return replace(self, notes=self.notes + told)
