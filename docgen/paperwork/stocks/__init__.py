"""Read the layouts of sheets, tapes and labels, and what a printer does to a page."""
