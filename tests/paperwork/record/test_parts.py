"""Parts of the record: what each holds of the whole, and where it stands when it is written."""

from __future__ import annotations

import hashlib
from dataclasses import replace

import pytest
from recorded import sections_of
from resolved import EXAMPLES, harness_of, record_of

from docgen.paperwork.record.record import STEM, WHOLE
from docgen.paperwork.standing import NOT_ISSUED, Stamp, Standing

IN_PARTS = ["Places", "Equipment", "Leads", "Through openings", "Splices"]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_parts_of_assemblies_hold_all_of_their_sections_together_each_entry_once(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    kept = record_of(harness)
    whole = sections_of(kept.whole)
    parts = [sections_of(kept.parts[f"record/assembly-{assembly}.txt"]) for assembly in harness.assemblies]
    for section in IN_PARTS:
        together = [line for part in parts for line in part.get(section, [])]
        assert sorted(together) == sorted(whole.get(section, []))
    assert all(set(part) <= {"", *IN_PARTS} for part in parts)
    for part, assembly in zip(parts, harness.assemblies, strict=True):
        assert part[""] == [f"{harness.aircraft.marks} assembly {assembly}", "since:"]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_each_joint_and_each_equipment_with_a_card_has_its_part_that_says_what_the_whole_does(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    kept = record_of(harness)
    carded = [entry.name for entry in harness.equipment.values() if entry.has_card]
    paths = [f"record/disconnect-{joint}.txt" for joint in harness.disconnects]
    paths += [f"record/equipment-{entry}.txt" for entry in carded]
    paths += [f"record/assembly-{assembly}.txt" for assembly in harness.assemblies]
    assert list(kept.parts) == paths
    for kind, names in (("disconnect", harness.disconnects), ("equipment", carded)):
        for one in names:
            title, since, *said = kept.parts[f"record/{kind}-{one}.txt"].rstrip("\n").split("\n")
            assert (title, since) == (f"{harness.aircraft.marks} {kind} {one}", "since:")
            assert "\n".join(said) in kept.whole


def test_sections_stand_in_their_order_and_only_those_that_hold_something() -> None:
    assert [*sections_of(record_of(harness_of(EXAMPLES / "fulmar")).whole)][1:] == [
        *("Flight", "Places", "Runs", "Equipment", "Disconnects", "Circuits", "Leads", "Through openings", "Splices"),
        *("Volts and currents, packs at empty", "Supplies", "Bundles and sleeves", "Balance about the nose datum"),
        *("Order of switching", "At rest, packs empty to full", "First power-up", "What stops when one thing is lost"),
        *("Where that is tested", "One function alone is dead", "Limits", "Findings"),
    ]
    wren = replace(harness_of(EXAMPLES / "wren"), flight=None)
    assert not {"Flight", "Through openings", "Splices", "Findings"} & {*sections_of(record_of(wren).whole)}


def short(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:8]


def test_the_whole_and_each_part_say_where_they_stand_by_their_own_hash() -> None:
    kept = record_of(harness_of(EXAMPLES / "wren"))
    panel = "record/assembly-left-panel.txt"
    built = Stamp("B", "2026-05-30", built=True)
    issued = {
        (STEM, WHOLE): (short(kept.whole), built),
        (STEM, panel): (short(kept.parts[panel]), Stamp("A", "2026-01-02")),
        (STEM, "record/equipment-receiver.txt"): ("0", built),
    }
    files = kept.files(Standing(NOT_ISSUED, built, issued))
    assert list(files) == [WHOLE, *kept.parts]
    assert "\nissue: B, built\ndate: 2026-04-18\n" in files[WHOLE]
    since = {path: text.split("\n")[1] for path, text in files.items() if path != WHOLE}
    assert since == {path: "since: A" if path == panel else "since: draft" for path in kept.parts}
    assert (kept.content_hash, {item.key: item.content_hash for item in kept.items()}) == (
        short(kept.whole),
        {(path,): short(text) for path, text in {WHOLE: kept.whole, **kept.parts}.items()},
    )
    # Nothing but these lines is filled in.
    assert files[panel].replace("since: A\n", "since:\n") == kept.parts[panel]
