"""What has to be bought by length, by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from resolved import harness_of

from docgen.paperwork.cut_list.content import content
from docgen.paperwork.cut_list.shopping import WireToBuy

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes


# A hand adds up what is cut of each colour of wire of 22 AWG: the rudder's lead and four of the ailerons'
# (test_lengths.py).
EACH_COLOUR_MM = 1335 + 2 * (365 + 980)


# Wire of 22 AWG goes into sockets and pins of servo plugs and of the joints' blocks: four samples of 150 mm.
@pytest.mark.parametrize(("left_mm", "bought_mm"), [(140, 600), (160, 450), (310, 300), (590, 150), (610, None)])
def test_samples_are_cut_from_what_is_left_over_and_only_the_others_bought(
    left_mm: int, bought_mm: float | None, aircraft_folder: AircraftFolder
) -> None:
    spools = "".join(
        f"  - {{wire: pvc-22, colour: {colour}, length: {EACH_COLOUR_MM + more} mm}}\n"
        for colour, more in (("BK", 0), ("RD", left_mm), ("WH", 100))
    )
    harness = harness_of(aircraft_folder({"stores.yaml": f"spools:\n{spools}"}))
    samples = [wire for wire in content(harness).shopping.wires if wire.part == "pvc-22"]
    assert samples == ([] if bought_mm is None else [WireToBuy("pvc-22", None, 1, bought_mm, 0.0)])


# The lead of the rudder, bought twisted, is of two wires, of which 24 AWG goes into sockets and pins of servo plugs:
# two samples of 150 mm. Bought twisted it needs nothing for the lay: 1140 × 1.03 + 80 + 2 × 22.5 mm (test_wren.py).
@pytest.mark.parametrize(("left_mm", "bought_mm"), [(310, None), (290, 150), (140, 300)])
def test_what_is_left_of_a_bought_lead_gives_samples_of_each_of_its_wires(
    left_mm: int, bought_mm: float | None, aircraft_folder: AircraftFolder
) -> None:
    wires = "{negative: pvc-22 BN, positive: pvc-22 RD, signal: pvc-24 OG}"
    changes: Changes = {
        "harness.yaml": [("    to: rudder\n    lead: servo-22\n", "    to: rudder\n    lead: mixed\n")],
        "parts.yaml": f"leads: {{mixed: {{wires: {wires}, lay: 30 mm, bought: twisted}}}}\n",
        "stores.yaml": f"spools: [{{lead: mixed, length: {1300 + left_mm} mm}}]\n",
    }
    wires_to_buy = content(harness_of(aircraft_folder(changes))).shopping.wires
    samples = [wire for wire in wires_to_buy if wire.part == "pvc-24"]
    assert samples == ([] if bought_mm is None else [WireToBuy("pvc-24", None, 1, bought_mm, 0.0)])
