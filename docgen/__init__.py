"""Printable shop documents for the wiring harness of a large radio-controlled aircraft."""

__version__ = "0.1.0"
