"""Where things are: what comes off with what, places with a way for the hand, and runs, none with a length."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.frozen import frozen
from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, Draft
from docgen.beginning.radio import HUB

_INNER, _OUTER, _TAIL = "inner wing", "outer wing", "tail"

# Places in the wing, from root to tip: which part of it, and how a hand gets there.
_ALONG_THE_WING = {
    "motor-bay": (_INNER, "nacelle cover"),
    "motor": (_INNER, "nacelle cover"),
    "engine-bay": (_INNER, "nacelle cover"),
    "ignition-sill": (_INNER, "from outside, behind the propeller"),
    "ignition-pack-bay": (_INNER, "nacelle hatch"),
    "leg": (_INNER, "leg down"),
    "wheel": (_INNER, "from outside"),
    "lamp": (_INNER, "lens off"),
    "flap": (_INNER, "servo cover"),
    "airbrake": (_INNER, "servo cover"),
    "aileron": (_OUTER, "servo cover"),
    "tip": (_OUTER, "tip off"),
}
# Off the way along the wing: where they hang on.
_BRANCHES = {"motor": "motor-bay", "ignition-sill": "engine-bay", "ignition-pack-bay": "ignition-sill", "wheel": "leg"}
_IN_THE_TAIL = {
    "elevator": "servo cover",
    f"{SIDE}-elevator": "servo cover",
    f"{SIDE}-v-tail": "servo cover",
    "rudder": "servo cover",
    "tail-end": "end cap off",
}
_IN_THE_FUSELAGE = {
    "sill": "from outside",
    "pack-bay": "pack hatch",
    "motor-bay": "motor hatch",
    "motor": "spinner off",
    "engine-bay": "cowl off",
    "ignition-sill": "from outside, behind the propeller",
    "ignition-pack-bay": "pack hatch",
    "engine-tray": "engine hatch",
    f"{SIDE}-engine-tray": "engine hatch",
    "nose-leg": "leg down",
    "steering": "wheel hatch",
    "back": "lens off",
}
_USUAL = "canopy"


@frozen
class Joint:
    """Where assemblies come apart: the places of both halves, with what they come off with, and the access."""

    name: str
    fixed: tuple[str, str]
    loose: tuple[str, str]
    access: str


_SADDLE, _PANEL_ROOT = ("wing-saddle", "fuselage"), (f"{SIDE}-panel-root", f"{SIDE}-panel")
# From the fuselage on outwards; the inner wing lies behind the first.
_WING_JOINTS = {
    "one-piece": (Joint("wing", _SADDLE, ("wing-middle", "wing"), "wing off"),),
    "two-panels": (Joint(f"{SIDE}-wing", (f"{SIDE}-root", "fuselage"), _PANEL_ROOT, "wing off"),),
    "three-pieces": (
        Joint("centre", _SADDLE, ("centre-middle", "centre"), "wing off"),
        Joint(f"{SIDE}-panel", (f"{SIDE}-centre-end", "centre"), _PANEL_ROOT, "panel off"),
    ),
}
_TAIL_JOINT = Joint("tail", ("tail-former", "fuselage"), ("tail-root", "tail"), "tail off")


def joints_to(answers: Answers, part: str) -> list[Joint]:
    """Return the joints between the radio and a part of the aircraft, in series; none to what stays on the fuselage."""
    if part == _TAIL:
        return [_TAIL_JOINT] * answers.plug_in
    if part == _INNER:
        return list(_WING_JOINTS[answers.wing][:1])
    return list(_WING_JOINTS[answers.wing]) if part == _OUTER else []


def part_of(place: str) -> str:
    """Return the part of the aircraft that a place is in."""
    if place in _IN_THE_TAIL:
        return _TAIL
    along = _along(place)
    return _ALONG_THE_WING[along][0] if along else "fuselage"


def _along(place: str) -> str:
    """Return as what a place lies along the wing, if it does; inner and outer ones alike."""
    if not place.startswith(f"{SIDE}-"):
        return ""
    bare = place.removeprefix(f"{SIDE}-").removeprefix("inner-").removeprefix("outer-")
    return bare if bare in _ALONG_THE_WING else ""


def lay_airframe(draft: Draft, answers: Answers) -> None:
    """Add the places of all equipment, and the runs to them that are not yet there."""
    used = dict.fromkeys(str(entry.fields["place"]) for entry in draft.equipment)
    draft.add_place(HUB, "fuselage", _USUAL)
    for place in used:
        if part_of(place) == "fuselage":
            draft.add_place(place, "fuselage", _IN_THE_FUSELAGE.get(place, _USUAL))
    for place in ("nose-leg", "steering"):
        if place in used:
            draft.add_run(HUB, place, sharp=True)
    for joint in dict.fromkeys(joint for place in used for joint in joints_to(answers, part_of(place))):
        for name, assembly in (joint.fixed, joint.loose):
            draft.add_place(name, assembly, joint.access)
    _lay_wing(draft, answers, used)
    _lay_tail(draft, answers, [place for place in used if part_of(place) == _TAIL])


def _lay_wing(draft: Draft, answers: Answers, used: dict[str, None]) -> None:
    along = list(_from_root_to_tip(used))
    inner, outer = ([place for place in along if part_of(place) == part] for part in (_INNER, _OUTER))
    if not along:
        return
    first = joints_to(answers, _INNER)[0]
    draft.add_run(HUB, first.fixed[0], sharp=True)
    last = _lay(draft, first.loose, inner)
    if len(joints_to(answers, _OUTER)) == 1:
        _lay(draft, (last, first.loose[1]), outer)
    elif outer:
        end = joints_to(answers, _OUTER)[1]
        draft.add_run(last, end.fixed[0], sharp=True)
        _lay(draft, end.loose, outer)


def _lay(draft: Draft, start: tuple[str, str], places: list[str]) -> str:
    """Add places one behind the other, those beside the way hung on where they belong; return the last on the way."""
    last, assembly = start
    for place in places:
        draft.add_place(place, assembly, _ALONG_THE_WING[_along(place)][1])
        branch = _BRANCHES.get(_along(place))
        stem = place.replace(_along(place), branch) if branch else ""
        if stem in places:
            draft.add_run(stem, place)
        else:
            draft.add_run(last, place, sharp=True)
            last = place
    return last


def _from_root_to_tip(used: dict[str, None]) -> Iterator[str]:
    """Walk the used places of the wing, of two alike the inner first, as they are fitted."""
    for along in _ALONG_THE_WING:
        yield from (place for place in used if _along(place) == along)


def _lay_tail(draft: Draft, answers: Answers, places: list[str]) -> None:
    joints = joints_to(answers, _TAIL)
    draft.add_place("tail-former", "fuselage", "tail off" if joints else "tail hatch")
    draft.add_run(HUB, "tail-former", sharp=True)
    start, assembly = joints[0].loose if joints else ("tail-former", "fuselage")
    for place in places:
        draft.add_place(place, assembly, _IN_THE_TAIL[place])
        draft.add_run(start, place, sharp=True)
