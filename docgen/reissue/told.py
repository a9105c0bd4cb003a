"""Take what differs between two states; return it in words: circuit by circuit what is another, and what follows."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from docgen.basics.units import decimal
from docgen.reissue.differences import Broken, Changed, Differences, OtherSleeve
from docgen.reissue.facts import Fact
from docgen.reissue.moves import SPLICE, Move, Piece, Plugging

CHECKED = {
    "volts": "volts unplugged",
    "direction": "direction",
    "centre": "centre",
    "ends": "ends",
    "gyro": "gyro against tilt",
    "limit": "limit set, timed",
    "works": "works",
    "fail-safe": "fail-safe",
    "idle": "idle current",
}
# By how wires are joined; `kept` with the contact that they have.
_OUT_OF = {"kept": "extract", "crimp": "extract, cut off", "solder": "unsolder", SPLICE: "cut out of the splice"}
_INTO = {"kept": "insert", "crimp": "crimp, insert", "solder": "new tube, solder", SPLICE: "new tube, splice"}
_UNITS = {"_mm": " mm", "_a": " A", "_v": " V", "_s": " s", "_mah": " mAh"}
_WORDS = {
    "lead_mm": "own lead",
    "lead_wire": "wire of the own lead",
    "cut_mm": "cut length",
    "part": "wired with",
    "plug_at": "its plug lies at",
    "stall_a": "stall",
    "working_a": "working",
    "idle_a": "idle",
    "runs_s": "runs",
    "least_v": "needs",
    "most_v": "bears",
    "drop_v": "own drop",
    "stalled_drop_v": "own drop stalled",
    "left_v": "left",
    "order": "contacts in order",
    "failsafe": "fail-safe",
    "left_in": "left in, dead",
    "gender": "its contacts",
    "capacity_mah": "capacity",
    "full_v": "full",
    "empty_v": "empty",
    "resistance_ohm": "own resistance",
    "rating_a": "rating",
    "up_s": "stroke up",
    "down_s": "stroke down",
    "limit_s": "limit",
    "stop_a": "stop",
    "isolates": "keeps its feeds apart",
    "fed_by": "fed by",
    "output_v": "output",
    "keyed": "coding",
}
_DOES = {"key": ": turn the half in its mount", "keyed": ": set it in both halves"}


def text(of: Differences) -> str:
    """Return all of it as lines of text."""
    return "\n".join(_lines(of))


def _lines(of: Differences) -> Iterator[str]:
    if not of.has_any:
        yield f"nothing differs from {of.was}."
    yield from _under("No longer holds:", map(broken_text, of.broken))
    for name, about in by_circuit(of).items():
        yield from _under(f"{name}:", about)
    for does, cards in (
        ("replace", [card.card for card in of.cards if card.was and card.now] + [*of.aboard]),
        ("put in", [card.card for card in of.cards if not card.was and card.now]),
        ("tear up", [card.card for card in of.cards if card.was and not card.now]),
    ):
        yield from _under(f"Cards to {does}:", cards)
    yield from _under("Sleeves:", (f"{sleeve.ends}: {sleeve_text(sleeve)}" for sleeve in of.sleeves))
    out = dict.fromkeys(of.drawn, "draw its bundle out of a closed run, ")
    threaded = (f"{ends}: {out.get(ends, '')}thread {', '.join(some)} through" for ends, some in of.threaded.items())
    yield from _under("Sleeves that stay:", threaded)
    for (issue, name), texts in perhaps_left(of).items():
        yield from _under(f"Look for what {issue} may have left of {name}:", texts)
    tear = (f"{card}: {' or '.join(hashes)}" for card, hashes in of.leftover.items())
    yield from _under("Cards to tear up if they are there:", tear)
    if of.between:
        yield between_text(of)


def perhaps_left(of: Differences) -> dict[tuple[str, str], list[str]]:
    """Return what issues that are not said to be built made another and what is now does not, by issue and name."""
    seen = _done(of)
    left: dict[tuple[str, str], list[str]] = {}
    for each in of.unbuilt:
        for name, texts in _done(each).items():
            names = [name, *(taken.new for taken in of.taken if taken.old == name)]
            known = [text for one in names for text in seen.get(one, ())]
            others = [text for text in texts if text not in known]
            seen[name] = [*seen.get(name, ()), *others]
            left |= {(each.now, name): others} if others else {}
    return left


def _done(of: Differences) -> dict[str, list[str]]:
    """Return what is another, or else what is done; without what was computed or taken as the same."""
    plain = replace(of, figures=(), taken=(), checks={}, rung_out=())
    said = by_circuit(plain) | changes(plain)
    for piece, some in _by_lead(of.wiring.cut):
        circuit, _, letter = piece.lead.rpartition(" ")
        said[circuit] = list(dict.fromkeys([*said.get(circuit, ()), f"{letter}: cut {pieces_text(some)}"]))
    return said | {each.ends: [f"sleeve {sleeve_text(each)}"] for each in of.sleeves}


def between_text(of: Differences) -> str:
    """Say that issues were not said to be built, and what of them may be there."""
    says = f"Issues after {of.was}, up to {of.between}, are not said to be built: parts of them may be in the aircraft"
    too = f", {', '.join(of.perhaps)} too" if of.perhaps else ""
    return f"{says}{too}; look before each step."


def _under(head: str, some: Iterable[str]) -> list[str]:
    said = [f"  {line}" for line in some]
    return [head, *said] if said else []


def broken_text(broken: Broken) -> str:
    """Say what no longer holds."""
    name = broken.on.partition(" ")[2]
    if not broken.was:
        return f"{broken.name}: {broken.now}"
    if broken.name == "order":
        return f"{name}: its plug has its contacts in another order: {broken.now}; it was {broken.was}."
    return f"{name}: its plug is {broken.now}, not {broken.was}."


def changes(of: Differences) -> dict[str, list[str]]:
    """Return what is another of each circuit, equipment and disconnect, by name; first what was taken as the same."""
    said: dict[str, list[str]] = {}
    for taken in of.taken:
        said.setdefault(taken.new, []).append(f"taken as the same: {taken.text}, by {taken.by}")
    for each in (*of.equipment, *of.joints, *of.circuits, *of.figures):
        said.setdefault(each.name, []).extend(changed_texts(each, of.wiring.stays))
    return {name: list(dict.fromkeys(texts)) for name, texts in said.items() if texts}


def by_circuit(of: Differences) -> dict[str, list[str]]:
    """Return what is another of each circuit, equipment and common, and what follows, by name."""
    said = changes(of)
    wires = of.wiring
    for name, line in (
        *((piece.lead, f"cut {pieces_text(some)}") for piece, some in _by_lead(wires.cut)),
        *((lead, "take the whole lead out") for lead in wires.removed),
        *(
            (some[0].lead, f"{'put into' if some[0].into else 'take out of'} {moves_text(some)}, {how_text(some[0])}")
            for some in acts(wires.moves)
        ),
        *((each.lead, plugged_text(each)) for each in wires.plugged),
        *((lead, f"label at {at}: {texts}") for (lead, at), texts in labels_text(of).items()),
        *((lead, "ring out") for lead in of.rung_out),
    ):
        circuit, _, letter = name.rpartition(" ")
        said.setdefault(circuit, []).append(f"{letter}: {line}")
    for name, checks in of.checks.items():
        said.setdefault(name, []).append(f"check again: {', '.join(CHECKED[check] for check in checks)}")
    return {name: list(dict.fromkeys(lines)) for name, lines in said.items() if lines}


def labels_text(of: Differences) -> dict[tuple[str, str], str]:
    """Say by lead and end which labels come off and which go on."""
    said: dict[tuple[str, str], list[str]] = {}
    for does, labels in (("off", of.stripped), ("on", of.put_on)):
        for label in labels:
            said.setdefault((label.lead, label.at), []).append(f"{does} {label.says}")
    return {end: ", ".join(texts) for end, texts in said.items()}


def _by_lead(pieces: Sequence[Piece]) -> Iterator[tuple[Piece, list[Piece]]]:
    for _, some in groupby(pieces, key=lambda piece: piece.lead):
        of = list(some)
        yield of[0], of


def acts(moves: Sequence[Move]) -> list[list[Move]]:
    """Return moves that are one act together: of one lead, at one end, one way, new or not, and joined alike."""
    some: dict[tuple[str, str, bool, bool, str], list[Move]] = {}
    for move in moves:
        some.setdefault((move.lead, move.spot.at, move.into, move.anew, how_text(move)), []).append(move)
    return list(some.values())


def pieces_text(pieces: Sequence[Piece]) -> str:
    """Say what is cut of a lead: length, gauge and colours."""
    first = pieces[0]
    return f"{length_text(first.cut_mm)}, {first.gauge}, {', '.join(piece.colour or first.wire for piece in pieces)}"


def how_text(move: Move) -> str:
    """Say how a wire comes out or goes in: with its contact, or cut off and crimped, soldered or spliced anew.

    One that comes out dead is capped.
    """
    kept = move.crimped and move.spot.join == "crimp"
    how = (_INTO if move.into else _OUT_OF)["kept" if kept else move.spot.join]
    return f"{how}, cap" if move.capped else how


def moves_text(moves: Sequence[Move]) -> str:
    """Say which wires at which contacts of an end."""
    spot = moves[0].spot
    spliced = f" {SPLICE}" if spot.is_spliced and spot.contacts else ""
    return f"{spot.at}{spliced}: {', '.join(map(contact_text, moves))}"


def contact_text(move: Move) -> str:
    """Say a contact and the colour of its wire: `7 BK`, or what is spliced: `BK`."""
    return " ".join(filter(None, ("+".join(move.spot.contacts), move.colour)))


def plugged_text(plugging: Plugging) -> str:
    """Say what is done with a whole plug."""
    was, now = (spot.at if spot is not None else "" for spot in (plugging.was, plugging.now))
    if plugging.capped:
        return f"unplug from {was} and cap: dead"
    return ", ".join(filter(None, (f"unplug from {was}" if was else "", f"plug into {now}" if now else "")))


def sleeve_text(sleeve: OtherSleeve) -> str:
    """Say which sleeve comes off and which goes on, or by how much one is cut back, and what is drawn out for it."""
    if sleeve.was is not None and sleeve.back_mm is not None:
        where = "at an end, outside its closed run" if sleeve.closed else "in place"
        return f"cut {sleeve.was.lies[0]} back {decimal(sleeve.back_mm)} mm {where}"
    off = f"{sleeve.was.lies[0]}, {length_text(sleeve.was.cut_mm)}" if sleeve.was else ""
    on = f"{sleeve.now.kind}, {length_text(sleeve.now.cut_mm)}" if sleeve.now else ""
    drawn = "its bundle drawn out of a closed run" if sleeve.closed and sleeve.now else ""
    return ", ".join(filter(None, (f"off {off}" if off else "", f"on {on}" if on else "", drawn)))


def length_text(length_mm: float | None) -> str:
    """Say a length, or that it is not known."""
    return f"{decimal(length_mm)} mm" if length_mm is not None else "length not measured"


def changed_texts(changed: Changed, stays: Collection[str]) -> list[str]:
    """Say what is another of a circuit or equipment, and of a lead cut otherwise now that it stays, if it does."""
    if not changed.was:
        return ["new"]
    if not changed.now:
        return ["taken out"]
    cut = [fact.what == "cut_mm" and f"{changed.now} {fact.of}" in stays for fact in changed.facts]
    return [fact_text(fact) + "; the lead stays" * is_so for fact, is_so in zip(changed.facts, cut, strict=True)]


def fact_text(fact: Fact) -> str:
    """Say one fact: what it was and what it is."""
    words = _WORDS.get(fact.what, fact.what)
    what = f"{fact.of} {words}" if fact.of else words
    if isinstance(fact.was or fact.now, bool):
        return what if fact.now else f"no more {what}"
    was, now = (_value(fact.what, value) for value in (fact.was, fact.now))
    return f"{what} {now}, was {was}{_DOES.get(fact.what, '')}"


def _value(what: str, value: str | float | None) -> str:
    if value in (None, ""):
        return "none"
    if isinstance(value, str):
        return value
    if what.endswith("_ohm"):
        return f"{decimal(1000 * value)} mΩ"
    return decimal(value) + next((unit for end, unit in _UNITS.items() if what.endswith(end)), "")
