"""The form of what was issued: one state of an aircraft, as its paper said it should be.

The program alone writes it, to `issued/A/state.yaml`; the same values stand for what is in the aircraft and for what
comes out now. Ends, contacts and texts stand as pages say them; lengths are in mm, currents in A, volts in V, times in
s. What is not known, or not there, is left out.
"""

from __future__ import annotations

from docgen.definition.fields import Form, Text

Texts = tuple[Text, ...]


class IssuedPlace(Form):
    """A place, its assembly, and how a hand gets there."""

    assembly: Text
    access: Text = ""


class IssuedPorts(Form):
    """Ports of equipment that are alike: their names, none for a nameless one, their plug, and the lead on them.

    `order` are the roles of the plug in the order of its contacts.
    """

    names: Texts = ()
    plug: Text
    gender: Text
    order: Texts
    lead_mm: float | None = None
    lead_wire: Text = ""


class IssuedEquipment(Form):
    """Whatever has wires on it: where it is, where its plug lies, its ports and its figures."""

    kind: Text
    place: Text
    plug_at: Text = ""
    ports: tuple[IssuedPorts, ...] = ()
    colours: dict[Text, Text] = {}
    idle_a: float | None = None
    working_a: float | None = None
    stall_a: float | None = None
    runs_s: float | None = None
    least_v: float | None = None
    most_v: float | None = None


class IssuedSettings(Form):
    """What a pack is, what else of equipment is set or given, and what feeds it.

    `drives` are the outlets that each input works, where not all do; `output_v` are by outlet, where it is regulated.
    """

    cells: int | None = None
    capacity_mah: float | None = None
    full_v: float | None = None
    empty_v: float | None = None
    resistance_ohm: float | None = None
    rating_a: float | None = None
    up_s: float | None = None
    down_s: float | None = None
    limit_s: float | None = None
    stop_a: float | None = None
    isolates: bool = False
    fed_by: Texts = ()
    drives: dict[Text, Texts] = {}
    output_v: dict[Text, float] = {}


class IssuedHalf(Form):
    """One half of a disconnect, and where its key points, if that is known."""

    name: Text
    place: Text
    gender: Text
    key: Text = ""


class IssuedTail(Form):
    """A short wire from the splice behind a half to one contact of a common."""

    common: Text
    cut_mm: float
    colour: Text = ""
    gauge: Text
    wire: Text


class IssuedDisconnect(Form):
    """Where the harness comes apart: what each contact carries, a circuit and its role, or the common it is of.

    `tails` are by half and contact. `freed` are contacts that carried something in an earlier issue and nothing now.
    `keyed` is its coding, if it has one; earlier states do not say.
    """

    shell: Text
    halves: tuple[IssuedHalf, IssuedHalf]
    contacts: dict[Text, Text] = {}
    commons: dict[Text, Texts] = {}
    tails: dict[Text, dict[Text, IssuedTail]] = {}
    freed: Texts = ()
    keyed: Texts | None = None


class IssuedEnd(Form):
    """One end of a lead: a port of equipment, a half of a disconnect, or a splice.

    `gender` is what the lead's own plug carries, `housing` what that is like, whichever role has which contact, and
    `join` how wires are joined to its contacts; `own` is the lead of the equipment that it meets there.
    """

    kind: Text
    name: Text = ""
    part: Text = ""
    place: Text
    plug: Text = ""
    gender: Text = ""
    housing: Text = ""
    join: Text = ""
    own_mm: float | None = None
    own_wire: Text = ""


class IssuedWire(Form):
    """One conductor: `at` are its contacts at both ends of the lead, none at a splice.

    Up to the joint whose half is its plug, what came along bears no mark.
    """

    mark: Text = ""
    colour: Text = ""
    gauge: Text
    wire: Text
    at: tuple[Texts, Texts] = ((), ())


class IssuedLead(Form):
    """The piece of a circuit between two terminations; one without a `part` is what equipment came with.

    One that was `bought` ready-made is a single piece. `route` are the places that it passes. `there_mm` is how long it
    is where it stayed though it would be cut otherwise now.
    """

    part: Text = ""
    bought: bool = False
    cut_mm: float | None = None
    there_mm: float | None = None
    route: Texts
    ends: tuple[IssuedEnd, IssuedEnd]
    wires: dict[Text, IssuedWire]

    @property
    def lies_mm(self) -> float | None:
        """Return how long it is in the aircraft."""
        return self.cut_mm if self.there_mm is None else self.there_mm

    @property
    def is_uncut(self) -> bool:
        """Tell whether it is to be made and has no length to be cut to."""
        return bool(self.part) and self.cut_mm is None


class IssuedFigures(Form):
    """What was computed of a circuit."""

    working_a: float | None = None
    stall_a: float | None = None
    drop_v: float | None = None
    stalled_drop_v: float | None = None
    left_v: float | None = None
    case: Text = ""


class IssuedCircuit(Form):
    """One function from where its supply comes to its loads.

    Each of `ends` is the equipment and port, or the disconnect and the roles that it takes there from commons; the
    first is where it begins. `numbers` are letter and number of its wires by role, `letters` all that its leads had
    ever.
    """

    label: Text
    ends: tuple[Texts, ...]
    numbers: dict[Text, Text]
    letters: Texts
    planned: bool = False
    left_in: bool = False
    channel: int | None = None
    throw: Text = ""
    failsafe: Text = ""
    figures: IssuedFigures = IssuedFigures()
    leads: dict[Text, IssuedLead]

    @property
    def uncut(self) -> tuple[str, ...]:
        """Return the letters of its leads that have no length to be cut to."""
        is_made = not self.planned and not self.left_in
        return tuple(letter for letter, lead in self.leads.items() if is_made and lead.is_uncut)


class IssuedSleeve(Form):
    """One piece of protection, over so much of runs between two places, and the leads in it.

    Other kinds `would_do` as well over what lies in it. `slides_from` is that of the two places from which it goes on
    in the aircraft, `least_mm` the shortest piece that covers its way. Earlier states say none of these. `there` and
    `there_mm` are the kind and the way that it is cut for where it stayed though another would be cut now.
    """

    kind: Text
    splits: bool = False
    run_mm: float | None = None
    cut_mm: float | None = None
    leads: Texts
    would_do: Texts = ()
    slides_from: Text = ""
    least_mm: float | None = None
    there: Text = ""
    there_mm: float | None = None

    @property
    def lies(self) -> tuple[str, float | None]:
        """Return its kind in the aircraft, and the way that it is cut for."""
        return self.there or self.kind, self.run_mm if self.there_mm is None else self.there_mm


class IssuedFinding(Form):
    """What was found: its name, level, entry and sentence."""

    name: Text
    level: Text
    on: Text
    sentence: Text


class IssuedItem(Form):
    """One label, card, row or sheet: the issue in which it last changed, the hash of its content, and what it says.

    `work` is what of that is cut, crimped or inserted; all else is `text`.
    """

    since: Text
    hash: Text
    text: Texts = ()
    work: Texts = ()


class State(Form):
    """One state of an aircraft; `after` is the issue that came before it.

    `files` are the definition's as they were, by the hash of their text. `numbers` are the highest wire numbers ever
    given, by letter. `gone` are circuits that an issue since the last one
    that is built leaves out: their wires may still be there. `items` are by document and key. `settings` are of
    equipment that has any; without them an earlier version kept none, so they are not known. `closed` are runs, by the
    places at their ends, that no hand reaches; earlier versions kept none.
    """

    issue: Text
    after: Text = ""
    date: Text
    aircraft: Text
    marks: Text
    as_built: bool = False
    files: dict[Text, Text] = {}
    numbers: dict[Text, int]
    places: dict[Text, IssuedPlace]
    closed: Texts = ()
    equipment: dict[Text, IssuedEquipment]
    settings: dict[Text, IssuedSettings] | None = None
    disconnects: dict[Text, IssuedDisconnect]
    circuits: dict[Text, IssuedCircuit]
    gone: dict[Text, IssuedCircuit] = {}
    sleeves: dict[Text, IssuedSleeve]
    findings: tuple[IssuedFinding, ...] = ()
    items: dict[Text, dict[Text, IssuedItem]]

    @property
    def uncut(self) -> tuple[str, ...]:
        """Return the leads that could not be cut, so are not there; where all was altered before, they are."""
        every = (f"{name} {letter}" for name, circuit in self.circuits.items() for letter in circuit.uncut)
        return () if self.as_built else tuple(every)
