"""Labels that are taken for another circuit's."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.circuits import Circuit

KIND = caution(
    name="twins",
    stands_on="circuit",
    meaning="A label reads as another circuit's.",
    when="Two circuits have the same `label:`, capitals aside; or a label has the letter or word of the other side: "
    "R, RH or RIGHT on what is left by the name of its load, else of the circuit, else by the load's place.",
    why="One is wired or plugged in for the other, and the ailerons are reversed.",
    remedy="Give each a label of its own, `label: {left: AIL L, right: AIL R}`.",
    source=PRACTICE,
)

_SAYS = {"left": {"left", "l", "lh"}, "right": {"right", "r", "rh"}}


def find(facts: Facts) -> Iterator[Finding]:
    """Find each label that an earlier circuit has too, and each that names the other side alone."""
    first: dict[str, Circuit] = {}
    for circuit in facts.harness.circuits.values():
        words, label = _words([circuit.label]), circuit.label
        twin = first.setdefault(" ".join(circuit.label.casefold().split()), circuit)
        if twin is not circuit:
            sentence = f"{shown(circuit.name)} has the label {shown(label)}, as {shown(twin.name)} has."
            yield _found(facts, circuit, sentence, "Give each a label of its own.")
        said = {side for side, say in _SAYS.items() if words & say}
        sides = _sides_of(facts, circuit) if len(said) == 1 else said
        if len(sides) == 1 and sides != said:
            sentence = f"the label {shown(label)} says {said.pop()}, {shown(circuit.name)} is on the {sides.pop()}."
            yield _found(facts, circuit, sentence, "Correct the label, or the end of the circuit.")


def _found(facts: Facts, circuit: Circuit, sentence: str, do: str) -> Finding:
    path = "circuits", circuit.name
    position = facts.where.value(*path, "label") if circuit.form.label else facts.where.key(*path)
    return KIND.at(position, sentence, do, path)


def _sides_of(facts: Facts, circuit: Circuit) -> set[str]:
    """Return the sides that are named by its loads, else by itself, else by where its loads are."""
    places = [end.place for end in circuit.loads]
    assemblies = [facts.harness.places[place].assembly for place in places]
    naming = [end.name for end in circuit.loads], [circuit.name], [*places, *assemblies]
    return next((sides for names in naming if (sides := _words(names) & _SAYS.keys())), set())


def _words(texts: Iterable[str]) -> set[str]:
    return {word for text in texts for word in re.findall(r"[^\W\d_]+", text.casefold())}
