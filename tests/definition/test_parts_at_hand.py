"""The built-in parts, figure by figure: what is common practice as it is kept beside it, colours as the trade has them.

Resistances, tubes and the layouts of shells are held to published tables beside the harness.
"""

from __future__ import annotations

import pytest
from reference import parts_at_hand as known
from reference.servo_leads import COLOUR_SETS, CONTACT_CURRENT_A, PITCH_MM

from docgen.basics.shipped import shipped_folder
from docgen.definition.load import load_definition
from docgen.definition.model import Parts
from docgen.paperwork.kinds import ACCEPTABLE

SERVO_ROLES = ("negative", "positive", "signal")
# Within a jacket a signal's orange is mostly yellow: common practice, no source.
JACKETED = ("BN", "RD", "YE")


@pytest.fixture(scope="module")
def parts() -> Parts:
    definition, _ = load_definition(shipped_folder("examples") / "wren", ACCEPTABLE)
    assert definition is not None
    return definition.parts


def test_heavy_pack_plugs_and_bullets_are_soldered_and_all_else_is_crimped(parts: Parts) -> None:
    connectors = parts.plugs | parts.shells
    assert {name for name, part in connectors.items() if part.contact.join == "solder"} == known.SOLDERED


def test_wires_have_the_figures_of_common_practice(parts: Parts) -> None:
    found = {
        name: (
            wire.diameter_mm,
            (wire.mass_g_per_m or 0),
            wire.limit_c,
            wire.current_a,
            tuple(mm / 1000 for mm in wire.sold_mm),
        )
        for name, wire in parts.wires.items()
    }
    assert found == known.WIRES


def test_leads_have_wires_and_colours_by_role_as_builders_wire_them(parts: Parts) -> None:
    found = {
        name: (
            ", ".join(f"{role} {wire.wire} {wire.colour}" for role, wire in lead.wires.items()),
            lead.lay_mm or 0,
            lead.bought or "",
        )
        for name, lead in parts.leads.items()
    }
    assert found == known.LEADS
    assert {name for name, lead in parts.leads.items() if lead.reverses} == known.REVERSING_LEADS
    assert {name for name, lead in parts.leads.items() if lead.supplies} == known.SUPPLYING_LEADS
    assert {name: lead.jacket_mm for name, lead in parts.leads.items() if lead.jacket_mm} == known.CABLES_MM


def test_the_three_wires_of_a_servo_s_lead_are_of_one_of_the_trade_s_colour_sets(parts: Parts) -> None:
    servo_leads = {n: lead.wires for n, lead in parts.leads.items() if set(lead.wires) == {*SERVO_ROLES}}
    assert len(servo_leads) > 10
    for name, wires in servo_leads.items():
        colours = tuple(wires[role].colour for role in SERVO_ROLES)
        known_sets = (*COLOUR_SETS, JACKETED) if name.startswith("cable-") else COLOUR_SETS
        assert colours in known_sets, name


def test_poles_are_red_and_black_or_brown_in_every_lead(parts: Parts) -> None:
    # Positive is red and negative black, or brown, in all three of the trade's sets.
    positive, negative = ({colours[i] for colours in COLOUR_SETS} for i in (1, 0))
    for name, lead in parts.leads.items():
        assert {wire.colour for role, wire in lead.wires.items() if role == "positive"} <= positive, name
        assert {wire.colour for role, wire in lead.wires.items() if role == "negative"} <= negative, name
        assert not {wire.colour for role, wire in lead.wires.items() if role == "signal"} & (positive | negative), name


def test_plugs_have_their_roles_sizes_and_halves(parts: Parts) -> None:
    found = {
        name: (
            " ".join(plug.contacts[number] for number in sorted(plug.contacts, key=int)),
            plug.equipment,
            tuple(plug.size),
            plug.pitch or 0,
            plug.retainer,
        )
        for name, plug in parts.plugs.items()
    }
    assert found == known.PLUGS


def test_shells_have_their_outlines_keys_and_locks(parts: Parts) -> None:
    assert {name: tuple(shell.outline) for name, shell in parts.shells.items()} == known.OUTLINES_MM
    assert {shell.key for shell in parts.shells.values()} == {"up"}
    assert {name for name, shell in parts.shells.items() if "latch" in shell.lock} == known.LATCHED
    assert {name for name, shell in parts.shells.items() if "screw" in shell.lock} == known.SCREWED
    assert {name for name, shell in parts.shells.items() if shell.shape == "D"} == known.SCREWED


def test_contacts_have_the_figures_of_common_practice(parts: Parts) -> None:
    found = {}
    contacts = {name: plug.contact for name, plug in parts.plugs.items()}
    contacts |= {name: shell.contact for name, shell in parts.shells.items()}
    for name, contact in contacts.items():
        gauges = " ".join(gauge.text.removesuffix(" AWG") for gauge in contact.takes or [])
        milliohm = round(1000 * contact.resistance_ohm, 6)
        found[name] = (contact.rating_a, contact.brief_a, milliohm, contact.strip_mm, gauges, contact.over_mm)
    assert found == known.CONTACTS


def test_contacts_a_tenth_of_an_inch_apart_carry_no_more_than_they_are_said_to(parts: Parts) -> None:
    lasting, brief = CONTACT_CURRENT_A
    close = [plug.contact for plug in parts.plugs.values() if plug.pitch == PITCH_MM]
    assert len(close) == 4
    assert all(contact.rating_a <= lasting and (contact.brief_a or 0) <= brief for contact in close)


def test_sleeves_have_the_figures_of_common_practice(parts: Parts) -> None:
    found = {
        name: (
            *sleeve.fits_mm,
            *(round(100 * share, 6) for share in sleeve.shortening),
            sleeve.limit_c,
            sleeve.mass_g_per_m,
        )
        for name, sleeve in parts.sleeves.items()
    }
    assert found == known.SLEEVES
    words = {"braid": "braided sleeve", "heat": "heat sleeve", "wrap": "spiral wrap"}
    assert {name: sleeve.kind for name, sleeve in parts.sleeves.items()} == {
        name: words[name.partition("-")[0]] for name in known.SLEEVES
    }
    assert {name for name, sleeve in parts.sleeves.items() if sleeve.splits} == {"wrap-3", "wrap-6", "wrap-10"}


def test_tubes_stand_their_heat_and_are_clear_white_or_black(parts: Parts) -> None:
    lined = {name for name in parts.tubes if name.startswith(("shrink3-", "clear3-"))}
    for name, tube in parts.tubes.items():
        assert tube.limit_c == (known.LINED_LIMIT_C if name in lined else known.THIN_WALLED_LIMIT_C), name
        assert tube.clear == name.startswith("clear"), name
    assert {name for name, tube in parts.tubes.items() if tube.colour == "BK"} == known.BLACK_TUBES
    assert {name for name, tube in parts.tubes.items() if tube.colour == "WH"} == {
        name for name in lined - known.BLACK_TUBES if not parts.tubes[name].clear
    }
