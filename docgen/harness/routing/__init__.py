"""Take places, runs and circuits as written; return runs with lengths, halves, and every segment with its route."""
