"""What is measured of supplies before packs go in again: of the demanding example, by hand from its harness.yaml."""

from __future__ import annotations

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field.power_again import before_packs

PLUG, OPEN, BARE = (
    "Each pack, out of the aircraft",
    "Resistance, plus to minus of each supply",
    "Bare wiring, one supply",
)


@pytest.mark.parametrize(
    ("circuits", "packs", "steps"),
    [
        ({"rudder"}, set(), []),  # a servo feeds nothing
        (set(), {"service-pack"}, [(PLUG, "service-pack"), (OPEN, "service-pack"), (BARE, "service-pack SERVICE")]),
        ({"service-pack"}, set(), [(PLUG, "service-pack"), (OPEN, "service-pack"), (BARE, "service-pack SERVICE")]),
        ({"gear-supply"}, set(), [("Units and receivers", "service-switch GEAR BATT")]),  # electronics lie between
        (
            set(),
            {"left-fan-pack"},
            # What drives is fed with a limit where it hears its throttle.
            [(PLUG, "left-fan-pack"), (OPEN, "left-fan-pack"), (BARE, "left-fan-pack FAN"), ("Signals", "THR L")],
        ),
        (set(), set(), []),
    ],
)
def test_what_brings_another_supply_is_measured_from_its_pack_on(
    circuits: set[str], packs: set[str], steps: list[tuple[str, str]]
) -> None:
    parts = before_packs(harness_of(EXAMPLES / "fulmar"), circuits, packs)
    said = [(part.title, " ".join(step.name for step in part.steps)) for part in parts]
    assert len(said) == len(steps)
    for (title, names), (begins, names_begin) in zip(said, steps, strict=True):
        assert title.startswith(begins)
        assert names.startswith(names_begin)


def test_the_plug_of_a_pack_says_which_contact_is_plus_and_what_it_reads_empty_to_full() -> None:
    """By hand: `power-2-heavy` has minus in 1, plus in 2; three cells, 9.9 V empty, 12.6 V full."""
    plugs, *_ = before_packs(harness_of(EXAMPLES / "fulmar"), set(), {"service-pack"})
    [step] = plugs.steps
    assert (step.name, step.does, step.should) == ("service-pack", "service-pack 2+ 1−", "9.9 to 12.6 V")
    assert "never plug it in" in plugs.stop
