"""Sizes of paper and cards [mm], and what a PDF calls them [1/72 in]."""

# ISO 216.
ISO_216_MM = {"A3": (297, 420), "A4": (210, 297), "A5": (148, 210), "A6": (105, 148), "A7": (74, 105)}
# 8.5 × 11 in.
US_LETTER_MM = (215.9, 279.4)
# ISO/IEC 7810, ID-1.
IDENTITY_CARD_MM = (85.60, 53.98)

# A user space unit is 1/72 in (ISO 32000-1, 8.3.2.3); by hand 210 × 72 / 25.4 and so on.
POINTS = {"A4": (595.276, 841.890), "A5": (419.528, 595.276), "US Letter": (612.0, 792.0)}
