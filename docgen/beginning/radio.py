"""Receivers, and the ports and channels that they give out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, SIDES, Draft, Entry, by_side
from docgen.beginning.typical import PUT_YOURS, typical_current

HUB = "radio-tray"  # where servos and signals are plugged in
UNIT = "power-unit"
SIGNAL_LEAD = "signal-24"  # to what has a supply of its own, so that no positive comes from the radio
_SIZES = (6, 8, 10, 12, 16, 20, 24)  # outlets that receivers and units are sold with


class Radio:
    """Gives out ports and channels in the order in which they are asked for: of the unit, if there is one."""

    def __init__(self, draft: Draft, answers: Answers) -> None:
        self.draft, self.answers = draft, answers
        self.receivers = ["receiver"] if answers.receivers == "one" else ["receiver-a", "receiver-b"]
        self._given = dict.fromkeys([UNIT] if answers.power_unit else self.receivers, 0)
        self._alike: Counter[tuple[str, str]] = Counter()

    def command(self, name: str, label: str, to: str, lead: str, failsafe: str) -> None:
        """Add the circuit from the next free port, or of a pair from the next two, to what it commands."""
        given = {side: self.port(lead, side) for side in SIDES} if SIDE in name else {"": self.port(lead)}
        start, channel = ({side: got[index] for side, got in given.items()} for index in (0, 1))
        fields: dict[str, Any] = {
            "label": by_side(label),
            "from": start.get("", start),
            "to": to,
            "lead": lead,
            "channel": channel.get("", channel),
            "failsafe": failsafe,
        }
        self.draft.circuits.append(Entry(name, fields))

    def port(self, lead: str, side: str = "") -> tuple[str, str]:
        """Return the next free port for a lead, and its channel.

        Of two receivers left hangs on the first, right on the second, one alone where fewer of its kind hang: so that
        each has servos.
        """
        sources = list(self._given)
        source = min(sources, key=lambda name: (self._alike[name, lead], self._given[name]))
        if side:
            source = sources[SIDES.index(side) % len(sources)]
        self._given[source] += 1
        self._alike[source, lead] += 1
        return f"{source} {self._given[source]}", str(sum(self._given.values()))

    def numbered(self, source: str) -> str:
        """Return the names of the outlets of a receiver or unit that is large enough for what was given out."""
        used = self._given[source]
        return f"1..{next((size for size in _SIZES if size >= used), used)}"

    def place_of(self, receiver: str) -> str:
        """Return where a receiver sits."""
        if receiver != self.receivers[0]:
            return "second-tray"
        return "receiver-tray" if self.answers.power_unit else HUB

    def data_ports(self) -> list[tuple[str, str]]:
        """Return receivers and their ports to the unit, in its order: two packs are worth two leads at least."""
        if len(self.receivers) == 1 and self.answers.packs == "two-packs":
            return [("receiver", "DATA-1"), ("receiver", "DATA-2")]
        return [(name, "DATA") for name in self.receivers]

    def entries(self) -> Iterator[Entry]:
        """Walk the receivers, once all ports are given out."""
        for name in self.receivers:
            ports: list[Mapping[str, Any]] = []
            if self.answers.power_unit:
                data = [port for to, port in self.data_ports() if to == name]
                ports.append({"plug": "servo-3", "names": data, "contacts": "pins"})
            else:
                ports.append({"plug": "servo-3", "names": self.numbered(name), "contacts": "pins"})
            if not self.answers.power_unit and self.answers.feeds == "receiver-pack":
                ports.append({"plug": "power-2", "names": ["BATT"], "contacts": "pins"})
            fields = {
                "kind": "receiver",
                "place": self.place_of(name),
                "ports": ports,
                "current": typical_current("receiver"),
                "volts": {"least": "3.6 V", "most": "9 V"},
            }
            says = "Receivers and what feeds them." if name == self.receivers[0] else ""
            yield Entry(name, fields, says, {"current": PUT_YOURS})
