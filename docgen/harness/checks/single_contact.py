"""One contact that several servos hang on."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.electrical.network import Network
from docgen.harness.remedies.changes import Change, CommonContacts, value_of
from docgen.harness.wiring.feeds import CommonBranch
from docgen.harness.wiring.spares import spares_text, spares_to_take

KIND = caution(
    name="single-contact",
    stands_on="common",
    meaning="One contact carries a pole of several servos.",
    when="A common with one contact carries a pole, positive or negative, of several servos.",
    why="One contact that works loose takes every surface of that wing at once.",
    remedy="Give the common a second contact, `contacts: [3, 4]`, or lead each servo through by itself.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find one contact that several servos hang on: common practice, no source."""
    limits = facts.harness.limits
    for disconnect in facts.harness.disconnects.values():
        for common in disconnect.commons.values():
            count = _servos(facts.electricity.network, disconnect.name, common.name)
            if len(common.contacts) > 1 or count < 2:
                continue
            sentence = f"one contact of {shown(disconnect.name)} carries the {common.role} of {count} servos."
            do = "Give the common a second contact, so that one bad contact does not lose them all."
            change: Change | None = CommonContacts.of_one(disconnect, common.name, 2)
            if not spares_to_take(limits, disconnect):
                change = None
                instead = "choose a shell with more contacts, or lead some servos through by themselves"
                do = f"Too few are to spare ({spares_text(limits, disconnect)}): {instead}."
            path = "disconnects", disconnect.name, "commons", common.name, "contacts"
            yield facts.found(KIND, path, sentence, do, value_of([change], facts.harness))


def _servos(network: Network, disconnect: str, common: str) -> int:
    """Count the servos whose current passes a common."""
    servos = {
        feed.load
        for feed in network.feeds
        if network.equipment[feed.load].kind == "servo" and CommonBranch(disconnect, common) in (*feed.out, *feed.back)
    }
    return len(servos)
