"""The forms of changed defaults in harness.yaml: allowances, limits, labels, splices and clips."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from docgen.definition.fields import (
    Form,
    Join,
    LengthMm,
    PositiveLengthMm,
    Ratio,
    TemperatureC,
    VoltageV,
    one_of,
    whole,
)


class Allowances(Form):
    """What is added to a route before a wire is cut.

    Defaults: 3 % slack, 4 mm strip, 10 mm a retermination and 5 mm steps are common practice, no source;
    two reterminations: FAA AC 43.13-1B 11-118.
    """

    slack: Ratio = Field(default=0.03, description="Added to each way.")
    strip_mm: LengthMm = Field(
        default=4, alias="strip", description="Stripped at an end whose contact says nothing of it."
    )
    reterminations: Annotated[int, whole(0, 10)] = Field(
        default=2, description="How often an end can be cut off and crimped anew."
    )
    retermination_mm: LengthMm = Field(default=10, alias="retermination", description="What that costs each time.")
    round_up_to_mm: PositiveLengthMm = Field(
        default=5, alias="round_up_to", description="Cut lengths are rounded up to multiples of it."
    )


class Limits(Form):
    """Where cautions and notes begin; the defaults' sources are in `harness/model/limits.py`."""

    drop_working: Ratio = Field(default=1 / 28, description="The share of the volts that a circuit may lose, working.")
    drop_stalled: Ratio = Field(default=0.10, description="The share of the volts that a circuit may lose, stalled.")
    margin: VoltageV = Field(default=0.3, description="What must be left over a load's least volts.")
    together: Annotated[int, whole(0, 100)] = Field(default=4, description="How many loads stall at once at peak.")
    spare_contacts: Annotated[int, whole(0, 100)] | None = Field(
        default=None, description="How many contacts of a joint stay free; unsaid by its size."
    )
    hot: TemperatureC = Field(default=80, description="Above it a run needs a sleeve that stands its heat.")


class Labels(Form):
    """How wire labels are fitted and read."""

    fit: Annotated[str, one_of("before", "after")] = Field(
        default="before", description="Whether tubes are slid on before or after crimping."
    )
    each: Annotated[str, one_of("lead", "wire", "both")] = Field(
        default="lead", description="What bears a label: each lead, each wire, or both."
    )
    least_type_mm: PositiveLengthMm = Field(
        default=1.6, alias="least_type", description="The least height of capitals that is read."
    )
    behind_plug_mm: LengthMm = Field(
        default=25, alias="behind_plug", description="How far behind its plug a label stands."
    )


class Splices(Form):
    """How joints that stay are made; 8 mm of each wire that is joined: common practice, no source."""

    join: Join = Field(default="crimp", description="How joints that stay are made.")
    strip_mm: PositiveLengthMm = Field(default=8, alias="strip", description="Stripped of each wire that is joined.")


class Clips(Form):
    """How a harness is held."""

    every: PositiveLengthMm = Field(default=150, description="How far apart clips are, 24 in at most.")

    @property
    def apart_mm(self) -> float:
        """Return how far apart clips are: at most 24 in, by FAA AC 43.13-1B, 11-96a."""
        return min(self.every, 24 * 25.4)
