"""The command that compares what is written now with what was issued."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from docgen.commands.shown import FOLDER, examples, progress, show


@click.command(epilog=examples("compare gull", "compare gull --with A"))
@click.argument("folder", metavar="DIR", type=FOLDER)
@click.option("--with", "letter", metavar="ISSUE", help="Compare with this issue, not with what is in the aircraft.")
@click.option("--json", "as_json", is_flag=True, help="Show it as JSON.")
def compare(folder: Path, letter: str | None, as_json: bool) -> None:
    """Say what differs in DIR from what is in the aircraft.

    That is told circuit by circuit, with what must be done again. In the aircraft is the
    last issue said to be built, else the first.
    """
    from docgen.basics.findings import has_errors, listed
    from docgen.definition.issues import read_state, read_unbuilt
    from docgen.paperwork.documents import contents_of
    from docgen.pipeline import check
    from docgen.reissue.compare import compare as compare_states
    from docgen.reissue.plain import data
    from docgen.reissue.state import make_state
    from docgen.reissue.told import text

    with progress():
        checked = check(folder)
    issues, base = checked.issues, checked.issues.base
    if checked.harness is None:
        show(checked.findings)
        sys.exit(1)
    if base is None:
        raise click.UsageError(f"nothing is issued in '{folder}' yet; begin with: docgen issue {folder}")
    if letter is not None:
        if letter not in issues.letters:
            raise click.UsageError(f"there is no issue '{letter}' (issued: {listed(issues.letters)}).")
        base, findings = read_state(folder, letter)
        show(findings)
        if base is None or has_errors(findings):
            sys.exit(1)
    new = make_state(checked.harness, contents_of(checked.harness), "draft", issues.last, checked.issued)
    differences = compare_states(base, new, unbuilt=read_unbuilt(folder, issues, base.issue))
    click.echo(json.dumps(data(differences), ensure_ascii=False, indent=2) if as_json else text(differences))
