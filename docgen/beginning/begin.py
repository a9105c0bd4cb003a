"""From answers to the two files of a definition."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from docgen.beginning.airframe import lay_airframe
from docgen.beginning.answers import Answers, as_options
from docgen.beginning.draft import Draft, Entry
from docgen.beginning.drive import fit_drive
from docgen.beginning.extras import fit_extras
from docgen.beginning.gear import fit_gear
from docgen.beginning.joints import fit_joints
from docgen.beginning.radio import SIGNAL_LEAD, Radio
from docgen.beginning.service import fit_service
from docgen.beginning.supply import fit_radio
from docgen.beginning.surfaces import fit_surfaces
from docgen.beginning.text import file_text, list_section, named_section, one_section, short_section

_ASSEMBLIES = ("fuselage", "centre", "wing", "<side>-panel", "tail")
_MOST_NAME = 40
_CONCERNS: tuple[tuple[str, Callable[[Draft, Answers, Radio], None]], ...] = (
    ("Surfaces and tail.", fit_surfaces),
    ("What drives it.", fit_drive),
    ("Supply of gear, brakes, lights and smoke.", fit_service),
    ("Gear.", fit_gear),
    ("Lights and smoke.", fit_extras),
)


def begin(folder_name: str, answers: Answers) -> dict[str, str]:
    """Return the text of each file of an aircraft that is just what was answered, in a folder of that name."""
    draft = draft_of(answers)
    told = f"Begun with: docgen new DIR {as_options(answers)}"
    return {"aircraft.yaml": _aircraft(draft, aircraft_name(folder_name)), "harness.yaml": _harness(draft, told)}


def draft_of(answers: Answers) -> Draft:
    """Return the definition that follows from answers."""
    draft = Draft()
    radio = Radio(draft, answers)
    for title, fit in _CONCERNS:
        entries, circuits = len(draft.equipment), len(draft.circuits)
        fit(draft, answers, radio)
        _head(draft.equipment, entries, title)
        _head(draft.circuits, circuits, title)
    fit_radio(draft, answers, radio)
    lay_airframe(draft, answers)
    fit_joints(draft, answers)
    draft.places.sort(key=lambda place: _ASSEMBLIES.index(str(place.fields["assembly"])))
    return draft


def _head(entries: list[Entry], first: int, title: str) -> None:
    """Put a title over the first of some entries, if there are any and nothing better is said."""
    for entry in entries[first : first + 1]:
        entries[first] = replace(entry, says=entry.says or title)


def aircraft_name(folder_name: str) -> str:
    """Return what an aircraft in a folder of that name is called, till the builder says otherwise."""
    plain = " ".join(re.findall(r"[A-Za-z0-9]+", folder_name))[:_MOST_NAME].strip()
    return plain[:1].upper() + plain[1:] if plain else "Aircraft"


def _aircraft(draft: Draft, name: str) -> str:
    fields = {
        "name": name,
        "description": "a sentence about it",
        "marks": f"{name[:2].upper().strip()}-1",
        "revision": "A",
        "date": "2026-01-01",
    }
    beside = {
        "name": "name and marks stand in every foot",
        "marks": "as on the wing, or what you call it by",
        "revision": "the next letter when you change what is issued",
        "date": "put today's; it is printed, the clock never is",
    }
    places = (
        "Where things are. A place comes off with its assembly; `access` is how a hand gets there. `<side>` stands for "
        "left and right in turn. Rename them as you call them, in both files."
    )
    runs = (
        "Where a wire can be laid, from place to place. Nothing has a length yet: labels and cards need none. Print "
        "the measuring sheet, lay a string along the way, and write it down, `length: 235 mm`. `edges: sharp` where "
        "it passes formers or ribs: it gets a sleeve there."
    )
    if any(entry.fields["kind"] == "engine unit" for entry in draft.equipment):
        places += " Near an exhaust or a turbine's pipe say `heat: 95 °C`: wire and sleeve are held to that."
    flight = "# Say how long you fly, and what a flight takes of the charge is worked out.\n"
    flight += "# flight: {time: 8 min, reserve: 30 %}"
    return file_text(
        ["The airframe, as far as wires go. Change whatever is otherwise in yours."],
        [
            one_section("aircraft", fields, beside, []),
            short_section("places", draft.places, [places]),
            list_section("runs", draft.runs, [runs]),
            flight,
        ],
    )


def _harness(draft: Draft, told: str) -> str:
    equipment = (
        "Everything that has wires on it. Put in what yours is: `docgen parts` lists plugs, leads and shells.",
        "Currents say `typical: yes`, which is common practice and not yours: measure or look up what yours draws, "
        "write it, and take `typical: yes` out. Volts, packs and gear are usual ones too. With a `rating:` in a pack's "
        "`battery:` the check tells which wires want a fuse.",
        "A `plug:` beside `place:` is on the lead that came on it; say how long that is, `lead: 250 mm`. `ports:` are "
        "those of its case, with what plugs in, and `contacts:` what they carry themselves. `fed_by:` names those that "
        "its supply comes from.",
    )
    joints = (
        "Where the harness comes apart. The half that supply comes to carries sockets, so that nothing bare is live. "
        "Each is the least shell with two contacts to spare. `reach:` of the loose half is still to be measured. "
        "Letters of `keyed:` are shells made so that one does not go into another: plug a contact's hole, fit a pin. "
        "Where many servos go to one wing, poles can be shared: see `commons:` in `examples/fulmar`."
    )
    circuits = (
        "What is connected to what: `from` where the supply comes from, `to` the load. Wires, contacts, marks, labels "
        "and cards follow. Channels are numbered as they come: put those of your radio. Fail-safes: set them in every "
        "receiver, as your club and national rules say. Add `loop: 80 mm` where a plug is to come out of its cover, "
        "`throw: 18 mm up, 12 mm down` for the card at the field."
    )
    if any(circuit.fields.get("lead") == SIGNAL_LEAD for circuit in draft.circuits):
        circuits += f" `{SIGNAL_LEAD}` has no red wire, as what it goes to has a supply of its own; where the receiver "
        circuits += "is to feed it, write `servo-22`."
    sections = [named_section("equipment", draft.equipment, equipment)]
    sections += [named_section("disconnects", draft.joints, [joints])] * bool(draft.joints)
    sections += [named_section("circuits", draft.circuits, [circuits])]
    return file_text(["Equipment, joints and circuits.", told], sections)
