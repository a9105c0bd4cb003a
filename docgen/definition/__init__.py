"""Take the builder's text files and return a checked definition."""
