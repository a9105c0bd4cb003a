"""Plugs that do not wait behind the cover of what they are for."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, note
from docgen.harness.model.equipment import Equipment

KIND = note(
    name="cover",
    stands_on="equipment",
    meaning="A servo's or light's plug lies elsewhere than behind its own cover.",
    when="A servo or a light says `plug_at:` another place than its own. All of them are one line, at the first.",
    why="Two seasons later that servo is changed: its plug is then found behind another cover, or not found.",
    remedy="Let it wait, coiled, at its own place: leave `plug_at:` out and say how much, `loop: 80 mm`. Where the "
    "cover is too small, say where it lies on a label inside it, and accept it: `accept: {cover: beside the leg}`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find servos and lights whose plug lies at another place: all of them that are not accepted in one line."""
    away = [each for each in facts.harness.equipment.values() if _is_away(each)]
    accepted = [[each] for each in away if KIND.name in each.form.accept]
    for entries in (*accepted, [each for each in away if [each] not in accepted]):
        if entries:
            plugs, own = ("the plug", "its") if len(entries) == 1 else ("the plugs", "their")
            lies = "lies" if len(entries) == 1 else "lie"
            named = listed(shown(each.name) for each in entries)
            sentence = f"{plugs} of {named} {lies} elsewhere than behind {own} own cover."
            do = "Let it wait there, coiled (`loop:`), and leave `plug_at:` out."
            yield facts.found(KIND, ("equipment", entries[0].name, "plug_at"), sentence, do)


def _is_away(equipment: Equipment) -> bool:
    return equipment.kind in ("servo", "light") and equipment.form.plug_at not in (None, equipment.place)
