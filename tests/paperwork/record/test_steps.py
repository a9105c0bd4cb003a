"""What the record says of first power-up and of what is dead, against what a hand works out of the smallest example."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recorded import entry

if TYPE_CHECKING:
    from recorded import Sections


def test_each_part_of_first_power_up_has_its_number_its_steps_and_when_to_stop(wren: Sections) -> None:
    told = wren["First power-up"]
    assert [line.split(" ")[0] for line in told if line[0].isdecimal()] == [str(number) for number in range(1, 12)]
    bare = entry(told, "3 Bare wiring, one supply after another")
    # Between a pack's 6.4 V empty and 8.4 V full; the supply of the receiver is the only wire without a load.
    assert bare[1] == "pack, supply to 7.4 V (fault 3), should read 0 A"
    assert bare[2] == "RX BATT, receiver BATT 2+ 1− (fault 2), should read 7.4 V"
    assert bare[3].startswith("stop if it draws anything")
    # 0.15 + 3 × 0.02 A at rest and the 2.4 A of one that stalls, to a tenth above.
    moves = entry(told, "5 Each circuit, one by one")
    assert "RUD, 40 mm each way, channel 4, limit 2.7 A, should read +0.02 A" in moves
    # 277.5 mAh a flight, as beside the tables of `docgen check`.
    after = entry(told, "11 After the first flights")
    assert after[1] == "pack, charge put back a flight; plug not warm, should read 278 mAh"


def test_what_is_lost_has_the_cover_contacts_and_volts_where_it_is_tested(wren: Sections) -> None:
    # Contact 2 is the positive of servo and of power plugs; packs from empty to full.
    assert wren["Where that is tested"] == [
        "1 receiver, canopy, its supply plug, + to −, 6.4 to 8.4 V",
        "2 lead RX BATT, canopy, receiver BATT 2 (+) to 1 (−), 6.4 to 8.4 V",
        "3 pack, nose hatch, its plug, + to −, 6.4 to 8.4 V",
        "4 left-root, wing off, pins straight; AIL L 2 (+) to 1 (−), 6.4 to 8.4 V",
        "5 right-root, wing off, pins straight; AIL R 2 (+) to 1 (−), 6.4 to 8.4 V",
    ]


def test_a_function_alone_is_looked_for_at_each_of_its_plugs_and_joints(wren: Sections) -> None:
    assert wren["One function alone is dead"] == [
        "AIL L alone: canopy: receiver 1; servo cover: left-aileron; wing off: left-root 1–3",
        "AIL R alone: canopy: receiver 2; servo cover: right-aileron; wing off: right-root 1–3",
        "RUD alone: canopy: receiver 4; tail hatch: rudder",
    ]
