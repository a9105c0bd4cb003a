"""Take the harness as built and return documents: what they hold, pages of ink in mm, files."""
