"""The command that begins an aircraft: from answers, asked for on a terminal, or from a copy of an example."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from docgen.commands import completion
from docgen.commands.shown import examples, stop_unwritten

if TYPE_CHECKING:
    from docgen.beginning.answers import Answers


@click.command(epilog=examples("new gull", "new gull --surfaces ailerons,flaps --drive none"))
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--wing", metavar="WORDS", help="one-piece, two-panels or three-pieces; joined by block or d-shell.")
@click.option("--surfaces", metavar="WORDS", help="ailerons, flaps (=2 for two servos a side), airbrakes, or none.")
@click.option("--tail", metavar="WORDS", help="one-elevator, two-elevators or v-tail; rudder, plug-in.")
@click.option("--gear", metavar="WORDS", help="none, fixed, two-retracts or three-retracts; doors, brakes, steering.")
@click.option(
    "--drive",
    metavar="WORDS",
    help="none, motor, turbine or piston (=2 for two); the radio fed by receiver-pack or own-regulator.",
)
@click.option("--receivers", metavar="WORD", help="one or two.")
@click.option(
    "--packs",
    metavar="WORDS",
    help="Of the radio: one-pack, two-packs or no-pack; straight or regulated; power-unit.",
)
@click.option("--switch", metavar="WORD", help="switch, key or plug-in.")
@click.option("--extras", metavar="WORDS", help="position-lights, landing-lights, beacon, smoke, or none.")
@click.option("--like", metavar="EXAMPLE", shell_complete=completion.example, help="Copy an example instead.")
def new(folder: Path, like: str | None, **options: str | None) -> None:
    """Begin an aircraft in DIR from the answers to nine questions.

    Its definition prints labels and cards at once. On a terminal it asks for what no option answers; elsewhere the
    rest is taken as usual. Words are set apart by commas. Nothing is measured yet, and currents are typical ones.
    """
    from docgen.basics.findings import Refused
    from docgen.definition.folder_names import check_folder_name

    said = {name: words for name, words in options.items() if words is not None}
    if os.path.lexists(folder) and (not folder.is_dir() or any(folder.iterdir())):
        raise click.UsageError(f"'{folder}' is there already and not empty.")
    try:
        check_folder_name(Path(os.path.abspath(folder)).name)  # noqa: PTH100 - no link is looked through
    except Refused as refused:
        raise click.UsageError(f"{refused.sentence} {refused.do}") from refused
    if like is not None and said:
        raise click.UsageError(f"--like copies an example, and so --{next(iter(said))} has nothing to answer.")
    if like is not None:
        _copy(folder, like)
    else:
        _begin(folder, said)


def _copy(folder: Path, like: str) -> None:
    from docgen.basics.shipped import example_names, shipped_folder

    known = example_names()
    if like not in known:
        raise click.UsageError(f"there is no example '{like}' (known: {', '.join(known)}).")
    source = shipped_folder("examples") / like
    _write(folder, {path.name: path.read_bytes() for path in source.glob("*.yaml")})
    click.echo(f"{folder} is a copy of {like}; change it, then: docgen check {folder}")


def _begin(folder: Path, said: Mapping[str, str]) -> None:
    from docgen.beginning.answers import as_options
    from docgen.beginning.begin import begin

    answers = _answers(said)
    if is_asked():
        answers = _answers(_ask(said))
    texts = begin(folder.resolve().name, answers)
    _write(folder, {name: text.encode() for name, text in texts.items()})
    click.echo(f"{folder} is begun: {' and '.join(texts)}, with comments. The same again:")
    typed = f'"{folder}"' if " " in str(folder) else folder  # as every shell takes it
    click.echo(f"  docgen new {typed} {as_options(answers)}")
    click.echo(f"labels and cards can be printed at once: docgen print {typed}")
    click.echo(f"next, a sheet to write measures on: docgen print {typed} measuring-sheet")


def is_asked() -> bool:
    """Tell whether there is a terminal to ask on."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def _answers(said: Mapping[str, str]) -> Answers:
    """Return the answers to what was said, the rest by default; all that is wrong is said at once."""
    from docgen.beginning.answers import answers_from
    from docgen.beginning.contradictions import contradictions

    answers, refused = answers_from(said)
    if answers is not None:
        refused = contradictions(answers)
    if answers is None or refused:
        raise click.UsageError("\n".join(f"{each.sentence} {each.do}" for each in refused))
    return answers


def _ask(said: Mapping[str, str]) -> dict[str, str]:
    """Ask for what was not said, one question after the other; what contradicts is asked again."""
    from docgen.beginning.answers import default_now
    from docgen.beginning.questions import QUESTIONS, explained

    known = dict(said)
    if len(known) < len(QUESTIONS):
        click.echo("Words in any order, commas or blanks between them; Enter takes what stands in brackets.")

    def taken(name: str, words: str) -> str:
        _answers({**known, name: words})
        return words

    for number, (name, question) in enumerate(QUESTIONS.items(), 1):
        if name not in said:
            click.echo("\n".join(["", f"{number} of {len(QUESTIONS)}: {question.asks}", *explained(question)]))
            default = default_now(name, known)
            known[name] = click.prompt(name, default, value_proc=partial(taken, name))
    click.echo()
    return known


def _write(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write all files, each with the line that leads editors to its schema, or none and say why."""
    from docgen.definition.schema import modeline, schema_files
    from docgen.paperwork.file_set import write_files
    from docgen.paperwork.kinds import MEANINGS

    headed = {name: modeline(Path(name).stem).encode() + content for name, content in files.items()}
    try:
        write_files({folder / name: content for name, content in (headed | schema_files(MEANINGS)).items()})
    except OSError as error:
        stop_unwritten(error)
