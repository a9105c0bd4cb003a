"""Set texts and lines on pages, and paint them; nothing here knows the harness."""
