"""Stitch files: passes, record format, preview, report."""
