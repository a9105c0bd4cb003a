"""With what force a crimped sample must hold its wire."""

from __future__ import annotations

from docgen.basics.gauges import awg_area_mm2

# AWG, commercial and military least force [N]. A published crimp specification, whose commercial column agrees with
# two other published tables. That they are the UL 486A and the MIL-T-7928 series is from memory.
_TABLE = (
    (28, 8.9, None),
    (26, 13.4, 31.1),
    (24, 22.3, 44.5),
    (22, 35.6, 66.7),
    (20, 57.9, 84.5),
    (18, 89.0, 169.0),
    (16, 133.5, 222.5),
    (14, 222.5, 311.5),
    (12, 311.5, 489.3),
    (10, 356.0, 667.2),
)
SOURCE = "a published crimp specification, commercial and military columns"
_METRIC = 0.15  # by how much a metric size may be over the one that it stands for: 6 mm² for 10 AWG


def least_pull_n(area_mm2: float) -> tuple[float, float | None] | None:
    """Return the least force of a sample, commercial and military [N]; a size between two counts as the thinner.

    The table ends at 28 and at 10 AWG; what is thinner or thicker has none.
    """
    if area_mm2 > awg_area_mm2(_TABLE[-1][0]) * (1 + _METRIC):
        return None
    rows = [row for row in _TABLE if awg_area_mm2(row[0]) <= area_mm2 * (1 + 1e-9)]
    return (rows[-1][1], rows[-1][2]) if rows else None
