"""Take the harness as built and return documents: what they hold, pages of marks in mm, files."""
