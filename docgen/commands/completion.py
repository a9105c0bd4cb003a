"""What shells offer to complete: folders, documents, findings, parts, stocks and examples by their names."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

import click
from click.shell_completion import CompletionItem

Completion = Callable[[click.Context, click.Parameter, str], list[CompletionItem]]


def _of(known: Callable[[], Iterable[str]], *kinds: str) -> Completion:
    """Return the completion of names, and of what a shell finds itself by its kind: `dir`, `file`."""

    def complete(_: click.Context, __: click.Parameter, incomplete: str) -> list[CompletionItem]:
        names = [CompletionItem(name) for name in known() if name.startswith(incomplete)]
        return [*(CompletionItem(incomplete, type=kind) for kind in kinds), *names]

    return complete


def _documents() -> Iterable[str]:
    from docgen.paperwork.documents import STEMS

    return STEMS


def _findings() -> Iterable[str]:
    from docgen.paperwork.kinds import KINDS

    return KINDS


def _parts() -> Iterable[str]:
    from docgen.definition.listing import part_names

    return part_names()


def _stocks() -> Iterable[str]:
    from docgen.paperwork.stocks.reading import stock_names

    return stock_names()


def _examples() -> Iterable[str]:
    from docgen.basics.shipped import example_names

    return example_names()


def folder_or_document(ctx: click.Context, parameter: click.Parameter, incomplete: str) -> list[CompletionItem]:
    """Complete a folder, and once there is one a document too."""
    said = ctx.params.get("what") or ()
    known = _documents if any(Path(word).is_dir() for word in said) else list[str]
    return _of(known, "dir")(ctx, parameter, incomplete)


finding, part, example = _of(_findings), _of(_parts), _of(_examples)
stock = _of(_stocks, "file")
