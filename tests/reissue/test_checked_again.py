"""What is checked again with packs in, by what each outlet, channel and unit has of its own.

Each outlet has its own reversing, trim, end points and gyro sense, and a receiver keeps fail-safes and all that is set:
common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest
from reissue import small
from reissue.small import aileron, circuit, lead, port, rudder, servo, state, wires
from reissue.test_small_states import two_on_the_common

from docgen.definition.issued import IssuedCircuit, IssuedEquipment, IssuedPorts, IssuedSettings, State
from docgen.reissue.compare import compare
from docgen.reissue.differences import Changed
from docgen.reissue.facts import Fact
from docgen.reissue.issuing import alike

MOVED = ("direction", "centre", "ends")
TILTED = (*MOVED, "gyro")


def ports(plug: str, *names: str) -> IssuedPorts:
    return IssuedPorts(names=names, plug=plug, gender="pins", order=tuple(small.ROLES))


def unit(kind: str, *names: str, **more: Any) -> IssuedEquipment:
    said = {"kind": kind, "place": "tray", "ports": (ports("servo-3", *names),)}
    return small.made(IssuedEquipment, said, more)


def wired(ends: str, roles: str = "negative positive signal", **more: Any) -> IssuedCircuit:
    """Return a circuit of one lead, with wires of these roles, between the ports of ends such as `gyro L > canard`."""
    start, goal = ((*end.split(), "")[:2] for end in ends.split(" > "))
    of = {role: wire for role, wire in wires("C5 C5 C6", "A").items() if role in roles.split()}
    return circuit("X", ends, {"A": lead(port(start[0], start[1], "tray"), port(goal[0], goal[1], "tray"), of)}, **more)


EQUIPMENT = {
    "receiver": small.receiver(),
    "receiver-b": small.receiver(),
    "gyro": unit("gyro", "IN", "GAIN", "L", "R"),
    "left": servo("nose"),
    "right": servo("nose"),
    "lamp": unit("light"),
    "switch": unit("power switch", "IN", "ONE", "TWO", working_a=0.01),
    "pump": unit("pump", "POWER", "RX", most_v=9.0),
}
CIRCUITS = {
    "into": wired("receiver 3 > gyro IN", "negative signal", channel=3, failsafe="hold"),
    "left": wired("gyro L > left"),
    "right": wired("gyro R > right"),
    "lamp": wired("receiver 4 > lamp"),
    "supply": wired("switch ONE > pump POWER", "negative positive"),
}


def tail_and_nose(issue: str = "A", **more: Any) -> State:
    """Return the small aircraft with a gyro between the receiver and two surfaces, a lamp, and a pump on a switch."""
    of = dict(state(issue))
    circuits = {**of["circuits"], **CIRCUITS, **more.pop("circuits", {})}
    equipment = {**of["equipment"], **EQUIPMENT, **more.pop("equipment", {})}
    return state(issue, circuits=circuits, equipment=equipment, **more)


def checks(before: dict[str, Any] | None = None, **more: Any) -> dict[str, tuple[str, ...]]:
    return compare(tail_and_nose(**before or {}), tail_and_nose("B", **more)).checks


# What goes elsewhere


def test_surfaces_exchanged_at_outlets_of_a_gyro_are_set_up_anew_and_tilted() -> None:
    exchanged = {"left": wired("gyro R > left"), "right": wired("gyro L > right")}
    assert checks(circuits=exchanged) == {"left": TILTED, "right": TILTED}


def test_a_surface_at_another_outlet_of_a_unit_leaves_what_else_hangs_there_alone() -> None:
    assert checks(circuits={"left": wired("gyro GAIN > left")}) == {"left": TILTED}


def test_a_surface_on_another_channel_or_port_is_set_up_anew_with_its_failsafe() -> None:
    for other in (
        aileron(channel=7),
        aileron().model_copy(update={"ends": (("receiver", "1"), ("aileron",))}),
    ):
        assert checks(circuits={"aileron": other}) == {"aileron": (*MOVED, "fail-safe")}


def test_another_servo_that_gets_its_supply_behind_a_joint_has_volts_and_idle_current_read() -> None:
    """Up to the joint goes a signal with its negative; the positive joins it there."""
    said = aileron()
    signal = said.leads["A"].model_copy(
        update={"wires": {role: wire for role, wire in said.leads["A"].wires.items() if role != "positive"}}
    )
    circuits = {"aileron": said.model_copy(update={"leads": said.leads | {"A": signal}})}
    other = {"equipment": {"aileron": servo("wing", working_a=0.9)}}
    assert checks({"circuits": circuits}, circuits=circuits, **other) == {
        "aileron": ("volts", *MOVED, "fail-safe", "idle")
    }


def test_from_another_receiver_the_volts_that_a_servo_gets_are_read_too() -> None:
    assert checks(circuits={"left": wired("receiver-b 2 > left")}) == {"left": ("volts", *MOVED)}


def test_what_is_no_surface_is_seen_to_work_from_another_port() -> None:
    assert checks(circuits={"lamp": wired("receiver 2 > lamp")}) == {"lamp": ("works",)}


def test_of_a_supply_from_another_outlet_the_volts_are_read() -> None:
    other = wired("switch TWO > pump POWER", "negative positive")
    assert checks(circuits={"supply": other}) == {"supply": ("volts", "works")}


def test_of_outlets_that_are_no_group_the_volts_are_read() -> None:
    """One group may be regulated, and another not."""
    apart = small.made(
        IssuedEquipment,
        {"kind": "receiver", "place": "tray"},
        {"ports": (ports("servo-3", "1", "2", "3"), ports("servo-3", "4"))},
    )
    both: dict[str, Any] = {"equipment": {"receiver": apart}}
    assert checks(both, **both, circuits={"rudder": rudder("2")}) == {"rudder": MOVED}
    assert checks(both, **both, circuits={"rudder": rudder("4"), "lamp": wired("receiver 2 > lamp")}) == {
        "rudder": ("volts", *MOVED),
        "lamp": ("volts", "works"),
    }


def test_an_input_of_a_unit_on_another_channel_has_all_behind_it_set_up_anew() -> None:
    other = wired("receiver 3 > gyro IN", "negative signal", channel=8, failsafe="hold")
    assert checks(circuits={"into": other}) == {"into": ("works", "fail-safe"), "left": TILTED, "right": TILTED}


def test_inputs_of_a_gyro_exchanged_have_all_behind_them_set_up_anew_and_tilted() -> None:
    both: dict[str, Any] = {"circuits": {"other": wired("receiver 4 > gyro GAIN")}}
    exchanged = {
        "into": wired("receiver 3 > gyro GAIN", channel=3, failsafe="hold"),
        "other": wired("receiver 4 > gyro IN"),
    }
    for drives in ({}, {"gyro": IssuedSettings(drives={"IN": ("L",), "GAIN": ("R",)})}):
        settled = {"settings": drives}
        found = checks(both | settled, **settled, circuits=exchanged)
        assert found == {"into": ("works", "fail-safe"), "left": TILTED, "right": TILTED, "other": ("works",)}


def test_an_input_led_to_one_that_works_some_outlets_has_those_set_up_anew() -> None:
    drives = {"gyro": IssuedSettings(drives={"IN": ("L",), "GAIN": ("R",)})}
    other = {"into": wired("receiver 3 > gyro GAIN", channel=3, failsafe="hold")}
    assert checks({"settings": drives}, settings=drives, circuits=other) == {
        "into": ("works", "fail-safe"),
        "right": TILTED,
    }


def test_a_receiver_heard_at_another_of_its_ports_has_all_behind_what_hears_it_set_up_anew() -> None:
    heard: dict[str, Any] = {
        "equipment": {"box": unit("power unit", "RX", "1")},
        "circuits": {"hears": wired("box RX > receiver-b 1"), "left": wired("box 1 > left")},
    }
    other = {"equipment": heard["equipment"], "circuits": heard["circuits"] | {"hears": wired("box RX > receiver-b 2")}}
    assert checks(heard, **other) == {"hears": ("works",), "left": MOVED}


def test_servos_of_one_type_exchanged_where_they_lie_are_set_up_anew() -> None:
    """Each is mounted its own way around: common practice, no source."""
    exchanged = {"left": wired("gyro L > right"), "right": wired("gyro R > left")}
    assert checks(circuits=exchanged) == {"left": TILTED, "right": TILTED}


def test_loads_written_in_another_order_are_led_nowhere_else() -> None:
    orders = ((("lamp",), ("left",)), (("left",), ("lamp",)))
    was, now = (wired("receiver 4 > lamp").model_copy(update={"ends": (("receiver", "4"), *some)}) for some in orders)
    assert checks({"circuits": {"lamp": was}}, circuits={"lamp": now}) == {}


def test_behind_an_input_that_works_some_outlets_only_those_are_set_up_anew() -> None:
    other = {"into": wired("receiver 3 > gyro IN", "negative signal", channel=8)}
    drives = {"gyro": IssuedSettings(drives={"IN": ("L",), "GAIN": ("R",)})}
    found = checks({"settings": drives}, settings=drives, circuits=other)
    assert found == {"into": ("works", "fail-safe"), "left": TILTED}


# Another unit


def test_behind_another_receiver_all_is_set_up_anew_with_every_failsafe_and_gyros_are_tilted() -> None:
    more = unit("receiver", "1", "2", "3", "4", "5", working_a=0.2)
    assert checks(equipment={"receiver": more}) == {
        "rudder": MOVED,
        "aileron": (*MOVED, "fail-safe"),
        "into": ("works", "fail-safe"),
        "left": TILTED,
        "right": TILTED,
        "lamp": ("works",),
    }


def test_behind_another_gyro_surfaces_are_set_up_anew_and_tilted() -> None:
    other = unit("gyro", "IN", "GAIN", "L", "R", working_a=0.1)
    assert checks(equipment={"gyro": other}) == {
        "into": ("works", "fail-safe"),
        "left": TILTED,
        "right": TILTED,
    }


def test_a_gyro_without_outlets_that_is_another_is_tilted_itself() -> None:
    both: dict[str, Any] = {"circuits": {"alone": wired("receiver 2 > level")}, "equipment": {"level": unit("gyro")}}
    other = {**both, "equipment": {"level": unit("gyro", working_a=0.1)}}
    assert checks(both, **other) == {"alone": ("volts", "gyro", "works", "idle")}


def test_a_receiver_that_only_sits_elsewhere_keeps_what_is_set_and_a_gyro_there_is_tilted() -> None:
    assert checks(equipment={"receiver": small.receiver(place="bay", plug_at="tray")}) == {}
    moved = checks(equipment={"gyro": unit("gyro", "IN", "GAIN", "L", "R", place="bay")})
    assert moved["left"] == moved["right"] == TILTED


def test_behind_another_switch_volts_are_read_and_nothing_beyond_is_set_up() -> None:
    fed = {"feed": wired("switch TWO > receiver-b", "negative positive"), "left": wired("receiver-b 1 > left")}
    both: dict[str, Any] = {"circuits": fed}
    other = {"switch": unit("power switch", "IN", "ONE", "TWO", working_a=0.02)}
    assert checks(both, **both, equipment=other) == {"supply": ("volts", "works"), "feed": ("volts", "works")}


def test_a_unit_that_feeds_its_receiver_is_behind_that() -> None:
    both: dict[str, Any] = {
        "equipment": {"box": unit("power unit", "RX", "1")},
        "circuits": {"hears": wired("box RX > receiver-b 1"), "left": wired("box 1 > left")},
    }
    other = {**both, "equipment": {**both["equipment"], "receiver-b": small.receiver(most_v=10.0)}}
    assert checks(both, **other) == {"hears": ("volts", "works", "idle"), "left": MOVED}


@pytest.mark.parametrize("kind", ["battery", "power switch", "regulator", "fuse", "key"])
def test_a_supply_hears_no_receiver_though_its_lead_has_a_wire_for_a_signal(kind: str) -> None:
    both: dict[str, Any] = {
        "equipment": {"source": unit(kind, "1", "2")},
        "circuits": {"feeds": wired("source 1 > receiver-b 1"), "lamp": wired("source 2 > lamp")},
    }
    other = {**both, "equipment": {**both["equipment"], "receiver-b": small.receiver(most_v=10.0)}}
    assert checks(both, **other) == {"feeds": ("volts", "works", "idle")}


def test_what_hangs_on_a_receiver_is_not_behind_the_unit_that_feeds_it() -> None:
    both: dict[str, Any] = {
        "equipment": {"box": unit("power unit", "RX", "1", "2")},
        "circuits": {
            "hears": wired("box RX > receiver-b 1"),
            "left": wired("box 1 > left"),
            "lamp": wired("receiver-b 2 > lamp"),
        },
    }
    other = {**both, "equipment": {"box": unit("power unit", "RX", "1", "2", working_a=0.1)}}
    assert checks(both, **other) == {"hears": ("works",), "left": MOVED}
    new = {**both, "circuits": {name: one for name, one in both["circuits"].items() if name != "hears"}}
    assert checks(new, **both) == {"hears": ("volts", "works", "idle"), "left": MOVED}


def test_what_is_planned_or_left_in_behind_another_unit_is_not_checked() -> None:
    dead = {"left": wired("gyro L > left", planned=True), "right": wired("gyro R > right", left_in=True)}
    both: dict[str, Any] = {"circuits": dead}
    other = {"gyro": unit("gyro", "IN", "GAIN", "L", "R", working_a=0.1)}
    assert checks(both, **both, equipment=other) == {"into": ("works", "fail-safe")}


def test_a_servo_that_is_another_behind_a_gyro_is_tilted_too() -> None:
    assert checks(equipment={"left": servo("nose", working_a=0.9)}) == {"left": ("volts", *TILTED, "idle")}


# What is set, and what packs are


LEG: dict[str, Any] = {"equipment": {"left": servo("nose", kind="gear leg")}}
PACK: dict[str, Any] = {
    "circuits": {"feed": wired("pack > switch IN", "negative positive")},
    "equipment": {"pack": unit("battery")},
}


def settled(base: dict[str, Any], name: str, was: dict[str, Any], now: dict[str, Any]) -> Any:
    return compare(
        tail_and_nose(**base, settings={name: IssuedSettings(**was)}),
        tail_and_nose("B", **base, settings={name: IssuedSettings(**now)}),
    )


@pytest.mark.parametrize(
    ("field", "was", "now"), [("limit_s", 11.0, 14.0), ("stop_a", 1.8, 2.3), ("up_s", None, 9.0), ("down_s", 8.0, None)]
)
def test_a_leg_that_is_set_otherwise_is_told_and_timed_and_is_no_other_leg(field: str, was: Any, now: Any) -> None:
    found = settled(LEG, "left", {field: was}, {field: now})
    assert found.equipment == (Changed("left", "left", (Fact(field, "", was, now),)),)
    assert found.checks == {"left": ("limit",)}


def test_a_limit_of_the_controller_is_for_all_its_legs() -> None:
    assert settled(LEG, "gyro", {"limit_s": 8.0}, {"limit_s": 9.0}).checks == {"left": ("limit",)}


def test_of_an_outlet_that_gives_other_volts_they_are_read() -> None:
    found = settled({}, "switch", {}, {"output_v": {"ONE": 7.4}})
    assert found.equipment == (Changed("switch", "switch", (Fact("output_v", "ONE", None, 7.4),)),)
    assert found.checks == {"supply": ("volts",)}


@pytest.mark.parametrize(
    ("field", "was", "now", "wanted"),
    [
        ("cells", 2, 3, {"supply": ("volts",), "feed": ("volts",)}),
        ("full_v", 8.4, 7.2, {"supply": ("volts",), "feed": ("volts",)}),
        ("empty_v", 6.6, 6.0, {}),
        ("capacity_mah", 4000.0, 3000.0, {}),
        ("resistance_ohm", 0.02, None, {}),
        ("rating_a", 40.0, 30.0, {}),
    ],
)
def test_a_pack_of_other_figures_is_told(field: str, was: Any, now: Any, wanted: Any) -> None:
    found = settled(PACK, "pack", {field: was}, {field: now})
    assert found.equipment == (Changed("pack", "pack", (Fact(field, "", was, now),)),)
    assert found.checks == wanted


BEHIND: dict[str, Any] = {
    "circuits": {
        **PACK["circuits"],
        "aux": wired("switch TWO > sequencer POWER", "negative positive"),
        "gear": wired("receiver 2 > sequencer GEAR"),
        "door": wired("sequencer DOOR > left"),
        "leg": wired("sequencer LEG > right"),
        "cell": wired("receiver-b 3 > lamp", "negative signal"),
    },
    "equipment": {
        **PACK["equipment"],
        "sequencer": unit("gear controller", "POWER", "GEAR", "DOOR", "LEG"),
        "right": servo("nose", kind="gear leg"),
    },
}
FED = {"sequencer": IssuedSettings(fed_by=("POWER",))}


def supplied(was: dict[str, Any], now: dict[str, Any]) -> Any:
    """Return what is checked where packs and outlets give other volts."""
    before, after = ({**FED, **{name: IssuedSettings(**some) for name, some in of.items()}} for of in (was, now))
    return checks({**BEHIND, "settings": before}, **BEHIND, settings=after)


def test_behind_a_pack_of_other_volts_all_that_it_feeds_is_read_and_gear_is_timed() -> None:
    """More volts drive a leg faster: its way takes less time, and its controller's limit is another share of that."""
    read = dict.fromkeys(("supply", "feed", "aux", "door"), ("volts",))
    assert supplied({"pack": {"full_v": 8.4}}, {"pack": {"full_v": 8.8}}) == {**read, "leg": ("volts", "limit")}


def test_behind_a_regulated_outlet_only_other_volts_of_that_are_read() -> None:
    pack = {"pack": {"full_v": 8.4}}
    aux, more = ({"switch": {"output_v": {"TWO": volts}}} for volts in (6.0, 7.4))
    behind = {"aux": ("volts",), "door": ("volts",), "leg": ("volts", "limit")}
    assert supplied(pack | aux, pack | more) == behind
    assert supplied(pack, pack | aux) == behind
    assert supplied(pack | aux, {"pack": {"full_v": 8.8}} | aux) == {"supply": ("volts",), "feed": ("volts",)}


def test_of_wires_that_are_a_motors_alone_no_volts_are_read_though_the_leg_is_timed() -> None:
    motors = {"LEFT": {"part": "A"}, "RIGHT": {"part": "B"}}
    leg = wired("sequencer LEG > right", "negative positive")
    ends = leg.leads["A"]
    turned = ends.model_copy(update={"wires": dict(zip(motors, ends.wires.values(), strict=True))})
    both = {**BEHIND, "circuits": {**BEHIND["circuits"], "leg": leg.model_copy(update={"leads": {"A": turned}})}}
    was, now = ({**FED, "pack": IssuedSettings(full_v=volts)} for volts in (8.4, 8.8))
    assert checks({**both, "settings": was}, **both, settings=now)["leg"] == ("limit",)


def test_over_a_common_other_volts_are_read_at_what_hangs_on_it() -> None:
    """Aileron and flap take their positive from the common at which the feed ends; the lamp hangs on the receiver."""

    def state_with(issue: str, volts: float) -> State:
        fixed = small.half("root", "fixed", "root")
        positive = {"positive": wires("C7 C7 C8", "A")["positive"].model_copy(update={"at": (("1",), ("7", "8"))})}
        feed = circuit(
            "FEED", "switch ONE > root positive", {"A": lead(port("switch", "ONE", "tray"), fixed, positive)}
        )
        of = {**dict(two_on_the_common().circuits), "feed": feed, "lamp": CIRCUITS["lamp"]}
        joint = {"root": small.root(commons={"plus": ("7", "8")})}
        settings = {"switch": IssuedSettings(output_v={"ONE": volts})}
        return tail_and_nose(issue, disconnects=joint, circuits=of, settings=settings)

    found = compare(state_with("A", 6.0), state_with("B", 7.4)).checks
    assert found == dict.fromkeys(("aileron", "flap", "feed", "supply"), ("volts",))


def test_outlets_that_another_input_works_are_set_up_anew() -> None:
    found = settled({}, "gyro", {"drives": {"IN": ("L", "R")}}, {"drives": {"IN": ("L",), "GAIN": ("R",)}})
    assert found.equipment[0].facts == (Fact("drives", "IN", "L, R", "L"), Fact("drives", "GAIN", None, "R"))
    assert found.checks == {"left": TILTED, "right": TILTED}
    assert settled({}, "gyro", {}, {"drives": {"IN": ("L",)}}).checks == {}, "it was not written down before"


def test_what_feeds_a_unit_and_how_it_keeps_feeds_apart_is_told() -> None:
    was, now = {"isolates": True, "fed_by": ("IN",)}, {"fed_by": ("IN", "ONE")}
    found = settled({}, "switch", was, now)
    facts = Fact("isolates", "", True, None), Fact("fed_by", "", "IN", "IN, ONE")
    assert found.equipment == (Changed("switch", "switch", facts),)


def test_of_a_state_that_keeps_no_settings_nothing_is_claimed() -> None:
    settings = {"pack": IssuedSettings(cells=2, full_v=8.4), "left": IssuedSettings(limit_s=11.0)}
    for was, now in ((None, settings), (settings, None), ({}, {})):
        found = compare(tail_and_nose(**LEG, settings=was), tail_and_nose("B", **LEG, settings=now))
        assert not found.has_any


def test_an_issue_that_an_earlier_version_kept_without_settings_is_not_another_for_that() -> None:
    now, without, other = (state(settings=of) for of in ({"pack": IssuedSettings(cells=2)}, None, {}))
    assert [alike(now, was) for was in (now, without, other)] == [True, True, False]
    assert alike(without, now)
