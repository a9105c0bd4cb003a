"""How acts are set: numbered lines, what shows each at the right end, and dots between; and what holds before them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from docgen.harness.model.switching import Act, Stage, Switching
from docgen.paperwork.field.aboard import Aboard, at_rest, field_caution
from docgen.paperwork.field.acts import Said, acts_off, acts_on, numbered
from docgen.paperwork.typesetting.ink import Box, Circle, Text
from docgen.paperwork.typesetting.typeface import width_mm, wrapped

if TYPE_CHECKING:
    from docgen.paperwork.page_kit.blocks import Block

ROOM_MM, PLAIN_MM = 100.0, 2.5
# Lines are 1.55 heights of capitals apart; a number takes 6 mm; dots are 1.6 mm apart, 2.5 mm off what they join.
PITCH_MM, NUMBER_MM, DOTS_MM, APART_MM, LEAST_DOTS = 1.55 * PLAIN_MM, 6.0, 1.6, 2.5, 4
AT = Box(10, 20, ROOM_MM, 0)


def drawn(block: Block) -> tuple[list[Text], list[Circle]]:
    ink = block.draw(AT._replace(height_mm=block.height_mm))
    return [one for one in ink if isinstance(one, Text)], [one for one in ink if isinstance(one, Circle)]


def has_room(act: str, shows: str) -> bool:
    """Tell whether the least dots have room between both in one line."""
    free = ROOM_MM - NUMBER_MM - width_mm(act, PLAIN_MM) - width_mm(shows, PLAIN_MM)
    return free - 2 * APART_MM - LEAST_DOTS * DOTS_MM > 0


SIGN = "green lamp on the switch"


@pytest.mark.parametrize("letters", [1, 20, *range(35, 66)])
def test_what_shows_an_act_stands_in_its_line_where_dots_have_room_else_below(letters: int) -> None:
    act = "i" * letters
    (block,) = numbered([Said(act, SIGN)], ROOM_MM, 7)
    (number, said, sign), dots = drawn(block)
    beside = has_room(act, SIGN)
    assert (number.text, number.bold, number.x_mm) == ("7", True, AT.x_mm)
    assert (said.text, said.x_mm) == (act, AT.x_mm + NUMBER_MM)
    assert said.y_mm == pytest.approx(AT.y_mm + 1 + PLAIN_MM)
    assert (sign.text, sign.align, sign.x_mm) == (SIGN, "right", AT.right_mm)
    assert sign.y_mm == pytest.approx(said.y_mm if beside else said.y_mm + PITCH_MM)
    assert number.y_mm == said.y_mm
    # A row and 2 mm between acts.
    assert block.height_mm == pytest.approx(PLAIN_MM + 2 + (0 if beside else PITCH_MM))
    start = AT.x_mm + NUMBER_MM + (width_mm(act, PLAIN_MM) if beside else 0) + APART_MM
    end = AT.right_mm - width_mm(SIGN, PLAIN_MM) - APART_MM
    assert len(dots) >= LEAST_DOTS
    assert [dot.x_mm for dot in dots] == pytest.approx([end - i * DOTS_MM for i in range(len(dots))])
    assert start <= dots[-1].x_mm < start + 2 * DOTS_MM
    assert {(round(sign.y_mm - dot.y_mm, 6), dot.radius_mm, dot.fill) for dot in dots} == {(0.25, 0.2, "#000000")}


def test_both_bounds_are_among_these() -> None:
    assert has_room("i" * 35, SIGN)
    assert not has_room("i" * 65, SIGN)


def test_long_acts_and_signs_go_on_below_and_dots_lead_to_the_first_line_of_the_sign() -> None:
    act, shows = " ".join(["hold the button"] * 8), " ".join(["the lamp is green"] * 9)
    (block,) = numbered([Said(act, shows)], ROOM_MM)
    (_, *said), dots = drawn(block)
    acts, signs = wrapped(act, ROOM_MM - NUMBER_MM, PLAIN_MM), wrapped(shows, ROOM_MM - NUMBER_MM - 12, PLAIN_MM)
    assert min(len(acts), len(signs)) > 1
    assert [text.text for text in said] == [*acts, *signs]
    first = AT.y_mm + 1 + PLAIN_MM
    assert [text.y_mm for text in said] == pytest.approx([first + i * PITCH_MM for i in range(len(said))])
    assert block.height_mm == pytest.approx((len(said) - 1) * PITCH_MM + PLAIN_MM + 2)
    assert {round(dot.y_mm + 0.25, 6) for dot in dots} == {round(first + len(acts) * PITCH_MM, 6)}


def test_an_act_that_nothing_shows_has_no_dots_and_one_that_says_nothing_is_not_there() -> None:
    blocks = numbered([Said(""), Said("transmitter on"), Said("key out"), Said("wait"), Said("taxi")], ROOM_MM, 0)
    assert [drawn(block)[0][0].text for block in blocks] == ["1", "2", "3", "4"]
    assert not any(drawn(block)[1] for block in blocks)


def test_the_first_two_acts_stay_together_and_the_last_two() -> None:
    blocks = numbered([Said(f"act {number}") for number in range(5)], ROOM_MM)
    assert [block.stays for block in blocks] == [True, False, False, True, False]


NOTHING = Aboard(engine=False, motor=False, gear=False, brakes=False, smoke=False, gyro=False, receiver=False)
BEFORE = {
    "receiver": "right model memory",
    "engine": "throttle lowest and locked",
    "motor": "throttle lowest and locked",
    "gear": "gear switch as the legs stand",
    "gyro": "aircraft still until the gyro is ready",
    "smoke": "",
    "brakes": "",
}
EMPTY = Switching((), (), (), ())


def with_aboard(*what: str) -> Aboard:
    return NOTHING.__class__(**{name: name in what for name in BEFORE})


@pytest.mark.parametrize("what", BEFORE)
def test_before_all_that_is_made_ready_which_is_aboard(what: str) -> None:
    said = list(acts_on(EMPTY, with_aboard(what)))
    assert said == [Said(BEFORE[what]), *[Said("transmitter on")] * (what == "receiver")]
    assert list(acts_off(EMPTY, with_aboard(what))) == [Said("transmitter off")] * (what == "receiver")


def test_who_holds_the_aircraft_is_told_once_before_what_drives_is_switched_on() -> None:
    acts = [Act(("pack",), Stage.RADIO, "plug it in", "lamp")]
    acts += [Act((name,), Stage.DRIVE, "arm it", "", drives=True) for name in ("one", "two")]
    said = list(acts_on(Switching(tuple(acts), (), (), ()), with_aboard("motor")))
    held = Said("aircraft held, clear of propellers, and fans' intakes")
    assert said[1:] == [Said("pack: plug it in", "lamp"), held, Said("one: arm it"), Said("two: arm it")]
    assert Said("aircraft held") in acts_on(Switching(tuple(acts), (), (), ()), NOTHING)


CHARGE = "Charge packs out of the aircraft or as their maker says, never alone."
OFF = "Packs unplugged before a plug or joint is parted."
PROPELLER, ENGINE, LEGS = (
    "propellers, and fans' intakes",
    "the engine's propeller, or its intake and exhaust",
    "gear doors and legs",
)
FUEL = "Fuel: no flame near, an extinguisher at hand."
CAUTIONS = [
    ((), CHARGE, OFF, ""),
    (
        ("motor",),
        f"{CHARGE} Keep clear of {PROPELLER}.",
        f"Motor made safe first: propeller off or motor leads unplugged. {OFF}",
        "Propeller off or motor leads unplugged.",
    ),
    (
        ("engine",),
        f"{CHARGE} Keep clear of {ENGINE}. {FUEL}",
        f"Engine made safe first: fuel closed, igniter and starter unplugged. {OFF}",
        "Fuel closed, igniter and starter unplugged.",
    ),
    (("gear",), f"{CHARGE} Keep clear of {LEGS}.", f"{OFF} Hands clear of legs and doors.", ""),
    (
        ("motor", "engine", "gear"),
        f"{CHARGE} Keep clear of {PROPELLER}; {ENGINE}; {LEGS}. {FUEL}",
        "Motor made safe first: propeller off or motor leads unplugged. "
        f"Engine made safe first: fuel closed, igniter and starter unplugged. {OFF} Hands clear of legs and doors.",
        "Propeller off or motor leads unplugged. Fuel closed, igniter and starter unplugged.",
    ),
]


@pytest.mark.parametrize(("what", "field", "rest", "safe"), CAUTIONS)
def test_what_is_aboard_is_warned_of_at_the_field_and_at_rest(
    what: tuple[str, ...], field: str, rest: str, safe: str
) -> None:
    there = with_aboard(*what)
    assert (field_caution(there), at_rest(there), there.made_safe) == (field, rest, safe)
    assert there.drive == bool({"motor", "engine"} & {*what})
