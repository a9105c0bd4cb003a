"""Take what differs; return the tables of what is done to sleeves, and of what goes through openings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from docgen.basics.findings import listed
from docgen.basics.units import decimal
from docgen.definition.issued import State
from docgen.harness.assembly.bill_of_materials import COLLAR_MM
from docgen.paperwork.cut_list.materials import NO_TUBE
from docgen.paperwork.naming import opening_text
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.page_kit.cells import Cell, Stacked, Tick
from docgen.paperwork.page_kit.tables import Column, Row
from docgen.paperwork.typesetting.typeface import PLAIN_MM
from docgen.reissue.differences import Differences, OtherSleeve
from docgen.reissue.hatch_table import with_head
from docgen.reissue.making import Making, Opening
from docgen.reissue.sleeves import is_closed
from docgen.reissue.told import length_text


def sleeves_table(of: Differences, new: State, made: Making) -> Sequence[Block]:
    """Return a row for each sleeve that is another, and for each that stays with new leads threaded through.

    A shrunk collar lets nothing through, and does not go on again over what is plugged.
    """
    columns = [
        Column("sleeve", PLAIN_MM),
        Column("off", PLAIN_MM),
        Column(""),
        Column("on", PLAIN_MM),
        Column(""),
        Column("over"),
    ]
    rows = [_sleeve(sleeve, made) for sleeve in of.sleeves]
    rows += [_stays(ends, leads, of, new, made) for ends, leads in of.threaded.items()]
    return with_head(columns, rows)


def _stays(ends: str, leads: Sequence[str], of: Differences, new: State, made: Making) -> Row:
    """Return how leads are threaded through a sleeve that stays; what lies in a closed run is drawn out for new ones.

    Where old ones come out of that, they draw the new ones in.
    """
    opened, over = "collars slit, ends tied after", f"thread {_named(leads, made)} through"
    if ends in of.drawn:
        opened = "collars off at the bench, ends tied"
        over = _drawn(new.sleeves[ends].leads, f"thread {listed(leads)} in", made)
    elif is_closed(ends, new, new):
        over = f"closed run: draw in {_named(leads, made)} with a line tied to what comes out"
    elif new.sleeves[ends].splits:
        opened = "unwound, wound again"
    return Row((ends, "", "", Stacked("stays", under=opened), Tick(), over), rule=True)


def _sleeve(sleeve: OtherSleeve, made: Making) -> Row:
    """Return what is done with a sleeve: cut back, or slit and taken off, and slid on over free ends or wrapped."""
    was, now, work = sleeve.was, sleeve.now, made.sleeves.get(sleeve.ends)
    opened = "collars slit, unwound" if was is not None and was.splits else "slit, collars too"
    if sleeve.closed:
        opened = "off at the bench" if now is not None else "closed run: off where it is drawn out, else stays"
    off: Cell = Stacked(was.lies[0], under=opened) if was is not None else ""
    if was is not None and sleeve.back_mm is not None:
        how = "at an end, outside the run, tied" if sleeve.closed else "in place, end tied"
        off = Stacked(was.lies[0], under=f"cut back {decimal(sleeve.back_mm)} mm {how}")
        return Row((sleeve.ends, off, Tick(), "", "", ""), rule=True)
    if now is None:
        return Row((sleeve.ends, off, Tick(), "", "", ""), rule=True)
    collars = f"2 collars of {work.collar or NO_TUBE}, {decimal(COLLAR_MM)} mm" if work is not None else ""
    on = Stacked(f"{now.kind} · {length_text(now.cut_mm)}", under=collars)
    over = f"around {', '.join(now.leads)}" if now.splits else f"one end of each free first: {_named(now.leads, made)}"
    if sleeve.closed:
        over = _drawn(now.leads, "change the sleeve" if was is not None else "put the sleeve on", made)
    if work is not None and work.plugs:
        over += f"; not over the plug of {listed(work.plugs)}: take its contacts out"
    return Row((sleeve.ends, off, Tick() if was is not None else "", on, Tick(), over), rule=True)


def _drawn(leads: Iterable[str], does: str, made: Making) -> str:
    """Say what is done with a sleeve that no hand reaches."""
    return f"closed run; free first: {_named(leads, made)}; draw out with a line tied on; {does}; draw back"


def _named(leads: Iterable[str], made: Making) -> str:
    """Name leads by their free ends."""
    ends = {lead: " and ".join(made.free.get(lead, ())) for lead in leads}
    return ", ".join(f"{lead} by its end at {at}" if at else lead for lead, at in ends.items())


def openings_table(of: Differences, made: Making) -> Sequence[Block]:
    """Return a row for each opening that new leads are threaded through, but where a sleeve says so."""
    sleeved = {*of.threaded, *(each.ends for each in of.sleeves if each.now is not None and each.back_mm is None)}
    columns = [Column("run", PLAIN_MM), Column("opening", PLAIN_MM), Column(""), Column("through it")]
    rows = [
        Row((each.ends, opening_text(each.hole_mm), Tick(), _through(each, made)), rule=True)
        for each in made.openings
        if each.ends not in sleeved
    ]
    return with_head(columns, rows)


def _through(opening: Opening, made: Making) -> str:
    named = _named(opening.leads, made)
    return f"closed run: with a line along what lies there, {named}" if opening.closed else named
