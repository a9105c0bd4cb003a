"""Whatever is answered: it checks, holds just what was answered, and its joints are no larger than they must be."""

from __future__ import annotations

import random
from functools import cache
from itertools import islice
from pathlib import Path

import pytest
import yaml
from beginning.answer_sets import ANSWERS, Said, as_words, can_be, completed, pairs_of, random_sets, sets_of_all_pairs
from beginning.begun import amiss, as_typed, definition_in, written

from docgen.beginning.answers import answers_from, as_options, read_answer, write_answer
from docgen.beginning.begin import begin
from docgen.beginning.contradictions import contradictions
from docgen.beginning.questions import QUESTIONS
from docgen.definition.load import BUILT_IN_PARTS
from docgen.paperwork.documents import Choice
from docgen.pipeline import print_aircraft

PAIRS = sets_of_all_pairs()
SPREAD = PAIRS[:: len(PAIRS) // 8]
MOST_RANDOM = 2000
EVERY_PRINTED = 40


def is_right(said: Said, folder: Path) -> None:
    """Ensure all that must be so of each aircraft that is begun."""
    written(folder, as_words(said))
    assert amiss(folder) == [], said
    assert equipment_in(folder) == expected_equipment(said), said
    joints_are_the_least(folder)


def equipment_in(folder: Path) -> dict[str, int]:
    kinds = [entry.kind for entry in definition_in(folder).equipment.values()]
    return {kind: kinds.count(kind) for kind in sorted(kinds)}


def expected_equipment(said: Said) -> dict[str, int]:
    """Count what answers ask for, by the words of each question."""
    engine, _, number = said["drive"].partition("=")
    engines = 0 if engine == "none" else int(number or 1)
    motors, turbines, pistons = (engines * (engine == kind) for kind in ("motor", "turbine", "piston"))
    has = {name: int(word) for name, word in said.items() if word.isdigit()}
    legs = {"two-retracts": 2, "three-retracts": 3}.get(said["gear"], 0)
    doors = legs * has["doors"]
    packs = {"one-pack": 1, "two-packs": 2, "no-pack": 0}[said["packs"]]
    lights = 3 * has["position-lights"] + 2 * has["landing-lights"] + has["beacon"]
    service = int(bool(legs or has["brakes"] or has["smoke"]))
    between = 0 if has["power-unit"] else packs
    surfaces = 2 * (has["ailerons"] + has["flaps"] + has["airbrakes"]) + (1 if said["tail"] == "one-elevator" else 2)
    expected = {
        "receiver": {"one": 1, "two": 2}[said["receivers"]],
        "battery": packs + motors + turbines + pistons + service,
        "power unit": has["power-unit"],
        "power switch": between * (said["switch"] != "plug-in") + pistons + service,
        "regulator": between * (said["switch"] == "plug-in" and said["volts"] == "regulated"),
        "key": (1 if has["power-unit"] else packs) * (said["switch"] == "key"),
        "servo": surfaces + has["rudder"] + has["steering"] + doors + pistons,
        "speed controller": motors,
        "motor": motors,
        "engine unit": turbines + pistons,
        "gear controller": int(bool(legs or has["brakes"])),
        "gear leg": legs,
        "brake": 2 * has["brakes"],
        "light controller": int(bool(lights)),
        "light": lights,
        "smoke": has["smoke"],
    }
    return {kind: count for kind, count in sorted(expected.items()) if count}


@cache
def sizes_and_wires() -> tuple[dict[str, int], dict[str, int]]:
    """Count the contacts of each built-in shell and the wires of each lead, as their entries list them."""
    parts = yaml.load(BUILT_IN_PARTS.read_text("utf-8"), yaml.BaseLoader)
    sizes = {
        name: sum(map(len, entry["rows"])) if "rows" in entry else len(entry["at"])
        for name, entry in parts["shells"].items()
    }
    return sizes, {name: len(entry["wires"]) for name, entry in parts["leads"].items()}


def joints_are_the_least(folder: Path) -> None:
    """Ensure that each joint has two contacts to spare, and that no smaller shell of its pattern would have them.

    Two of up to 25: FAA AC 43.13-1B, 11-234.
    """
    definition, (sizes, wires) = definition_in(folder), sizes_and_wires()
    used = dict.fromkeys(definition.disconnects, 0)
    for circuit in definition.circuits.values():
        for joint in circuit.through:
            used[joint] += wires[str(circuit.lead)]
    for name, form in definition.disconnects.items():
        pattern = form.shell.split("-")[0]
        enough = [size for shell, size in sizes.items() if shell.startswith(pattern) and size >= used[name] + 2]
        assert sizes[form.shell] == min(enough), (name, used[name])
        assert used[name] > 0


@pytest.mark.parametrize("said", SPREAD, ids=lambda said: said["wing"] + "-" + said["drive"])
def test_a_spread_of_all_pairs_of_answers_is_right(said: Said, tmp_path: Path) -> None:
    is_right(said, tmp_path / "gull")


@pytest.mark.parametrize("tail", ["v-tail", "two-elevators,rudder", "one-elevator"])
def test_all_servos_in_a_tail_that_plugs_in_are_right_with_two_packs(tail: str, tmp_path: Path) -> None:
    words = {"surfaces": "none", "tail": f"{tail},plug-in", "receivers": "two", "drive": "none"}
    assert amiss(written(tmp_path / "gull", words)) == []


def test_two_receivers_have_servos_each_though_little_else_hangs_on_them(tmp_path: Path) -> None:
    words = {"surfaces": "none", "tail": "one-elevator", "receivers": "two", "packs": "two-packs"}
    assert amiss(written(tmp_path / "gull", {**words, "gear": "fixed,steering"})) == []


@pytest.mark.long
@pytest.mark.parametrize("said", PAIRS, ids=lambda said: said["wing"] + "-" + said["drive"])
def test_each_pair_of_answers_is_right(said: Said, tmp_path: Path) -> None:
    is_right(said, tmp_path / "gull")


@pytest.mark.longest
def test_random_answers_are_right_and_a_part_of_them_printed(tmp_path: Path) -> None:
    for number, said in enumerate(islice(random_sets(18), MOST_RANDOM)):
        is_right(said, tmp_path / "gull")
        if number % EVERY_PRINTED == 0:
            (printed,) = print_aircraft([(tmp_path / "gull", tmp_path / f"paper-{number}")], Choice())
            assert {"wire-labels", "pinout-cards", "measuring-sheet"} <= {
                Path(out.path).stem for out in printed.outputs
            }


def test_each_pair_that_can_be_is_in_a_set() -> None:
    chance = random.Random(3)
    held = set().union(*map(pairs_of, PAIRS))
    for said in islice(random_sets(4), 40):
        assert pairs_of(said) <= held
    assert completed({"tail": "v-tail", "rudder": "1"}, chance) is None


def test_just_those_sets_are_refused_that_contradict_themselves() -> None:
    chance = random.Random(5)
    for said in islice(random_sets(6), 200):
        name = chance.choice(list(ANSWERS))
        other = {**said, name: chance.choice(ANSWERS[name])}
        words = as_words(other)
        answers, refused = answers_from(words)
        wrong = refused if answers is None else contradictions(answers)
        assert (not wrong) == can_be(other), (other, wrong)


def test_answers_are_written_as_words_that_are_read_alike() -> None:
    for said in islice(random_sets(7), 30):
        answers, _ = answers_from(as_words(said))
        assert answers is not None
        again = {name: write_answer(question, answers) for name, question in QUESTIONS.items()}
        assert answers_from(again)[0] == answers
        assert all(f"--{name} {words}" in as_options(answers) for name, words in again.items())


def test_every_word_of_the_questions_is_among_the_answers_that_are_tried() -> None:
    tried = {word.partition("=")[0] for words in ANSWERS.values() for word in words} | ANSWERS.keys()
    assert {word.name for question in QUESTIONS.values() for word in question.words} <= tried


def test_the_same_answers_give_the_same_text(tmp_path: Path) -> None:
    words = as_words(PAIRS[0])
    texts = [begin("gull", answers) for answers in (answers_from(words)[0], answers_from(words)[0]) if answers]
    assert texts[0] == texts[1]
    written(tmp_path / "gull", words)
    assert "length" not in as_typed(tmp_path / "gull")["runs"][0]


@pytest.mark.parametrize("name", QUESTIONS)
def test_the_default_of_each_question_can_be_read(name: str) -> None:
    assert read_answer(QUESTIONS[name], QUESTIONS[name].default)
