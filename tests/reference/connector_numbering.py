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
