"""The plan on the hangar card, where place carries meaning: left is left, and what lies aft is below."""

from __future__ import annotations

from typing import Any

import pypdfium2
import pytest
from printed_cards import CardPage
from resolved import harness_of

from docgen.basics.shipped import shipped_folder
from docgen.paperwork.documents import Choice, make_paperwork


class Plan:
    """The plan as drawn: where each name's leader ends, from the line through the nose; joints are black squares."""

    def __init__(self, page: CardPage) -> None:
        (nose,) = (text for text in page.texts if text.text == "nose" and not text.bold and text.capital_mm < 1.6)
        drawn = [one for one in page.drawn if one.box.top > nose.base_mm - 3]
        arrow = min(
            (one for one in drawn if one.fill == (0, 0, 0) and len(set(one.corners)) == 3),
            key=lambda one: abs(one.box.middle[1] - nose.middle[1]),
        )
        self.page, self.centre_mm, self.top_mm = page, arrow.box.middle[0], arrow.box.top
        self.squares = [one.box.middle for one in drawn if one.fill == (0, 0, 0) and abs(one.box.size[0] - 2) < 0.01]
        self.circles = [one.box.middle for one in drawn if one.fill == (255, 255, 255) and one.box.size[0] < 2]
        self.leaders = [one for one in drawn if len(one.corners) == 2 and one is not arrow]

    def spot(self, name: str) -> tuple[float, float]:
        """Return where the leader of a name ends: right of the middle and below the nose [mm on paper]."""
        (text,) = (text for text in self.page.texts if text.text == name and text.base_mm > self.top_mm)
        x, y = self._leader(text.ink.left, text.ink.right, text.base_mm - text.capital_mm / 2)
        return x - self.centre_mm, y

    def _leader(self, left: float, right: float, middle: float) -> tuple[float, float]:
        def gap(end: tuple[float, float]) -> float:
            return min(abs(end[0] - left), abs(end[0] - right)) + abs(end[1] - middle)

        ends = [(line.corners[at], line.corners[1 - at]) for line in self.leaders for at in (0, 1)]
        near, far = min(ends, key=lambda pair: gap(pair[0]))
        assert gap(near) < 1.5
        return far

    def is_joint(self, name: str) -> bool:
        x, y = self.spot(name)
        spot = x + self.centre_mm, y
        return self._at(self.squares, spot) and not self._at(self.circles, spot)

    @staticmethod
    def _at(marks: list[tuple[float, float]], spot: tuple[float, float]) -> bool:
        return any(abs(x - spot[0]) < 0.05 and abs(y - spot[1]) < 0.05 for x, y in marks)


def plan_of(example: str) -> Plan:
    pdf = make_paperwork(harness_of(shipped_folder("examples") / example), Choice(stems=("hangar-card",))).files[
        "hangar-card.pdf"
    ]
    pages: list[Any] = [
        page for page in pypdfium2.PdfDocument(pdf) if "From above" in page.get_textpage().get_text_range()
    ]
    return Plan(CardPage(pages[0]))


# Aft of the nose and right of the middle [mm], as in aircraft.yaml; of a joint the place of its first half.
WREN_POINTS = {
    "battery-bay: nose hatch": (180, 0),
    "radio-tray: canopy": (420, 0),
    "left-root": (600, -80),
    "right-root": (600, 80),
    "left-aileron: servo cover": (690, -810),
    "right-aileron: servo cover": (690, 810),
    "tail-post: tail hatch": (1540, 0),
}


def test_the_plan_shows_left_at_the_left_and_aft_below_to_one_scale() -> None:
    plan = plan_of("wren")
    spots = {name: plan.spot(name) for name in WREN_POINTS}
    nose, tail = spots["battery-bay: nose hatch"][1], spots["tail-post: tail hatch"][1]
    scale = (tail - nose) / (1540 - 180)
    assert scale > 0
    for name, (aft, right) in WREN_POINTS.items():
        assert spots[name] == pytest.approx((right * scale, nose + (aft - 180) * scale), abs=0.02), name


def test_joints_are_squares_on_the_plan_and_covers_circles() -> None:
    plan = plan_of("wren")
    assert {name for name in WREN_POINTS if plan.is_joint(name)} == {"left-root", "right-root"}
    # The panels' roots are the joints' other halves and no covers of their own.
    assert (len(plan.squares), len(plan.circles)) == (2, 5)
