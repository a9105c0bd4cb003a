"""Take a group's pieces; return a bar to scale for each spool where they come off several, with what is left on it."""

from __future__ import annotations

from docgen.basics.units import decimal, millimetres
from docgen.harness.assembly.spools import Cut, SpoolPlan
from docgen.paperwork.cut_list.pieces import Group, short_name
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.page_kit.tables import lines
from docgen.paperwork.typesetting.ink import MIDDLE_MM, Box, Ink, Line, Text, rectangle
from docgen.paperwork.typesetting.typeface import SMALL_MM, width_mm

_BAR_MM, _NAME_MM = 4.0, 3.5
_TOGETHER = 3  # bars that are not parted from the rows above them


def spool_bars(group: Group, room_mm: float) -> list[Block]:
    """Return the bars of a group that comes off several spools, and whether fewer could do."""
    plan = group.plan
    if plan is None or (len(plan.cuts) < 2 and plan.proved):
        return []
    scale = room_mm / max((cut.length_mm for cut in plan.cuts), default=1.0)
    lengths_mm = [piece.length_mm for piece in group.pieces]
    bars = [_bar(cut, lengths_mm, scale, stays=i < _TOGETHER) for i, cut in enumerate(plan.cuts)]
    return [*bars, lines(_proof(plan), room_mm, above_mm=1.0)]


def spool_name(cut: Cut) -> str:
    """Say which spool it is."""
    return short_name(cut) if cut.bought else f"spool {cut.number}{', sealed' if cut.sealed else ''}"


def _bar(cut: Cut, lengths_mm: list[float], scale: float, *, stays: bool) -> Block:
    says = f"{spool_name(cut)} · {decimal(cut.length_mm / 1000)} m · rest {millimetres(cut.rest_mm)}"

    def draw(box: Box) -> list[Ink]:
        top, x = box.y_mm + _NAME_MM, box.x_mm
        ink: list[Ink] = [
            Text(x, box.y_mm + _NAME_MM - 1, says, SMALL_MM),
            rectangle(Box(x, top, cut.length_mm * scale, _BAR_MM), MIDDLE_MM),
        ]
        for index in cut.pieces:
            width, length = lengths_mm[index] * scale, millimetres(lengths_mm[index])
            if width_mm(length, SMALL_MM) + 0.8 <= width:
                base = top + (_BAR_MM + SMALL_MM) / 2
                ink.append(Text(x + width / 2, base, length, SMALL_MM, align="centre"))
            x += width
            ink.append(Line(x, top, x, top + _BAR_MM))
        return ink

    return Block(_NAME_MM + _BAR_MM, draw, 1.0, stays)


def _proof(plan: SpoolPlan) -> str:
    return "Fewer spools can't do." if plan.proved else f"Not proved to be the fewest: {plan.least} might do."
