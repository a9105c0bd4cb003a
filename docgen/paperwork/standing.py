"""Where what is printed stands: a draft, an issue to be done in the aircraft, or one that is built."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field
from typing import NamedTuple

from docgen.basics.frozen import frozen
from docgen.paperwork.items import Item

SHEETS = "sheets"  # the kind of documents as a whole


class Stamp(NamedTuple):
    """What stands on paper: since which issue it is so, whether that is built, its date; of a draft that it is one."""

    since: str
    date: str = ""
    built: bool = False

    @property
    def issue(self) -> str:
        """Say the issue, or the draft."""
        return f"issue {self.since}{', built' if self.built else ''}" if self.date else self.since

    @property
    def text(self) -> str:
        """Say the date too."""
        return f"{self.issue} · {self.date}" if self.date else self.issue


NOT_ISSUED = Stamp("draft")


@frozen
class Standing:
    """What is issued, by kind and key: its hash, and the stamp of what has that; all else is a `draft`.

    `last` is the stamp of the last issue.
    """

    draft: Stamp = NOT_ISSUED
    last: Stamp = NOT_ISSUED
    issued: Mapping[tuple[str, str], tuple[str, Stamp]] = field(default_factory=dict)

    def of(self, kind: str, item: Item) -> Stamp:
        """Return where an item stands."""
        content_hash, stamp = self.issued.get((kind, " ".join(item.key)), ("", self.draft))
        return stamp if content_hash == item.content_hash else self.draft

    def of_all(self, kind: str, items: Iterable[Item]) -> Stamp:
        """Return where items stand together: at the last issue, if that holds just them."""
        held = {key: content_hash for (of, key), (content_hash, _) in self.issued.items() if of == kind}
        return self.last if {" ".join(item.key): item.content_hash for item in items} == held else self.draft


DRAFT = Standing()
