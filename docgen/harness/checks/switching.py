"""What is switched, how that is said, and what a key that falls out does."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.electrical.switching import MOTORS, switched_by
from docgen.harness.model.equipment import Equipment
from docgen.harness.wiring.supply import sources_behind

KIND = caution(
    name="switching",
    stands_on="equipment",
    meaning="How something is switched on is not said, or a key that falls out does harm.",
    when="Packs and power switches say no `on:` (one line for all that do not accept it; it stands on the "
    "first). A key in a supply of receivers has `out: off`, or is so unsaid; one in a supply of a motor `out: on`.",
    why="The order of switching on is printed for the helper at the field. A key works loose: a receiver must not "
    "go off by that, nor a motor come on.",
    remedy="Say it with its sign, `on: plug it in; the blue lamp comes on`. For receivers take a key that is out in "
    "flight, `out: on`; give a motor a key of its own.",
    source=PRACTICE,
)

_SWITCHED = ("battery", "power switch")


def find(facts: Facts) -> Iterator[Finding]:
    """Find what does not say how it is switched on, in one line, and each key that does harm when it falls out."""
    silent = [each for each in facts.harness.equipment.values() if each.kind in _SWITCHED and not each.form.on]
    accepted = [[each] for each in silent if KIND.name in each.form.accept]
    for entries in (*accepted, [each for each in silent if [each] not in accepted]):
        if entries:
            sentence = f"how {listed(shown(each.name) for each in entries)} is switched on is not said."
            position = facts.where.key("equipment", entries[0].name)
            yield KIND.at(position, sentence, "Say it: `on:`.", ("equipment", entries[0].name))
    for key in facts.harness.equipment.values():
        if key.kind == "key" and (harm := _harm(facts, key)):
            said = "out" in key.form.model_fields_set
            position = (
                facts.where.value("equipment", key.name, "out") if said else facts.where.key("equipment", key.name)
            )
            yield KIND.at(position, *harm, ("equipment", key.name))


def _harm(facts: Facts, key: Equipment) -> tuple[str, str] | None:
    """Say what a key does that falls out, and what to do about it."""
    network = facts.electricity.network
    behind = sources_behind(switched_by(facts.harness, key.name), network.feeds)
    kinds = {facts.harness.equipment[name].kind for name in behind}
    if key.form.out == "off" and "receiver" in kinds:
        what, do = "receivers off", "Take one that is out in flight (`out: on`), with a streamer on it."
    elif key.form.out == "on" and kinds.intersection(MOTORS):
        what, do = "a motor on", "Give the motor a key of its own that is in while it runs (`out: off`)."
    else:
        return None
    return f"{shown(key.name)} switches {what} when it falls out.", do
