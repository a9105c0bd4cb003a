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


def show(findings: Sequence[Finding]) -> None:
    """Show findings on standard error."""
    from docgen.basics.findings import format_finding

    for finding in findings:
        click.echo(format_finding(finding), err=True)


def stop_unwritten(error: OSError) -> NoReturn:
    """Say which file can't be written, and end."""
    click.echo(f"can't write {error.filename}: {error.strerror}", err=True)
    sys.exit(1)
