"""Take labels and where each may go on a stock; return them as printed, with few heights of type, and what is found."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Iterator, Sequence
from typing import NamedTuple

from docgen.basics.findings import Finding, shown
from docgen.basics.frozen import frozen
from docgen.basics.units import decimal
from docgen.harness.bundling.tubes import GRIPS, TO_SPARE, fits
from docgen.harness.checks import heat
from docgen.harness.model.parts import TubePart
from docgen.paperwork.labels.content import LabelItem
from docgen.paperwork.labels.text import STEP, Fitted, SetLabel, Zone, fitted, fitted_way, set_label
from docgen.paperwork.layouts.forms import LayoutForm, LengthMm, TemperatureC
from docgen.paperwork.stocks.findings import STOCK, TUBE, TYPE
from docgen.paperwork.typesetting.ink import Ink, moved

_HEIGHTS = 3  # of type on a sheet, at most
_MOST_STEPS, _ROUNDING = 12, 1e-9


@frozen(slots=True)
class Place:
    """Where a label goes on a piece of a stock: its zone, and the corners at which that is printed.

    `beside` is said beside it, `guides` help to cut or fold the piece, `findings` do not keep it from being printed.
    Pieces of one `size`, which sort by it, stand together; on stocks of rows `takes_mm` is how high one is and
    `columns` how many cells wide. `instead` says what it is where others are of tube, `why` that the builder is told.
    One that is `at_worst` is taken only where no label can be read at any place before.
    """

    zone: Zone
    corners_mm: tuple[tuple[float, float], ...] = ((0.0, 0.0),)
    beside: str = ""
    guides: tuple[Ink, ...] = ()
    findings: tuple[Finding, ...] = ()
    size: tuple[float, str] = (0.0, "")
    takes_mm: float = 0.0
    columns: int = 1
    instead: str = ""
    why: str = ""
    at_worst: bool = False


@frozen(slots=True)
class Piece:
    """One label ready to print: its text, set once, and its place."""

    item: LabelItem
    label: SetLabel
    place: Place

    def ink(self, x_mm: float, y_mm: float) -> list[Ink]:
        """Return its ink with its top left corner at a place."""
        texts = [ink for x, y in self.place.corners_mm for ink in self.label.ink(x_mm + x, y_mm + y)]
        return [*(moved(ink, x_mm, y_mm) for ink in self.place.guides), *texts]


class _Fit(NamedTuple):
    item: LabelItem
    place: Place
    said: Fitted

    @property
    def alike(self) -> Hashable:
        return self.place.size, round(self.place.zone.height_mm, 6), self.said.small_mm


def fit_all(
    labels: Sequence[tuple[LabelItem, Sequence[Place | Finding]]], least_mm: float
) -> tuple[list[Piece], list[Finding]]:
    """Return labels as printed, each at the first of its places where it says where its end goes, and what is found.

    Type has at most three heights, in use none under the least; on all pieces of a size it is as large as each of them
    can have.
    """
    zones = (place.zone for _, places in labels for place in places if isinstance(place, Place))
    steps = _steps({least_mm / zone.shrinks_to for zone in zones}, least_mm)
    fitted_ones: list[_Fit] = []
    findings: list[Finding] = []
    for item, places in labels:
        fit = _best(item, places, least_mm, steps)
        if isinstance(fit, Finding):
            findings.append(fit)
            continue
        fitted_ones.append(fit)
        findings += [*fit.place.findings, *_lacks(fit)]
    heights = _heights({fit.said.small_mm for fit in fitted_ones})
    fitted_ones = [_raised(fit, heights) for fit in fitted_ones]
    sizes: dict[Hashable, list[_Fit]] = {}
    for fit in fitted_ones:
        sizes.setdefault(fit.alike, []).append(fit)
    chosen = {alike: _chosen(some, heights) for alike, some in sizes.items()}
    return [_piece(fit, *chosen[fit.alike]) for fit in fitted_ones], findings


def _best(
    item: LabelItem, places: Iterable[Place | Finding], least_mm: float, steps: Sequence[float]
) -> _Fit | Finding:
    """Return a label at the first place where it says where its end goes, else at one where it says less."""
    less: _Fit | Finding | None = None
    for place in places:
        if isinstance(place, Finding):
            less = less or place
            continue
        if place.at_worst and isinstance(less, _Fit):
            continue
        said = fitted(item.text, place.zone, _step_over(least_mm / place.zone.shrinks_to, steps))
        if said is not None and not said.way.lacks_place:
            return _Fit(item, place, said)
        if said is not None and not isinstance(less, _Fit):
            less = _Fit(item, place, said)
        less = less or _illegible(item, place.zone, least_mm)
    assert less is not None
    return less


def _steps(wanted_mm: set[float], least_mm: float) -> list[float]:
    """Return the heights that small type may have: fine steps where two of them do for all, else those of ISO 3098."""
    steps: list[float] = []
    for parts in (4, 2, 1):
        steps = [least_mm * STEP ** (i / parts) for i in range(_MOST_STEPS * parts)]
        if len({_step_over(wanted, steps) for wanted in wanted_mm}) < _HEIGHTS:
            break
    return steps


def _step_over(wanted_mm: float, steps: Sequence[float]) -> float:
    return next((step for step in steps if step >= wanted_mm - _ROUNDING), wanted_mm)


def _heights(small_mm: set[float]) -> list[float]:
    """Return the heights of type on the sheets: those that must be, and steps above them."""
    heights = sorted(small_mm)[-_HEIGHTS:]
    while heights and len(heights) < _HEIGHTS:
        heights.append(heights[-1] * STEP)
    return heights


def _raised(fit: _Fit, heights: Sequence[float]) -> _Fit:
    """Return a label with its small type at one of the heights, the next above its own, if it has room for that."""
    if fit.said.small_mm in heights:
        return fit
    small_mm = next(height for height in heights if height > fit.said.small_mm)
    said = fitted(fit.item.text, fit.place.zone, small_mm)
    return fit._replace(said=said) if said is not None else fit


def _chosen(some: Sequence[_Fit], heights: Sequence[float]) -> tuple[float, float]:
    """Return the heights of what is small and of the function that all labels of a size can have.

    What is small is larger than it must be only where the function still leads by a step.
    """
    small_mm = some[0].said.small_mm
    for larger in reversed([height for height in heights if height > small_mm]):
        led = [_with(fit, larger) for fit in some]
        most = min((said.function_mm if said is not None else 0.0) for said in led)
        if most >= STEP * larger * (1 - 1e-9):
            return larger, max(height for height in heights if height <= most + _ROUNDING)
    most = min(fit.said.function_mm for fit in some)
    return small_mm, max((height for height in heights if small_mm <= height <= most + _ROUNDING), default=small_mm)


def _with(fit: _Fit, small_mm: float) -> Fitted | None:
    """Return what a label says with its small type at another height, if it has room to say as much."""
    return fitted_way(fit.said.function, fit.said.way, fit.place.zone, small_mm)


def _piece(fit: _Fit, small_mm: float, function_mm: float) -> Piece:
    said = fit.said if small_mm == fit.said.small_mm else _with(fit, small_mm)
    assert said is not None
    return Piece(fit.item, set_label(said, function_mm), fit.place)


def _illegible(item: LabelItem, zone: Zone, least_type_mm: float) -> Finding:
    sentence = f"{item.named} can't be set in type that is {decimal(least_type_mm)} mm high"
    sentence += " when shrunk." if zone.shrinks_to < 1 else "."
    what = "Print it on another stock"
    if zone.room.height_mm >= 1.5 * least_type_mm / zone.shrinks_to:
        what = "Give the circuit a shorter `label:`"
    return item.finding(TYPE, sentence, f"{what}, or allow smaller type with `labels: {{least_type: …}}`.")


def _lacks(fit: _Fit) -> Iterator[Finding]:
    """Find that a label has no room for where its end goes; it is printed all the same."""
    if fit.said.way.lacks_place:
        only = "function and mark" if fit.item.text.of_wire else "function"
        sentence = f"{fit.item.named} has room for its {only} only, not for {shown(fit.item.text.here)}."
        do = "Use shorter names, print it on another stock, or allow smaller type with `labels: {least_type: …}`."
        yield fit.item.finding(TYPE, sentence, do)


def too_thick(item: LabelItem, room_mm: float, what: str) -> Finding | None:
    """Find that what goes round the wires does not reach round."""
    around = math.pi * item.grips_mm
    if around <= room_mm:
        return None
    sentence = f"{item.named}: it is {around:.1f} mm round its wires, {what} of the stock is {decimal(room_mm)} mm."
    return item.finding(STOCK, sentence, "Print it on a stock with more to wrap.")


class StockTube(LayoutForm):
    """The tube that a stock is made of: inside diameter as supplied and recovered, heat that it stands, and shrinks at.

    Labels on a tube that stands less than their route are printed, with the caution `heat`.
    """

    expanded: LengthMm
    recovered: LengthMm
    limit: TemperatureC | None = None
    shrinks_at: TemperatureC | None = None

    @property
    def stands_c(self) -> float | None:
        """Return the heat at which it begins to shrink or that it stands, the lesser, where both are said [°C]."""
        return None if self.limit is None or self.shrinks_at is None else min(self.limit, self.shrinks_at)

    def unfit(self, item: LabelItem) -> Finding | None:
        """Find it too narrow for what a label slides over, or too wide for what it grips."""
        if fits(self.expanded, self.recovered, item.passes_mm, item.grips_mm):
            return None
        it = f"{item.named}: the stock's tube of {self.expanded:.1f} mm, {self.recovered:.1f} mm shrunk, is too"
        passes, grips = TO_SPARE * item.passes_mm, GRIPS * item.grips_mm
        if self.expanded >= passes:
            sentence = f"{it} wide to grip {item.grips_mm:.1f} mm; it would have to shrink to {grips:.1f} mm."
            return item.finding(TUBE, sentence, "Print it on a narrower stock, or on one that shrinks more.")
        sentence = f"{it} narrow to pass {item.passes_mm:.1f} mm; it would have to be of {passes:.1f} mm."
        before = item.passes_mm > item.wires_mm and not item.plug_is_on
        do = ", or fit it before crimping (`labels: {fit: before}`)" if before else ""
        return item.finding(TUBE, sentence, f"Print it on a wider stock{do}.")

    def too_hot(self, item: LabelItem) -> tuple[Finding, ...]:
        """Find that the heat of a label's route is too much for it."""
        do = "Print it on another stock, or lead it by another route."
        return _too_hot(item, "the stock's tube", self.limit, ".", do)


def too_hot(item: LabelItem, tube: TubePart, what: str) -> tuple[Finding, ...]:
    """Find that the heat of a label's route is too much for a tube of the parts list, which is the best there is."""
    do = f"Add a {what} that stands it to `parts.yaml`, or lead it by another route."
    return _too_hot(item, shown(tube.name), tube.limit_c, f", and no {what} that fits stands more.", do)


def _too_hot(item: LabelItem, tube: str, limit_c: float | None, end: str, do: str) -> tuple[Finding, ...]:
    if item.heat_c is None or limit_c is None or limit_c >= item.heat_c:
        return ()
    sentence = f"{item.named} lies in {decimal(item.heat_c)} °C; {tube} stands {decimal(limit_c)} °C{end}"
    return (item.finding(heat.KIND, sentence, do),)
