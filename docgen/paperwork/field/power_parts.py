"""What first power-up is made of: parts with their caution, and steps with what they should read."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.basics.frozen import frozen
from docgen.harness.model.equipment import Equipment

MORE = "+ is more than before"  # of what the bench supply gives


@frozen
class Step:
    """One step: what it is about, what is done, what it should read; `reads` tells whether a reading is written down.

    `of` is what has its step with it, such as `circuit rudder`; there are as many `boxes` as it is ticked.
    """

    name: str
    does: str = ""
    should: str = ""
    reads: bool = False
    of: tuple[str, ...] = ()
    boxes: tuple[str, ...] = ()


@frozen
class Part:
    """Steps of one kind: what holds for all of them, the caution where it hurts, and if what to stop."""

    title: str
    says: str
    steps: Sequence[Step]
    caution: str = ""
    stop: str = ""


def idle_a(entry: Equipment) -> float | None:
    """Return what equipment draws at rest [A], if that is said: else as working, nothing where it works for a while."""
    load = entry.load
    if load is None or load.idle_a is not None:
        return load.idle_a if load is not None else None
    return 0.0 if load.runs_s is not None else load.working_a


def limit_a(idle: float, more: float = 0.0) -> float:
    """Return where a bench supply is set to limit [A]: half over idle and what is added, at least 0.5 A, to a tenth.

    Common practice, no source.
    """
    amps = idle + more if more else 1.5 * idle
    return max(0.5, math.ceil(amps * 10 - 1e-9) / 10)


def more_text(amps: float | None) -> str:
    """Write how much more a bench supply gives than before, if that is known."""
    return f"+{amps_text(amps)}" if amps is not None else ""


def volts_text(volts: float) -> str:
    """Write what a meter should read."""
    return f"{volts:.1f} V"


def amps_text(amps: float) -> str:
    """Write a current."""
    if amps == 0:
        return "0 A"
    return f"{amps:.2f} A" if amps < 1 else f"{amps:.1f} A"
