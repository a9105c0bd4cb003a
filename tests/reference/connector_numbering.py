"""How the contacts of multi-contact connectors are numbered and where they stand."""

# D-shaped shells of standard density, by number of contacts: how many stand in the long row and the short
# one. Several trade pages agree.
D_ROWS = {9: (5, 4), 15: (8, 7), 25: (13, 12), 37: (19, 18)}

# Pitch within a row, offset of the short row, distance of the rows [mm]. An open library of board footprints.
D_PITCH_MM = 2.77
D_STAGGER_MM = 1.385
D_ROW_SPACING_MM = 2.84

# Positions [mm] at the mating face of the part with the pins, long row on top, from contact 1 to the right
# and down: pads of the same library's vertical 9-way and 37-way parts with pins.
D_9_PINS_MM = {1: (0.0, 0.0), 2: (2.77, 0.0), 5: (11.08, 0.0), 6: (1.385, 2.84), 9: (9.695, 2.84)}
D_37_PINS_MM = {1: (0.0, 0.0), 19: (49.86, 0.0), 20: (1.385, 2.84), 37: (48.475, 2.84)}

# The part with the sockets: the same with x to the other side. The library's vertical 9-way part with
# sockets.
D_9_SOCKETS_MM = {1: (0.0, 0.0), 2: (-2.77, 0.0), 6: (-1.385, 2.84)}

# Working current of one contact [A]. A distributor's listing of a 15-way part with sockets.
D_CONTACT_CURRENT_A = 5

# Every contact of the shells of 9, 15 and 25 at the mating face of the part with the pins, long row on top: from
# contact 1 to the right along each row, and how far the row is below the first [mm]. The open standard of these
# shells is MIL-DTL-24308 (its name is from memory, its drawings were not read); the figures are written out by the
# rule of the library's 9- and 37-way parts: 2.77 (n - 1) in the long row, 1.385 + 2.77 k in the short one.
D_ROWS_OF_PINS_MM = {
    9: (
        (0.0, {1: 0.0, 2: 2.77, 3: 5.54, 4: 8.31, 5: 11.08}),
        (2.84, {6: 1.385, 7: 4.155, 8: 6.925, 9: 9.695}),
    ),
    15: (
        (0.0, {1: 0.0, 2: 2.77, 3: 5.54, 4: 8.31, 5: 11.08, 6: 13.85, 7: 16.62, 8: 19.39}),
        (2.84, {9: 1.385, 10: 4.155, 11: 6.925, 12: 9.695, 13: 12.465, 14: 15.235, 15: 18.005}),
    ),
    25: (
        (
            0.0,
            {1: 0.0, 2: 2.77, 3: 5.54, 4: 8.31, 5: 11.08, 6: 13.85, 7: 16.62}
            | {8: 19.39, 9: 22.16, 10: 24.93, 11: 27.7, 12: 30.47, 13: 33.24},
        ),
        (
            2.84,
            {14: 1.385, 15: 4.155, 16: 6.925, 17: 9.695, 18: 12.465, 19: 15.235}
            | {20: 18.005, 21: 20.775, 22: 23.545, 23: 26.315, 24: 29.085, 25: 31.855},
        ),
    ),
}
