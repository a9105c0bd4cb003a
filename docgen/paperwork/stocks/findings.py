"""The kinds of findings that labels and what they are printed on make."""

from __future__ import annotations

from docgen.basics.findings import Kind, Level

TUBE = Kind(
    name="tube",
    level=Level.CAUTION,
    stands_on="circuit",
    meaning="No tube passes the wires and grips them.",
    when="No tube is as supplied at least 1.1 × what it slides over and recovered at most 0.9 × what it grips. "
    "`labels: fit` says what it slides over: wires (`before`) or contact and plug (`after`).",
    why="A label that no longer goes over the crimped contact, or one that turns and slides away on the wire.",
    remedy="Fit before crimping, `labels: {fit: before}`, or add a tube of a higher ratio to `tubes:`, "
    "`expanded: 6.4 mm`, `recovered: 2.1 mm`. Shrink before packs are aboard, and as the maker of the heat gun "
    "says.",
    source="NASA-STD-8739.4, 9.8.1: larger than what it covers, then tight. The tenths: common practice, no source.",
)

TYPE = Kind(
    name="type",
    level=Level.CAUTION,
    stands_on="circuit",
    meaning="A label's text can't be printed legibly.",
    when="Capitals would be under 1.6 mm high once the tube has shrunk. First the far end, then marks, then place are "
    "left out until the function is printed alone; if that does not fit, no label. `labels: least_type` changes the "
    "1.6 mm.",
    why="Print shrinks with its tube. A label that can't be read in the wing is as good as none.",
    remedy="Shorten the circuit's `label: AIL L` or the names of places and equipment; or, with good eyes, "
    "`labels: {least_type: 1.3 mm}`.",
    source="NUREG-0700, 11.4.1.5-1: at least 0.004 of the reading distance, which is 1.6 mm at 400 mm.",
)

STOCK = Kind(
    name="stock",
    level=Level.CAUTION,
    stands_on="layout",
    meaning="A stock does not fit its paper or its labels.",
    when="Labels of a layout run into each other or over the paper's edge, or a tube pressed flat (half its "
    "expanded circumference) is wider than the label. It is an error where a stock goes through a printer that may "
    "fuse print with heat, about 200 °C, and does not say that it stands that.",
    why="Text is printed beside the tube, and a sheet of labels is wasted. Tube shrinks inside a laser printer and "
    "ruins it.",
    remedy="Print on a stock that holds it: `docgen stock` lists them, `--stock` chooses. Or remedy the layout's "
    "sizes by a ruler, or choose narrower tubes, `expanded: 4.8 mm`. Tube says `printer: thermal transfer` or "
    "`printer: tape`; paper and film what their maker says, `limit: 210 °C`.",
    source="Geometry: what is printed must lie on the paper. Heat of printers: common practice, no source.",
)
