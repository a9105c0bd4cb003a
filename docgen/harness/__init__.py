"""Take a checked definition and return the harness as built."""
