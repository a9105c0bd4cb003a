"""Take the paths of a record; return a page for the web that leads to them, readable on a phone, without a script."""

from __future__ import annotations

import html
from collections.abc import Iterable, Iterator
from itertools import groupby

PATH = "index.html"
_STYLE = "body{font:1.1em sans-serif;max-width:40em;margin:1em auto;padding:0 1em}li{padding:.4em 0}"
_HEADS = {"disconnect": "Joints", "equipment": "Equipment", "assembly": "Assemblies"}


def index_of(title: str, whole: str, parts: Iterable[str]) -> str:
    """Return the page: a link to the whole record, then one to each part, those of one kind together."""
    named = html.escape(title)
    lines = [
        "<!DOCTYPE html>",
        '<html lang="en"><head><meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{named}</title><style>{_STYLE}</style></head><body>",
        f"<h1>{named}</h1>",
        f'<p><a href="{whole}">The whole record</a></p>',
        *_lists(parts),
        "<p>For model aircraft only, never for aircraft that carry people.</p>",
        "</body></html>",
    ]
    return "\n".join(lines) + "\n"


def _lists(parts: Iterable[str]) -> Iterator[str]:
    for kind, some in groupby(parts, _kind):
        yield f"<h2>{_HEADS[kind]}</h2><ul>"
        for path in some:
            name = path.rpartition("/")[2].removeprefix(f"{kind}-").removesuffix(".txt")
            yield f'<li><a href="{html.escape(path)}">{html.escape(name)}</a></li>'
        yield "</ul>"


def _kind(path: str) -> str:
    return path.rpartition("/")[2].partition("-")[0]
