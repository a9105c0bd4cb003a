"""Harnesses grown at random: packs, units, switches, receivers, controllers, a joint with commons, what hangs there."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

Entries = dict[str, Any]

_AIRCRAFT = {
    "aircraft": {"name": "Tern", "description": "a wing", "marks": "TE-1", "revision": "A", "date": "2026-01-01"},
    "places": {
        "tray": {"assembly": "fuselage", "access": "hatch", "at": {"aft": "300 mm"}},
        "root": {"assembly": "fuselage", "access": "wing off", "at": {"aft": "400 mm", "left": "80 mm"}},
        "panel": {"assembly": "wing", "access": "wing off", "at": {"aft": "400 mm", "left": "90 mm"}},
        "tip": {"assembly": "wing", "access": "cover", "at": {"aft": "420 mm", "left": "900 mm"}},
    },
    "runs": [
        {"between": ["tray", "root"], "length": "300 mm"},
        {"between": ["panel", "tip"], "length": "700 mm"},
    ],
}


def _ports(*groups: tuple[str, list[str]]) -> list[Entries]:
    return [{"plug": plug, "names": names, "contacts": "pins"} for plug, names in groups]


class Grown:
    """One harness as a builder would write it."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.equipment: Entries = {}
        self.circuits: Entries = {}
        self.members: dict[str, list[str]] = {"p": [], "n": []}
        self.heavies = 0
        self.outlets: list[str] = []  # that give supply and signal
        self._radio()
        for number in range(self.chance.randint(2, 5)):
            self._servo(f"servo-{number}")
        if self.chance.random() < 0.7:
            self._service()
        if self.chance.random() < 0.5:
            self._motor()

    def _pack(self, name: str, **more: str) -> None:
        battery = {"cells": "2", "capacity": "2000 mAh", "full": "8.4 V", "empty": "6.4 V"}
        own = {"kind": "battery", "place": "tray", "lead": "100 mm", "lead_wire": "pvc-16", "plug": "power-2"}
        self.equipment[name] = {**own, "battery": battery, **more}

    def _circuit(self, name: str, start: str, to: str, lead: Any, **more: Any) -> None:
        self.circuits[name] = {"from": start, "to": to, "lead": lead, **more}

    def _radio(self) -> None:
        packs, receivers = self.chance.randint(1, 2), self.chance.randint(1, 2)
        with_unit = receivers == 2 or self.chance.random() < 0.6
        for number in range(packs):
            self._pack(f"pack-{number}", on=f"plug it in; pack {number} lit")
        for number in range(receivers):
            names = [f"S{port}" for port in range(10)]
            ports = _ports(("servo-3", [*names, "DATA"]), ("power-2", ["B0", "B1"]))
            self.equipment[f"receiver-{number}"] = {"kind": "receiver", "place": "tray", "ports": ports}
        if not with_unit:
            for number in range(packs):
                self._circuit(f"supply-{number}", f"pack-{number}", f"receiver-0 B{number}", "power-20")
            self.outlets = [f"receiver-0 S{port}" for port in range(10)]
            return
        self._unit(packs, receivers)

    def _unit(self, packs: int, receivers: int) -> None:
        outs = [f"{port}" for port in range(10)]
        ports = _ports(
            ("power-2", ["IN0", "IN1", "W0", "W1"]), ("servo-3", [*outs, "RX0", "RX1", "KEY"]), ("power-2", ["B"])
        )
        self.equipment["unit"] = {"kind": "power unit", "place": "tray", "ports": ports, "fed_by": ["IN0", "IN1"]}
        for number in range(packs):
            self._circuit(f"supply-{number}", f"pack-{number}", f"unit IN{number}", "power-20")
        for number in range(receivers):
            self._circuit(f"data-{number}", f"unit RX{number}", f"receiver-{number} DATA", "servo-22")
        if self.chance.random() < 0.4:
            self._circuit("second", "unit B", "receiver-0 B0", "power-20")
        if self.chance.random() < 0.5:
            out = self.chance.choice(["on", "off"])
            self.equipment["key"] = {"kind": "key", "place": "tray", "plug": "servo-3", "lead": "60 mm", "out": out}
            self._circuit("key", "unit KEY", "key", "signal-24")
        self.outlets = [f"unit {port}" for port in outs]
        self.outlets += [f"receiver-{number} S{port}" for number in range(receivers) for port in range(2)]
        if self.chance.random() < 0.7:
            self.heavies = self.chance.randint(1, 2)
            for number in range(self.heavies):
                self._circuit(f"heavy-{number}", f"unit W{number}", "wing p n", "power-16")

    def _servo(self, name: str) -> None:
        outlet = self.outlets.pop(self.chance.randrange(len(self.outlets)))
        where = self.chance.choice(["tray", "tip"])
        own = {"lead": "200 mm", "plug": "servo-3"}
        self.equipment[name] = {"kind": "servo", "place": where, **own}
        if where == "tray":
            self._circuit(name, outlet, name, "servo-22")
        elif self.heavies and outlet.startswith("unit") and self.chance.random() < 0.7:
            near = self.chance.choice(["lone-26", "signal-24", "servo-22"])
            self.members["p"].append(name)
            self.members["n"].append(name)
            self._circuit(name, outlet, name, {"A": near, "B": "servo-22"}, through=["wing"])
        else:
            self._circuit(name, outlet, name, "servo-22", through=["wing"])

    def _service(self) -> None:
        """Add a pack with a switch, and a controller with two inputs of which each may drive some outlets."""
        self._pack("service", off="unplug it")
        ports = _ports(("power-2", ["IN", "A", "B"]))
        self.equipment["switch"] = {"kind": "power switch", "place": "tray", "ports": ports, "on": "press; lit"}
        ports = _ports(("power-2", ["POWER"]), ("servo-3", ["I0", "I1"]), ("light-2", ["L0", "L1", "L2"]))
        controller: Entries = {"kind": "light controller", "place": "tray", "ports": ports, "fed_by": ["POWER"]}
        inputs = self.chance.randint(0, 2)
        if inputs and self.chance.random() < 0.6:
            controller["drives"] = {"I0": ["L0", "L1"], "I1": ["L2"]} if inputs == 2 else {"I0": ["L0"]}
        self.equipment["lights"] = controller
        self._circuit("service", "service", "switch IN", "power-20")
        self._circuit("lights", "switch A", "lights POWER", "power-20")
        for number in range(inputs):
            self._circuit(f"input-{number}", self.outlets.pop(), f"lights I{number}", "signal-24")
        for number in range(self.chance.randint(1, 3)):
            where = self.chance.choice(["tray", "tip"])
            lamp = {"kind": "light", "place": where, "lead": "100 mm", "plug": "light-2"}
            self.equipment[f"lamp-{number}"] = lamp
            through = {"through": ["wing"]} if where == "tip" else {}
            self._circuit(f"lamp-{number}", f"lights L{number}", f"lamp-{number}", "light-24", **through)

    def _motor(self) -> None:
        """Add a motor with a controller, off its own pack or off that of the radio."""
        ports = _ports(("power-2", ["PACK"]), ("servo-3", ["RX"]))
        control = {"kind": "speed controller", "place": "tray", "ports": ports, "fed_by": ["PACK"]}
        self.equipment["control"] = {**control, "stop": "throttle to its lowest", "stopped": "the fan stands"}
        self._pack("drive", on="plug it in", off="unplug it")
        self._circuit("drive", "drive", "control PACK", "power-16")
        self._circuit("throttle", self.outlets.pop(), "control RX", "servo-22", omit=["positive"])

    @property
    def harness(self) -> Entries:
        """Return what stands in harness.yaml, written in any order."""
        commons = {
            name: {"role": role, "contacts": contacts, "circuits": self.members[name]}
            for name, role, contacts in (("p", "positive", ["1", "2"]), ("n", "negative", ["3", "4"]))
        }
        joint: Entries = {
            "shell": "dsub-25",
            "fixed": {"place": "root", "contacts": "sockets"},
            "loose": {"place": "panel", "contacts": "pins", "reach": "100 mm"},
        }
        passing = any("wing" in circuit.get("through", ()) for circuit in self.circuits.values())
        joints = {"wing": {**joint, "commons": commons} if self.heavies else joint} if passing or self.heavies else {}
        names = list(self.equipment)
        self.chance.shuffle(names)
        return {
            "equipment": {name: self.equipment[name] for name in names},
            "disconnects": joints,
            "circuits": self.circuits,
        }

    def written(self, folder: Path) -> Path:
        """Write it as an aircraft's folder."""
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "aircraft.yaml").write_text(json.dumps(_AIRCRAFT), "utf-8")
        (folder / "harness.yaml").write_text(json.dumps(self.harness), "utf-8")
        return folder
