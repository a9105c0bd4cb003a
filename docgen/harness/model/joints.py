"""Where the harness comes apart: disconnects, their halves and contacts, and commons with their tails. Values only."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.definition import harness as forms
from docgen.harness.model.circuits import End, Lead, Wire
from docgen.harness.model.parts import Connector


@dataclass(frozen=True, slots=True)
class Half:
    """One half of a disconnect."""

    name: str
    place: str
    gender: str
    fixed: bool
    reach_mm: float
    key: str | None


@dataclass(frozen=True, slots=True)
class ContactUse:
    """What one contact of a disconnect carries, and the wire behind each half (none where nothing is).

    It belongs to a circuit, or to a common; behind a common's half there may be a tail, which has no mark.
    """

    contact: str
    circuit: str
    common: str
    label: str
    wires: tuple[Wire | None, Wire | None]


@dataclass(frozen=True, slots=True)
class Behind:
    """What is behind one half of a common: the wires that arrive, and a tail to each contact.

    Without tails the one wire goes straight into the one contact. Tails are cut to `tail_mm`.
    """

    half: Half
    wires: tuple[tuple[Lead, Wire], ...]
    tails: tuple[Wire, ...]
    tail_mm: float | None


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
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

    def behind(self, end: End, role: str) -> Behind | None:
        """Return what is behind the half to which an end goes, where it meets a common there for a role."""
        common = self.commons.get(end.commons.get(role, ""))
        return next((behind for behind in common.halves if behind.half.name == end.part), None) if common else None

    @property
    def spares(self) -> tuple[str, ...]:
        """Return the contacts that nothing uses, in number order."""
        return tuple(contact for contact in self.shell.contacts if contact not in self.uses)
