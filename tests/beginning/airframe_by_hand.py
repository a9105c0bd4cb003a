"""Places, ways for the hand and runs of what is begun, as a builder would type them: common practice, no source."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from beginning.answer_sets import Said
    from beginning.by_hand import Typed

Run = tuple[str, str, bool]
"""From, to, and whether it passes formers or ribs."""

FUSELAGE = {
    "sill": "from outside",
    "pack-bay": "pack hatch",
    "motor-bay": "motor hatch",
    "motor": "spinner off",
    "engine-bay": "cowl off",
    "ignition-sill": "from outside, behind the propeller",
    "ignition-pack-bay": "pack hatch",
    "engine-tray": "engine hatch",
    "<side>-engine-tray": "engine hatch",
    "nose-leg": "leg down",
    "steering": "wheel hatch",
    "back": "lens off",
} | dict.fromkeys(
    ["radio-tray", "receiver-tray", "second-tray", "switch-tray", "regulator-tray", "gear-tray", "light-tray"], "canopy"
)
FUSELAGE["smoke-bay"] = "canopy"
# From root to tip; what hangs on another place hangs beside the way.
WING = {
    "motor-bay": ("nacelle cover", ""),
    "motor": ("nacelle cover", "motor-bay"),
    "engine-bay": ("nacelle cover", ""),
    "ignition-sill": ("from outside, behind the propeller", "engine-bay"),
    "ignition-pack-bay": ("nacelle hatch", "ignition-sill"),
    "leg": ("leg down", ""),
    "wheel": ("from outside", "leg"),
    "lamp": ("lens off", ""),
    "flap": ("servo cover", ""),
    "airbrake": ("servo cover", ""),
    "aileron": ("servo cover", ""),
    "tip": ("tip off", ""),
}
OUTER = ("aileron", "tip")  # in the panels of a wing of three pieces; all else is in its centre
TAIL = dict.fromkeys(("elevator", "<side>-elevator", "<side>-v-tail", "rudder"), "servo cover") | {
    "tail-end": "end cap off"
}
# Of each wing its joints from the fuselage on outwards: both halves' places with assemblies, and access.
JOINTS = {
    "one-piece": {"wing": ("wing-saddle", "fuselage", "wing-middle", "wing", "wing off")},
    "two-panels": {"wing": ("<side>-root", "fuselage", "<side>-panel-root", "<side>-panel", "wing off")},
    "three-pieces": {
        "centre": ("wing-saddle", "fuselage", "centre-middle", "centre", "wing off"),
        "panel": ("<side>-centre-end", "centre", "<side>-panel-root", "<side>-panel", "panel off"),
    },
}
TAIL_JOINT = ("tail-former", "fuselage", "tail-root", "tail", "tail off")


def kind_in_the_wing(place: str) -> str:
    """Return what lies there, inner and outer alike; nothing for a place elsewhere."""
    bare = place.removeprefix("<side>-").removeprefix("inner-").removeprefix("outer-")
    return bare if place.startswith("<side>-") and bare in WING else ""


def places_used(typed: Typed) -> list[str]:
    return list(dict.fromkeys(entry["place"] for part in (typed.feed, typed.equipment) for entry in part.values()))


def joints_to(place: str, said: Said) -> list[str]:
    """Return the joints, without side and letter, that a wire from the radio to a place passes, in their order."""
    if place in TAIL:
        return ["tail"] * int(said["plug-in"])
    if not kind_in_the_wing(place):
        return []
    joints = list(JOINTS[said["wing"]])
    return joints if kind_in_the_wing(place) in OUTER else joints[:1]


def places(typed: Typed) -> dict[str, tuple[str, str]]:
    """Return the assembly of each place, and how a hand gets there."""
    said, used = typed.said, places_used(typed)
    found = {"radio-tray": ("fuselage", "canopy")}
    found |= {place: ("fuselage", FUSELAGE[place]) for place in used if place in FUSELAGE}
    passed = {joint for place in used for joint in joints_to(place, said)}
    for joint in passed:
        fixed, on, loose, off, access = TAIL_JOINT if joint == "tail" else JOINTS[said["wing"]][joint]
        found |= {fixed: (on, access), loose: (off, access)}
    if said["plug-in"] == "0":
        found["tail-former"] = ("fuselage", "tail hatch")
    in_the_tail = "tail" if said["plug-in"] == "1" else "fuselage"
    found |= {place: (in_the_tail, TAIL[place]) for place in used if place in TAIL}
    halves = list(JOINTS[said["wing"]].values())
    for place in used:
        kind = kind_in_the_wing(place)
        if kind:
            found[place] = (halves[-1 if kind in OUTER else 0][3], WING[kind][0])
    return found


def runs(typed: Typed) -> list[Run]:
    """Return the runs: those that equipment asks for, then the ways to nose, wing and tail; each pair once."""
    said, used = typed.said, places_used(typed)
    found = [*typed.feed_runs, *typed.runs]
    found += [("radio-tray", place, True) for place in ("nose-leg", "steering") if place in used]
    found += along_the_wing(said, used)
    found.append(("radio-tray", "tail-former", True))
    root = "tail-root" if said["plug-in"] == "1" else "tail-former"
    found += [(root, place, True) for place in used if place in TAIL]
    once: dict[frozenset[str], Run] = {}
    for run in found:
        once.setdefault(frozenset(run[:2]), run)
    return list(once.values())


def along_the_wing(said: Said, used: list[str]) -> list[Run]:
    """Return the way from the radio through the wing, one place behind the other, and what hangs beside it."""
    places_out = [place for kind in WING for place in used if kind_in_the_wing(place) == kind]
    inner, outer = ([p for p in places_out if (kind_in_the_wing(p) in OUTER) is out] for out in (False, True))
    if not places_out:
        return []
    first, *further = JOINTS[said["wing"]].values()
    found: list[Run] = [("radio-tray", first[0], True)]
    last = first[2]
    for part, begins in ((inner, ""), (outer, "panel")):
        if begins and further and part:
            found.append((last, further[0][0], True))
            last = further[0][2]
        for place in part:
            kind = kind_in_the_wing(place)
            stem = place.replace(kind, WING[kind][1])
            if WING[kind][1] and stem in used:
                found.append((stem, place, False))
            else:
                found.append((last, place, True))
                last = place
    return found
