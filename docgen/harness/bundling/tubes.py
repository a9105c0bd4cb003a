"""Take what a label's tube passes and what it grips; return which shrink tube does."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.basics.colours import colour_rgb, text_colour_on
from docgen.definition.model import Parts
from docgen.harness.model.parts import TubePart

TO_SPARE = 1.1  # expanded over what it passes: a tenth to spare, common practice, no source
GRIPS = 0.9  # recovered under what it grips, likewise


def girth_diameter_mm(size_mm: tuple[float, float]) -> float:
    """Return the diameter of the tube whose circumference is the girth of a flat plug [mm]."""
    return 2 * (size_mm[0] + size_mm[1]) / math.pi


def fits(expanded_mm: float, recovered_mm: float, passes_mm: float, grips_mm: float) -> bool:
    """Tell whether a tube passes one diameter as supplied and grips another when it has shrunk.

    Source: NASA-STD-8739.4 (Change 6) 9.8.1: larger than what it covers, a tight fit after shrinking.
    """
    return expanded_mm >= TO_SPARE * passes_mm and recovered_mm <= GRIPS * grips_mm


def choose_tube(
    passes_mm: float, grips_mm: float, tubes: Sequence[TubePart], heat_c: float | None = None, *, clear: bool = False
) -> TubePart | None:
    """Return the narrowest tube that can be printed on, fits and stands a heat; of equal ones that which shrinks least.

    Where one fits but none stands the heat, it is that which fits. `clear` asks for a tube to read through instead.
    """
    fitting = [
        tube
        for tube in sorted(tubes, key=_width)
        if (tube.clear if clear else _takes_print(tube))
        and fits(tube.expanded_mm, tube.recovered_mm, passes_mm, grips_mm)
    ]
    return next((tube for tube in fitting if tube.stands(heat_c)), fitting[0] if fitting else None)


def tube_over(diameter_mm: float, tubes: Sequence[TubePart]) -> TubePart | None:
    """Return the first tube that goes over something round and grips it; print need not stand out on it."""
    return tube_past(diameter_mm, diameter_mm, tubes)


def tube_past(passes_mm: float, grips_mm: float, tubes: Sequence[TubePart]) -> TubePart | None:
    """Return the first tube that passes one diameter and grips another; print need not stand out on it."""
    fitting = (tube for tube in tubes if fits(tube.expanded_mm, tube.recovered_mm, passes_mm, grips_mm))
    return next((tube for tube in fitting if not tube.clear), None)


def _takes_print(tube: TubePart) -> bool:
    """Tell whether black type stands out on a tube: it is neither clear nor dark."""
    if tube.clear or tube.colour is None:
        return not tube.clear
    return text_colour_on(colour_rgb(tube.colour)) == "#000000"


def flat_width_mm(expanded_mm: float) -> float:
    """Return the width of a tube pressed flat [mm]: half its circumference, walls left out."""
    return math.pi * expanded_mm / 2


def shrink_of_type(expanded_mm: float, grips_mm: float) -> float:
    """Return how much of the printed height is left when a tube has shrunk onto wires.

    Type around the tube shrinks with it: diameter gripped over diameter printed on.
    """
    return grips_mm / expanded_mm


def tubes_in_order(parts: Parts) -> tuple[TubePart, ...]:
    """Return all tubes, the narrowest first, then those that recover least."""
    return tuple(sorted(parts.tubes.values(), key=_width))


def _width(tube: TubePart) -> tuple[float, float, str]:
    return tube.expanded_mm, -tube.recovered_mm, tube.name
