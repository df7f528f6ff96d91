"""Exact lengths: numbers, notation, rounding."""
