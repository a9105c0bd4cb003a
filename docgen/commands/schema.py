"""The command that tells editors what may stand in the builder's files."""

from __future__ import annotations

from pathlib import Path

import click

from docgen.commands.shown import examples, stop_unwritten

FILES = ("aircraft", "harness", "stores", "parts")


@click.command(epilog=examples("schema --to gull/.schema", "schema harness"))
@click.argument("file", metavar="[FILE]", type=click.Choice(FILES), required=False)
@click.option("--to", metavar="DIR", type=click.Path(path_type=Path), help="Write it, or all four, into DIR.")
def schema(file: str | None, to: Path | None) -> None:
    """Write JSON Schema of a file, for editors.

    FILE is aircraft, harness, stores or parts. With it an editor completes and explains keys, kinds and units; what
    `docgen new` writes names it in its first line.
    """
    from docgen.definition.schema import schema_text
    from docgen.paperwork.file_set import write_files
    from docgen.paperwork.kinds import MEANINGS

    if file is None and to is None:
        raise click.UsageError(f"name a file ({', '.join(FILES)}), or say --to for all.")
    texts = {name: schema_text(name, MEANINGS) for name in ([file] if file is not None else FILES)}
    if to is None:
        click.echo("".join(texts.values()), nl=False)
        return
    try:
        write_files({to / f"{name}.json": text.encode() for name, text in texts.items()})
    except OSError as error:
        stop_unwritten(error)
