"""Outlines in, templates and cut files out."""
