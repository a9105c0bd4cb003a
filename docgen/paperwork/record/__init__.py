"""The record, and what check shows, in plain text and as data."""
