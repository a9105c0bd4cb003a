"""Contrast of colours and which text colour stands out."""

# Luminance and contrast by the formulas of WCAG 2.1 (relative luminance, contrast ratio): a textbook's
# examples; below 0.04045 a channel counts a 12.92th: 10 / 255 / 12.92 by hand.
LUMINANCE = {"#0A0A0A": 0.00304, "#0000FF": 0.0722, "#FF0000": 0.2126, "#FFFFFF": 1.0, "#000000": 0.0}
CONTRASTS = (("#0000FF", "#FFFFFF", 8.59), ("#FF0000", "#0000FF", 2.15), ("#000000", "#FFFFFF", 21.0))

# The same formulas by hand for some swatches, against the better of black and white.
TEXT_COLOURS = {
    "#FF0000": ("black", 5.25),
    "#C00000": ("white", 6.48),
    "#808080": ("black", 5.32),
    "#008000": ("white", 5.14),
    "#7B3F00": ("white", 8.22),
    "#FF8000": ("black", 8.34),
    "#FFFF00": ("black", 19.56),
    "#800080": ("white", 9.42),
    "#FFC0CB": ("black", 13.65),
    "#40E0D0": ("black", 12.79),
}

# Contrast that text needs, normal size, and what black or white always reaches, sqrt(1.05/0.05). WCAG 2.1,
# 1.4.3.
LEAST_CONTRAST = 4.5
ALWAYS_REACHED = 4.583
