"""Sheets of labels: page, labels and gaps, and where the first label lies [mm]."""

from typing import NamedTuple


class LabelSheet(NamedTuple):
    """A sheet's dimensions [mm]; left and top are those of the first label."""

    page: tuple[float, float]
    across: int
    down: int
    label: tuple[float, float]
    pitch: tuple[float, float]
    left: float
    top: float


# 21 on A4. A page of label-layout figures; left is printed 7.2, centred exactly 7.25.
A4_21 = LabelSheet((210, 297), 3, 7, (63.5, 38.1), (66.0, 38.1), 7.25, 15.15)

# 30 on US Letter. The template of a labelling program's manual: left 0.1875, top 0.5, gap 0.125 in, 3 × 10.
LETTER_30 = LabelSheet((215.9, 279.4), 3, 10, (66.675, 25.4), (69.85, 25.4), 4.7625, 12.7)
LETTER_30_THIRD_COLUMN_MM = 144.4625

# 65, 189 and 24 on A4. From memory; centring by hand gives the same margins.
A4_65_FROM_MEMORY = LabelSheet((210, 297), 5, 13, (38.1, 21.2), (40.6, 21.2), 4.75, 10.70)
A4_189_FROM_MEMORY = LabelSheet((210, 297), 7, 27, (25.4, 10.0), (27.9, 10.0), 8.6, 13.5)
A4_24_FROM_MEMORY = LabelSheet((210, 297), 3, 8, (64.0, 33.9), (66.5, 33.9), 6.5, 12.9)

# The last label of 65, by hand: 4.75 + 4 × 40.6 and 10.70 + 12 × 21.2.
A4_65_LAST_LABEL_MM = (167.15, 265.10)
