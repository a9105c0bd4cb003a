"""Sizes and resistances of wires from published tables, and the worked examples printed with them."""

# The gauge rule: No. 36 is 0.0050 in, No. 0000 is 0.4600 in, 39 steps of equal ratio 1.12293 between them.
# Trade conductor-data pages agree on it; that it is the wording of ASTM B258 is from memory.
GAUGE_36_DIAMETER_IN = 0.0050
GAUGE_0000_DIAMETER_IN = 0.4600
GAUGE_RATIO = 1.12293

# Volume conductivity of standard annealed copper, 58 m/(ohm mm²), as resistivity [ohm mm²/m].
# Industrial Power Engineering & Applications Handbook, p. 970.
COPPER_OHM_MM2_PER_M = 0.017241

# Solid annealed copper at 20 °C by gauge: (diameter [in], area [circular mil], resistance [ohm/1000 ft]).
# Georgia State University, HyperPhysics, wire gauge table, after Floyd, Electric Circuit Fundamentals.
SOLID_COPPER = {
    10: (0.10189, 10381, 0.9989),
    12: (0.0808, 6529, 1.588),
    14: (0.06408, 4106.8, 2.525),
    16: (0.05082, 2582.9, 4.016),
    18: (0.0403, 1624.3, 6.385),
    20: (0.03196, 1021.5, 10.15),
    22: (0.02535, 642.4, 16.14),
    24: (0.0201, 404.0, 25.67),
    26: (0.01594, 254.1, 40.81),
    28: (0.01264, 159.8, 64.9),
    30: (0.01002, 100.5, 103.2),
}

# Stranded tinned copper, nominal, at 20 °C by gauge and strands [ohm/1000 ft].
# A trade conductor-data page; nominal, not maximum.
NOMINAL_TINNED_OHM_PER_1000_FT = {
    (30, "7/38"): 107.7,
    (28, "7/36"): 68.22,
    (28, "19/40"): 67.69,
    (26, "7/34"): 42.61,
    (26, "19/38"): 40.07,
    (24, "7/32"): 26.25,
    (24, "19/36"): 25.38,
    (22, "7/30"): 16.72,
}

# Aircraft wire, tin-plated copper at 20 °C by gauge: greatest resistance [ohm/1000 ft].
# FAA AC 43.13-1B, 1998 with change 1, table 11-9, p. 11-23.
TABLE_11_9_OHM_PER_1000_FT = {
    24: 28.40,
    22: 16.20,
    20: 9.88,
    18: 6.23,
    16: 4.81,
    14: 3.06,
    12: 2.02,
    10: 1.26,
    8: 0.70,
    6: 0.44,
    4: 0.28,
    2: 0.18,
}

# The same table: current [A] by gauge for wires that stand 105, 150 and 200 °C.
TABLE_11_9_CURRENT_A = {
    24: (2.5, 4, 5),
    22: (3, 5, 6),
    20: (4, 7, 9),
    18: (6, 9, 12),
    16: (7, 11, 14),
    14: (10, 14, 18),
    12: (13, 19, 25),
    10: (17, 26, 32),
    8: (38, 57, 71),
    6: (50, 76, 97),
    4: (68, 103, 133),
    2: (95, 141, 179),
    1: (113, 166, 210),
}

# Voltage drop: (resistance [ohm/ft], way [ft], current [A], drop [V]).
# FAA AC 43.13-1B tables 11-7 and 11-8, p. 11-22. The drops are its products, worked out again: it prints 3.60
# in the second row and .366 in the last, both of which its own factors contradict.
DROP_EXAMPLES = (
    (0.00044, 107, 20, 0.942),
    (0.00202, 88, 20, 3.555),
    (0.00306, 100, 20, 6.120),
    (0.00126, 273, 20, 6.880),
    (0.00126, 156, 20, 3.931),
    (0.00126, 19.5, 20, 0.491),
)

# Metric wires of many tinned strands (class 5) at 20 °C by section [mm²]: greatest resistance [ohm/km].
# IEC 60228, table for class 5, from memory. It begins at 0.5 mm².
CLASS_5_TINNED_OHM_PER_KM_FROM_MEMORY = {
    0.5: 40.1,
    0.75: 26.7,
    1.0: 20.0,
    1.5: 13.7,
    2.5: 8.21,
    4.0: 5.09,
}

# Density of copper [g/cm³]: NBS Handbook 100, from memory; the table of solid copper gives the same.
COPPER_G_PER_CM3 = 8.89
