"""Take what the tubes of labels pass and what they grip; return which shrink tubes do, in the fewest sizes."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from itertools import count
from typing import NamedTuple

from docgen.basics.colours import colour_rgb, text_colour_on
from docgen.definition.model import Parts
from docgen.harness.model.parts import TubePart

TO_SPARE = 1.1  # expanded over what it passes: a tenth to spare, common practice, no source
GRIPS = 0.9  # recovered under what it grips, likewise
# A strip of self-adhesive paper under clear tube: its length, by how much it thickens the wires, and how far the tube
# reaches over both its ends together, of which it shortens by up to a tenth. Common practice, no source.
PAPER_MM, PAPER_THICKENS_MM = 32.0, 0.5
_OVER_PAPER_MM, SHORTENS = 10.0, 0.1
LABEL_MM = float(math.ceil((PAPER_MM + _OVER_PAPER_MM) / (1 - SHORTENS)))  # what the tube of a label is cut to
_PLAIN = 2.2  # tubes that shrink more are lined and stiff, for where plain ones do not do


class Need(NamedTuple):
    """What the tube of a label passes and grips [mm], and the heat where it lies."""

    passes_mm: float
    grips_mm: float
    heat_c: float | None = None

    @classmethod
    def under_paper(cls, wires_mm: float, grips_mm: float, heat_c: float | None, passes_mm: float = 0.0) -> Need:
        """Return it with a strip of paper around the wires; `passes_mm` is a plug that the tube goes over before."""
        return cls(max(passes_mm, wires_mm + PAPER_THICKENS_MM), grips_mm + PAPER_THICKENS_MM, heat_c)

    def fitting(self, tubes: Iterable[TubePart]) -> list[TubePart]:
        """Return the tubes that fit, the narrowest first; those that stand the heat, or all where none does."""
        fit = sorted((t for t in tubes if fits(t.expanded_mm, t.recovered_mm, *self[:2])), key=_width)
        return [tube for tube in fit if tube.stands(self.heat_c)] or fit


def girth_diameter_mm(size_mm: tuple[float, float]) -> float:
    """Return the diameter of the tube whose circumference is the girth of a flat plug [mm]."""
    return 2 * (size_mm[0] + size_mm[1]) / math.pi


def fits(expanded_mm: float, recovered_mm: float, passes_mm: float, grips_mm: float) -> bool:
    """Tell whether a tube passes one diameter as supplied and grips another when it has shrunk.

    Source: NASA-STD-8739.4 (Change 6) 9.8.1: larger than what it covers, a tight fit after shrinking.
    """
    return expanded_mm >= TO_SPARE * passes_mm and recovered_mm <= GRIPS * grips_mm


def fewest_tubes(needs: Iterable[Need], tubes: Iterable[TubePart], shelf: Collection[str] = ()) -> dict[Need, TubePart]:
    """Return a tube for each need that has one: of those on the shelf first, then of the fewest sizes.

    Of what the shelf lacks, plain tube comes before tube that shrinks more, which is stiff and thick; of the sizes that
    are used, each need takes the narrowest.
    """
    fitting = {need: found for need in dict.fromkeys(needs) if (found := need.fitting(tubes))}
    chosen: dict[Need, TubePart] = {}
    for first in (lambda t: t.name in shelf, lambda t: t.expanded_mm <= _PLAIN * t.recovered_mm, lambda _: True):
        left = {
            need: some for need, every in fitting.items() if need not in chosen and (some := [*filter(first, every)])
        }
        sizes = _fewest([[tube.name for tube in some] for some in left.values()])
        chosen |= {need: next(tube for tube in some if tube.name in sizes) for need, some in left.items()}
    return chosen


def _fewest(options: Sequence[Sequence[str]]) -> frozenset[str]:
    """Return the fewest names of which each option holds one."""
    return next(found for most in count() if (found := _hitting(options, most)) is not None)


def _hitting(options: Sequence[Sequence[str]], most: int) -> frozenset[str] | None:
    """Return at most so many names of which each option holds one, or nothing if it takes more."""
    if not options:
        return frozenset()
    apart: set[str] = set()  # options without a name in common want one each
    least = 0
    for option in sorted(options, key=len):
        if apart.isdisjoint(option):
            apart.update(option)
            least += 1
    if least > most:
        return None
    for name in min(options, key=len):
        found = _hitting([option for option in options if name not in option], most - 1)
        if found is not None:
            return found | {name}
    return None


def tube_of_label(
    thickness_mm: tuple[float, float], tubes: Iterable[TubePart], heat_c: float | None = None
) -> TubePart | None:
    """Return the narrowest clear tube over the paper of a label, by what is passed and gripped of its wires [mm]."""
    fitting = Need.under_paper(*thickness_mm, heat_c).fitting(tube for tube in tubes if tube.clear)
    return fitting[0] if fitting else None


def takes_label(tube: TubePart) -> bool:
    """Tell whether black type stands out on a tube: it is neither clear nor dark."""
    if tube.clear or tube.colour is None:
        return not tube.clear
    return text_colour_on(colour_rgb(tube.colour)) == "#000000"


def tube_over(diameter_mm: float, tubes: Sequence[TubePart], heat_c: float | None) -> TubePart | None:
    """Return the first tube that goes over something round and grips it; print need not stand out on it."""
    return tube_past(diameter_mm, diameter_mm, tubes, heat_c)


def tube_past(passes_mm: float, grips_mm: float, tubes: Sequence[TubePart], heat_c: float | None) -> TubePart | None:
    """Return the narrowest tube that passes one diameter and grips another, if one does that stands the heat.

    Print need not stand out on it.
    """
    fitting = Need(passes_mm, grips_mm, heat_c).fitting(tube for tube in tubes if not tube.clear)
    return fitting[0] if fitting else None


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
