"""How high characters must be to be read."""

# Least and preferred height as a share of the viewing distance, 15 and 20 minutes of arc.
# NUREG-0700 revision 3, 11.4.1.5-1.
LEAST_OF_DISTANCE = 0.004
PREFERRED_OF_DISTANCE = 0.006

# Height [mm] of a visual angle at a distance [mm], 2·D·tan(a/2) by hand: (distance, minutes of arc, height).
HEIGHTS_MM = ((350, 16, 1.63), (500, 15, 2.18), (710, 16, 3.304), (1000, 20, 5.82))

# Capitals of 8 point type where capitals are 0.716 of the size: 8 × 25.4/72 × 0.716 by hand. The 0.716 is
# from memory; a typeface's own figure is read from it.
CAPITALS_8_POINT_MM = 2.02

# Capital heights of technical lettering [mm], each √2 times the one before. ISO 3098.
SERIES_MM = (1.8, 2.5, 3.5, 5.0, 7.0)
