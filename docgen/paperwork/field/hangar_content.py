"""Take the harness; return what the hangar card shows, as values."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence

from docgen.basics.findings import Finding, Level
from docgen.basics.frozen import frozen
from docgen.harness.model.airframe import Run
from docgen.harness.model.circuits import End
from docgen.harness.model.harness import Harness
from docgen.harness.model.switching import Switching
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.field.aboard import Aboard, aboard, gyros
from docgen.paperwork.field.plan_content import Plan, plan_of
from docgen.paperwork.field.short_form import ShortForm, short_form
from docgen.paperwork.items import Item, item
from docgen.paperwork.naming import sided

# What of all that was found a helper beside the aircraft must know.
_AT_THE_FIELD = ("overvolts", "failsafe", "swap", "live-pins")
_GYRO = "surfaces against tilt"


@frozen
class Pack:
    """Packs that are alike: volts full and where to land, flights on a charge, and their plug."""

    names: tuple[str, ...]
    full_v: float
    land_v: float
    flights: float | None
    plug: str


@frozen
class Lock:
    """What is locked alike, when it is, and how it is opened."""

    names: tuple[str, ...]
    locked: str
    opens: str


@frozen
class Channel:
    """What moves: how far, and what it does without the radio; that is empty where a gyro or another unit moves it."""

    function: str
    throw: str
    failsafe: str | None


@frozen
class Stroke:
    """Legs that are alike: their longer stroke [s], and what their controller is set to."""

    names: tuple[str, ...]
    longer_s: float | None
    limit_s: float | None
    stop_a: float | None


@frozen
class Season:
    """Runs to look at each season, by their ends."""

    sharp: tuple[str, ...]
    hot: tuple[str, ...]
    hinged: tuple[str, ...]


@frozen
class Card:
    """Cards that belong aboard of a joint, both halves, or of equipment: the key and the hash of each."""

    name: str
    hashes: tuple[tuple[str, str], ...]


@frozen
class HangarContent:
    """What the card shows; `hatches` and `retained` tell whether there are any, and plugs that want a retainer.

    `too_high` are packs whose plug goes into equipment that bears less, but for those that share it with other volts.
    """

    name: str
    marks: str
    description: str
    contact: str
    aboard: Aboard
    cautions: tuple[Finding, ...]
    switching: Switching
    packs: tuple[Pack, ...]
    too_high: tuple[tuple[str, tuple[str, ...]], ...]
    locks: tuple[Lock, ...]
    retained: bool
    hatches: bool
    channels: tuple[Channel, ...]
    strokes: tuple[Stroke, ...]
    plan: Plan
    cards: tuple[Card, ...]
    kit: bool
    joins: tuple[str, ...]
    season: Season
    short: ShortForm

    @property
    def named(self) -> list[Item]:
        """Return the cards that it names, as they are compared."""
        return [item(key.split(" "), (), (), content_hash) for card in self.cards for key, content_hash in card.hashes]


def content(harness: Harness) -> HangarContent:
    """Return what the hangar card shows."""
    aircraft = harness.aircraft
    found = [finding for finding in harness.findings if finding.name in _AT_THE_FIELD]
    connectors = {plug.connector.name: plug.connector for plug in _own_ends(harness)}
    connectors |= {joint.shell.name: joint.shell for joint in harness.disconnects.values()}
    packs = tuple(_packs(harness))
    return HangarContent(
        name=aircraft.name,
        marks=aircraft.marks,
        description=aircraft.description,
        contact=aircraft.contact,
        aboard=aboard(harness),
        cautions=tuple(one for one in found if one.level is Level.CAUTION),
        switching=harness.results.switching,
        packs=packs,
        too_high=tuple(_too_high(harness, packs)),
        locks=tuple(_locks(harness)),
        retained=any(end.connector.retainer for end in _own_ends(harness) if end.own is not None),
        hatches=any(place.access for place in harness.places.values()),
        channels=_channels(harness),
        strokes=tuple(_strokes(harness)),
        plan=plan_of(harness),
        cards=tuple(_cards(harness)),
        kit=bool(connectors),
        joins=tuple(dict.fromkeys(connector.contact.join for connector in connectors.values())),
        season=Season(
            tuple(_runs(harness, lambda run: run.sharp and run.dressed is None)),
            tuple(_runs(harness, lambda run: run.heat_c is not None and run.heat_c > harness.limits.hot_c.value)),
            tuple(_runs(harness, lambda run: run.hinge_mm is not None)),
        ),
        short=short_form(harness),
    )


def _own_ends(harness: Harness) -> Iterator[End]:
    """Walk the plugs of leads that are cut."""
    for lead in harness.cut_leads():
        yield from (end for end in lead.ends if end.is_port)


def _packs(harness: Harness) -> Iterator[Pack]:
    """Walk packs, those of both sides together if they are alike."""
    flights = {
        pack: supply.endurance.together
        for supply in harness.results.supplies
        if supply.endurance is not None
        for pack in supply.packs
    }
    packs = {name: entry.battery for name, entry in harness.equipment.items() if entry.battery is not None}
    plugs = {name: "".join(port.connector.name for port in harness.equipment[name].ports[:1]) for name in packs}
    alike = {name: (pack.full_v, pack.empty_v, flights.get(name), plugs[name]) for name, pack in packs.items()}
    for names in sided(packs):
        for some in _together(names, alike):
            yield Pack(some, *alike[some[0]])


def _too_high(harness: Harness, packs: Sequence[Pack]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Walk packs with the equipment that they would harm."""
    for name, ports in harness.results.too_high.items():
        of = next(pack for pack in packs if name in pack.names)
        if all(pack.full_v == of.full_v for pack in packs if pack.plug == of.plug):
            yield name, tuple(dict.fromkeys(port.partition(" ")[0] for port in ports))


def _together(names: tuple[str, ...], alike: Mapping[str, Hashable]) -> list[tuple[str, ...]]:
    """Return names in one if all of them are alike, else each alone."""
    return [names] if len({alike[name] for name in names}) == 1 else [(name,) for name in names]


def _locks(harness: Harness) -> Iterator[Lock]:
    """Walk what locks joints, all that are locked alike together; words up to the first semicolon say when it is.

    A key is where it must be in flight.
    """
    locked: dict[str, list[str]] = {}
    for joint in harness.disconnects.values():
        locked.setdefault(joint.shell.lock, []).append(joint.name)
    for words, names in locked.items():
        when, _, opens = words.partition(";")
        yield Lock(tuple(names), when.strip(), opens.strip())
    for key in (entry for entry in harness.equipment.values() if entry.kind == "key"):
        yield Lock((key.name,), "out for flight" if key.form.out == "on" else "in for flight, home", "")


def _channels(harness: Harness) -> tuple[Channel, ...]:
    """Return what the radio moves by channel, then what has none; then what a gyro or another unit moves, and gyros."""
    moved = {
        name: circuit.form
        for name, circuit in harness.made.circuits.items()
        if circuit.form.channel is not None or circuit.form.throw or circuit.form.failsafe is not None
    }
    ordered = sorted(moved.items(), key=lambda one: (one[1].channel is None, one[1].channel or 0))
    found = [Channel(harness.circuits[name].label, form.throw, form.failsafe) for name, form in ordered]
    servos = (one for one in harness.losses.functions if harness.equipment[one.load].kind == "servo")
    found += [Channel(one.label, "", "") for one in servos if moved.keys().isdisjoint(one.circuits)]
    return (*found, *(Channel(name, _GYRO, "") for name in gyros(harness.made)))


def _strokes(harness: Harness) -> Iterator[Stroke]:
    """Walk legs with what is said of them, those of both sides together if they are alike but for their strokes."""
    gears = {name: entry.form.gear for name, entry in harness.equipment.items() if entry.form.gear is not None}
    alike = {name: (gear.limit_s, gear.stop_a) for name, gear in gears.items()}
    for names in sided(gears):
        for some in _together(names, alike):
            every = [stroke for name in some for stroke in (gears[name].up_s, gears[name].down_s)]
            longer_s = max((stroke for stroke in every if stroke is not None), default=None)
            yield Stroke(some, longer_s, *alike[some[0]])


def _cards(harness: Harness) -> Iterator[Card]:
    hashes: dict[str, list[tuple[str, str]]] = {}
    for key, content_hash in pinout_cards.content(harness).hashes.items():
        hashes.setdefault(key[0], []).append((" ".join(key), content_hash))
    for name, some in hashes.items():
        yield Card(name, tuple(some))


def _runs(harness: Harness, wanted: Callable[[Run], bool]) -> Iterable[str]:
    """Return runs with leads in them, by their ends; those of both sides once."""
    laid = {bundle.run for bundle in harness.bundles if bundle.leads}
    names = ["–".join(run.between) for index, run in enumerate(harness.runs) if index in laid and wanted(run)]
    return (pair[0] if len(pair) == 1 else f"{pair[0]} (both)" for pair in sided(names))
