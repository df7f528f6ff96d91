"""Words that every handout needs: what its terms mean, and what can hurt."""

from __future__ import annotations

import re
from collections.abc import Iterable

LEAD_CAUTION = (
    "Follow the instructions of whoever made your machine, cutter, iron, threads and sprays, and the rules of "
    "the place you work in. What is said here comes beside them, never instead."
)

CUTTING_CAUTIONS = (
    "Rotary cutter: close the guard after every cut. Cut away from your body, fingers off the edge of the ruler, "
    "shoes on. Let a falling cutter fall.",
    "Children cut only with an adult beside them.",
)
"""Basis: extension-service and school safety sheets (4-H clothing leaflets); worded by us."""

IRON_CAUTION = (
    "Iron: rest it on its heel, keep hands out of the steam, unplug it before you fill it and when you leave."
)

HOOP_CAUTION = (
    "Hoop machine: hands and face away from the moving frame and the needle. Stop the machine before you trim. "
    "Unplug it to change the needle."
)

FUSIBLE_CAUTION = (
    "Fusible web, sprays and synthetic cloth can give off fumes when heated or sprayed. Open a window, keep to "
    "the maker's temperature, and stop if you cough or wheeze."
)

GLOSSARY: dict[str, tuple[str, str]] = {
    "applique": (r"appliqu\w+", "Laying a shape of one cloth on another and sewing down its edge."),
    "backing": (r"backing", "The cloth of the back."),
    "baste": (r"bast(?:e|ing|ed)\b", "To hold layers together for a while with long stitches or pins."),
    "batting": (r"batting", "The soft layer between top and backing."),
    "bias": (r"bias", "The direction at 45 degrees to the weave. Cloth stretches most along it."),
    "binding": (r"binding", "The strip folded round the raw edge of the finished piece."),
    "block": (r"blocks?\b", "A repeat of the top, sewn of several units."),
    "border": (r"borders?\b", "Strips round the middle of the top."),
    "butted border": (
        r"butted",
        "A border whose second pair of strips runs over the ends of the first pair.",
    ),
    "corner square": (
        r"corner squares?",
        "A square sewn across a corner on its diagonal, trimmed and flipped open.",
    ),
    "cornerstone": (r"cornerstones?", "The square where two sashing strips meet."),
    "cut size": (r"cut sizes?|cut \d", "What you cut: the finished size and the seam allowances round it."),
    "fat quarter": (
        r"fat quarters?",
        "A piece of cloth half a width wide and half a yard (or half a metre) long.",
    ),
    "finished size": (r"finish(?:ed|es)", "What a patch measures when every seam round it is sewn."),
    "flying geese": (
        r"flying geese|goose",
        "A rectangle of one large triangle with a small one in each upper corner.",
    ),
    "grain": (r"grain", "The direction of the threads in the cloth, along the selvedge or across."),
    "half-square triangle": (r"half-square", "A square sewn of two equal triangles."),
    "hooping": (r"hoopings?\b|hoop it|\bhoop\b", "What is sewn without taking the cloth out of the hoop."),
    "mitred border": (r"mitred", "A border whose strips meet at the corners on the diagonal."),
    "nest": (
        r"\bnest",
        "Two seams that meet lie with their allowances to opposite sides, so that they lock.",
    ),
    "on point": (r"on point", "Standing on a corner, turned by 45 degrees."),
    "placement line": (
        r"placement line",
        "The line the hoop machine sews first. It shows where the piece goes.",
    ),
    "press": (r"\bpress", "To set the iron down and lift it. Sliding stretches the cloth."),
    "quarter-square triangle": (
        r"quarter-square",
        "A square sewn of four triangles that meet in its middle.",
    ),
    "sashing": (r"sashing", "Strips between blocks."),
    "satin edge": (r"satin", "Close zigzag stitches that cover a raw edge."),
    "scant seam": (
        r"scant",
        "A thread or two less than the full allowance. The fold takes up the difference.",
    ),
    "seam allowance": (r"allowances?", "The cloth between the seam and the cut edge."),
    "selvedge": (r"selvedges?", "The woven edge on both sides of the cloth. Cut it off."),
    "setting triangle": (
        r"setting triangles?|side triangles?",
        "A triangle that fills the edge of a top of blocks on point.",
    ),
    "sewing field": (r"sewing field", "The largest area that one hooping reaches."),
    "stabiliser": (
        r"stabili[sz]er",
        "What lies under the cloth in the hoop so that stitches do not pull it together.",
    ),
    "strip": (r"\bstrips?\b", "Cloth cut across its whole width. Patches are cut from strips."),
    "sub-cut": (r"sub-?cut", "A second cut, across a strip or a sewn strip set."),
    "tack-down": (
        r"tack-?down",
        "The seam that holds an applique piece inside its edge, before the edge is covered.",
    ),
    "template": (r"templates?\b", "A true-size shape to draw or cut round."),
    "trim in place": (
        r"trim(?:med)? in place",
        "Cloth is laid on, sewn down and only then cut back to its line.",
    ),
    "unit": (r"\bunits?\b", "The smallest thing that is sewn, such as a half-square triangle."),
    "unpick": (r"unpick", "To open a seam stitch by stitch with a seam ripper."),
    "usable width": (r"usable width", "The cloth's width without its selvedges."),
}
"""Term -> what it looks like in running text, and what it means."""


def find_terms(texts: Iterable[str]) -> list[tuple[str, str]]:
    """The terms that occur in the texts with what they mean, by the alphabet.

    >>> [term for term, _ in find_terms(["Press towards the border."])]
    ['border', 'press']
    """
    everything = "\n".join(texts)
    return [
        (term, meaning)
        for term, (looks, meaning) in GLOSSARY.items()
        if re.search(looks, everything, re.IGNORECASE)
    ]
