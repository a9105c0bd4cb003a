"""Commands about what is in the aircraft: keep an issue, say that it is built."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any, NoReturn

import click

from docgen.commands.paper import choice_of, paper_options, show_outputs
from docgen.commands.shown import FOLDER, examples, progress, say, show


@click.command(epilog=examples("issue gull", "issue gull --as-built"))
@click.argument("folder", metavar="DIR", type=FOLDER)
@paper_options
@click.option("--as-built", is_flag=True, help="The aircraft has been altered already: nothing is left to cut.")
@click.option("--all", "every", is_flag=True, help="Print the whole set too, not only what differs.")
def issue(folder: Path, to: Path | None, as_built: bool, every: bool, **options: Any) -> None:
    """Keep what is in DIR under its revision, and print what differs.

    The first time all is printed. It is kept in DIR/issued; from then on contacts, wire numbers and marks stay,
    whatever is added or taken out. From the second time on paper goes to rework/ inside the output folder.
    """
    from docgen.basics.findings import Refused, has_errors
    from docgen.pipeline import check
    from docgen.reissue.issuing import Now
    from docgen.reissue.issuing import issue as issue_now

    choice, findings = choice_of((), options)
    show(findings)
    with progress():
        checked = check(folder)
    show(checked.findings)
    if choice is None or checked.harness is None:
        _stop("nothing is kept.")
    target = to or Path("out") / folder.resolve().name
    now = Now(folder, checked.harness, checked.issues, checked.issued, checked.where)
    try:
        with progress():
            done = issue_now(now, target, choice, as_built=as_built, every=every)
    except Refused as refused:
        _stop(f"{refused.sentence} {refused.do}")
    except OSError as error:
        _stop(f"can't write {error.filename or folder}: {error.strerror}; nothing is kept.")
    show(done.findings)
    for note in done.notes:
        say(note)
    show_outputs(done.outputs)
    if done.unwritten:
        _stop(f"can't write {done.unwritten}. Issue {done.letter} is kept: print again.")
    if has_errors(done.findings):
        _stop("nothing is kept.")
    if done.letter:
        say(f"issue {done.letter} is kept. When it is done in the aircraft: docgen built {folder}")


@click.command(epilog=examples("built gull", "built ."))
@click.argument("folder", metavar="DIR", type=FOLDER)
def built(folder: Path) -> None:
    """Say that the last issue of DIR is done in the aircraft.

    Until then what comes next is compared with what was built before.
    """
    from docgen.basics.findings import Refused, has_errors
    from docgen.definition.issues import read_issues
    from docgen.reissue.issuing import say_built

    issues, findings = read_issues(folder)
    show(findings)
    if has_errors(findings):
        sys.exit(1)
    try:
        say(say_built(folder, issues))
    except Refused as refused:
        _stop(f"{refused.sentence} {refused.do}")
    except OSError as error:
        _stop(f"can't write {error.filename or folder}: {error.strerror}. Say it again.")


def _stop(says: str) -> NoReturn:
    say(says)
    sys.exit(1)
