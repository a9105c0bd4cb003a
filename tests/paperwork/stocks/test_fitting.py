"""Type on labels: alike on pieces of one size, and as large as each of them has room for."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.basics.findings import Finding
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.text import LabelText, Way, Zone, fitted, fitted_way
from docgen.paperwork.stocks.findings import TUBE
from docgen.paperwork.stocks.fitting import Piece, Place, fit_all

if TYPE_CHECKING:
    from docgen.paperwork.labels.content import LabelItem

STEP = 2**0.5  # ISO 3098: from one height to the next
LEAST_MM = 1.6


@cache
def some_label() -> LabelItem:
    return wire_labels.content(harness_of(EXAMPLES / "wren")).labels[0]


def label(function: str, here: str = "receiver 4", far: str = "rudder", mark: str = "C5A22") -> LabelItem:
    return replace(some_label(), text=LabelText(function, here, far, mark))


def place(length: float, high: float, size: float = 1.0, shrinks_to: float = 1.0, **more: object) -> Place:
    zone = Zone((length, length), high, 1.0, 0.4, shrinks_to)
    return Place(zone, size=(size, "tube"), **more)  # type: ignore[arg-type]


def heights(piece: Piece) -> tuple[float, float]:
    """Return the heights of the function and of what is small."""
    function = next(text for text in piece.label.texts if text.bold)
    return function.height_mm, min(text.height_mm for text in piece.label.texts)


def grown(seed: int) -> list[tuple[LabelItem, list[Place | Finding]]]:
    """Return labels on pieces of a few sizes, as of tubes that shrink to a third or half, or of paper."""
    chance = random.Random(seed)
    sizes = [(chance.uniform(30, 70), chance.uniform(4, 14), chance.choice([1.0, 1.0, 0.6, 0.45])) for _ in range(3)]
    some: list[tuple[LabelItem, list[Place | Finding]]] = []
    for _ in range(chance.randint(2, 12)):
        number = chance.randrange(3)
        length, high, shrinks = sizes[number]
        name = "".join(chance.choice("abcdefgh") for _ in range(chance.randint(2, 9))).upper()
        there = place(length, high, float(number), shrinks * chance.choice([1.0, 0.9]))
        some.append((label(name), [there]))
    return some


def way_of(piece: Piece) -> Way:
    """Return what a label says, told by its words."""
    said = sorted(word for text in piece.label.texts for word in text.text.split() if word != "·")
    of = piece.item.text
    return next(way for way in of.ways if sorted(" ".join([of.function, way.here, *way.small]).split()) == said)


def has_room(piece: Piece, small: float, function: float) -> bool:
    """Tell whether a label can say as much with type of these heights."""
    found = fitted_way(piece.item.text.function, way_of(piece), piece.place.zone, small)
    return found is not None and found.function_mm >= function - 1e-9


@pytest.mark.parametrize("seed", range(40))
def test_type_is_alike_on_pieces_of_a_size_and_no_larger_step_has_room_on_all(seed: int) -> None:
    pieces, _ = fit_all(grown(seed), LEAST_MM)
    every = sorted({height for piece in pieces for text in piece.label.texts for height in [text.height_mm]})
    assert len(every) <= 3
    for piece in pieces:
        assert heights(piece)[1] * piece.place.zone.shrinks_to >= LEAST_MM - 1e-9
    for piece in pieces:
        there, (function, small) = piece.place, heights(piece)
        alike = [one for one in pieces if one.place.size == there.size and heights(one)[1] == small]
        same = [one for one in alike if one.place.zone.shrinks_to == there.zone.shrinks_to]
        assert {heights(one)[0] for one in same} == {function}
        larger = [height for height in every if height > function + 1e-9]
        assert not any(all(has_room(one, small, height) for one in alike) for height in larger)


@pytest.mark.parametrize("seed", range(40))
def test_what_is_small_grows_as_long_as_the_function_still_leads_by_a_step(seed: int) -> None:
    chance = random.Random(seed)
    there = place(chance.uniform(25, 80), chance.uniform(4, 16))
    one = label("".join(chance.choice("ABCDEFGH") for _ in range(chance.randint(2, 7))))
    ((piece,), _) = fit_all([(one, [there])], LEAST_MM)
    said = fitted(one.text, there.zone, LEAST_MM)
    assert said is not None
    # Three heights on a sheet: the least, and two steps above it.
    small = LEAST_MM
    for larger in (LEAST_MM * STEP, LEAST_MM * 2):
        led = fitted_way(one.text.function, said.way, there.zone, larger)
        small = larger if led is not None and led.function_mm >= STEP * larger - 1e-6 else small
    most = fitted_way(one.text.function, said.way, there.zone, small)
    assert most is not None
    steps = [
        height for height in (LEAST_MM, LEAST_MM * STEP, LEAST_MM * 2) if small <= height <= most.function_mm + 1e-6
    ]
    assert heights(piece) == pytest.approx((max(steps), small))


@pytest.mark.parametrize(("shrinks", "quarters"), [(0.9, 2), (0.8, 3), (0.75, 4), (0.7, 5)])
def test_type_that_shrinks_is_the_least_quarter_of_a_step_over_what_it_must_be(shrinks: float, quarters: int) -> None:
    # 1.6 mm over 0.9, 0.8, 0.75 and 0.7 are 1.78, 2, 2.13 and 2.29 mm; steps 1.6, 1.74, 1.90, 2.07, 2.26 and 2.47 mm.
    ((piece,), _) = fit_all([(label("A B C D"), [place(31, 10, shrinks_to=shrinks)])], LEAST_MM)
    assert heights(piece)[1] == pytest.approx(LEAST_MM * STEP ** (quarters / 4))


# 1.6 mm over 0.5 are 3.2 mm, 8 quarters; over 0.46 they are 3.48 mm, under 9 quarters; over 0.7, 2.29 mm, under 5.
@pytest.mark.parametrize(("other", "shrinks", "quarters"), [(1.0, 0.7, 5), (0.5, 0.46, 9)])
def test_the_largest_type_is_a_step_over_the_largest_that_must_be(other: float, shrinks: float, quarters: int) -> None:
    tight, roomy = (label("A B C D"), [place(62, 20, 1.0, other)]), (label("RUD"), [place(99, 30, 2.0, shrinks)])
    ((_, piece), _) = fit_all([tight, roomy], LEAST_MM)
    assert heights(piece) == pytest.approx((LEAST_MM * STEP ** (quarters / 4 + 1),) * 2)


def test_a_label_goes_where_it_says_where_its_end_goes_else_where_it_is_printed_at_all() -> None:
    long = label("RUDDER", "receiver-on-the-tray")
    small, large = place(20, 4, beside="small"), place(60, 8, beside="large")
    for places, taken in (([small, large], "large"), ([large, small], "large"), ([small], "small")):
        ((piece,), findings) = fit_all([(long, places)], LEAST_MM)
        assert piece.place.beside == taken
        assert [finding.name for finding in findings] == (["type"] if taken == "small" else [])
    # The first of two at which it says no more than its function.
    ((piece,), _) = fit_all([(long, [small, place(21, 4, beside="other")])], LEAST_MM)
    assert piece.place.beside == "small"


def test_what_is_found_at_a_place_counts_only_where_no_other_place_does() -> None:
    found = some_label().finding(TUBE, "no tube.", "Add one.")
    ((piece,), findings) = fit_all([(label("RUD"), [found, place(60, 8)])], LEAST_MM)
    assert (piece.item.text.function, findings) == ("RUD", [])
    assert fit_all([(label("RUD"), [found])], LEAST_MM) == ([], [found])


@pytest.mark.parametrize(
    ("high", "shrinks", "end", "do"),
    [
        (3.0, 1.0, "1.6 mm high.", "Print it on another stock, or "),
        (3.3, 1.0, "1.6 mm high.", "Give the circuit a shorter `label:`, or "),
        (3.3, 0.9, "1.6 mm high when shrunk.", "Print it on another stock, or "),
        (3.6, 0.9, "1.6 mm high when shrunk.", "Give the circuit a shorter `label:`, or "),
    ],
)
def test_what_can_not_be_read_says_whether_it_is_too_long_or_its_piece_too_low(
    high: float, shrinks: float, end: str, do: str
) -> None:
    """There is room for type of 1.6 mm, half as high again, with 0.4 mm clear above and below, from 3.2 mm on."""
    pieces, (found,) = fit_all([(label("W" * 60), [place(30, high, shrinks_to=shrinks)])], LEAST_MM)
    assert pieces == []
    assert found.sentence.endswith(end)
    assert found.do.startswith(do)


@pytest.mark.parametrize(("of_wire", "only"), [(True, "function and mark"), (False, "function")])
def test_what_has_no_room_for_its_place_says_what_it_has_room_for(of_wire: bool, only: str) -> None:
    long = label("RUD", "receiver-on-the-tray-behind-former")
    long = replace(long, text=replace(long.text, of_wire=of_wire))
    ((piece,), (found,)) = fit_all([(long, [place(30, 4)])], LEAST_MM)
    assert found.sentence.endswith(f"has room for its {only} only, not for `{long.text.here}`.")
    assert ("C5A22" in [text.text for text in piece.label.texts]) == of_wire
