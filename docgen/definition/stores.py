"""The form of stores.yaml: what is on the shelf."""

from __future__ import annotations

from typing import Self

from pydantic import Field, model_validator

from docgen.basics.findings import Refused
from docgen.definition import shapes
from docgen.definition.fields import Colour, LeadName, SpoolLengthMm, WireName, YesNo
from docgen.definition.parts import Part


class Spool(Part):
    """A spool on the shelf, of a wire in a colour or of a lead bought ready-made; spools are numbered as written."""

    model_config = shapes.rules(
        {"oneOf": [{"required": ["wire"]}, {"required": ["lead"]}]},
        shapes.needs("wire", "colour"),
    )

    wire: WireName | None = Field(default=None, description="The wire on it, an entry of `wires`.")
    lead: LeadName | None = Field(default=None, description="The lead on it that comes as one, an entry of `leads`.")
    colour: Colour | None = Field(default=None, description="The colour of the wire.")
    length_mm: SpoolLengthMm = Field(alias="length", description="How much is on it.")
    sealed: YesNo = Field(default=False, description="Whether it is new.")

    @property
    def part(self) -> str:
        """Return the wire or lead that is on it."""
        return self.wire or self.lead or ""

    @model_validator(mode="after")
    def _wire_or_lead(self) -> Self:
        if (self.wire is None) == (self.lead is None):
            raise Refused("missing", "a spool holds a `wire` or a `lead`.", "Say which, and of a wire its colour.")
        if self.wire is not None and self.colour is None:
            raise Refused("missing", "the colour of the wire is not said.", "Add `colour:`.")
        return self
