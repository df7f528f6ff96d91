"""How cloth is cut, in the words that the cutting order and the step lists share, so that they cannot disagree."""

from __future__ import annotations

from service.craft.language import mark, phrase
from service.craft.units.base import DIAMONDS, ONCE, REVERSED, TWICE

ROTARY_CAUTION = mark(
    "Rotary cutter: close the guard after every cut, cut away from your body, keep fingers off the edge of the ruler, "
    "wear shoes, and let a falling cutter fall."
)
"""Basis: extension-service and school safety sheets (4-H clothing leaflets); worded by us."""

STRAIGHTEN = mark("Fold the {cloth} selvedge to selvedge and cut one end straight, square to the fold.")
STRAIGHTEN_REASON = mark("Every strip is measured from that edge, so it has to be square to the fold.")

FOLLOW_FIRST = mark(
    "Cut the {cloth} line by line in its cutting order: all strips first, then the pieces across them, the largest "
    "first. Diagonals are cut last."
)
FOLLOW = mark("Cut the {cloth} line by line in its cutting order.")
FIRST_REASON = mark(
    "What is left of a wide strip still makes small pieces; a narrow one makes nothing larger."
)
LATER_REASON = mark("One cloth at a time, its sizes are not mixed up with those of another.")

ROUGH = mark("With scissors cut a rough rectangle for each piece, of {cloths}, as the cutting order says.")
ROUGH_REASON = mark("It is larger than the piece on every side, so that the piece may lie a little off.")

ACROSS_HINT = mark("Turn each strip and cut the pieces across it, each measured from the last cut.")
"""For those who are new to it."""


def say_then(then: str) -> str:
    """What is done with a cut, in words; a strip set or a template says it itself.

    >>> say_then(ONCE)
    'cut once on the diagonal'
    """
    return phrase(then) if then in (ONCE, TWICE, DIAMONDS) else then


def say_template(template: str) -> str:
    """The letter of a template, and whether it is turned over.

    >>> say_template("A"), say_template("A" + REVERSED)
    ('A', 'A reversed')
    """
    letter = template.removesuffix(REVERSED)
    return phrase("{letter} reversed", letter=letter) if letter != template else letter


NEXT = "; "


def and_then(first: str, then: str) -> str:
    """What is done with a piece of cloth first, and what then, if anything: a need's `then`.

    >>> and_then("join 2", ONCE), and_then("join 2", "")
    ('join 2; cut once on the diagonal', 'join 2')
    """
    return f"{first}{NEXT}{say_then(then)}" if then else first
