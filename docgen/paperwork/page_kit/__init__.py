"""Take what documents say, as tables, lines and cards, and lay it on sheets: the kit decides where a page breaks."""
