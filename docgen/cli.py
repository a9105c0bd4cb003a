"""The command line: parse, call one function, show what was found, exit."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from docgen import __version__

if TYPE_CHECKING:
    from docgen.basics.findings import Finding
    from docgen.paperwork.documents import Choice

_INTERRUPTED = 130  # 128 and the number of the signal, as shells count
_FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)
_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
_PAPER = click.Choice(["a4", "letter"])


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="docgen")
def docgen() -> None:
    """Print the shop documents of a model aircraft's wiring harness.

    An aircraft is a folder with aircraft.yaml and harness.yaml.
    """


@docgen.command()
@click.argument("folder", metavar="DIR", type=_FOLDER)
@click.option("--json", "as_json", is_flag=True, help="Show it all as JSON, findings too.")
def check(folder: Path, as_json: bool) -> None:
    """Say what is wrong with the definition in DIR, and show what was worked out.

    Findings go to standard error, the tables of circuits, supplies and runs to standard output.

    Example: docgen check examples/wren
    """
    from docgen.paperwork.record.check_report import report_data, report_text
    from docgen.pipeline import check as check_folder

    checked = check_folder(folder)
    if as_json:
        click.echo(json.dumps(report_data(checked.harness, checked.findings), ensure_ascii=False, indent=2))
    else:
        _show(checked.findings)
        if checked.harness is not None:
            click.echo(report_text(checked.harness))
    if checked.harness is None:
        sys.exit(1)


@docgen.command()
@click.argument("name", metavar="FINDING")
def explain(name: str) -> None:
    """Tell what a finding means, why it matters on the bench, and how to remedy it.

    Example: docgen explain live-pins
    """
    from docgen.basics.explain import explain as explain_kind
    from docgen.basics.findings import listed, nearest
    from docgen.paperwork.kinds import KINDS

    if name not in KINDS:
        offer = nearest(name, KINDS)
        known = f"did you mean '{offer}'?" if offer else f"known: {listed(KINDS, len(KINDS))}."
        raise click.UsageError(f"there is no finding '{name}'; {known}")
    click.echo(explain_kind(KINDS[name]))


@docgen.command()
@click.argument("name", metavar="[NAME]", required=False)
def parts(name: str | None) -> None:
    """List the built-in parts, or show one with its figures and their sources.

    Example: docgen parts servo-22
    """
    from docgen.basics.findings import Refused
    from docgen.definition.listing import list_parts, show_part

    try:
        click.echo(show_part(name) if name is not None else list_parts())
    except Refused as refused:
        raise click.UsageError(f"{refused.sentence} {refused.do}") from refused


@docgen.command("print")
@click.argument("what", metavar="DIR... [DOCUMENT...]", nargs=-1, required=True)
@click.option("--to", type=click.Path(file_okay=False, path_type=Path), help="Folder to write to.")
@click.option("--paper", type=_PAPER, default="a4", show_default=True, help="Paper of sheets.")
@click.option(
    "--stock", metavar="NAME|FILE", help="Label stock: a name from `docgen stock`, or a YAML file of your own."
)
@click.option("--flat", metavar="LENGTH", help="Measured flat width of a label tape, like 8.6mm.")
@click.option("--first", type=click.IntRange(1), default=1, help="Label cell to begin at, on a sheet used before.")
@click.option("--copies", type=click.IntRange(1, 99), default=1, help="How often each label is printed.")
@click.option(
    "--only", metavar="NAME", multiple=True, help="Only labels of this circuit, or cards of this joint or equipment."
)
@click.option(
    "--only-place", metavar="PLACE", multiple=True, help="Only labels at this place; may stand several times."
)
@click.option("--order", metavar="COLOURS", help="Colours that come first in the cut list, like RD,BK.")
@click.option("--csv", is_flag=True, help="Write the cut list as comma-separated values too.")
@click.option("--brief", is_flag=True, help="Leave the millivolts out of the ring-out sheet: for a buzzer alone.")
@click.option("--printer", type=_FILE, help="What a printer does to a page, a file from `docgen ruler`.")
def print_command(what: tuple[str, ...], to: Path | None, **options: Any) -> None:
    """Print the documents of each DIR, or only each DOCUMENT named by its stem.

    They are written to out/ and the folder's name, or straight to the folder given with --to; with several DIRs
    into one folder for each inside it. Options about labels change nothing else.

    Example: docgen print examples/wren wire-labels --stock tape-9
    """
    from docgen.basics.findings import has_errors
    from docgen.paperwork.documents import STEMS
    from docgen.pipeline import print_aircraft

    stems = tuple(word for word in what if word in STEMS)
    folders = _folders([word for word in what if word not in STEMS], STEMS)
    choice, findings = _choice(stems, options)
    _show(findings)
    if choice is None:
        sys.exit(1)
    targets = _targets(folders, to)
    try:
        printed = print_aircraft(list(zip(folders, targets, strict=True)), choice)
    except OSError as error:
        click.echo(f"can't write {error.filename}: {error.strerror}", err=True)
        sys.exit(1)
    _show(printed.findings)
    for note in printed.notes:
        click.echo(note, err=True)
    if printed.unknown:
        raise click.UsageError(" ".join(printed.unknown))
    widths = [max(map(len, column)) for column in zip(*printed.outputs, strict=True)]
    for path, extent, use in printed.outputs:
        click.echo(f"{path.ljust(widths[0])}  {extent.rjust(widths[1])}  {use}")
    if has_errors(printed.findings):
        sys.exit(1)


def _folders(words: Sequence[str], stems: Sequence[str]) -> list[Path]:
    for word in words:
        if not Path(word).is_dir():
            raise click.UsageError(f"'{word}' is neither a folder nor a document ({', '.join(stems)}).")
    if not words:
        raise click.UsageError("name the folder of an aircraft.")
    return [Path(word) for word in words]


def _choice(stems: tuple[str, ...], options: dict[str, Any]) -> tuple[Choice | None, list[Finding]]:
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
    labels = Selection(options["only"], options["only_place"], options["first"], options["copies"])
    return Choice(stems, options["paper"], stock, flat_mm, labels, order, options["csv"], options["brief"], printer), []


@docgen.command()
def stock() -> None:
    """List the label stocks.

    Example: docgen stock
    """
    from docgen.paperwork.stocks.reading import list_stocks

    click.echo(list_stocks())


@docgen.command()
@click.option("--paper", type=_PAPER, default="a4", show_default=True, help="Paper to print on.")
@click.option("--measured", metavar="LEFT,RIGHT,TOP,BOTTOM", help="The four distances that the page asks for, in mm.")
@click.option("--turned", is_flag=True, help="For pages that are wider than high, as most sheets of labels.")
@click.option("--to", type=click.Path(dir_okay=False, path_type=Path), help="File to write.")
def ruler(paper: str, measured: str | None, turned: bool, to: Path | None) -> None:
    """Print a page with rulers and crosses, then turn what was measured on it into a file for --printer.

    Example: docgen ruler --measured 15.2,195.4,14.8,282.3 --to printer.yaml
    """
    from docgen.basics.findings import Refused
    from docgen.paperwork.layouts.ruler import ruler_file
    from docgen.paperwork.output_folder import write_files

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
        click.echo(f"can't write {error.filename}: {error.strerror}", err=True)
        sys.exit(1)
    click.echo(target)


def _targets(folders: Sequence[Path], to: Path | None) -> list[Path]:
    names = [folder.resolve().name for folder in folders]
    if len(set(names)) < len(names):
        raise click.UsageError("two folders have one name, so their paper would mix; print them one by one.")
    if to is not None and len(folders) == 1:
        return [to]
    return [(to or Path("out")) / name for name in names]


@docgen.command()
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--like", metavar="EXAMPLE", default="wren", show_default=True, help="Example to copy.")
def new(folder: Path, like: str) -> None:
    """Begin an aircraft in DIR from a copy of an example.

    Example: docgen new gull --like wren
    """
    from docgen.basics.shipped import shipped_folder
    from docgen.paperwork.output_folder import write_files

    examples = sorted(path.name for path in shipped_folder("examples").iterdir() if path.is_dir())
    if like not in examples:
        raise click.UsageError(f"there is no example '{like}' (known: {', '.join(examples)}).")
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise click.UsageError(f"'{folder}' is there already and not empty.")
    try:
        source = shipped_folder("examples") / like
        write_files({folder / path.name: path.read_bytes() for path in sorted(source.glob("*.yaml"))})
    except OSError as error:
        click.echo(f"can't write {error.filename}: {error.strerror}", err=True)
        sys.exit(1)
    click.echo(f"{folder} is a copy of {like}; change it, then: docgen check {folder}")


def _show(findings: Sequence[Finding]) -> None:
    from docgen.basics.findings import format_finding

    for finding in findings:
        click.echo(format_finding(finding), err=True)


def main() -> None:
    """Run a command; whatever stops it, no traceback is shown."""
    for stream in (sys.stdout, sys.stderr):
        if stream is not None:  # a shell may have closed it
            # What a terminal can't show must not stop a command.
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]
    try:
        code = docgen(standalone_mode=False)
    except click.ClickException as error:
        error.show()
        code = error.exit_code
    except (click.Abort, KeyboardInterrupt):
        code = _INTERRUPTED
    except OSError as error:
        click.echo(f"can't go on: {error.strerror}", err=True)
        code = 1
    sys.exit(code if isinstance(code, int) else 0)
