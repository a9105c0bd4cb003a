"""The layouts' own choices: common practice, no source. They are kept twice, so that a slip in either is noticed."""

from typing import NamedTuple


class Sheet(NamedTuple):
    """Paper and how it lies, cells across and down, corner of the first, pitch, clear at ends and edges, margin.

    `label` are the lengths of what the stock's kind says of a label, in its order; all in mm.
    """

    paper: str
    lying: bool
    cells: tuple[int, int]
    first: tuple[float, float]
    pitch: tuple[float, float]
    label: tuple[float, ...]
    clear: tuple[float, float]
    margin: float = 10


_TUBE = (2, 0.4)
SHEETS = {
    # Pieces of one tube, 50 mm long, as wide as the tube is flat.
    "carrier-2.4": Sheet("A4", False, (3, 20), (15, 24), (65, 7.3), (50, 3.8), _TUBE),
    "carrier-3.2": Sheet("A4", False, (3, 20), (15, 24), (65, 8.6), (50, 5.1), _TUBE),
    "carrier-4.8": Sheet("A4", False, (3, 20), (15, 24), (65, 11.1), (50, 7.6), _TUBE),
    "carrier-6.4": Sheet("A4", False, (3, 16), (15, 24), (65, 13.6), (50, 10.1), _TUBE),
    "carrier-9.5": Sheet("A4", False, (3, 12), (15, 24), (65, 18.5), (50, 15), _TUBE),
    "carrier-12.7": Sheet("A4", False, (3, 9), (15, 24), (65, 23.5), (50, 20), _TUBE),
    # In rows: strips of any tube, and of paper; cells only tell where a sheet used before is free.
    "carrier-a4": Sheet("A4", False, (3, 39), (10.5, 36), (63, 5.3), (63,), (2.5, 0.4)),
    "carrier-letter": Sheet("US Letter", False, (3, 39), (13.45, 36), (63, 5.3), (63,), (2.5, 0.4)),
    "strips-a4": Sheet("A4", False, (5, 39), (11, 36), (39, 5.3), (32,), (0.8, 0.3)),
    "strips-letter": Sheet("US Letter", False, (5, 39), (13.95, 36), (39, 5.3), (32,), (0.8, 0.3)),
    # Length, what is printed, the film that goes over it.
    "wraps-a4": Sheet("A4", False, (3, 5), (22, 24), (58, 43), (50, 12, 28), (1, 0.5)),
    "wraps-letter": Sheet("US Letter", False, (3, 5), (24.95, 24), (58, 43), (50, 12, 28), (1, 0.5)),
    # Length and width of a half, what lies round the wire.
    "flags-a4": Sheet("A4", False, (2, 15), (13, 24), (96, 14), (35, 12, 18), (1, 0.8)),
    "flags-letter": Sheet("US Letter", False, (2, 15), (15.95, 24), (96, 14), (35, 12, 18), (1, 0.8)),
}

# Paper and margin [mm] of pages.
PAGES = {"list-a4": ("A4", 10), "list-letter": ("US Letter", 10)}

# Flat widths of continuous tape [mm], how much it shrinks, least and most length of a label, clear at ends and edges.
TAPES_MM = (6, 9, 12, 18, 24)
TAPE_SHRINKS, TAPE_LENGTHS_MM, TAPE_CLEAR_MM = "3:1", (30, 80), (2, 0.8)

# What sheets of self-adhesive paper stand, so that a laser printer may fuse print on them.
SELF_ADHESIVE_C = "210 °C"
