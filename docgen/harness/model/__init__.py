"""What a harness is made of, as values that the rooms pass on; they hold facts and what follows from those alone."""
