"""Drawings in one style: a top, a unit, a strip, as SVG."""
