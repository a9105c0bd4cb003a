"""The command line: the group of commands, and what is shown when one is stopped."""

from __future__ import annotations

import atexit
import gc
import signal
import sys
from typing import NoReturn

import click

from docgen import __version__
from docgen.commands import begin, compare, definition, issuing, paper, schema
from docgen.commands.shown import examples, own_fault, reason, say
from docgen.commands.streams import patient

_OWN_FAULT = 3
_STOPPED = 128  # and the number of the signal, as shells count


@click.group(context_settings={"help_option_names": ["-h", "--help"]}, epilog=examples("new gull", "print gull"))
@click.version_option(__version__, prog_name="docgen")
def docgen() -> None:
    """Print the shop documents of a model aircraft's wiring harness.

    An aircraft is a folder with aircraft.yaml and harness.yaml.
    """


for command in (
    definition.check,
    compare.compare,
    definition.explain,
    begin.new,
    definition.parts,
    issuing.built,
    issuing.issue,
    paper.print_command,
    paper.ruler,
    paper.stock,
    schema.schema,
):
    docgen.add_command(command)


def _stop(number: int, _: object) -> NoReturn:
    raise SystemExit(_STOPPED + number)


def main() -> None:
    """Run a command; whatever stops it, no traceback is shown and what was begun is taken away."""
    gc.disable()  # all that a command makes is needed to its end; looking for circles in it takes a quarter of the time
    atexit.register(gc.freeze)  # nor is it looked through when the process ends
    for name in ("SIGTERM", "SIGHUP", "SIGBREAK"):  # the last two where a terminal is closed
        number = getattr(signal, name, None)
        if number is not None and signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, _stop)
    sys.stdout, sys.stderr = patient(sys.stdout), patient(sys.stderr)
    try:
        code = docgen(standalone_mode=False)
    except click.ClickException as error:
        error.show()
        code = error.exit_code
    except (click.Abort, KeyboardInterrupt) as stopped:
        code = _STOPPED + signal.SIGINT
        if isinstance(stopped.__cause__, EOFError):  # no stop by the user: the bytecode of a module ends too soon
            say("a file of docgen is cut short: make room on the disc and install it again")
            code = _OWN_FAULT
    except OSError as error:
        say(f"can't read or write {reason(error)}")
        code = 1
    except Exception as error:  # the last guard
        click.echo(own_fault(error), err=True)
        code = _OWN_FAULT
    sys.exit(code if isinstance(code, int) else 0)
