"""Views on printed cards, measured: mirror images, contact 1 and key in their places, pitch true to the stated scale.

Expected places are those of tests/reference/connector_numbering.py for D shapes; blocks are common practice: rows 5 mm
apart, pitch 5 mm, contact 1 at the left of the upper row at the face of the pins, the key above.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import pairwise, product
from typing import TYPE_CHECKING

import numpy as np
import pytest
from card_aircraft import CONTACT, one_joint
from printed_cards import CardPage, PrintedCard, PrintedView, cards_of_example, halves_of, sheets_in
from reference.connector_numbering import D_ROWS_OF_PINS_MM
from resolved import EXAMPLES, files_of_example, harness_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

Places = dict[str, tuple[float, float]]

pytestmark = pytest.mark.long

DOTS_PER_INCH = 600
PER_MM = DOTS_PER_INCH / 25.4
KEYS = ("up", "right", "down", "left")
NEAR_MM = 0.02  # how close a place read from the PDF must be


def block(columns: int) -> Places:
    """Return a block of two rows by hand: 5 mm pitch both ways, number order along the upper row first."""
    middle = (columns - 1) / 2
    return {
        str(row * columns + column + 1): (5.0 * (column - middle), 2.5 - 5.0 * row)
        for row in (0, 1)
        for column in range(columns)
    }


def d_shape(count: int) -> Places:
    """Return a D shape from its middle; its long row is 2.77 (n - 1) long, its rows 2.84 apart."""
    (_, long), _ = D_ROWS_OF_PINS_MM[count]
    half = max(long.values()) / 2
    return {
        str(contact): (right - half, 1.42 - down)
        for down, row in D_ROWS_OF_PINS_MM[count]
        for contact, right in row.items()
    }


BUILT_IN = {
    "block-6": block(3),
    "block-8": block(4),
    "block-10": block(5),
    "block-14": block(7),
    "dsub-9": d_shape(9),
    "dsub-15": d_shape(15),
    "dsub-25": d_shape(25),
}

# Shells of a builder: letters, positions all over, round and D, the key at each side, given where it is at the pins.
OWN: dict[str, tuple[Places, str, str, str]] = {
    "round-letters": (
        {"A": (0.0, 6.0), "B": (5.0, 3.0), "C": (5.0, -3.0), "D": (0.0, -6.0), "E": (-5.0, -3.0), "F": (-5.0, 3.0)},
        "[24 mm, 24 mm]",
        "round",
        "up",
    ),
    "round-sideways": ({"X": (-6.0, 2.0), "Y": (6.0, 0.0), "Z": (0.0, -6.0)}, "[22 mm, 22 mm]", "round", "right"),
    "d-down": ({"1": (4.0, -3.0), "2": (-4.0, -3.0), "3": (0.0, 3.0)}, "[18 mm, 14 mm]", "D", "down"),
    "d-left": ({"a": (-3.0, 5.0), "b": (-3.0, 0.0), "c": (-3.0, -5.0), "d": (3.0, 2.5)}, "[14 mm, 20 mm]", "D", "left"),
    "plain-right": ({"P": (-4.0, 0.0), "Q": (4.0, 0.0)}, "[16 mm, 8 mm]", "rectangle", "right"),
    "single-row": (
        {"1": (-7.62, 0), "2": (-2.54, 0), "3": (2.54, 0), "4": (7.62, 0)},
        "[20 mm, 6 mm]",
        "rectangle",
        "up",
    ),
}

MIRRORED_KEY = {"up": "up", "down": "down", "left": "right", "right": "left"}


def own_shell(name: str) -> str:
    at, outline, shape, key = OWN[name]
    places = ", ".join(f"{contact}: [{right} mm, {up} mm]" for contact, (right, up) in at.items())
    return f"{{at: {{{places}}}, outline: {outline}, shape: {shape}, key: {key}, contact: {CONTACT}}}"


def key_of(shell: str) -> str:
    """Return where the key is at the face of the pins; a built-in shell's is above."""
    return OWN[shell][3] if shell in OWN else "up"


def places_of(shell: str) -> Places:
    return OWN[shell][0] if shell in OWN else BUILT_IN[shell]


def mirror(at: Places) -> Places:
    return {contact: (-right, up) for contact, (right, up) in at.items()}


def turned(at: Places, before: str, after: str) -> Places:
    """Turn a view until what pointed to one side points to another; a quarter turn right brings (x, y) to (y, -x)."""
    for _ in range((KEYS.index(after) - KEYS.index(before)) % 4):
        at = {contact: (up, -right) for contact, (right, up) in at.items()}
    return at


def mating_face(shell: str, gender: str, hatch_key: str | None) -> tuple[Places, str]:
    """Return where contacts and key of a half are at its mating face, by the rule of the standard."""
    at, key = places_of(shell), key_of(shell)
    if gender == "sockets":
        at, key = mirror(at), MIRRORED_KEY[key]
    return (turned(at, key, hatch_key), hatch_key) if hatch_key else (at, key)


Printed = tuple[PrintedCard, PrintedView, PrintedView]


Halves = Callable[..., tuple[Printed, Printed]]


@pytest.fixture(scope="module")
def both_halves(tmp_path_factory: pytest.TempPathFactory) -> Halves:
    """Return what prints a joint and gives card, mating face and wire side of its fixed and its loose half."""

    @cache
    def printed(shell: str, fixed: str = "sockets", key: str | None = None) -> tuple[Printed, Printed]:
        contacts = list(places_of(shell))
        entry = own_shell(shell) if shell in OWN else ""
        folder = tmp_path_factory.mktemp("joint")
        for file, text in one_joint(shell, contacts, fixed=fixed, keys=(key, key), own_shell=entry).items():
            (folder / file).write_text(text, "utf-8")
        one, other = [(card, *card.views(contacts)) for card in halves_of(harness_of(folder))]
        return one, other

    return printed


def assert_near(found: Places, expected: Places, scale: float = 1.0) -> None:
    assert set(found) == set(expected)
    for contact, (right, up) in expected.items():
        assert found[contact] == pytest.approx((right * scale, up * scale), abs=NEAR_MM), contact


_SHELLS = [
    *BUILT_IN,
    "round-letters",
    "d-left",
    *(name for name in OWN if name not in ("round-letters", "d-left")),
]


@pytest.mark.parametrize("shell", _SHELLS)
def test_pins_and_sockets_stand_where_the_standard_has_them(both_halves: Halves, shell: str) -> None:
    halves = both_halves(shell)
    for (card, mating, wires), gender in zip(halves, ("sockets", "pins"), strict=True):
        at, key = mating_face(shell, gender, None)
        assert f"half · {gender}" in card.said
        assert_near(mating.at_mm, at, card.scale)
        assert_near(wires.at_mm, mirror(at), card.scale)
        assert (mating.key_side, wires.key_side) == (key, MIRRORED_KEY[key])
        assert mating.keys == wires.keys == 1


@pytest.mark.parametrize("shell", _SHELLS)
def test_the_views_of_a_half_are_exact_mirror_images(both_halves: Halves, shell: str) -> None:
    for _, mating, wires in both_halves(shell):
        assert_near(wires.at_mm, mirror(mating.at_mm))
        assert wires.outline.box.size == pytest.approx(mating.outline.box.size, abs=0.01)
        right, up = mating.from_middle(mating.key.box.middle)
        assert wires.from_middle(wires.key.box.middle) == pytest.approx((-right, up), abs=0.01)
        corners, others = (np.array([v.from_middle(c) for c in v.outline.corners]) for v in (mating, wires))
        apart = np.hypot(*(corners[:, None] * (-1, 1) - others[None]).transpose(2, 0, 1))
        assert max(apart.min(axis=0).max(), apart.min(axis=1).max()) < 0.01
        assert mating.first == wires.first == {next(iter(places_of(shell)))}


@pytest.mark.parametrize("shell", _SHELLS)
def test_the_mating_face_of_pins_is_the_wire_side_of_sockets(both_halves: Halves, shell: str) -> None:
    (sockets_card, sockets, sockets_wires), (pins_card, pins, pins_wires) = both_halves(shell)
    assert sockets_card.scale == pins_card.scale
    assert_near(pins.at_mm, sockets_wires.at_mm)
    assert_near(sockets.at_mm, pins_wires.at_mm)
    assert (pins.key_side, sockets.key_side) == (sockets_wires.key_side, pins_wires.key_side)
    assert pins.colours == sockets_wires.colours


# Every shell with the key each way is slow; the usual run takes one block, one D and one round shell.
_QUICK = {("block-6", "left"), ("dsub-9", "down"), ("round-letters", "right")}
_TURNED = [
    pytest.param(*turned_to, id="-".join(turned_to), marks=[] if turned_to in _QUICK else [pytest.mark.long])
    for turned_to in product([*BUILT_IN, *OWN], KEYS)
]


@pytest.mark.parametrize(("shell", "key"), _TURNED)
def test_the_mating_face_is_turned_as_the_key_meets_the_eye(both_halves: Halves, shell: str, key: str) -> None:
    for fixed, other in (("sockets", "pins"), ("pins", "sockets")):
        halves = both_halves(shell, fixed, key)
        for (card, mating, wires), gender in zip(halves, (fixed, other), strict=True):
            assert "key as it sits in the hatch" in card.said or "upright, as it could not be read turned" in card.said
            as_it_sits = key if "key as it sits in the hatch" in card.said else None
            at, side = mating_face(shell, gender, as_it_sits)
            assert_near(mating.at_mm, at, card.scale)
            assert_near(wires.at_mm, mirror(at), card.scale)
            assert (mating.key_side, wires.key_side) == (side, MIRRORED_KEY[side])


@pytest.mark.parametrize("key", KEYS)
def test_a_d_is_wide_at_its_key(both_halves: Halves, key: str) -> None:
    for _, mating, wires in both_halves("dsub-9", key=key):
        for view, side in ((mating, mating.key_side), (wires, wires.key_side)):
            corners = [view.from_middle(corner) for corner in view.outline.corners]
            axis, sign = {"up": (1, 1), "down": (1, -1), "right": (0, 1), "left": (0, -1)}[side]
            along = 1 - axis
            at_key = [c[along] for c in corners if c[axis] * sign > 0]
            away = [c[along] for c in corners if c[axis] * sign < 0]
            assert max(at_key) - min(at_key) > max(away) - min(away) + 0.5


def test_each_view_says_what_the_eye_looks_at_and_only_one_is_framed() -> None:
    says = (
        ("Mating face", "looking into the open end"),
        ("Wire side", "from the wires' side"),
    )
    for card in halves_of(harness_of(EXAMPLES / "wren"), cards_of_example("wren")):
        assert all(f"{title} {eye}" in card.said for title, eye in says)
        page = card.pages[0]
        framed = []
        for title, _ in says:
            heading = page.text_beginning(title)
            beside = [d for d in page.drawn if d.fill == (0, 0, 0) and 0 < heading.x_mm - d.box.right < 8]
            # The pupil is round, the head of the arrow a triangle to the right of it.
            pupil, head = [d for d in beside if abs(d.box.middle[1] - heading.base_mm) < 5]
            assert len(pupil.corners) > 5
            assert len(head.corners) in (3, 4)
            assert pupil.box.right < head.box.left
            framed.append(any(d.box.holds(heading.ink.middle) and d.box.size[1] < 20 for d in page.drawn))
        assert framed == [True, False]


def ink_middle_mm(pixels: NDArray[np.uint8], view: PrintedView, contact: str) -> tuple[float, float]:
    """Return the middle of the ink of a contact's number or dot by its pixels [mm from the top left of the paper]."""
    box = view.contact_ink(contact)
    left, top = int((box.left - 0.1) * PER_MM), int((box.top - 0.1) * PER_MM)
    part = pixels[top : int((box.bottom + 0.1) * PER_MM) + 1, left : int((box.right + 0.1) * PER_MM) + 1] < 128
    rows, columns = np.flatnonzero(part.any(axis=1)), np.flatnonzero(part.any(axis=0))
    across = (left + (columns[0] + columns[-1] + 1) / 2) / PER_MM
    return across, (top + (rows[0] + rows[-1] + 1) / 2) / PER_MM


def assert_pitches(card: PrintedCard, views: tuple[PrintedView, PrintedView], at: Places) -> None:
    """Hold the distances of all contacts next to each other against the pattern at the stated scale."""
    for view in views:
        pixels = view.page.pixels(DOTS_PER_INCH)
        middles = {contact: ink_middle_mm(pixels, view, contact) for contact in at}
        names = list(at)
        for one, other in pairwise(names):
            expected = card.scale * np.hypot(*np.subtract(at[one], at[other]))
            found = np.hypot(*np.subtract(middles[one], middles[other]))
            assert found == pytest.approx(expected, abs=0.1), (one, other)


@pytest.mark.parametrize("shell", ["block-10", *(s for s in BUILT_IN)])
def test_pitch_at_600_dpi_is_true_to_the_stated_scale(both_halves: Halves, shell: str) -> None:
    for card, *views in both_halves(shell):
        assert_pitches(card, (views[0], views[1]), BUILT_IN[shell])


@pytest.mark.parametrize("aircraft", ["wren", "fulmar"])
def test_pitch_on_the_cards_of_examples_is_true_to_the_stated_scale(aircraft: str) -> None:
    harness = harness_of(EXAMPLES / aircraft)
    joints = [joint for joint in harness.disconnects.values() for _ in joint.halves]
    for card, joint in zip(halves_of(harness, cards_of_example(aircraft)), joints, strict=True):
        # A servo plug: 0.1 in pitch (common practice; a textbook and a club's page say the same).
        at = BUILT_IN.get(joint.shell.name, {str(i): (2.54 * (i - 2), 0.0) for i in (1, 2, 3)})
        assert_pitches(card, card.views(joint.shell.contacts), at)


def test_a_pattern_that_can_be_read_at_its_size_is_true_to_size(both_halves: Halves) -> None:
    # 5 mm pitch with one row of letters above and below: 5 mm is room for two letters of 1.8 mm.
    for card, mating, _ in both_halves("block-14"):
        assert "true to size" in card.said
        assert mating.outline.box.size == pytest.approx((40, 12), abs=0.05)


def bar_length_mm(page: CardPage) -> float:
    """Measure the bar by the pixels of its first and last upright stroke."""
    says = page.text_beginning("print at 100 %")
    [bar] = [
        d for d in page.drawn if len(d.corners) == 2 and 45 < d.box.size[0] < 55 and abs(d.box.top - says.base_mm) < 6
    ]
    pixels = page.pixels(DOTS_PER_INCH)
    rows = slice(int((bar.box.top - 1.0) * PER_MM), int((bar.box.top - 0.8) * PER_MM))
    dark = 255.0 - pixels[rows].mean(axis=0)
    ends = []
    for x in (bar.box.left, bar.box.right):
        first = int((x - 1) * PER_MM)
        part = dark[first : int((x + 1) * PER_MM)]
        assert part.max() > 200
        ends.append((first + 0.5 + (np.arange(len(part)) @ part) / part.sum()) / PER_MM)
    return float(ends[1] - ends[0])


@pytest.mark.parametrize("aircraft", ["wren", "fulmar"])
def test_the_bar_on_the_first_sheet_is_50_mm(aircraft: str) -> None:
    first, *others = sheets_in(files_of_example(aircraft)["pinout-cards.pdf"])
    assert bar_length_mm(first) == pytest.approx(50, abs=0.1)
    assert not [text for sheet in others for text in sheet.texts if text.text.startswith("print at")]


@pytest.mark.parametrize("aircraft", ["wren", "fulmar"])
def test_nothing_on_a_card_is_nearer_to_its_cut_than_4_mm(aircraft: str) -> None:
    for page in (page for card in cards_of_example(aircraft) for page in card.pages):
        left, top, right, bottom = page.region
        for text in page.texts:
            assert left + 3.9 < text.ink.left < text.ink.right < right - 3.9, text.text
            assert top + 3.5 < text.ink.top < text.ink.bottom < bottom - 3.5, text.text
