"""The pack and switch of what the radio's packs do not feed: gear, brakes, lights, smoke."""

from __future__ import annotations

from docgen.beginning.answers import Answers
from docgen.beginning.draft import Draft
from docgen.beginning.radio import HUB, Radio
from docgen.beginning.supply import HEAVY_LEAD, HEAVY_PLUG, PACK_BAY, SILL
from docgen.beginning.typical import pack, power_switch


def has_service_pack(answers: Answers) -> bool:
    """Tell whether there is such a pack; lights alone hang on the radio's."""
    return bool(answers.retracts or answers.brakes or answers.smoke)


def fit_service(draft: Draft, answers: Answers, _: Radio) -> None:
    """Fit its pack and its switch, with an outlet for each of those."""
    if not has_service_pack(answers):
        return
    says = "Gear, brakes, lights and smoke have a pack of their own, so that none of them takes the radio with it."
    on, off = "plug it in with the service switch off", "unplug it after the service switch is off"
    battery = 2, "2200 mAh"
    draft.equipment.append(pack("service-pack", PACK_BAY, HEAVY_PLUG, battery, on, off, says=says))
    lights = answers.position_lights or answers.landing_lights or answers.beacon
    wanted = {"GEAR": answers.retracts or answers.brakes, "LIGHTS": lights, "SMOKE": answers.smoke}
    outlets = [name for name, there in wanted.items() if there]
    on = "switch on at the sill, hands clear of gear and doors; its lamp comes on"
    off = "switch off at the sill; its lamp goes out"
    draft.equipment.append(power_switch("service-switch", SILL, HEAVY_PLUG, outlets, on, off))
    draft.add_run(PACK_BAY, SILL, sharp=True)
    draft.add_run(SILL, HUB)
    draft.add_circuit("service-supply", "SERVICE", "service-pack", "service-switch IN", HEAVY_LEAD)
