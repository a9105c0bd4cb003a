"""What differs between the state that is in the aircraft and another, and what must be done again. Values only."""

from __future__ import annotations

from dataclasses import field, replace

from docgen.basics.frozen import frozen
from docgen.definition.identity import Taken
from docgen.definition.issued import IssuedSleeve
from docgen.paperwork.field import fault_pages, hangar_pages
from docgen.reissue.facts import Fact
from docgen.reissue.moves import Wiring

ABOARD = (hangar_pages.STEM, fault_pages.STEM)


@frozen(slots=True)
class Broken:
    """What no longer holds: a `plug` or the `order` of its roles, as it was and is, or a finding and what it says."""

    name: str
    on: str
    was: str = ""
    now: str = ""


@frozen(slots=True)
class Changed:
    """A circuit, equipment or disconnect: its name as it was, nothing where it is new, and now, nothing if gone."""

    was: str
    now: str
    facts: tuple[Fact, ...] = ()

    @property
    def name(self) -> str:
        """Return the name that it has, or had."""
        return self.now or self.was


@frozen(slots=True)
class OtherSleeve:
    """A sleeve between two places that comes off (`was`), goes on (`now`), or both.

    One that stays and is too long is cut `back_mm` in place. What lies in a `closed` run is drawn out for it.
    """

    ends: str
    was: IssuedSleeve | None
    now: IssuedSleeve | None
    back_mm: float | None = None
    closed: bool = False


@frozen(slots=True)
class OtherCard:
    """A card, and the hashes of the one that is torn up and of the one that goes in, nothing where there is none."""

    card: str
    was: str
    now: str


@frozen(slots=True)
class OtherLabel:
    """A label that is put on, or stripped: its key, what it says, its lead, and the plug or half behind which it is."""

    key: str
    says: str
    lead: str
    at: str
    place: str


@frozen
class Differences:
    """All that differs; labels `stripped` have the keys that they had, `checks` are by circuit.

    New leads are `threaded` through sleeves that stay, by the places at their ends; of those some are `drawn` out of
    closed runs with all that lies in them. Leads that `came` with equipment are others, or new. `figures` are of
    circuits that are checked again, `sheets` the documents that say something else. Issues up to `between` were never
    said to be built: `perhaps` are circuits of those that are gone, whose wires may be there; `unbuilt` is what each of
    them was to make another, and `leftover` the hashes that cards and documents had in them alone.
    """

    was: str
    now: str
    between: str = ""
    is_built: bool = False
    broken: tuple[Broken, ...] = ()
    taken: tuple[Taken, ...] = ()
    circuits: tuple[Changed, ...] = ()
    equipment: tuple[Changed, ...] = ()
    joints: tuple[Changed, ...] = ()
    figures: tuple[Changed, ...] = ()
    wiring: Wiring = field(default=Wiring())
    sleeves: tuple[OtherSleeve, ...] = ()
    threaded: dict[str, tuple[str, ...]] = field(default_factory=dict)
    drawn: tuple[str, ...] = ()
    came: tuple[str, ...] = ()
    put_on: tuple[OtherLabel, ...] = ()
    stripped: tuple[OtherLabel, ...] = ()
    cards: tuple[OtherCard, ...] = ()
    sheets: tuple[str, ...] = ()
    rung_out: tuple[str, ...] = ()
    checks: dict[str, tuple[str, ...]] = field(default_factory=dict)
    perhaps: tuple[str, ...] = ()
    unbuilt: tuple[Differences, ...] = ()
    leftover: dict[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def has_any(self) -> bool:
        """Tell whether anything is another, or is to be done or printed."""
        facts = (self.circuits, self.equipment, self.joints)
        said = (self.broken, *facts, self.put_on, self.cards, self.checks, self.sheets)
        return any((*said, self.wiring != Wiring(), self.sleeves, self.taken))

    @property
    def aboard(self) -> tuple[str, ...]:
        """Return the documents kept with the aircraft that say something else."""
        return tuple(name for name in self.sheets if name in ABOARD)

    @property
    def as_built(self) -> Differences:
        """Return them where the aircraft has been altered already: nothing is left to do to wires and sleeves."""
        return replace(self, wiring=Wiring(), sleeves=(), threaded={}, drawn=(), came=(), is_built=True)
