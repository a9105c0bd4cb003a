"""Everything that a harness as built is held to: one file for each finding, with its explanation and what finds it."""
