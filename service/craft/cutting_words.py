"""How cloth is cut, in the words that the cutting order and the step lists share, so that they cannot disagree."""

from __future__ import annotations

ROTARY_CAUTION = (
    "Rotary cutter: close the guard after every cut, cut away from your body, keep fingers off the edge of the ruler, "
    "wear shoes, and let a falling cutter fall."
)
"""Basis: extension-service and school safety sheets (4-H clothing leaflets); worded by us."""

STRAIGHTEN = "Fold the {cloth} selvedge to selvedge and cut one end straight, square to the fold."
STRAIGHTEN_REASON = "Every strip is measured from that edge, so it has to be square to the fold."

FOLLOW_FIRST = (
    "Cut the {cloth} line by line in its cutting order: all strips first, then the pieces across them, the largest "
    "first. Diagonals are cut last."
)
FOLLOW = "Cut the {cloth} line by line in its cutting order."
FIRST_REASON = "What is left of a wide strip still makes small pieces; a narrow one makes nothing larger."
LATER_REASON = "One cloth at a time, its sizes are not mixed up with those of another."

ROUGH = "With scissors cut a rough rectangle for each piece, of {cloths}, as the cutting order says."
ROUGH_REASON = "It is larger than the piece on every side, so that the piece may lie a little off."

ACROSS_HINT = "Turn each strip and cut the pieces across it, each measured from the last cut."
"""For those who are new to it."""
