"""Take what differs between two states of an aircraft; return it as plain values, for other programs."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from docgen.reissue.differences import Differences
from docgen.reissue.told import perhaps_left


def data(of: Differences) -> dict[str, Any]:
    """Return all of it as plain values."""
    wires = of.wiring
    plain = asdict(of)
    plain["no_longer_holds"] = plain.pop("broken")
    plain["unbuilt"] = [{"issue": issue, "of": name, "says": says} for (issue, name), says in perhaps_left(of).items()]
    plain["taken"] = [taken._asdict() for taken in of.taken]
    plain["sleeves"] = [
        {
            "ends": each.ends,
            "back_mm": each.back_mm,
            **{way: it and it.model_dump() for way, it in (("was", each.was), ("now", each.now))},
        }
        for each in of.sleeves
    ]
    plain["wiring"] |= {
        "anew": sorted(wires.anew),
        "revived": sorted(wires.revived),
        "stays": sorted(wires.stays),
        "fed": sorted(wires.fed),
        "moves": [{**asdict(move), "at": move.spot.at} for move in wires.moves],
        "plugged": [
            {**asdict(each), "was": each.was.at if each.was else None, "now": each.now.at if each.now else None}
            for each in wires.plugged
        ],
    }
    return plain
