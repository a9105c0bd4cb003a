"""Take a harness; return what is aboard that a page must warn of, and what is said of it where it hurts."""

from __future__ import annotations

from docgen.basics.frozen import frozen
from docgen.harness.electrical.switching import ENGINES
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Function

OF_ENGINES = ("pump", "valve", "ignition")  # that an engine's unit works


@frozen
class Aboard:
    """What is aboard: an engine that burns fuel, an electric motor, legs that retract, smoke, a gyro, a receiver."""

    engine: bool
    motor: bool
    gear: bool
    brakes: bool
    smoke: bool
    gyro: bool
    receiver: bool

    @property
    def drive(self) -> bool:
        """Tell whether anything drives it."""
        return self.engine or self.motor

    @property
    def made_safe(self) -> str:
        """Say how what drives it is made safe before packs are plugged in, or nothing."""
        said = ["Propeller off or motor leads unplugged."] * self.motor
        said += ["Fuel closed, igniter and starter unplugged."] * self.engine
        return " ".join(said)

    @property
    def clear_of(self) -> str:
        """Say what to keep clear of, or nothing."""
        said = ["propellers, and fans' intakes"] * self.motor
        said += ["the engine's propeller, or its intake and exhaust"] * self.engine
        said += ["gear doors and legs"] * self.gear
        return "; ".join(said)


def aboard(harness: Harness) -> Aboard:
    """Return what is aboard."""
    kinds = [entry.kind for entry in harness.equipment.values()]
    return Aboard(
        engine=not set(ENGINES).isdisjoint(kinds),
        motor="speed controller" in kinds or ("motor" in kinds and "engine unit" not in kinds),
        gear="gear leg" in kinds or "gear controller" in kinds,
        brakes="brake" in kinds,
        smoke="smoke" in kinds,
        gyro="gyro" in kinds,
        receiver="receiver" in kinds,
    )


def gyros(harness: Harness) -> list[str]:
    """Return the gyros: which way they correct shows at what they or their receiver move, at nothing of their own."""
    return [name for name, entry in harness.equipment.items() if entry.kind == "gyro"]


def of_engines(harness: Harness) -> dict[str, list[Function]]:
    """Return by engine unit what it works: that feeds or lights the engine."""
    units = [name for name, entry in harness.equipment.items() if entry.kind == "engine unit"]
    found: dict[str, list[Function]] = {name: [] for name in units}
    for one in harness.losses.functions:
        if harness.equipment[one.load].kind in OF_ENGINES:
            by = {harness.circuits[name].start.name for name in one.circuits}
            for unit in by.intersection(units):
                found[unit].append(one)
    return found


def field_caution(aboard: Aboard) -> str:
    """Return the caution of what is done beside the aircraft at the field."""
    said = ["Charge packs out of the aircraft or as their maker says, never alone."]
    if aboard.clear_of:
        said.append(f"Keep clear of {aboard.clear_of}.")
    if aboard.engine:
        said.append("Fuel: no flame near, an extinguisher at hand.")
    return " ".join(said)


def at_rest(aboard: Aboard) -> str:
    """Return the caution of work with the aircraft opened: what drives is made safe first."""
    said = []
    if aboard.motor:
        said.append("Motor made safe first: propeller off or motor leads unplugged.")
    if aboard.engine:
        said.append("Engine made safe first: fuel closed, igniter and starter unplugged.")
    said.append("Packs unplugged before a plug or joint is parted.")
    if aboard.gear:
        said.append("Hands clear of legs and doors.")
    return " ".join(said)
