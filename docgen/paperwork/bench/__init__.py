"""Order of work and ring-out sheet."""
