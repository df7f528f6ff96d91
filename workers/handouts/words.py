"""Words that every handout needs: what its terms mean, and what can hurt."""

from __future__ import annotations

import re
from collections.abc import Iterable

from service.craft.language import mark, phrase
from workers.sewing.steps.terms import EXPLANATIONS

LEAD_CAUTION = mark(
    "Follow the instructions of whoever made your machine, cutter, iron, threads and sprays, and the rules of "
    "the place you work in. What is said here comes beside them, never instead."
)

CHILDREN_CAUTION = mark("Children cut only with an adult beside them.")

IRON_CAUTION = mark(
    "Iron: rest it on its heel, keep hands out of the steam, unplug it before you fill it and when you leave."
)

HOOP_CAUTION = mark(
    "Hoop machine: hands and face away from the moving frame and the needle. Stop the machine before you trim. "
    "Unplug it to change the needle."
)

FUSIBLE_CAUTION = mark(
    "Fusible web, sprays and synthetic cloth can give off fumes when heated or sprayed. Open a window, keep to "
    "the maker's temperature, and stop if you cough or wheeze."
)

MORE_TERMS: dict[str, tuple[str, str]] = {
    mark("butted border"): (
        mark(r"butted"),
        mark("A border whose second pair of strips runs over the ends of the first pair."),
    ),
    mark("cut size"): (
        mark(r"cut sizes?|cut \d+"),
        mark("What you cut: the finished size and the seam allowances round it."),
    ),
    mark("fat quarter"): (
        mark(r"fat quarters?"),
        mark("A piece of cloth half a width wide and half a yard (or half a metre) long."),
    ),
    mark("sub-cut"): (mark(r"sub-?cut"), mark("A second cut, across a strip or a sewn strip set.")),
    mark("trim in place"): (
        mark(r"trim(?:med)? in place"),
        mark("Cloth is laid on, sewn down and only then cut back to its line."),
    ),
    mark("usable width"): (mark(r"usable width"), mark("The cloth's width without its selvedges.")),
}
"""Terms that no step explains: term -> what it looks like in running text, and what it means."""

GLOSSARY = {**MORE_TERMS, **EXPLANATIONS}
"""Every term of a handout; what a step explains at first use is explained here in the same words."""


def find_terms(texts: Iterable[str]) -> list[tuple[str, str]]:
    """The terms that occur in the texts with what they mean, by the alphabet.

    >>> [term for term, _ in find_terms(["Press towards the border."])]
    ['border', 'press']
    """
    everything = "\n".join(texts)
    return sorted(
        (phrase(term), phrase(meaning))
        for term, (looks, meaning) in GLOSSARY.items()
        if re.search(rf"\b(?:{phrase(looks)})\b", everything, re.IGNORECASE)
    )
