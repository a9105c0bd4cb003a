"""The three-wire plug of servos."""

# Contacts in the order across the plug, 0.1 in apart. Positive is in the middle, so that a reversed plug does
# no harm. A model aircraft association's magazine (FAQ Q-94); Robot Builder's Bonanza, figure 23-6.
ROLES_ACROSS = ("signal", "positive", "negative")
PITCH_MM = 2.54

# Colour sets (negative, positive, signal). Trade tables.
COLOUR_SETS = (("BN", "RD", "OG"), ("BK", "RD", "WH"), ("BK", "RD", "YE"))

# What a 0.1 in contact carries lastingly and briefly [A]. One servo maker's note.
CONTACT_CURRENT_A = (3.5, 5.0)
