"""Changes to the demanding example, and what must be redone for each, written down by hand.

Nothing here comes from running the program. Contacts, marks and ports of the example are those of its definition: at
`tail` the rudder has 7 to 9 (elevators before it take 1 to 6) and the tail light 10 and 11, of 14; the rudder is C17
and C18 (eight servos before it, two wires each), the tail light L13, the highest number of its letter. A wire is said
as `place contact mark`, the place a port or a joint and its half. Lead A goes up to the joint, B on from there. What is
done again follows from these rules, common practice all, no source:

- A lead whose length, wire or colours differ is made anew: its old wires come out at both ends, new ones go in, with
  new labels, and it is rung out. One that stays keeps its labels as long as they say what is so.
- A whole plug that goes to another port is unplugged and plugged; no contact leaves it.
- A card is replaced if any word on it is another.
- Whoever's wires were touched must work again (and its fail-safe be seen, if it has one); a servo that is another is
  tried from the beginning: direction, centre, ends, fail-safe, the volts that it bears, its idle current.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

SERVO_CHECKS = "direction centre ends fail-safe volts idle"


@dataclass(frozen=True)
class Change:
    """Replacements in the files, each text there once, and what follows; what is not said must not come out.

    `before` are those that had been made in what is in the aircraft.
    """

    edits: tuple[tuple[str, str], ...]
    before: tuple[tuple[str, str], ...] = ()
    no_longer: tuple[str, ...] = ()
    same: tuple[str, ...] = ()
    cut: Mapping[str, int] = field(default_factory=dict)
    removed: tuple[str, ...] = ()
    capped: tuple[str, ...] = ()
    out: tuple[str, ...] = ()
    into: tuple[str, ...] = ()
    replugged: tuple[str, ...] = ()
    sleeves: tuple[str, ...] = ()
    put_on: tuple[str, ...] = ()
    stripped: tuple[str, ...] = ()
    cards: tuple[str, ...] = ()
    rung_out: tuple[str, ...] = ()
    checks: Mapping[str, str] = field(default_factory=dict)


_RUDDER = "    place: fin\n    lead: 300 mm\n    lead_wire: lead-22\n    plug: servo-3\n"
_STALL = "working: 0.6 A, stall: 3.4 A}"

# Another servo, its lead 60 mm shorter. Fin to fin-base is 165 mm of run: 240 mm reach. It stalls at 3.8 A: own
# resistance was 0.9362 V / 3.4 A (0.2754 ohm, noted in the example) less 2 x 60 mm x 16.20 ohm/1000 ft = 0.0064, so
# 0.269 ohm x 3.8 A = 1.02 V; 6.6 V less that and some 0.35 V shared leaves 5.2, over 4.8 + 0.3. Its `drop` was over
# before, and accepted. The plug is the same, nothing names the servo's lead: nothing is cut or printed again.
STRONGER_SERVO = Change(
    edits=((_RUDDER, _RUDDER.replace("300 mm", "240 mm")), (_STALL, _STALL.replace("3.4 A", "3.8 A"))),
    checks={"rudder": SERVO_CHECKS},
)

# As before, but it stalls at 4.6 A: 0.269 ohm x 4.6 A = 1.24 V and some 0.4 V shared leave 4.96 V, under 5.1: `volts`.
TOO_STRONG_A_SERVO = Change(
    edits=((_RUDDER, _RUDDER.replace("300 mm", "240 mm")), (_STALL, _STALL.replace("3.4 A", "4.6 A"))),
    no_longer=("volts equipment rudder",),
    checks={"rudder": SERVO_CHECKS},
)

# 160 mm are less than the 165 mm to where the plug lies.
TOO_SHORT_A_LEAD = Change(
    edits=((_RUDDER, _RUDDER.replace("300 mm", "160 mm")),),
    no_longer=("reach circuits rudder",),
    checks={"rudder": SERVO_CHECKS},
)

# The plug has signal at 1 and negative at 3; positive stays in the middle. The harness plug that meets it is filled
# alike: two contacts change places in the housing that is there, none is crimped. Cards and labels name no contact of
# a servo's plug. It now goes into other servos' places too, with its roles crossed: `unlike-plugs`.
OTHER_ORDER = Change(
    edits=((_RUDDER, _RUDDER.replace("servo-3", "servo-3-turned")),),
    no_longer=("order equipment rudder", "unlike-plugs equipment rudder"),
    out=("rudder 1 C17B22N", "rudder 3 C18B22"),
    into=("rudder 3 C17B22N", "rudder 1 C18B22"),
    rung_out=("rudder B",),
    checks={"rudder": SERVO_CHECKS},
)
PLUGS = """plugs:
  servo-3-turned:
    contacts: {1: signal, 2: positive, 3: negative}
    equipment: sockets
    contact: {rating: 3 A, brief: 5 A, resistance: 10 mohm, strip: 2.5 mm, takes: [28 AWG, 22 AWG], over: 1.7 mm}
    size: [8.0 mm, 2.9 mm]
    pitch: 2.54 mm
    retainer: yes
    source: invented
  servo-3-small:
    contacts: {1: negative, 2: positive, 3: signal}
    equipment: sockets
    contact: {rating: 3 A, brief: 5 A, resistance: 10 mohm, strip: 2 mm, takes: [28 AWG, 22 AWG], over: 1.7 mm}
    size: [5.5 mm, 2.4 mm]
    source: invented
"""

# Another plug altogether: the two-contact kind has no signal, so take one with other contacts: they are crimped anew,
# into a new housing; the wires stay (10 mm of each were left for it). The label at that end says "rudder" as before.
OTHER_PLUG = Change(
    edits=((_RUDDER, _RUDDER.replace("servo-3", "servo-3-small")),),
    no_longer=("plug equipment rudder",),
    out=("rudder 1 C17B22N", "rudder 2 C17B22", "rudder 3 C18B22"),
    into=("rudder 1 C17B22N", "rudder 2 C17B22", "rudder 3 C18B22"),
    rung_out=("rudder B",),
    checks={"rudder": SERVO_CHECKS},
)
_STROBE = """  strobe:
    label: STROBE
    from: power-unit SOFT-2
    to: strobe
    through: [tail]
    lead: light-24
    loop: 40 mm
"""
_STROBE_LIGHT = """  strobe:
    kind: light
    place: tail-end
    lead: 80 mm
    lead_wire: lead-26
    plug: light-2
    current: {working: 100 mA}
    volts: {least: 4.5 V, most: 9 V}
  tail-light:
    kind: light
"""
_EQUIPMENT = ("  tail-light:\n    kind: light\n", _STROBE_LIGHT)


# `tail` has 12, 13 and 14 free: the strobe takes 12 and 13, one is left, where two should be. L13 is the highest of its
# letter, so it is L14. SOFT-2 has a servo's plug: negative 1, positive 2. No run to the tail or in it is sleeved where
# it goes. Lead A like the rudder's: 640 + 655 mm of run, 3 % slack, 60 mm at the tray, an end in a servo's plug
# (2.5 + 20) and one in the block (4 + 20): 1295 x 1.03 + 60 + 46.5 = 1440.35; two wires of 1.4 mm twisted at a lay of
# 20 mm: sqrt(1 + (pi x 1.4 / 20)^2) = 1.0239: 1474.8, so 1475. Lead B like the tail light's: 255 x 1.03 + 120 + 40 +
# 46.5 = 469.15, x 1.0239 = 480.4, so 485.
def _added(*edits: tuple[str, str]) -> Change:
    return Change(
        edits=(_EQUIPMENT, *edits),
        no_longer=("spare-contacts disconnects tail",),
        cut={
            "strobe A negative": 1475,
            "strobe A positive": 1475,
            "strobe B negative": 485,
            "strobe B positive": 485,
        },
        into=(
            "power-unit SOFT-2 1 L14A24N",
            "power-unit SOFT-2 2 L14A24",
            "tail fixed 12 L14A24N",
            "tail fixed 13 L14A24",
            "tail loose 12 L14B24N",
            "tail loose 13 L14B24",
            "strobe 1 L14B24N",
            "strobe 2 L14B24",
        ),
        put_on=("strobe A from", "strobe A to", "strobe B from", "strobe B to"),
        cards=("tail fixed", "tail loose", "power-unit"),
        rung_out=("strobe A", "strobe B"),
        checks={"strobe": "works volts idle"},
    )


ADDED_FIRST = _added(("circuits:\n  # Radio supply.\n", "circuits:\n" + _STROBE))
ADDED_IN_THE_MIDDLE = _added(("  rudder:\n    label: RUDDER\n", _STROBE + "  rudder:\n    label: RUDDER\n"))
ADDED_LAST = _added(("\nallowances: {slack", _STROBE + "\nallowances: {slack"))

# As added, but it had been planned before: contacts, port and number were kept for it, so spares are as before.
_PLANNED = (_EQUIPMENT, ("\nallowances: {slack", _STROBE + "    planned: yes\n\nallowances: {slack"))
PLANNED = replace(ADDED_LAST, before=_PLANNED, no_longer=())

_TAIL_LIGHT = """  tail-light:
    label: TAIL LIGHT
    from: lamp-unit TAIL
    to: tail-light
    through: [tail]
    lead: light-24
    loop: 40 mm
"""
_TAIL_LAMP = """  tail-light:
    kind: light
    place: tail-end
    lead: 80 mm
    lead_wire: lead-26
    plug: light-2
    current: {working: 100 mA}
    volts: {least: 8 V, most: 13 V}
"""
_OF_THE_TAIL_LIGHT = (
    "lamp-unit TAIL 1 L13A24N",
    "lamp-unit TAIL 2 L13A24",
    "tail fixed 10 L13A24N",
    "tail fixed 11 L13A24",
)
_BEHIND_THE_TAIL = (
    "tail loose 10 L13B24N",
    "tail loose 11 L13B24",
    "tail-light 1 L13B24N",
    "tail-light 2 L13B24",
)

# Out with both leads; what they were plugged into and passed says so no more.
TAKEN_OUT = Change(
    edits=((_TAIL_LIGHT, ""), (_TAIL_LAMP, "")),
    removed=("tail-light A", "tail-light B"),
    out=(*_OF_THE_TAIL_LIGHT, *_BEHIND_THE_TAIL),
    cards=("tail fixed", "tail loose", "lamp-unit"),
)

# Left in, both plugs are pulled and capped; contacts at the joint stay.
LEFT_IN = Change(
    edits=((_TAIL_LIGHT, _TAIL_LIGHT + "    left_in: yes\n"),),
    capped=("lamp-unit TAIL", "tail-light"),
    cards=("tail fixed", "tail loose", "lamp-unit"),
)

_CAMERA = """  camera:
    label: CAMERA
    from: service-switch CAMERA
    to: camera
    through: [nose]
    lead: power-20
    loop_from: 60 mm
    function: S
"""
_NOSE_LEG = """  nose-leg:
    label: LEG N
    from: gear-unit NOSE
    to: nose-leg
    through: [nose]
    lead: motor-22
    loop: 40 mm
"""

# The nose leg written before the camera: both go through `nose`, and keep what they have.
SWAPPED = Change(edits=((_CAMERA, ""), (_NOSE_LEG, _NOSE_LEG + _CAMERA)))

# Another name and label between the same two ends. Labels and the cards that name it are printed again; no wire moves.
RENAMED = Change(
    edits=((_TAIL_LIGHT, _TAIL_LIGHT.replace("  tail-light:", "  rear-light:").replace("TAIL LIGHT", "REAR LIGHT")),),
    same=("circuit tail-light rear-light",),
    put_on=("rear-light A from", "rear-light A to", "rear-light B from", "rear-light B to"),
    stripped=("tail-light A from", "tail-light A to", "tail-light B from", "tail-light B to"),
    cards=("tail fixed", "tail loose", "lamp-unit"),
)

# The run from the tail's root to the base of the fin is 140 mm, not 100: over it lie the rudder's lead B, which ends
# there, and the tail light's, which goes on for 155 mm. Rudder: 140 x 1.03 + 120 + 60 + (4 + 20) + (2.5 + 20) = 370.7;
# three wires of 1.6 mm, lay 25 mm: circle 2/sqrt(3) x 1.6 = 1.8475, twist 1.0266: 380.6, so 385. Tail light: 295 x 1.03
# + 120 + 40 + 46.5 = 510.35, x 1.0239 = 522.5, so 525. Labels of both are new, as the leads are. Elevators and leads A
# of both go other ways. Nothing that a card says is another.
CHANGED_RUN = Change(
    edits=(("{between: [tail-root, fin-base], length: 100 mm}", "{between: [tail-root, fin-base], length: 140 mm}"),),
    cut={
        "rudder B negative": 385,
        "rudder B positive": 385,
        "rudder B signal": 385,
        "tail-light B negative": 525,
        "tail-light B positive": 525,
    },
    out=(
        "tail loose 7 C17B22N",
        "tail loose 8 C17B22",
        "tail loose 9 C18B22",
        "rudder 1 C17B22N",
        "rudder 2 C17B22",
        "rudder 3 C18B22",
        *_BEHIND_THE_TAIL,
    ),
    into=(
        "tail loose 7 C17B22N",
        "tail loose 8 C17B22",
        "tail loose 9 C18B22",
        "rudder 1 C17B22N",
        "rudder 2 C17B22",
        "rudder 3 C18B22",
        *_BEHIND_THE_TAIL,
    ),
    put_on=("rudder B from", "rudder B to", "tail-light B from", "tail-light B to"),
    rung_out=("rudder B", "tail-light B"),
    checks={"rudder": "works fail-safe", "tail-light": "works"},
)

# The former of the left elevator gets a grommet: its sleeve is needed no more, and no wire is another. The right one's
# goes on being sharp. (230 mm of run; one entry for both sides is parted in two.)
_SHARP = "  - {between: [tail-root, <side>-elevator], length: 230 mm, edges: sharp}\n"
NO_SLEEVE = Change(
    edits=(
        (
            _SHARP,
            "  - {between: [tail-root, left-elevator], length: 230 mm, edges: sharp, dressed: grommet}\n"
            "  - {between: [tail-root, right-elevator], length: 230 mm, edges: sharp}\n",
        ),
    ),
    sleeves=("off tail-root to left-elevator",),
)

# The other way round: what was dressed is sharp, so a braid slides on over the leads there: all that go aft. Each comes
# out of its contacts where it begins, nearer to the tray than its other end is to the aft bay, and goes in again. The
# elevators are C13 to C16; of M, the key takes 1, the gyro 2 and 3, the airspeed 4 and 5, then come smoke supply 6, its
# signal 7, its valve 8 and 9.
_AT_THE_TRAY = (
    *(
        f"power-unit {port} {contact} C{number}A22{n}"
        for port in (7, 8, 9)
        for contact, number, n in (
            (1, 2 * port - 1, "N"),
            (2, 2 * port - 1, ""),
            (3, 2 * port, ""),
        )
    ),
    *("service-switch SMOKE 1 M6A20N", "service-switch SMOKE 2 M6A20"),
    *("lamp-unit TAIL 1 L13A24N", "lamp-unit TAIL 2 L13A24"),
    *("receiver-b 4 1 M7A24N", "receiver-b 4 3 M7A24"),
    *("receiver-b 6 1 M8A22N", "receiver-b 6 2 M8A22", "receiver-b 6 3 M9A22"),
)
_GO_AFT = ("left-elevator", "right-elevator", "rudder", "smoke-supply", "tail-light", "smoke-signal", "smoke-valve")
NEW_SLEEVE = Change(
    edits=(
        (
            "length: 640 mm, edges: sharp, dressed: edge trim",
            "length: 640 mm, edges: sharp",
        ),
    ),
    out=_AT_THE_TRAY,
    into=_AT_THE_TRAY,
    sleeves=("on radio-tray to aft-bay",),
    rung_out=tuple(f"{name} A" for name in _GO_AFT),
    checks={name: "works" if name in ("smoke-supply", "tail-light") else "works fail-safe" for name in _GO_AFT},
)

# The rudder's servo is called otherwise. Labels that name it: both of lead B. Cards: behind the loose half at `tail`
# its wires go there, and the unit's port 9 does.
RENAMED_EQUIPMENT = Change(
    edits=(
        ("  rudder:\n    kind: servo\n", "  fin-servo:\n    kind: servo\n"),
        ("    to: rudder\n", "    to: fin-servo\n"),
    ),
    same=("equipment rudder fin-servo",),
    put_on=("rudder B from", "rudder B to"),
    stripped=("rudder B from", "rudder B to"),
    cards=("tail loose", "power-unit"),
)

# Left and right elevator change outlets. Two plugs change places; labels that name the outlet are those of both leads
# A, cards those of the unit, and of the half whose wires go there.
EXCHANGED_PORTS = Change(
    edits=(
        (
            "from: {left: power-unit 7, right: power-unit 8}",
            "from: {left: power-unit 8, right: power-unit 7}",
        ),
    ),
    same=("circuit left-elevator left-elevator", "circuit right-elevator right-elevator"),
    replugged=(
        "left-elevator A power-unit 7 power-unit 8",
        "right-elevator A power-unit 8 power-unit 7",
    ),
    put_on=(
        "left-elevator A from",
        "left-elevator A to",
        "right-elevator A from",
        "right-elevator A to",
    ),
    stripped=(
        "left-elevator A from",
        "left-elevator A to",
        "right-elevator A from",
        "right-elevator A to",
    ),
    cards=("tail fixed", "power-unit"),
    checks={side + "-elevator": "direction centre ends fail-safe" for side in ("left", "right")},
)

# Only what the radio is set to: the card of the equipment shows fail-safe and channel, no label does.
OTHER_FAILSAFE = Change(
    edits=(
        (
            "    channel: 13\n    failsafe: hold\n",
            "    channel: 13\n    failsafe: off\n",
        ),
    ),
    cards=("receiver-b", "lamp-unit"),
    checks={"light-signal": "fail-safe"},
)

# The gyro plugs straight in; another one comes with a bare lead, which gets the label that was on the old one's.
OTHER_GYRO = Change(
    edits=(
        (
            "    lead: 90 mm\n    lead_wire: lead-28\n    plug: servo-3\n    current: {working: 60 mA}\n",
            "    lead: 120 mm\n    lead_wire: lead-28\n    plug: servo-3\n    current: {working: 80 mA}\n",
        ),
    ),
    put_on=("gyro A to",),
    checks={"gyro": "gyro works volts idle"},
)
