"""What sleeves over bundles take and stand."""

# Usable diameters of expandable braid over its nominal one, "about". A maker's guide.
BRAID_RANGE = (0.6, 1.8)

# What glass sleeve coated with silicone stands lastingly [°C]. Several makers' articles.
COATED_GLASS_LIMIT_C = 260

# Spiral wrap by nominal diameter [in]: the least and the greatest bundle [in]. From memory.
SPIRAL_IN_FROM_MEMORY = {1 / 8: (1 / 16, 1 / 2), 1 / 4: (3 / 16, 2), 3 / 8: (5 / 16, 3)}
