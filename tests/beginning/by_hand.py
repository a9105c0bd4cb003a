"""Whole aircraft as a builder would type them for the answers: by tables, entry by entry.

Currents, volts, packs, places and hatches are those that builders use: common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

import yaml
from beginning.answer_sets import Said, servos

Entries = dict[str, dict[str, Any]]

SERVO = "current: {idle: 20 mA, working: 0.4 A, stall: 2.5 A, typical: yes}"
SMALL = "current: {idle: 10 mA, working: 0.2 A, stall: 0.8 A, typical: yes}"
# A lithium cell has 4.2 V when it is full and is empty at 3.3 V: 2, 3 and 6 of them.
CELLS = {2: "full: 8.4 V, empty: 6.6 V", 3: "full: 12.6 V, empty: 9.9 V", 6: "full: 25.2 V, empty: 19.8 V"}
GEAR_VOLTS = "volts: {least: 4.8 V, most: 9 V}"
LIGHT_VOLTS = "volts: {least: 4.5 V, most: 9 V}"
RX = "{plug: servo-3, names: [RX], contacts: pins}"
POWER = "{plug: power-2, names: [POWER], contacts: pins}"
# Outlets that receivers and units are sold with.
SIZES = (6, 8, 10, 12, 16, 20, 24)


def typed(text: str) -> dict[str, Any]:
    """Return what a line of a file says, by a reader of YAML in general."""
    read: dict[str, Any] = yaml.load("{" + text + "}", yaml.BaseLoader)
    return read


def for_sides(text: str) -> Any:
    """Return what is said of left and right where `{}` is L and R."""
    return {"left": text.format("L"), "right": text.format("R")} if "{}" in text else text


@dataclass
class Typed:
    """Equipment, circuits and runs of an aircraft, what feeds the radio first, as a builder types them.

    `heads` are the titles above the first of each concern, of equipment and of circuits.
    """

    said: Said
    feed: Entries = field(default_factory=dict)
    equipment: Entries = field(default_factory=dict)
    feed_circuits: Entries = field(default_factory=dict)
    circuits: Entries = field(default_factory=dict)
    feed_runs: list[tuple[str, str, bool]] = field(default_factory=list)
    runs: list[tuple[str, str, bool]] = field(default_factory=list)
    outlets: Counter[str] = field(default_factory=Counter)
    alike: Counter[str] = field(default_factory=Counter)
    heads: tuple[dict[str, str], dict[str, str]] = field(default_factory=lambda: ({}, {}))

    def __post_init__(self) -> None:
        """Type all of it."""
        self.has = {name: int(word) for name, word in self.said.items() if word.isdigit()}
        self.own = self.said["feeds"] == "own-regulator"
        self.two = self.said["receivers"] == "two"
        self.legs = {"two-retracts": ["L", "R"], "three-retracts": ["N", "L", "R"]}.get(self.said["gear"], [])
        self.receivers = ["receiver-a", "receiver-b"] if self.two else ["receiver"]
        self.sources = ["power-unit"] if self.has["power-unit"] else self.receivers
        for title, fit in {
            "Surfaces and tail.": self.surfaces,
            "What drives it.": self.drive,
            "Supply of gear, brakes, lights and smoke.": self.service,
            "Gear.": self.gear,
            "Lights and smoke.": self.lights,
        }.items():
            counts = len(self.equipment), len(self.circuits)
            fit()
            for heads, entries, before in zip(self.heads, (self.equipment, self.circuits), counts, strict=True):
                heads.update(dict.fromkeys(list(entries)[before : before + 1], title))
        self.radio()

    # What is in it

    def add(self, name: str, text: str) -> None:
        self.equipment[name] = typed(text)

    def circuit(self, name: str, label: str, start: str, goal: str, lead: str = "") -> None:
        leads = {"lead": lead} if lead else {}
        self.circuits[name] = {"label": for_sides(label), "from": for_sides(start), "to": goal, **leads}

    def commanded(self, name: str, label: str, goal: str, lead: str, failsafe: str) -> None:
        """Type the circuit from the next outlet of the radio, for both sides from the next two."""
        got = {side: self.outlet(lead, side) for side in (("left", "right") if "<side>" in name else ("",))}
        start, channel = ({side: each[i] for side, each in got.items()} for i in (0, 1))
        self.circuits[name] = {
            "label": for_sides(label),
            "from": start.get("", start),
            "to": goal,
            "lead": lead,
            "channel": channel.get("", channel),
            "failsafe": failsafe,
        }

    def outlet(self, lead: str, side: str) -> tuple[str, str]:
        """Left is on the first of two receivers, right on the second, one alone where fewer of its lead hang."""
        by_load = sorted(self.sources, key=lambda source: (self.alike[source + lead], self.outlets[source]))
        source = {"left": self.sources[0], "right": self.sources[-1]}.get(side, by_load[0])
        self.outlets[source] += 1
        self.alike[source + lead] += 1
        return f"{source} {self.outlets[source]}", str(self.outlets.total())

    def servo(self, name: str, label: str, failsafe: str = "hold", place: str = "") -> None:
        most = "8.4 V" if self.said["volts"] == "straight" and not self.own else "6.5 V"
        draws = SMALL if self.own else SERVO
        volts = f"volts: {{least: 4.8 V, most: {most}}}"
        self.add(name, f"kind: servo, place: {place or name}, plug: servo-3, {draws}, {volts}")
        self.commanded(name, label, name, "servo-22", failsafe)

    def surfaces(self) -> None:
        self.wing_servos("ailerons", "aileron", "AIL {}")
        for name, label in {
            "one-elevator": {"elevator": "ELEV"},
            "two-elevators": {"<side>-elevator": "ELEV {}"},
            "v-tail": {"<side>-v-tail": "VTAIL {}"},
        }[self.said["tail"]].items():
            self.servo(name, label)
        if self.has["rudder"]:
            self.servo("rudder", "RUDDER")
        self.wing_servos("flaps", "flap", "FLAP {}")
        self.wing_servos("airbrakes", "airbrake", "AIRBRAKE {}")

    def wing_servos(self, word: str, name: str, label: str) -> None:
        names = {0: {}, 1: {f"<side>-{name}": ""}, 2: {f"<side>-inner-{name}": " IN", f"<side>-outer-{name}": " OUT"}}
        for each, where in names[self.has[word]].items():
            self.servo(each, label + where)

    def drive(self) -> None:
        engine, _, number = self.said["drive"].partition("=")
        fit = {"motor": self.motor, "turbine": self.turbine, "piston": self.piston}.get(engine)
        in_the_wing = {2: {"<side>-": " {}"}, 4: {"<side>-inner-": " {} IN", "<side>-outer-": " {} OUT"}}
        where = {1: {"": ""}, 2: in_the_wing[2], 3: {"": "", **in_the_wing[2]}, 4: in_the_wing[4]}
        for before, label in where[int(number or 1)].items() if fit else ():
            assert fit is not None
            fit(before, label)

    def motor(self, before: str, label: str) -> None:
        bay, control, name = f"{before}motor-bay", f"{before}motor-control", f"{before}motor"
        on = "plug it in last of all, aircraft held, nobody near the propeller; the controller sounds"
        off, output = "unplug it first of all", ""
        if self.own:
            on = "plug it in, aircraft held, nobody near the propeller; the receiver''s light comes on"
            off, output = "unplug it", ", output: {volts: 6 V}"
        self.add(
            f"{name}-pack",
            f"kind: battery, place: {bay}, plug: power-2-motor, lead_wire: silicone-12, "
            f"battery: {{cells: 6, capacity: 5000 mAh, {CELLS[6]}}}, on: '{on}', off: {off}",
        )
        self.add(
            control,
            f"kind: speed controller, place: {bay}, fed_by: [PACK], volts: {{least: 18 V, most: 26 V}}, "
            "ports: [{plug: power-2-motor, names: [PACK], contacts: pins}, "
            "{plug: bullet-3, names: [MOTOR], contacts: sockets}, "
            f"{{plug: servo-3, names: [RX], contacts: pins{output}}}], "
            "current: {idle: 50 mA, working: 25 A, stall: 45 A, typical: yes}, "
            "stop: 'throttle to its lowest, and lock it', stopped: the propeller stands still",
        )
        self.add(name, f"kind: motor, place: {name}, plug: bullet-3, lead_wire: silicone-12")
        self.run("radio-tray", bay, True, when=not before)
        self.run(bay, name)
        self.circuit(f"{name}-supply", f"MOTOR BATT{label}", f"{name}-pack", f"{control} PACK")
        if self.own:  # its supply comes from the controller
            port, channel = self.outlet("servo-22", "")
            self.circuit("throttle", "THR", f"{control} RX", port, "servo-22")
            self.circuits["throttle"] |= {"channel": channel, "failsafe": "off"}
        else:
            self.commanded(f"{before}throttle", f"THR{label}", f"{control} RX", "signal-24", "off")
        self.circuit(name, f"MOTOR{label}", f"{control} MOTOR", name)

    def turbine(self, before: str, label: str) -> None:
        tray, unit = f"{before}engine-tray", f"{before}engine-unit"
        on = "plug it in last of all, aircraft held, an extinguisher at hand; the unit''s lamp comes on"
        off = "unplug it first of all, once the turbine has cooled down"
        self.add(
            f"{before}engine-pack",
            f"kind: battery, place: {tray}, plug: power-2, lead_wire: pvc-16, "
            f"battery: {{cells: 3, capacity: 3000 mAh, {CELLS[3]}}}, on: '{on}', off: '{off}'",
        )
        stop, stopped = "throttle and its trim to their lowest", "rotor stands still, unit says that it has cooled down"
        draws = "current: {idle: 0.2 A, working: 2.5 A, typical: yes}, volts: {least: 9 V, most: 13 V}"
        self.engine_unit(unit, tray, f"{draws}, stop: {stop}, stopped: '{stopped}'")
        self.run("radio-tray", tray, True)
        self.circuit(f"{before}engine-supply", f"ENGINE BATT{label}", f"{before}engine-pack", f"{unit} BATT")
        self.commanded(f"{before}throttle", f"THR{label}", f"{unit} RX", "signal-24", "off")

    def engine_unit(self, name: str, place: str, text: str) -> None:
        ports = f"ports: [{{plug: power-2, names: [BATT], contacts: pins}}, {RX}], fed_by: [BATT]"
        self.add(name, f"kind: engine unit, place: {place}, {ports}, {text}")

    def piston(self, before: str, label: str) -> None:
        bay, name = f"{before}engine-bay", f"{before}ignition"
        self.servo(f"{before}throttle", f"THR{label}", "idle", bay)
        on, off = "plug it in with the ignition switch off", "unplug it after the ignition switch is off"
        self.pack(f"{name}-pack", f"{name}-pack-bay", "power-2", "1500 mAh", on, off)
        on = "switch on last of all, aircraft held, throttle low, nobody near the propeller; its lamp comes on"
        self.switch(
            f"{name}-switch", f"{name}-sill", "power-2", "[OUT]", on, "switch off first of all; its lamp goes out"
        )
        stop, stopped = "throttle to its lowest, then ignition off from the transmitter", "the propeller stands still"
        draws = "current: {working: 0.6 A, typical: yes}, volts: {least: 4.8 V, most: 8.4 V}"
        self.engine_unit(name, bay, f"{draws}, stop: '{stop}', stopped: {stopped}")
        self.run("radio-tray", bay, True, when=not before)
        self.run(f"{name}-pack-bay", f"{name}-sill")
        self.run(f"{name}-sill", bay)
        self.circuit(f"{name}-pack", f"IGN PACK{label}", f"{name}-pack", f"{name}-switch IN", "power-20")
        self.circuit(f"{name}-supply", f"IGN BATT{label}", f"{name}-switch OUT", f"{name} BATT", "power-20")
        self.commanded(f"{name}-cut", f"IGN CUT{label}", f"{name} RX", "signal-24", "off")

    def pack(self, name: str, place: str, plug: str, capacity: str, on: str, off: str) -> None:
        battery = f"battery: {{cells: 2, capacity: {capacity}, {CELLS[2]}}}"
        self.equipment[name] = {
            **typed(f"kind: battery, place: {place}, plug: {plug}, {battery}"),
            "on": on,
            "off": off,
        }

    def switch(self, name: str, place: str, plug: str, outlets: str, on: str, off: str) -> None:
        ports = f"{{plug: {plug}, names: [IN], contacts: pins}}, {{plug: power-2, names: {outlets}, contacts: sockets}}"
        said = f"kind: power switch, place: {place}, ports: [{ports}], {GEAR_VOLTS}, fed_by: [IN]"
        self.equipment[name] = {**typed(said), "on": on, "off": off}

    @property
    def lit(self) -> bool:
        return any(self.has[word] for word in ("position-lights", "landing-lights", "beacon"))

    @property
    def served(self) -> bool:
        return bool(self.legs or self.has["brakes"] or self.has["smoke"])

    def service(self) -> None:
        if not self.served:
            return
        on, off = "plug it in with the service switch off", "unplug it after the service switch is off"
        self.pack("service-pack", "pack-bay", "power-2-heavy", "2200 mAh", on, off)
        there = {"GEAR": self.legs or self.has["brakes"], "LIGHTS": self.lit, "SMOKE": self.has["smoke"]}
        outlets = f"[{', '.join(name for name, is_there in there.items() if is_there)}]"
        on = "switch on at the sill, hands clear of gear and doors; its lamp comes on"
        self.switch("service-switch", "sill", "power-2-heavy", outlets, on, "switch off at the sill; its lamp goes out")
        self.run("pack-bay", "sill", True)
        self.run("sill", "radio-tray")
        self.circuit("service-supply", "SERVICE", "service-pack", "service-switch IN", "power-16")

    def gear(self) -> None:
        if self.has["steering"]:
            self.servo("steering", "STEER", "centre", "nose-leg" if "N" in self.legs else "steering")
        if not (self.legs or self.has["brakes"]):
            return
        legs = [f"LEG-{letter}" for letter in self.legs]
        doors = [f"DOOR-{letter}" for letter in self.legs if self.has["doors"]]
        brakes = ["BRAKE-L", "BRAKE-R"] * self.has["brakes"]
        drives = {**({"GEAR": legs + doors} if legs else {}), **({"BRAKE": brakes} if brakes else {})}
        of_plugs = [("power-2", ["POWER"]), ("servo-3", list(drives)), ("motor-2", legs), ("servo-3", doors)]
        said = f"kind: gear controller, place: gear-tray, fed_by: [POWER], {GEAR_VOLTS}"
        said += ", current: {working: 50 mA, typical: yes}"
        said += ", on: 'comes on with the service switch, hands clear of legs and doors'"
        ports = [
            {"plug": plug, "names": names, "contacts": "pins"}
            for plug, names in [*of_plugs, ("brake-2", brakes)]
            if names
        ]
        self.equipment["gear-unit"] = {**typed(said), "drives": drives, "ports": ports}
        self.run("radio-tray", "gear-tray")
        self.circuit("gear-supply", "GEAR BATT", "service-switch GEAR", "gear-unit POWER", "power-16")
        if self.legs:
            self.commanded("gear-signal", "GEAR", "gear-unit GEAR", "signal-24", "hold")
        for name, letter in {"nose-leg": "N", "<side>-leg": "{}"}.items():
            if letter in (*self.legs, "{}") and self.legs:
                self.leg(name, letter)
        if self.has["brakes"]:
            self.commanded("brake-signal", "BRAKES", "gear-unit BRAKE", "signal-24", "off")
            draws = "current: {idle: 0 A, working: 0.5 A, runs: 20 s, typical: yes}"
            self.add("<side>-brake", f"kind: brake, place: <side>-wheel, plug: brake-2, {draws}, {GEAR_VOLTS}")
            self.circuit("<side>-brake", "BRAKE {}", "gear-unit BRAKE-{}", "<side>-brake", "brake-24")

    def leg(self, name: str, letter: str) -> None:
        draws = "current: {idle: 0 A, working: 1 A, stall: 3.5 A, runs: 20 s, typical: yes}"
        motor = f"plug: motor-2, lead_wire: pvc-22, {draws}, {GEAR_VOLTS}, gear: {{limit: 10 s, stop: 2 A}}"
        self.add(name, f"kind: gear leg, place: {name}, {motor}")
        self.circuit(name, f"LEG {letter}", f"gear-unit LEG-{letter}", name, "motor-22")
        if self.has["doors"]:
            door = name.replace("leg", "door")
            volts = "volts: {least: 4.8 V, most: 8.4 V}"  # the service pack's
            self.add(door, f"kind: servo, place: {name}, plug: servo-3, {SERVO}, {volts}")
            self.circuit(door, f"DOOR {letter}", f"gear-unit DOOR-{letter}", door, "servo-22")

    def lights(self) -> None:
        if self.lit:
            self.light_unit()
        if self.has["smoke"]:
            draws = "current: {idle: 0 A, working: 1.8 A, runs: 60 s, typical: yes}"
            self.add(
                "smoke-pump",
                f"kind: smoke, place: smoke-bay, ports: [{POWER}, {RX}], fed_by: [POWER], {draws}, {GEAR_VOLTS}",
            )
            self.run("radio-tray", "smoke-bay", True)
            self.circuit("smoke-supply", "SMOKE BATT", "service-switch SMOKE", "smoke-pump POWER", "power-20")
            self.commanded("smoke-signal", "SMOKE", "smoke-pump RX", "signal-24", "off")

    def light_unit(self) -> None:
        position, landing = (
            "current: {working: 60 mA, typical: yes}",
            "current: {working: 0.4 A, runs: 90 s, typical: yes}",
        )
        there = [
            ("position-lights", "<side>-position-light", "POS {}", "<side>-tip", position),
            ("position-lights", "tail-light", "POS TAIL", "tail-end", position),
            ("landing-lights", "<side>-landing-light", "LAND {}", "<side>-lamp", landing),
            ("beacon", "beacon", "BEACON", "back", "current: {working: 0.1 A, typical: yes}"),
        ]
        lights = [each[1:] for each in there if self.has[each[0]]]
        outlets = [label.replace(" ", "-").format(side) for _, label, *_ in lights for side in "LR"]
        names = ", ".join(dict.fromkeys(outlets))
        power, fed = (f"{POWER}, ", "POWER") if self.served else ("", "RX")
        ports = f"ports: [{power}{RX}, {{plug: light-2, names: [{names}], contacts: pins}}]"
        draws = "current: {working: 30 mA, typical: yes}"
        self.add(
            "light-unit", f"kind: light controller, place: light-tray, {ports}, fed_by: [{fed}], {draws}, {LIGHT_VOLTS}"
        )
        self.run("radio-tray", "light-tray")
        if self.served:
            self.circuit("light-supply", "LIGHT BATT", "service-switch LIGHTS", "light-unit POWER", "power-20")
        # Without a pack of its own the receiver feeds it.
        self.commanded("light-signal", "LIGHTS", "light-unit RX", "signal-24" if self.served else "servo-22", "hold")
        for name, label, place, current in lights:
            self.add(name, f"kind: light, place: {place}, plug: light-2, {current}, {LIGHT_VOLTS}")
            self.circuit(name, label, f"light-unit {label.replace(' ', '-')}", name, "light-24")
        self.run("radio-tray", "back", when=bool(self.has["beacon"]))

    # What feeds the radio

    def radio(self) -> None:
        """Type it once all outlets are known; it stands before all else."""
        rest = self.equipment, self.circuits, self.runs
        self.equipment, self.circuits, self.runs = {}, {}, []
        for receiver in self.receivers:
            self.receiver(receiver)
        if self.has["power-unit"]:
            self.power_unit()
        elif not self.own:
            for receiver in self.receivers:
                self.supply(receiver, receiver.removeprefix("receiver"))
        self.feed, self.feed_circuits, self.feed_runs = self.equipment, self.circuits, self.runs
        self.equipment, self.circuits, self.runs = rest

    def data(self, receiver: str) -> list[str]:
        return ["DATA-1", "DATA-2"] if receiver == "receiver" and self.said["packs"] == "two-packs" else ["DATA"]

    def place_of(self, receiver: str) -> str:
        if receiver == "receiver-b":
            return "second-tray"
        return "receiver-tray" if self.has["power-unit"] else "radio-tray"

    def outlets_of(self, source: str) -> str:
        least = next(size for size in SIZES if size >= self.outlets[source])
        return f"{{plug: servo-3, names: 1..{least}, contacts: pins}}"

    def receiver(self, name: str) -> None:
        ports = f"{{plug: servo-3, names: [{', '.join(self.data(name))}], contacts: pins}}"
        if not self.has["power-unit"]:
            ports = self.outlets_of(name)
            ports += "" if self.own else ", {plug: power-2, names: [BATT], contacts: pins}"
        draws = "current: {working: 100 mA, typical: yes}, volts: {least: 3.6 V, most: 9 V}"
        self.add(name, f"kind: receiver, place: {self.place_of(name)}, ports: [{ports}], {draws}")
        self.run("radio-tray", self.place_of(name), when=self.place_of(name) != "radio-tray")

    def switched(self, on: str, off: str) -> dict[str, str]:
        at_the_sill = {
            "switch": ("switch on at the sill; ", "switch off at the sill; "),
            "key": ("pull the key out of the sill; ", "push the key into the sill; "),
        }.get(self.said["switch"])
        return {"on": at_the_sill[0] + on, "off": at_the_sill[1] + off} if at_the_sill else {}

    @property
    def key_and_output(self) -> tuple[str, dict[str, Any]]:
        key = ", {plug: servo-3, names: [KEY], contacts: pins}" if self.said["switch"] == "key" else ""
        return key, typed("output: {volts: 6 V, headroom: 0.4 V}") if self.said["volts"] == "regulated" else {}

    def radio_pack(self, name: str, plug: str) -> None:
        on, off = {
            "plug-in": ("plug it in; the receiver's light comes on", "unplug it"),
            "switch": ("plug it in with the switch off", "unplug it after the switch is off"),
            "key": ("plug it in with the key in", "unplug it after the key is in"),
        }[self.said["switch"]]
        self.pack(name, "pack-bay", plug, "2600 mAh", on, off)

    def key(self, switched: str, place: str, after: str) -> None:
        if self.said["switch"] == "key":
            self.add(f"key{after}", "kind: key, place: sill, plug: servo-3, out: on")
            self.run(place, "sill")
            self.circuit(f"key{after}", lettered("KEY", after), f"{switched} KEY", f"key{after}", "signal-24")

    def power_unit(self) -> None:
        afters = ["-a", "-b"] if self.said["packs"] == "two-packs" else [""]
        feeds = ", ".join(f"PACK{after.upper()}" for after in afters)
        data = [(receiver, port) for receiver in self.receivers for port in self.data(receiver)]
        if self.two:
            data = [(receiver, "DATA") for receiver in self.receivers]
        rx = ", ".join(["RX-A", "RX-B"][: len(data)])
        key, output = self.key_and_output
        said = (
            f"kind: power unit, place: radio-tray, ports: [{{plug: power-2-heavy, names: [{feeds}], contacts: pins}}, "
            f"{self.outlets_of('power-unit')}, {{plug: servo-3, names: [{rx}], contacts: pins}}{key}], "
            f"current: {{working: 80 mA, typical: yes}}, {LIGHT_VOLTS}, fed_by: [{feeds}], isolates: yes"
        )
        accept = typed("accept: {one-loss: all meets in it; within it all is there twice}") if len(afters) > 1 else {}
        entry = {**typed(said), **output, **self.switched("its lamps are steady", "its lamps go out"), **accept}
        self.equipment["power-unit"] = entry
        for after in afters:
            self.radio_pack(f"pack{after}", "power-2-heavy")
            goal = f"power-unit PACK{after.upper()}"
            self.circuit(f"pack{after}-supply", lettered("PACK", after), f"pack{after}", goal, "power-16")
        self.run("pack-bay", "radio-tray", True)
        for letter, (receiver, port) in zip("AB", data, strict=False):
            label = f"RX {letter}" if len(data) > 1 else "RX"
            name = f"{receiver}-{port.lower()}"
            self.circuit(name, label, f"power-unit RX-{letter}", f"{receiver} {port}", "servo-22")
        self.key("power-unit", "radio-tray", "")

    def supply(self, receiver: str, after: str) -> None:
        """Up to six servos a pack are fed through the thinner lead."""
        few = servos(self.said) <= 6 * {"one-pack": 1, "two-packs": 2}[self.said["packs"]]
        plug, lead = ("power-2", "power-20") if few else ("power-2-heavy", "power-16")
        pack, goal, at = f"pack{after}", f"{receiver} BATT", self.place_of(receiver)
        self.radio_pack(pack, plug)
        regulated = self.said["volts"] == "regulated"
        kind, name, place = {
            "switch": ("power switch", "switch", "sill"),
            "key": ("power switch", "switch", "switch-tray"),
            "plug-in": ("regulator", "regulator" if regulated else "", "regulator-tray"),
        }[self.said["switch"]]
        if not name:
            self.run("pack-bay", at, True)
            self.circuit(f"supply{after}", lettered("RX BATT", after), pack, goal, lead)
            return
        key, output = self.key_and_output
        ports = f"{{plug: {plug}, names: [IN], contacts: pins}}, {{plug: power-2, names: [OUT], contacts: sockets}}"
        said = f"kind: {kind}, place: {place}, ports: [{ports}{key}], {LIGHT_VOLTS}, fed_by: [IN]"
        lamp = self.switched("the receiver's light comes on", "the light goes out")
        self.equipment[f"{name}{after}"] = {**typed(said), **output, **lamp}
        self.run("pack-bay", place, True)
        self.run(place, at)
        self.circuit(f"{pack}-supply", lettered("PACK", after), pack, f"{name}{after} IN", lead)
        self.circuit(f"supply{after}", lettered("RX BATT", after), f"{name}{after} OUT", goal, lead)
        self.key(f"{name}{after}", place, after)

    def run(self, start: str, goal: str, sharp: bool = False, *, when: bool = True) -> None:
        if when:
            self.runs.append((start, goal, sharp))


def lettered(label: str, after: str) -> str:
    return f"{label} {after[1:].upper()}" if after else label
