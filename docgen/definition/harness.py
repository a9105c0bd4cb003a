"""The form of harness.yaml: disconnects, circuits, and changed defaults; equipment stands beside."""

from __future__ import annotations

import string
from typing import Annotated, Any, Self

from pydantic import Field, ValidationInfo, model_validator

from docgen.basics.findings import Refused, shown
from docgen.definition import shapes
from docgen.definition.fields import (
    CircuitName,
    DisconnectName,
    Entry,
    Form,
    Gender,
    Key,
    LengthMm,
    NameList,
    Names,
    PinnedContacts,
    PlaceName,
    PositiveLengthMm,
    Read,
    Text,
    YesNo,
    as_list,
    known,
    names_of,
    one_of,
    whole,
)


class Half(Form):
    """One half of a disconnect; a free one has a reach, which may not be known yet."""

    place: PlaceName = Field(description="The place where it sits or hangs.")
    contacts: Gender | None = Field(default=None, description="What this half carries.")
    reach: LengthMm | None = Field(default=None, description="The free tail of a loose half.")
    key: Key | None = Field(default=None, description="Where its key points as it sits, seen at its mating face.")


class Common(Entry):
    """Contacts of a disconnect that several circuits share for one role."""

    role: Text = Field(description="The role of the wires that it joins.")
    contacts: Annotated[NameList, Field(min_length=1)] = Field(description="The contacts of the joint that they share.")
    circuits: list[CircuitName] = Field(default=[], description="The circuits that pass the joint on them.")
    tail: LengthMm = Field(default=40, description="How long the wire from the splice into each contact is.")


class Disconnect(Entry):
    """Where the harness comes apart."""

    model_config = shapes.rules(
        {
            "if": {"required": ["halves"]},
            "then": {"properties": {"fixed": False, "loose": False}},
            "else": {"required": ["fixed", "loose"]},
        },
        {"properties": {"fixed": {"not": {"required": ["reach"]}}}},
    )

    shell: Annotated[Text, known("shells", "plugs")] = Field(
        description="What it is made of: an entry of `shells` or `plugs`."
    )
    fixed: Half | None = Field(default=None, description="The half that is fixed to the airframe.")
    loose: Half | None = Field(default=None, description="The half that hangs on its wires.")
    halves: Annotated[list[Half], Field(min_length=2, max_length=2)] | None = Field(
        default=None, description="Both halves where both hang free, the supply's side first."
    )
    keyed: Text = Field(default="", description="A letter for shells of one pattern that mate only with their own.")
    commons: dict[Text, Common] = Field(default={}, description="Contacts that circuits share, by name.")

    @model_validator(mode="after")
    def _two_halves(self) -> Self:
        if (self.halves is None) == (self.fixed is None and self.loose is None):
            what = "its halves are given by `fixed` and `loose`, or by `halves`."
            raise Refused("missing", what, "Give one of the two.")
        for half, name in ((self.fixed, "fixed"), (self.loose, "loose")):
            if self.halves is None and half is None:
                raise Refused("missing", f"the half `{name}` is missing.", "Add it.")
        if self.fixed is not None and self.fixed.reach is not None:
            do = "Delete `reach:`, or call it loose."
            raise Refused("value", "a fixed half has no reach.", do, ("fixed", "reach"))
        return self

    @property
    def both(self) -> tuple[Half, Half]:
        """Return the halves in the order written: fixed then loose, or supply side first."""
        first, second = self.halves or (self.fixed, self.loose)
        assert first is not None
        assert second is not None
        return first, second


_MOST_THROUGH = 40
_LETTERS = [letter for letter in string.ascii_uppercase if letter not in "IO"]


def _read_ends(value: Any, info: ValidationInfo) -> tuple[tuple[str, ...], ...]:
    return tuple(_read_end(item, names_of(info)) for item in as_list(value))


def _read_end(value: Any, names: Names) -> tuple[str, ...]:
    words = tuple(value.split()) if isinstance(value, str) else ()
    if not words:
        raise Refused("value", "this is no end of a circuit.", "Write `EQUIPMENT PORT`, like `receiver 1`.")
    names.check(words[0], "equipment", "disconnects")
    return words


# The words of each end that `from` or `to` names; several only at a split.
EndsField = Annotated[tuple[tuple[str, ...], ...], Read(_read_ends, shape=shapes.ENDS)]


class Split(Form):
    """Where a circuit divides in two."""

    place: PlaceName = Field(description="The place of the splice.")
    loop: LengthMm = Field(default=0, description="Coiled at the splice, before it divides.")


OWN = "own"  # stands for the lead that equipment came with, where its plug is a half of a plain joint


def _read_leads(value: Any, info: ValidationInfo) -> str | dict[str, str]:
    names = names_of(info)
    if isinstance(value, str):
        return names.check(value, "leads")
    if isinstance(value, dict) and all(isinstance(v, str) and len(k) == 1 and k.isupper() for k, v in value.items()):
        return {segment: _lead_of_segment(names, segment, lead) for segment, lead in value.items()}
    raise Refused("value", "this is not a lead.", "Write an entry of `leads`, or one by segment: `{A: …, B: …}`.")


def _lead_of_segment(names: Names, segment: str, lead: str) -> str:
    try:
        return OWN if lead == OWN else names.check(lead, "leads")
    except Refused as refused:
        refused.path = (segment,)
        raise


def _read_function(value: Any) -> str:
    if not isinstance(value, str) or len(value) != 1 or not "A" <= value <= "Z":
        raise Refused("value", "the function of a mark is one capital letter.", "Write one of A to Z.")
    return value


def segment_letters(count: int) -> list[str]:
    """Return A, B, … without I and O, which look like figures; after Z comes AA.

    Source: the wire numbering of the US Navy Electricity and Electronics Training Series, module 4.
    """
    pairs = [first + second for first in _LETTERS for second in _LETTERS] if count > len(_LETTERS) else []
    return (_LETTERS + pairs)[:count]


class Circuit(Entry):
    """One function wired from supply side to load."""

    model_config = shapes.rules(
        shapes.needs("split", "lead"),
        shapes.where(shapes.said("through"), required=["lead"]),
        shapes.where(shapes.said("lengths"), required=["lead"]),
        shapes.where({"required": ["to"], "properties": {"to": {"type": "array", "minItems": 2}}}, required=["split"]),
        shapes.where({"required": ["split"]}, to=shapes.SEVERAL),
    )

    label: Text = Field(default="", description="What labels say; unsaid its name in capitals.")
    start: EndsField = Field(
        alias="from", description="Where its supply comes from: equipment and port, or a joint's commons."
    )
    to: EndsField = Field(description="Its load: equipment and port, a joint's commons, or several with `split`.")
    through: Annotated[list[DisconnectName], Field(max_length=_MOST_THROUGH)] = Field(
        default=[], description="The joints that it passes, in series."
    )
    lead: Annotated[str | dict[str, str], Read(_read_leads, shape=shapes.LEADS)] | None = Field(
        default=None, description="What it is wired with, an entry of `leads`; one by segment where they differ."
    )
    omit: list[Text] = Field(default=[], description="Roles whose contacts are drawn out of the plug.")
    loop: LengthMm = Field(default=0, description="Coiled at the load.")
    loop_from: LengthMm = Field(default=0, description="Coiled at the supply's end.")
    by: list[PlaceName] = Field(default=[], description="Places that the way must pass.")
    split: Split | None = Field(default=None, description="Where it divides, with a splice, to several loads.")
    channel: Annotated[int, whole(1, 999)] | None = Field(default=None, description="The radio's channel.")
    throw: Text = Field(default="", description="How far what it moves goes, in words.")
    failsafe: Annotated[str, one_of("hold", "centre", "idle", "off")] | None = Field(
        default=None, description="What the receiver does when it hears nothing."
    )
    function: Annotated[str, Read(_read_function, shape=shapes.LETTER)] | None = Field(
        default=None, description="The letter in its wire marks, if not the one of its load's kind."
    )
    planned: YesNo = Field(default=False, description="Whether it takes its contacts and numbers, and is not cut yet.")
    left_in: YesNo = Field(
        default=False, description="Whether its wires stay in the closed structure, dead and capped."
    )
    contacts: dict[DisconnectName, PinnedContacts] = Field(
        default={}, description="Contacts that must be as they are, by joint."
    )
    lengths: dict[Text, PositiveLengthMm] = Field(
        default={}, description="Cut lengths that must be as they are, by segment."
    )

    @property
    def ends(self) -> tuple[tuple[str, ...], ...]:
        """Return the words of each end, `from` first."""
        return (*self.start, *self.to)

    @property
    def branches(self) -> int:
        """Return in how many it divides, if it does."""
        return len(self.to) if self.split is not None else 0

    @property
    def letters(self) -> list[str]:
        """Return the letters of its segments: one up to each disconnect and splice, one on from there to each end."""
        return segment_letters(len(self.through) + 1 + self.branches)

    @property
    def last(self) -> range:
        """Return the numbers of the segments that end it, several behind a splice."""
        stems = len(self.through) + (self.split is not None)
        return range(stems, stems + len(self.to))

    def before(self, segment: int) -> int:
        """Return the number of the segment that one goes on from: the one before, or the stem of a branch."""
        return min(segment, len(self.through) + 1) - 1

    @property
    def leads(self) -> dict[str, str]:
        """Return the leads of its segments, by letter, where it is cut or `own`; none where it plugs straight in."""
        return dict.fromkeys(self.letters, self.lead) if isinstance(self.lead, str) else self.lead or {}

    def commons_at(self, disconnect: str) -> set[str]:
        """Return the commons of a disconnect at which it begins or ends."""
        return {common for name, *commons in self.ends if name == disconnect for common in commons}

    @model_validator(mode="after")
    def _sense(self) -> Self:
        if not self.to:
            raise Refused("value", "a circuit ends somewhere.", "Name its end.", ("to",))
        if len(self.start) != 1:
            raise Refused("value", "a circuit begins at one end.", "Name one.")
        if len(self.to) > 1 and self.split is None:
            raise Refused("missing", "it goes to several ends without a `split`.", "Add `split: {place: …}`.")
        if self.split is not None and len(self.to) < 2:
            raise Refused("value", "a split needs several ends.", "Name them: `to: [a, b]`.", ("to",))
        if self.split is not None and self.lead is None:
            raise Refused("missing", "it divides without a lead.", "Add `lead:`.")
        if "negative" in self.omit:
            path = ("omit", self.omit.index("negative"))
            raise Refused("value", "the negative can't be left out.", "Leave out another role.", path)
        if self.lead is None and self.through:
            do = "Add `lead:`, or delete `through:`."
            raise Refused("missing", f"it goes through {shown(self.through[0])} without a lead.", do)
        return self

    @model_validator(mode="after")
    def _pins_what_is_cut(self) -> Self:
        if self.planned and self.left_in:
            do = "Leave out `planned:`; what is left in was there."
            raise Refused("value", "it can't be planned and left in.", do, ("planned",))
        if self.lead is None and self.lengths:
            do = "Delete `lengths:`."
            raise Refused("value", "nothing is cut where a circuit plugs straight in.", do, ("lengths",))
        for letter in self.lengths:
            if self.leads.get(letter) == OWN:
                do = "Delete it here; its length is said at the equipment."
                raise Refused("value", f"segment {letter} is not cut, it came along.", do, ("lengths", letter))
        return self
