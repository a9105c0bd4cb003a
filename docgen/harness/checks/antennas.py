"""How antennas lie, and whether their leads reach."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.basics.units import millimetres
from docgen.harness.checks.facts import ROUNDING_MM, Facts, caution
from docgen.harness.model.equipment import Antenna, Equipment

KIND = caution(
    name="antennas",
    stands_on="equipment or antenna",
    meaning="Antennas lie alike or their leads are too short.",
    when="Two antennas of one receiver have the same `lies:`; those of two receivers have fewer than three "
    "different ones (of one `band:`; one that says none is held against all); or an antenna's `lead:` is shorter "
    "than its route over the runs.",
    why="Antennas that lie alike go blind together: a turn points them all at the transmitter and the signal is "
    "gone. A coax that is pulled or bent sharply fails unseen.",
    remedy="Lay one across the other, `lies: crosswise`, the second receiver's pair upright as well, "
    "`lies: upright`; a nearer `place:` for a short `lead:`. Keep the last 30 mm clear of carbon, packs and "
    "wires.",
    source=PRACTICE,
)

_AXES = ("lengthwise", "crosswise", "upright")


def find(facts: Facts) -> Iterator[Finding]:
    """Find antennas that lie alike, receivers on too few axes, and leads that are too short or have no way to lie."""
    receivers = [equipment for equipment in facts.harness.equipment.values() if equipment.antennas]
    for receiver in receivers:
        for index, antenna in enumerate(receiver.antennas):
            yield from _alike(facts, receiver, antenna, receiver.antennas[:index])
            yield from _too_short(facts, receiver, antenna)
    for first, second in itertools.combinations(receivers, 2):
        said = dict.fromkeys(antenna.form.band for antenna in (*first.antennas, *second.antennas))
        for band in [band for band in said if band] or [""]:
            yield from _few_axes(facts, first, second, band)


def _of_band(antennas: Iterable[Antenna], band: str) -> list[Antenna]:
    """Return the antennas that may be of a band; what says none may be of any."""
    return [antenna for antenna in antennas if not band or antenna.form.band in ("", band)]


def _alike(facts: Facts, receiver: Equipment, antenna: Antenna, before: tuple[Antenna, ...]) -> Iterator[Finding]:
    like = [other.name for other in _of_band(before, antenna.form.band) if other.form.lies == antenna.form.lies]
    if not like:
        return
    lie = "lies" if len(like) == 1 else "lie"
    sentence = (
        f"antenna {shown(antenna.name)} of {shown(receiver.name)} lies {antenna.form.lies}, "
        f"as {listed(map(shown, like))} {lie} too: they are deaf the same way."
    )
    taken = {other.form.lies for other in receiver.antennas}
    free = [axis for axis in _AXES if axis not in taken]
    do = f"Lay it {' or '.join(free)}, at right angles to the other." if free else "Lay each along an axis of its own."
    position = facts.where.value("equipment", receiver.name, "antennas", antenna.name, "lies")
    yield KIND.at(position, sentence, do, ("equipment", receiver.name))


def _too_short(facts: Facts, receiver: Equipment, antenna: Antenna) -> Iterator[Finding]:
    name, route, lead_mm = antenna.name, antenna.route, antenna.form.lead_mm
    what = f"antenna {shown(name)} of {shown(receiver.name)}"
    if route is None:
        sentence = f"no runs lead from {shown(receiver.place)} to {shown(antenna.form.place)}, where {what} lies."
        do = "Add the run that is missing to `runs:`, or correct its `place:`."
    elif route.length_mm is not None and route.length_mm > lead_mm + ROUNDING_MM:
        away_mm = route.length_mm
        sentence = (
            f"the lead of {what} is {millimetres(lead_mm)} mm, its place lies {millimetres(away_mm)} "
            f"mm away along the runs: {millimetres(away_mm - lead_mm)} mm short."
        )
        do = f"Fit one with a lead of {math.ceil(away_mm - ROUNDING_MM)} mm at least, or let it lie nearer."
    else:
        return
    yield facts.found(KIND, ("equipment", receiver.name, "antennas", name, "lead"), sentence, do)


def _few_axes(facts: Facts, first: Equipment, second: Equipment, band: str) -> Iterator[Finding]:
    of_each = [_of_band(receiver.antennas, band) for receiver in (first, second)]
    axes = list(dict.fromkeys(antenna.form.lies for antennas in of_each for antenna in antennas))
    if len(axes) >= 3 or any(len(antennas) < 2 for antennas in of_each):
        return
    sentence = (
        f"the {f'{band} antennas'.strip()} of {shown(first.name)} and {shown(second.name)} all lie "
        f"{' or '.join(axes)}: {3 - len(axes)} short of three axes."
    )
    free = [axis for axis in _AXES if axis not in axes]
    do = f"Lay one of those of {shown(second.name)} {' or '.join(free)}."
    if len(axes) == 1:
        do = f"Lay one antenna of each another way: {' or '.join(free)}, so that there are three."
    yield facts.found(KIND, ("equipment", second.name, "antennas"), sentence, do)
