"""Take a lead with its route and ends; return how long it is cut, if its route is known."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.basics.units import added, round_up_to_step
from docgen.definition.defaults import Allowances
from docgen.definition.model import Definition
from docgen.definition.parts import LeadPart
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import End, Wire


def centres_circle_mm(diameters_mm: Sequence[float]) -> float:
    """Return the diameter of the circle through the centres of wires laid up together [mm].

    Touching equal wires: one diameter for two, 2/√3 of it for three, √2 for four; in general
    the largest / sin(π/n). One wire lies straight: 0.
    """
    count = len(diameters_mm)
    return max(diameters_mm) / math.sin(math.pi / count) if count > 1 else 0.0


def twist_factor(diameters_mm: Sequence[float], lay_mm: float | None) -> float:
    """Return how much longer a wire is than the lead that it is twisted into.

    sqrt(1 + (π·d/lay)²), the helix unrolled, with d the circle through the wires' centres.
    """
    if lay_mm is None:
        return 1.0
    return math.hypot(1, math.pi * centres_circle_mm(diameters_mm) / lay_mm)


def needed_length_mm(
    route_mm: float, extra_mm: float, strips_mm: Sequence[float | None], twist: float, allowances: Allowances
) -> float:
    """Return the length that a lead needs before it is rounded up [mm].

    `extra_mm` is slack of the places at its ends, reach of loose halves, loops, and strips at splices, which are never
    made again; `strips_mm` is of the contact at each end, nothing where the part does not say.
    """
    termination_mm = allowances.reterminations * allowances.retermination_mm
    ends_mm = sum((allowances.strip_mm if strip is None else strip) + termination_mm for strip in strips_mm)
    return (route_mm * (1 + allowances.slack) + extra_mm + ends_mm) * twist


def lead_length_mm(
    part: LeadPart,
    wires: Sequence[Wire],
    ends: Sequence[End],
    route: Route,
    free_mm: Sequence[float | None],
    rules: Definition,
) -> float | None:
    """Return the length that a lead of a part needs between its ends, with what lies free there [mm], if known."""
    free = added(free_mm)
    if route.length_mm is None or free is None:
        return None
    strips = [end.connector.contact.strip_mm for end in ends if not end.is_splice]
    extra = free + rules.splices.strip_mm * (2 - len(strips))
    twist = 1.0 if part.bought else twist_factor([wire.kind.diameter_mm for wire in wires], part.lay_mm)
    return needed_length_mm(route.length_mm, extra, strips, twist, rules.allowances)


def cut_length_mm(needed_mm: float | None, pinned_mm: float | None, rules: Definition) -> float | None:
    """Return what a lead is cut to [mm]: as long as it is pinned to, else what it needs, rounded up, if known."""
    if pinned_mm is not None or needed_mm is None:
        return pinned_mm
    return round_up_to_step(needed_mm, rules.allowances.round_up_to_mm)


def tail_length_mm(tail_mm: float, strip_mm: float | None, rules: Definition) -> float:
    """Return what a tail from a splice to a contact is cut to [mm], rounded up."""
    needed = needed_length_mm(0, tail_mm + rules.splices.strip_mm, [strip_mm], 1, rules.allowances)
    return round_up_to_step(needed, rules.allowances.round_up_to_mm)
