"""Pin-out cards of halves and equipment."""
