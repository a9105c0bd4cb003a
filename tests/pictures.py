"""Pictures of real pages for README.md, in the folders of the examples that they show. Made anew by hand:

PYTHONPATH=tests python -m pictures
"""

from __future__ import annotations

import io
from pathlib import Path
from typing import NamedTuple

import pypdfium2
from PIL import Image
from resolved import EXAMPLES, files_of_example

DOTS_PER_MM = 3.6
_POINTS_PER_MM = 72 / 25.4


class Picture(NamedTuple):
    """A part of a page, in mm from its top left corner: left, top, right, bottom."""

    document: str
    page: int
    box_mm: tuple[float, float, float, float]


PICTURES = {
    "wren/wire-labels.png": Picture("wire-labels", 0, (8, 8, 202, 84)),
    "wren/pinout-cards.png": Picture("pinout-cards", 0, (8, 132, 202, 260)),
    "wren/cut-list.png": Picture("cut-list", 0, (8, 6, 103, 182)),
    "fulmar/hangar-card.png": Picture("hangar-card", 0, (152, 0, 297, 208)),
    "fulmar/order-of-work.png": Picture("order-of-work", 0, (8, 156, 202, 243)),
}


def drawn(name: str) -> Image.Image:
    """Return a picture as its page is printed now, in 16 greys."""
    of = PICTURES[name]
    page = pypdfium2.PdfDocument(files_of_example(Path(name).parent.name)[f"{of.document}.pdf"])[of.page]
    whole: Image.Image = page.render(scale=DOTS_PER_MM / _POINTS_PER_MM).to_pil().convert("L")
    left, top, right, bottom = (round(side * DOTS_PER_MM) for side in of.box_mm)
    return whole.crop((left, top, right, bottom)).quantize(16, dither=Image.Dither.NONE)


def main() -> None:
    """Write them all."""
    for name in PICTURES:
        file = io.BytesIO()
        drawn(name).save(file, "PNG", optimize=True)
        (EXAMPLES / name).write_bytes(file.getvalue())


if __name__ == "__main__":
    main()
