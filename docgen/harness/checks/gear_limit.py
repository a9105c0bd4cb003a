"""What gear controllers are set to, against the strokes and currents of the legs."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import NamedTuple

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.definition.equipment import Gear
from docgen.harness.checks.facts import CLOSE, Facts, caution
from docgen.harness.model.equipment import Equipment

KIND = caution(
    name="gear-limit",
    stands_on="equipment",
    meaning="A gear leg's limit or stop does not suit its strokes.",
    when="Neither `gear: limit` nor `gear: stop` is said; the limit is under the longer stroke; it is over the "
    "suggested one by more than 2 s and more than a quarter; or the stop is outside 1.3 × working to 0.8 × stall. "
    "Suggested: the next whole second at or over both 1.1 × and 1 s more than the longer stroke; a controller's limit "
    "is for all its legs, and the longest stroke decides.",
    why="A limit under the stroke leaves the leg half-way, and the aircraft lands on it. One far over lets a "
    "stalled leg cook. A stop that working trips halts a good leg; one above stall never acts.",
    remedy="Time the strokes at the lowest pack volts with wheels on, hands clear of legs and doors: "
    "`gear: {up: 13.4 s, down: 12.1 s, limit: 15 s, stop: 2.5 A}`. Set the controller alike, as its maker "
    "allows.",
    source=PRACTICE,
)


class _Figure(NamedTuple):
    """A figure of a leg, and the equipment whose entry says it."""

    value: float
    said_by: str


class _Leg(NamedTuple):
    """A leg, its controller, and what either says of it: limit, stop, and its longer stroke [s]."""

    entry: Equipment
    controller: Equipment | None
    limit: _Figure | None
    stop: _Figure | None
    stroke_s: float | None


def suggested_limit_s(stroke_s: float) -> int:
    """Return the limit for a leg whose longer stroke is that [s]."""
    return math.ceil(max(1.1 * stroke_s, stroke_s + 1) - CLOSE)


def is_far_over(limit_s: float, suggested_s: float) -> bool:
    """Tell whether a limit is over the suggested by more than two seconds and more than a quarter [s]."""
    return limit_s - suggested_s > max(2.0, suggested_s / 4) + CLOSE


def stop_bounds_a(working_a: float | None, stall_a: float | None) -> tuple[float | None, float | None]:
    """Return the least and the most that a stop may be [A]: 1.3 times working, 0.8 times stall.

    Where nothing lies between those, working and stall bound it, and are no stops themselves.
    """
    if leave_no_room(working_a, stall_a):
        return working_a, stall_a
    return None if working_a is None else 1.3 * working_a, None if stall_a is None else 0.8 * stall_a


def leave_no_room(working_a: float | None, stall_a: float | None) -> bool:
    """Tell whether nothing lies between 1.3 times working and 0.8 times stall [A]."""
    return working_a is not None and stall_a is not None and 1.3 * working_a > 0.8 * stall_a + CLOSE


def is_tripped_by_working(stop_a: float, working_a: float | None, stall_a: float | None) -> bool:
    """Tell whether a stop is too low for what a leg works at [A]."""
    least, _ = stop_bounds_a(working_a, stall_a)
    slack = -CLOSE if leave_no_room(working_a, stall_a) else CLOSE
    return least is not None and stop_a < least - slack


def is_missed_by_stall(stop_a: float, working_a: float | None, stall_a: float | None) -> bool:
    """Tell whether a stop is too high for what a leg stalls at [A]."""
    _, most = stop_bounds_a(working_a, stall_a)
    slack = -CLOSE if leave_no_room(working_a, stall_a) else CLOSE
    return most is not None and stop_a > most + slack


def find(facts: Facts) -> Iterator[Finding]:
    """Find each gear leg whose limit or stop is unsaid or does not suit it; its controller says what it does not.

    A limit on the controller is for all its legs: the longest stroke decides.
    """
    legs = [_leg(facts, entry) for entry in facts.harness.equipment.values() if entry.kind == "gear leg"]
    for leg in legs:
        if leg.limit is None and leg.stop is None:
            yield _neither(facts, leg)
        if leg.limit is not None and leg.stroke_s is not None:
            strokes = [each.stroke_s for each in legs if each.limit == leg.limit and each.stroke_s is not None]
            if leg.stroke_s == max(strokes):
                yield from _judge_limit(facts, leg.entry, leg.limit, leg.stroke_s)
        if leg.stop is not None:
            yield from _judge_stop(facts, leg.entry, leg.stop)


def _leg(facts: Facts, entry: Equipment) -> _Leg:
    controller = _controller(facts, entry)
    limit, stop, up, down = (
        _said(entry, controller, of)
        for of in (lambda g: g.limit_s, lambda g: g.stop_a, lambda g: g.up_s, lambda g: g.down_s)
    )
    stroke_s = max((stroke.value for stroke in (up, down) if stroke is not None), default=None)
    return _Leg(entry, controller, limit, stop, stroke_s)


def _controller(facts: Facts, leg: Equipment) -> Equipment | None:
    for circuit in facts.harness.circuits.values():
        start = facts.harness.equipment.get(circuit.start.name) if circuit.start.is_port else None
        ends_there = any(end.is_port and end.name == leg.name for end in circuit.loads)
        if ends_there and start is not None and start.kind == "gear controller":
            return start
    return None


def _said(leg: Equipment, controller: Equipment | None, of: Callable[[Gear], float | None]) -> _Figure | None:
    """Return a figure as the leg says it, else as its controller does."""
    for entry in (leg, controller):
        value = of(entry.form.gear) if entry is not None and entry.form.gear is not None else None
        if entry is not None and value is not None:
            return _Figure(value, entry.name)
    return None


def _neither(facts: Facts, each: _Leg) -> Finding:
    leg, controller, _, _, stroke_s = each
    sentence = f"the motor of {shown(leg.name)} has neither a limit nor a stop: jammed, it is fed until it burns."
    do = "Time its strokes at the lowest pack volts with wheels on, and say `gear: {up: …, down: …, limit: …}`."
    if stroke_s is not None:
        do = (
            f"Set the controller to {suggested_limit_s(stroke_s)} s for its stroke of {decimal(stroke_s)} s, "
            "and say `limit:`."
        )
    by = leg.name
    if leg.form.gear is None and controller is not None and controller.form.gear is not None:
        by = controller.name
    said = facts.where.value("equipment", by, "gear")
    position = facts.where.key("equipment", leg.name) if said == facts.where.value("equipment", by) else said
    return KIND.at(position, sentence, do, ("equipment", by))


def _judge_limit(facts: Facts, leg: Equipment, limit: _Figure, stroke_s: float) -> Iterator[Finding]:
    value, suggested = limit.value, suggested_limit_s(stroke_s)
    if value < stroke_s - CLOSE:
        sentence = (
            f"the limit of {shown(leg.name)} is {decimal(value)} s, its longer stroke takes {decimal(stroke_s)} s: "
            f"{decimal(stroke_s - value, 3)} s short, so it stops half-way."
        )
    elif is_far_over(value, suggested):
        sentence = (
            f"the limit of {shown(leg.name)} is {decimal(value)} s, {decimal(value - suggested, 3)} s over the "
            f"{suggested} s that its longer stroke of {decimal(stroke_s)} s wants: a jammed motor cooks for that long."
        )
    else:
        return
    this = " for this leg" if limit.said_by == leg.name else ""
    do = f"Set the controller to {suggested} s{this}, and say `limit: {suggested} s`."
    path = "equipment", limit.said_by, "gear", "limit"
    yield facts.found(KIND, path, sentence, do, over=abs(value - suggested))


def _judge_stop(facts: Facts, leg: Equipment, stop: _Figure) -> Iterator[Finding]:
    value = stop.value
    working_a, stall_a = (leg.load.working_a, leg.load.stall_a) if leg.load else (None, None)
    least_a, most_a = stop_bounds_a(working_a, stall_a)
    no_room = leave_no_room(working_a, stall_a)
    if working_a is not None and least_a is not None and is_tripped_by_working(value, working_a, stall_a):
        of = f"{decimal(least_a - value, 3)} A under 1.3 times" if not no_room else "no more than"
        why = f"{of} the {decimal(working_a)} A that it works at: working trips it"
    elif stall_a is not None and most_a is not None and is_missed_by_stall(value, working_a, stall_a):
        of = f"{decimal(value - most_a, 3)} A over 0.8 times" if not no_room else "no less than"
        why = f"{of} the {decimal(stall_a)} A that it stalls at: a stall may not trip it"
    else:
        return
    sentence = f"the stop of {shown(leg.name)} is {decimal(value)} A, {why}."
    yield facts.found(KIND, ("equipment", stop.said_by, "gear", "stop"), sentence, _stop_remedy(least_a, most_a))


def _stop_remedy(least_a: float | None, most_a: float | None) -> str:
    if least_a is not None and most_a is not None:
        if least_a >= most_a:
            return "Measure again what it works and stalls at: nothing lies between."
        return f"Set it between {at_least(least_a, 3)} A and {at_most(most_a, 3)} A."
    if least_a is not None:
        return f"Set it to {at_least(least_a, 3)} A or more."
    return f"Set it to {at_most(most_a or 0.0, 3)} A or less."
