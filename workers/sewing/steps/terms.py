"""Trade words and what they mean; a step that is the first to use one explains it."""

from __future__ import annotations

import re
from collections.abc import Iterator

EXPLANATIONS = {
    "applique": (r"appliqu\w+", "Laying a shape of one cloth on another and sewing down its edge."),
    "base": (r"base", "The larger patch on which a corner square is sewn."),
    "block": (r"blocks?", "A repeat of the top, sewn of several units."),
    "crossing": (r"crossings?", "A place where seams meet or run over each other."),
    "grain": (r"grain", "The direction of the threads in the cloth, along the selvedge or across."),
    "hooping": (r"hoopings?|hoop it|hoop", "What is sewn without taking the cloth out of the hoop."),
    "on point": (r"on point", "Standing on a corner, turned by 45 degrees."),
    "raw edge": (r"raw edges?", "A cut edge that is neither folded nor covered."),
    "right side": (
        r"right side|wrong sides?",
        "The face of the cloth to be seen; its back is the wrong side.",
    ),
    "scant seam": (
        r"scant",
        "A thread or two less than the full allowance. The fold takes up the difference.",
    ),
    "selvedge": (r"selvedges?", "The woven edge on both sides of the cloth. Cut it off."),
    "strip": (r"strips?", "Cloth cut across its whole width. Patches are cut from strips."),
    "square in a square": (
        r"squares? in (?:a )?squares?",
        "A square that stands on its corner, with a triangle on each of its four sides.",
    ),
    "turn of cloth": (r"turn of cloth", "What the fold at a seam uses up of the cloth."),
    "unit": (r"units?", "The smallest thing that is sewn, such as a half-square triangle."),
    "unpick": (r"unpick(?:ed)?", "To open a seam stitch by stitch with a seam ripper."),
    "right sides together": (
        r"right sides together",
        "The two faces you want to see later lie on each other, inside.",
    ),
    "seam allowance": (r"allowances?", "The cloth between the stitching and the cut edge."),
    "finished size": (r"finished", "The size of a thing when every seam round it is sewn."),
    "press": (r"press(?:ed)?", "To set the iron down and lift it again. Sliding it stretches the cloth."),
    "nest": (r"nests?", "Two seams that meet lie to opposite sides, so that they lock into each other."),
    "spin": (
        r"spin|spun",
        "To lay the allowances round a point in a ring, each falling the same way round.",
    ),
    "bias": (r"bias", "The slanting direction of the cloth, in which it stretches most."),
    "half-square triangle": (r"half-square triangles?", "A square sewn of two equal triangles."),
    "quarter-square triangle": (
        r"quarter-square triangles?",
        "A square sewn of four triangles that meet in its middle.",
    ),
    "flying geese": (
        r"flying[- ]geese",
        "Units twice as wide as high: one large triangle, the goose, between two small ones, its sky.",
    ),
    "strip set": (
        r"strip sets?",
        "Strips sewn side by side and then cut across, into pieces of many patches.",
    ),
    "corner square": (
        r"corner[- ]squares?",
        "A square sewn across a corner on its diagonal, trimmed and flipped open.",
    ),
    "fan blade": (
        r"\d+ blades|each blade|blade after blade",
        "One wedge of a ring, narrow at the inner end and wide at the outer one.",
    ),
    "chain piecing": (
        r"chain[- ]piec(?:e|es|ed|ing)",
        "To feed one piece behind the other through the machine, and to cut the threads between them afterwards.",
    ),
    "diagonal row": (r"diagonal rows?", "A row of blocks that runs slanting across the top."),
    "setting triangle": (
        r"(?:setting|side|corner) triangles?",
        "A triangle that fills the edge beside blocks that stand on their corners.",
    ),
    "partial seam": (
        r"partial seam",
        "A seam sewn in two goes: part of the way at first, the rest when all others are sewn.",
    ),
    "set in": (
        r"set(?:ting)?[- ]in",
        "To sew a patch into a corner between others; the seam turns at a point.",
    ),
    "sashing": (r"sashing", "Strips of cloth between blocks."),
    "cornerstone": (r"cornerstones?", "The small square where two strips of sashing cross."),
    "border": (r"borders?", "Strips of cloth round the middle of the top."),
    "mitred": (r"mitred", "Joined on the slant, like the corner of a picture frame."),
    "stabiliser": (r"stabiliser", "A firm layer under the cloth that keeps stitches from puckering it."),
    "sewing field": (r"sewing field", "The largest area that the machine reaches in one hooping."),
    "placement line": (
        r"placement line",
        "A line of stitches or a drawn line that shows where a piece goes.",
    ),
    "tack-down": (
        r"tack(?:s|ed)?[- ]down|tacks? it down",
        "A line of stitches that holds a piece before its edge is covered.",
    ),
    "template": (r"templates?", "A shape at true size to draw round."),
    "fusible web": (r"fusible web", "A thin layer of glue on paper that melts under the iron."),
    "baste": (r"bast(?:e|ing)", "To hold layers for a while with long stitches, pins or a washable glue."),
    "satin": (r"satin", "Zigzag stitches so close that they cover the edge."),
    "blanket stitch": (
        r"blanket stitch",
        "A stitch that runs along an edge and bites into it at even steps.",
    ),
    "backing": (r"backing", "The cloth of the back."),
    "batting": (r"batting", "The soft layer in the middle."),
    "binding": (r"binding", "The strip folded round the edge of the whole."),
    "hanging sleeve": (
        r"(?:hanging )?sleeves?",
        "A flat tube of cloth along the upper edge of the back, for a rod to hang the whole by.",
    ),
    "crease": (
        r"creas(?:e|es|ed|ing)",
        "To fold the cloth and run a fingernail along the fold: a mark that goes away by itself.",
    ),
    "ease": (
        r"eas(?:e|es|ed|ing)(?! of\b)",
        "To spread a little length along a seam until both edges are level, without a fold.",
    ),
    "fuse": (r"fus(?:e|es|ed|ing)", "To melt glue between two layers with the iron, so that they stick."),
    "flip": (r"flip(?:s|ped)?", "To turn a sewn piece over its seam, so that its right side shows."),
    "mirrored": (r"mirrored", "Left and right changed over, as in a looking glass."),
    "pucker": (r"pucker(?:s|ed|ing)?", "To draw cloth into small folds along a seam."),
    "fray": (r"fray(?:s|ed|ing)?", "To lose threads along a cut edge."),
    "staystitch": (
        r"staystitch(?:es|ed|ing)?",
        "To sew a line inside the allowance that stays there and keeps an edge from stretching.",
    ),
    "panel": (r"panels?", "One length of cloth of several that are sewn side by side into a wider piece."),
    "walking foot": (
        r"walking foot",
        "A presser foot with teeth of its own, which moves the upper layer along with the lower one.",
    ),
    "quilt": (r"quilt(?:ing)?", "To sew through all three layers, so that they stay together."),
}
"""Term -> what it looks like in a sentence, and what it means in words of our own."""

_PATTERNS = {
    term: re.compile(rf"\b(?:{looks})\b", re.IGNORECASE) for term, (looks, _) in EXPLANATIONS.items()
}


class TermFinder:
    """Finds the terms that a text is the first to use."""

    def __init__(self) -> None:
        self._left = dict(_PATTERNS)

    def first_uses(self, text: str) -> Iterator[tuple[str, str]]:
        """Each term used here and never before, with what it means."""
        for term in [t for t, pattern in self._left.items() if pattern.search(text)]:
            del self._left[term]
            yield term, EXPLANATIONS[term][1]
