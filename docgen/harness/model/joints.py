"""Where the harness comes apart: disconnects, their halves and contacts, and commons with their tails. Values only."""

from __future__ import annotations

from docgen.basics.frozen import frozen
from docgen.definition import harness as forms
from docgen.harness.model.circuits import End, Lead, Wire
from docgen.harness.model.parts import Connector, WirePart


@frozen(slots=True)
class Half:
    """One half of a disconnect, whose reach may not be known; the plug on an own lead `came_on` that equipment."""

    name: str
    place: str
    gender: str
    fixed: bool
    reach_mm: float | None
    key: str | None
    came_on: str = ""


@frozen(slots=True)
class Tail:
    """A short wire without a mark, from the splice behind a half to one contact of a common."""

    role: str
    kind: WirePart
    colour: str
    contact: str


@frozen(slots=True)
class ContactUse:
    """What one contact of a disconnect carries: a wire of the circuit `of` that name, or of a common.

    `wires` are behind the halves, by their names; behind a common's half there may be a tail.
    """

    contact: str
    of: str
    is_common: bool
    label: str
    wires: dict[str, Wire | Tail]

    @property
    def role(self) -> str:
        """Return the role of what it carries."""
        return next((wire.role for wire in self.wires.values()), "")


@frozen(slots=True)
class Behind:
    """What is behind one half of a common: the wires that arrive, and a tail to each contact.

    Without tails the one wire goes straight into the one contact. Each tail is cut to `tail_mm`.
    """

    half: Half
    wires: tuple[tuple[Lead, Wire], ...]
    tails: tuple[Tail, ...]
    tail_mm: float


@frozen(slots=True)
class Common:
    """Contacts of a disconnect that several circuits share for one role; `feeders` bring the supply there.

    `sources` are all equipment that the role comes from, on the supply side.
    """

    name: str
    form: forms.Common
    role: str
    contacts: tuple[str, ...]
    circuits: tuple[str, ...]
    feeders: tuple[str, ...]
    sources: tuple[str, ...]
    halves: tuple[Behind, Behind]

    def behind(self, half: Half) -> Behind:
        """Return what is behind a half."""
        return next(behind for behind in self.halves if behind.half == half)


@frozen(slots=True)
class Disconnect:
    """Where the harness comes apart."""

    name: str
    form: forms.Disconnect
    shell: Connector
    halves: tuple[Half, Half]
    uses: dict[str, ContactUse]
    commons: dict[str, Common]

    def half_at(self, end: End) -> Half:
        """Return the half to which an end of a lead goes."""
        return next(half for half in self.halves if half.name == end.part)

    def other(self, half: Half) -> Half:
        """Return the half that one mates with."""
        return self.halves[1] if half == self.halves[0] else self.halves[0]

    def has_tails(self, end: End, role: str) -> bool:
        """Tell whether tails go on from where an end meets a common for a role."""
        return bool(self.commons[end.commons[role]].behind(self.half_at(end)).tails)

    @property
    def spares(self) -> tuple[str, ...]:
        """Return the contacts that nothing uses, in number order."""
        return tuple(contact for contact in self.shell.contacts if contact not in self.uses)
