"""Take how a group's pieces come off spools; add a bar to scale for each spool, and what must be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from docgen.basics.units import decimal, millimetres
from docgen.harness.assembly.spools import Cut, SpoolPlan
from docgen.paperwork.typesetting.ink import FAINT, MIDDLE_MM, THIN_MM, Box, Line, Text, rectangle
from docgen.paperwork.typesetting.typeface import SMALL_MM, width_mm
from docgen.paperwork.typesetting.writer import PageWriter

_BAR_MM = 4.4
_NAME_MM = 48.0
ORDER = "Spools: the fewest bought, then the fewest sealed ones opened, then the fewest part-used."
_PITCH_MM = 6.4


def add_spools(writer: PageWriter, plan: SpoolPlan, lengths_mm: Sequence[float]) -> None:
    """Add the bars of a group, what to buy, and whether fewer spools could do."""
    writer.space(1)
    writer.need(first_mm(plan) - 1)
    longest = max((cut.length_mm for cut in plan.cuts), default=0.0)
    for number, cut in enumerate(plan.cuts, 1):
        writer.need(_PITCH_MM + (2 * SMALL_MM if number == len(plan.cuts) else 0))
        _bar(writer, cut, lengths_mm, (writer.width_mm - _NAME_MM) / longest)
        writer.y_mm += _PITCH_MM
    writer.paragraph(_says(plan), SMALL_MM)


def first_mm(plan: SpoolPlan) -> float:
    """Return the height of the bars that are not parted from what stands above them."""
    return 1 + _PITCH_MM * min(len(plan.cuts), 3) + 2 * SMALL_MM


def spool_name(cut: Cut) -> str:
    """Say which spool it is."""
    return f"buy {cut.number}" if cut.bought else f"spool {cut.number}{', sealed' if cut.sealed else ''}"


def _bar(writer: PageWriter, cut: Cut, lengths_mm: Sequence[float], scale: float) -> None:
    top, x = writer.y_mm + 0.6, writer.x_mm + _NAME_MM
    base = top + _BAR_MM / 2 + SMALL_MM / 2
    says = f"{spool_name(cut)} · {decimal(cut.length_mm / 1000)} m · rest {millimetres(cut.rest_mm)}"
    writer.page.add(Text(writer.x_mm, base, says, SMALL_MM))
    writer.page.add(rectangle(Box(x, top, cut.length_mm * scale, _BAR_MM), MIDDLE_MM))
    for index in cut.pieces:
        width = lengths_mm[index] * scale
        says = millimetres(lengths_mm[index])
        if width_mm(says, SMALL_MM) + 0.8 <= width:
            writer.page.add(Text(x + width / 2, base, says, SMALL_MM, align="centre"))
        x += width
        writer.page.add(Line(x, top, x, top + _BAR_MM, MIDDLE_MM))
    writer.page.add(Line(x, top + _BAR_MM, x + cut.rest_mm * scale, top + _BAR_MM, THIN_MM, FAINT))


def _says(plan: SpoolPlan) -> str:
    count = len(plan.cuts)
    spools = f"{count} spool{'s' if count > 1 else ''}"
    proof = "fewer can't do" if plan.proved else f"not proved least, {plan.least} might do"
    bought = Counter(cut.length_mm for cut in plan.cuts if cut.bought)
    buy = ", ".join(f"{number} of {decimal(length / 1000)} m" for length, number in sorted(bought.items()))
    said = [f"{spools}; {proof}"] if count else []
    said += [f"buy {buy}, {decimal(plan.bought_mm / 1000)} m in all"] if buy else []
    said += [f"{len(plan.too_long)} longer than any spool"] if plan.too_long else []
    return " · ".join(said) + "."
