"""What has to be bought by length, by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from resolved import harness_of

from docgen.paperwork.cut_list.content import content
from docgen.paperwork.cut_list.shopping import WireToBuy

if TYPE_CHECKING:
    from conftest import AircraftFolder


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
