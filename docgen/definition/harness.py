"""The form of harness.yaml: disconnects, circuits, and changed defaults; equipment stands beside."""

from __future__ import annotations

import string
from typing import Annotated, Any, Self

from pydantic import BeforeValidator, Field, ValidationInfo, model_validator

from docgen.basics.findings import Refused, shown
from docgen.definition.fields import (
    CircuitName,
    DisconnectName,
    Entry,
    Form,
    Gender,
    Join,
    Key,
    LengthMm,
    NameList,
    Names,
    PinnedContacts,
    PlaceName,
    PositiveLengthMm,
    Ratio,
    TemperatureC,
    Text,
    VoltageV,
    YesNo,
    as_list,
    known,
    names_of,
    one_of,
    whole,
)


class Half(Form):
    """One half of a disconnect; a free one has a reach, which may not be known yet."""

    place: PlaceName
    contacts: Gender | None = None
    reach: LengthMm | None = None
    key: Key | None = None


class Common(Entry):
    """Contacts of a disconnect that several circuits share for one role."""

    role: Text
    contacts: Annotated[NameList, Field(min_length=1)]
    circuits: list[CircuitName] = []
    tail: LengthMm = 40


class Disconnect(Entry):
    """Where the harness comes apart."""

    shell: Annotated[Text, known("shells", "plugs")]
    fixed: Half | None = None
    loose: Half | None = None
    halves: Annotated[list[Half], Field(min_length=2, max_length=2)] | None = None
    keyed: Text = ""
    commons: dict[Text, Common] = {}

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
EndsField = Annotated[tuple[tuple[str, ...], ...], BeforeValidator(_read_ends)]


class Split(Form):
    """Where a circuit divides in two."""

    place: PlaceName
    loop: LengthMm = 0


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

    label: Text = ""
    start: EndsField = Field(alias="from")
    to: EndsField
    through: Annotated[list[DisconnectName], Field(max_length=_MOST_THROUGH)] = []
    lead: Annotated[str | dict[str, str], BeforeValidator(_read_leads)] | None = None
    omit: list[Text] = []
    loop: LengthMm = 0
    loop_from: LengthMm = 0
    by: list[PlaceName] = []
    split: Split | None = None
    channel: Annotated[int, whole(1, 999)] | None = None
    throw: Text = ""
    failsafe: Annotated[str, one_of("hold", "centre", "idle", "off")] | None = None
    function: Annotated[str, BeforeValidator(_read_function)] | None = None
    planned: YesNo = False
    left_in: YesNo = False
    contacts: dict[DisconnectName, PinnedContacts] = {}
    lengths: dict[Text, PositiveLengthMm] = {}

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


class Allowances(Form):
    """What is added to a route before a wire is cut.

    Defaults: 3 % slack, 4 mm strip, 10 mm a retermination and 5 mm steps are common practice, no source;
    two reterminations: FAA AC 43.13-1B 11-118.
    """

    slack: Ratio = 0.03
    strip_mm: LengthMm = Field(default=4, alias="strip")
    reterminations: Annotated[int, whole(0, 10)] = 2
    retermination_mm: LengthMm = Field(default=10, alias="retermination")
    round_up_to_mm: PositiveLengthMm = Field(default=5, alias="round_up_to")


class Limits(Form):
    """Where cautions and notes begin; the defaults' sources are in `harness/model/limits.py`."""

    drop_working: Ratio = 1 / 28
    drop_stalled: Ratio = 0.10
    margin: VoltageV = 0.3
    together: Annotated[int, whole(0, 100)] = 4
    spare_contacts: Annotated[int, whole(0, 100)] | None = None
    hot: TemperatureC = 80


class Labels(Form):
    """How wire labels are fitted and read."""

    fit: Annotated[str, one_of("before", "after")] = "before"
    each: Annotated[str, one_of("lead", "wire", "both")] = "lead"
    least_type_mm: PositiveLengthMm = Field(default=1.6, alias="least_type")
    behind_plug_mm: LengthMm = Field(default=25, alias="behind_plug")


class Splices(Form):
    """How joints that stay are made; 8 mm of each wire that is joined: common practice, no source."""

    join: Join = "crimp"
    strip_mm: PositiveLengthMm = Field(default=8, alias="strip")


class Clips(Form):
    """How a harness is held."""

    every: PositiveLengthMm = 150

    @property
    def apart_mm(self) -> float:
        """Return how far apart clips are: at most 24 in, by FAA AC 43.13-1B, 11-96a."""
        return min(self.every, 24 * 25.4)
