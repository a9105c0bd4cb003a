"""The remedy that a finding names holds: with it in the definition the finding is gone."""

import json
import re
from pathlib import Path

import pytest
from conftest import AircraftFolder, Replacements
from remedied import Remedy, each_of

from docgen.basics.findings import Finding
from docgen.pipeline import check

RUDDER_OWN = "    place: tail-post\n    lead: 300 mm\n"
RUDDER_LEAD = "    to: rudder\n    lead: servo-22\n"
RUDDER_CURRENT = "working: 0.5 A, stall: 2.4 A}"
RUDDER_VOLTS = "working: 0.5 A, stall: 2.4 A}\n    volts: {least: 4.8 V"
AILERON_LEAD = "    through: [<side>-root]\n    lead: servo-22\n"
SUPPLY_LEAD = "    to: receiver BATT\n    lead: power-20\n"
PACK_OWN = "    lead: 120 mm\n    lead_wire: pvc-20\n"
EQUIPMENT, CIRCUITS, SHELL = "equipment:\n", "circuits:\n", "    shell: block-6\n"


def with_lead(end: tuple[str, str], lead: str | dict[str, str]) -> tuple[str, str]:
    return end[0], end[0].replace(end[1], json.dumps(lead))


def own_lead(remedy: Remedy) -> str:
    return f"{RUDDER_OWN}    lead_wire: {remedy['lead_wire']}\n"


RUDDER = (RUDDER_LEAD, "servo-22")
AILERON = (AILERON_LEAD, "servo-22")
SUPPLY = (SUPPLY_LEAD, "power-20")
# The finding, the circuit that it is about, the lead that the circuit begins with, and what else is changed.
# Results by hand: test_cautions_electrical.py; with 24 AWG to the rudder 2 × 1.330 m × 0.08327 Ω/m + 2 × 0.300 m ×
# 0.13146 Ω/m + 0.04 Ω = 0.340 Ω: stalled 0.817 V where 0.640 V may be; left 6.4 − 0.153 − 0.817 = 5.430 V.
THICKER: dict[str, tuple[str, tuple[str, str], str, Replacements]] = {
    "drop": ("drop", RUDDER, "servo-24", []),
    "drop, thin wire": ("drop", RUDDER, "servo-26", []),
    "drop behind a disconnect": ("drop", AILERON, "servo-24", []),
    "volts": ("volts", RUDDER, "servo-24", [(RUDDER_VOLTS, RUDDER_VOLTS.replace("4.8 V", "5.3 V"))]),
    "volts, thin wire": ("volts", RUDDER, "servo-26", [(RUDDER_VOLTS, RUDDER_VOLTS.replace("4.8 V", "5.3 V"))]),
    "wire-current": (
        "wire-current",
        RUDDER,
        "servo-24",
        [(RUDDER_CURRENT, "working: 2.7 A, stall: 3 A}"), (RUDDER_OWN, RUDDER_OWN + "    lead_wire: pvc-20\n")],
    ),
    "wire-current of the supply": (
        "wire-current",
        SUPPLY,
        "power-20",
        [
            (RUDDER_CURRENT, "working: 4 A, stall: 6 A}"),
            (RUDDER_OWN, RUDDER_OWN + "    lead_wire: pvc-16\n"),
            (PACK_OWN, PACK_OWN.replace("pvc-20", "pvc-16")),
            (RUDDER_LEAD, RUDDER_LEAD.replace("servo-22", "servo-20")),
        ],
    ),
}


def named(name: str, folder: Path) -> list[Finding]:
    checked = check(folder)
    assert checked.harness is not None, checked.findings
    return [finding for finding in checked.findings if finding.name == name]


@pytest.mark.parametrize(("name", "end", "lead", "more"), THICKER.values(), ids=THICKER)
def test_the_lead_that_is_named_will_do(
    name: str, end: tuple[str, str], lead: str, more: Replacements, aircraft_folder: AircraftFolder
) -> None:
    found = named(name, aircraft_folder({"harness.yaml": [*more, with_lead(end, lead)]}))
    assert found
    [remedy] = each_of(found[0].remedy)
    remedied = aircraft_folder({"harness.yaml": [*more, with_lead(end, remedy["lead"])]})
    assert named(name, remedied) == []


# A hair too much over the lead of 22 AWG, the thickest that a servo plug takes, or over the own lead of 26 AWG.
OWN: dict[str, tuple[str, Replacements]] = {
    "drop": ("drop", [(RUDDER_CURRENT, "working: 0.5 A, stall: 2.46 A}")]),
    "volts": ("volts", [(RUDDER_VOLTS, RUDDER_VOLTS.replace("4.8 V", "5.33 V"))]),
    "wire-current": ("wire-current", [(RUDDER_CURRENT, "working: 2.1 A, stall: 2.4 A}")]),
}


@pytest.mark.parametrize(("name", "more"), OWN.values(), ids=OWN)
def test_the_lead_or_own_lead_that_is_named_will_do(
    name: str, more: Replacements, aircraft_folder: AircraftFolder
) -> None:
    found = named(name, aircraft_folder({"harness.yaml": more}))
    assert found
    [said] = each_of(found[0].remedy)
    remedy = with_lead(RUDDER, said["lead"]) if "lead" in said else (RUDDER_OWN, own_lead(said))
    assert named(name, aircraft_folder({"harness.yaml": [*more, remedy]})) == []


def test_a_shorter_lead_is_found_where_a_thicker_one_drops_more(aircraft_folder: AircraftFolder) -> None:
    """22 AWG bought as one (16.20 Ω/1000 ft = 53.15 mΩ/m) beats 0.34 mm² (52.7), which twisting makes longer."""
    longer: Replacements = [("length: 1140 mm", "length: 1723 mm")]

    def drops(lead: str, own: str = "") -> list[Finding]:
        wired = (f"{RUDDER_LEAD}    loop: 80 mm\n", f"    to: rudder\n    lead: {lead}\n")
        changes = [wired, (RUDDER_OWN, RUDDER_OWN + own)]
        return named("drop", aircraft_folder({"harness.yaml": changes, "aircraft.yaml": longer}))

    lead, wire = each_of(drops("servo-24")[0].remedy)
    assert lead["lead"] == "twisted-22"  # the first of those that the parts list names
    assert drops(lead["lead"], f"    lead_wire: {wire['lead_wire']}\n") == []


NEITHER = re.compile(r"Neither thicker leads nor more contacts would do(?: \((?P<share>[0-9.]+) % at best\))?:")


@pytest.mark.parametrize(("lead", "better"), [("servo-24", True), ("flat-22", False)])
def test_what_comes_nearest_is_said_where_it_is_better_than_now(
    lead: str, better: bool, aircraft_folder: AircraftFolder
) -> None:
    # 2 × 6 m of 22 AWG alone are 0.638 Ω: × 2.4 A = 1.53 V, of 6.4 V 24 %. The own lead is as thick as a plug takes.
    far: Replacements = [("length: 1140 mm", "length: 6000 mm")]
    changes = [with_lead(RUDDER, lead), (RUDDER_OWN, RUDDER_OWN + "    lead_wire: pvc-034\n")]
    found = named("drop", aircraft_folder({"harness.yaml": changes, "aircraft.yaml": far}))[0]
    now, nearest = re.search(r"([0-9.]+) % of", found.sentence), NEITHER.match(found.do)
    assert now is not None
    assert nearest is not None, found.do
    assert (nearest.group("share") is not None) == better
    assert not better or float(nearest.group("share")) < float(now.group(1))


FLAPS = (
    "  <side>-flap:\n    kind: servo\n    place: <side>-aileron\n    lead: 250 mm\n    plug: servo-3\n"
    "    current: {idle: 20 mA, working: 0.6 A, stall: 2.4 A}\n"
)
FLAP_CIRCUITS = (
    "  <side>-flap:\n    from: {left: receiver 5, right: receiver 6}\n    to: <side>-flap\n"
    "    through: [<side>-root]\n    lead: servo-22\n"
)
WEAK_SHELL = (
    "shells:\n  weak:\n    rows: [[1, 2, 3, 4], [5, 6, 7, 8]]\n    pitch: {across: 5 mm, down: 5 mm}\n"
    "    outline: [25 mm, 12 mm]\n    contact: {rating: 1 A, brief: 20 A, resistance: 5 mohm}\n"
)


def one_pole(contacts: str) -> dict[str, str | Replacements | None]:
    """Return wings whose two servos share a negative over contacts of 1 A: 2 × 0.6 A."""
    common = f"{{role: negative, contacts: {contacts}, circuits: [<side>-aileron, <side>-flap]}}"
    harness = [
        ("names: 1..4", "names: 1..6"),
        (SHELL, f"    shell: weak\n    commons: {{all: {common}}}\n"),
        (EQUIPMENT, EQUIPMENT + FLAPS),
        (CIRCUITS, CIRCUITS + FLAP_CIRCUITS),
    ]
    return {"harness.yaml": harness, "parts.yaml": WEAK_SHELL}


def test_as_many_contacts_as_are_named_will_do(aircraft_folder: AircraftFolder) -> None:
    found = named("contact-current", aircraft_folder(one_pole("[1]")))
    assert found
    [remedy] = each_of(found[0].remedy)
    assert (remedy["disconnect"], remedy["common"]) == ("left-root", "all")
    contacts = ", ".join(str(number) for number in range(1, remedy["contacts"] + 1))
    assert named("contact-current", aircraft_folder(one_pole(f"[{contacts}]"))) == []
