"""What a project chooses about cutting its cloth: which plan, the shop's steps, how long strips come about."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from service.craft.language import say_number
from service.craft.measure import MM_PER_INCH

SIMPLE, TIGHT = PLANS = ("simple", "tight")
"""The plan that is easiest to cut, and the one that takes least cloth."""

STRAIGHT_JOIN, DIAGONAL_JOIN = JOINS = ("straight", "diagonal")
"""How strips shorter than wanted are joined end to end."""

ACROSS, ALONG, LEAST_CLOTH = STRIP_CUTS = ("across the width", "along the length", "least cloth")
"""Which way of the cloth a long strip is cut."""

YARD = Fraction(36)
METRE = 1000 / MM_PER_INCH

BUYING_STEPS = {"1/8 yd": YARD / 8, "1/4 yd": YARD / 4, "0.1 m": METRE / 10, "0.25 m": METRE / 4}
"""Inches in the steps that shops cut cloth in. Eighths are usual, some writers count in quarters of a yard:
fourpinesquilting.blogspot.com 2011/11."""

YARD_STEPS = frozenset(step for word, step in BUYING_STEPS.items() if word.endswith("yd"))

DEFAULT_STEP = {"in": "1/8 yd", "mm": "0.1 m", "cm": "0.1 m"}

DEFAULT_STRAIGHTENING = {"in": Fraction(1), "mm": 25 / MM_PER_INCH, "cm": 25 / MM_PER_INCH}
"""Inches lost where the end of a length is cut straight: 1 in, or 25 mm. Common practice, no source (1 to 2 in)."""

MOST_STRAIGHTENING = YARD

WORTH_KEEPING = Fraction(5, 2)
"""Inches that both sides of a leftover must have to be named. Common practice, no source: the smallest squares sold."""


ANY_TURN, QUARTER_TURNS = TURNS = ("any", "quarter turns")
"""How pieces may be turned on a mat. Web holds their edges, so any turn will do; quarter turns keep to the grain."""

MAT_SPACING = 5 / MM_PER_INCH
"""Inches between pieces on a mat. Common practice, no source: cloth may tear where two cuts come nearer than 5 mm."""

MAT_MARGIN = 6 / MM_PER_INCH
"""Inches kept free along the edges of a mat. Common practice, no source."""

MOST_MAT_SPACING = Fraction(2)


@dataclass(frozen=True)
class MatChoices:
    """How pieces lie on a cutting mat: inches between them and along its edges, and how they may be turned.

    Cloth with a direction is never turned, whatever `turns` says.
    """

    spacing: Fraction = MAT_SPACING
    margin: Fraction = MAT_MARGIN
    turns: str = ANY_TURN


@dataclass(frozen=True)
class CuttingChoices:
    """`plan` is empty where the document leaves it to the price; the rest holds for cloths that say nothing else.

    `buying_step` and `straightening` are in inches, as are the sides that a leftover `worth_keeping` must have;
    `stacked`: pieces lower than their strip may be cut from it one above the other; `mat` is for cutting machines.
    """

    plan: str = ""
    join: str = STRAIGHT_JOIN
    buying_step: Fraction = BUYING_STEPS["1/8 yd"]
    straightening: Fraction = DEFAULT_STRAIGHTENING["in"]
    worth_keeping: Fraction = WORTH_KEEPING
    stacked: bool = False
    mat: MatChoices = MatChoices()


def say_in_steps(length: Fraction, step: Fraction) -> str:
    """A bought length (inches) as a shop says it: in yards where it cuts parts of a yard, else in metres.

    >>> say_in_steps(Fraction(81, 2), BUYING_STEPS["1/8 yd"]), say_in_steps(METRE * 3 / 4, BUYING_STEPS["0.25 m"])
    ('1 1/8 yd', '0.75 m')
    """
    if step in YARD_STEPS:
        whole, rest = divmod(length / YARD, 1)
        parts = [str(whole)] if whole or not rest else []
        return " ".join([*parts, *([str(rest)] if rest else []), "yd"])
    return f"{say_number(float(length / METRE))} m"
