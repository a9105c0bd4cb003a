"""Sizes of heat-shrink tubing, and worked examples of choosing and printing on it."""

# Thin wall, 2:1, by expanded inside diameter: (recovered inside diameter, recovered wall) [mm].
# Data sheet of a trade tubing that declares conformance to the AMS-DTL-23053/5 class.
THIN_WALL_MM = {
    1.6: (0.8, 0.40),
    2.4: (1.2, 0.48),
    3.2: (1.6, 0.48),
    4.8: (2.4, 0.48),
    6.4: (3.2, 0.56),
    9.5: (4.8, 0.62),
    12.7: (6.4, 0.62),
    19.1: (9.5, 0.69),
    25.4: (12.7, 0.89),
    38.1: (19.1, 1.00),
    50.8: (25.4, 1.10),
}
# The size under it: the trade's 3/64 in, 0.046 in to 0.023 in with a wall of 0.016 in. From memory.
SMALLEST_THIN_WALL_MM_FROM_MEMORY = {1.2: (0.6, 0.41)}
# Metric sizes sold beside them, half as wide recovered: common practice, no source.
METRIC_THIN_WALL_MM = (1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 12, 13, 16, 19, 25)
# How far its walls differ from the remembered nominal ones: the uncertainty of a wall [mm].
WALL_UNCERTAINTY_MM = 0.08

# 3:1, lined with adhesive, by expanded inside diameter: (recovered inside diameter, recovered wall) [mm].
# From memory, the walls with low confidence: the trade's metric series.
LINED_MM_FROM_MEMORY = {
    3.2: (1.0, 1.0),
    4.8: (1.5, 1.1),
    6.4: (2.0, 1.25),
    7.9: (2.7, 1.4),
    9.5: (3.0, 1.4),
    12.7: (4.0, 1.7),
    15.0: (5.0, 1.8),
    19.1: (6.0, 2.0),
    24.0: (8.0, 2.3),
    25.4: (8.0, 2.4),
}

# What thin wall of polyolefin stands [°C]: a shop's table of standard wall tubing, M23053/5 class 1, 2 and 3. FAA
# AC 43.13-1B calls sleeves of 135 °C standard.
THIN_WALL_LIMIT_C = 135
# What tubing lined with adhesive stands [°C]: common practice, no source.
LINED_LIMIT_C = 110

# Flat width and inside diameter [mm], W = π·D/2: three distributors' pages give the factor, the figures by
# hand.
FLAT_WIDTHS_MM = ((25.4, 39.90), (1.910, 3.0), (25.46, 40.0))

# A round object of 7 mm: the tubes of the table that pass and grip it (expanded > 7 > recovered); the least
# of them is 9.5. The rule is two distributors'.
FIT_7_MM = (9.5, 12.7)

# Print on a sleeve shrinks with it: 3.0 mm on 4.8 mm over a wire of 2.6 mm, 3.0 × 2.6 / 4.8 by hand.
PRINTED_MM = 3.0
PRINTED_ON_MM = 4.8
OVER_MM = 2.6
PRINT_AFTER_MM = 1.625
