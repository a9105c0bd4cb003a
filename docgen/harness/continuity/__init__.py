"""Tell what rings out to what, with how many ohms, and what must not."""
