"""How a stage is pressed, in a sentence and its reason."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.craft.language import mark, phrase
from workers.sewing.plan import Stage
from workers.sewing.pressed import OPEN, SPUN, Half, PressedSeam
from workers.sewing.steps.copy_words import say_by_piles, which_copies
from workers.sewing.steps.seam_names import SeamNames, name_seams, say_place
from workers.sewing.steps.step import sentences

MOST_NAMED = 12
"""Seams that a sentence still names one by one; the drawing shows the rest."""

WAYS = {
    "left": mark("to the left"),
    "right": mark("to the right"),
    "up": mark("upwards"),
    "down": mark("downwards"),
    OPEN: mark("open"),
}

HALVES = {
    "left": mark("left half"),
    "right": mark("right half"),
    "upper": mark("upper half"),
    "lower": mark("lower half"),
    "upper left": mark("upper left half"),
    "upper right": mark("upper right half"),
    "lower left": mark("lower left half"),
    "lower right": mark("lower right half"),
    "middle": mark("middle half"),
}
"""The half of a seam by where it lies."""

NAMED = mark("the |row |diagonal row ")
"""A pattern: how the words begin for what is no cloth, so that they need no article."""

UNITS = (
    mark("the upper unit"),
    mark("the lower unit"),
    mark("the unit on the left"),
    mark("the unit on the right"),
)
"""What one of two units that are alike is called."""

REASONS = {
    mark("the border"): mark("The border is plain and takes the thickness."),
    mark("the sashing"): mark("The sashing is plain and takes the thickness."),
    mark("the setting triangle"): mark("The triangle is plain and takes the thickness."),
    mark("the corner triangle"): mark("The triangle is plain and takes the thickness."),
    mark("the plain unit"): mark("The plain unit has no seams of its own, so the join stays flat."),
}
ONE_SIDE = mark("Pressed to one side, a seam is stronger than pressed open.")
OPENED = mark("Pressed open, the seam lies flat.")
NESTING = mark("Seams that meet later then lie to opposite sides and nest.")
GRADE = mark(
    "Trim each dark allowance that will lie under a light cloth, a thread narrower than the light one."
)
SHOWS_LESS = mark(
    "Behind the light allowance, the dark one shines through less. The next step says which way each seam "
    "goes."
)
SPREAD = mark("Spun, the allowances share the room round the point, and it lies flatter.")
SPIN = mark(
    "spin the last seam: press its {first} and its {second}. The allowances now lie in a ring, {round} seen "
    "from the front, and a tiny square opens in the middle"
)
LOOSEN = mark(
    "in the middle, take out the two or three stitches of the crossed seam that lie in the allowance, on "
    "both sides."
)
LOOSENED = mark("Without them the allowances can turn both ways. The last seam itself stays whole.")
"""How a seam is spun (spinning where four or more seams meet: sewitbetter.com/gallery/tips.htm)."""

ANY = slice(None)


def press_sentence(stage: Stage) -> str:
    """What to do with the iron, pile by pile, or an empty text for a stage without seams."""
    return press_seams(stage, ANY) if stage.seams else ""


def press_seams(stage: Stage, part: slice) -> str:
    """What to do with some seams of a stage that are pressed together, in each of the ways of its copies."""
    names = name_seams(stage.work)
    said: dict[str, list[int]] = {}
    for way, (_, seams) in enumerate(stage.ways, start=1):
        drawn = phrase("drawing {way}", way=way) if len(stage.ways) > 1 else phrase("the drawing")
        said.setdefault(say_way(stage, seams, names, part, drawn=drawn), []).append(way)
    return say_by_piles(stage, said)


def shows_dark(stage: Stage) -> bool:
    """Whether a dark allowance of the stage comes to lie under a light cloth."""
    return any(seam.shadows for _, seams in stage.ways for seam in seams)


def say_loosen(stage: Stage) -> str:
    """The stitches that are taken out before a seam is spun, in the copies in which it is."""
    loosen = phrase(LOOSEN)
    spun = [way for way, (_, seams) in enumerate(stage.ways, start=1) if seams[-1].press == SPUN]
    if len(spun) == len(stage.ways):
        return f"{loosen[0].upper()}{loosen[1:]}"
    count = sum(stage.ways[way - 1][0] for way in spun)
    return f"{which_copies(stage, spun, count, left=stage.count - count or 1)} {loosen}"


def say_way(
    stage: Stage,
    seams: Sequence[PressedSeam],
    names: SeamNames,
    part: slice = ANY,
    *,
    drawn: str,
) -> str:
    """How some seams of one copy are pressed: "press seam 1, counted from the left, to the left; seam 2 to the right".

    `drawn` is the drawing in which seams are looked up that are too many to name.
    """
    chosen = seams[part]
    numbers = range(len(seams))[part]
    if chosen[-1].press == SPUN:
        return _say_spin(stage, chosen[-1])
    way = say_one_way(stage, chosen)
    if way:
        opened = _are_open(chosen) and len(chosen) > 1
        which = phrase("the seams") if opened else _say_which(numbers, len(seams), names)
        return phrase("press {which} {way}", which=which, way=way)
    groups = _group(seams, numbers, names)
    if len(chosen) > MOST_NAMED or not names.tell_apart(list(groups.values())):
        return phrase("press each seam to the side where its wedge stands in {drawn}", drawn=drawn)
    return phrase("press {ways}", ways="; ".join(_say_groups(groups, names)))


def _say_which(numbers: Sequence[int], whole: int, names: SeamNames) -> str:
    """Seams that all go one way: all of them, a single one, or those that are sewn by now."""
    if len(numbers) == whole:
        return phrase("the seam") if whole == 1 else phrase("every seam")
    if len(numbers) > 1:
        return phrase("these seams")
    return names.say(numbers) + (f", {names.counted}," if names.counted else "")


def _are_open(seams: Sequence[PressedSeam]) -> bool:
    return {seam.press for seam in seams} == {OPEN}


def say_one_way(stage: Stage, seams: Sequence[PressedSeam]) -> str:
    """Where all the seams go, if that is one way; else an empty text. For a whole row of three also in a trade word."""
    way = _say_one_way(seams)
    return f"{way}{_shape(stage, seams)}" if way and len(seams) == len(stage.seams) else way


def _say_one_way(seams: Sequence[PressedSeam]) -> str:
    if _are_open(seams):
        return phrase(WAYS[OPEN])
    towards = {seam.towards for seam in seams}
    if len(seams) > 1 and towards <= set(map(phrase, UNITS[:2])):
        towards = set()
    if len(towards) == 1 and (len(seams) == 1 or not any(map(_is_between_equals, seams))):
        return _say_towards(seams[0]) if len(seams) == 1 else _say_side(seams[0].towards)
    ways = {seam.press for seam in seams}
    parallel = all(abs((s.line.to_right * seams[0].line.to_right.conjugate()).imag) < 1e-6 for s in seams)
    return phrase(WAYS[seams[0].press]) if len(ways) == 1 and parallel else ""


def _group(seams: Sequence[PressedSeam], numbers: Sequence[int], names: SeamNames) -> dict[str, list[int]]:
    """The numbers of the seams by where they go."""
    groups: dict[str, list[int]] = {}
    for number in sorted(numbers, key=lambda n: int(names.names[n]) if names.counted else n):
        seam = seams[number]
        way = phrase(WAYS[seam.press]) if names.counted and seam.press in WAYS else ""
        way = way if names.counted else _say_towards(seam)
        groups.setdefault(way, []).append(number)
    return groups


def _say_groups(groups: dict[str, list[int]], names: SeamNames) -> list[str]:
    """The seams by where they go: "seams 1 and 3, counted from the left, to the right"."""
    found: list[str] = []
    for way, numbers in groups.items():
        counted = f", {names.counted}," if names.counted and not found else ""
        found.append(f"{names.say(numbers)}{counted} {way}")
    return found


def _say_spin(stage: Stage, seam: PressedSeam) -> str:
    """How a seam is spun, half by half."""
    corners = stage.work.corners
    size = complex(float(stage.work.width), float(stage.work.height))
    centre = sum(corners, 0j) / len(corners)
    first, second = (_say_half(half, centre, size) for half in seam.halves)
    return phrase(SPIN, first=first, second=second, round=say_round(seam))


def _say_half(half: Half, centre: complex, size: complex) -> str:
    name = HALVES[say_place((half.start + half.end) / 2 - centre, size)]
    return f"{phrase(name)} {phrase(WAYS[half.press])}"


def say_round(seam: PressedSeam) -> str:
    """Which way round the allowances of a spun seam lie."""
    return phrase("clockwise") if seam.clockwise else phrase("anticlockwise")


def press_reason(stage: Stage) -> str:
    """Why it is pressed that way."""
    if is_spun(stage):
        return phrase(SPREAD)
    towards = {seam.towards for seam in stage.seams}
    reasons = [phrase(REASONS[side]) for side in sorted(REASONS) if phrase(side) in towards]
    if _are_open(stage.seams):
        return phrase(OPENED)
    nesting = phrase(NESTING) if stage.meets_others else ""
    return sentences(*reasons[:1], nesting) or phrase(ONE_SIDE)


def is_spun(stage: Stage) -> bool:
    """Whether the last seam is spun, in some copies at least."""
    return any(seam.press == SPUN for _, seams in stage.ways for seam in seams)


def say_seam(seam: PressedSeam) -> str:
    """Where one seam goes, in words."""
    return say_round(seam) if seam.press == SPUN else _say_towards(seam)


def _say_towards(seam: PressedSeam) -> str:
    if seam.press == OPEN or seam.towards in map(phrase, UNITS) or _is_between_equals(seam):
        return phrase(WAYS[seam.press])
    return _say_side(seam.towards)


def _is_between_equals(seam: PressedSeam) -> bool:
    """Whether a word for what lies at its side would fit both sides of a seam."""
    return seam.line.left.words == seam.line.right.words == seam.towards


def _say_side(towards: str) -> str:
    """Towards a cloth by its name, which takes an article; or towards what has its own, such as a border."""
    if re.match(phrase(NAMED), towards):
        return phrase("towards {part}", part=towards)
    return phrase("towards the {cloth}", cloth=towards)


def _shape(stage: Stage, seams: Sequence[PressedSeam]) -> str:
    """Inward and outward, as the trade says it, for a row of three."""
    ways = [seam.press for seam in seams]
    if stage.work.kind == "row" and ways == ["right", "left"]:
        return phrase(": inwards, to the middle")
    if stage.work.kind == "row" and ways == ["left", "right"]:
        return phrase(": outwards, away from the middle")
    return ""
