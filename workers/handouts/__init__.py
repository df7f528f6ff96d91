"""Handouts, run sheets and bundles."""
