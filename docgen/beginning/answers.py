"""The answers to the nine questions: read from words, and written as words again."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from docgen.basics.findings import Refused, listed, meant, shown
from docgen.basics.frozen import frozen
from docgen.beginning.questions import NONE, QUESTIONS, Question, Word

# No more servos hang on one receiver without a power unit: its pins carry so much and no more (common practice).
# One servo lead brings what a motor's controller gives: fewer, and small ones.
MOST_SERVOS_OF_A_RECEIVER, MOST_SERVOS_OF_A_CONTROLLER = 10, 6


@frozen
class Answers:
    """What a builder answered: of choices the word, of all else how many there are on each side."""

    wing: str
    shells: str
    ailerons: int
    flaps: int
    airbrakes: int
    tail: str
    rudder: int
    plug_in: int
    gear: str
    doors: int
    brakes: int
    steering: int
    drive: str
    engines: int
    feeds: str
    receivers: str
    packs: str
    volts: str
    power_unit: int
    switch: str
    position_lights: int
    landing_lights: int
    beacon: int
    smoke: int

    @property
    def retracts(self) -> int:
        """Return how many legs retract."""
        return {"two-retracts": 2, "three-retracts": 3}.get(self.gear, 0)

    @property
    def radio_servos(self) -> int:
        """Return how many servos hang on receivers or on the power unit; those of doors hang on the gear's unit."""
        return _radio_servos(vars(self))


Answered = dict[str, str | int]
"""The fields of `Answers` that an answer to one question fills."""


def read_answer(question: Question, text: str) -> Answered:
    """Read the words of one answer; raises Refused with what is wrong and what may be answered."""
    said: dict[str, int] = {}
    for item in filter(None, re.split(r"[,\s]+", text.lower())):
        word, count = _read_word(question, item)
        if word.name in said:
            raise _refused(question, f"{shown(word.name)} stands twice.", "Say it once.")
        said[word.name] = count
    if NONE in said and len(said) > 1 and not question.choices:
        raise _refused(question, f"{shown(NONE)} stands beside other words.", "Say none, or what there is.")
    answered: Answered = {_field(word): said.get(word.name, 0) for word in question.more}
    for choice, words in question.choices.items():
        chosen = [word.name for word in words if word.name in said]
        if len(chosen) > 1:
            raise _refused(question, f"{listed(map(shown, chosen))} can't all be.", "Say one of them.")
        answered[choice] = (chosen or [words[0].name])[0]
    if question.name == "drive":
        drive = str(answered["drive"])
        answered["engines"] = 0 if drive == NONE else said.get(drive, 1)
    return answered


def write_answer(question: Question, answers: Answers) -> str:
    """Return the words that would be read as these answers."""
    words = {str(getattr(answers, choice)): 1 for choice in question.choices}
    words |= {word.name: getattr(answers, _field(word)) for word in question.more}
    words |= {answers.drive: max(answers.engines, 1)} if question.name == "drive" else {}
    return ",".join(name if count == 1 else f"{name}={count}" for name, count in words.items() if count) or NONE


def as_options(answers: Answers) -> str:
    """Return the options that give these answers again."""
    return " ".join(f"--{name} {write_answer(question, answers)}" for name, question in QUESTIONS.items())


def default_of(name: str, answered: Mapping[str, Answered]) -> str:
    """Return the default of a question, as earlier answers make it sensible."""
    if name not in ("packs", "switch"):
        return QUESTIONS[name].default
    fields = {field: value for some in answered.values() for field, value in some.items()}
    if fields["feeds"] == "own-regulator":
        return {"packs": "no-pack", "switch": "plug-in"}[name]
    if fields["receivers"] == "two" and name == "packs":
        return "two-packs,straight,power-unit"
    if name == "packs" and _radio_servos(fields) > MOST_SERVOS_OF_A_RECEIVER:
        return "one-pack,straight,power-unit"
    return QUESTIONS[name].default


def _radio_servos(fields: Mapping[str, Any]) -> int:
    wing = 2 * sum(fields[surface] for surface in ("ailerons", "flaps", "airbrakes"))
    tail = (1 if fields["tail"] == "one-elevator" else 2) + fields["rudder"]
    throttles = fields["engines"] if fields["drive"] == "piston" else 0
    return int(wing + tail + fields["steering"] + throttles)


def default_now(name: str, said: Mapping[str, str]) -> str:
    """Return the default of a question after what was said, all of which can be read."""
    before = list(QUESTIONS)[: list(QUESTIONS).index(name)]
    return default_of(name, {each: read_answer(QUESTIONS[each], said[each]) for each in before})


def answers_from(said: Mapping[str, str]) -> tuple[Answers | None, list[Refused]]:
    """Read what was said of some questions, the rest by default; return the answers, or all that is refused."""
    answered: dict[str, Answered] = {}
    refused: list[Refused] = []
    for name, question in QUESTIONS.items():
        try:
            answered[name] = read_answer(question, said.get(name) or default_of(name, answered))
        except Refused as error:
            refused.append(error)
            answered[name] = read_answer(question, question.default)  # so that what follows has its default
    if refused:
        return None, refused
    fields = {field: value for some in answered.values() for field, value in some.items()}
    return Answers(**fields), []  # type: ignore[arg-type]  # each word fills a field of its type


def _field(word: Word) -> str:
    return word.name.replace("-", "_")


def _read_word(question: Question, item: str) -> tuple[Word, int]:
    """Read a word, counted or not."""
    name, equals, number = item.partition("=")
    word = next((word for word in question.words if word.name == name), None)
    if word is None:
        known = [word.name for word in question.words]
        raise _refused(question, f"{shown(name)} is no answer.", meant(name, known, f"Known: {listed(known)}."))
    if not equals:
        return word, 1
    if not re.fullmatch(r"[1-9]", number) or int(number) > word.most:
        may = f"at most {word.name}={word.most}" if word.most > 1 else "the word alone"
        raise _refused(question, f"{shown(item)} can't be.", f"Say {may}.")
    return word, int(number)


def _refused(question: Question, sentence: str, do: str) -> Refused:
    return Refused("value", f"--{question.name}: {sentence}", do)
