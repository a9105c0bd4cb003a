"""Read quantities with their units into one base unit for each kind."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from decimal import Decimal

from docgen.basics.findings import Refused, shown
from docgen.basics.frozen import frozen

FOOT_MM = 304.8  # exact: international yard and pound agreement, 1959
_POUND_G = 453.59237  # exact, likewise
_NUMBER = re.compile(r"([+-]?(?:\d+(?:\.\d*)?|\.\d+))\s*(.*)")
_COMMA = re.compile(r"([+-]?\d+(?:,\d+)+)(.*)")
_BLANK = re.compile(r"([+-]?[\d.]+(?: [\d.]*\d)+)(\D*)")
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(?:,\d{3})+")


@frozen
class Quantity:
    """A kind of quantity: its units as factors to the base unit, an example, and plausible bounds."""

    name: str
    units: dict[str, float]
    example: str
    least: float
    most: float


LENGTH_MM = Quantity("a length", {"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "ft": FOOT_MM}, "235 mm", 0, 100_000)
OFFSET_MM = Quantity("a length", LENGTH_MM.units, "-40 mm", -100_000, 100_000)
SPOOL_MM = Quantity("a length", LENGTH_MM.units, "25 m", 0, 10_000_000)
CURRENT_A = Quantity("a current", {"A": 1, "mA": 1e-3}, "2.8 A", 0, 1000)
CHARGE_MAH = Quantity("a charge", {"mAh": 1, "Ah": 1000}, "2600 mAh", 0, 1_000_000)
VOLTAGE_V = Quantity("a voltage", {"V": 1, "mV": 1e-3}, "8.4 V", 0, 1000)
RESISTANCE_OHM = Quantity("a resistance", {"ohm": 1, "mohm": 1e-3, "Ω": 1, "mΩ": 1e-3}, "30 mohm", 0, 10_000)
TEMPERATURE_C = Quantity("a temperature", {"°C": 1, "C": 1}, "120 °C", -100, 2000)
RATIO = Quantity("a share", {"%": 0.01}, "30 %", 0, 1)
TIME_S = Quantity("a time", {"s": 1, "min": 60, "h": 3600}, "13.4 s", 0, 360_000)
MASS_G = Quantity("a mass", {"g": 1, "kg": 1000, "oz": _POUND_G / 16, "lb": _POUND_G}, "180 g", 0, 1e6)
LINEAR_MASS_G_PER_M = Quantity(
    "a mass by length", {"g/m": 1, "kg/km": 1, "lb/1000ft": _POUND_G / FOOT_MM}, "5.2 g/m", 0, 100_000
)
LINEAR_RESISTANCE_OHM_PER_M = Quantity(
    "a resistance by length",
    {
        "ohm/1000ft": 1 / FOOT_MM,
        "ohm/km": 1e-3,
        "ohm/m": 1,
        "mohm/m": 1e-3,
        "Ω/1000ft": 1 / FOOT_MM,
        "Ω/km": 1e-3,
        "Ω/m": 1,
        "mΩ/m": 1e-3,
    },
    "16.2 ohm/1000ft",
    0,
    100,
)
QUANTITIES = (
    LENGTH_MM,
    CURRENT_A,
    CHARGE_MAH,
    VOLTAGE_V,
    RESISTANCE_OHM,
    TEMPERATURE_C,
    RATIO,
    TIME_S,
    MASS_G,
    LINEAR_MASS_G_PER_M,
    LINEAR_RESISTANCE_OHM_PER_M,
)


def parse_quantity(text: str, quantity: Quantity) -> float:
    """Read a quantity into its base unit; raises Refused: `unit` for a missing or foreign one, else `value`."""
    misread = refused_comma(text) or _refused_blank(text)
    if misread is not None:
        raise misread
    match = _NUMBER.fullmatch(text)
    if not match:
        raise Refused("value", f"{shown(text)} is not {quantity.name}.", f"Write it like `{quantity.example}`.")
    number, unit = match[1], match[2].replace(" ", "").replace("\N{GREEK CAPITAL LETTER OMEGA}", "Ω")
    units = ", ".join(quantity.units)
    if not unit:
        do = f"Say which unit is meant ({units}), like `{quantity.example}`."
        raise Refused("unit", f"{shown(text)} lacks its unit.", do)
    if unit not in quantity.units:
        do = f"Write {quantity.name} in {units}, like `{quantity.example}`."
        raise Refused("unit", f"{shown(text)} is not in a unit of {quantity.name}.", do)
    value = float(number) * quantity.units[unit]
    if not math.isfinite(value) or not quantity.least <= value <= quantity.most:
        least, most = (f"{decimal(bound / quantity.units[unit])} {unit}" for bound in (quantity.least, quantity.most))
        raise Refused("value", f"{shown(text)} is out of bounds.", f"It must lie between {least} and {most}.")
    return value


def refused_comma(text: str) -> Refused | None:
    """Return what is said of a number with commas: a point for one comma, none for thousands, both where both read."""
    match = _COMMA.fullmatch(text)
    if not match:
        return None
    number, unit = match.groups()
    if not _THOUSANDS.fullmatch(number):
        has, point = f"{shown(text)} has a decimal comma.", shown(f"{number.replace(',', '.')}{unit}")
        return Refused("value", has, f"Write a point: {point}.") if number.count(",") == 1 else None
    whole = shown(f"{number.replace(',', '')}{unit}")
    if number.count(",") > 1:
        return Refused("value", f"{shown(text)} has commas in its number.", f"Leave them out: {whole}.")
    point = shown(f"{number.replace(',', '.').rstrip('0').rstrip('.')}{unit}")
    return Refused("value", f"{shown(text)} has a comma that can be read in two ways.", f"Write {point} or {whole}.")


def _refused_blank(text: str) -> Refused | None:
    """Return what is said of a number with blanks between its figures."""
    match = _BLANK.fullmatch(text)
    if not match:
        return None
    whole = shown(f"{match[1].replace(' ', '')}{match[2]}")
    return Refused("value", f"{shown(text)} has a blank in its number.", f"Leave it out: {whole}.")


def parse_whole(text: str, least: int, most: int) -> int:
    """Read a bare whole number between `least` and `most`; raises Refused `value`."""
    if not re.fullmatch(r"[0-9]{1,9}", text) or not least <= int(text) <= most:
        raise Refused("value", f"{shown(text)} is not a whole number from {least} to {most}.", "Write such a number.")
    return int(text)


def round_up_to_step(length_mm: float, step_mm: float) -> float:
    """Return the next multiple of the step at or over a length; a billionth of a step is rounding noise."""
    return math.ceil(length_mm / step_mm - 1e-9) * step_mm


def added(values: Iterable[float | None]) -> float | None:
    """Return the sum of values, or nothing where one of them is not known."""
    every = list(values)
    known = [value for value in every if value is not None]
    return sum(known, 0.0) if len(known) == len(every) else None


def decimal(value: float, figures: int = 6) -> str:
    """Write a number to so many figures, with all that stand before the point, and never with a power of ten."""
    text = f"{value:.{figures}g}"
    if "e" not in text:
        return text
    return f"{value:.0f}" if abs(value) >= 1 else f"{Decimal(text):f}"


def millimetres(length_mm: float | None) -> str:
    """Write a length in mm without digit grouping, with a decimal only where it has one; an unknown one as nothing."""
    return "" if length_mm is None else decimal(round(length_mm, 1))


def counted(count: int, what: str) -> str:
    """Say how many of something there are, which takes an s where there is not one."""
    return f"{count} {what}{'s' if count != 1 else ''}"


def at_least(value: float, decimals: int) -> str:
    """Write a bound that something has to reach: rounded up, without noughts at its end."""
    return _bound(value, decimals, 1)


def at_most(value: float, decimals: int) -> str:
    """Write a bound that nothing may go over: rounded down, without noughts at its end."""
    return _bound(value, decimals, -1)


def _bound(value: float, decimals: int, side: int) -> str:
    steps = side * math.ceil(side * value * 10**decimals - 1e-6)  # a millionth of a step is rounding noise
    text = f"{steps / 10**decimals:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
