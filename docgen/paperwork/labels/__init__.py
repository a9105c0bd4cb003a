"""Wire labels: what they say, how that is set, and how they go on a stock."""
