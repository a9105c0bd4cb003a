"""Which wires of a circuit carry its current out and back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import WORN, built, definition

WrittenFolder = Callable[[Mapping[str, str]], Path]


# Current comes over the positive, or over what a lead that supplies has beside signals; it goes back over the negative,
# or over the other wire. A signal's negative is no pole: it carries the current of others.
@pytest.mark.parametrize(
    ("roles", "more", "poles"),
    [
        (["negative", "positive", "signal"], {}, ("positive", "negative")),
        (["signal", "positive"], {}, ("positive",)),
        (["negative", "signal"], {}, ()),
        (["negative", "data", "clock"], {}, ()),
        (["one", "other"], {"reverses": "yes"}, ("one", "other")),
        (["feed", "return"], {"supplies": "yes"}, ("feed", "return")),
        (["feed", "negative"], {"supplies": "yes"}, ("feed", "negative")),
        (["negative", "signal", "feed"], {"supplies": "yes"}, ("feed", "negative")),
        (["feed", "sense"], {"supplies": "yes"}, ("feed",)),
        (["feed", "return"], {}, ()),
    ],
)
def test_these_wires_of_a_lead_carry_current(
    roles: list[str], more: Mapping[str, str], poles: tuple[str, ...], written_folder: WrittenFolder
) -> None:
    load = {"kind": "other", "place": "root", "lead": "100 mm", "plug": "odd"}
    said = definition({"load": load}, {"load": {"from": "unit ODD", "to": "load", "lead": "odd"}})
    unit = said["harness"]["equipment"]["unit"]
    unit["ports"] = [*unit["ports"], {"plug": "odd", "names": ["ODD"], "contacts": "pins"}]
    plug = {"contacts": dict(enumerate(roles, 1)), "equipment": "sockets", "size": ["8 mm", "3 mm"], "contact": WORN}
    lead = {"wires": dict.fromkeys(roles, "pvc-24 VT"), **more}
    said["parts"] = {**said["parts"], "plugs": {"odd": plug}, "leads": {**said["parts"]["leads"], "odd": lead}}
    assert built(written_folder, said).circuits["load"].poles == poles
