"""What a builder is asked who begins an aircraft: nine questions, the words of their answers, and what those mean."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from docgen.basics.frozen import frozen

NONE = "none"  # the answer that nothing of it is there


@frozen
class Word:
    """A word of an answer; one with `most` over 1 may be counted, `ailerons=2`."""

    name: str
    means: str
    most: int = 1


@frozen
class Question:
    """One question: of each of `choices` one word is taken, unsaid the first; of `more` any.

    Choices are known by what they choose; `more` words are the names of what they tell, with hyphens.
    """

    name: str
    asks: str
    default: str
    choices: Mapping[str, tuple[Word, ...]] = field(default_factory=dict)
    more: tuple[Word, ...] = ()

    @property
    def words(self) -> tuple[Word, ...]:
        """Return all words that an answer may hold."""
        chosen = tuple(word for words in self.choices.values() for word in words)
        nothing = () if self.choices else (Word(NONE, "nothing of these"),)
        return chosen + self.more + nothing


_QUESTIONS = (
    Question(
        "wing",
        "In how many pieces does the wing come off, and which shells plug it together?",
        "two-panels,block",
        {
            "wing": (
                Word("two-panels", "a panel on each side plugs onto the fuselage"),
                Word("one-piece", "it comes off the fuselage as one"),
                Word("three-pieces", "a centre piece on the fuselage, and a panel on each end of it"),
            ),
            "shells": (
                Word("block", "rectangular blocks of 6 to 14 crimp contacts, 10 A each"),
                Word("d-shell", "D-shaped shells of 9 to 25 crimp contacts, 5 A each, screwed"),
            ),
        },
    ),
    Question(
        "surfaces",
        "Which surfaces does the wing have, and with how many servos on each side?",
        "ailerons",
        more=(
            Word("ailerons", "one servo on each side; ailerons=2 for two", most=2),
            Word("flaps", "one servo on each side; flaps=2 for two", most=2),
            Word("airbrakes", "one servo on each side"),
        ),
    ),
    Question(
        "tail",
        "What moves in the tail, and does the tail plug in?",
        "one-elevator,rudder",
        {
            "tail": (
                Word("one-elevator", "one servo for the elevator"),
                Word("two-elevators", "an elevator servo on each side"),
                Word("v-tail", "a servo on each side of a V, no rudder"),
            )
        },
        (
            Word("rudder", "a servo for the rudder"),
            Word("plug-in", "it comes off, its servos in it, and plugs in"),
        ),
    ),
    Question(
        "gear",
        "What does it land on?",
        "none",
        {
            "gear": (
                Word(NONE, "nothing that has a wire: a skid, a wheel"),
                Word("fixed", "fixed legs"),
                Word("two-retracts", "two electric legs in the wing, a tail wheel"),
                Word("three-retracts", "two electric legs in the wing, one in the nose"),
            )
        },
        (
            Word("doors", "a servo for the door of each leg that retracts"),
            Word("brakes", "a magnet brake in each wheel under the wing"),
            Word("steering", "a servo of its own for the wheel that steers"),
        ),
    ),
    Question(
        "drive",
        "What drives it, and how many of them? What feeds the radio?",
        "motor,receiver-pack",
        {
            "drive": (
                Word("motor", "brushless motors; motor=2 for two, 4 at most", most=4),
                Word("turbine", "turbines with their unit; turbine=2 for two", most=2),
                Word("piston", "piston engines with electronic ignition; piston=2 for two", most=2),
                Word(NONE, "nothing: it is towed, launched or thrown"),
            ),
            "feeds": (
                Word("receiver-pack", "the radio has packs of its own"),
                Word("own-regulator", "the motor controller's own regulator does; small aircraft"),
            ),
        },
    ),
    Question(
        "receivers",
        "How many receivers?",
        "one",
        {"receivers": (Word("one", "one for all"), Word("two", "two, so that one may be lost"))},
    ),
    Question(
        "packs",
        "How many packs feed the radio, through what, and at which volts?",
        "one-pack,straight",
        {
            "packs": (
                Word("one-pack", "one of two lithium cells"),
                Word("two-packs", "two of two lithium cells, so that one may be lost"),
                Word("no-pack", "the motor's controller feeds it"),
            ),
            "volts": (
                Word("straight", "what the pack gives, up to 8.4 V: servos must bear it"),
                Word("regulated", "6 V"),
            ),
        },
        (Word("power-unit", "a unit with outlets for all servos, which keeps packs apart"),),
    ),
    Question(
        "switch",
        "How is the radio switched on?",
        "switch",
        {
            "switch": (
                Word("switch", "with a switch in the side"),
                Word("key", "by pulling out a key with a streamer"),
                Word("plug-in", "by plugging the pack in"),
            )
        },
    ),
    Question(
        "extras",
        "Lights, smoke?",
        "none",
        more=(
            Word("position-lights", "one in each wing tip and in the tail"),
            Word("landing-lights", "one in each side of the wing"),
            Word("beacon", "one on the back that flashes by itself"),
            Word("smoke", "a pump for smoke oil into a hot exhaust"),
        ),
    ),
)
QUESTIONS = {question.name: question for question in _QUESTIONS}


def explained(question: Question) -> list[str]:
    """Return what may be answered, a word a line, under what can be done with those words."""
    groups = [("one of", words) for words in question.choices.values()]
    groups += [("with any of" if groups else "any of", question.more)] * bool(question.more)
    groups += [("or", question.words[-1:])] * (not question.choices)
    width = max(len(word.name) for word in question.words)
    lines = []
    for heading, words in groups:
        lines += [f"  {heading}", *(f"    {word.name.ljust(width)}  {word.means}" for word in words)]
    return lines
