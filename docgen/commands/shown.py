"""What commands share: how words are read, and how findings and what could not be written are shown."""

from __future__ import annotations

import contextlib
import os
import sys
import threading
import traceback
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from docgen import __version__

if TYPE_CHECKING:
    from docgen.basics.findings import Finding, Told


class _Named(click.Path):
    """A path that is more than nothing, which Python would take for the current folder."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """Return the path."""
        if not str(value):
            self.fail("it names nothing.", param, ctx)
        return super().convert(value, param, ctx)


FOLDER = _Named(exists=True, file_okay=False, path_type=Path)
OUTPUT = _Named(file_okay=False, path_type=Path)
FILE = _Named(exists=True, dir_okay=False, path_type=Path)
NEW_FILE = _Named(dir_okay=False, path_type=Path)
PAPER = click.Choice(["a4", "letter"])
_COLOURS = {"error": "red", "caution": "yellow", "note": "cyan"}
_MANY, _FIRST_OF_MANY = 4, 2  # notes of one name
_QUIET_S, _AGAIN_S = 1.0, 0.2  # what is done sooner needs no progress; how often it is shown anew
_MOST_SHOWN = 70  # letters of progress, so that it stays one line


def examples(*words: str) -> str:
    """Return the end of a command's help: what one would say, each in a line that is not broken."""
    return "\n".join(["\b", "Examples:", *(f"  docgen {line}" for line in words)])


def show(findings: Sequence[Finding], *, accepted: bool = False, every: bool = False) -> None:
    """Show findings on standard error, twins once, and how many there are.

    Accepted ones are shown only if asked for, and so is `every` note where many have one name.
    """
    from docgen.basics.findings import told_once
    from docgen.basics.units import counted

    told = told_once(findings)
    open_ones = [one for one in told if not one.finding.accepted]
    notes = Counter(one.finding.name for one in open_ones if one.finding.level == "note")
    folded = {name: count - _FIRST_OF_MANY for name, count in notes.items() if count > _MANY and not every}
    shown: Counter[str] = Counter()
    for one in told if accepted else open_ones:
        name = one.finding.name
        shown[name] += not one.finding.accepted
        if one.finding.accepted or name not in folded or shown[name] <= _FIRST_OF_MANY:
            _echo(one)
        elif shown[name] == notes[name]:
            more = counted(folded[name], f"more {_in_colour('note')}")
            click.echo(f"{more} {name} (`docgen check --every` shows all).", err=True)
    levels = dict.fromkeys(one.finding.level for one in open_ones)
    counts = [counted(sum(one.finding.level == level for one in open_ones), level) for level in levels]
    if len(open_ones) < len(told):
        hint = "" if accepted else " (`docgen check --accepted` shows them)"
        counts.append(f"{len(told) - len(open_ones)} accepted{hint}")
    if counts:
        click.echo(f"{', '.join(counts)}.", err=True)


def _echo(told: Told) -> None:
    from docgen.basics.findings import format_finding

    level, name = told.finding.level, told.finding.name
    text = format_finding(*told).replace(f" {level} {name}: ", f" {_in_colour(level)} {name}: ", 1)
    click.echo(text, err=True)


def _in_colour(level: str) -> str:
    """Return the word of a level in its colour on a terminal, unless that shows none or NO_COLOR is set."""
    plain = os.environ.get("NO_COLOR")  # no-color.org: set and not empty
    return level if plain or not _is_terminal() else click.style(level, fg=_COLOURS[level], bold=True)


def _is_terminal() -> bool:
    """Tell whether standard error is a terminal that can write a line anew; one called dumb can't."""
    return sys.stderr is not None and sys.stderr.isatty() and os.environ.get("TERM") != "dumb"


@contextlib.contextmanager
def progress() -> Iterator[None]:
    """Show on a terminal, in one line that is cleared in the end, what is being done, once that takes a while."""
    from docgen.basics.doing import heard

    if not _is_terminal():
        yield
        return
    over = threading.Event()
    shows = threading.Thread(target=_show_progress, args=(over, heard), daemon=True)  # a stop never waits for it
    shows.start()
    try:
        yield
    finally:
        over.set()
        shows.join()


def _show_progress(over: threading.Event, heard: Sequence[str]) -> None:
    from docgen.basics.findings import printable

    width, wait_s = 0, _QUIET_S
    while not over.wait(wait_s):
        says = printable("".join(heard))[:_MOST_SHOWN]
        click.echo(f"\r{says.ljust(width)}", err=True, nl=False)
        width, wait_s = len(says), _AGAIN_S
    if width:
        click.echo(f"\r{' ' * width}\r", err=True, nl=False)


def say(text: str, *, aside: bool = True) -> None:
    """Show a line, aside on standard error, so that names from files and folders do nothing to a terminal."""
    from docgen.basics.findings import printable

    click.echo(printable(text), err=aside)


def stop_unwritten(error: OSError) -> NoReturn:
    """Say which file can't be written, and end."""
    say(f"can't write {reason(error)}")
    sys.exit(1)


def reason(error: OSError) -> str:
    """Say what the system refuses, and of which file."""
    try:
        Path.cwd()
    except OSError:
        return "anything: the current folder was deleted; change to one that is there."
    return f"{error.filename}: {error.strerror}" if error.filename else str(error.strerror)


def own_fault(error: Exception) -> str:
    """Say that the program is at fault, what is written all the same, and what to send."""
    from docgen.basics.doing import written

    at = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{Path(at.filename).name}:{at.lineno}"
    left = f"after it had written {', '.join(written)}" if written else "and wrote nothing"
    met = f"docgen {__version__} met a fault of its own, {type(error).__name__} at {where}, {left}."
    return f"{met} Send this line and the aircraft's folder to whoever carries docgen on."
