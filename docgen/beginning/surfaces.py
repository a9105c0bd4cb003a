"""The servos of wing and tail, each with its circuit."""

from __future__ import annotations

from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, Draft, Entry
from docgen.beginning.radio import Radio
from docgen.beginning.typical import PUT_YOURS, typical_current

SERVO_LEAD = "servo-22"


def fit_surfaces(draft: Draft, answers: Answers, radio: Radio) -> None:
    """Fit the servos of ailerons, tail, flaps and airbrakes: in that order they get their channels."""
    for name, label in _paired(answers.ailerons, "aileron", "AIL {}"):
        fit_servo(draft, answers, radio, name, label)
    _fit_tail(draft, answers, radio)
    for name, label in (
        *_paired(answers.flaps, "flap", "FLAP {}"),
        *_paired(answers.airbrakes, "airbrake", "AIRBRAKE {}"),
    ):
        fit_servo(draft, answers, radio, name, label)


def _paired(count: int, name: str, label: str) -> list[tuple[str, str]]:
    """Return names and labels of one or two servos on each side."""
    if count < 2:
        return [(f"{SIDE}-{name}", label)][:count]
    return [(f"{SIDE}-inner-{name}", f"{label} IN"), (f"{SIDE}-outer-{name}", f"{label} OUT")]


def _fit_tail(draft: Draft, answers: Answers, radio: Radio) -> None:
    name, label = {
        "one-elevator": ("elevator", "ELEV"),
        "two-elevators": (f"{SIDE}-elevator", "ELEV {}"),
        "v-tail": (f"{SIDE}-v-tail", "VTAIL {}"),
    }[answers.tail]
    fit_servo(draft, answers, radio, name, label)
    if answers.rudder:
        fit_servo(draft, answers, radio, "rudder", "RUDDER")


def fit_servo(  # each of its words is said of one servo
    draft: Draft, answers: Answers, radio: Radio, name: str, label: str, *, failsafe: str = "hold", place: str = ""
) -> None:
    """Fit a servo, or one on each side, at a place, else at that of its name, commanded by the radio."""
    small = answers.feeds == "own-regulator"
    bears = "8.4 V" if answers.volts == "straight" and not small else "6.5 V"
    draft.equipment.append(servo(name, place or name, "small servo" if small else "servo", bears))
    radio.command(name, label, name, SERVO_LEAD, failsafe)


def servo(name: str, place: str, size: str, bears: str) -> Entry:
    """Return the entry of a servo, small or not, that bears so much."""
    fields = {
        "kind": "servo",
        "place": place,
        "plug": "servo-3",
        "current": typical_current(size),
        "volts": {"least": "4.8 V", "most": bears},
    }
    return Entry(name, fields, "", {"current": PUT_YOURS})
