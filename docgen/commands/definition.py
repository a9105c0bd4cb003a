"""Commands about what the builder writes: check, explain, list parts."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from docgen.commands import completion
from docgen.commands.shown import FOLDER, examples, progress, say, show


@click.command(epilog=examples("check gull", "check gull --json"))
@click.argument("folder", metavar="DIR", type=FOLDER)
@click.option("--json", "as_json", is_flag=True, help="Show it all as JSON, findings too.")
@click.option("--accepted", is_flag=True, help="Show findings that are accepted too.")
@click.option("--every", is_flag=True, help="Show every note, also where many have one name.")
def check(folder: Path, as_json: bool, accepted: bool, every: bool) -> None:
    """Say what is wrong with the files in DIR, and what was worked out.

    Findings go to standard error, errors first, what left and right share once, and their number last; the tables of
    circuits, supplies and runs go to standard output.
    """
    from docgen.paperwork.output_folder import mixed
    from docgen.paperwork.record.check_report import report_data, report_text
    from docgen.pipeline import check as check_folder

    with progress():
        checked = check_folder(folder)
    for note in mixed(Path("out") / folder.resolve().name):
        say(note)
    if as_json:
        click.echo(json.dumps(report_data(checked.harness, checked.findings), ensure_ascii=False, indent=2))
    else:
        show(checked.findings, accepted=accepted, every=every)
        if checked.harness is not None:
            click.echo(report_text(checked.harness))
    if checked.harness is None:
        sys.exit(1)


@click.command(epilog=examples("explain", "explain live-pins"))
@click.argument("name", metavar="[FINDING]", required=False, shell_complete=completion.finding)
def explain(name: str | None) -> None:
    """Tell what a finding means, why it matters and how to remedy it.

    Without one list all findings.
    """
    from docgen.basics.explain import explain as explain_kind
    from docgen.basics.explain import list_kinds
    from docgen.basics.findings import listed, nearest
    from docgen.paperwork.kinds import KINDS

    if name is None:
        click.echo(list_kinds(KINDS.values()))
        return
    if name not in KINDS:
        offer = nearest(name, KINDS)
        known = f"did you mean '{offer}'?" if offer else f"known: {listed(KINDS, len(KINDS))}."
        raise click.UsageError(f"there is no finding '{name}'; {known}")
    click.echo(explain_kind(KINDS[name]))


@click.command(epilog=examples("parts", "parts servo-22"))
@click.argument("name", metavar="[NAME]", required=False, shell_complete=completion.part)
def parts(name: str | None) -> None:
    """List the built-in parts, or show one with its sources."""
    from docgen.basics.findings import Refused
    from docgen.definition.listing import list_parts, show_part

    try:
        click.echo(show_part(name) if name is not None else list_parts())
    except Refused as refused:
        raise click.UsageError(f"{refused.sentence} {refused.do}") from refused
