"""Measuring sheet."""
