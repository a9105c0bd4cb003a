"""Answers that can't be together: which, and what to do."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Refused
from docgen.beginning.answers import MOST_SERVOS_OF_A_CONTROLLER, MOST_SERVOS_OF_A_RECEIVER, Answers


def contradictions(answers: Answers) -> list[Refused]:
    """Return every contradiction among answers, with what to do about each."""
    found = (*_of_the_airframe(answers), *_of_the_drive(answers), *_of_the_supply(answers))
    return [Refused("value", sentence, do) for sentence, do in found]


_Told = tuple[str, str]


def _of_the_airframe(answers: Answers) -> Iterator[_Told]:
    if answers.tail == "v-tail" and answers.rudder:
        yield "a V-tail has no rudder.", "Leave `rudder` out of --tail, or choose elevators."
    if answers.doors and not answers.retracts:
        yield "there are doors, and no leg retracts.", "Choose retracts in --gear, or leave `doors` out."
    if answers.gear == "none":
        for what, there in (("brakes", "there are brakes"), ("steering", "there is steering")):
            if getattr(answers, what):
                yield f"{there}, and no gear.", f"Choose fixed or retracts in --gear, or leave `{what}` out."


def _of_the_drive(answers: Answers) -> Iterator[_Told]:
    if answers.feeds == "own-regulator" and answers.drive != "motor":
        yield "only a motor's controller has a regulator.", "Choose `motor` in --drive, or `receiver-pack`."
    elif answers.feeds == "own-regulator" and answers.engines > 1:
        do = "Choose `receiver-pack` in --drive."
        yield "the regulators of several controllers must not meet at the radio.", do
    if answers.smoke and answers.drive not in ("turbine", "piston"):
        yield "smoke oil needs a hot exhaust.", "Choose turbine or piston in --drive, or leave `smoke` out of --extras."


def _of_the_supply(answers: Answers) -> Iterator[_Told]:
    if answers.feeds == "own-regulator":
        yield from _of_own_regulator(answers)
        return
    if answers.packs == "no-pack":
        yield "nothing feeds the radio.", "Choose one-pack or two-packs in --packs, or own-regulator in --drive."
        return
    if answers.receivers == "two" and answers.packs == "one-pack":
        do = "Choose `two-packs` in --packs, or one receiver."
        yield "two receivers on one pack are both lost with it.", do
    if answers.receivers == "one" and answers.packs == "two-packs" and not answers.power_unit:
        yield "nothing keeps the two packs apart at one receiver.", "Add `power-unit` to --packs, or choose one pack."
    # No answers have more servos than two receivers bear.
    if answers.receivers == "one" and not answers.power_unit and answers.radio_servos > MOST_SERVOS_OF_A_RECEIVER:
        most = f"{MOST_SERVOS_OF_A_RECEIVER} at most hang on a receiver"
        yield f"there are {answers.radio_servos} servos; {most}.", "Add `power-unit` to --packs."


def _of_own_regulator(answers: Answers) -> Iterator[_Told]:
    why = "the motor's controller feeds the radio"
    instead = "or let receiver packs feed it (`receiver-pack` in --drive)."
    if answers.packs != "no-pack":
        yield f"{why}, and so does a pack.", f"Choose `no-pack` in --packs, {instead}"
    if answers.power_unit or answers.volts == "regulated":
        yield f"{why}, at its own volts and without a unit.", f"Say `no-pack` alone in --packs, {instead}"
    if answers.receivers == "two":
        yield f"{why}, and two receivers are both lost with it.", f"Choose one receiver, {instead}"
    if answers.switch != "plug-in":
        yield f"{why}: it comes on with the motor's pack.", f"Choose `plug-in` in --switch, {instead}"
    if answers.radio_servos > MOST_SERVOS_OF_A_CONTROLLER:
        what = f"there are {answers.radio_servos} servos; a controller feeds {MOST_SERVOS_OF_A_CONTROLLER} small ones"
        yield f"{what} at most.", "Let receiver packs feed them: `receiver-pack` in --drive."
