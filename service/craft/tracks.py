"""Tracks: ways through a project for viewers with given equipment and skill."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from service.craft.accuracy import Accuracy
from service.craft.audience import Audience

MM_PER_INCH = Fraction(127, 5)

EQUIPMENT = re.compile(
    r"\s*(hoop|cutter)\s+(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)\s*(mm|cm|in)?\s*", re.IGNORECASE
)

LARGEST_BARE_INCHES = 40
"""Without a unit, sides up to this are inches and anything longer millimetres: no hoop or mat is 40 mm wide."""


PAPERS = A4, LETTER = ("A4", "Letter")
"""What a handout is printed on; the first is the default."""

PRINTS = USUAL_PRINT, LARGE_PRINT = ("usual", "large")
"""How large the words of a handout are; the first is the default."""

PIECING, AROUND_PIECING = "piecing", ("cutting", "finishing")
"""Who sews patchwork for the first time cuts and binds it for the first time."""

BEGINNERS: tuple[tuple[tuple[str, ...], tuple[str, ...], dict[str, tuple[str, ...]]], ...] = (
    (
        ("new",),
        ("everything", "sewing", "all of it"),
        {name: (name,) for name in ("cutting", "piecing", "applique", "finishing")},
    ),
    (
        ("nieuw", "voor het eerst"),
        ("alles", "naaien"),
        {
            "cutting": ("snijden", "knippen"),
            "piecing": ("patchwork",),
            "applique": ("applicatie", "appliceren", "appliqueren"),
            "finishing": ("afwerken",),
        },
    ),
)
"""By language, the words by which viewers are said to be new to something, those for all chapters, and for each."""

LONGEST_SIDE_MM = 5000
LONGEST_TEXT = 60
LONGEST_SLUG = 60
"""A file's name holds 255 bytes at most, and a letter takes up to four."""


@dataclass(frozen=True)
class Equipment:
    """A hoop's sewing field or a cutting mat: the size in millimetres as it was written, width first."""

    kind: str
    width_mm: Fraction
    height_mm: Fraction

    @property
    def label(self) -> str:
        """The size in whole millimetres, as used in file names: `130x180`."""
        return f"{round(self.width_mm)}x{round(self.height_mm)}"


def parse_equipment(text: str) -> Equipment:
    """Read `hoop 130x180` or `cutter 12x12 in`; a `ValueError` says what would be right.

    >>> parse_equipment("hoop 130x180").label, parse_equipment("cutter 12x12").label
    ('130x180', '305x305')
    """
    found = EQUIPMENT.fullmatch(text) if len(text) <= LONGEST_TEXT else None
    if not found:
        raise ValueError(
            'write "hoop 130x180" (a sewing field) or "cutter 12x12" (a cutting mat), in mm or inches'
        )
    width, height = Fraction(found[2]), Fraction(found[3])
    if not (width > 0 and height > 0):
        raise ValueError("both sides of a hoop or mat are longer than nothing")
    unit = (found[4] or ("in" if max(width, height) <= LARGEST_BARE_INCHES else "mm")).lower()
    factor = {"mm": Fraction(1), "cm": Fraction(10), "in": MM_PER_INCH}[unit]
    if max(width, height) * factor > LONGEST_SIDE_MM:
        raise ValueError("no hoop or mat is longer than 5 m")
    return Equipment(found[1].lower(), width * factor, height * factor)


@dataclass(frozen=True)
class Track:
    """One way through the project. `reading` is what its viewers are new to, in the maker's words.

    `accuracy` is how exactly they work and `audience` how they read, where that is another way than the document says
    of all. `paper` and `print` are how their handout is printed.
    """

    name: str
    equipment: tuple[Equipment, ...]
    reading: str = ""
    accuracy: Accuracy | None = None
    paper: str = A4
    print: str = USUAL_PRINT
    audience: Audience | None = None

    def is_new_to(self, chapter: str) -> bool:
        """Whether its viewers are said to be new to a chapter: "new to piecing", "new to everything".

        >>> Track("by hand", (), "new to piecing").is_new_to("piecing"), Track("by hand", ()).is_new_to("piecing")
        (True, False)
        >>> Track("met de hand", (), "nieuw in patchwork").is_new_to("piecing")
        True
        """
        reading = self.reading.lower()

        def names(*words: str) -> bool:
            return any(word in reading for word in words)

        return any(
            names(*new) and names(*everything, *chapters.get(chapter, (chapter,)))
            for new, everything, chapters in BEGINNERS
        )

    def has_done(self, chapter: str) -> bool:
        """Whether its viewers are said to have done a chapter before, so that its steps are told in short.

        What goes before piecing and after it is as new as piecing is. Where nothing is said of the viewers, everything
        is explained.

        >>> track = Track("by hand", (), "new to piecing")
        >>> [track.has_done(chapter) for chapter in ("cutting", "piecing", "applique", "finishing")]
        [False, False, True, False]
        >>> Track("by hand", (), "done it before").has_done("piecing"), Track("by hand", ()).has_done("piecing")
        (True, False)
        """
        if not self.reading.strip() or self.is_new_to(chapter):
            return False
        return chapter not in AROUND_PIECING or not self.is_new_to(PIECING)

    @property
    def hoop(self) -> Equipment | None:
        """The largest sewing field of the track, or None."""
        return self._largest("hoop")

    @property
    def cutter(self) -> Equipment | None:
        """The largest cutting mat of the track, or None."""
        return self._largest("cutter")

    @property
    def slug(self) -> str:
        """The name as it stands in file names: lower case, hyphens."""
        return slug(self.name)

    def _largest(self, kind: str) -> Equipment | None:
        of_kind = [e for e in self.equipment if e.kind == kind]
        return max(of_kind, key=lambda e: e.width_mm * e.height_mm, default=None)


def slug(name: str) -> str:
    """A name for use in file names: letters and digits of any script, lower case, single hyphens, cut at 60.

    >>> slug("Hoop & cutter"), slug("  "), slug("von Hand")
    ('hoop-cutter', 'unnamed', 'von-hand')
    """
    return re.sub(r"[\W_]+", "-", name.lower())[:LONGEST_SLUG].strip("-") or "unnamed"
