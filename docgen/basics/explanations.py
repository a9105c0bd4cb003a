"""Tell what a finding means, why it matters on the bench, how to remedy it, and its source."""

from __future__ import annotations

import re
import textwrap

from docgen.basics.explanations_of_errors import EXPLANATIONS_OF_ERRORS, FORM, PRACTICE, Explanation
from docgen.basics.explanations_of_paper import EXPLANATIONS_OF_PAPER
from docgen.basics.findings import KINDS

__all__ = ["EXPLANATIONS", "Explanation", "explain"]

_COLUMNS = 80
# What stays on one line, so that it can be copied: an example, and a number with its unit.
_TOGETHER = re.compile(r"`[^`]*`|\d [%°A-Za-z]")
_NO_BREAK = "\N{NO-BREAK SPACE}"

_OTHERS = EXPLANATIONS_OF_ERRORS | EXPLANATIONS_OF_PAPER
EXPLANATIONS: dict[str, Explanation] = _OTHERS | {
    "reach": Explanation(
        when="The lead that equipment came with is shorter than the route along the runs from its `place:` to where "
        "its plug lies (`plug_at:`, else its own place). Where a circuit plugs straight in, both own leads, added, "
        "are shorter than the route between and its `loop:`.",
        why="A servo lead that ends 40 mm short of the harness plug is found with the wing covered. Stretched to "
        "reach, it pulls at its crimps in every landing.",
        remedy="Say where the plug lies, `plug_at: left-root`; measure the own lead again, `lead: 300 mm`; or give the "
        "circuit a lead that is cut to length, `lead: servo-22`.",
        source=PRACTICE,
    ),
    "access": Explanation(
        when="A plug lies at a place that says no `access:`.",
        why="Two seasons later a servo is changed. Where no hand gets at the plug, the covering is cut.",
        remedy="Say how a hand gets there, `access: servo cover`, or let the plug lie elsewhere, `plug_at: left-root`.",
        source=PRACTICE,
    ),
    "short": Explanation(
        when="A length in `lengths:` is under what the route needs: (route × (1 + slack) + slack of the places + reach "
        "of a loose half + loops + strip and reterminations at each end) × twist. `allowances: slack` (3 %), "
        "`allowances: strip` (4 mm), `allowances: reterminations` (2) and `allowances: retermination` (10 mm) change "
        "it.",
        why="The wire cut short. It can't be crimped again after a bad crimp, or it hangs taut across the bay and "
        "pulls at its contacts until one comes out.",
        remedy="Leave the length to be worked out by deleting `lengths:`, or pin what is needed, "
        "`lengths: {B: 1050 mm}`. A measured shorter route, `length: 745 mm` on its run, or a smaller `loop: 40 mm` "
        "needs less.",
        source="FAA AC 43.13-1B, 11-118: slack for two reterminations at each end. Segment letters: US Navy "
        "Electricity and Electronics Training Series, module 4. 3 %, 4 mm and 10 mm: common practice, no source.",
    ),
    "straight": Explanation(
        when="The `length:` of a run is over 0.05 mm less than the straight line between the `at:` of its places.",
        why="One of the figures is wrong. If it is the length, every wire on this run is cut short.",
        remedy="Measure along the structure again, `length: 745 mm`, or remedy the coordinates, "
        "`at: {aft: 600 mm, left: 80 mm}`.",
        source="Geometry: the straight line is the shortest route.",
    ),
    "unmeasured": Explanation(
        when="A run has no `length:`; the straight line between the `at:` of its two places is taken for it.",
        why="Wires go round formers and along the skin: one cut by the straight line comes out short.",
        remedy="Lay a string along the route, measure the string, and write `length: 235 mm` on the run.",
        source=PRACTICE,
    ),
    "accept": Explanation(
        when="An `accept:` names a caution or note that was not found on its entry. `tube`, `type` and `stock` are "
        "left alone: they come up only when paper is composed.",
        why="Left behind, it hides the same caution when that comes back for another reason.",
        remedy="Delete it, or move it to the entry that it is about: `accept: {drop: short flights only}`.",
        source=FORM,
    ),
    "unused": Explanation(
        when="No circuit begins or ends at this equipment, or passes this disconnect.",
        why="Mostly a circuit was forgotten: a light stays dark. What is only planned does no harm.",
        remedy="Add its circuit with `from:`, `to:` and `through:`, delete the entry, or say why it is there, "
        "`accept: {unused: smoke comes next season}`.",
        source=FORM,
    ),
    "volts": Explanation(
        when="Packs at `empty:`, less arrives than the load's `volts: least` plus 0.3 V, in any of three cases. "
        "Working: everything at working current. Peak: the 4 loads with the most to add stall, judged at all that "
        "has no stall. Stall: this load stalls, the rest works. `limits: margin` and `limits: together` change it.",
        why="Surfaces load up together late in the flight, the pack is low, and the receiver restarts: nothing "
        "answers until it is back. A servo short of volts is slow and weak.",
        remedy="The finding says what would do: heavier wire, `lead: servo-22`, a second contact, or a shorter own "
        "lead. Else a pack with less `resistance:`, a shorter route, or a heavy pair with `commons:`. Lower "
        "`limits: {margin: 0.2 V}` only after measuring on the bench.",
        source="Common practice, no source. What a load needs is its maker's figure.",
    ),
    "drop": Explanation(
        when="The circuit's own drop, from the outlet that it hangs on to the load and back, is over a share of the "
        "volts of the nearest regulated outlet upstream, else of the pack's `empty:`. Shares: 1/28 (3.57 %) working, "
        "10 % stalled. `limits: drop_working` and `limits: drop_stalled` change them.",
        why="A servo on a long thin lead is weakest when it is worked hardest. Its drop when stalled matters less "
        "there than at the receiver, which restarts: of that the caution `volts` tells.",
        remedy="Take heavier wire, `lead: servo-22`, a second contact, or shorten the lead that it came on, "
        "`lead: 150 mm`. Or live with it: `accept: {drop: it hardly moves in flight}`.",
        source="FAA AC 43.13-1B, table 11-6, continuous: 1 V of 28 V. 10 % stalled: common practice, no source.",
    ),
    "overvolts": Explanation(
        when="Packs at `full:`, a pack or a regulated outlet gives more than the load's `volts: most`.",
        why="A servo marked for 6 V dies on a full two-cell lithium pack, which has 8.4 V.",
        remedy="Feed it from a regulated outlet, `output: {volts: 6 V, headroom: 0.5 V}`; fit equipment that bears the "
        "pack, `volts: {least: 4.8 V, most: 8.4 V}`, if its maker says so; or use fewer `cells: 2`.",
        source="Common practice, no source. What a load bears is its maker's figure.",
    ),
    "joined-supplies": Explanation(
        when="Circuits of several supplies share a negative common, or positives of several supplies meet at "
        "equipment that does not keep them apart. `isolates: yes` keeps the ports that feed it apart (`fed_by:`, else "
        "all), no others: a positive that another supply brings to a port that `fed_by:` leaves out is found too.",
        why="Two packs joined by plain wire charge each other with all the current that the wire lets through, and "
        "lithium packs catch fire. On a shared negative one supply's fault reaches the other.",
        remedy="Leave the positive out of one lead, `omit: [positive]`; give each supply a common of its own. Write "
        "`isolates: yes` only where the maker says so. Packs are charged apart, as their maker says.",
        source=PRACTICE,
    ),
    "wire-current": Explanation(
        when="Working current is over the wire's `current:`; unsaid, over table 11-9 in the column (105, 150, 200 "
        "°C) that its `limit:` reaches, metric wire by the next smaller AWG row. Above 70 °C on its route that times "
        "√((limit − T) / (limit − 70 °C)). A wire that carries supply and has neither figure is found too.",
        why="It warms its bundle, insulation softens, and two wires meet: a dead servo or a dead supply.",
        remedy="Take heavier wire, `lead: servo-22`, another route off the hot run, `by: [belly]`, or split the load "
        "over more circuits. A wire of your own gets its maker's figure in parts.yaml, `current: 5 A`.",
        source="FAA AC 43.13-1B, table 11-9; above 70 °C the form of its 11-66d(6). PVC and wires under 24 AWG are "
        "not in the table: their figures are common practice, no source.",
    ),
    "contact-current": Explanation(
        when="A contact carries more than its `rating:` working, or more than its `brief:` at peak or with the load "
        "stalled; brief is for 10 s at most. Gear legs with `gear: limit` over 10 s are also judged with `gear: stop`, "
        "else their stall, against `rating:`: all of one controller jammed together, everything else working.",
        why="A hot contact loses its spring, makes worse contact and gets hotter, until plug and socket are one "
        "lump. A stalled leg cooks its plug for as long as the controller lets it.",
        remedy="Spread a pole over more contacts of a common, `contacts: [3, 4]`; choose a `shell:` or `plug:` with "
        "stronger contacts; or, where its strokes allow, stop a jammed leg sooner, `gear: {limit: 9 s, stop: 2.5 A}`.",
        source="Ratings are the makers'. 10 s for brief: common practice, no source.",
    ),
    "supply-current": Explanation(
        when="At peak (everything working, the 4 loads with the most to add stalled) a port group, an `output:` or a "
        "`battery:` gives more than its `rating:`. `limits: together` changes the 4.",
        why="A regulator over its rating shuts down or sags, and everything on it restarts at once. A pack over its "
        "rating swells and its volts fall away.",
        remedy="Move loads to another outlet or pack with `from:`, or fit one whose maker gives it more, "
        "`rating: 10 A`. If fewer loads stall at once, say so: `limits: {together: 2}`.",
        source="Ratings are the makers'. Four loads at once: common practice, no source.",
    ),
    "single-contact": Explanation(
        when="A common with one contact carries a pole, positive or negative, of several servos.",
        why="One contact that works loose takes every surface of that wing at once.",
        remedy="Give the common a second contact, `contacts: [3, 4]`, or lead each servo through by itself.",
        source=PRACTICE,
    ),
    "one-pack": Explanation(
        when="One of several packs alone, at `empty:`, leaves less than `volts: least` plus 0.3 V at peak, judged at "
        "all that has no stall (`limits: margin`, `limits: together`); or its `capacity:` is under the charge of one "
        "`flight: time`, no reserve kept.",
        why="The second pack is there to bring the aircraft home when the first fails, and that is in the air. A "
        "pack that only helps is false comfort.",
        remedy="Take larger packs, `capacity: 3300 mAh`, with less `resistance:`; heavier wire from pack to unit, "
        "`lead: power-16`; or fly shorter, `flight: {time: 7 min, reserve: 30 %}`.",
        source=PRACTICE,
    ),
    "endurance": Explanation(
        when="`capacity:` × (1 − `reserve:`) holds fewer flights than `flights:` (unsaid: 1). A flight takes, over "
        "all loads, working × `runs:` + idle × (`time:` − `runs:` + `ground:`); `runs:` unsaid is the whole flight. "
        "Capacities add only for like packs on one unit that says `isolates: yes`.",
        why="The pack is empty before the last landing. A lithium pack falls off quickly at its end: servos slow "
        "down, the receiver restarts, and the pack is spoilt.",
        remedy="Take a larger pack, `capacity: 3300 mAh`; fly less on a charge, `flights: 2`; measure in place of "
        "guessing, `current: {idle: 20 mA, working: 0.6 A}`, and compare with what the charger puts back. Charge as "
        "the pack's maker says.",
        source=PRACTICE,
    ),
    "heat": Explanation(
        when="The `limit:` of a wire is at or under the `heat:` of the hottest run or place on its own route (of a "
        "tail: of its half's place), that of a label's tube under it. Sleeves and tubes stand all heat up to their "
        "limit, that included; where no sleeve stands it, the finding is `unsleeved`.",
        why="Near the exhaust insulation softens, wires short, and a sleeve melts onto what it should protect.",
        remedy="Go by another route, `by: [belly]`; use parts that stand it, `limit: 200 °C` in parts.yaml; or measure "
        "what is really there, `heat: 90 °C`. Round an engine its maker's instructions come first.",
        source="FAA AC 43.13-1B, 11-115 and 11-117b: wires keep away from heat. Limits are the makers'.",
    ),
    "unsleeved": Explanation(
        when="A run with `edges: sharp` is not `dressed:` and no sleeve fits its bundle; or a run with `heat:` over "
        "80 °C has no sleeve that fits and whose `limit:` is that heat or more. `limits: hot` changes the 80 °C.",
        why="A former's edge saws at the insulation; the short comes where nobody looks, and takes the supply along.",
        remedy="Dress the edge, `dressed: grommet`; add a sleeve to `sleeves:` in parts.yaml, `fits: [3 mm, 8 mm]`, "
        "`limit: 125 °C`; or go by another route, `by: [belly]`.",
        source="FAA AC 43.13-1B, 11-115: a grommet at a hole unless the bundle is clamped with at least 3/8 in "
        "clearance. 80 °C, and a sleeve for the whole route: common practice, no source.",
    ),
    "bend": Explanation(
        when="The `hinge:` of a run is under 10 × the outside diameter of all that lies in it. 3 × where a bundle "
        "lies supported is printed, not checked.",
        why="At a hinge strands break one by one inside sound insulation. It fails now and then, long before for good.",
        remedy="Let it bend round a larger radius, `hinge: 45 mm`; lay fewer or thinner wires there, `by: [belly]`, "
        "`lead: servo-24`; or clamp the bundle so that it twists along the hinge instead of bending.",
        source="NASA-STD-8739.4, 7.3.21, long-term; US Army TM 1-1500-204-23-4: 10 × the outside diameter. Twisting "
        "at hinged panels: FAA AC 43.13-1B, 11-115.",
    ),
    "crimp-fit": Explanation(
        when="A contact that the builder crimps is given a gauge outside its `takes:` or insulation thicker than its "
        "`over:`. Plugs that came on a lead are not judged.",
        why="A thin wire pulls out of a large barrel, a thick one leaves strands out: both ring out well.",
        remedy="Take wire that the contact takes, `lead: servo-22`, or another contact: in parts.yaml its `contact:` "
        "says `takes: [24 AWG, 18 AWG]` and `over: 2.2 mm`, as its maker does.",
        source="Gauges are the contact maker's. Common practice, no source.",
    ),
    "swap": Explanation(
        when="Two halves have one `shell:` and one `keyed:`, one carries pins, the other sockets, and the wrong half "
        "lies in a straight line within the `reach:` of the loose one (of two loose halves, of both added).",
        why="At the field, in a hurry, left is plugged into right: ailerons reversed, or a pack on a signal.",
        remedy="Use keyed shells, `keyed: A` and `keyed: B`; a shorter tail, `reach: 80 mm`; pins on the other half of "
        "one joint, `contacts: pins`; another `shell:` or `place:`. A stripe of colour does not prevent it.",
        source="FAA AC 43.13-1B, 11-235b: neighbours must not mate; colour stripes are not relied on.",
    ),
    "live-pins": Explanation(
        when="The half of a disconnect on the supply side carries pins, or either half does where both are fed, or "
        "the plug of a pack does. Receivers and outlets may.",
        why="Bare pins with a pack behind them touch a pushrod or each other as the wing comes off: sparks, burnt "
        "contacts, a shorted lithium pack.",
        remedy="Turn the joint round, `fixed: {place: left-root, contacts: sockets}`; give the pack a `plug:` with "
        "sockets. Till then cap it, and unplug packs first.",
        source=PRACTICE,
    ),
    "spare-contacts": Explanation(
        when="Fewer contacts of a disconnect are free than `limits: spare_contacts`; unsaid, 2 up to 25 contacts, 4 "
        "up to 100, 6 above. Plain joints of plugs are left out: their contacts have roles.",
        why="Next season's light or sensor needs a way across the wing joint, and a damaged contact another hole. "
        "Without a spare both halves are crimped anew.",
        remedy="Choose a larger `shell:`, share poles with `commons:`, or ask for fewer, "
        "`limits: {spare_contacts: 1}`. Or `accept: {spare-contacts: nothing more will come}`.",
        source="FAA AC 43.13-1B, 11-234.",
    ),
    "failsafe": Explanation(
        when="No circuit to an engine unit, speed controller or smoke says `failsafe: off` or `failsafe: idle`.",
        why="On hold, a lost signal leaves the engine at the throttle that it had: the aircraft flies on without a "
        "pilot, or a propeller runs among people.",
        remedy="Say it on the circuit that carries the throttle, `failsafe: off`, set it in every receiver, and test "
        "it: engine stopped first, then transmitter off and the aircraft held. For a turbine the maker's "
        "instructions and the club's rules come first.",
        source="Club pages that cite the UK's CAA and BMFA: throttle at least to idle, electric off. MAAC turbine "
        "guidelines: engine shut down within 2 s.",
    ),
    "gear-limit": Explanation(
        when="Neither `gear: limit` nor `gear: stop` is said; the limit is under the longer stroke; it is over the "
        "suggested one by more than 2 s and more than a quarter; or the stop is outside 1.3 × working to 0.8 × stall. "
        "Suggested: the next whole second at or over both 1.1 × and 1 s more than the longer stroke.",
        why="A limit under the stroke leaves the leg half-way, and the aircraft lands on it. One far over lets a "
        "stalled leg cook. A stop that working trips halts a good leg; one above stall never acts.",
        remedy="Time the strokes at the lowest pack volts with wheels on, hands clear of legs and doors: "
        "`gear: {up: 13.4 s, down: 12.1 s, limit: 15 s, stop: 2.5 A}`. Set the controller alike, as its maker "
        "allows.",
        source=PRACTICE,
    ),
    "antennas": Explanation(
        when="Two antennas of one receiver have the same `lies:`; those of two receivers have fewer than three "
        "different ones; or an antenna's `lead:` is shorter than its route over the runs.",
        why="Antennas that lie alike go blind together: a turn points them all at the transmitter and the signal is "
        "gone. A coax that is pulled or bent sharply fails unseen.",
        remedy="Lay one across the other, `lies: crosswise`, the second receiver's pair upright as well, "
        "`lies: upright`; a nearer `place:` for a short `lead:`. Keep the last 30 mm clear of carbon, packs and "
        "wires.",
        source=PRACTICE,
    ),
}


def explain(name: str) -> str:
    """Return what is shown of one finding, in lines of 80 columns.

    Raises:
        KeyError: no finding has this name.

    """
    kind, explanation = KINDS[name], EXPLANATIONS[name]
    lines = _wrap(f"{name} ({kind.level}, stands on {kind.stands_on}): {kind.meaning}", first="")
    for title, text in (
        ("When", explanation.when),
        ("Why it matters", explanation.why),
        ("How to remedy it", explanation.remedy),
        ("Source", explanation.source),
    ):
        lines += ["", title, *_wrap(text, first="  ")]
    return "\n".join(lines)


def _wrap(text: str, first: str) -> list[str]:
    held = _TOGETHER.sub(lambda match: match[0].replace(" ", _NO_BREAK), text)
    lines = textwrap.wrap(held, _COLUMNS, initial_indent=first, subsequent_indent="  ", break_on_hyphens=False)
    return [line.replace(_NO_BREAK, " ") for line in lines]
