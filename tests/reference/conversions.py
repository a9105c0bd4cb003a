"""Factors between units that are exact by definition."""

# International yard and pound agreement, 1959.
INCH_MM = 25.4
FOOT_MM = 304.8
POUND_G = 453.59237
