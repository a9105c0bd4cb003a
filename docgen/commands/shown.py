"""What commands share: how words are read, and how findings and what could not be written are shown."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

if TYPE_CHECKING:
    from docgen.basics.findings import Finding

FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)
FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
PAPER = click.Choice(["a4", "letter"])


def show(findings: Sequence[Finding], *, accepted: bool = False) -> None:
    """Show findings on standard error, twins once, and how many there are; accepted ones only if asked for."""
    from docgen.basics.findings import format_finding, told_once
    from docgen.basics.units import counted

    told = told_once(findings)
    open_ones = [one.finding for one in told if not one.finding.accepted]
    for finding, twins in told:
        if accepted or not finding.accepted:
            click.echo(format_finding(finding, twins), err=True)
    levels = dict.fromkeys(finding.level for finding in open_ones)
    counts = [counted(sum(finding.level == level for finding in open_ones), level) for level in levels]
    if len(open_ones) < len(told):
        hint = "" if accepted else " (`docgen check --accepted` shows them)"
        counts.append(f"{len(told) - len(open_ones)} accepted{hint}")
    if counts:
        click.echo(f"{', '.join(counts)}.", err=True)


def stop_unwritten(error: OSError) -> NoReturn:
    """Say which file can't be written, and end."""
    click.echo(f"can't write {error.filename}: {error.strerror}", err=True)
    sys.exit(1)
