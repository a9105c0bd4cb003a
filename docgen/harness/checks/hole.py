"""Openings of the airframe, and what has to go through them."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.basics.units import at_least, decimal
from docgen.harness.assembly.passing import Passage, Waits, passages_of
from docgen.harness.assembly.things import Thing
from docgen.harness.assembly.through_openings import Threading, plan_threading
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.openings import least_opening_mm
from docgen.harness.checks.facts import Facts, caution

KIND = caution(
    name="hole",
    stands_on="run",
    meaning="What lies in a run does not pass its opening.",
    when="All that lies in a run, sleeved and a tenth to spare, is wider than its `hole:` (on a run that is `closed:` "
    "its labels and collars count too); or something goes through with neither end, be it plugged, or contact by "
    "contact (the largest insulation and 1 mm, beside what is through already); or its end is to be filled where no "
    "hand reaches; or runs make a ring, and no place is one to begin from. Own leads go through plug first; one that a "
    "sleeve ties to what goes the other way would have to go with what it hangs on. "
    "What a sleeve ties to what goes through comes along, with both its ends; a half that other leads come to another "
    "way is filled when all are there. Soldered contacts do not go through without their housing.",
    why="The finished plug meets the former with the wing half built. Then it is cut off, or the former is filed "
    "with the wires in it.",
    remedy="Widen the opening while it is bare, `hole: 14 mm`, or `hole: 20 mm x 8 mm` for a flat plug; go by another "
    "route, `by: [belly]`; take a smaller `shell:`; or let a joint sit in the former.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each opening that its bundle does not pass, or that something passes with neither end."""
    by_run: dict[int, list[Threading]] = {}
    for threading in plan_threading(facts.harness):
        by_run.setdefault(threading.run, []).append(threading)
    for index, threadings in by_run.items():
        run = facts.harness.runs[index]
        hole = f"the opening of {' × '.join(map(decimal, run.hole_mm or ()))} mm between {run.ends_text}"
        if not all(each.bundle_passes for each in threadings):
            yield _bundle(facts, threadings, hole)
            continue
        for sentence, do in (*_clashing(threadings, hole), *_too_thick(threadings, hole)):
            yield facts.found(KIND, ("runs", index, "hole"), sentence, do)


def _clashing(threadings: Sequence[Threading], hole: str) -> Iterator[tuple[str, str]]:
    """Walk what is said of leads for which there is no place to begin from."""
    rounds, against = ([name for each in threadings for name in getattr(each, of)] for of in ("round", "against"))
    if rounds:
        sentence = f"{listed(map(shown, rounds))} would have to go through {hole} from both sides: the runs there "
        yield sentence + "make a ring.", "Lead it the other way round (`by:`)."
    if against:
        sentence = f"{listed(map(shown, against))} would have to go through {hole} together with what it hangs on: it "
        sentence += "goes plug first, and a sleeve ties it to what goes the other way."
        yield sentence, "Let no sleeve tie them (`dressed: grommet`), or lead one of them by another route."


def _too_thick(threadings: Sequence[Threading], hole: str) -> Iterator[tuple[str, str]]:
    """Walk what is said of what passes an opening with neither end."""
    bad = [passage for each in threadings for passage in each.passages if _is_bad(passage)]
    if not bad:
        return
    named = listed(shown(passage.thing.name) for passage in bad)
    sentence = f"{hole} is passed neither plugged nor contact by contact by what goes to {named}."
    if all(passage.waits is Waits.HOUSING for passage in bad):
        sentence = f"{named} can't pass {hole} finished, and no hand reaches there to fill it."
    if all(passage.stuck for passage in bad):
        sentence = f"{hole} is not passed by {named}."
    do = (
        f"Widen it to {at_least(_enough_mm(threadings, finished=True), 1)} mm (each way), lead it by another route, or "
    )
    do += "choose a smaller plug or shell."
    if all(passage.waits is Waits.CONTACTS and passage.thing.reached and not passage.stuck for passage in bad):
        do += " Or accept it: the order of work finishes it in place, if the tool gets there."
    yield sentence, do


def _enough_mm(threadings: Sequence[Threading], *, finished: bool) -> float:
    """Return the least diameter of an opening that all passes in the order that asks least, what can't now finished."""
    wide_mm, before_mm = [0.0], list[float]()
    rows: list[list[Thing]] = []
    for threading in threadings:
        rows.append([])
        for passage in threading.passages:
            thing, is_bad = passage.thing, _is_bad(passage)
            wide_mm += [least_opening_mm([thing.through_mm, outside_diameter_mm(before_mm)])] if is_bad else []
            before_mm += thing.circles_mm
            rows[-1].append(replace(thing, contact_mm=None) if is_bad and finished else thing)
    tenths = range(math.ceil(max(wide_mm) * 10))
    found = bisect_left(tenths, True, key=lambda tenth: any(_pass(tenth / 10, order) for order in (rows, rows[::-1])))
    return min(found / 10, max(wide_mm))


def _pass(diameter_mm: float, rows: Iterable[Sequence[Thing]]) -> bool:
    """Tell whether all goes through an opening, row after row."""
    lies_mm: list[float] = []
    for things in rows:
        if any(map(_is_bad, passages_of((diameter_mm,), things, lies_mm))):
            return False
        lies_mm += [circle for thing in things if not thing.bound for circle in thing.circles_mm]
    return True


def _bundle(facts: Facts, threadings: Sequence[Threading], hole: str) -> Finding:
    threading = max(threadings, key=lambda each: each.thickest_mm)
    wanted = at_least(max(least_opening_mm([threading.thickest_mm]), _enough_mm(threadings, finished=False)), 1)
    sentence = (
        f"{hole} is not passed by its {threading.thickest_mm:.2f} mm of wires and what is on them, a tenth to spare."
    )
    do = f"Widen it to {wanted} mm each way, or lead some of it by another route."
    return facts.found(KIND, ("runs", threading.run, "hole"), sentence, do)


def _is_bad(passage: Passage) -> bool:
    """Tell whether something has to be crimped in the airframe, or filled where no hand reaches, or goes not at all."""
    if passage.stuck or passage.thing.size_mm is None:
        return passage.stuck
    return passage.waits is Waits.CONTACTS or (passage.waits is Waits.HOUSING and not passage.thing.reached)
