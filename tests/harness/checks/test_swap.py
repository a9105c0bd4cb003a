"""Halves that can be mated with a wrong one, where nothing is measured yet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from beginning.begun import written

from docgen.pipeline import check

if TYPE_CHECKING:
    from pathlib import Path

KEYED = "    keyed: {left: A, right: B}\n"


def swaps_in(folder: Path) -> dict[str, str]:
    """Return what is found of swaps, by the disconnect on which it stands."""
    return {found.subject[1]: found.sentence for found in check(folder).findings if found.name == "swap"}


def test_beside_its_own_a_half_reaches_a_wrong_one_whatever_it_measures(tmp_path: Path) -> None:
    """By hand: both joints of the centre piece have their fixed half at the saddle; panels plug in wide apart."""
    folder = written(tmp_path / "gull", {"wing": "three-pieces", "surfaces": "ailerons=2,flaps=2"})
    assert swaps_in(folder) == {}
    file = folder / "harness.yaml"
    file.write_text(file.read_text("utf-8").replace(KEYED, ""), "utf-8")
    said = "the loose half of `{}` mates with the fixed half of `{}` too: both are `block-14`, and its own is at "
    said += "`wing-saddle` as well."
    assert swaps_in(folder) == {
        "left-centre": said.format("left-centre", "right-centre"),
        "right-centre": said.format("right-centre", "left-centre"),
    }
