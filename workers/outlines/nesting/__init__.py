"""Shapes laid on mats by their outlines: closer than their boxes allow, and the same every time."""
