"""Whether a charge lasts the flights that are wanted."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.harness.checks.facts import CLOSE, Facts, caution
from docgen.harness.electrical.endurance import endurance_of

KIND = caution(
    name="endurance",
    stands_on="equipment",
    meaning="A charge is short of the flights and the reserve.",
    when="`capacity:` × (1 − `reserve:`) holds fewer flights than `flights:` (unsaid: 1). A flight takes, over "
    "all loads, working × `runs:` + idle × (`time:` − `runs:` + `ground:`); `runs:` unsaid is the whole flight. "
    "Capacities add only for like packs on one unit that says `isolates: yes`.",
    why="The pack is empty before the last landing. A lithium pack falls off quickly at its end: servos slow "
    "down, the receiver restarts, and the pack is spoilt.",
    remedy="Take a larger pack, `capacity: 3300 mAh`; fly less on a charge, `flights: 2`; measure in place of "
    "guessing, `current: {idle: 20 mA, working: 0.6 A}`, and compare with what the charger puts back. Charge as "
    "the pack's maker says.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each pack whose supply does not last the flights that are wanted, with the reserve."""
    for supply in facts.electricity.network.supplies:
        endurance = endurance_of(facts.harness.flight, facts.electricity, supply)
        if endurance is None or facts.harness.flight is None or endurance.together is None:
            continue
        wanted = facts.harness.flight.flights
        for pack in supply.packs:
            flights = endurance.together if endurance.add_up else endurance.alone[pack]
            if flights is None or flights >= wanted - CLOSE:
                continue
            others = listed(shown(other) for other in supply.packs if other != pack)
            who = f"{shown(pack)} with {others}" if endurance.add_up else shown(pack)
            reserve = facts.harness.flight.reserve
            sentence = (
                f"{who} does {at_most(flights, 2)} flights on a charge with {decimal(100 * reserve)} % left; "
                f"{wanted} {'is' if wanted == 1 else 'are'} wanted."
            )
            takes = "Keep less in reserve, or fly"
            if reserve < 1:
                needed = at_least(endurance.flight_mah[pack] * wanted / (1 - reserve), 0)
                takes = f"That takes {needed} mAh in all; or fly"
            do = f"{takes} less on a charge (`flights:`, `time:`)."
            yield facts.found(KIND, ("equipment", pack, "battery", "capacity"), sentence, do, over=wanted - flights)
