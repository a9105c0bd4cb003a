"""Commands about paper: print, list label stocks, measure a printer."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from functools import reduce
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from docgen.commands import completion
from docgen.commands.shown import FILE, NEW_FILE, OUTPUT, PAPER, examples, progress, say, show, stop_unwritten

if TYPE_CHECKING:
    from docgen.basics.findings import Finding
    from docgen.paperwork.documents import Choice, Output
    from docgen.paperwork.printed import Printed


_OPTIONS = (
    click.option("--to", type=OUTPUT, help="Folder to write to."),
    click.option("--paper", type=PAPER, default="a4", show_default=True, help="Paper of sheets."),
    click.option(
        "--stock",
        metavar="NAME|FILE",
        shell_complete=completion.stock,
        help="Label stock: a name from `docgen stock`, or a YAML file of your own.",
    ),
    click.option("--flat", metavar="LENGTH", help="Measured flat width of a label tape, like 8.6mm."),
    click.option("--first", type=click.IntRange(1), default=1, help="Label cell to begin at, on a sheet used before."),
    click.option("--copies", type=click.IntRange(1, 99), default=1, help="How often each label is printed."),
    click.option("--order", metavar="COLOURS", help="Colours that come first in the cut list, like RD,BK."),
    click.option("--csv", is_flag=True, help="Write cut list and labels as comma-separated values too."),
    click.option("--brief", is_flag=True, help="Leave the millivolts out of the ring-out sheet: for a buzzer alone."),
    click.option("--printer", type=FILE, help="What a printer does to a page, a file from `docgen ruler`."),
)


def paper_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options of what is printed on what."""
    return reduce(lambda made, option: option(made), reversed(_OPTIONS), command)


@click.command("print", epilog=examples("print gull", "print gull wire-labels --stock tape-9"))
@click.argument(
    "what",
    metavar="DIR... [DOCUMENT...]",
    nargs=-1,
    required=True,
    shell_complete=completion.folder_or_document,
)
@paper_options
@click.option(
    "--only", metavar="NAME", multiple=True, help="Only labels of this circuit, or cards of this joint or equipment."
)
@click.option(
    "--only-place", metavar="PLACE", multiple=True, help="Only labels at this place; may stand several times."
)
@click.option("--assembly", metavar="NAME", help="Only what belongs to this assembly, into a folder of its name.")
def print_command(what: tuple[str, ...], to: Path | None, **options: Any) -> None:
    """Print the documents of each DIR, or only each DOCUMENT named.

    They are written to out/ and the folder's name, or straight to the folder given with --to; with several DIRs
    into one folder for each inside it. Options about labels change nothing else. What is printed of one assembly goes
    to a folder of its name inside that; hangar card, fault finder and record are of the whole aircraft.
    """
    from docgen.basics.findings import Refused
    from docgen.paperwork.documents import STEMS
    from docgen.pipeline import print_aircraft

    stems = tuple(word for word in what if word in STEMS)
    folders = _folders([word for word in what if word not in STEMS], STEMS)
    choice, findings = choice_of(stems, options)
    show(findings)
    if choice is None:
        sys.exit(1)
    targets = _targets(folders, to)
    try:
        with progress():
            printed = print_aircraft(list(zip(folders, targets, strict=True)), choice)
    except Refused as refused:
        raise click.UsageError(refused.sentence) from refused
    show([finding for each in printed for finding in each.findings])
    for each in printed:
        for note in each.notes:
            say(note)
        show_outputs(each.outputs)
    _show_failed(printed)


def show_outputs(outputs: Sequence[Output]) -> None:
    """Show what came out in the order of use: paths, extents and uses in columns, and how many sheets that is."""
    from docgen.basics.units import counted

    widths = [max(map(len, column)) for column in zip(*outputs, strict=True)]
    for path, extent, use in outputs:
        say(f"{path.ljust(widths[0])}  {extent.rjust(widths[1])}  {use}", aside=False)
    sheets = [int(extent.split()[0]) for _, extent, _ in outputs if "sheet" in extent]
    if len(sheets) > 1:
        click.echo(f"{counted(sum(sheets), 'sheet')}, in the order in which they are used.")


def _show_failed(printed: Sequence[Printed]) -> None:
    """Say what could not be written, of several aircraft which are printed and which are not; exit if any is not."""
    from docgen.basics.findings import has_errors

    failed = [each for each in printed if each.failed]
    if len(printed) > 1:
        say(f"printed: {', '.join(each.name for each in printed if not each.failed) or 'none'}")
        for each in failed:
            say(f"not printed: {each.name}: {each.failed}")
    elif failed and not has_errors(failed[0].findings):
        say(failed[0].failed)
    if failed:
        sys.exit(1)


def _folders(words: Sequence[str], stems: Sequence[str]) -> list[Path]:
    for word in words:
        if not word or not Path(word).is_dir():
            raise click.UsageError(f"'{word}' is neither a folder nor a document ({', '.join(stems)}).")
    if not words:
        raise click.UsageError("name the folder of an aircraft.")
    return [Path(word) for word in words]


def choice_of(stems: tuple[str, ...], options: dict[str, Any]) -> tuple[Choice | None, list[Finding]]:
    """Return what to print as the words of the command line say it, or what is wrong with a file that they name."""
    from docgen.basics.colours import parse_colour
    from docgen.basics.findings import Refused
    from docgen.basics.units import LENGTH_MM, parse_quantity
    from docgen.paperwork.documents import Choice
    from docgen.paperwork.labels.selection import Selection
    from docgen.paperwork.layouts.reading import read_printer
    from docgen.paperwork.stocks.reading import stock_names

    stock: str | Path | None = options["stock"]
    if stock is not None:
        stocks = stock_names()
        if str(stock) not in stocks:
            stock = Path(stock)
            if not stock.is_file():
                raise click.UsageError(f"there is no stock '{stock}' (known: {', '.join(stocks)}; or name a file).")
    try:
        flat_mm = None if options["flat"] is None else parse_quantity(options["flat"], LENGTH_MM)
    except Refused as refused:
        raise click.UsageError(f"--flat: {refused.sentence} {refused.do}") from refused
    if flat_mm is not None and stock is None:
        raise click.UsageError("--flat is measured on the tube of a tape: name that with --stock.")
    try:
        named = (parse_colour(word.strip()) for word in (options["order"] or "").split(",") if word.strip())
        order = tuple(dict.fromkeys(named))
    except Refused as refused:
        raise click.UsageError(f"--order: {refused.sentence} {refused.do}") from refused
    printer, findings = (None, []) if options["printer"] is None else read_printer(options["printer"])
    if findings:
        return None, findings
    labels = Selection(options.get("only", ()), options.get("only_place", ()), options["first"], options["copies"])
    many = options["csv"], options["brief"], printer, options.get("assembly")
    return Choice(stems, options["paper"], stock, flat_mm, labels, order, *many), []


def _targets(folders: Sequence[Path], to: Path | None) -> list[Path]:
    names = [folder.resolve().name for folder in folders]
    if len({name.casefold() for name in names}) < len(names):  # capitals make no other folder on every system
        raise click.UsageError("two folders have one name, so their paper would mix; print them one by one.")
    if to is not None and len(folders) == 1:
        return [to]
    return [(to or Path("out")) / name for name in names]


@click.command(epilog=examples("stock", "print gull wire-labels --stock strips-letter"))
def stock() -> None:
    """List the label stocks."""
    from docgen.paperwork.stocks.reading import list_stocks

    click.echo(list_stocks())


@click.command(epilog=examples("ruler", "ruler --measured 15.2,195.4,14.8,282.3 --to printer.yaml"))
@click.option("--paper", type=PAPER, default="a4", show_default=True, help="Paper to print on.")
@click.option("--measured", metavar="LEFT,RIGHT,TOP,BOTTOM", help="The four distances that the page asks for, in mm.")
@click.option("--turned", is_flag=True, help="For pages that are wider than high.")
@click.option("--to", type=NEW_FILE, help="File to write.")
def ruler(paper: str, measured: str | None, turned: bool, to: Path | None) -> None:
    """Print a page with rulers, or turn what it measured into a file.

    That file tells --printer what a printer does to a page.
    """
    from docgen.basics.findings import Refused
    from docgen.paperwork.file_set import write_files
    from docgen.paperwork.layouts.ruler import ruler_file

    try:
        content = ruler_file(paper, measured, turned=turned)
    except Refused as refused:
        raise click.UsageError(f"--measured: {refused.sentence} {refused.do}") from refused
    if measured is not None and to is None:
        click.echo(content.decode(), nl=False)
        return
    target = to or Path("out") / "ruler.pdf"
    try:
        write_files({target: content})
    except OSError as error:
        stop_unwritten(error)
    say(str(target), aside=False)
