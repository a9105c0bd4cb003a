"""What every wire and contact of the harness carries, beside what it may carry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from docgen.basics.ampacity import derated_a, table_current_a
from docgen.basics.findings import Position
from docgen.definition.model import Where
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import Circuit, CutLead, End
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect
from docgen.harness.model.parts import Connector, ContactPart, WirePart
from docgen.harness.routing.heat import hottest_c
from docgen.harness.wiring.commons import stands
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch

_CLOSE = 1e-9


@dataclass(frozen=True)
class WireLoading:
    """A wire, where it is, its heat, and its working current [A].

    It is one of a `lead`, or of an own lead at the `own` end; else one of `tails` behind `common` of a disconnect.
    """

    role: str
    at: str
    kind: WirePart
    heat_c: float | None
    working_a: float
    position: Position
    subject: tuple[str, str]
    lead: CutLead | None = None
    own: End | None = None
    common: tuple[str, str] = ("", "")
    tails: int = 0

    @property
    def may_a(self) -> float | None:
        """Return what it may carry at its heat [A], or nothing where nothing says it."""
        return may_carry_a(self.kind, self.heat_c)

    @property
    def may_source(self) -> str:
        """Say where it comes from what it may carry."""
        return "its own `current:`" if self.kind.current_a is not None else "FAA AC 43.13-1B table 11-9"

    @property
    def is_too_hot(self) -> bool:
        """Tell whether its heat alone is too much, which the finding `heat` says."""
        return self.heat_c is not None and self.kind.limit_c is not None and self.heat_c >= self.kind.limit_c


@dataclass(frozen=True)
class ContactLoading:
    """A mated contact and its share of the current [A]: working, briefly, and as long as gear legs can be jammed.

    `contacts` share it alike; `roles` are those of a plug; one of a shell is at `disconnect`.
    """

    role: str
    at: str
    kind: ContactPart
    roles: frozenset[str]
    contacts: int
    working_a: float
    brief_a: float
    lasting_a: float
    position: Position
    subject: tuple[str, str]
    wire: WirePart | None = None
    disconnect: str = ""

    @property
    def rating_share(self) -> float:
        """Return how much it uses of what it stands for long; 1 is at the rating."""
        return max(self.working_a, self.lasting_a) / self.kind.rating_a if self.kind.rating_a else 0.0

    @property
    def share(self) -> float:
        """Return how much of its ratings it uses, in the worst case; 1 is at the rating."""
        return max(self.rating_share, self.brief_a / self.kind.brief_a if self.kind.brief_a else 0.0)


def may_carry_a(kind: WirePart, heat_c: float | None) -> float | None:
    """Return what a wire may carry at a heat [A]: its own figure, else that of FAA AC 43.13-1B table 11-9."""
    own = kind.current_a
    if own is None:
        own = table_current_a(kind.gauge.area_mm2, kind.limit_c)
    return None if own is None else derated_a(own, kind.limit_c, heat_c)


def carries(kind: WirePart, heat_c: float | None, working_a: float) -> bool:
    """Tell whether a wire stands a heat and may carry a current in it [A]; nothing is carried by any."""
    return stands(kind, heat_c) and (working_a <= 0 or (may_carry_a(kind, heat_c) or 0.0) >= working_a * (1 - _CLOSE))


def wire_loadings(harness: Harness, electricity: Electricity, where: Where, circuit: Circuit) -> Iterator[WireLoading]:
    """Walk the wires of a circuit that carry its current, own leads among them."""
    for index, lead in enumerate(circuit.leads):
        for role in circuit.poles:
            wire = lead.wire(role)
            if wire is None:
                continue
            working_a = electricity.working_a(WireBranch(circuit.name, index, role))
            subject = ("circuits", circuit.name)
            if isinstance(lead, CutLead):
                position = where.value("circuits", circuit.name, "lead", lead.segment)
                heat_c = _heat_c(harness, lead.route)
                yield WireLoading(role, lead.name, wire.kind, heat_c, working_a, position, subject, lead)
            for key, end in zip(("from", "to"), lead.ends, strict=True):
                if end.own is not None:
                    at = f"{end.own.equipment}'s own lead"
                    position = where.value("circuits", circuit.name, key)
                    kind = end.own.kind or wire.kind
                    heat_c = _heat_c(harness, lead.route_of(end.own))
                    yield WireLoading(role, at, kind, heat_c, working_a, position, subject, None, end)


def _heat_c(harness: Harness, route: Route) -> float | None:
    return hottest_c(harness.places, harness.runs, route)


def contact_loadings(electricity: Electricity, where: Where, circuit: Circuit) -> Iterator[ContactLoading]:
    """Walk the mated contacts that a circuit has alone and that carry its current."""
    for index, lead in enumerate(circuit.leads):
        for role in circuit.poles:
            wire = lead.wire(role)
            if wire is None:
                continue
            branch = WireBranch(circuit.name, index, role)
            for at_end in lead.passed:
                key, end = ("from", "to")[at_end], lead.ends[at_end]
                if end.is_splice or role in end.commons or role not in end.contacts:
                    continue
                position = where.value("circuits", circuit.name, key)
                if not end.is_port:
                    position = where.item(end.name, "circuits", circuit.name, "through")
                kind = wire.kind if isinstance(lead, CutLead) else None
                at = "circuits", circuit.name
                joint = "" if end.is_port else end.name
                contact = _contact(electricity, role, branch, end.text, end.connector, 1, position, at)
                yield replace(contact, wire=kind, disconnect=joint)


def _contact(
    electricity: Electricity,
    role: str,
    branch: Branch,
    at: str,
    connector: Connector,
    contacts: int,
    position: Position,
    subject: tuple[str, str],
) -> ContactLoading:
    return ContactLoading(
        role,
        at,
        connector.contact,
        frozenset(connector.roles.values()),
        contacts,
        electricity.working_a(branch) / contacts,
        electricity.brief_a(branch) / contacts,
        electricity.lasting_a(branch) / contacts,
        position,
        subject,
    )


def common_loadings(
    harness: Harness, electricity: Electricity, where: Where, disconnect: Disconnect
) -> Iterator[tuple[Common, ContactLoading, list[WireLoading]]]:
    """Walk the commons of a disconnect with what each contact, and each tail behind either half, carries."""
    for common in disconnect.commons.values():
        branch = CommonBranch(disconnect.name, common.name)
        position = where.value("disconnects", disconnect.name, "commons", common.name, "contacts")
        subject = ("commons", f"{disconnect.name} {common.name}")
        at = f"{disconnect.name}, common {common.name}"
        count = len(common.contacts)
        contact = _contact(electricity, common.role, branch, at, disconnect.shell, count, position, subject)
        tails = [
            WireLoading(
                common.role,
                f"each tail of {common.name} behind the {behind.half.name} half of {disconnect.name}",
                behind.tails[0].kind,
                harness.places[behind.half.place].heat_c,
                contact.working_a,
                position,
                subject,
                common=(disconnect.name, common.name),
                tails=count,
            )
            for behind in common.halves
            if behind.tails
        ]
        yield common, replace(contact, disconnect=disconnect.name), tails
