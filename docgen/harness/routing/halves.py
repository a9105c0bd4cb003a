"""Take disconnects as written; return the two halves of each, with their names and genders."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from docgen.definition.harness import Disconnect
from docgen.definition.model import Definition
from docgen.definition.own_leads import OwnHalf
from docgen.harness.model.joints import Half
from docgen.harness.model.parts import opposite
from docgen.harness.routing.routes import Routes


def build_halves(
    definition: Definition, routes: Routes, own: Mapping[tuple[str, int], OwnHalf]
) -> dict[str, tuple[Half, Half]]:
    """Return both halves of each disconnect whose places are known, by its name; `own` are plugs on own leads."""
    built = {
        name: _halves(definition, disconnect)
        for name, disconnect in definition.disconnects.items()
        if all(half.place in definition.places for half in disconnect.both)
    }
    for (name, index), half in own.items():
        plug = _own(definition, routes, built[name][index], half)
        made = built[name][1 - index]
        if (name, 1 - index) not in own:
            made = replace(made, gender=opposite(plug.gender))
        built[name] = (plug, made) if index == 0 else (made, plug)
    return built


def _own(definition: Definition, routes: Routes, half: Half, own: OwnHalf) -> Half:
    """Return the plug on an own lead as a half: it reaches as far as the lead does beyond its place, if known."""
    route, lead_mm = routes.route([definition.equipment[own.port.equipment].place, half.place]), own.port.group.lead
    away_mm = route.length_mm if route is not None else None
    reach_mm = None if away_mm is None or lead_mm is None else max(lead_mm - away_mm, 0.0)
    reach_mm = 0.0 if half.fixed else reach_mm
    return replace(half, gender=own.gender(definition), reach_mm=reach_mm, came_on=own.port.equipment)


def _halves(definition: Definition, disconnect: Disconnect) -> tuple[Half, Half]:
    """Return both halves of one; a half that does not say pins or sockets mates with the other."""
    first, second = disconnect.both
    gender = first.contacts or opposite(second.contacts or "pins")
    names, fixed = ("fixed", "loose"), disconnect.halves is None
    if disconnect.halves is not None:
        one, other = (definition.places[half.place].assembly for half in disconnect.both)
        names = (one, other) if one != other else ("supply side", "load side")
    return (
        Half(names[0], first.place, gender, fixed, 0 if fixed else first.reach, first.key),
        Half(names[1], second.place, opposite(gender), False, second.reach, second.key),
    )
