"""Lines of a text: no wider than the room, each word whole or broken where it is read best."""

from __future__ import annotations

import pytest

from docgen.paperwork.typesetting.typeface import unbroken, width_mm, wrapped


@pytest.mark.parametrize(
    ("text", "broken"),
    [
        ("left- and right-motor-pack", ["left- and", "right-motor-", "pack"]),
        ("right-motor-pack", ["right-motor-", "pack"]),
        ("rightmotorpack", ["rightmotorpac", "k"]),
        ("a-rightmotorpack", ["a-", "rightmotorpac", "k"]),
        # Not behind one that it begins with.
        ("-rightmotorpack", ["-rightmotorpa", "ck"]),
        ("-", ["-"]),
    ],
)
def test_a_word_wider_than_the_room_is_broken_behind_a_hyphen_where_it_has_one(text: str, broken: list[str]) -> None:
    room = width_mm("rightmotorpac", 2.0)
    assert width_mm("right-motor-p", 2.0) <= room < width_mm("right-motor-pack", 2.0)
    assert wrapped(text, room, 2.0) == broken


@pytest.mark.parametrize(
    ("room", "broken"),
    [
        ("cut to 2.5 mm", ["cut to 2.5 mm", "long"]),
        ("cut to 2.5", ["cut to", "2.5 mm", "long"]),
        ("2.5 mm", ["cut to", "2.5 mm", "long"]),
        # Where not even that has room it is broken as others are.
        ("cut to", ["cut to", "2.5", "mm", "long"]),
    ],
)
def test_what_is_kept_together_is_set_in_one_line_that_has_room_for_it(room: str, broken: list[str]) -> None:
    kept = f"cut to {unbroken('2.5 mm')} long"
    assert wrapped(kept, width_mm(room, 2.0) + 0.01, 2.0) == broken
