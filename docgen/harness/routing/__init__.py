"""Take places, runs and circuits and find the route of every segment."""
