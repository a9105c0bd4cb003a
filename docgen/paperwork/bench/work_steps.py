"""Take the work of one assembly; return the rows of its matrix, a lead in each, and what is done to all leads.

Steps bear the same number in every assembly: a lead's are columns, 1 to 4 and 7 to 9, what is done to all stands below.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from docgen.basics.findings import listed
from docgen.basics.units import counted, decimal, millimetres
from docgen.harness.assembly.passing import Waits
from docgen.harness.assembly.soldered import contact_tubes
from docgen.harness.assembly.splices import Splice, TailSplice
from docgen.harness.assembly.things import Thing
from docgen.harness.assembly.through_openings import Threading
from docgen.harness.assembly.work import AssemblyWork, EndWork, LeadWork, SleeveWork
from docgen.harness.model.circuits import CutLead, Lead, Wire
from docgen.harness.model.joints import Behind, Common, Disconnect, Half, Tail
from docgen.harness.model.parts import Connector, TubePart
from docgen.paperwork.bench.work_content import WorkContent
from docgen.paperwork.cut_list.materials import NO_TUBE
from docgen.paperwork.naming import STRAIGHT, opening_text, straight_text
from docgen.paperwork.page_kit.cells import Cell, Stacked, Tick
from docgen.paperwork.page_kit.tables import Column, Row
from docgen.paperwork.typesetting.typeface import unbroken

_FIRST_TUBE = {"lead": "first end", "wire": "each wire", "both": "wires, first"}
_IN_PLACE = {
    Waits.NOTHING: "",
    Waits.HOUSING: "contacts on; into the housing in place, with 14",
    Waits.CONTACTS: "left bare; in place, with 14",
}
_LEFT_OFF = {Waits.NOTHING: "", Waits.HOUSING: " without its housing", Waits.CONTACTS: " bare"}
_LIVE = "bare one wire at a time, the other insulated"
_STRAIGHT = f" · {STRAIGHT}".replace(": ", ":\n")  # no wider than the leads' names
_SPLICED = "staggered; never in a hinge, under a clip or unsupported in a free tail"


def columns_of(each: str, *, has_straight: bool) -> list[Column]:
    """Return the columns of the matrix: the lead, then its steps; one without a heading ticks what is before it."""
    return [
        Column("lead" + _STRAIGHT * has_straight, 2.5, 2.5, bold=True),
        Column(Stacked("1 cut", under="mm, gauge")),
        Column(Stacked("2 tube", under=_FIRST_TUBE[each])),
        Column(Stacked("3 twist", under="lay, mm")),
        Column(Stacked("4 first end", under="place, contacts, strip"), 2.5, 2.5),
        Column(""),
        Column(Stacked("7 tube", under="after 6")),
        Column(Stacked("8 second end", under="and first ends that waited"), 2.5, 2.5),
        Column(""),
        Column(Stacked("9", under="splice")),
    ]


def rows_of(items: WorkContent, work: AssemblyWork) -> list[Row]:
    """Return the rows of the matrix: leads, then tails of commons, then splices."""
    leads = [_lead(items, work, made) for made in work.leads]
    tails = [_tails(items, work, *of) for of in work.tails]
    splices = [_splice(items, work, splice) for splice in work.splices]
    return [Row(tuple(cells), rule=True) for cells in (*leads, *tails, *splices)]


def _lead(items: WorkContent, work: AssemblyWork, made: LeadWork) -> list[Cell]:
    lead = made.lead
    return [
        Stacked(f"{lead.label} {lead.segment}", under=lead.name),
        Tick(_length(items, lead), _gauges(lead.wires)),
        _first_tube(items, made),
        Tick(decimal(lead.part.lay_mm or 0)) if made.twisted else "",
        *_end(items, work, made, made.first, made.after),
        _second_tube(items, made),
        *_end(items, work, made, made.second),
        "",
    ]


def _length(items: WorkContent, lead: CutLead) -> str:
    """Write how long the wires of a lead are cut, or a blank for what is not measured."""
    return straight_text(millimetres(lead.cut_length_mm) or "____", is_straight=lead.name in items.straight)


def _gauges(wires: Iterable[Wire | Tail]) -> str:
    texts = dict.fromkeys(wire.kind.gauge.text for wire in wires)
    units = {text.partition(" ")[2] for text in texts}
    return "/".join(texts) if len(units) > 1 else f"{'/'.join(text.partition(' ')[0] for text in texts)} {units.pop()}"


def _labelled_first(items: WorkContent, made: LeadWork) -> bool:
    """Tell whether the first end's label goes on before that end is crimped; one that passes the plug comes last."""
    return not made.after and items.labels.fit == "before" and items.labels.each != "wire"


def _first_tube(items: WorkContent, made: LeadWork) -> Cell:
    if items.labels.each == "lead":
        return Tick() if _labelled_first(items, made) else ""
    return Tick("wires" if items.labels.each == "both" and not _labelled_first(items, made) else "")


def _second_tube(items: WorkContent, made: LeadWork) -> Cell:
    if items.labels.each == "wire":
        return ""
    to_second = not made.second.end.is_splice
    if _labelled_first(items, made):
        return Tick() if to_second else ""
    return Tick("both" if to_second else "first")


def _end(
    items: WorkContent, work: AssemblyWork, made: LeadWork, end: EndWork, after: tuple[str, ...] = ()
) -> list[Cell]:
    """Return what is done at one end, and its tick where a wire goes into a contact there."""
    place = end.end.text + items.halves.get((end.end.name, end.end.part), "")
    spliced = [wire for wire in made.lead.wires if wire in end.spliced or _joins(work, made.lead, wire, end)]
    does = [f"{', '.join(_colour(made.lead, wire) for wire in spliced)} to splice"] if spliced else []
    if end.fitted:
        numbers = list(end.end.connector.contacts)
        at = sorted(
            ((end.end.contacts[wire.role], wire) for wire in end.fitted), key=lambda of: numbers.index(of[0][0])
        )
        into = [unbroken(f"{'+'.join(contacts)} {_colour(made.lead, wire)}") for contacts, wire in at]
        does.insert(0, f"{', '.join(into)} · {_strip(items, end.end.connector)}")
        place += f" · {end.end.connector.name} {end.end.gender}"
    waits = f"after {listed(after)} is on, with 8: " if after else ""
    live = _LIVE if end.end.name in items.packs else ""
    # What is only spliced passes with the tails, whose row says that they have their contacts on.
    is_tied = end.waits is Waits.HOUSING and not end.fitted
    in_place = "" if is_tied else _IN_PLACE[end.waits]
    under = "; ".join(filter(None, (in_place, _slid_on(end.tubes), live)))
    return [Stacked("; ".join(does), waits + place, under), Tick() if end.fitted else ""]


def _joins(work: AssemblyWork, lead: Lead, wire: Wire, end: EndWork) -> bool:
    """Tell whether a wire is joined to others where its lead divides."""
    return end.end.is_splice and any(wire.role == at.role and lead in at.leads for at in work.branch_splices)


def _colour(lead: Lead, wire: Wire) -> str:
    """Name a wire by its colour, and by its mark too where another has the same."""
    alike = Counter(each.colour for each in lead.wires)[wire.colour] > 1
    return f"{wire.colour} {wire.mark}" if alike else wire.colour


def _strip(items: WorkContent, connector: Connector) -> str:
    """Say how long the ends of its wires are stripped, and that they are soldered."""
    strip_mm, is_soldered = connector.contact.strip_mm, connector.contact.join == "solder"
    said = f"{decimal(items.strip_mm if strip_mm is None else strip_mm)} mm{' · solder' if is_soldered else ''}"
    return unbroken(said)


def _slid_on(tubes: Sequence[TubePart | None]) -> str:
    """Say which tubes go on the wires before their contacts are soldered, and how many of each."""
    counts = Counter(tube.name if tube is not None else NO_TUBE for tube in tubes)
    named = [f"{count} × {name}" for name, count in counts.items()]
    return f"{listed(named)} on first" if named else ""


def _tails(
    items: WorkContent, work: AssemblyWork, disconnect: Disconnect, common: Common, behind: Behind
) -> list[Cell]:
    place = _half(items, disconnect, behind.half)
    name = Stacked(common.name, under=f"tails of {place}")
    cut = Tick(f"{len(behind.tails)} × {millimetres(behind.tail_mm)}", _gauges(behind.tails))
    into = ", ".join(unbroken(f"{tail.contact} {tail.colour}") for tail in behind.tails)
    at = f"{place} · {disconnect.shell.name} {behind.half.gender}"
    waits = _IN_PLACE[work.waits.get(("half", disconnect.name, behind.half.name), Waits.NOTHING)]
    kinds, heat_c = [tail.kind for tail in behind.tails], items.heats_c[behind.half.place]
    tubes = contact_tubes(kinds, disconnect.shell.contact, items.tubes, heat_c)
    does = f"{into} · {_strip(items, disconnect.shell)}"
    under = "; ".join(filter(None, (waits, _slid_on(tubes))))
    return [name, cut, "", "", Stacked(does, at, under), Tick(), "", "", "", ""]


def _half(items: WorkContent, disconnect: Disconnect, half: Half) -> str:
    return disconnect.name + items.halves[disconnect.name, half.name]


def _splice(items: WorkContent, work: AssemblyWork, splice: Splice) -> list[Cell]:
    joined: dict[str, list[str]] = {}
    for lead in splice.leads:
        joined.setdefault(next(wire.colour for wire in lead.wires if wire.role == splice.role), []).append(
            _name(work, lead)
        )
    name, place = f"{splice.leads[0].label}, {splice.role}", splice.place
    if isinstance(splice, TailSplice):
        name, place = splice.common.name, _half(items, splice.disconnect, splice.half)
        tails = splice.common.behind(splice.half).tails
        joined.setdefault(tails[0].colour, []).append(counted(len(tails), "tail"))
    joins = "; ".join(f"{colour}: {', '.join(names)}" for colour, names in joined.items())
    how = f"{items.splices.join} · {decimal(items.splices.strip_mm)} mm"
    how += " · with 14" if _is_in_place(work, splice) else ""
    tube = f"{splice.tube.name if splice.tube else NO_TUBE} slid on before"
    at = Stacked(name, under=f"splice at {place}")
    return [at, "", "", "", joins, "", "", Stacked(how, tube), "", Tick()]


def _is_in_place(work: AssemblyWork, splice: Splice) -> bool:
    """Tell whether a splice is made only when its leads are through the openings."""
    if isinstance(splice, TailSplice):
        return work.waits.get(("half", splice.disconnect.name, splice.half.name)) is Waits.CONTACTS
    return ("splice", splice.leads[0].circuit) in work.waits


def _name(work: AssemblyWork, lead: Lead) -> str:
    """Name a lead as its row does, and as the files do where another row says the same."""
    same = [made for made in work.leads if (made.lead.label, made.lead.segment) == (lead.label, lead.segment)]
    return f"{lead.label} {lead.segment}" if len(same) == 1 else lead.name


def steps_of(items: WorkContent, work: AssemblyWork) -> Iterator[Row]:
    """Walk what is done to all leads: steps 5 and 6 when the first ends are crimped, 9 to 15 at the last."""
    behind, every = (
        unbroken(f"{decimal(length_mm)} mm") for length_mm in (items.labels.behind_plug_mm, items.clip_every_mm)
    )
    yield _all("5 lay up", "leads side by side along their routes")
    yield from (_sleeve(items, sleeve) for sleeve in work.sleeves)
    if work.splices:
        yield _all("9 splice", _SPLICED)
    if work.leads or work.tails:
        yield _all("10 ring out", "by the ring-out sheet")
    yield _all("11 labels home", f"each {behind} behind its plug")
    shrunk = ["labels", *["tubes over soldered contacts"] * _is_soldered(work, in_place=False)]
    shrunk += [*["collars"] * bool(work.sleeves), *["tubes over splices"] * bool(work.splices)]
    yield _all("12 shrink", ", ".join(shrunk))
    over = "sleeves over the edges, " if work.sleeves else ""
    yield _all("13 fit", f"along the routes, {over}electronics unplugged")
    yield from (_thread(items, work, threading) for threading in work.threadings)
    if work.waits:
        yield _all("14 in place", _in_place(items, work))
    says = [f"every {every} where a hand reaches"]
    says += [f"within {unbroken('50 mm')} of a fixed half"] if any(half.fixed for half in work.halves) else []
    says += ["a strain relief at each free tail"] if not all(half.fixed for half in work.halves) else []
    yield _all("15 clip", ", ".join(says))


def _thread(items: WorkContent, work: AssemblyWork, threading: Threading) -> Row:
    """Say what goes through an opening, one after the other, and what is left off till then."""
    through = [
        _thing(items, passage.thing) + _LEFT_OFF[work.waits.get(passage.thing.key, Waits.NOTHING)]
        for passage in threading.passages
    ]
    says = f"from {threading.start} to {threading.goal}, ends taped, one by one: {'; '.join(through)}"
    if threading.round or not threading.bundle_passes or any(passage.stuck for passage in threading.passages):
        says += ". It does not pass: see the caution `hole`"
    return _all(f"13 thread · {opening_text(items.openings[threading.run])}", says)


def _thing(items: WorkContent, thing: Thing) -> str:
    half = items.halves[thing.key[1], thing.key[2]] if thing.key[0] == "half" else ""
    return thing.name + half


def _in_place(items: WorkContent, work: AssemblyWork) -> str:
    """Say what is finished in the airframe, and that it is rung out there: on the bench it could not be."""
    things = {passage.thing.key: passage.thing for threading in work.threadings for passage in threading.passages}
    named = [_thing(items, things[key]) for key in work.waits]
    tubes = ", tubes shrunk over what is soldered" if _is_soldered(work, in_place=True) else ""
    return (
        f"finish {'; '.join(named)}{tubes}. Ring it out there and shake it, each contact against carbon or metal "
        "structure too: none may ring"
    )


def _is_soldered(work: AssemblyWork, *, in_place: bool) -> bool:
    """Tell whether contacts are soldered on the bench, or when their ends are through the airframe's openings."""
    ends = [end for made in work.leads for end in (made.first, made.second) if end.tubes]
    tails = any(joint.shell.contact.join == "solder" for joint, _, _ in work.tails)
    return (tails and not in_place) or any((end.waits is Waits.CONTACTS) == in_place for end in ends)


def _all(step: str, says: str) -> Row:
    return Row((Stacked(step, under=says), Tick()), rule=True)


def _sleeve(items: WorkContent, work: SleeveWork) -> Row:
    way = f"from {work.start} to {work.goal}"
    says = f"around {way}, when all else is on" if work.opens else f"on {way}"
    bare = sorted(zip(work.sleeve.ends, work.sleeve.bare_mm, strict=True), key=lambda of: of[0] == work.goal)
    left = ", ".join(f"{mm:.0f} mm at {place}" for place, mm in bare if round(mm))
    says += f", bare {left}" if left else ""
    says += f"; collars {work.collar or NO_TUBE}"
    if work.plugs:
        says += f"; not over the plug of {listed(work.plugs)}: fit that plug after, or a sleeve that opens"
    if work.past:
        says += f"; can't pass another sleeve on {listed(work.past)}: take one that opens"
    is_straight = work.sleeve.runs in items.straight_sleeves
    says += f"; {STRAIGHT}" if is_straight else ""
    cut = straight_text(millimetres(work.sleeve.cut_length_mm) or "____", is_straight=is_straight)
    return _all(f"6 sleeve {work.sleeve.kind.name} · {cut} mm", says)
