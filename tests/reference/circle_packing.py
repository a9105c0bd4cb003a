"""Circles packed into a circle: diameter of the smallest circle round equal circles of diameter 1."""

import math

# Encyclopaedia table "circle packing in a circle"; Friedman, Circles in Circles, agrees. Proved best up to 14
# and for 19; 15 to 18 and 20 are the best known.
SMALLEST_CIRCLE = {
    1: 1.0,
    2: 2.0,
    3: 2.1547,
    4: 2.4142,
    5: 2.7013,
    6: 3.0,
    7: 3.0,
    8: 3.3048,
    9: 3.6131,
    10: 3.813,
    11: 3.9238,
    12: 4.029,
    13: 4.2361,
    14: 4.328,
    15: 4.5214,
    16: 4.615,
    17: 4.792,
    18: 4.8637,
    19: 4.8637,
    20: 5.122,
}

# The closed forms of the same table.
CLOSED_FORMS = {
    3: 1 + 2 / math.sqrt(3),
    4: 1 + math.sqrt(2),
    5: 1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))),
    8: 1 + 1 / math.sin(math.pi / 7),
    9: 1 + math.sqrt(2 * (2 + math.sqrt(2))),
    11: 1 + 1 / math.sin(math.pi / 9),
    13: 2 + math.sqrt(5),
    18: 1 + math.sqrt(2) + math.sqrt(6),
}

# Mixed wires, 1.2·sqrt(Σ n·d²): 3 × 1.19, 5 × 1.40 and 1 × 1.65 mm; printed 4.95 mm, which rounds on the way,
# exactly 4.914 mm. A wiring data book.
MIXED_WIRES_MM = ((3, 1.19), (5, 1.40), (1, 1.65))
MIXED_DIAMETER_MM = 4.914
