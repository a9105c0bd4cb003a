"""Cards in grey: neighbours are told apart by letters, nothing strikes them, and swatches carry letters that stand out.

Letters of 1.6 mm at least, in both views; contrast of 4.5 at least by the formulas of WCAG 2.1.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from card_aircraft import CONTACT, one_joint
from printed_cards import COLOURS, Box, Drawn, PrintedCard, PrintedView, cards_of_example, halves_of
from reference.colour_contrast import LEAST_CONTRAST
from resolved import EXAMPLES, harness_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

DOTS_PER_INCH = 600
PER_MM = DOTS_PER_INCH / 25.4
LEAST_MM = 1.6
BLOCK_14 = [str(i) for i in range(1, 15)]
STRIPES = ("WHRD", "WHBU", "RDWH", "BKYE", "GNYE", "YEBK", "GYPK")


def views_of(cards: list[PrintedCard], shells: list[tuple[str, ...]]) -> Iterator[PrintedView]:
    for card, contacts in zip(cards, shells, strict=False):
        yield from card.views(contacts)


def views_of_example(name: str) -> list[PrintedView]:
    harness = harness_of(EXAMPLES / name)
    shells = [joint.shell.contacts for joint in harness.disconnects.values() for _ in joint.halves]
    return list(views_of(halves_of(harness, cards_of_example(name)), shells))


def cards_of_joint(folder: Path, files: dict[str, str]) -> list[PrintedCard]:
    for file, text in files.items():
        (folder / file).write_text(text, "utf-8")
    return halves_of(harness_of(folder))


def ink_height_mm(grey: NDArray[np.uint8], box: Box) -> float:
    """Return the height of the dark ink in a box that holds one text."""
    part = grey[
        int((box.top - 0.1) * PER_MM) : int((box.bottom + 0.1) * PER_MM) + 1,
        int(box.left * PER_MM) : int(box.right * PER_MM) + 1,
    ]
    rows = np.flatnonzero((part < 128).any(axis=1))
    return float(rows[-1] - rows[0] + 1) / PER_MM


def assert_told_apart(views: list[PrintedView]) -> None:
    for view in views:
        grey = view.page.pixels(DOTS_PER_INCH)
        for text in view.numbers.values():
            assert ink_height_mm(grey, text.ink) >= LEAST_MM
        for texts in view.letters.values():
            for text in texts:
                assert text.capital_mm >= LEAST_MM
                assert ink_height_mm(grey, text.ink) >= LEAST_MM
        said = [(name, view.colours.get(name, "")) for name in view.numbers]
        assert len(set(said)) == len(said)


@pytest.mark.parametrize("name", ["wren", pytest.param("fulmar", marks=pytest.mark.long)])
def test_contacts_of_the_examples_are_told_apart_in_grey(name: str) -> None:
    assert_told_apart(views_of_example(name))


@pytest.mark.parametrize(
    ("shell", "count", "colours"),
    [
        ("block-14", 14, ("BK",)),
        ("dsub-9", 9, ("RD", "GN")),  # alike to one who does not see red and green apart
        pytest.param("dsub-25", 25, ("BK",), marks=pytest.mark.long),
        pytest.param("dsub-15", 15, STRIPES, marks=pytest.mark.long),
    ],
)
def test_neighbours_of_one_colour_differ_by_number(
    tmp_path: Path, shell: str, count: int, colours: tuple[str, ...]
) -> None:
    names = [str(i) for i in range(1, count + 1)]
    cards = cards_of_joint(tmp_path, one_joint(shell, names, colours=colours))
    views = list(views_of(cards, [tuple(names)] * 2))
    assert len(views) == 4
    assert_told_apart(views)
    for view in views:
        assert view.colours == {name: colours[i % len(colours)] for i, name in enumerate(names)}


def test_a_spare_contact_has_a_ring_and_no_letters() -> None:
    for view in views_of_example("wren"):
        # AIL takes contacts 1 to 3 of 6.
        assert set(view.colours) == {"1", "2", "3"}
        # Rings stand on the side of the spare row, in line with its numbers.
        down = [view.from_middle(ring) for ring in view.rings]
        columns = sorted(round(right, 1) for right, _ in down)
        assert columns == sorted(round(view.at_mm[name][0], 1) for name in "456")
        assert all((up < view.at_mm["4"][1]) == (view.at_mm["4"][1] < view.at_mm["1"][1]) for _, up in down)


def struck(view: PrintedView) -> list[str]:
    """Return the numbers and letters of a view on which other ink stands."""
    texts = [*view.numbers.values(), *(text for texts in view.letters.values() for text in texts)]
    points = np.concatenate([along(shape) for shape in (view.outline, *view.squares)])
    half_mm = view.outline.line_mm / 2
    found = []
    for text in texts:
        left, top, right, bottom = text.ink
        across = (points[:, 0] > left - half_mm) & (points[:, 0] < right + half_mm)
        on_a_line = (across & (points[:, 1] > top - half_mm) & (points[:, 1] < bottom + half_mm)).any()
        on_the_key = view.keys and text.ink.overlaps(view.key.box)
        if on_a_line or on_the_key or any(text.ink.overlaps(other.ink) for other in texts if other is not text):
            found.append(text.text)
    return found


def along(shape: Drawn) -> NDArray[np.float64]:
    """Return points on an outline, at most 0.05 mm apart: a circle has more corners than a box."""
    if len(shape.corners) > 5:
        turn = np.linspace(0, 2 * np.pi, 2000)
        radius = shape.box.size[0] / 2
        return np.array(shape.box.middle) + radius * np.stack([np.cos(turn), np.sin(turn)], axis=1)
    share = np.linspace(0, 1, 2000)[:, None]
    corners = np.array([*shape.corners, shape.corners[0]])
    return np.concatenate([one + share * (other - one) for one, other in pairwise(corners)])


@pytest.mark.parametrize(
    ("shell", "count", "keys", "colours"),
    [
        ("block-6", 6, ("up", None), ("BK", "RD", "WH")),
        ("block-14", 14, ("left", "down"), ("BK", "RD", "WHGN")),
        ("dsub-9", 9, ("up", "down"), ("BK", "RD", "WH")),
        pytest.param("dsub-25", 25, (None, "down"), ("BK", "RD", "WH"), marks=pytest.mark.long),
        pytest.param("dsub-15", 15, (None, None), ("BK", "RD", "WHGN")),
    ],
)
def test_nothing_strikes_the_numbers_and_letters(
    tmp_path: Path, shell: str, count: int, keys: tuple[str | None, str | None], colours: tuple[str, ...]
) -> None:
    names = [str(i) for i in range(1, count + 1)]
    cards = cards_of_joint(tmp_path, one_joint(shell, names, keys=keys, colours=colours))
    assert [struck(view) for view in views_of(cards, [tuple(names)] * 2)] == [[]] * 4


@pytest.mark.parametrize(
    "shell",
    [
        # Two contacts one above the other, and rows 1 mm apart elsewhere.
        "{at: {1: [-6 mm, 1 mm], 2: [6 mm, 0 mm], 3: [6 mm, -6 mm], 4: [0 mm, 6 mm]}, outline: [24 mm, 24 mm]",
        # Four contacts near the rim of a round shell.
        "{at: {1: [3 mm, 3 mm], 2: [-3 mm, 3 mm], 3: [-3 mm, -3 mm], 4: [3 mm, -3 mm]}, outline: [12 mm, 12 mm], "
        "shape: round",
        # Two columns of which one stands in the middle.
        "{at: {1: [0 mm, 5 mm], 2: [3 mm, 5 mm], 3: [0 mm, 0 mm], 4: [3 mm, 0 mm], 5: [0 mm, -5 mm], "
        "6: [3 mm, -5 mm]}, outline: [10 mm, 16 mm]",
        # Rows of 19 and 18 contacts, 2.77 mm pitch.
        pytest.param(
            "{rows: [[1..19], [20..37]], pitch: {across: 2.77 mm, down: 2.84 mm}, outline: [55.4 mm, 8.3 mm]",
            marks=pytest.mark.long,
        ),
    ],
)
def test_a_shell_that_is_hard_to_show_is_not_set_illegibly(tmp_path: Path, shell: str) -> None:
    count = next(count for count in (37, 6, 4) if f"..{count}]" in shell or f"{count}: [" in shell)
    names = [str(i) for i in range(1, count + 1)]
    cards = cards_of_joint(tmp_path, one_joint("own", names, own_shell=f"{shell}, key: up, contact: {CONTACT}}}"))
    assert [struck(view) for view in views_of(cards, [tuple(names)] * 2)] == [[]] * 4


def blank_mm(one: Box, other: Box) -> float:
    """Return the distance between two boxes."""
    across = max(one.left, other.left) - min(one.right, other.right)
    down = max(one.top, other.top) - min(one.bottom, other.bottom)
    return float(np.hypot(max(across, 0), max(down, 0)))


@pytest.mark.parametrize(
    ("rows", "outline"),
    [("[[1, 2, 3], [4, 5, 6], [7, 8, 9]]", "12 mm, 12 mm"), ("[[1..4], [5..8], [9..12]]", "20 mm, 14 mm")],
)
def test_letters_are_nearer_to_their_own_number_than_to_any_other(tmp_path: Path, rows: str, outline: str) -> None:
    names = [str(i) for i in range(1, 13 if "12" in rows else 10)]
    pitch = "{across: 3.5 mm, down: 3.5 mm}"
    shell = f"{{rows: {rows}, pitch: {pitch}, outline: [{outline}], key: up, contact: {CONTACT}}}"
    for view in views_of(cards_of_joint(tmp_path, one_joint("own", names, own_shell=shell)), [tuple(names)] * 2):
        for name, (text, *_) in view.letters.items():
            blank = {other: blank_mm(text.ink, number.ink) for other, number in view.numbers.items()}
            assert blank.pop(name) < 0.7 * min(blank.values()), name


def luminance(rgb: NDArray[np.float64]) -> float:
    """Return the relative luminance of a pixel by WCAG 2.1."""
    share = rgb / 255
    linear = np.where(share <= 0.03928, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return float(linear @ (0.2126, 0.7152, 0.0722))


def contrasts(card: PrintedCard) -> dict[str, float]:
    """Return the contrast of the letters in each swatch of the table against the swatch, by rendered pixels."""
    found: dict[str, float] = {}
    for page in card.pages:
        pixels = page.pixels(DOTS_PER_INCH, grey=False)[:, :, ::-1]  # red, green, blue
        for text in page.texts:
            boxes = [d.box for d in page.drawn if d.fill is not None and d.box.holds(text.ink.middle)]
            if not text.bold or not boxes or text.text[:2] not in COLOURS:
                continue
            box = text.ink
            rows, columns = (
                slice(int(a * PER_MM), int(b * PER_MM)) for a, b in ((box.top, box.bottom), (box.left, box.right))
            )
            inside = pixels[rows, columns].reshape(-1, 3)
            beside = pixels[rows, int((box.left - 0.5) * PER_MM) : int((box.left - 0.1) * PER_MM)].reshape(-1, 3)
            ground = luminance(np.median(beside, axis=0))
            # Within the letters, the pixel that stands out most is the core of a stroke.
            inks = (luminance(pixel.astype(np.float64)) for pixel in np.unique(inside, axis=0))
            found[text.text] = max(contrast(ink, ground) for ink in inks)
    return found


def contrast(one: float, other: float) -> float:
    return (max(one, other) + 0.05) / (min(one, other) + 0.05)


@pytest.mark.parametrize("colours", [tuple(sorted(COLOURS)), STRIPES])
def test_letters_on_swatches_reach_the_contrast_that_text_needs(tmp_path: Path, colours: tuple[str, ...]) -> None:
    card = cards_of_joint(tmp_path, one_joint("block-14", BLOCK_14, colours=colours))[0]
    found = contrasts(card)
    assert set(found) == set(colours)
    assert {letters: value for letters, value in found.items() if value < LEAST_CONTRAST} == {}
