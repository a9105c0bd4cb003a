"""Wire sizes: American Wire Gauge and metric areas."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from docgen.basics.findings import Refused, shown
from docgen.basics.frozen import frozen
from docgen.basics.units import decimal

_METRIC_TWINS_MM2 = {"22 AWG": 0.34}


@frozen(slots=True)
class Gauge:
    """A wire size as it is written (`22 AWG`, `0.25 mm²`), as it stands in a mark, and its area."""

    text: str
    mark: str
    area_mm2: float


def awg_diameter_mm(number: int) -> float:
    """Return the diameter of a solid wire of that gauge [mm].

    Source: ASTM B258: No. 36 is 0.0050 in, 0000 is 0.4600 in, 39 steps in equal ratio between.
    """
    return float(0.005 * 92 ** ((36 - number) / 39)) * 25.4


def awg_area_mm2(number: int) -> float:
    """Return the area of a solid wire of that gauge [mm²]."""
    return math.pi / 4 * awg_diameter_mm(number) ** 2


def parse_gauge(text: str) -> Gauge:
    """Read `22 AWG` or `0.25 mm²` (`mm2`); raises Refused."""
    match = re.fullmatch(r"([0-9]{1,2}|\d{0,3}\.\d{1,3}|\d{3})\s*(AWG|mm²|mm2)", text)
    if match and match.group(2) == "AWG" and match.group(1).isdigit() and int(match.group(1)) <= 40:
        number = int(match.group(1))
        return Gauge(f"{number} AWG", str(number), awg_area_mm2(number))
    if match and match.group(2) != "AWG" and float(match.group(1)) > 0:
        size = decimal(float(match.group(1)))
        return Gauge(f"{size} mm²", size, float(size))
    if re.fullmatch(r"\d+(\.\d+)?", text):
        raise Refused("unit", f"{shown(text)} lacks its unit.", "Write the size like `22 AWG` or `0.25 mm²`.")
    raise Refused("value", f"{shown(text)} is not a wire size.", "Write it like `22 AWG` or `0.25 mm²`.")


def bounds_mm2(range_of: Sequence[Gauge]) -> tuple[float, float]:
    """Return the least and the greatest area that a contact takes; either of its two sizes may be the thicker.

    22 AWG (0.326 mm²) stands for its metric twin of the trade, 0.34 mm², too: common practice, no source.
    """
    least, most = sorted(range_of, key=lambda gauge: gauge.area_mm2)
    return least.area_mm2, max(most.area_mm2, _METRIC_TWINS_MM2.get(most.text, most.area_mm2))


def takes_gauge(range_of: Sequence[Gauge], gauge: Gauge) -> bool:
    """Tell whether a size lies between two, those included, by area."""
    least_mm2, most_mm2 = bounds_mm2(range_of)
    return least_mm2 - 1e-9 <= gauge.area_mm2 <= most_mm2 + 1e-9
