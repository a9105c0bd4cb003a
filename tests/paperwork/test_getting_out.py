"""Everything to get out besides wire: counts by hand for the smallest example, clips along a way. Common practice."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from pathlib import Path

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.model import Harness
from docgen.paperwork.getting_out import wanted


def counts(harness: Harness, kind: str) -> dict[str, int]:
    return {item.what: item.count for item in wanted(harness) if item.says.startswith(kind)}


def test_wren_needs_what_a_hand_counts() -> None:
    harness = harness_of(EXAMPLES / "wren")
    # Three contacts at each of two joints; three servo leads of three wires plug into the receiver and three into
    # servos; the supply has two at either end: a tenth more each, rounded up.
    assert counts(harness, "contacts") == {
        "block-6 pins": 7,
        "block-6 sockets": 7,
        "servo-3 pins": 10,
        "servo-3 sockets": 10,
        "power-2 pins": 3,
        "power-2 sockets": 3,
    }
    assert counts(harness, "housings") == {
        "block-6 for pins": 2,
        "block-6 for sockets": 2,
        "servo-3 for pins": 3,
        "servo-3 for sockets": 3,
        "power-2 for pins": 1,
        "power-2 for sockets": 1,
    }
    # Mated where a servo's own lead is plugged in; five runs over sharp edges have a guard.
    assert counts(harness, "retainers") == {"servo-3": 3}
    assert sum(counts(harness, "collars").values()) == 2 * 5
    # At four halves and three coils, where ways part at the tray, and between: 260 mm once, 235 mm once on each side,
    # 1140 mm seven times, 745 mm four times on each side.
    assert counts(harness, "clips") == {"as thick as the bundle": 4 + 3 + 1 + 1 + 2 * 1 + 7 + 2 * 4}


def box(pieces: int) -> Mapping[str, str]:
    """Write one lead of 600 mm over as many runs, from a unit to what has its own lead."""
    stops = ["tray", *(f"stop-{i}" for i in range(1, pieces)), "end"]
    places = "".join(f"  {stop}: {{assembly: hull, access: hatch}}\n" for stop in stops)
    runs = "".join(
        f"  - {{between: [{one}, {other}], length: {600 / pieces:g} mm}}\n" for one, other in pairwise(stops)
    )
    return {
        "aircraft.yaml": "aircraft: {name: Box, description: one way, marks: B-1, revision: A, date: 2026-01-01}\n"
        f"places:\n{places}runs:\n{runs}",
        "harness.yaml": "equipment:\n"
        "  unit: {kind: other, place: tray, ports: [{plug: servo-3, names: [A], contacts: pins}]}\n"
        "  far: {kind: other, place: end, plug: servo-3, lead: 100 mm}\n"
        "circuits:\n  only: {from: unit A, to: far, lead: lone-26}\n",
    }


@pytest.mark.parametrize("pieces", [1, 2, 5, 8])
def test_clips_are_counted_along_the_way_however_it_is_written(
    pieces: int, written_folder: Callable[[Mapping[str, str]], Path]
) -> None:
    harness = harness_of(written_folder(box(pieces)))
    # 600 mm: a clip every 150 mm between its ends is three.
    assert counts(harness, "clips") == {"as thick as the bundle": 3}
