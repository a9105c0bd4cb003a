"""Openings of the airframe, and what has to go through them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.basics.units import at_least, decimal
from docgen.harness.assembly.passing import Passage, Waits
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
    "hand reaches; or runs make a ring, and no place is one to begin from. Own leads go through with their plug. "
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
    for threading in plan_threading(facts.harness):
        run = facts.harness.runs[threading.run]
        hole = f"the opening of {' × '.join(map(decimal, run.hole_mm or ()))} mm between {run.ends_text}"
        if not threading.bundle_passes:
            yield _bundle(facts, threading, hole)
            continue
        if threading.round:
            leads = listed(map(shown, threading.round))
            sentence = f"{leads} would have to go through {hole} from both sides: the runs there make a ring."
            do = "Lead it the other way round (`by:`)."
            yield facts.found(KIND, ("runs", threading.run, "hole"), sentence, do)
        bad = [passage for passage in threading.passages if _is_bad(passage)]
        if bad:
            named = listed(shown(passage.thing.name) for passage in bad)
            sentence = f"{hole} is passed neither plugged nor contact by contact by what goes to {named}."
            if all(passage.waits is Waits.HOUSING for passage in bad):
                sentence = f"{named} can't pass {hole} finished, and no hand reaches there to fill it."
            if all(passage.stuck for passage in bad):
                sentence = f"{hole} is not passed by {named}."
            do = f"Widen it to {at_least(_enough_mm(threading, bad), 1)} mm (each way), lead it by another route, or "
            do += "choose a smaller plug or shell."
            if all(passage.waits is Waits.CONTACTS and passage.thing.reached and not passage.stuck for passage in bad):
                do += " Or accept it: the order of work finishes it in place, if the tool gets there."
            yield facts.found(KIND, ("runs", threading.run, "hole"), sentence, do)


def _enough_mm(threading: Threading, bad: Sequence[Passage]) -> float:
    """Return the diameter of an opening that each of some things passes finished, beside what is through before it."""
    wide_mm, before_mm = [0.0], list[float]()
    for passage in threading.passages:
        wide_mm += (
            [least_opening_mm([passage.thing.through_mm, outside_diameter_mm(before_mm)])] if passage in bad else []
        )
        before_mm += passage.thing.circles_mm
    return max(wide_mm)


def _bundle(facts: Facts, threading: Threading, hole: str) -> Finding:
    wanted = at_least(least_opening_mm([threading.thickest_mm]), 1)
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
