"""How a stage is pressed, in a sentence and its reason."""

from __future__ import annotations

from collections.abc import Sequence

from workers.sewing.names import listed
from workers.sewing.plan import Stage
from workers.sewing.pressed import OPEN, SPUN, Pile, PressedSeam

MOST_NUMBERED = 12
"""Seams that a sentence still counts through; the drawing shows the rest."""

WAYS = {"left": "to the left", "right": "to the right", "up": "upwards", "down": "downwards", "open": "open"}

REASONS = {
    "the border": "The border is plain and takes the thickness.",
    "the sashing": "The sashing is plain and takes the thickness.",
    "the setting triangle": "The triangle is plain and takes the thickness.",
    "the corner triangle": "The triangle is plain and takes the thickness.",
    "the plain unit": "The plain unit has no seams of its own, so the join stays flat.",
}
ONE_SIDE = "Pressed to one side, a seam is stronger than pressed open."
OPENED = "Pressed open, the seam lies flat."
NESTING = "Seams that meet later then lie to opposite sides and nest."
GRADE = "Trim each dark allowance that will lie under a light cloth, a thread narrower than the light one."
SHOWS_LESS = (
    "Behind the light allowance, the dark one shines through less. "
    "The next step says which way each seam goes."
)
SPREAD = "Spun, the allowances share the room round the point, and it lies flatter."
SPIN = (
    "Spin the last seam: press one half of it {ways}, as the wedges show. The allowances now lie in a ring, {round} "
    "seen from the front, and a tiny square opens in the middle."
)
LOOSEN = (
    "In the middle, take out the two or three stitches of the crossed seam that lie in "
    "the allowance, on both sides."
)
LOOSENED = "Without them the allowances can turn both ways. The last seam itself stays whole."
"""How a seam is spun (spinning where four or more seams meet: sewitbetter.com/gallery/tips.htm)."""


def press_sentence(stage: Stage) -> str:
    """What to do with the iron, or an empty text for a stage without seams."""
    text = _press_copies(stage)
    return f"{text} {_press_others(stage)}" if len(stage.piles) > 1 else text


def shows_dark(stage: Stage) -> bool:
    """Whether a dark allowance of the stage comes to lie under a light cloth."""
    return any(seam.shadows for _, seams in stage.ways for seam in seams)


def _press_others(stage: Stage) -> str:
    """How the copies of further piles are pressed."""
    (first, seams), *others = stage.ways
    numbered = ", numbered as their drawings" if others and not _numbered(stage) else ""
    apart = f"Keep the {'two' if len(stage.piles) == 2 else len(stage.piles)} piles apart{numbered}."
    if not others:
        return f"All {stage.count} are pressed so. {apart} They hold parts of different piles."
    left = stage.count - first
    said = []
    for number, (count, other) in enumerate(others, start=2):
        left -= count
        copies = (
            f"the other {count}" if not left and count > 1 else "the last one" if not left else str(count)
        )
        drawing = f"drawing {number} shows" if len(others) > 1 else "their own drawing shows"
        said.append(_press_differently(copies, seams, other, drawing, few=len(others) == 1))
    piles = " ".join(
        f"Pile {n}: {pile.count}, pressed as drawing {pile.way}." for n, pile in _numbered(stage)
    )
    return f"Do so with {first} of the {stage.count}. {' '.join(said)} {apart}{' ' if piles else ''}{piles}"


def _press_differently(
    copies: str, seams: Sequence[PressedSeam], other: Sequence[PressedSeam], drawing: str, *, few: bool
) -> str:
    """How some copies are pressed otherwise than the first ones."""
    pairs = zip(seams, other, strict=True)
    differing = [pair for pair in pairs if (pair[0].press, pair[0].halves) != (pair[1].press, pair[1].halves)]
    if any(SPUN in (a.press, b.press) for a, b in differing):
        return f"Press {copies} as {drawing}. {_press_part(other[-1:])}"
    if not few:
        return f"Press {copies} as {drawing}."
    which = "it" if len(seams) == 1 else "every seam" if len(differing) == len(seams) else "the seams"
    shown = "" if which != "the seams" else f", as {drawing}"
    return f"In {copies} press {which} to the other side{shown}."


def _numbered(stage: Stage) -> Sequence[tuple[int, Pile]]:
    """The piles by their numbers, where these are not the numbers of the ways."""
    numbered = list(enumerate(stage.piles, start=1))
    return [] if all(n == pile.way for n, pile in numbered) else numbered


def _press_copies(stage: Stage) -> str:
    """How the copies are pressed, or most of them."""
    seams = stage.seams
    if not seams:
        return ""
    if seams[-1].press == SPUN and len(seams) == 1:
        return spin_sentence(seams[-1])
    towards = list(dict.fromkeys(seam.towards for seam in seams))
    if len(seams) == 1:
        return f"Press the seam {_way(seams[0])}."
    if {seam.press for seam in seams} == {OPEN}:
        return "Press the seams open."
    if len(towards) == 1 and towards[0] != "both sides":
        return f"Press every seam towards {_with_article(towards[0])}{_shape(stage)}."
    if len(seams) > MOST_NUMBERED:
        return "Press each seam to the side where its wedge stands in the drawing."
    return "Press " + "; ".join(_groups(seams, _counted_from(stage))) + "."


def press_seams(stage: Stage, part: slice) -> str:
    """What to do with some seams of a stage that are pressed by themselves, in each of the ways of its copies."""
    copies: dict[str, int] = {}
    for count, seams in stage.ways:
        said = _press_part(seams[part])
        copies[said] = copies.get(said, 0) + count
    if len(copies) == 1:
        return next(iter(copies))
    ways = " ".join(f"{count} of the {stage.count}: {said}" for said, count in copies.items())
    return f"{ways} Keep them apart."


def _press_part(seams: Sequence[PressedSeam]) -> str:
    if seams and seams[-1].press == SPUN:
        return spin_sentence(seams[-1])
    ways = list(dict.fromkeys(_way(seam) for seam in seams))
    if len(ways) == 1:
        return f"Press the seam{'s' if len(seams) > 1 else ''} {ways[0]}."
    return f"Press {listed(f'one seam {way}' for way in ways)}."


def spin_sentence(seam: PressedSeam) -> str:
    """How a seam is spun."""
    first, second = (WAYS[half.press] for half in seam.halves)
    ways = f"{first} and the other {second}"
    return SPIN.format(ways=ways, round="clockwise" if seam.clockwise else "anticlockwise")


def press_reason(stage: Stage) -> str:
    """Why it is pressed that way."""
    if any(seam.press == SPUN for seam in stage.seams):
        return SPREAD
    towards = {seam.towards for seam in stage.seams}
    reasons = [REASONS[t] for t in sorted(towards) if t in REASONS]
    if {seam.press for seam in stage.seams} == {OPEN}:
        return OPENED
    return " ".join([*reasons[:1], *([NESTING] if stage.meets_others else [])]) or ONE_SIDE


def _way(seam: PressedSeam) -> str:
    if seam.press == OPEN:
        return "open"
    if seam.towards.startswith("the unit on the"):
        return f"to the {seam.press}" if seam.press in ("left", "right") else WAYS[seam.press]
    return f"towards {_with_article(seam.towards)}"


def _with_article(towards: str) -> str:
    """A cloth's name with its article; rows and what has one already stay as they are."""
    return towards if towards.startswith(("the ", "row ", "diagonal row ")) else f"the {towards}"


def _shape(stage: Stage) -> str:
    """Inward and outward, as the trade says it, for a row of three."""
    ways = [seam.press for seam in stage.seams]
    if stage.work.kind == "row" and ways == ["right", "left"]:
        return ": inwards, to the middle"
    if stage.work.kind == "row" and ways == ["left", "right"]:
        return ": outwards, away from the middle"
    return ""


def _counted_from(stage: Stage) -> str:
    if stage.work.kind == "row":
        return "counted from the left"
    if stage.work.kind == "rows":
        return "counted from the top"
    return ""


def _groups(seams: tuple[PressedSeam, ...], counted: str) -> list[str]:
    """The seams by where they go: "seams 1 and 3, counted from the left, to the right"."""
    groups: dict[str, list[str]] = {}
    for number, seam in enumerate(seams, start=1):
        groups.setdefault(WAYS.get(seam.press, _way(seam)) if counted else _way(seam), []).append(str(number))
    found: list[str] = []
    for way, numbers in groups.items():
        which = f"seam{'s' if len(numbers) > 1 else ''} {listed(numbers)}" if counted else _some(numbers)
        said = f", {counted}," if counted and not found else ""
        found.append(f"{which}{said} {way}")
    return found


def _some(numbers: list[str]) -> str:
    return "one seam" if len(numbers) == 1 else f"{len(numbers)} seams"
