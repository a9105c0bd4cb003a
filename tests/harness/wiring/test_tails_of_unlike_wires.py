"""Where wires of several sizes arrive behind one half, the tails bear what the heaviest does."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import PARTS, Definition, definition, heavy, servo, shared, through_wing

from docgen.basics.shipped import shipped_folder
from docgen.harness.model.harness import Harness
from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]
Tails = dict[str, tuple[list[str], list[str]]]

# A block's contacts take 24 to 18 AWG of at most 2.2 mm. Of silicone, 200 °C, 18 AWG is 2.3 mm thick, 20 AWG 1.8 mm;
# of PVC, 80 °C, 18 AWG is 2.1 mm thick; of thin fluoropolymer, 150 °C, 16 AWG is 2.0 mm, and too heavy.
PAIRS = {
    "silicone-16-pair": ("silicone-16 OG", "silicone-16 BU"),
    "fluoro-20-pair": ("fluoro-20 OG", "fluoro-20 BU"),
}


def behind_a_signal_with_negative(pair: str) -> Definition:
    """Return two servos behind a heavy pair, whose leads of a thin signal and a thin negative pass the joint."""
    leads = {"A": "signal-24", "B": "servo-22"}
    said = definition(
        {name: servo("1 A", wire="lead-22") for name in ("ail", "flap")},
        heavy(pair) | {name: through_wing(f"unit {i}", name, leads) for i, name in enumerate(("ail", "flap"), 1)},
        shared("ail", "flap"),
    )
    more = {name: {"wires": {"positive": plus, "negative": minus}} for name, (plus, minus) in PAIRS.items()}
    said["parts"] = {**PARTS, "leads": PARTS["leads"] | more}
    return said


@pytest.fixture
def tails_of(written_folder: WrittenFolder) -> Callable[[Definition], Tails]:
    """Return the wires and colours of the tails behind each half, by common."""

    def tails(said: Definition) -> Tails:
        harness: Harness | None = check(
            written_folder({f"{name}.yaml": json.dumps(text, ensure_ascii=False) for name, text in said.items()})
        ).harness
        assert harness is not None
        commons = harness.disconnects["wing"].commons
        found = {
            name: [[f"{tail.kind.name} {tail.colour}" for tail in half.tails] for half in common.halves]
            for name, common in commons.items()
        }
        return {name: (near, far) for name, (near, far) in found.items()}

    return tails


def test_a_thin_negative_beside_a_pair_too_heavy_for_the_contact_makes_no_thin_tail(
    tails_of: Callable[[Definition], Tails],
) -> None:
    found = tails_of(behind_a_signal_with_negative("power-16"))
    assert found["p"] == (["pvc-18 RD"] * 2, ["pvc-22 RD"] * 2)
    assert found["n"] == (["pvc-18 BK"] * 2, ["pvc-22 BK"] * 2)


def test_instead_of_a_wire_too_heavy_comes_the_heaviest_of_the_same_limit(
    tails_of: Callable[[Definition], Tails],
) -> None:
    found = tails_of(behind_a_signal_with_negative("silicone-16-pair"))
    assert [found["p"][0], found["n"][0]] == [["silicone-20 OG"] * 2, ["silicone-20 BU"] * 2]


def test_a_wire_that_the_contact_takes_goes_on_itself(tails_of: Callable[[Definition], Tails]) -> None:
    found = tails_of(behind_a_signal_with_negative("fluoro-20-pair"))
    assert [found["p"][0], found["n"][0]] == [["fluoro-20 OG"] * 2, ["fluoro-20 BU"] * 2]


def test_both_poles_of_fulmars_wing_have_tails_of_one_size() -> None:
    # Its heavy pair is of 16 AWG PVC, the negatives of two signal leads beside it of 24 AWG.
    harness = check(shipped_folder("examples") / "fulmar").harness
    assert harness is not None
    commons = harness.disconnects["left-wing-b"].commons
    assert [[tail.kind.gauge.text for tail in common.halves[0].tails] for common in commons.values()] == [
        ["18 AWG"] * 2,
        ["18 AWG"] * 2,
    ]
