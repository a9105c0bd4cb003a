"""Letters for colours."""

# IEC 60757, from its reprint GOST 28763-90 (IEC 757:1983), in the order of its table.
LETTERS = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
    "GNYE": "green-and-yellow",
}

# Two colours on one item are joined in the order of the table; several items are joined by plus. The same.
RED_AND_BLUE_ITEM = "RDBU"
CABLE_OF_FIVE = "BK+BK+BN+BU+GNYE"

# The resistor code, digits 0 to 9. A technical article gives 0, 1, 3, 7, 8 and 9; the others are from memory.
RESISTOR_ORDER = ("BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH")
