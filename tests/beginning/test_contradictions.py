"""Which answers can't be together, and what is said of each: every rule against answers by chance."""

from __future__ import annotations

import random

import pytest
from beginning.answer_sets import ANSWERS, Said, as_words, servos

from docgen.beginning.answers import answers_from, default_now
from docgen.beginning.contradictions import contradictions

FEEDS = "the motor's controller feeds the radio"
INSTEAD = "or let receiver packs feed it (`receiver-pack` in --drive)."


def told_by_hand(said: Said) -> list[tuple[str, str]]:
    """Return what is wrong with answers, and what to do, in the order of the questions."""
    engine, _, number = said["drive"].partition("=")
    own, two, unit = said["feeds"] == "own-regulator", said["receivers"] == "two", said["power-unit"] == "1"
    gear, packs = said["gear"], said["packs"]
    fed = not own and packs != "no-pack" and not (two and packs == "one-pack")
    most = f"there are {servos(said)} servos; "
    rules = [
        (
            said["tail"] == "v-tail" and said["rudder"] == "1",
            "a V-tail has no rudder.",
            "Leave `rudder` out of --tail, or choose elevators.",
        ),
        (
            said["doors"] == "1" and gear in ("none", "fixed"),
            "there are doors, and no leg retracts.",
            "Choose retracts in --gear, or leave `doors` out.",
        ),
        (
            said["brakes"] == "1" and gear == "none",
            "there are brakes, and no gear.",
            "Choose fixed or retracts in --gear, or leave `brakes` out.",
        ),
        (
            said["steering"] == "1" and gear == "none",
            "there is steering, and no gear.",
            "Choose fixed or retracts in --gear, or leave `steering` out.",
        ),
        (
            own and engine != "motor",
            "only a motor's controller has a regulator.",
            "Choose `motor` in --drive, or `receiver-pack`.",
        ),
        (
            own and engine == "motor" and number != "",
            "the regulators of several controllers must not meet at the radio.",
            "Choose `receiver-pack` in --drive.",
        ),
        (
            said["smoke"] == "1" and engine not in ("turbine", "piston"),
            "smoke oil needs a hot exhaust.",
            "Choose turbine or piston in --drive, or leave `smoke` out of --extras.",
        ),
        (own and packs != "no-pack", f"{FEEDS}, and so does a pack.", f"Choose `no-pack` in --packs, {INSTEAD}"),
        (
            own and (unit or said["volts"] == "regulated"),
            f"{FEEDS}, at its own volts and without a unit.",
            f"Say `no-pack` alone in --packs, {INSTEAD}",
        ),
        (own and two, f"{FEEDS}, and two receivers are both lost with it.", f"Choose one receiver, {INSTEAD}"),
        (
            own and said["switch"] != "plug-in",
            f"{FEEDS}: it comes on with the motor's pack.",
            f"Choose `plug-in` in --switch, {INSTEAD}",
        ),
        (
            own and servos(said) > 6,
            f"{most}a controller feeds 6 small ones at most.",
            "Let receiver packs feed them: `receiver-pack` in --drive.",
        ),
        (
            not own and packs == "no-pack",
            "nothing feeds the radio.",
            "Choose one-pack or two-packs in --packs, or own-regulator in --drive.",
        ),
        (
            not own and two and packs == "one-pack",
            "two receivers on one pack are both lost with it.",
            "Choose `two-packs` in --packs, or one receiver.",
        ),
        (
            fed and not two and packs == "two-packs" and not unit,
            "nothing keeps the two packs apart at one receiver.",
            "Add `power-unit` to --packs, or choose one pack.",
        ),
        (
            fed and not two and not unit and servos(said) > 10,
            f"{most}10 at most hang on a receiver.",
            "Add `power-unit` to --packs.",
        ),
    ]
    return [(sentence, do) for is_so, sentence, do in rules if is_so]


def told(said: Said) -> list[tuple[str, str]]:
    answers, refused = answers_from(as_words(said))
    assert answers is not None, refused
    return [(each.sentence, each.do) for each in contradictions(answers)]


def test_each_contradiction_is_told_where_it_is_and_nowhere_else() -> None:
    chance, met = random.Random(11), set()
    for _ in range(1500):
        said = {name: chance.choice(words) for name, words in ANSWERS.items()}
        expected = told_by_hand(said)
        assert told(said) == expected, said
        met |= {do for _, do in expected}
    assert len(met) == 16, "each rule is met"


TEN = {"surfaces": "ailerons=2,flaps=2", "tail": "one-elevator,rudder"}  # 4 + 4 + 1 + 1 servos
NINE = {"surfaces": "ailerons=2,flaps=2", "tail": "one-elevator"}
TEN_OF_TWO = {"surfaces": "ailerons=2,flaps,airbrakes", "tail": "two-elevators"}  # 4 + 2 + 2 + 2
PLAIN, UNIT = "one-pack,straight", "one-pack,straight,power-unit"


@pytest.mark.parametrize(
    ("said", "packs", "switch"),
    [
        ({}, PLAIN, "switch"),
        ({"drive": "motor,own-regulator"}, "no-pack", "plug-in"),
        ({"drive": "motor,own-regulator", **TEN, "gear": "fixed,steering"}, "no-pack", "plug-in"),
        ({"receivers": "two"}, "two-packs,straight,power-unit", "switch"),
        (TEN, PLAIN, "switch"),
        ({**TEN, "gear": "fixed,steering"}, UNIT, "switch"),
        ({**TEN, "gear": "fixed,brakes"}, PLAIN, "switch"),
        (TEN_OF_TWO, PLAIN, "switch"),
        ({**TEN_OF_TWO, "tail": "two-elevators,rudder"}, UNIT, "switch"),
        ({**TEN_OF_TWO, "tail": "v-tail"}, PLAIN, "switch"),
        ({**NINE, "drive": "piston"}, PLAIN, "switch"),
        ({**NINE, "drive": "piston=2"}, UNIT, "switch"),
        ({**NINE, "drive": "motor=4"}, PLAIN, "switch"),
        ({**NINE, "drive": "turbine=2"}, PLAIN, "switch"),
    ],
)
def test_packs_and_switch_are_usual_for_what_was_answered_before(said: dict[str, str], packs: str, switch: str) -> None:
    """More than 10 servos want a unit; those of piston engines' throttles and of the steering count."""
    usual = {"drive": "motor,receiver-pack", "receivers": "one", "surfaces": "ailerons", "tail": "one-elevator,rudder"}
    before = {"wing": "two-panels,block", "gear": "none", **usual, **said}
    assert default_now("packs", before) == packs
    assert default_now("switch", {**before, "packs": packs}) == switch
    answers, refused = answers_from(said)
    again, _ = answers_from({**said, "packs": packs, "switch": switch})
    assert (refused, answers) == ([], again)
