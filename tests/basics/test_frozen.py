"""Classes of values are compared, hashed and shown as the standard library's frozen dataclasses are."""

from __future__ import annotations

from dataclasses import astuple, dataclass, field, replace
from typing import Any

import pytest

from docgen.basics.frozen import frozen


def classes() -> list[tuple[Any, Any]]:
    """Return classes of ours, each with one of the same name and fields of the standard library."""
    ours: list[Any] = []
    theirs: list[Any] = []
    for made, make, with_slots in (
        (ours, frozen, frozen(slots=True)),
        (theirs, dataclass(frozen=True), dataclass(frozen=True, slots=True)),
    ):

        @make
        class Wire:
            gauge: int
            colour: str = "RD"
            seen: list[int] = field(default_factory=list, compare=False)
            hidden: int = field(default=1, repr=False)

        @with_slots
        class Spare:
            name: str

        @make
        class Nothing:
            pass

        @make
        class Lead(Wire):
            ends: tuple[str, ...] = ()

        made += [Wire, Spare, Nothing, Lead]
    return list(zip(ours, theirs, strict=True))


ALL = classes()
ARGUMENTS: list[list[tuple[Any, ...]]] = [
    [(22,), (22, "RD"), (22, "BK"), (24,), (22, "RD", [1]), (22, "RD", [], 2)],
    [("a",), ("b",), (("a",),)],
    [()],
    [(22,), (22, "RD", [], 1, ("a", "b")), (22, "RD", [3], 1, ("a", "b"))],
]


@pytest.mark.parametrize("index", range(len(ALL)))
def test_values_are_equal_hashed_and_shown_as_the_standard_library_s(index: int) -> None:
    ours, theirs = ALL[index]
    for one in ARGUMENTS[index]:
        assert repr(ours(*one)) == repr(theirs(*one))
        for other in ARGUMENTS[index]:
            alike = theirs(*one) == theirs(*other)
            assert (ours(*one) == ours(*other)) is alike
            assert (ours(*one) != ours(*other)) is not alike
            assert (hash(ours(*one)) == hash(ours(*other))) is alike


def test_values_of_other_classes_are_never_equal() -> None:
    wire, _, _, lead = (ours for ours, _ in ALL)
    assert wire(22) != lead(22)
    assert wire(22) != 22
    assert wire(22) != astuple(wire(22))


def test_a_value_is_changed_by_making_another() -> None:
    wire = ALL[0][0]
    assert replace(wire(22), colour="BK") == wire(22, "BK")


def test_slots_leave_no_room_for_more() -> None:
    with pytest.raises(AttributeError):
        ALL[1][0]("a").other = 1
