"""What cuts are for: parts of the top and of what finishes it by our names, blocks and pieces by the maker's."""

from __future__ import annotations

from service.craft.language import mark, phrase
from service.craft.units.counting import TOP

BORDER, SASHING = "border", "sashing"
BINDING, BACKING, SLEEVE = "binding", "backing", "hanging sleeve"

PARTS = {
    TOP: (mark("top"), mark("the top")),
    BORDER: (mark("border"), mark("the border")),
    SASHING: (mark("sashing"), mark("the sashing")),
    BINDING: (mark("binding"), mark("the binding")),
    BACKING: (mark("backing"), mark("the backing")),
    SLEEVE: (mark("hanging sleeve"), mark("the hanging sleeve")),
}
"""Each by itself, and in a sentence."""


def say_part(name: str) -> str:
    """A part by itself; a block has the name that its maker gave it.

    >>> say_part(BORDER), say_part("star")
    ('border', 'star')
    """
    return phrase(PARTS[name][0]) if name in PARTS else name


def say_the_part(name: str) -> str:
    """A part in a sentence, as the object of "for".

    >>> say_the_part(BORDER), say_the_part("star")
    ('the border', 'the star')
    """
    return phrase(PARTS[name][1]) if name in PARTS else phrase("the {name}", name=name)
