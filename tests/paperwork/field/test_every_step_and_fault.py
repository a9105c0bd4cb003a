"""Each step of first power-up and each row of the fault finder of the large example, by hand from its file."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from page_facts import sheets_of
from recorded import sections_of
from resolved import EXAMPLES, harness_of, record_of

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import fault_content, power_content

if TYPE_CHECKING:
    from collections.abc import Iterable

    from docgen.paperwork.field.power_parts import Part

SIDES = ("left", "right")
RADIO, SERVICE, FAN = "6.6 to 8.4 V", "9.9 to 12.6 V", "20.4 to 25.2 V"
PACK, UNIT = "its plug, + to −", "its supply plug, + to −"


def both(text: str) -> list[str]:
    """Return a text for the left and for the right: `{side}` in words, `{s}` as its letter."""
    return [text.format(side=side, s=side[0].upper()) for side in SIDES]


def lead(label: str, end: str, volts: str) -> tuple[str, str, str]:
    """Return a lead with supply: plugs of two and of three have their negative on 1, their positive on 2."""
    return f"lead {label}", f"{end} 2 (+) to 1 (−)", volts


def rung(label: str, end: str, start: str) -> tuple[str, str, str]:
    """Return a lead of a signal, which has contact 3 of either plug."""
    return f"lead {label}", f"{end} contact 3 to {start} contact 3", "rings"


def joint(name: str, supplied: str, volts: str) -> tuple[str, str, str]:
    return name, f"pins straight; {supplied}", volts


# Covers in the order in which what is lost comes: equipment as written, joints, commons, leads.
TESTED: dict[str, list[tuple[str, str, str]]] = {
    "top hatch": [
        *((name, PACK, RADIO) for name in both("{side}-pack")),
        ("power-unit", "outlet 1: 2 (+) to 1 (−), switched on", RADIO),
        ("receiver-a", UNIT, RADIO),
        ("service-pack", PACK, SERVICE),
        *((name, PACK, FAN) for name in both("{side}-fan-pack")),
        *(lead(f"PACK {s}", f"power-unit PACK-{s}", RADIO) for s in "LR"),
        lead("RX A", "receiver-a DATA", RADIO),
        lead("RX A 2", "receiver-a BATT", RADIO),
    ],
    "belly hatch": [
        ("receiver-b", UNIT, RADIO),
        ("gear-unit", UNIT, SERVICE),
        ("lamp-unit", UNIT, SERVICE),
        joint("hatch-joint", "BAY DOOR 2 (+) to 1 (−)", "6.0 V"),
        lead("RX B", "receiver-b DATA", RADIO),
        lead("GEAR BATT", "gear-unit POWER", SERVICE),
        lead("LIGHT BATT", "lamp-unit POWER", SERVICE),
        rung("GEAR", "gear-unit GEAR", "receiver-b 1"),
        rung("BRAKE", "gear-unit BRAKE", "receiver-b 2"),
        ("lead LIGHTS", "receiver-b 3, its plug", "seated"),
    ],
    "from outside": [
        ("service-switch", "outlet GEAR: 2 (+) to 1 (−), switched on", SERVICE),
        lead("SERVICE", "service-switch IN", SERVICE),
    ],
    "fan cover": [
        *((name, UNIT, FAN) for name in both("{side}-fan-control")),
        *(lead(f"FAN {side[0].upper()} BATT", f"{side}-fan-control PACK", FAN) for side in SIDES),
        *(
            rung(f"THR {side[0].upper()}", f"{side}-fan-control RX", f"receiver-a {port}")
            for port, side in enumerate(SIDES, 1)
        ),
    ],
    # Of each joint the first circuit written that has both poles of a supply there; commons by what feeds them.
    "wing off": [
        joint("left-wing-a", "AIRSPEED 14 (+) to 13 (−)", RADIO),
        joint("right-wing-a", "AIL R IN 2 (+) to 1 (−)", RADIO),
        *(joint(f"{side}-wing-b", f"WING {side[0].upper()} 1+2 (+) to 3+4 (−)", RADIO) for side in SIDES),
        *(
            (f"{side}-wing-b {contacts}", "1+2 (+) to 3+4 (−)", RADIO)
            for side in SIDES
            for contacts in ("3, 4 (negative)", "1, 2 (positive)")
        ),
        *((f"lead WING {side[0].upper()}", f"{side}-wing-b 1+2 (+) to 3+4 (−)", RADIO) for side in SIDES),
    ],
    "tail off": [joint("tail", "ELEV L 2 (+) to 1 (−)", RADIO)],
    "nose off": [joint("nose", "STEER 2 (+) to 1 (−)", RADIO)],
    "spine cover": [
        lead("SMOKE BATT", "smoke-pump POWER", SERVICE),
        rung("SMOKE", "smoke-pump RX", "receiver-b 4"),
    ],
}
FAULTS = [(name, cover, at, reads) for cover, some in TESTED.items() for name, at, reads in some]


def test_each_loss_has_the_cover_the_contacts_and_what_is_read_there() -> None:
    found = fault_content.content(harness_of(EXAMPLES / "fulmar")).faults
    by_name = {fault.name: (fault.name, fault.cover, fault.contacts, fault.reads) for fault in found}
    assert by_name == {fault[0]: fault for fault in FAULTS}
    covers = [fault.cover for fault in found]
    # All behind one cover together.
    assert [cover for cover, before in zip(covers, ["", *covers], strict=False) if cover != before] == list(TESTED)
    kinds = {"top hatch": 7, "belly hatch": 4, "fan cover": 2, "wing off": 8}
    for cover, count in kinds.items():
        assert all(name.startswith("lead ") for name, *_ in TESTED[cover][count:])
        names = [fault.name for fault in found if fault.cover == cover]
        assert [name.startswith("lead ") for name in names] == [False] * count + [True] * (len(names) - count)


def faulted(name: str) -> str:
    """Say the number that a fault has, which the record and the page give it."""
    found = fault_content.content(harness_of(EXAMPLES / "fulmar")).faults
    return next((f" (fault {number})" for number, fault in enumerate(found, 1) if fault.name == name), "")


def steps_in(title: str) -> list[tuple[str, str]]:
    return [(step.name, step.does) for step in part_of(title).steps]


def part_of(title: str) -> Part:
    (part,) = (part for part in parts() if part.title.startswith(title))
    return part


def parts() -> Iterable[Part]:
    return power_content.content(harness_of(EXAMPLES / "fulmar")).parts


def read(label: str, end: str, poles: str = "2+ 1−") -> tuple[str, str]:
    return label, f"{end} {poles}{faulted(f'lead {label}')}"


def mated(label: str, joint: str, poles: str) -> tuple[str, str]:
    """Return a supply that is read at a joint, which all behind it wants mated."""
    _, says = read(label, joint, poles)
    return label, f"{says}; supply off, mate it"


# Midway between packs nearly empty and full: 7.5, 11.25 and 22.8 V.
def test_bare_wiring_is_read_pack_by_pack_at_what_each_feeds() -> None:
    fed = [
        ("left-pack", "7.5", [read("PACK L", "power-unit PACK-L")]),
        ("right-pack", "7.5", [read("PACK R", "power-unit PACK-R")]),
        ("service-pack", "11.2", [read("SERVICE", "service-switch IN")]),
        *(
            (f"{side}-fan-pack", "22.8", [read(f"FAN {side[0].upper()} BATT", f"{side}-fan-control PACK")])
            for side in SIDES
        ),
    ]
    assert steps_in("Bare wiring") == [
        step for pack, volts, some in fed for step in ((pack, f"supply to {volts} V{faulted(pack)}"), *some)
    ]


def unit(name: str, shows: str = "", at: str = "") -> tuple[str, str]:
    """Return a step: where another supply begins, with the plug that the bench supply hangs at, and its volts."""
    return name, ", ".join(filter(None, (at, "limit 0.50 A", shows))) + faulted(name)


def test_units_are_plugged_in_as_supply_reaches_them_and_each_outlet_is_read() -> None:
    """What begins at commons comes last of what its unit feeds; outlets that a signal drives are another part."""
    assert steps_in("Units and receivers") == [
        unit("power-unit", "both lamps steady", "7.5 V at the plug for left-pack"),
        read("RX A", "receiver-a DATA"),
        read("RX A 2", "receiver-a BATT"),
        read("RX B", "receiver-b DATA"),
        *(read(f"AIL {side[0].upper()} IN", f"{side}-inner-aileron") for side in SIDES),
        *(mated(f"WING {side[0].upper()}", f"{side}-wing-b", "1+2+ 3+4−") for side in SIDES),
        *(read(f"AIL {side[0].upper()} OUT", f"{side}-outer-aileron") for side in SIDES),
        *(read(f"FLAP {side[0].upper()}", f"{side}-flap") for side in SIDES),
        *(read(f"ELEV {side[0].upper()}", f"{side}-elevator") for side in SIDES),
        read("RUDDER", "rudder"),
        read("BAY DOOR", "hatch-joint"),  # its servo's own lead is unplugged there
        *(read(f"BEACON {side[0].upper()}", f"{side}-beacon") for side in SIDES),
        unit("receiver-a"),
        read("GYRO", "receiver-a 6"),  # it plugs straight in
        read("AIRSPEED", "airspeed"),
        read("STEER", "steering"),
        unit("receiver-b"),
        read("SMOKE VALVE", "smoke-valve"),
        unit("service-switch", "green lamp", "11.2 V at the plug for service-pack"),
        read("GEAR BATT", "gear-unit POWER"),
        read("LIGHT BATT", "lamp-unit POWER"),
        read("SMOKE BATT", "smoke-pump POWER"),
        read("CAMERA", "camera"),
        unit("gear-unit", "nothing moves until the gear switch has been moved once"),
        unit("lamp-unit"),
    ]
    # At rest, each on top of what was plugged in before, as its builder wrote.
    idle = {step.name: step.should for step in part_of("Units and receivers").steps if step.should.endswith("A")}
    assert idle == {
        "power-unit": "+0.09 A",
        "receiver-a": "+0.12 A",
        "receiver-b": "+0.12 A",
        "service-switch": "+0.01 A",
        "gear-unit": "+0.06 A",
        "lamp-unit": "+0.04 A",
    }


def test_units_hear_their_channels_before_their_outlets_are_read() -> None:
    assert steps_in("Signals to units") == [
        ("GEAR", "gear-unit GEAR follows channel 10"),
        ("BRAKE", "gear-unit BRAKE follows channel 11"),
        ("LIGHTS", "lamp-unit RX follows channel 13"),
        *(
            (
                f"THR {side[0].upper()}",
                f"limit 0.50 A{faulted(f'{side}-fan-control')}; {side}-fan-control RX follows channel {channel}",
            )
            for channel, side in enumerate(SIDES, 15)
        ),
    ]
    # 0.1 A at rest, as the builder wrote.
    assert [step.should for step in part_of("Signals to units").steps] == ["", "", "", "+0.10 A", "+0.10 A"]
    assert "Radio and unit are both fed" in part_of("Signals to units").says
    assert "a bench supply in place of its pack, limited so, volts as before" in part_of("Signals to units").says
    assert steps_in("Outlets of units") == [
        *(read(f"LEG {name[0].upper()}", f"{name}-leg", "1 2") for name in ("nose", *SIDES)),
        *(read(f"BRAKE {side[0].upper()}", f"{side}-brake", "1 2") for side in SIDES),
        *(read(f"POS {side[0].upper()}", f"{side}-position-light") for side in SIDES),
        *(read(f"LAND {side[0].upper()}", f"{side}-landing-light") for side in SIDES),
        read("TAIL LIGHT", "tail-light"),
    ]


# At rest all of the radio draw 0.97 A and all of the service pack 1.01 A (see test_first_power.py).
IDLE_A = {"radio": 0.97, "service": 1.01}


def moved(label: str, does: str, supply: str, most_a: float, more: str) -> tuple[str, str, str]:
    """Return a step: the limit is the idle of all and the own most, to a tenth above; lights are read while on."""
    limit = math.ceil(10 * (IDLE_A[supply] + most_a) - 1e-9) / 10
    return label, f"{does}, limit {limit:.1f} A", f"+{more}"


def test_each_circuit_does_what_its_builder_wrote_within_the_limit_and_current_that_are_its_own() -> None:
    aileron, flap, elevator = "16 mm up, 10 mm down", "22 mm takeoff, 48 mm landing", "24 mm each way"
    found = [(step.name, step.does, step.should) for step in part_of("Each circuit").steps]
    assert found == [
        moved("GYRO", "gets ready", "radio", 0.06, "0.06 A"),
        moved("AIRSPEED", "shows at the transmitter", "radio", 0.03, "0.03 A"),
        *(moved(f"AIL {s} IN", f"{aileron}, channel {n}", "radio", 2.8, "0.03 A") for n, s in enumerate("LR", 1)),
        *(
            moved(f"AIL {s} OUT", f"18 mm up, 12 mm down, channel {n}", "radio", 2.8, "0.03 A")
            for n, s in enumerate("LR", 3)
        ),
        *(moved(f"FLAP {s}", f"{flap}, channel {n}", "radio", 3.2, "0.03 A") for n, s in enumerate("LR", 5)),
        *(moved(f"ELEV {s}", f"{elevator}, channel {n}", "radio", 3.2, "0.03 A") for n, s in enumerate("LR", 7)),
        moved("RUDDER", "38 mm each way, channel 9", "radio", 3.4, "0.03 A"),
        moved("STEER", "20 degrees each way, channel 9", "radio", 1.8, "0.02 A"),
        moved("BAY DOOR", "moves, channel 12", "radio", 1.5, "0.02 A"),
        moved("LEG N", "up, down, way clear", "service", 2.0, "0 A"),
        *(moved(f"LEG {s}", "up, down, way clear", "service", 2.2, "0 A") for s in "LR"),
        *(moved(f"BRAKE {s}", "holds its wheel, lets go", "service", 0.6, "0 A") for s in "LR"),
        *(moved(f"POS {s}", "comes on", "service", 0.15, "0.15 A") for s in "LR"),
        *(moved(f"LAND {s}", "comes on", "service", 0.8, "0.80 A") for s in "LR"),
        *(moved(f"BEACON {s}", "comes on", "radio", 0.12, "0.12 A") for s in "LR"),
        moved("TAIL LIGHT", "comes on", "service", 0.1, "0.10 A"),
        moved("SMOKE", "runs, channel 14", "service", 4.5, "1.8 A"),
        moved("SMOKE VALVE", "opens and shuts, channel 14", "radio", 0.3, "0 A"),
        moved("CAMERA", "works", "service", 0.5, "0.50 A"),
    ]


def test_each_fail_safe_is_what_its_builder_wrote_with_a_box_for_each_receiver_that_gives_it() -> None:
    either, first, second = ("receiver-a", "receiver-b"), ("receiver-a",), ("receiver-b",)
    found = [(step.name, step.does, step.boxes) for step in part_of("Fail-safe").steps]
    surfaces = [f"{name} {s}{more}" for name, more in (("AIL", " IN"), ("AIL", " OUT"), ("FLAP", "")) for s in "LR"]
    assert found == [
        *((name, "hold", either) for name in surfaces),
        *((name, "centre", either) for name in ("ELEV L", "ELEV R", "RUDDER")),
        ("STEER", "centre", first),
        ("BAY DOOR", "hold", either),
        *((name, "hold", second) for name in ("GEAR", "BRAKE", "LIGHTS")),
        *((name, "off", second) for name in ("SMOKE", "SMOKE VALVE")),
        *((name, "off", first) for name in ("THR L", "THR R")),
    ]


def in_order(stem: str) -> str:
    """Return all texts of a document as they follow each other."""
    pdf = make_paperwork(harness_of(EXAMPLES / "fulmar"), Choice(stems=(stem,))).files[f"{stem}.pdf"]
    return " ".join(text.text for page in sheets_of(pdf) for text in page.texts)


def test_the_page_says_each_step_of_each_part_in_order_with_where_it_is_ticked_and_read() -> None:
    said = in_order("first-power").replace(" continued", "")
    at = 0
    for number, part in enumerate(parts(), 1):
        for text in (f"{number} {part.title}", part.says, part.caution):
            at = said.index(text, at) if text else at
        if any(len(step.boxes) > 1 for step in part.steps):
            assert said.index("receiver-a receiver-b", at) < said.index(part.steps[0].name, at)
        for step in part.steps:
            words = " ".join(filter(None, (step.name, step.does, step.should)))
            at = said.index(words, at) + len(words)
        at = said.index(f"Stop if {part.stop}", at) if part.stop else at


def test_the_page_says_what_is_tested_behind_each_cover_by_number() -> None:
    said = in_order("fault-finder")
    found = fault_content.content(harness_of(EXAMPLES / "fulmar")).faults
    at = said.index("Volts: packs on. Rings: packs and both ends unplugged.")
    cover = ""
    for number, fault in enumerate(found, 1):
        if fault.cover != cover:
            cover = fault.cover
            at = said.index(f" {cover} ", at)
        words = f"{number} {fault.name}: {fault.contacts} {fault.reads}"
        at = said.index(words, at) + len(words)
    functions = harness_of(EXAMPLES / "fulmar").losses.functions
    at = said.index("One alone is dead: quickest cover first", at)
    for function in functions:
        at = said.index(f" {function.label} ", at)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_the_record_says_of_each_step_what_the_page_says(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    told = sections_of(record_of(harness).whole)["First power-up"]
    wanted = []
    for number, part in enumerate(power_content.content(harness).parts, 1):
        wanted.append(f"{number} {part.title}: {part.says}" if part.says else f"{number} {part.title}")
        wanted += [f"  caution: {part.caution}"] * bool(part.caution)
        for step in part.steps:
            should = f"should read {step.should}" if step.should else ""
            wanted.append("  " + ", ".join(filter(None, (step.name, step.does, should, ", ".join(step.boxes)))))
        wanted += [f"  stop if {part.stop}"] * bool(part.stop)
    assert told == wanted
