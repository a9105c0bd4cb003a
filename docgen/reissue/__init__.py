"""Take what was issued and what is now; return what is kept, what to print again and what to do."""
