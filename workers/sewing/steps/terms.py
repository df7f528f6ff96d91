"""Trade words and what they mean; a step that is the first to use one explains it.

What a term looks like in a sentence differs from language to language as its meaning does: the patterns are messages
of the catalogues too.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from service.craft.language import mark, phrase

EXPLANATIONS = {
    mark("applique"): (
        mark(r"appliqu\w+"),
        mark("Laying a shape of one cloth on another and sewing down its edge."),
    ),
    mark("base"): (mark(r"\bbase\b"), mark("The larger patch on which a corner square is sewn.")),
    mark("block"): (mark(r"blocks?"), mark("A repeat of the top, sewn of several units.")),
    mark("crossing"): (mark(r"crossings?"), mark("A place where seams meet or run over each other.")),
    mark("grain"): (
        mark(r"\bgrain\b"),
        mark("The direction of the threads in the cloth, along the selvedge or across."),
    ),
    mark("hooping"): (
        mark(r"hoopings?|hoop it|hoop"),
        mark("What is sewn without taking the cloth out of the hoop."),
    ),
    mark("on point"): (mark(r"\bon point\b"), mark("Standing on a corner, turned by 45 degrees.")),
    mark("raw edge"): (mark(r"raw edges?"), mark("A cut edge that is neither folded nor covered.")),
    mark("right side"): (
        mark(r"right side|wrong sides?"),
        mark("The face of the cloth to be seen; its back is the wrong side."),
    ),
    mark("scant seam"): (
        mark(r"\bscant\b"),
        mark("A thread or two less than the full allowance. The fold takes up the difference."),
    ),
    mark("selvedge"): (mark(r"selvedges?"), mark("The woven edge on both sides of the cloth. Cut it off.")),
    mark("strip"): (mark(r"strips?"), mark("Cloth cut across its whole width. Patches are cut from strips.")),
    mark("square in a square"): (
        mark(r"squares? in (?:a )?squares?"),
        mark("A square that stands on its corner, with a triangle on each of its four sides."),
    ),
    mark("turn of cloth"): (
        mark(r"\bturn of cloth\b"),
        mark("What the fold at a seam uses up of the cloth."),
    ),
    mark("unit"): (mark(r"units?"), mark("The smallest thing that is sewn, such as a half-square triangle.")),
    mark("unpick"): (mark(r"unpick(?:ed)?"), mark("To open a seam stitch by stitch with a seam ripper.")),
    mark("right sides together"): (
        mark(r"\bright sides together\b"),
        mark("The two faces you want to see later lie on each other, inside."),
    ),
    mark("seam allowance"): (mark(r"allowances?"), mark("The cloth between the stitching and the cut edge.")),
    mark("finished size"): (
        mark(r"\bfinished\b"),
        mark("The size of a thing when every seam round it is sewn."),
    ),
    mark("press"): (
        mark(r"press(?:ed)?"),
        mark("To set the iron down and lift it again. Sliding it stretches the cloth."),
    ),
    mark("nest"): (
        mark(r"nests?"),
        mark("Two seams that meet lie to opposite sides, so that they lock into each other."),
    ),
    mark("spin"): (
        mark(r"spin|spun"),
        mark("To lay the allowances round a point in a ring, each falling the same way round."),
    ),
    mark("bias"): (
        mark(r"\bbias\b"),
        mark("The slanting direction of the cloth, in which it stretches most."),
    ),
    mark("half-square triangle"): (
        mark(r"half-square triangles?"),
        mark("A square sewn of two equal triangles."),
    ),
    mark("quarter-square triangle"): (
        mark(r"quarter-square triangles?"),
        mark("A square sewn of four triangles that meet in its middle."),
    ),
    mark("flying geese"): (
        mark(r"flying[- ]geese"),
        mark("Units twice as wide as high: one large triangle, the goose, between two small ones, its sky."),
    ),
    mark("strip set"): (
        mark(r"strip sets?"),
        mark("Strips sewn side by side and then cut across, into pieces of many patches."),
    ),
    mark("corner square"): (
        mark(r"corner[- ]squares?"),
        mark("A square sewn across a corner on its diagonal, trimmed and flipped open."),
    ),
    mark("fan blade"): (
        mark(r"\d+ blades|each blade|blade after blade"),
        mark("One wedge of a ring, narrow at the inner end and wide at the outer one."),
    ),
    mark("chain piecing"): (
        mark(r"chain[- ]piec(?:e|es|ed|ing)"),
        mark(
            "To feed one piece behind the other through the machine, and to cut the threads between them afterwards."
        ),
    ),
    mark("diagonal row"): (
        mark(r"diagonal rows?"),
        mark("A row of blocks that runs slanting across the top."),
    ),
    mark("setting triangle"): (
        mark(r"(?:setting|side|corner) triangles?"),
        mark("A triangle that fills the edge beside blocks that stand on their corners."),
    ),
    mark("partial seam"): (
        mark(r"\bpartial seam\b"),
        mark("A seam sewn in two goes: part of the way at first, the rest when all others are sewn."),
    ),
    mark("set in"): (
        mark(r"set(?:ting)?[- ]in"),
        mark("To sew a patch into a corner between others; the seam turns at a point."),
    ),
    mark("sashing"): (mark(r"\bsashing\b"), mark("Strips of cloth between blocks.")),
    mark("cornerstone"): (
        mark(r"cornerstones?"),
        mark("The small square where two strips of sashing cross."),
    ),
    mark("border"): (mark(r"borders?"), mark("Strips of cloth round the middle of the top.")),
    mark("mitred"): (mark(r"\bmitred\b"), mark("Joined on the slant, like the corner of a picture frame.")),
    mark("stabiliser"): (
        mark(r"\bstabiliser\b"),
        mark("A firm layer under the cloth that keeps stitches from puckering it."),
    ),
    mark("sewing field"): (
        mark(r"\bsewing field\b"),
        mark("The largest area that the machine reaches in one hooping."),
    ),
    mark("placement line"): (
        mark(r"\bplacement line\b"),
        mark("A line of stitches or a drawn line that shows where a piece goes."),
    ),
    mark("tack-down"): (
        mark(r"tack(?:s|ed)?[- ]down|tacks? it down"),
        mark("A line of stitches that holds a piece before its edge is covered."),
    ),
    mark("template"): (mark(r"templates?"), mark("A shape at true size to draw round.")),
    mark("fusible web"): (
        mark(r"\bfusible web\b"),
        mark("A thin layer of glue on paper that melts under the iron."),
    ),
    mark("baste"): (
        mark(r"bast(?:e|ing)"),
        mark("To hold layers for a while with long stitches, pins or a washable glue."),
    ),
    mark("satin"): (mark(r"\bsatin\b"), mark("Zigzag stitches so close that they cover the edge.")),
    mark("blanket stitch"): (
        mark(r"\bblanket stitch\b"),
        mark("A stitch that runs along an edge and bites into it at even steps."),
    ),
    mark("backing"): (mark(r"\bbacking\b"), mark("The cloth of the back.")),
    mark("batting"): (mark(r"\bbatting\b"), mark("The soft layer in the middle.")),
    mark("binding"): (mark(r"\bbinding\b"), mark("The strip folded round the edge of the whole.")),
    mark("hanging sleeve"): (
        mark(r"(?:hanging )?sleeves?"),
        mark("A flat tube of cloth along the upper edge of the back, for a rod to hang the whole by."),
    ),
    mark("crease"): (
        mark(r"creas(?:e|es|ed|ing)"),
        mark("To fold the cloth and run a fingernail along the fold: a mark that goes away by itself."),
    ),
    mark("ease"): (
        mark(r"eas(?:e|es|ed|ing)(?! of\b)"),
        mark("To spread a little length along a seam until both edges are level, without a fold."),
    ),
    mark("fuse"): (
        mark(r"fus(?:e|es|ed|ing)"),
        mark("To melt glue between two layers with the iron, so that they stick."),
    ),
    mark("flip"): (
        mark(r"flip(?:s|ped)?"),
        mark("To turn a sewn piece over its seam, so that its right side shows."),
    ),
    mark("mirrored"): (mark(r"\bmirrored\b"), mark("Left and right changed over, as in a looking glass.")),
    mark("pucker"): (mark(r"pucker(?:s|ed|ing)?"), mark("To draw cloth into small folds along a seam.")),
    mark("fray"): (mark(r"fray(?:s|ed|ing)?"), mark("To lose threads along a cut edge.")),
    mark("staystitch"): (
        mark(r"staystitch(?:es|ed|ing)?"),
        mark("To sew a line inside the allowance that stays there and keeps an edge from stretching."),
    ),
    mark("panel"): (
        mark(r"panels?"),
        mark("One length of cloth of several that are sewn side by side into a wider piece."),
    ),
    mark("walking foot"): (
        mark(r"\bwalking foot\b"),
        mark("A presser foot with teeth of its own, which moves the upper layer along with the lower one."),
    ),
    mark("quilt"): (
        mark(r"quilt(?:ing)?"),
        mark("To sew through all three layers, so that they stay together."),
    ),
}
"""Term -> what it looks like in a sentence, and what it means in words of our own; all of it said with `phrase`."""


class TermFinder:
    """Finds the terms that a text is the first to use."""

    def __init__(self) -> None:
        self._left = dict(EXPLANATIONS)

    def first_uses(self, text: str) -> Iterator[tuple[str, str]]:
        """Each term used here and never before, with what it means; both in the language of who reads."""
        for term in [term for term, (looks, _) in self._left.items() if is_used(looks, text)]:
            _, meaning = self._left.pop(term)
            yield phrase(term), phrase(meaning)


def is_used(looks: str, text: str) -> bool:
    """Whether a text of the reader's language holds a term that looks so (a marked pattern)."""
    return bool(_compile(phrase(looks)).search(text))


@cache
def _compile(looks: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{looks})\b", re.IGNORECASE)
