"""A jet written from scratch can be said: in place, soldered, with leads that came along, down to its paper."""

from __future__ import annotations

import math
from pathlib import Path

import jet
import pytest
from resolved import record_of

from docgen.harness.assembly.bill_of_materials import bill_of_materials
from docgen.harness.assembly.passing import Waits
from docgen.harness.assembly.samples import samples_of
from docgen.harness.assembly.through_openings import plan_threading, waits_of
from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import power_content
from docgen.pipeline import Checked, check

WING_ROOTS = {f"{side}-{root}" for side in ("left", "right") for root in ("root", "panel-root")}


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    folder: Path = tmp_path_factory.mktemp("jet") / "gannet"
    folder.mkdir()
    for name, text in jet.FILES.items():
        (folder / name).write_text(text, encoding="utf-8")
    return check(folder)


@pytest.fixture(scope="module")
def gannet(checked: Checked) -> Harness:
    assert checked.harness is not None, checked.findings
    return checked.harness


def test_it_has_33_circuits_and_what_is_found_is_accepted(checked: Checked, gannet: Harness) -> None:
    assert len(gannet.circuits) == 33
    kinds = [equipment.kind for equipment in gannet.equipment.values()]
    assert (kinds.count("battery"), kinds.count("receiver"), kinds.count("ignition"), kinds.count("fuse")) == (
        2,
        2,
        1,
        1,
    )
    assert [finding.sentence for finding in checked.findings if not finding.accepted] == []


def test_the_rudder_s_own_plug_is_half_of_the_joint_in_the_fin(gannet: Harness) -> None:
    cut, own = gannet.circuits["rudder"].leads
    # 560 + 690 mm with 3 % slack, 50 mm on the tray, 22.5 mm at either end, twisted: up to 5 mm.
    twist = math.hypot(1, math.pi * 2 / math.sqrt(3) * 1.6 / 25)
    assert cut.length_mm == math.ceil((1250 * 1.03 + 50 + 2 * 22.5) * twist / 5) * 5
    assert own.length_mm == 300
    assert gannet.disconnects["fin-rudder"].halves[1].reach_mm == pytest.approx(300 - 150)


def test_each_soldered_contact_has_its_tube_and_no_sample(gannet: Harness) -> None:
    # A wing block has eight wires and four tails behind either half, on either side; a pack's lead two wires at either
    # end. The block of the parts list was crimped, the builder's own of that name is soldered.
    assert sum(bill_of_materials(gannet).contact_tubes.values()) == 2 * 2 * (8 + 4) + 2 * 2 * 2
    assert not {"block-14", "power-2-heavy"} & {sample.connector for sample in samples_of(gannet)}
    assert record_of(gannet).whole.count("soldered over 10 mm") == 2 * 2 * 2


def test_all_goes_through_its_openings_finished_from_where_that_is_so(gannet: Harness) -> None:
    threadings = plan_threading(gannet)
    assert waits_of(threadings) == {}
    # The wing blocks stay where they are, what they lead to goes through.
    goals = {threading.goal for threading in threadings if threading.start in WING_ROOTS}
    assert goals == {"radio-tray", "left-leg-bay", "right-leg-bay"}
    assert all(passage.waits is Waits.NOTHING for threading in threadings for passage in threading.passages)


def test_pump_igniter_and_valve_work_where_the_engine_s_unit_runs_it_and_nowhere_before(gannet: Harness) -> None:
    steps = [step for part in power_content.content(gannet).parts for step in part.steps]
    burns = {f"load {name}" for name in ("pump", "igniter", "fuel-valve")}
    (engine,) = (step for step in steps if burns.intersection(step.of))
    assert burns < set(engine.of)
    assert (engine.name, engine.does) == ("engine-unit", "with PUMP, IGNITER, VALVE: starts, idles, runs up, stops")


def test_all_of_it_is_printed(gannet: Harness) -> None:
    paper = make_paperwork(gannet, Choice())
    assert [finding.sentence for finding in paper.findings if finding.level == "error"] == []
    assert {"cut-list.pdf", "order-of-work.pdf", "pinout-cards.pdf", "wire-labels.pdf"} <= set(paper.files)
