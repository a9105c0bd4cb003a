"""Take what a label says and the zone that it is printed in; return it set, saying as much as there is room for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from docgen.paperwork.labels.lines import GAP_MM, SetText, arrange
from docgen.paperwork.typesetting.ink import BLACK, Box, Ink, Shape, Text
from docgen.paperwork.typesetting.typeface import overhang_mm, width_mm

BAR_MM = 2.0


@dataclass(frozen=True, slots=True)
class LabelText:
    """What a label says: function; where this end goes and the other; mark; revision it last changed in.

    `supply` is said where the lead feeds a receiver or a unit: the packs behind it. `lead` is the letter of the lead
    at a joint where its circuit has several, so that the two halves are told apart. One in the `middle` of a wire says
    so: `here` is then the end that its bar faces. What names a single wire is its mark: on a label `of_wire` it is
    kept longest.
    """

    function: str
    here: str
    far: str
    mark: str
    since: str
    supply: str | None = None
    lead: str = ""
    of_wire: bool = False
    middle: bool = False


@dataclass(frozen=True, slots=True)
class Zone:
    """What a label is printed on: its least and most length, its height, what of both stays free of ink.

    `shrinks_to` is how much of the height of its type is left in use; `bar` is whether one stands at the end that
    faces the plug.
    """

    lengths_mm: tuple[float, float]
    height_mm: float
    ends_mm: float
    edges_mm: float
    shrinks_to: float = 1.0
    bar: bool = True

    @property
    def type_room_mm(self) -> float:
        """Return the height in which type may stand."""
        return self.height_mm - 2 * self.edges_mm


@dataclass(frozen=True, slots=True)
class SetLabel:
    """A label as set: its zone and how long it is there, its texts, and what it must say but has no room for.

    That is nothing, the `supply`, the `revision`, the `lead` too, or even the `place` where this end goes.
    """

    zone: Zone
    length_mm: float
    texts: tuple[SetText, ...]
    lacks: str

    def ink(self, x_mm: float, y_mm: float) -> Iterator[Ink]:
        """Place it: its texts, and a solid bar with an arrow at the end that faces the plug, if it has one."""
        zone, left, top = self.zone, x_mm + self.zone.ends_mm, y_mm + self.zone.edges_mm
        cell = Box(left, top, self.length_mm - 2 * zone.ends_mm, zone.type_room_mm)
        if zone.bar:
            middle, bottom = top + cell.height_mm / 2, cell.bottom_mm
            tip, edge = left + min(BAR_MM, cell.height_mm / 2), left + BAR_MM
            arrow = ((left, middle), (tip, top), (edge, top), (edge, bottom), (tip, bottom))
            yield Shape(arrow, fill=BLACK, colour=None)
        for text in self.texts:
            x, y = x_mm + text.x_mm, y_mm + text.base_mm
            yield Text(x, y, text.text, text.height_mm, text.bold, text.align, cell=cell)


def set_label(text: LabelText, zone: Zone, least_type_mm: float) -> SetLabel | None:
    """Set a label, no longer than its text needs, in type of at least a height in use; nothing if it does not fit."""
    before = BAR_MM + GAP_MM if zone.bar else 0.0
    length = zone.lengths_mm[1] - 2 * zone.ends_mm - before
    room = Box(zone.ends_mm + before, zone.edges_mm, length, zone.type_room_mm)
    for small, lacks in _ways(text):
        texts = arrange(text.function, small, room, least_type_mm / zone.shrinks_to)
        if texts is not None:
            return SetLabel(zone, *_trimmed(texts, zone), lacks)
    return None


def _ways(text: LabelText) -> Iterable[tuple[tuple[str, ...], str]]:
    """Return what is said beside and below the function, less and less of it, and what is then missed.

    What there is nothing to say of is left out, and of ways that are alike by that the first counts.
    """
    ways: dict[tuple[str, ...], str] = {}
    for said, lacks in _of_wire(text) if text.of_wire else _of_lead(text):
        ways.setdefault(tuple(filter(None, said)), lacks)
    return ways.items()


def _of_lead(text: LabelText) -> list[tuple[tuple[str, ...], str]]:
    """Leave out first the mark, then the far end, the supply, the revision, which lead it is, the place.

    Without its mark a label at a joint says which lead it is, in words, if there is room or the far end is not said: a
    letter never stands alone.
    """
    here, far = text.here, f"→ {text.far}"
    with_far, alone = _supply(text)
    rev, lead = f"rev {text.since}", f"lead {text.lead}" if text.lead else ""
    lead_rev = f"{lead} · {rev}" if lead else rev
    return [
        ((here, far, with_far, f"{text.mark} · {rev}"), ""),
        ((here, far, with_far, lead_rev), ""),
        ((here, far, with_far, rev), ""),
        ((here, alone, lead_rev), ""),
        ((here, lead_rev), "supply"),
        ((here, lead), "revision"),
        ((here,), "lead"),
        ((), "place"),
    ]


def _of_wire(text: LabelText) -> list[tuple[tuple[str, ...], str]]:
    """Leave out first the far end, then which lead it is, the supply, the revision, the place; its mark is its name."""
    mark = text.mark
    here, far = (f"middle: {text.here}", f"— {text.far}") if text.middle else (text.here, f"→ {text.far}")
    with_far, alone = _supply(text)
    mark_rev = f"{mark} · rev {text.since}"
    return [
        ((here, far, with_far, mark_rev), ""),
        ((here, alone, f"lead {text.lead} · {mark_rev}" if text.lead else mark_rev), ""),
        ((here, alone, mark_rev), ""),
        ((here, mark_rev), "supply"),
        ((here, mark), "revision"),
        (("middle" if text.middle else "", mark), "place"),
        ((mark,), "place"),
    ]


def _supply(text: LabelText) -> tuple[str, str]:
    """Return what is said of the supply beside both ends and beside this one, where neither says it itself.

    What stands after this end is read as the far end: the packs alone may stand there only where they are that.
    """
    packs = text.supply or ""
    if not packs or packs == text.here.split()[0]:
        return "", ""
    return ("", packs) if packs == text.far.split()[0] else (f"from {packs}", f"from {packs}")


def _trimmed(texts: list[SetText], zone: Zone) -> tuple[float, tuple[SetText, ...]]:
    """Return how long a label need be, and its texts there, of which one at the right end moves with that."""
    least, most = zone.lengths_mm
    if least == most:
        return most, tuple(texts)
    needed = 0.0
    for text in texts:
        if text.align == "right":
            beside = (_end_mm(other) for other in texts if other.align == "left" and other.base_mm == text.base_mm)
            needed = max(needed, max(beside, default=0.0) + 2 * GAP_MM + width_mm(text.text, text.height_mm))
        else:
            needed = max(needed, _end_mm(text))
    length = min(max(needed + zone.ends_mm + 0.1, least), most)
    right = length - zone.ends_mm
    return length, tuple(replace(text, x_mm=right) if text.align == "right" else text for text in texts)


def _end_mm(text: SetText) -> float:
    """Return where a text that is set from the left ends."""
    right = overhang_mm(text.text, text.height_mm, text.bold)[1]
    return text.x_mm + width_mm(text.text, text.height_mm, text.bold) + right
