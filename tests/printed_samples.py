"""The samples to pull, as the order of work prints them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from measured import PrintedPage, PrintedText


class Pull(NamedTuple):
    """One sample: gauge, wire, connector and gender of its contact, the forces to hold (N, kg), and its column."""

    gauge: str
    wire: str
    connector: str
    gender: str
    least: tuple[float, float]
    military: tuple[float, float]
    column: int

    @property
    def key(self) -> tuple[str, str, str, str]:
        return self.gauge, self.wire, self.connector, self.gender


def samples_on(pages: Sequence[PrintedPage]) -> list[Pull]:
    """Return the samples, the left column of each page first: each field for a figure is one."""
    found = []
    for page in pages:
        fields = [box for box in page.outlines if 17 < box.right - box.left < 19 and 5 < box.bottom - box.top < 7]
        middle = page.width_mm / 2
        for side in (0, 1):
            texts = [text for text in page.texts if (text.box.left > middle) == bool(side)]
            heads = [text for text in texts if re.fullmatch(r"(pins|sockets) held", text.text)]
            texts.sort(key=lambda text: text.base_mm)
            for field in sorted(fields, key=lambda box: (box.top, box.left)):
                if (field.left > middle) != bool(side):
                    continue
                (head,) = (head for head in heads if field.left - 1 < head.box.left < field.right)
                (row,) = (text for text in texts if field.top < text.base_mm < field.bottom and " · " in text.text)
                wire, connector = row.text.split(" · ")
                gauge = [text for text in texts if text.base_mm < row.base_mm and " AWG: at least " in text.text][-1]
                (military,) = (text for text in texts if abs(text.base_mm - gauge.base_mm) < 0.5 and text is not gauge)
                genders = head.text.removesuffix(" held")
                name = gauge.text.split(" ")[0]
                found.append(Pull(name, wire, connector, genders, _force(gauge), _force(military), side))
    return found


def _force(text: PrintedText) -> tuple[float, float]:
    match = re.search(r"([\d.]+) N, ([\d.]+) kg", text.text)
    assert match is not None, text
    return float(match[1]), float(match[2])
