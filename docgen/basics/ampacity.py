"""What a wire may carry, by its size and the heat that its insulation stands."""

from __future__ import annotations

import math

from docgen.basics.gauges import awg_area_mm2

# FAA AC 43.13-1B table 11-9: AWG, then amperes with insulation for 105, 150 and 200 °C, in 70 °C around it.
_TABLE = (
    (24, 2.5, 4, 5),
    (22, 3, 5, 6),
    (20, 4, 7, 9),
    (18, 6, 9, 12),
    (16, 7, 11, 14),
    (14, 10, 14, 18),
    (12, 13, 19, 25),
    (10, 17, 26, 32),
    (8, 38, 57, 71),
    (6, 50, 76, 97),
    (4, 68, 103, 133),
    (2, 95, 141, 179),
    (1, 113, 166, 210),
)
_COLUMNS_C = (105, 150, 200)
AMBIENT_C = 70.0  # of that table


def table_current_a(area_mm2: float, limit_c: float | None) -> float | None:
    """Return what the table allows a wire [A], or nothing for one under 24 AWG or with insulation under 105 °C.

    A size between two of the table counts as the thinner. Source: FAA AC 43.13-1B table 11-9.
    """
    columns = [i for i, column_c in enumerate(_COLUMNS_C, 1) if limit_c is not None and limit_c >= column_c]
    rows = [row for row in _TABLE if awg_area_mm2(row[0]) <= area_mm2 * (1 + 1e-9)]
    return float(rows[-1][columns[-1]]) if rows and columns else None


def derated_a(current_a: float, limit_c: float | None, heat_c: float | None) -> float:
    """Return what is left of a wire's current where it is hotter than 70 °C [A]; nothing at its limit.

    current × sqrt((limit − T) / (limit − 70 °C)), the form of FAA AC 43.13-1B 11-66d(6) at its rated temperature.
    """
    if heat_c is None or limit_c is None or heat_c <= AMBIENT_C:
        return current_a
    return current_a * math.sqrt((limit_c - heat_c) / (limit_c - AMBIENT_C)) if heat_c < limit_c else 0.0
