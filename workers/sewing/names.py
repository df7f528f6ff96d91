"""Names of stages that stay: made of what a stage is about, never of a running number."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable

from service.craft.language import join_words, mark, phrase
from service.craft.measure import Exact, Number, exact
from service.craft.tracks import slug

LONG_ENOUGH = 8
"""Hexadecimal digits of a digest: one in four thousand million that two contents of a project share it."""


def label(text: str) -> str:
    """A name as one word of an id: itself where it is plain, else with a mark that keeps it apart.

    >>> label("frost"), label("Frost") == label("frost")
    ('frost', False)
    """
    plain = slug(text)
    return plain if plain == text else f"{plain}-{digest(text)}"


def digest(content: object) -> str:
    """A short mark that stands for a content (anything whose `repr` says it all)."""
    return hashlib.sha256(repr(content).encode()).hexdigest()[:LONG_ENOUGH]


def size_label(*sizes: Number) -> str:
    """Sizes in inches as one word of an id.

    >>> from fractions import Fraction
    >>> size_label(3, Fraction(7, 2)), size_label(Exact(0, 2))
    ('3x7-2', '0r2')
    """
    return "x".join(_number_label(exact(size)) for size in sizes)


def _number_label(value: Exact) -> str:
    whole = str(value.a).replace("/", "-")
    return f"{whole}r{str(value.b).replace('/', '-')}" if value.b else whole


def composite_id(kind: str, pointer: str, block: str, content: object, *, mirrored: bool) -> str:
    """The id of something made of units: by its block, by its place, or by its content.

    A place inside a list is no name: it shifts as soon as something is put in before it.
    """
    if block:
        return f"block.{label(block)}" + (".mirrored" if mirrored else "")
    steps = pointer.strip("/").split("/")
    if mirrored or not steps[0] or any(step.isdigit() for step in steps):
        return f"{slug(kind)}.{digest(content)}"
    return ".".join(label(step) for step in steps)


ARTICLE = mark("the ")
"""A pattern: how a name begins that has its article already."""


def has_article(name: str) -> bool:
    """Whether a name begins with its article.

    >>> has_article("the top"), has_article("theatre curtain")
    (True, False)
    """
    return bool(re.match(phrase(ARTICLE), name))


def as_sentence(text: str) -> str:
    """The text with a capital at its beginning.

    >>> as_sentence("the top"), as_sentence("")
    ('The top', '')
    """
    return text[:1].upper() + text[1:]


def with_article(name: str) -> str:
    """A name in a sentence, with "a" or "an" by its first letter.

    A noun always follows, whose article another language sets in the sentence: there it is the bare name.

    >>> with_article("oat linen"), with_article("leek green")
    ('an oat linen', 'a leek green')
    """
    vowel = name[:1].lower() in "aeiou"
    return phrase("an {name}", name=name) if vowel else phrase("a {name}", name=name)


def listed(words: Iterable[str]) -> str:
    """Words as a list in a sentence.

    >>> listed(["1"]), listed(["1", "3"]), listed(["1", "3", "5"])
    ('1', '1 and 3', '1, 3 and 5')
    """
    return join_words(words)
