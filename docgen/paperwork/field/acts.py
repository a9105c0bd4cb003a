"""Set an order of acts: numbered, one below the other, with dots that lead to what shows that each is done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from docgen.harness.model.switching import Act, Switching
from docgen.paperwork.field.aboard import Aboard
from docgen.paperwork.naming import sides_text
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.typesetting.ink import BLACK, Box, Circle, Ink, Text
from docgen.paperwork.typesetting.typeface import PLAIN_MM, line_pitch_mm, width_mm, wrapped

NOT_WRITTEN = "how: not written"
_NUMBER_MM, _APART_MM, _DOTS_MM, _ROW_MM = 6.0, 2.5, 1.6, 2.0
_LEAST_DOTS = 4


class Said(NamedTuple):
    """An act in words, and what shows it."""

    act: str
    shows: str = ""


def _before(aboard: Aboard) -> str:
    """Say what holds before anything is switched on."""
    said = ["right model memory"] * aboard.receiver
    said += ["throttle lowest and locked"] * aboard.drive
    said += ["gear switch as the legs stand"] * aboard.gear
    said += ["aircraft still until the gyro is ready"] * aboard.gyro
    return ", ".join(said)


def acts_on(switching: Switching, aboard: Aboard) -> Iterator[Said]:
    """Walk what holds before, and the acts of switching on; that of what drives before it can."""
    yield Said(_before(aboard))
    if aboard.receiver:
        yield Said("transmitter on")
    told = False
    for act in switching.on:
        if act.drives and not told:
            told = True
            clear = f"aircraft held, clear of {aboard.clear_of}" if aboard.clear_of else "aircraft held"
            yield Said(clear)
        yield _said(act)


def acts_off(switching: Switching, aboard: Aboard) -> Iterator[Said]:
    """Walk the acts of switching off: what drives is stopped, and seen to be, before its supply goes."""
    for act in switching.stop:
        if act.how:
            yield Said(act.how if len(switching.stop) == 1 else f"{sides_text(act.names)}: {act.how}", act.shows)
        else:
            yield Said(
                "throttle lowest and locked" if aboard.motor else f"stop {sides_text(act.names)}", "all stands still"
            )
    yield from map(_said, switching.off)
    if aboard.receiver:
        yield Said("transmitter off")
    if switching.carried:
        yield Said(f"stored and carried with the {sides_text(switching.carried)} in, packs unplugged")


def _said(act: Act) -> Said:
    return Said(f"{sides_text(act.names)}: {act.how or NOT_WRITTEN}", act.shows)


def numbered(acts: Sequence[Said], room_mm: float, first: int = 1) -> list[Block]:
    """Return a block for each act that says something, the first two and the last two of which stay together."""
    last = len(acts) - 1
    return [
        _block(f"{first + i}", act, room_mm, stays=i != last and i in (0, last - 1))
        for i, act in enumerate(acts)
        if act.act
    ]


def _block(number: str, said: Said, room_mm: float, *, stays: bool) -> Block:
    room = room_mm - _NUMBER_MM
    acts, shows = wrapped(said.act, room, PLAIN_MM), wrapped(said.shows, room - 12, PLAIN_MM)
    beside = bool(shows) and len(shows) == 1 and _free_mm(acts[-1], shows[0], room) > 0
    rows = len(acts) + len(shows) - beside
    pitch = line_pitch_mm(PLAIN_MM)

    def draw(box: Box) -> list[Ink]:
        left, first = box.x_mm + _NUMBER_MM, box.y_mm + _ROW_MM / 2 + PLAIN_MM
        ink: list[Ink] = [Text(box.x_mm, first, number, PLAIN_MM, bold=True)]
        ink += [Text(left, first + i * pitch, line, PLAIN_MM) for i, line in enumerate(acts)]
        for i, line in enumerate(shows):
            base = first + (len(acts) + i - beside) * pitch
            ink.append(Text(box.right_mm, base, line, PLAIN_MM, align="right"))
            start = left + (width_mm(acts[-1], PLAIN_MM) if beside else 0.0)
            ink += _dots(start, box.right_mm - width_mm(line, PLAIN_MM), base) if i == 0 else []
        return ink

    return Block((rows - 1) * pitch + PLAIN_MM + _ROW_MM, draw, 0.0, stays)


def _free_mm(act: str, shows: str, room: float) -> float:
    """Return what is left for dots between an act and what shows it, the least that they take counted off."""
    return room - width_mm(act, PLAIN_MM) - width_mm(shows, PLAIN_MM) - 2 * _APART_MM - _LEAST_DOTS * _DOTS_MM


def _dots(start: float, end: float, base: float) -> list[Ink]:
    count = int((end - start - 2 * _APART_MM) / _DOTS_MM)
    return [Circle(end - _APART_MM - i * _DOTS_MM, base - 0.25, 0.2, fill=BLACK, colour=None) for i in range(count)]
