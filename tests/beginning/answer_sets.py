"""Sets of answers: which can be, by rules typed by hand, and few that hold each pair of answers that can be."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator

Said = dict[str, str]
"""What is answered, by choice or word; of a word with a number how many, "0" for none."""

# All that can be answered, as the project's issue lists it.
ANSWERS: dict[str, list[str]] = {
    "wing": ["one-piece", "two-panels", "three-pieces"],
    "shells": ["block", "d-shell"],
    "ailerons": ["0", "1", "2"],
    "flaps": ["0", "1", "2"],
    "airbrakes": ["0", "1"],
    "tail": ["one-elevator", "two-elevators", "v-tail"],
    "rudder": ["0", "1"],
    "plug-in": ["0", "1"],
    "gear": ["none", "fixed", "two-retracts", "three-retracts"],
    "doors": ["0", "1"],
    "brakes": ["0", "1"],
    "steering": ["0", "1"],
    "drive": ["none", "motor", "motor=2", "motor=3", "motor=4", "turbine", "turbine=2", "piston", "piston=2"],
    "feeds": ["receiver-pack", "own-regulator"],
    "receivers": ["one", "two"],
    "packs": ["one-pack", "two-packs", "no-pack"],
    "volts": ["straight", "regulated"],
    "power-unit": ["0", "1"],
    "switch": ["switch", "key", "plug-in"],
    "position-lights": ["0", "1"],
    "landing-lights": ["0", "1"],
    "beacon": ["0", "1"],
    "smoke": ["0", "1"],
}
OF_QUESTIONS = {
    "wing": ("wing", "shells"),
    "surfaces": ("ailerons", "flaps", "airbrakes"),
    "tail": ("tail", "rudder", "plug-in"),
    "gear": ("gear", "doors", "brakes", "steering"),
    "drive": ("drive", "feeds"),
    "receivers": ("receivers",),
    "packs": ("packs", "volts", "power-unit"),
    "switch": ("switch",),
    "extras": ("position-lights", "landing-lights", "beacon", "smoke"),
}


def can_be(said: Said) -> bool:
    """Tell whether answers, some of which may not be there yet, contradict each other nowhere."""

    def all_of(**wanted: str) -> bool:
        return all(said.get(name.replace("_", "-")) in words.split() for name, words in wanted.items())

    return not (
        all_of(tail="v-tail", rudder="1")
        or all_of(doors="1", gear="none fixed")
        or all_of(brakes="1", gear="none")
        or all_of(steering="1", gear="none")
        or all_of(smoke="1", drive="none motor motor=2 motor=3 motor=4")
        or all_of(feeds="own-regulator", drive="none motor=2 motor=3 motor=4 turbine turbine=2 piston piston=2")
        or all_of(feeds="own-regulator", packs="one-pack two-packs")
        or all_of(feeds="own-regulator", power_unit="1")
        or all_of(feeds="own-regulator", volts="regulated")
        or all_of(feeds="own-regulator", receivers="two")
        or all_of(feeds="own-regulator", switch="switch key")
        or all_of(feeds="receiver-pack", packs="no-pack")
        or all_of(receivers="two", packs="one-pack")
        or all_of(receivers="one", packs="two-packs", power_unit="0")
        or (all_of(feeds="own-regulator") and servos(said) > 6)
        or (all_of(receivers="one", power_unit="0") and servos(said) > 10)
        or (all_of(receivers="two", power_unit="0") and servos(said) > 20)
    )


def servos(said: Said) -> int:
    """Count the servos of answers that are there, but for those of doors."""
    wing = sum(2 * int(said.get(name, "0")) for name in ("ailerons", "flaps", "airbrakes"))
    tail = {"one-elevator": 1, "two-elevators": 2, "v-tail": 2}.get(said.get("tail", ""), 0)
    throttles = {"piston": 1, "piston=2": 2}.get(said.get("drive", ""), 0)
    return wing + tail + throttles + int(said.get("rudder", "0")) + int(said.get("steering", "0"))


# What leaves least to choose is answered first, so that little is tried in vain.
_FIRST = ["feeds", "packs", "receivers", "power-unit", "switch", "volts", "drive", "gear", "tail"]
_TIGHTEST_FIRST = [*_FIRST, *(name for name in ANSWERS if name not in _FIRST)]


def completed(begun: Said, chance: random.Random) -> Said | None:
    """Return answers to all else by chance that can be with those, if there are any."""
    if not can_be(begun):
        return None
    name = next((name for name in _TIGHTEST_FIRST if name not in begun), None)
    if name is None:
        return begun
    for word in chance.sample(ANSWERS[name], len(ANSWERS[name])):
        whole = completed({**begun, name: word}, chance)
        if whole is not None:
            return whole
    return None


def random_sets(seed: int) -> Iterator[Said]:
    """Walk sets of answers by chance, without end; each can be."""
    chance = random.Random(seed)
    while True:
        whole = completed({}, chance)
        assert whole is not None
        yield whole


def pairs_of(said: Said) -> set[tuple[tuple[str, str], tuple[str, str]]]:
    """Return all pairs of answers to different things that a set holds."""
    ordered = [(name, said[name]) for name in ANSWERS]
    return set(itertools.combinations(ordered, 2))


def sets_of_all_pairs(seed: int = 1) -> list[Said]:
    """Return sets that hold each pair of answers that can be: of some that hold a missing pair that with most new."""
    chance = random.Random(seed)
    every = [(name, word) for name, words in ANSWERS.items() for word in words]
    missing = {pair: None for pair in itertools.combinations(every, 2) if pair[0][0] != pair[1][0]}
    found: list[Said] = []
    while missing:
        pair = next(iter(missing))
        some = [whole for _ in range(8) if (whole := completed(dict(pair), chance)) is not None]
        del missing[pair]
        if some:
            best = max(some, key=lambda whole: len(pairs_of(whole) & missing.keys()))
            found.append(best)
            for held in pairs_of(best):
                missing.pop(held, None)
    return found


def as_words(said: Said) -> dict[str, str]:
    """Return a set as it is answered: words by question."""
    answered = {}
    for question, names in OF_QUESTIONS.items():
        words = [_word(name, said[name]) for name in names]
        answered[question] = ",".join(filter(None, words)) or "none"
    return answered


def _word(name: str, word: str) -> str:
    if not word.isdigit():
        return word
    return {"0": "", "1": name}.get(word, f"{name}={word}")
